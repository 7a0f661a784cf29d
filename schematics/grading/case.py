"""One size to be graded: its formulas on columns of counts, and the forms of what is asked and what costs."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from schematics.checks.tape import Tape
from schematics.design.design import Meant, Parts
from schematics.design.limits import Limits
from schematics.garment.constructions.facts import Facts, Gradable
from schematics.garment.linear import Counts, Linear, Numbers
from schematics.grading.draft import DraftSize, Wishes
from schematics.grading.price import TOLERANCE, TOLERANCE_CM
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
    miss: Callable[[Counts], Numbers]
    code: str = ""
    cure: str = ""
    count: str = ""
    loose: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """Something a size's counts cost, in cm; ``name`` is the key of a length or the code of a finding."""

    name: str
    needs: frozenset[str]
    cost: Callable[[Counts], Numbers]
    loose: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeCase:
    """One size with its formulas, its wearer, and the lengths that are meant for it in cm."""

    index: int
    size: DraftSize
    facts: Facts
    gradable: Gradable
    wearer: Wearer
    parts: Parts
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
        return (*self.gradable.all_counts, *self.shaping)

    def base(self, names: frozenset[str]) -> frozenset[str]:
        """The counts behind names of which some may follow from counts."""
        follows = {each.name: each.needs for each in self.facts.picked_up}
        return frozenset[str]().union(*(follows.get(name, {name}) for name in names))

    def needs(self, *values: Linear) -> frozenset[str]:
        """The counts that sums depend on."""
        return self.base(frozenset[str]().union(*(value.needs for value in values)))

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
        return self._unit_cm(self.facts.lengths[key])

    def _unit_cm(self, length: Linear) -> float:
        repeats = dict.fromkeys(length.terms, 1)
        for pattern in self.facts.patterns:
            for name in pattern.count.needs & repeats.keys():
                if len(pattern.count.terms) == 1:
                    repeats[name] = pattern.rule.multiple
        return min(abs(factor) * repeats[name] for name, factor in length.terms.items())

    def _half_unit_cm(self, key: str) -> float:
        """Half of the least a length, or the edge it is seamed to, can grow by."""
        length = self.facts.lengths[key]
        alike = [length]
        for seam in self.facts.seams:
            sides = seam.first_cm, seam.second_cm
            alike += [other for one, other in (sides, sides[::-1]) if one.needs == length.needs]
        return max(map(self._unit_cm, alike)) / 2

    def with_following(self, counts: Counts) -> Counts:
        """The counts with those that follow from them."""
        found = dict(counts)
        for each in self.facts.picked_up:
            if each.name not in found and each.needs <= counts.keys():
                found[each.name] = each.count(counts)
        return found

    def length_cm(self, key: str, counts: Counts) -> Numbers:
        """A finished measurement."""
        return self.facts.lengths[key].at(self.with_following(counts))
