"""What moves a quantity that no straight line tells, round the counts of one size."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from schematics.constructions.facts import Lever
from schematics.grading.bends import Bend, margin_cm
from schematics.grading.made import Counts, Workshop
from schematics.grading.rules import SizeCase
from schematics.linear import Linear


@dataclass(frozen=True, slots=True)
class Levers:
    """What moves the quantity that bends, and what of it is free to move."""

    case: SizeCase
    workshop: Workshop
    bend: Bend
    counts: Counts

    @property
    def all(self) -> tuple[Lever, ...]:
        """What moves the quantity."""
        gradable = self.workshop.draft.gradable
        return gradable.levers.get(self.bend.quantity, ()) if gradable else ()

    @property
    def slice(self) -> int | None:
        """The lever that leaves the others straight while it stands."""
        gradable = self.workshop.draft.gradable
        by = gradable.slices.get(self.bend.quantity) if gradable else None
        return next((at for at, lever in enumerate(self.all) if lever.by == by), None)

    def straight(self, at: int) -> bool:
        """Whether the lever moves the quantity evenly, in the slice if there is one."""
        return self.all[at].straight or self.slice is not None

    def free(self, lever: Lever) -> bool:
        """Whether not all its counts are fixed by hand."""
        return not lever.value.terms.keys() <= self.case.size.given.keys()

    @property
    def fixed_here(self) -> bool:
        """Whether the levers fixed by hand stand as in the counts."""
        given = self.case.size.given
        return all(
            each.value.at(given) == each.value.at(self.counts) for each in self.all if not self.free(each)
        )

    def moved(self, steps: Mapping[int, int]) -> dict[str, int]:
        """The counts with so many steps of the levers, by their places."""
        counts = dict(self.counts)
        for at, step in steps.items():
            counts[self.all[at].by] += step * self.counts_per_step(at)
        return counts

    def counts_per_step(self, at: int) -> int:
        """Stitches or rows in a step of the lever: more than one where a body needs a multiple."""
        by = Linear.of(self.all[at].by)
        return math.lcm(*(each.row.multiple or 1 for each in self.case.facts.demands if each.row.value == by))

    def per_step(self, at: int) -> float:
        """How much a step adds to the lever's sum."""
        lever = self.all[at]
        return lever.value.terms[lever.by] * self.counts_per_step(at)

    def margin_cm(self, steps: Mapping[int, int]) -> float | None:
        """The quantity's margin so many steps of the levers away; None where it is not measured."""
        try:
            findings = self.workshop.findings(self.case.index, self.moved(steps), self.bend.code)
        except ValueError:
            return None
        return margin_cm(self.case, self.bend, findings)
