"""What is searched: sizes to be graded together, all they must keep and cost, and what is tied to what."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from schematics.grading.asks import asks_of
from schematics.grading.candidates import Chooser
from schematics.grading.case import Ask, Cost, SizeCase
from schematics.grading.costs import costs_of, length_costs
from schematics.grading.price import APART, GrowthStep

EQUAL = 1e-6
"""Costs this near are equal."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Solution:
    """Counts for every size, their cost, and the least any counts could cost."""

    counts: tuple[Mapping[str, float], ...]
    cost_cm: float
    bound_cm: float
    every: float | None = None

    @property
    def gap_cm(self) -> float:
        """How much better another answer could be at most."""
        gap = self.cost_cm - self.bound_cm
        return gap if gap > EQUAL else 0.0


@dataclass(frozen=True)
class Search:
    """Sizes to be graded together, in their order.

    ``left_out`` are asks and costs of sizes to ignore; ``only`` are the intervals of increases to look at,
    where not all are. Where ``lengths_alone``, nothing costs but lengths that are off.
    """

    cases: tuple[SizeCase, ...]
    left_out: frozenset[tuple[int, str]] = frozenset()
    only: tuple[float, ...] = ()
    lengths_alone: bool = False

    @cached_property
    def asks(self) -> tuple[tuple[Ask, ...], ...]:
        """What each size must keep."""
        return tuple(
            tuple(each for each in asks_of(case) if (case.index, each.key) not in self.left_out)
            for case in self.cases
        )

    @cached_property
    def costs(self) -> tuple[tuple[Cost, ...], ...]:
        """What each size costs."""
        costs = length_costs if self.lengths_alone else costs_of
        return tuple(
            tuple(each for each in costs(case) if (case.index, each.name) not in self.left_out)
            for case in self.cases
        )

    @cached_property
    def steps(self) -> tuple[tuple[GrowthStep, ...], ...]:
        """What measurements may do between neighbours."""
        return tuple(tuple(_steps(*pair)) for pair in zip(self.cases, self.cases[1:], strict=False))

    @cached_property
    def intervals(self) -> tuple[float, ...]:
        """Intervals of increases that all sizes may share."""
        shaped = [case for case in self.cases if case.shaping]
        if self.only or not shaped:
            return self.only or (1,)
        by_hand = {each for case in shaped if (each := case.interval_by_hand) is not None}
        return tuple(sorted({*shaped[0].construction.intervals, *by_hand}))

    def apart_cost(self, every: float) -> float:
        """What it costs that some sizes, by hand, have another interval of increases than the others."""
        by_hand = [case.interval_by_hand for case in self.cases]
        return APART * sum(each is not None and each != every for each in by_hand)

    @cached_property
    def ties(self) -> tuple[tuple[frozenset[str], bool], ...]:
        """Sets of counts that are tied together, and whether loosely."""
        ties: list[tuple[frozenset[str], bool]] = []
        for case, its_asks, its_costs in zip(self.cases, self.asks, self.costs, strict=True):
            ties += [(ask.needs, ask.loose) for ask in its_asks]
            ties += [(cost.needs, cost.loose) for cost in its_costs]
            ties += [(frozenset({name}), False) for name in case.counts]
            own = (name for name in case.construction.counts if name.startswith("body."))
            ties += [(frozenset({*case.shaping, *own}), False)] if case.shaping else []
        lengths = self.cases[0].formulas.lengths
        steps = (step for between in self.steps for step in between)
        return (*ties, *((lengths[step.key].needs, False) for step in steps))

    @cached_property
    def parts(self) -> list[frozenset[str]]:
        """Sets of counts that nothing ties together but what is loose."""
        sets: list[frozenset[str]] = []
        for names, loose in self.ties:
            if not loose:
                joined = [each for each in sets if each & names]
                sets = [*(each for each in sets if not each & names), names.union(*joined)]
        return sorted(sets, key=sorted)

    @property
    def tied_loosely(self) -> frozenset[str]:
        """Counts that are tied to others loosely."""
        return frozenset[str]().union(*(names for names, loose in self.ties if loose))

    def choosers(self, names: frozenset[str], every: float) -> list[Chooser]:
        """What is to be chosen for each size of one of the parts, at that interval of increases."""
        return [
            Chooser(
                case=case,
                names=tuple(name for name in case.counts if name in names),
                asks=tuple(each for each in self.asks[at] if each.needs <= names and not each.loose),
                costs=tuple(each for each in self.costs[at] if each.needs <= names and not each.loose),
                every=every,
            )
            for at, case in enumerate(self.cases)
        ]

    def steps_of(self, names: frozenset[str]) -> list[list[GrowthStep]]:
        """The steps of lengths that only these counts make, from each size to the next."""
        case = self.cases[0]
        return [
            [each for each in between if case.formulas.lengths[each.key].needs <= names]
            for between in self.steps
        ]


def _steps(before: SizeCase, after: SizeCase) -> Iterator[GrowthStep]:
    for key in before.formulas.growing:
        if key in before.targets_cm and key in after.targets_cm:
            yield GrowthStep(
                key=key,
                wanted_cm=after.targets_cm[key] - before.targets_cm[key],
                unit_cm=after.unit_cm(key),
                weight=before.wishes.steps * max(before.weight(key), 0.0) if before.wishes else 0.0,
            )
