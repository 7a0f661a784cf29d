"""Every choice of a size's counts that costs no more than a bound, by crossing one count after another.

The next count is always the one with the fewest values left, seen from the counts that are there: a length
that is meant, or a seam to be met, leaves it a span. Rows that break an ask or cost too much go at once.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from schematics.fabric import CountRule
from schematics.grading.case import Ask, Cost, SizeCase
from schematics.grading.columns import Columns, Ints, crossed, height, on_lattice, taken
from schematics.grading.price import farthest_cm
from schematics.linear import HAIR, Counts, Linear, Numbers, Row

LONGEST_CM = 300.0
"""The longest measurement that is looked at where nothing says how long it should be."""
MOST_ROWS = 3_000_000
"""The most rows that are crossed at once; a spec that asks for more says too little."""

Span = tuple[Numbers, Numbers]


class TooManyError(Exception):
    """There are more choices than can be looked at."""


@dataclass(frozen=True, slots=True)
class Choices:
    """Choices of some counts of one size, cheapest first.

    ``cutoff`` is what a choice that is not among them costs at least, infinite where there is none.
    """

    columns: Columns
    costs: NDArray[np.float64]
    cutoff: float

    def counts(self, row: int) -> dict[str, float]:
        """One choice."""
        values = {name: float(column[row]) for name, column in self.columns.items()}
        return {name: int(value) if value.is_integer() else value for name, value in values.items()}


def listed(columns: Columns, costs: NDArray[np.float64], bound: float, most: int | None) -> Choices:
    """The cheapest of some choices, which are all that cost no more than ``bound``."""
    names = sorted(columns)
    order = np.lexsort([*(columns[name] for name in reversed(names)), np.round(costs, 9)])
    cutoff = bound if most is None or len(order) <= most else float(costs[order[most]])
    order = order[:most]
    return Choices(taken(columns, order), costs[order], cutoff)


@dataclass(frozen=True, slots=True)
class Chooser:
    """What is to be chosen for one size: some of its counts, and all that they alone must keep and cost."""

    case: SizeCase
    names: tuple[str, ...]
    asks: tuple[Ask, ...]
    costs: tuple[Cost, ...]
    every: float

    @property
    def least(self) -> float:
        """What any choice costs at least: what counts by hand cost whatever the others are."""
        asked = {ask.count for ask in self.asks}
        given = {name: np.array([value]) for name, value in self.case.size.given.items() if name in asked}
        known = [cost for cost in self.costs if cost.needs <= given.keys()]
        return float(self._cost(given, known)[0]) if given else 0.0

    def choices(self, bound: float, most: int | None = None) -> Choices:
        """Choices that cost no more than ``bound``; no more than ``most`` of the cheapest.

        Raises:
            TooManyError: they cannot be listed.
        """
        columns = self._all(bound)
        if columns is None:
            return Choices({}, np.zeros(0), bound)
        return listed(columns, self._cost(columns, self.costs), bound, most)

    def _all(self, bound: float) -> Columns | None:
        given = self.case.size.given
        to_shape = any(name not in given for name in self.case.shaping if name in self.names)
        left = [name for name in self.names if not (to_shape and name in self.case.shaping)]
        columns: Columns = {}
        asks = list(self.asks)
        so_far = np.zeros(1)
        while left or any(name not in columns for name in self.names):
            if (
                to_shape
                and self.case.shaping[0] not in columns
                and not any(n.startswith("body.") for n in left)
            ):
                columns = self._shaped(columns)
            else:
                columns = self._with_next(columns, left, bound, so_far)
            present = frozenset(columns)
            ready = [ask for ask in asks if ask.needs <= present]
            asks = [ask for ask in asks if ask not in ready]
            for ask in ready:
                kept = ask.miss(self.case.with_following(columns)) <= HAIR
                columns = taken(columns, np.broadcast_to(kept, height(columns)))
            done = [cost for cost in self.costs if cost.needs <= present]
            so_far = self._cost(columns, done)
            keep = so_far <= bound + HAIR
            columns, so_far = taken(columns, keep), so_far[keep]
            if not height(columns):
                return None
        return columns

    def _cost(self, columns: Columns, costs: Sequence[Cost]) -> NDArray[np.float64]:
        found = np.zeros(height(columns))
        counts = self.case.with_following(columns)
        for cost in costs:
            found = found + cost.cost(counts)
        return found

    def _with_next(
        self, columns: Columns, left: list[str], bound: float, so_far: NDArray[np.float64]
    ) -> Columns:
        options = {name: self._values(columns, name, bound, so_far) for name in left}
        name = min(left, key=lambda each: (int(options[each][1].sum()), each))
        left.remove(name)
        first, number = options[name]
        if int(number.sum()) > MOST_ROWS:
            raise TooManyError
        step = self._rule(name).multiple
        if not columns:
            return {name: first[0] + step * np.arange(number[0], dtype=np.int64)}
        return crossed(columns, name, first, number, step)

    def _shaped(self, columns: Columns) -> Columns:
        gradable = self.case.gradable
        assert gradable.shapings is not None
        every = self.case.size.given.get(self.case.shaping[0], self.every)
        index, more = gradable.shapings(columns, self.case.settings, every)
        return {**taken(columns, index), **more}

    def _rule(self, name: str) -> CountRule:
        given = self.case.size.given.get(name)
        asked = {ask.key for ask in self.asks}
        if given is not None and f"{name} by hand" in asked:
            return CountRule()
        rules = [
            each.rule
            for each in self.case.facts.patterns
            if each.count == Linear.of(name) and f"pattern of {each.words}" in asked
        ]
        return next((rule for rule in rules if rule != CountRule()), CountRule())

    def _values(
        self, columns: Columns, name: str, bound: float, so_far: NDArray[np.float64]
    ) -> tuple[Ints, Ints]:
        """First value and number of values of a count, for each row."""
        rows = height(columns) if columns else 1
        given = self.case.size.given.get(name)
        if given is not None and any(ask.count == name for ask in self.asks):
            return np.full(rows, given), np.ones(rows, dtype=np.int64)
        low, high = np.full(rows, -np.inf), np.full(rows, np.inf)
        for one, other in self._spans(columns, name, bound, so_far):
            low, high = np.maximum(low, one), np.minimum(high, other)
        longest = LONGEST_CM / self._unit_cm(name)
        zero = 0.0 if name.endswith("_back_rows") or name == "arms.from_front" else 1.0
        low, high = np.maximum(low, zero), np.where(np.isinf(high), longest, high)
        return on_lattice(low, high, self._rule(name))

    def _unit_cm(self, name: str) -> float:
        lengths = self.case.facts.lengths.values()
        return min((abs(each.terms[name]) for each in lengths if name in each.terms), default=0.15)

    def _spans(
        self, columns: Columns, name: str, bound: float, so_far: NDArray[np.float64]
    ) -> Iterator[Span]:
        """Spans that lengths that are meant and seams to be met leave a count."""
        case, present = self.case, frozenset(columns) | {name}
        asked = {ask.key for ask in self.asks}
        counts = case.with_following(columns)
        costly = {cost.name for cost in self.costs}
        for key, target_cm in case.targets_cm.items():
            length = case.facts.lengths[key]
            if key in costly and name in length.terms and length.needs <= present | counts.keys():
                left = float(bound - so_far.min(initial=bound))
                off = farthest_cm(max(left, 0.0), case.tolerance_cm(key), case.weight(key))
                yield _solved(length - target_cm, name, counts, -off, off)
        for seam in case.facts.seams:
            apart = seam.first_cm - seam.second_cm
            if (
                f"{seam.words} meet" in asked
                and name in apart.terms
                and apart.needs <= present
                and (seam.first_cm.needs <= columns.keys() or seam.second_cm.needs <= columns.keys())
            ):
                here = seam.first_cm if seam.first_cm.needs <= columns.keys() else seam.second_cm
                limits = case.limits
                length_cm = np.asarray(here.at(counts), dtype=float)
                share = limits.seam_stop_fraction
                rows_cm = limits.seam_stop_row_fraction * max(seam.rows_cm)
                room = np.maximum(max(limits.seam_stop_cm, rows_cm), length_cm * share / (1 - share))
                yield _solved(apart, name, counts, -room - HAIR, room + HAIR)
        for demand in case.facts.demands:
            row = demand.row
            if (
                demand.words in asked
                and isinstance(row, Row)
                and name in row.value.terms
                and row.needs <= present
            ):
                yield _solved(row.value, name, counts, row.low, row.high)


def _solved(value: Linear, name: str, counts: Counts, low: Numbers, high: Numbers) -> Span:
    """The span of a count in which ``value`` lies between ``low`` and ``high``."""
    factor = value.terms[name]
    rest = (value - factor * Linear.of(name)).at(counts)
    ends = (low - rest) / factor, (high - rest) / factor
    return (ends[0], ends[1]) if factor > 0 else (ends[1], ends[0])
