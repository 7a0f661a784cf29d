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
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from schematics.grading.candidates import Choices, Chooser, TooManyError
from schematics.grading.chain import Offers, shortest
from schematics.grading.columns import one_row
from schematics.grading.price import GrowthStep
from schematics.grading.search import EQUAL, Search, Solution
from schematics.grading.tied import TiedChooser
from schematics.units import HAIR

_FIRST_SLACK, _LEAST_SLACK = 2.5, 1e-6
"""How far beyond the cheapest choices are listed at first, and how near to it at least."""
_MOST, _MOST_ROUNDS = 20_000, 400
"""Choices listed of one size, and rounds of splitting groups of them: what bounds the work."""
_MOST_LOOKED_AT = 2_000_000
"""Choices looked at for the cheapest of each size, in part or whole; twenty sizes need some 140,000."""
_NARROWEST, _WIDEST = 2.0**-2, 2.0**14
"""The lowest and highest cost up to which choices are looked for; the latter of a length 40 cm off."""
_FAR, _FARTHER = 32.0, 7.0
"""From that cost on the next is not twice but eight times as high."""
_LEAST_MORE = 0.5
"""By so much more cost at least the search goes on."""
_NEAR_TOO_FAR = 0.3
"""Between a cost with too many choices and one without that is by so small a share lower nothing is tried."""
_COARSER, _COARSEST = 3, 27
"""Where there are too many choices, one of so many values of a count is looked at; odd, for parity."""


class InfeasibleError(Exception):
    """No counts of the size at ``index`` keep all they must; None where only all sizes together have none."""

    def __init__(self, index: int | None) -> None:
        self.index = index
        super().__init__(index)


@dataclass
class SearchMemo:
    """What searches of the same sizes found of parts alike in them.

    So many choices were ``looked_at`` by them together; from about ``most`` on they give up.
    """

    floors: dict[tuple[object, ...], _Floor] = field(default_factory=dict)
    parts: dict[tuple[object, ...], Solution] = field(default_factory=dict)
    looked_at: int = 0
    most: float = math.inf

    def advance(self, floor: _Floor) -> None:
        """Look up to a higher cost, or where no more may be looked at be content with what is found.

        Raises:
            TooManyError: no more may be looked at, and nothing was found.
        """
        if self.looked_at > self.most:
            if math.isinf(floor.cheapest):
                raise TooManyError
            floor.take()
            return
        try:
            floor.advance()
        finally:
            self.looked_at += floor.looked_at

    def any_tied(self, chooser: TiedChooser) -> bool:
        """Whether there is a choice; parts that cost more and more are crossed until there is.

        Raises:
            TooManyError: no more may be looked at, and it is still open.
        """
        reach = _NARROWEST
        while self.looked_at <= self.most:
            choices = chooser.choices(chooser.least + _WIDEST, 1, chooser.least + reach)
            self.looked_at += choices.looked_at
            if len(choices.costs) or reach >= _WIDEST:
                return len(choices.costs) > 0
            reach *= 2
        raise TooManyError

    def cheapest(self, floors: Iterable[_Floor], most: float = math.inf) -> float:
        """The cost of the cheapest choices; infinite where there are none, or they cost over ``most``."""
        floors = list(floors)
        while any(floor.sought for floor in floors):
            if sum(floor.least for floor in floors) > most:
                return math.inf
            for floor in floors:
                if floor.sought:
                    self.advance(floor)
        return sum(floor.cheapest for floor in floors)


def best(search: Search, memo: SearchMemo | None = None) -> Solution:
    """The best counts.

    Args:
        search: the sizes, and all they must keep and cost.
        memo: filled by searches of the same sizes, less some of what they must keep or cost.

    Raises:
        InfeasibleError: there are none.
        TooManyError: there are so many that they cannot be listed, or more than ``memo`` allows.
    """
    memo = memo or SearchMemo(most=_MOST_LOOKED_AT)
    if solution := _best_of([_AtInterval(search, every, memo) for every in search.intervals]):
        return solution
    alone = (Search(cases=(case,), left_out=search.left_out) for case in search.cases)
    raise InfeasibleError(next((at for at, each in enumerate(alone) if not feasible(each)), None))


def feasible(search: Search, every: float | None = None, memo: SearchMemo | None = None) -> bool:
    """Whether sizes have counts at any interval of increases, or at that one; True where it is not known.

    ``memo`` is one that only such questions fill, as they are asked without what costs besides lengths.
    """
    by_hand = {case.interval_by_hand for case in search.cases}
    intervals = search.intervals if None in by_hand else search.intervals[:1]
    intervals, memo = intervals if every is None else (every,), memo or SearchMemo()
    search = replace(search, lengths_alone=True)
    return any(_AtInterval(search, each, memo).feasible for each in intervals)


def _best_of(intervals: Sequence[_AtInterval]) -> Solution | None:
    solution: Solution | None = None
    waiting, left = list(intervals), math.inf
    while waiting:
        lowest = min(waiting, key=lambda each: each.least)
        if math.isinf(lowest.least) or (solution and lowest.least >= solution.cost_cm - EQUAL):
            break
        try:
            whole = lowest.advance(solution.cost_cm if solution else math.inf)
        except TooManyError:
            waiting.remove(lowest)
            left = min(left, lowest.least)
            continue
        if whole is not None:
            waiting.remove(lowest)
            left = min(left, whole.bound_cm)
            solution = whole if solution is None or whole.cost_cm < solution.cost_cm - EQUAL else solution
    if solution is None and math.isfinite(left):
        raise TooManyError
    return solution and replace(solution, bound_cm=min(left, solution.cost_cm))


class _Floor:
    """The cheapest choice of some counts of a size, looked for up to higher and higher costs.

    ``least`` is what any choice costs at least, ``cheapest`` what ``choice`` costs, the cheapest found. Of
    parts that are tied loosely one may be found long before it is known that there is no cheaper one.
    """

    def __init__(self, chooser: Chooser | TiedChooser) -> None:
        self.chooser, self.least, self.cheapest = chooser, chooser.least, math.inf
        self.choice: Mapping[str, float] = {}
        self.sought, self.exact, self.looked_at = True, True, 0
        self._reached, self._more, self._too_far = 0.0, _NARROWEST, math.inf
        if isinstance(chooser, Chooser) and chooser.impossible:
            self.least, self.sought = math.inf, False

    def advance(self) -> None:
        """Look up to a higher cost; at fewer values of each count where there are too many choices to list.

        Raises:
            TooManyError: there still are too many.
        """
        reach = min(self._reached + self._more, (self._reached + self._too_far) / 2)
        try:
            choices = self._up_to(self.chooser.least + reach)
        except TooManyError as too_many:
            self.looked_at, self._too_far = too_many.looked_at, reach
            if reach - self._reached <= max(_LEAST_MORE, _NEAR_TOO_FAR * self._reached):
                self._look_at_less()
            return
        self.looked_at = choices.looked_at
        if len(choices.costs):
            self.cheapest, self.choice = float(choices.costs[0]), choices.counts(0)
        if self.cheapest <= self.chooser.least + reach + HAIR:
            self.sought, self.least = False, self.cheapest if self.exact else self.least
        elif reach >= _WIDEST and math.isinf(self.cheapest):
            self.least, self.sought = math.inf, False
        else:
            self._reached = reach
            more = reach * (1 if reach < _FAR else _FARTHER)
            self._more = min(more, self.cheapest - self.chooser.least - reach)
            self.least = self.chooser.least + reach if self.exact else self.least

    def _up_to(self, cost: float) -> Choices:
        """The cheapest choice up to that cost; or any that parts make which cost no more apart."""
        if isinstance(self.chooser, TiedChooser):
            return self.chooser.choices(min(self.cheapest, self.chooser.least + _WIDEST), 1, cost)
        return self.chooser.choices(cost, 1)

    def _look_at_less(self) -> None:
        if math.isfinite(self.cheapest):
            self.take()
            return
        if isinstance(self.chooser, TiedChooser) or self.chooser.coarse >= _COARSEST:
            raise TooManyError
        self.chooser = replace(self.chooser, coarse=self.chooser.coarse * _COARSER)
        self.exact, self._too_far = False, math.inf

    def take(self) -> None:
        """Be content with the choice that is found, which may not be the cheapest."""
        self.sought = self.exact = False


class _AtInterval:
    """The sizes at one interval of increases; ``least`` is what they cost at least, as far as is known."""

    def __init__(self, search: Search, every: float, memo: SearchMemo) -> None:
        self.search, self.every, self._memo = search, every, memo
        self._floors = {names: self._floors_of(names) for names in search.parts}
        self._parts: dict[frozenset[str], Solution] = {}
        self._apart = search.apart_cost(every)
        self.least = self._sum()

    def _floors_of(self, names: frozenset[str]) -> list[_Floor]:
        floors, choosers = self._memo.floors, self.search.choosers(names, self.every)
        for chooser in choosers:
            if chooser.key not in floors:
                floors[chooser.key] = _Floor(chooser)
        return [floors[chooser.key] for chooser in choosers]

    def _key(self, names: frozenset[str]) -> tuple[object, ...]:
        """What the choices of some counts depend on."""
        asks = (each.key for several in self.search.asks for each in several if each.needs <= names)
        costs = (each.name for several in self.search.costs for each in several if each.needs <= names)
        return names, self.every, tuple(asks), tuple(costs)

    def _sum(self) -> float:
        return self._apart + sum(floor.least for floors in self._floors.values() for floor in floors)

    def advance(self, most: float) -> Solution | None:
        """Look on; the best counts when they are found, which never are where ``least`` is infinite.

        Of counts that cost over ``most`` only that is looked for.
        """
        sought = [floor for floors in self._floors.values() for floor in floors if floor.sought]
        if sought:
            for floor in sought:
                self._memo.advance(floor)
            self.least = self._sum()
        elif not self._parts:
            spare = most - self.least
            self._parts = {
                names: self._part(names, floors, spare + sum(floor.least for floor in floors))
                for names, floors in self._floors.items()
            }
            self.least = self._apart + sum(part.bound_cm for part in self._parts.values())
        else:
            return self._whole(most)
        return None

    def _part(self, names: frozenset[str], floors: Sequence[_Floor], most: float) -> Solution:
        if len(floors) == 1:
            (floor,) = floors
            return Solution(counts=(floor.choice,), cost_cm=floor.cheapest, bound_cm=floor.least)
        key = isinstance(floors[0].chooser, TiedChooser), *self._key(names)
        if key in self._memo.parts:
            return self._memo.parts[key]
        choices = _best_choices(self.search, names, floors, most)
        if choices.bound_cm <= most:
            self._memo.parts[key] = choices
        return choices

    def _whole(self, most: float) -> Solution | None:
        """The best of all parts together, given the best of each."""
        parts = dict(self._parts)
        apart = self._together(parts.values())
        if max(self._tied_cost(at, counts) for at, counts in enumerate(apart.counts)) > EQUAL:
            tied = self.search.tied_loosely
            joined = [names for names in parts if names & tied]
            floors = [_Floor(chooser) for chooser in self._tied(joined)]
            whole = frozenset[str]().union(*joined)
            parts = {names: part for names, part in parts.items() if names not in joined}
            rest = sum(part.bound_cm for part in parts.values())
            if math.isinf(self._memo.cheapest(floors, most - self._apart - rest)):
                self.least = self._apart + rest + sum(floor.least for floor in floors)
                return None
            parts[whole] = self._part(whole, floors, most - self._apart - rest)
            if not all(floor.exact for names in joined for floor in self._floors[names]):
                bound = sum(self._parts[names].bound_cm for names in joined)
                parts[whole] = replace(parts[whole], bound_cm=bound)
        return self._together(parts.values())

    def _tied(self, joined: Sequence[frozenset[str]]) -> list[TiedChooser]:
        return [
            TiedChooser(
                case=case,
                parts=tuple(self._floors[names][at].chooser for names in joined),
                floors=tuple(self._floors[names][at].cheapest for names in joined),
                asks=tuple(ask for ask in self.search.asks[at] if ask.loose),
                costs=tuple(cost for cost in self.search.costs[at] if cost.loose),
            )
            for at, case in enumerate(self.search.cases)
        ]

    def _together(self, parts: Collection[Solution]) -> Solution:
        return Solution(
            counts=tuple(
                {name: value for counts in size for name, value in counts.items()}
                for size in zip(*(part.counts for part in parts), strict=True)
            ),
            cost_cm=self._apart + sum(part.cost_cm for part in parts),
            bound_cm=self._apart + sum(part.bound_cm for part in parts),
            every=self.every,
        )

    def _tied_cost(self, at: int, counts: Mapping[str, float]) -> float:
        columns = one_row(counts)
        if any(ask.loose and ask.miss(columns)[0] > HAIR for ask in self.search.asks[at]):
            return math.inf
        return float(sum(cost.cost(columns)[0] for cost in self.search.costs[at] if cost.loose))

    @property
    def feasible(self) -> bool:
        """Whether every size has counts by itself; True where that is not known."""
        floors = [floor for floors in self._floors.values() for floor in floors]
        try:
            if any(math.isinf(floor.least) for floor in floors):
                return False
            if math.isinf(self._memo.cheapest(floors)):
                return False
            joined = [names for names in self._floors if names & self.search.tied_loosely]
            return all(map(self._memo.any_tied, self._tied(joined)))
        except TooManyError:
            return True


def _best_choices(search: Search, names: frozenset[str], floors: Sequence[_Floor], most: float) -> Solution:
    """The best of some of the counts, for all sizes; of what is listed only where that is not all."""
    steps = search.steps_of(names)
    slack = [_FIRST_SLACK] * len(floors)
    lists: list[Choices] = []
    for at, floor in enumerate(floors):
        while (choices := _listed(floor, slack[at])) is None:
            slack[at] /= 2
        while not len(choices.costs):
            slack[at] *= 2
            choices = floor.chooser.choices(floor.cheapest + slack[at], _MOST)
        lists.append(choices)

    def more(at: int) -> Offers | None:
        slack[at] *= 2
        if len(lists[at].costs) >= _MOST or (choices := _listed(floors[at], slack[at])) is None:
            return None
        new = choices.beyond(lists[at].cutoff)
        lists[at] = lists[at].followed_by(new)
        return _layer(search, at, new, steps)

    layers = [_layer(search, at, choices, steps) for at, choices in enumerate(lists)]
    path = shortest(layers, steps, _MOST_ROUNDS, most, more)
    counts = tuple(choices.counts(row) for choices, row in zip(lists, path.rows, strict=True))
    bound = min(path.bound, path.cost) if all(f.exact for f in floors) else sum(f.least for f in floors)
    return Solution(counts=counts, cost_cm=path.cost, bound_cm=bound)


def _listed(floor: _Floor, slack: float) -> Choices | None:
    """The choices no dearer than that beside the cheapest; None where there are too many."""
    try:
        return floor.chooser.choices(floor.cheapest + slack, _MOST)
    except TooManyError:
        if slack < _LEAST_SLACK:
            raise
        return None


def _layer(search: Search, at: int, choices: Choices, steps: Sequence[Sequence[GrowthStep]]) -> Offers:
    case = search.cases[at]
    keys = dict.fromkeys(step.key for between in steps for step in between)
    size = len(choices.costs)
    lengths = {key: np.broadcast_to(case.formulas.lengths[key].at(choices.columns), (size,)) for key in keys}
    return Offers(costs=choices.costs, lengths=lengths, cutoff=choices.cutoff)
