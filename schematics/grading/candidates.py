"""Every choice of a size's counts that costs no more than a bound, by crossing one count after another.

The next count is always the one with the fewest values left, seen from the counts that are there: a length
that is meant, or a seam to be met, leaves it a span. Rows that break an ask or cost too much go at once.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from schematics.crochet.fabric import CountRule
from schematics.design.design import Meant
from schematics.garment.amounts import Numbers
from schematics.garment.constructions.demands import CountRange
from schematics.grading.case import Ask, Cost, SizeCase
from schematics.grading.columns import Columns, Floats, Ints, on_lattice, one_row, taken
from schematics.grading.draft import LONGEST_MEANT_CM
from schematics.grading.price import farthest_cm
from schematics.units import HAIR

MOST_ROWS = 3_000_000
"""The most rows that are crossed at once; a spec that asks for more says too little."""

_FAR_OFF = 2.0**17
"""Cost of a length over a metre off, within which the cheapest is looked for."""
_MANY, _SAMPLE = 2_000, 100
"""From so many choices on, the next count is picked by a sample of so many."""

Span = tuple[Numbers, Numbers]


class TooManyError(Exception):
    """There are more choices than can be looked at; so many were ``looked_at`` until that was known."""

    def __init__(self, looked_at: int = 0) -> None:
        self.looked_at = looked_at
        super().__init__(looked_at)


@dataclass(frozen=True, slots=True)
class Choices:
    """Choices of some counts of one size, cheapest first.

    ``cutoff`` is what a choice that is not among them costs at least, infinite where there is none; so many
    were ``looked_at``, in part or whole.
    """

    columns: Columns
    costs: Floats
    cutoff: float
    looked_at: int

    def beyond(self, cost: float) -> Choices:
        """Those that cost more; one that costs as much, to a hair, may be among them."""
        rows = np.flatnonzero(self.costs > cost - HAIR)
        return replace(self, columns=taken(self.columns, rows), costs=self.costs[rows])

    def followed_by(self, others: Choices) -> Choices:
        """These choices, then others that cost more."""
        columns = {
            name: np.concatenate([column, others.columns[name]]) for name, column in self.columns.items()
        }
        return replace(others, columns=columns, costs=np.concatenate([self.costs, others.costs]))

    def counts(self, row: int) -> dict[str, float]:
        """The counts of one choice."""
        values = {name: float(column[row]) for name, column in self.columns.items()}
        return {name: int(value) if value.is_integer() else value for name, value in values.items()}


def listed(columns: Columns, costs: Floats, bound: float, most: int | None, looked_at: int) -> Choices:
    """The cheapest of some choices, which are all that cost no more than ``bound``."""
    names = sorted(columns)
    rounded, rows = np.round(costs, 9), np.arange(len(costs))
    if most is not None and most < len(costs):
        rows = np.flatnonzero(rounded <= np.partition(rounded, most)[most])
    order = rows[np.lexsort([*(columns[name][rows] for name in reversed(names)), rounded[rows]])]
    cutoff = bound if most is None or len(order) <= most else float(costs[order[most]])
    order = order[:most]
    return Choices(taken(columns, order), costs[order], cutoff, looked_at)


@dataclass(frozen=True, slots=True)
class _Partial:
    """Choices of some of the counts, a row each; what they cost so far, and what is yet to be asked.

    So many were ``looked_at`` to get there.
    """

    columns: Columns
    so_far: Floats
    asks: tuple[Ask, ...]
    costs: tuple[Cost, ...]
    floors: Mapping[str, float]
    looked_at: int = 0

    @property
    def height(self) -> int:
        return len(self.so_far)

    def taken(self, rows: Ints) -> _Partial:
        """Those rows."""
        return replace(self, columns=taken(self.columns, rows), so_far=self.so_far[rows])

    def where(self, kept: NDArray[np.bool_]) -> _Partial:
        """Those rows of which it is true, or all or none."""
        whole = np.broadcast_to(kept, (self.height,))
        return self if whole.all() else self.taken(np.flatnonzero(whole))

    @property
    def to_come(self) -> float:
        """What the costs that are not known yet come to at least."""
        return sum(self.floors.get(cost.name, 0.0) for cost in self.costs)


@dataclass(frozen=True)
class Chooser:
    """What is to be chosen for one size: some of its counts, and all that they alone must keep and cost.

    Only one of ``coarse`` values of each count is looked at.
    """

    case: SizeCase
    names: tuple[str, ...]
    asks: tuple[Ask, ...]
    costs: tuple[Cost, ...]
    every: float
    coarse: int = 1

    @property
    def key(self) -> tuple[object, ...]:
        """What its choices depend on, among those for the same sizes."""
        every = None if frozenset(self.case.shaping).isdisjoint(self.names) else self.every
        asks, costs = (each.key for each in self.asks), (each.name for each in self.costs)
        return self.case.index, self.names, every, tuple(asks), tuple(costs)

    @property
    def impossible(self) -> bool:
        """Whether counts by hand break something by themselves."""
        settled = [ask for ask in self.asks if ask.needs <= self._by_hand.keys()]
        return any(np.any(ask.miss(self._by_hand) > HAIR) for ask in settled)

    @cached_property
    def _asked(self) -> frozenset[str]:
        """The keys of all that is asked."""
        return frozenset(ask.key for ask in self.asks)

    @cached_property
    def _by_hand(self) -> Columns:
        """The counts that are asked to be as by hand."""
        asked = {ask.count for ask in self.asks}
        return one_row({name: value for name, value in self.case.size.given.items() if name in asked})

    @cached_property
    def _floors(self) -> Mapping[str, float]:
        """What costs come to at least that depend on one count, whatever it is."""
        floors: dict[str, float] = {}
        for cost in self.costs:
            if len(cost.needs) == 1 and not cost.needs & frozenset(self.case.shaping):
                (name,) = cost.needs
                first, number = self._values(self._start({}), name, _FAR_OFF)
                columns = {name: first[0] + self._rules[name].multiple * np.arange(number[0], dtype=np.int64)}
                floors[cost.name] = float(self._cost(columns, [cost]).min(initial=math.inf))
        return floors

    @cached_property
    def _meant(self) -> Sequence[tuple[Meant, float]]:
        """The lengths meant that cost something here, and how much a centimetre off matters."""
        costly = {cost.name for cost in self.costs}
        return [(each, self.case.weight(each.key)) for each in self.case.meant if each.key in costly]

    @property
    def least(self) -> float:
        """What any choice costs at least: what counts by hand cost whatever the others are."""
        settled = [cost for cost in self.costs if cost.needs <= self._by_hand.keys()]
        return float(self._cost(self._by_hand, settled)[0]) if self._by_hand else 0.0

    def choices(self, bound: float, most: int | None = None) -> Choices:
        """Choices that cost no more than ``bound``; no more than ``most`` of the cheapest.

        Raises:
            TooManyError: they cannot be listed.
        """
        partial = self._all(bound)
        if not partial.height:
            return Choices({}, np.zeros(0), bound, partial.looked_at)
        return listed(partial.columns, partial.so_far, bound, most, partial.looked_at)

    def _start(self, floors: Mapping[str, float]) -> _Partial:
        return _Partial({}, np.zeros(1), self.asks, self.costs, floors)

    def _all(self, bound: float) -> _Partial:
        given = self.case.size.given
        to_shape = any(name not in given for name in self.case.shaping if name in self.names)
        left = [name for name in self.names if not (to_shape and name in self.case.shaping)]
        partial = self._start(self._floors)
        while left and partial.height:
            name, values = self._next(partial, left, bound)
            left.remove(name)
            partial = self._with(partial, name, values, bound)
            if to_shape and not any(each.startswith("body.") for each in left) and partial.height:
                to_shape = False
                partial = self._checked(self._shaped(partial), bound)
        return partial

    def _next(self, partial: _Partial, left: Sequence[str], bound: float) -> tuple[str, tuple[Ints, Ints]]:
        """The count that leaves the fewest choices, by a sample where rows are many, and its values."""
        rows = partial
        if len(left) > 1 and partial.height > _MANY:
            rows = partial.taken(np.linspace(0, partial.height - 1, _SAMPLE).astype(np.int64))
        spare = self._spare(rows, bound)
        values = {name: self._values(rows, name, spare) for name in left}
        if rows is partial:
            name = min(left, key=lambda each: (int(values[each][1].sum()), each))
            return name, values[name]
        name = min(left, key=lambda each: (self._with(rows, each, values[each], bound).height, each))
        return name, self._values(partial, name, self._spare(partial, bound))

    def _spare(self, partial: _Partial, bound: float) -> float:
        return max(0.0, bound - float(partial.so_far.min(initial=bound)) - partial.to_come)

    def _with(self, partial: _Partial, name: str, values: tuple[Ints, Ints], bound: float) -> _Partial:
        """The choices with every value of one more count, but for those that cannot be or cost too much.

        Raises:
            TooManyError: there are too many to look at.
        """
        first, number = self._coarsened(name, *values)
        if int(number.sum()) > MOST_ROWS:
            raise TooManyError(partial.looked_at)
        rows = np.repeat(np.arange(len(number)), number)
        start = np.repeat(np.cumsum(number) - number, number)
        step = self.coarse * self._rules[name].multiple
        column = first[rows] + step * (np.arange(len(rows)) - start)
        grown = partial.taken(rows)
        looked_at = partial.looked_at + len(rows)
        grown = replace(grown, columns={**grown.columns, name: column}, looked_at=looked_at)
        return self._checked(grown, bound)

    def _coarsened(self, name: str, first: Ints, number: Ints) -> tuple[Ints, Ints]:
        """One of ``coarse`` values, the same whatever the span, but one at least where there is any."""
        if self.coarse == 1 or name in self.case.size.given:
            return first, number
        rule = self._rules[name]
        skipped = -((first - rule.plus) // rule.multiple) % self.coarse
        fewer = np.maximum(0, -((skipped - number) // self.coarse))
        first = np.where(fewer > 0, first + skipped * rule.multiple, first)
        return first, np.where(number > 0, np.maximum(fewer, 1), 0)

    def _checked(self, partial: _Partial, bound: float) -> _Partial:
        """Without the choices that break an ask or cost too much, as far as is decided by now."""
        present = frozenset(partial.columns)
        ready = [ask for ask in partial.asks if ask.needs <= present]
        partial = replace(partial, asks=tuple(ask for ask in partial.asks if not ask.needs <= present))
        for ask in ready:
            partial = partial.where(ask.miss(partial.columns) <= HAIR)
            if not partial.height:
                return partial
        done = [cost for cost in partial.costs if cost.needs <= present]
        so_far = partial.so_far + self._cost(partial.columns, done)
        left = tuple(cost for cost in partial.costs if not cost.needs <= present)
        partial = replace(partial, so_far=so_far, costs=left)
        return partial.where(so_far <= bound - partial.to_come + HAIR)

    def _cost(self, columns: Columns, costs: Sequence[Cost]) -> Floats:
        total = np.zeros(len(next(iter(columns.values()))))
        for cost in costs:
            total = total + cost.cost(columns)
        return total

    def _shaped(self, partial: _Partial) -> _Partial:
        every = self.case.size.given.get(self.case.shaping[0], self.every)
        index, more = self.case.construction.shapings(partial.columns, self.case.settings, every)
        shaped = partial.taken(np.asarray(index))
        looked_at = partial.looked_at + shaped.height
        return replace(shaped, columns={**shaped.columns, **more}, looked_at=looked_at)

    @cached_property
    def _rules(self) -> Mapping[str, CountRule]:
        """The pattern that each count has to fit."""
        return {name: self._rule(name) for name in self.names}

    def _rule(self, name: str) -> CountRule:
        if name in self._by_hand:
            return CountRule()
        rules = (
            each.rule
            for each in self.case.formulas.patterns
            if each.binds(name) and f"pattern of {each.words}" in self._asked
        )
        return next((rule for rule in rules if rule != CountRule()), CountRule())

    def _values(self, partial: _Partial, name: str, spare: float) -> tuple[Ints, Ints]:
        """First value and number of values of a count, for each row."""
        rows = partial.height
        if name in self._by_hand:
            return np.full(rows, self._by_hand[name]), np.ones(rows, dtype=np.int64)
        low, high = np.full(rows, -np.inf), np.full(rows, np.inf)
        for one, other in self._spans(partial, name, spare):
            low, high = np.maximum(low, one), np.minimum(high, other)
        least = 0.0 if name in self.case.construction.may_be_nought else 1.0
        low, high = np.maximum(low, least), np.where(np.isinf(high), self._longest[name], high)
        return on_lattice(low, high, self._rules[name])

    @cached_property
    def _longest(self) -> Mapping[str, float]:
        """The highest value of each count that nothing else holds down."""
        lengths = self.case.formulas.lengths.values()
        units = {
            name: [abs(each.slopes[name]) for each in lengths if name in each.slopes] for name in self.names
        }
        return {name: LONGEST_MEANT_CM / min(unit, default=0.15) for name, unit in units.items()}

    def _spans(self, partial: _Partial, name: str, spare: float) -> Iterator[Span]:
        """Spans that lengths that are meant and seams to be met leave a count.

        A length may cost ``spare`` more than it does at least.
        """
        columns = partial.columns
        case, present = self.case, frozenset(columns) | {name}
        for each, weight in self._meant:
            length = case.formulas.lengths[each.key]
            if length.runs_straight(name) and length.needs <= present:
                off = farthest_cm(spare + partial.floors.get(each.key, 0.0), each.tolerance_cm, weight)
                yield length.solved(name, columns, each.length_cm - off, each.length_cm + off)
        for seam in case.formulas.seams:
            apart = seam.apart_cm
            sides = [side for side in (seam.first_cm, seam.second_cm) if side.needs <= columns.keys()]
            meets = f"{seam.words} meet" in self._asked
            if meets and sides and apart.runs_straight(name) and apart.needs <= present:
                limits = case.limits
                length_cm = np.asarray(sides[0].at(columns), dtype=float)
                share = limits.seam_stop_fraction
                rows_cm = limits.seam_stop_row_fraction * max(seam.rows_cm)
                room = np.maximum(max(limits.seam_stop_cm, rows_cm), length_cm * share / (1 - share))
                yield apart.solved(name, columns, -room - HAIR, room + HAIR)
        for demand in case.formulas.demands:
            kept = demand.kept
            if (
                demand.words in self._asked
                and isinstance(kept, CountRange)
                and kept.value.runs_straight(name)
                and kept.needs <= present
            ):
                yield kept.value.solved(name, columns, kept.low, kept.high)
