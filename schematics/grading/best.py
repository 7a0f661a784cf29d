"""The counts of every size at once: the best there are.

Counts that nothing ties together are parts that are found by themselves: the body with the panel, say, and
the depth of a band. What ties parts together all the same, reach and spread, is looked at afterwards; where
it costs nothing, the parts make the best answer there is, else the parts that are tied are found anew as one.

Each interval of increases is looked at only as far as it may hold the best: the one that may be cheapest is
worked on, until one is found that costs no more than the others may.

References:
    A. H. Land and A. G. Doig, An automatic method of solving discrete programming problems, Econometrica 28
    (1960): the bound on what is not looked at.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

import numpy as np

from schematics.grading.candidates import Choices, Chooser, TooManyError
from schematics.grading.chain import Layer, Way, shortest
from schematics.grading.price import Step
from schematics.grading.search import EQUAL, Found, Search
from schematics.grading.tied import TiedChooser
from schematics.linear import HAIR

_FIRST_SLACK, _LEAST_SLACK = 2.5, 1e-6
"""How far beyond the cheapest choices are listed at first, and how near to it at least."""
_MOST, _MOST_ROUNDS = 20_000, 200
"""Choices listed of one size, and rounds of splitting groups of them: what bounds the work."""
_NARROWEST, _WIDEST = 2.0**-6, 2.0**17
"""The lowest and highest cost up to which choices are looked for; the latter of a length 114 cm off."""


class InfeasibleError(Exception):
    """No counts of the size at ``index`` keep all they must; None where only all sizes together have none."""

    def __init__(self, index: int | None) -> None:
        self.index = index
        super().__init__(index)


def best(search: Search) -> Found:
    """The best counts.

    Raises:
        InfeasibleError: there are none.
        TooManyError: there are so many that they cannot be listed.
    """
    for intervals in search.intervals:
        if found := _best_of([_AtInterval(search, every) for every in intervals]):
            return found
    alone = (Search(cases=(case,), left_out=search.left_out) for case in search.cases)
    raise InfeasibleError(next((at for at, each in enumerate(alone) if not feasible(each)), None))


def feasible(search: Search, every: float | None = None) -> bool:
    """Whether sizes have counts at any interval of increases, or at that one; True where it is not known."""
    intervals = [each for group in search.intervals for each in group] if every is None else [every]
    return any(_AtInterval(search, each).feasible for each in intervals)


def _best_of(intervals: Sequence[_AtInterval]) -> Found | None:
    found: Found | None = None
    waiting, left = list(intervals), math.inf
    while waiting:
        lowest = min(waiting, key=lambda each: each.least)
        if math.isinf(lowest.least) or (found and lowest.least >= found.cost_cm - EQUAL):
            break
        try:
            whole = lowest.advance()
        except TooManyError:
            waiting.remove(lowest)
            left = min(left, lowest.least)
            continue
        if whole is not None:
            waiting.remove(lowest)
            left = min(left, whole.bound_cm)
            found = whole if found is None or whole.cost_cm < found.cost_cm - EQUAL else found
    if found is None and math.isfinite(left):
        raise TooManyError
    return found and replace(found, bound_cm=min(left, found.cost_cm))


class _Floor:
    """The cheapest choice of some counts of a size, looked for up to higher and higher costs."""

    def __init__(self, chooser: Chooser | TiedChooser) -> None:
        self.chooser, self.least, self.sought = chooser, chooser.least, True
        self._width = _NARROWEST

    def advance(self) -> None:
        """Look up to twice the cost.

        Raises:
            TooManyError: there are too many choices to list.
        """
        choices = self.chooser.choices(self.chooser.least + self._width, 1)
        if len(choices.costs):
            self.least, self.sought = float(choices.costs[0]), False
        elif self._width >= _WIDEST:
            self.least, self.sought = math.inf, False
        else:
            self.least = self.chooser.least + self._width
            self._width *= 2

    def found(self) -> float:
        """The least cost; infinite where there is no choice."""
        while self.sought:
            self.advance()
        return self.least


class _AtInterval:
    """The sizes at one interval of increases; ``least`` is what they cost at least, as far as is known."""

    def __init__(self, search: Search, every: float) -> None:
        self.search, self.every = search, every
        self._floors = {
            names: [_Floor(chooser) for chooser in search.choosers(names, every)] for names in search.parts
        }
        self._parts: dict[frozenset[str], Found] = {}
        self.least = self._sum()

    def _sum(self) -> float:
        return sum(floor.least for floors in self._floors.values() for floor in floors)

    def advance(self) -> Found | None:
        """Look on; the best counts when they are found, which never are where ``least`` is infinite."""
        sought = [floor for floors in self._floors.values() for floor in floors if floor.sought]
        if sought:
            for floor in sought:
                floor.advance()
            self.least = self._sum()
        elif not self._parts:
            self._parts = {names: self._part(names, floors) for names, floors in self._floors.items()}
            self.least = sum(part.bound_cm for part in self._parts.values())
        else:
            return self._whole()
        return None

    def _part(self, names: frozenset[str], floors: Sequence[_Floor]) -> Found:
        return _best_way(self.search, names, floors)

    def _whole(self) -> Found | None:
        """The best of all parts together, given the best of each."""
        parts = dict(self._parts)
        apart = self._together(parts.values())
        if max(self._tied_cost(at, counts) for at, counts in enumerate(apart.counts)) > EQUAL:
            tied = self.search.tied_loosely
            joined = [names for names in parts if names & tied]
            floors = [_Floor(chooser) for chooser in self._tied(joined)]
            if math.isinf(sum(floor.found() for floor in floors)):
                self.least = math.inf
                return None
            whole = frozenset[str]().union(*joined)
            parts = {names: part for names, part in parts.items() if names not in joined}
            parts[whole] = self._part(whole, floors)
        return self._together(parts.values())

    def _tied(self, joined: Sequence[frozenset[str]]) -> list[TiedChooser]:
        return [
            TiedChooser(
                case=case,
                parts=tuple(self._floors[names][at].chooser for names in joined),
                floors=tuple(self._floors[names][at].least for names in joined),
                asks=tuple(ask for ask in self.search.asks[at] if ask.loose),
                costs=tuple(cost for cost in self.search.costs[at] if cost.loose),
            )
            for at, case in enumerate(self.search.cases)
        ]

    def _together(self, parts: Collection[Found]) -> Found:
        counts = tuple(
            {name: value for part in parts for name, value in part.counts[at].items()}
            for at in range(len(self.search.cases))
        )
        return Found(
            counts=counts,
            cost_cm=sum(part.cost_cm for part in parts),
            bound_cm=sum(part.bound_cm for part in parts),
            every=self.every,
        )

    def _tied_cost(self, at: int, counts: Mapping[str, float]) -> float:
        columns = {name: np.array([value]) for name, value in counts.items()}
        known = self.search.cases[at].with_following(columns)
        if any(ask.loose and ask.miss(known)[0] > HAIR for ask in self.search.asks[at]):
            return math.inf
        return float(sum(cost.cost(known)[0] for cost in self.search.costs[at] if cost.loose))

    @property
    def feasible(self) -> bool:
        """Whether every size has counts by itself; True where that is not known."""
        try:
            if any(math.isinf(floor.found()) for floors in self._floors.values() for floor in floors):
                return False
            joined = [names for names in self._floors if names & self.search.tied_loosely]
            return not any(math.isinf(_Floor(chooser).found()) for chooser in self._tied(joined))
        except TooManyError:
            return True


def _best_way(search: Search, names: frozenset[str], floors: Sequence[_Floor]) -> Found:
    """The best of some of the counts, for all sizes."""
    steps = search.steps_of(names)
    slack = [_FIRST_SLACK] * len(floors)
    lists: list[Choices] = []
    for at, floor in enumerate(floors):
        while (choices := _listed(floor, slack[at])) is None:
            slack[at] /= 2
        lists.append(choices)
    while True:
        layers = [_layer(search, at, choices, steps) for at, choices in enumerate(lists)]
        way = shortest(layers, steps, _MOST_ROUNDS)
        unlisted = [at for at, row in enumerate(way.rows) if row < 0]
        if not unlisted:
            return _found(lists, way)
        wider = {at: _listed(floors[at], slack[at] * 2) for at in unlisted}
        if any(wider[at] is None or len(lists[at].costs) >= _MOST for at in unlisted):
            only_listed = [replace(layer, cutoff=math.inf) for layer in layers]
            return _found(lists, replace(shortest(only_listed, steps, _MOST_ROUNDS), bound=way.bound))
        for at, choices in wider.items():
            if choices is not None:
                slack[at] *= 2
                lists[at] = choices


def _listed(floor: _Floor, slack: float) -> Choices | None:
    """The choices no dearer than that beside the cheapest; None where there are too many."""
    try:
        return floor.chooser.choices(floor.least + slack, _MOST)
    except TooManyError:
        if slack < _LEAST_SLACK:
            raise
        return None


def _layer(search: Search, at: int, choices: Choices, steps: Sequence[Sequence[Step]]) -> Layer:
    case = search.cases[at]
    keys = {step.key for between in steps for step in between}
    counts = case.with_following(choices.columns)
    size = len(choices.costs)
    lengths = {key: np.broadcast_to(case.facts.lengths[key].at(counts), (size,)) for key in keys}
    return Layer(costs=choices.costs, lengths=lengths, cutoff=choices.cutoff)


def _found(lists: Sequence[Choices], way: Way) -> Found:
    counts = tuple(choices.counts(row) for choices, row in zip(lists, way.rows, strict=True))
    return Found(counts=counts, cost_cm=way.cost, bound_cm=min(way.bound, way.cost))
