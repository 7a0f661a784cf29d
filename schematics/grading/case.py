"""One size to be graded: its formulas on columns of counts, and the forms of what is asked and what costs."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from schematics.checks.tape import Tape
from schematics.design.design import Meant, Parts
from schematics.design.limits import TOLERANCE, TOLERANCE_CM, Limits
from schematics.garment.amounts import CountValues, Formula, Numbers
from schematics.garment.constructions import Construction
from schematics.garment.constructions.formulas import Formulas
from schematics.grading.draft import DraftSize, Wishes
from schematics.wearer.body import Wearer


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """Something a size's counts must keep: ``miss`` is nought where they do.

    ``count`` is given where the ask is that a count is as by hand. ``loose`` asks tie counts together that
    otherwise have nothing to do with each other.
    """

    key: str
    words: str
    needs: frozenset[str]
    miss: Callable[[CountValues], Numbers]
    code: str = ""
    cure: str = ""
    count: str = ""
    loose: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """Something a size's counts cost, in cm; ``name`` is the key of a length or the code of a finding."""

    name: str
    needs: frozenset[str]
    cost: Callable[[CountValues], Numbers]
    loose: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeCase:
    """One size with its formulas, its wearer, and the lengths that are meant for it in cm."""

    index: int
    size: DraftSize
    formulas: Formulas
    construction: Construction
    parts: Parts
    wearer: Wearer
    limits: Limits
    tape: Tape
    settings: Mapping[str, Any]
    shaping: tuple[str, ...]
    wishes: Wishes | None
    targets_cm: Mapping[str, float] = field(default_factory=dict)

    @property
    def complete(self) -> bool:
        """Whether nothing is left to find."""
        return all(count in self.size.given for count in self.counts)

    @property
    def interval_by_hand(self) -> float | None:
        """Rows from one increase row to the next where they are given by hand."""
        return self.size.given.get(self.shaping[0]) if self.shaping else None

    @property
    def counts(self) -> tuple[str, ...]:
        """Every count of the size."""
        return (*self.construction.counts, *self.shaping)

    @property
    def meant(self) -> tuple[Meant, ...]:
        """The lengths that are meant, with their tolerances."""
        return tuple(
            Meant(key=key, length_cm=length_cm, tolerance_cm=self.tolerance_cm(key))
            for key, length_cm in self.targets_cm.items()
        )

    def weight(self, key: str) -> float:
        """How much a centimetre off matters."""
        return self.wishes.weights.get(key, 1.0) if self.wishes else 1.0

    def tolerance_cm(self, key: str) -> float:
        """How far off what was meant a length may be."""
        if self.wishes and key in self.wishes.tolerances_cm:
            return self.wishes.tolerances_cm[key]
        usual = max(TOLERANCE_CM, TOLERANCE * abs(self.targets_cm[key]))
        return max(usual, self._half_unit_cm(key))

    def unit_cm(self, key: str) -> float:
        """The least a length can grow by: a stitch, a row, or a repeat of them."""
        return self._unit_cm(self.formulas.lengths[key])

    def _unit_cm(self, length: Formula) -> float:
        repeats = dict.fromkeys(length.slopes, 1)
        for pattern in self.formulas.patterns:
            slopes = pattern.kept.value.slopes
            if len(slopes) == 1:
                repeats |= {name: pattern.rule.step or 1 for name in slopes if name in repeats}
        return min(abs(slope) * repeats[name] for name, slope in length.slopes.items())

    def _half_unit_cm(self, key: str) -> float:
        """Half of the least a length, or the edge it is seamed to, can grow by."""
        length = self.formulas.lengths[key]
        alike: list[Formula] = [length]
        for seam in self.formulas.seams:
            sides = seam.first_cm, seam.second_cm
            alike += [other for one, other in (sides, sides[::-1]) if one.needs == length.needs]
        return max(map(self._unit_cm, alike)) / 2
