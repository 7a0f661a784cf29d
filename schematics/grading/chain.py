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
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np

from schematics.grading.columns import Floats, Ints
from schematics.grading.price import GrowthStep
from schematics.units import HAIR

_SINGLE = 24
"""Choices taken singly from the start; a group of no more is split into single ones."""
_LOOK = 4
"""Every so many rounds the best path so far is looked for; groups that only dearer ones lead through go."""
_GOOD_ENOUGH = 0.001
"""A path that costs no more than this beyond the bound, as a share of it, is taken."""
_NOT_LISTED = -1


@dataclass(frozen=True, slots=True)
class Offers:
    """The choices of one size, cheapest first: what they cost and measure, and the least any other costs."""

    costs: Floats
    lengths: Mapping[str, Floats]
    cutoff: float


@dataclass(frozen=True, slots=True)
class ChoicePath:
    """A choice for every size, what they cost in all, and what any other costs at least."""

    rows: tuple[int, ...]
    cost: float
    bound: float


More: TypeAlias = Callable[[int], Offers | None]
"""Of the size at a place the choices next in cost to those listed, and the new cutoff; None where there are
too many to list."""


def _no_more(_: int) -> None:
    """Only those that are listed are taken."""


class _Groups:
    """The choices of one size in groups, at first with one that stands for all that are not listed.

    ``costs`` are those of the cheapest of each group.
    """

    def __init__(self, layer: Offers) -> None:
        number = len(layer.costs)
        self._keys, self._all_costs = tuple(layer.lengths), layer.costs
        self._values = np.stack([layer.lengths[key] for key in self._keys] or [np.zeros(number)], axis=1)
        self._rows: list[Ints] = []
        self.costs = np.zeros(0)
        self._low = self._high = np.zeros((0, self._values.shape[1]))
        pieces = [np.array([row]) for row in range(min(number, _SINGLE))]
        self._put(0, 0, [*pieces, *([np.arange(_SINGLE, number)] if number > _SINGLE else [])])
        unbounded = np.full((1, self._values.shape[1]), np.inf)
        self._rows.append(np.array([_NOT_LISTED]))
        self.costs = np.append(self.costs, layer.cutoff)
        self._low, self._high = np.append(self._low, -unbounded, 0), np.append(self._high, unbounded, 0)

    def _put(self, at: int, instead_of: int, pieces: Sequence[Ints]) -> None:
        """Groups of these choices at a place, instead of so many that are there."""
        self._rows[at : at + instead_of] = pieces
        rows, sizes = np.concatenate(pieces), np.array([len(piece) for piece in pieces])
        starts, values = np.cumsum(sizes) - sizes, self._values[rows]
        rest = slice(at + instead_of, None)
        self.costs, self._low, self._high = (
            np.concatenate([old[:at], new, old[rest]])
            for old, new in (
                (self.costs, self._all_costs[rows[starts]]),
                (self._low, np.minimum.reduceat(values, starts, axis=0)),
                (self._high, np.maximum.reduceat(values, starts, axis=0)),
            )
        )

    def ends(self, key: str) -> tuple[Floats, Floats]:
        """The shortest and longest of a length in each group."""
        at = self._keys.index(key)
        return self._low[:, at], self._high[:, at]

    @property
    def costs_of_singles(self) -> Floats:
        """The costs of listed choices that are by themselves; infinite of all else."""
        single = [len(rows) == 1 and rows[0] != _NOT_LISTED for rows in self._rows]
        return np.where(single, self.costs, np.inf)

    def single(self, group: int) -> int | None:
        """The one choice of a group, -1 of what is not listed; None where it has several."""
        rows = self._rows[group]
        return int(rows[0]) if len(rows) == 1 else None

    def split(self, group: int) -> int:
        """Put smaller groups in a group's place, by the length with the fewest values in it; their number."""
        rows = self._rows[group]
        kinds = [len(np.unique(self._values[rows, at])) for at in range(self._values.shape[1])]
        several = [(kind, at) for at, kind in enumerate(kinds) if kind > 1]
        if len(rows) <= _SINGLE:
            pieces = [rows[at : at + 1] for at in range(len(rows))]
        elif several:
            column = self._values[rows, min(several)[1]]
            pieces = [rows[column == value] for value in np.unique(column)]
        else:
            pieces = [rows[:1], rows[1:]]
        self._put(group, 1, pieces)
        return len(pieces)

    def widen(self, more: Offers) -> int:
        """List more: a group before the last, which is of what is not listed; how many are there now."""
        listed = len(self._all_costs)
        self._all_costs = np.concatenate([self._all_costs, more.costs])
        values = [more.lengths[key] for key in self._keys] or [np.zeros(len(more.costs))]
        self._values = np.concatenate([self._values, np.stack(values, axis=1)])
        self.costs[-1] = more.cutoff
        if not len(more.costs):
            return 1
        self._put(len(self._rows) - 1, 0, [np.arange(listed, len(self._all_costs))])
        return 2

    def close(self) -> None:
        """Take only what is listed."""
        self.costs = np.where([rows[0] == _NOT_LISTED for rows in self._rows], np.inf, self.costs)

    def keep(self, kept: Ints) -> None:
        """Without the other groups."""
        self._rows = [self._rows[group] for group in kept.tolist()]
        self.costs, self._low, self._high = self.costs[kept], self._low[kept], self._high[kept]


def shortest(
    layers: Sequence[Offers],
    steps: Sequence[Sequence[GrowthStep]],
    most_rounds: int,
    most: float = np.inf,
    more: More = _no_more,
) -> ChoicePath:
    """The cheapest choice for every size; ``steps[i]`` are those from size i to the next.

    After so many rounds of splitting, or once it is known to cost over ``most``, the best so far is taken.
    Where choices that are not listed may be better, ``more`` are; their costs come after those listed.
    """
    sizes = [_Groups(layer) for layer in layers]
    pairs = zip(itertools.pairwise(sizes), steps, strict=True)
    between = [_between(before, after, step) for (before, after), step in pairs]
    best, not_listed = ChoicePath((), np.inf, -np.inf), np.inf
    for number in range(most_rounds):
        if number % _LOOK == 0:
            chosen, cost = _cheapest([size.costs_of_singles for size in sizes], between)
            if cost < best.cost:
                best = replace(best, rows=_rows(sizes, chosen), cost=cost)
            between = _without_dearer(sizes, between, min(best.cost, most) + HAIR)
        groups, bound = _cheapest([size.costs for size in sizes], between)
        rows = [size.single(group) for size, group in zip(sizes, groups, strict=True)]
        if bound < best.cost and all(row not in (None, _NOT_LISTED) for row in rows):
            best = ChoicePath(_rows(sizes, groups), bound, bound)
        best = replace(best, bound=min(bound, best.cost, not_listed, np.nextafter(most, np.inf)))
        if bound > most or best.cost - bound <= _GOOD_ENOUGH * best.cost:
            return best
        for at, (size, group, row) in enumerate(zip(sizes, groups, rows, strict=True)):
            if row not in (None, _NOT_LISTED):
                continue
            if row is None:
                pieces = size.split(group)
            elif (offers := more(at)) is not None:
                pieces = size.widen(offers)
            else:
                not_listed = min(not_listed, bound)
                for each in sizes:
                    each.close()
                break
            new = slice(group, group + pieces)
            if at:
                columns = _between(sizes[at - 1], size, steps[at - 1], after_at=new)
                between[at - 1] = _replaced(between[at - 1].T, group, columns.T).T
            if at < len(between):
                between[at] = _replaced(
                    between[at], group, _between(size, sizes[at + 1], steps[at], before_at=new)
                )
    chosen, cost = _cheapest([size.costs_of_singles for size in sizes], between)
    return best if best.cost <= cost else replace(best, rows=_rows(sizes, chosen), cost=cost)


def _rows(sizes: Sequence[_Groups], groups: Sequence[int]) -> tuple[int, ...]:
    """The choices of groups of one each."""
    rows = (size.single(group) for size, group in zip(sizes, groups, strict=True))
    return tuple(row for row in rows if row is not None)


def _without_dearer(sizes: Sequence[_Groups], between: Sequence[Floats], most: float) -> list[Floats]:
    """The steps without groups through which every path costs more, which sizes no longer have.

    Where all do, a size keeps its cheapest group.
    """
    onward, rest = _so_far([size.costs for size in sizes], between), [np.zeros(len(sizes[-1].costs))]
    for size, step in zip(sizes[:0:-1], reversed(between), strict=True):
        rest.append((step + (size.costs + rest[-1])).min(axis=1))
    kept = []
    for size, before, after in zip(sizes, onward, reversed(rest), strict=True):
        through = before + after
        kept.append(np.flatnonzero(through <= max(most, through.min())))
        size.keep(kept[-1])
    return [step[np.ix_(*ends)] for step, ends in zip(between, itertools.pairwise(kept), strict=True)]


def _so_far(costs: Sequence[Floats], between: Sequence[Floats]) -> list[Floats]:
    """What the cheapest path to each group costs, of each size."""
    best = [costs[0]]
    for column, step in zip(costs[1:], between, strict=True):
        best.append((best[-1][:, None] + step).min(axis=0) + column)
    return best


def _cheapest(costs: Sequence[Floats], between: Sequence[Floats]) -> tuple[list[int], float]:
    """The cheapest path, a group of each size, and what it costs."""
    best = _so_far(costs, between)
    group = int(best[-1].argmin())
    groups = [group]
    for before, step in zip(best[-2::-1], reversed(between), strict=True):
        groups.append(int((before + step[:, groups[-1]]).argmin()))
    return groups[::-1], float(best[-1][group])


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
