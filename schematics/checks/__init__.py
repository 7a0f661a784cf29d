"""The checks, one family a file. A new family is one new file and one line in `FAMILIES`."""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from types import MappingProxyType

from schematics.checks import (
    arm_place,
    borders,
    chart_counts,
    cloth_findings,
    counts,
    flat,
    intent,
    neck_ties,
    seams,
    slot,
)
from schematics.checks.finding import Case, Explanation, Family, Finding, Topic
from schematics.checks.ruled import ruled_family
from schematics.errors import SchematicsError

FAMILIES: tuple[Family, ...] = (
    seams.FAMILY,
    slot.FAMILY,
    ruled_family("neck"),
    neck_ties.FAMILY,
    ruled_family("arms", arm_place.check, arm_place.EXPLANATION),
    ruled_family("reach"),
    ruled_family("spread"),
    ruled_family("girth"),
    ruled_family("hang"),
    counts.FAMILY,
    chart_counts.FAMILY,
    borders.FAMILY,
    flat.FAMILY,
    intent.FAMILY,
)
"""Every family of checks, in the order their findings are reported."""

EXPLANATIONS: Mapping[str, Explanation] = MappingProxyType(
    {each.code: each for family in FAMILIES for each in family.explanations}
)
"""The explanation of every finding of those by its code."""

TOPICS: tuple[Topic, ...] = (*FAMILIES, cloth_findings.TOPIC)
"""Those, and what a command finds when it is asked for, since it takes long."""

EXPLAINED: Mapping[str, Explanation] = MappingProxyType(
    {each.code: each for topic in TOPICS for each in topic.explanations}
)
"""The explanation of every finding there is by its code."""


class UnknownCodeError(SchematicsError):
    """No check gives that code; the text suggests codes that are spelt alike."""

    def __init__(self, code: str) -> None:
        near = difflib.get_close_matches(code.upper(), EXPLAINED, n=3)
        hint = f"did you mean {' or '.join(near)}?" if near else f"the codes are {', '.join(EXPLAINED)}."
        super().__init__(f"no finding has the code {code!r}; {hint}")


def check_size(case: Case) -> tuple[Finding, ...]:
    """Every finding on one size, family by family."""
    return tuple(finding for family in FAMILIES for finding in family.check(case))


def check_making(case: Case) -> tuple[Finding, ...]:
    """The findings of `check_size` that do not depend on the wearer."""
    return tuple(finding for family in FAMILIES for finding in (family.making or family.check)(case))


def explain(code: str) -> Explanation:
    """The explanation of a finding's code, in capitals or not.

    Raises:
        UnknownCodeError: no check gives that code.
    """
    explanation = EXPLAINED.get(code.upper())
    if explanation is None:
        raise UnknownCodeError(code)
    return explanation


__all__ = [
    "EXPLAINED",
    "EXPLANATIONS",
    "FAMILIES",
    "TOPICS",
    "UnknownCodeError",
    "check_making",
    "check_size",
    "explain",
]
