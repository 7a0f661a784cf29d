"""The best choice for every size at once, where neighbours have something to say to each other.

Choices that are alike are taken together first: a group costs as little as any of its choices, and a step
between two groups as little as any between their lengths. The cheapest path through the groups costs no more
than any path through the choices. Groups on it are split until it leads through single choices only: that
path is the best.

References:
    R. Bellman, Dynamic Programming (1957): the shortest path, one size after another.
    C. Raphael, Coarse-to-fine dynamic programming, IEEE Transactions on Pattern Analysis and Machine
    Intelligence 23 (2001).
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from schematics.grading.columns import Floats, Ints
from schematics.grading.price import GrowthStep

_SINGLE = 24
"""Choices taken singly from the start; a group of no more is split into single ones."""
_LOOK, _GOOD_ENOUGH = 20, 0.01
"""Every so many rounds a path that costs no more than this beyond the bound, as a share of it, is taken."""


@dataclass(frozen=True, slots=True)
class Offers:
    """The choices of one size, cheapest first: what they cost and measure, and the least any other costs."""

    costs: Floats
    lengths: Mapping[str, Floats]
    cutoff: float


@dataclass(frozen=True, slots=True)
class ChoicePath:
    """A choice for every size, -1 for one that is not among those listed, and what they cost in all."""

    rows: tuple[int, ...]
    cost: float
    bound: float


@dataclass(frozen=True, slots=True)
class _Group:
    """Choices that are alike, cheapest first, and the ends of their lengths."""

    rows: Ints
    low: Floats
    high: Floats


class _Groups:
    """The choices of one size in groups; the last stands for all that are not listed."""

    def __init__(self, layer: Offers) -> None:
        self.layer = layer
        self._keys = tuple(layer.lengths)
        self._values = np.stack(
            [layer.lengths[key] for key in self._keys] or [np.zeros(len(layer.costs))], axis=1
        )
        number = len(layer.costs)
        self._groups = [self._group(np.array([row])) for row in range(min(number, _SINGLE))]
        if number > _SINGLE:
            self._groups.append(self._group(np.arange(_SINGLE, number)))
        self._settle()

    def _group(self, rows: Ints) -> _Group:
        values = self._values[rows]
        return _Group(rows, values.min(axis=0), values.max(axis=0))

    def _settle(self) -> None:
        first = [group.rows[0] for group in self._groups]
        self.costs = np.append(self.layer.costs[first], self.layer.cutoff)
        unbounded = np.full(self._values.shape[1], np.inf)
        self._low = np.stack([*(group.low for group in self._groups), -unbounded])
        self._high = np.stack([*(group.high for group in self._groups), unbounded])

    def ends(self, key: str) -> tuple[Floats, Floats]:
        """The shortest and longest of a length in each group."""
        at = self._keys.index(key)
        return self._low[:, at], self._high[:, at]

    def singles(self) -> Ints:
        """The choices that are by themselves."""
        return np.array([group.rows[0] for group in self._groups if len(group.rows) == 1])

    def single(self, group: int) -> int | None:
        """The one choice of a group, -1 of what is not listed; None where it has several."""
        if group == len(self._groups):
            return -1
        rows = self._groups[group].rows
        return int(rows[0]) if len(rows) == 1 else None

    def split(self, group: int) -> int:
        """Put smaller groups in a group's place, by the length with the fewest values in it; their number."""
        rows = self._groups[group].rows
        kinds = [len(np.unique(self._values[rows, at])) for at in range(self._values.shape[1])]
        several = [(kind, at) for at, kind in enumerate(kinds) if kind > 1]
        if len(rows) <= _SINGLE:
            pieces = [rows[at : at + 1] for at in range(len(rows))]
        elif several:
            column = self._values[rows, min(several)[1]]
            pieces = [rows[column == value] for value in np.unique(column)]
        else:
            pieces = [rows[:1], rows[1:]]
        self._groups[group : group + 1] = [self._group(piece) for piece in pieces]
        self._settle()
        return len(pieces)


def shortest(
    layers: Sequence[Offers], steps: Sequence[Sequence[GrowthStep]], most_rounds: int, most: float = np.inf
) -> ChoicePath:
    """The cheapest choice for every size; ``steps[i]`` are those from size i to the next.

    After so many rounds of splitting, or once it is known to cost over ``most``, the best so far is taken;
    ``ChoicePath.bound`` is what any other costs at least.
    """
    sizes = [_Groups(layer) for layer in layers]
    pairs = zip(itertools.pairwise(sizes), steps, strict=True)
    between = [_between(before, after, step) for (before, after), step in pairs]
    bound = -np.inf
    for number in range(most_rounds):
        groups, bound = _cheapest([size.costs for size in sizes], between)
        rows = [size.single(group) for size, group in zip(sizes, groups, strict=True)]
        if None not in rows:
            return ChoicePath(tuple(row for row in rows if row is not None), bound, bound)
        if bound > most:
            break
        if number % _LOOK == _LOOK - 1:
            path = _of_singles(sizes, steps, bound)
            if path.cost - bound <= _GOOD_ENOUGH * path.cost:
                return path
        for at, (size, group, row) in enumerate(zip(sizes, groups, rows, strict=True)):
            if row is not None:
                continue
            new = slice(group, group + size.split(group))
            if at:
                columns = _between(sizes[at - 1], size, steps[at - 1], after_at=new)
                between[at - 1] = _replaced(between[at - 1].T, group, columns.T).T
            if at < len(between):
                between[at] = _replaced(
                    between[at], group, _between(size, sizes[at + 1], steps[at], before_at=new)
                )
    return _of_singles(sizes, steps, bound)


def _of_singles(sizes: Sequence[_Groups], steps: Sequence[Sequence[GrowthStep]], bound: float) -> ChoicePath:
    """The best path through choices that are single by now."""
    kept = [size.singles() for size in sizes]
    lengths = [
        {key: values[rows] for key, values in size.layer.lengths.items()}
        for size, rows in zip(sizes, kept, strict=True)
    ]
    costs = [size.layer.costs[rows] for size, rows in zip(sizes, kept, strict=True)]
    between = []
    for at, step in enumerate(steps):
        total = np.zeros((len(kept[at]), len(kept[at + 1])))
        for each in step:
            apart = lengths[at + 1][each.key][None, :] - lengths[at][each.key][:, None]
            total += each.least_cost(apart, apart)
        between.append(total)
    chosen, cost = _cheapest(costs, between)
    return ChoicePath(tuple(int(rows[at]) for rows, at in zip(kept, chosen, strict=True)), cost, bound)


def _cheapest(costs: Sequence[Floats], between: Sequence[Floats]) -> tuple[list[int], float]:
    best = costs[0]
    origins: list[Ints] = []
    for column, step in zip(costs[1:], between, strict=True):
        through = best[:, None] + step
        origin = through.argmin(axis=0)
        origins.append(origin)
        best = np.take_along_axis(through, origin[None, :], axis=0)[0] + column
    group = int(best.argmin())
    cost, groups = float(best[group]), [group]
    for origin in reversed(origins):
        group = int(origin[group])
        groups.append(group)
    return groups[::-1], cost


_ALL = slice(None)


def _between(
    before: _Groups,
    after: _Groups,
    steps: Sequence[GrowthStep],
    before_at: slice = _ALL,
    after_at: slice = _ALL,
) -> Floats:
    """What the steps between some groups of a size and some of the next cost at least."""
    total = np.zeros((len(before.costs[before_at]), len(after.costs[after_at])))
    for step in steps:
        low, high = (ends[before_at, None] for ends in before.ends(step.key))
        next_low, next_high = (ends[None, after_at] for ends in after.ends(step.key))
        total += step.least_cost(next_low - high, next_high - low)
    return total


def _replaced(costs: Floats, row: int, new: Floats) -> Floats:
    """The costs with new rows in place of one."""
    return np.concatenate([costs[:row], new, costs[row + 1 :]])
