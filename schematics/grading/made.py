"""Counts made into garments and checked: the last word on what grading finds."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from schematics.arm_freedom import ArmFreedom, arm_freedom
from schematics.checks import FAMILIES
from schematics.checks.finding import Case, Family, Finding
from schematics.constructions import CONSTRUCTIONS
from schematics.garment import Garment
from schematics.grading.draft import Draft
from schematics.grading.rules import SizeCase

Counts = Mapping[str, int]
"""One size's counts by their keys."""
_Key = tuple[tuple[str, int], ...]

_NEED_WALKS = frozenset({"REACH-BAND", "SPREAD-ARMS"})


@dataclass(frozen=True, slots=True)
class Workshop:
    """Makes and checks sizes of one draft, and remembers what came of it."""

    draft: Draft
    cases: tuple[SizeCase, ...]
    _known: dict[tuple[int, str, _Key], tuple[Finding, ...]] = field(default_factory=dict)
    _garments: dict[tuple[str, _Key], Garment] = field(default_factory=dict)
    _walked: dict[tuple[str, _Key], ArmFreedom | None] = field(default_factory=dict)

    def findings(self, index: int, counts: Counts, code: str = "") -> tuple[Finding, ...]:
        """Every finding on a size made with these counts, or only those of one family.

        Args:
            index: which size.
            counts: all its counts.
            code: a code of the family; all families where empty.

        Raises:
            ValueError: the construction refuses the counts.
        """
        key = (index, code, tuple(sorted(counts.items())))
        if key not in self._known:
            families = [_FAMILY[code]] if code else FAMILIES
            walks = not code or code in _NEED_WALKS
            case = self._case(index, counts, walks=walks)
            self._known[key] = tuple(each for family in families for each in family.check(case))
        return self._known[key]

    def alike(self, one: int, other: int) -> bool:
        """Whether two sizes are the same garment where their counts are, with the same counts to be found."""
        first, second = (self.cases[index].size for index in (one, other))
        return first.settings == second.settings and first.given.keys() == second.given.keys()

    def _case(self, index: int, counts: Counts, *, walks: bool) -> Case:
        head, case = self.draft.head, self.cases[index]
        size = self.draft.size(case.size, counts)
        key = (repr(case.size.settings), tuple(sorted(counts.items())))
        if key not in self._garments:
            self._garments[key] = CONSTRUCTIONS[head.construction].build(size, head.parts)
        garment = self._garments[key]
        if walks and key not in self._walked:
            self._walked[key] = arm_freedom(garment)
        return Case(
            design=head,
            size=size,
            garment=garment,
            freedom=self._walked[key] if walks else None,
            wearer=case.wearer,
            limits=head.limits,
        )


_FAMILY: dict[str, Family] = {each.code: family for family in FAMILIES for each in family.explanations}
