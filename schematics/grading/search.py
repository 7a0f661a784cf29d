"""The counts of every size at once.

Counts that nothing ties together are parts that are found by themselves: the body with the panel, say, and
the depth of a band. What ties parts together all the same, reach and spread, is looked at afterwards; where
it costs nothing, the parts make the best answer there is, else they are found anew as one.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from schematics.grading.candidates import Choices, Chooser, TooManyError
from schematics.grading.case import Ask, Cost, SizeCase
from schematics.grading.chain import Layer, Way, shortest
from schematics.grading.price import Step
from schematics.linear import HAIR

EQUAL = 1e-6
"""Costs this near are equal."""
_FIRST_SLACK = 2.5
_FIRST_LIMIT, _WIDER = 4.0, 8.0
"""What a size may cost at an interval in the first round, and how much more in the next."""
_MOST, _MOST_ROUNDS = 20_000, 200
"""Choices listed of one size, and rounds of splitting groups of them: what bounds the work."""
_WIDEST = 2.0**16
"""The highest cost at which choices are looked for: that of a length 80 cm beyond its tolerance."""


class InfeasibleError(Exception):
    """No counts of a size keep everything they must."""

    def __init__(self, index: int) -> None:
        self.index = index
        super().__init__(index)


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
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
    """Sizes to be graded together, in their order; ``left_out`` are asks and costs of sizes to ignore."""

    cases: tuple[SizeCase, ...]
    left_out: frozenset[tuple[int, str]] = frozenset()

    @cached_property
    def asks(self) -> tuple[tuple[Ask, ...], ...]:
        """What each size must keep."""
        return tuple(
            tuple(each for each in case.asks() if (case.index, each.key) not in self.left_out)
            for case in self.cases
        )

    @cached_property
    def costs(self) -> tuple[tuple[Cost, ...], ...]:
        """What each size costs."""
        return tuple(
            tuple(each for each in case.costs() if (case.index, each.name) not in self.left_out)
            for case in self.cases
        )

    @cached_property
    def steps(self) -> tuple[tuple[Step, ...], ...]:
        """What measurements may do between neighbours."""
        return tuple(tuple(_steps(*pair)) for pair in zip(self.cases, self.cases[1:], strict=False))

    def run(self) -> Found:
        """The best counts.

        Raises:
            InfeasibleError: a size has none.
        """
        waiting, limit = list(self._intervals()), _FIRST_LIMIT
        apart: list[Found] = []
        least = math.inf
        while waiting and limit < min(least, _WIDEST * _WIDER):
            for every in tuple(waiting):
                if found := self._apart(every, min(limit, least)):
                    apart.append(found)
                    waiting.remove(every)
                    least = min(least, found.cost_cm)
            limit *= _WIDER
        best: Found | None = None
        bound = math.inf
        for found in sorted(apart, key=lambda each: each.bound_cm):
            if best is not None and found.bound_cm >= best.cost_cm - EQUAL:
                bound = min(bound, found.bound_cm)
                continue
            whole = self._whole(found)
            if whole is not None:
                bound = min(bound, whole.bound_cm)
                best = whole if best is None or whole.cost_cm < best.cost_cm - EQUAL else best
        if best is None:
            raise InfeasibleError(self._first_infeasible())
        return replace(best, bound_cm=min(bound, best.cost_cm))

    def _intervals(self) -> Sequence[float]:
        given = {
            case.size.given[name]
            for case in self.cases
            for name in case.shaping[:1]
            if name in case.size.given
        }
        if not any(case.shaping for case in self.cases):
            return (1,)
        return tuple(sorted(given)) or self.cases[0].gradable.intervals

    def _apart(self, every: float, limit: float = math.inf) -> Found | None:
        """The best of every part by itself, with what ties parts together left aside.

        None where a part of a size has none, or none for up to ``limit``.
        """
        try:
            parts = [self._part(names, every, limit, tied=False) for names in self._parts]
        except InfeasibleError:
            return None
        return self._together(parts, every)

    def _whole(self, apart: Found) -> Found | None:
        """The best of all parts together at the same interval, given the best of each."""
        extra = [self._tied(at, counts) for at, counts in enumerate(apart.counts)]
        if max(extra, default=0.0) <= EQUAL:
            return apart
        every = apart.every or 1
        tied = frozenset[str]().union(*(names for names, loose in self._ties if loose))
        rest = [self._part(names, every, _WIDEST, tied=False) for names in self._parts if not names & tied]
        joined = frozenset[str]().union(*(names for names in self._parts if names & tied))
        try:
            return self._together([*rest, self._part(joined, every, _WIDEST, tied=True)], every)
        except InfeasibleError:
            return None

    def _together(self, parts: Sequence[Found], every: float) -> Found:
        counts = tuple(
            {name: value for part in parts for name, value in part.counts[at].items()}
            for at in range(len(self.cases))
        )
        return Found(
            counts=counts,
            cost_cm=sum(part.cost_cm for part in parts),
            bound_cm=sum(part.bound_cm for part in parts),
            every=every,
        )

    def _tied(self, at: int, counts: Mapping[str, float]) -> float:
        columns = {name: np.array([value]) for name, value in counts.items()}
        known = self.cases[at].with_following(columns)
        if any(ask.loose and ask.miss(known)[0] > HAIR for ask in self.asks[at]):
            return math.inf
        return float(sum(cost.cost(known)[0] for cost in self.costs[at] if cost.loose))

    @cached_property
    def _ties(self) -> tuple[tuple[frozenset[str], bool], ...]:
        """Sets of counts that are tied together, and whether loosely."""
        found: list[tuple[frozenset[str], bool]] = []
        for case, asks, costs in zip(self.cases, self.asks, self.costs, strict=True):
            found += [(ask.needs, ask.loose) for ask in asks] + [(cost.needs, cost.loose) for cost in costs]
            found += [(frozenset({name}), False) for name in case.counts]
            own = (name for name in case.gradable.counts if name.startswith("body."))
            found += [(frozenset({*case.shaping, *own}), False)] if case.shaping else []
        lengths = self.cases[0].facts.lengths
        steps = (step for between in self.steps for step in between)
        return (*found, *((self.cases[0].needs(lengths[step.key]), False) for step in steps))

    @cached_property
    def _parts(self) -> list[frozenset[str]]:
        """Sets of counts that nothing ties together but what is loose."""
        sets: list[frozenset[str]] = []
        for names, loose in self._ties:
            if not loose:
                joined = [each for each in sets if each & names]
                sets = [*(each for each in sets if not each & names), names.union(*joined)]
        return sorted(sets, key=sorted)

    def _choosers(self, names: frozenset[str], every: float, tied: bool) -> list[Chooser]:
        return [
            Chooser(
                case=case,
                names=tuple(name for name in case.counts if name in names),
                asks=tuple(
                    each for each in self.asks[at] if each.needs <= names and (tied or not each.loose)
                ),
                costs=tuple(
                    each for each in self.costs[at] if each.needs <= names and (tied or not each.loose)
                ),
                every=every,
            )
            for at, case in enumerate(self.cases)
        ]

    def _part(self, names: frozenset[str], every: float, limit: float, *, tied: bool) -> Found:
        """The best of some of the counts, for all sizes."""
        choosers = self._choosers(names, every, tied)
        steps = [
            [each for each in between if self.cases[0].needs(self.cases[0].facts.lengths[each.key]) <= names]
            for between in self.steps
        ]
        lists = [_cheapest(chooser, at, limit) for at, chooser in enumerate(choosers)]
        floors = [float(each.costs[0]) for each in lists]
        slack = [_FIRST_SLACK] * len(lists)
        lists = [
            chooser.choices(floor + _FIRST_SLACK, _MOST)
            for chooser, floor in zip(choosers, floors, strict=True)
        ]
        while True:
            layers = [self._layer(at, choices, steps) for at, choices in enumerate(lists)]
            way = shortest(layers, steps, _MOST_ROUNDS)
            wider = [at for at, row in enumerate(way.rows) if row < 0]
            if not wider:
                return _found(lists, way)
            if any(len(lists[at].costs) >= _MOST for at in wider):
                listed = [replace(layer, cutoff=math.inf) for layer in layers]
                return _found(lists, replace(shortest(listed, steps, _MOST_ROUNDS), bound=way.bound))
            for at in wider:
                slack[at] *= 2
                lists[at] = choosers[at].choices(floors[at] + slack[at], _MOST)

    def _layer(self, at: int, choices: Choices, steps: Sequence[Sequence[Step]]) -> Layer:
        case = self.cases[at]
        keys = {step.key for between in steps for step in between}
        counts = case.with_following(choices.columns)
        size = len(choices.costs)
        lengths = {key: np.broadcast_to(case.facts.lengths[key].at(counts), (size,)) for key in keys}
        return Layer(costs=choices.costs, lengths=lengths, cutoff=choices.cutoff)

    def _first_infeasible(self) -> int:
        """A size that has no counts at any interval."""
        alone = (Search(cases=(case,), left_out=self.left_out) for case in self.cases)
        return next((at for at, search in enumerate(alone) if not search.feasible), 0)

    @property
    def feasible(self) -> bool:
        """Whether a search of one size finds any counts."""
        return any(self._feasible_at(every) for every in self._intervals())

    def _feasible_at(self, every: float) -> bool:
        try:
            for names in self._parts:
                _cheapest(self._choosers(names, every, False)[0], 0, _WIDEST)
            if any(ask.loose for ask in self.asks[0]):
                _cheapest(self._choosers(frozenset[str]().union(*self._parts), every, True)[0], 0, _WIDEST)
        except InfeasibleError:
            return False
        return True


def _found(lists: Sequence[Choices], way: Way) -> Found:
    counts = tuple(choices.counts(row) for choices, row in zip(lists, way.rows, strict=True))
    return Found(counts=counts, cost_cm=way.cost, bound_cm=min(way.bound, way.cost))


def _cheapest(chooser: Chooser, at: int, limit: float) -> Choices:
    """The cheapest choice, which costs no more than ``limit`` beside what counts by hand cost."""
    bound = 0.25
    while bound < 2 * min(limit, _WIDEST):
        try:
            found = chooser.choices(chooser.by_hand + bound, 1)
        except TooManyError:
            break
        if len(found.costs):
            return found
        bound *= 2
    raise InfeasibleError(at)


def _steps(before: SizeCase, after: SizeCase) -> Iterator[Step]:
    keys = dict.fromkeys((*before.facts.growing, *before.targets_cm))
    for key in keys:
        if key not in before.facts.growing:
            continue
        wanted = after.targets_cm.get(key, math.nan) - before.targets_cm.get(key, math.nan)
        weight = before.wishes.steps * max(before.weight(key), 0.0) if before.wishes else 0.0
        yield Step(key=key, wanted_cm=wanted, unit_cm=after.unit_cm(key), weight=weight)
