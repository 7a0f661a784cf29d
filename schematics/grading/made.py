"""Counts made into garments and checked: the last word on what grading finds."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from schematics.arm_freedom import arm_freedom
from schematics.checks import FAMILIES
from schematics.checks.finding import Case, Family, Finding
from schematics.constructions import CONSTRUCTIONS
from schematics.grading.draft import Draft
from schematics.grading.rules import SizeCase

Counts = Mapping[str, int]
"""One size's counts by their keys."""

_NEED_WALKS = frozenset({"REACH-BAND", "SPREAD-ARMS"})


@dataclass(frozen=True, slots=True)
class Workshop:
    """Makes and checks sizes of one draft, and remembers what came of it."""

    draft: Draft
    cases: tuple[SizeCase, ...]
    _known: dict[tuple[int, str, tuple[tuple[str, int], ...]], tuple[Finding, ...]] = field(
        default_factory=dict
    )

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

    def _case(self, index: int, counts: Counts, *, walks: bool) -> Case:
        head, case = self.draft.head, self.cases[index]
        size = self.draft.size(case.size, counts)
        garment = CONSTRUCTIONS[head.construction].build(size, head.parts)
        return Case(
            design=head,
            size=size,
            garment=garment,
            freedom=arm_freedom(garment) if walks else None,
            wearer=case.wearer,
            limits=head.limits,
        )


_FAMILY: dict[str, Family] = {each.code: family for family in FAMILIES for each in family.explanations}
