"""Every verdict that depends on the wearer: the checks, groups and pages all go by these."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache

from schematics.checks.rules import arms, girth, hang, neck, reach
from schematics.checks.rules.rule import Rule
from schematics.design.limits import Limits
from schematics.wearer.body import Body

RULES: Mapping[str, tuple[Callable[[Limits], Rule], ...]] = {
    "neck": (neck.passes_head, neck.clears_neck, neck.stays_on),
    "arms": (arms.passes_hand, arms.sits_on_wrist),
    "reach": (reach.reach,),
    "spread": (reach.spread,),
    "girth": (girth.has_room,),
    "hang": (hang.clears_knee, hang.hem_place),
}
"""The rules of each family, in the order of the checks."""


@cache
def size_rules(limits: Limits) -> tuple[Rule, ...]:
    """The rules under these limits, in the order of the checks."""
    return tuple(rule(limits) for family in RULES.values() for rule in family)


def asked_bodies(limits: Limits) -> frozenset[Body]:
    """The measurements that the rules need, and the height for estimates."""
    return frozenset(body for rule in size_rules(limits) for body in rule.needs) | {Body.HEIGHT}
