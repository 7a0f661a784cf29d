"""Every verdict that depends on the wearer: the checks, groups and pages all go by these."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache

from schematics.checks.rules import arms, girth, hang, neck
from schematics.checks.rules.reach import reach_rules, spread_rules
from schematics.checks.rules.rule import Rule
from schematics.design.limits import Limits

RULES: Mapping[str, Callable[[Limits], tuple[Rule, ...]]] = {
    "neck": neck.rules,
    "arms": arms.rules,
    "reach": reach_rules,
    "spread": spread_rules,
    "girth": girth.rules,
    "hang": hang.rules,
}
"""The rules of each family, in the order of the checks."""


@cache
def size_rules(limits: Limits) -> tuple[Rule, ...]:
    """The rules under these limits, in the order of the checks."""
    return tuple(rule for rules_of in RULES.values() for rule in rules_of(limits))
