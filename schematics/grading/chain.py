"""The best choice for every size at once, where neighbours have something to say to each other.

A size lists its cheapest choices; all it leaves out stands for one more choice that costs as little as any of
them could, and whose neighbours cost nothing. The shortest path through the sizes is found with that choice
and without it: the one bounds what the other could be bettered by.

References:
    R. Bellman, Dynamic Programming (1957): the shortest path, one size after another.
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from schematics.grading.price import Step

Lengths = Mapping[str, NDArray[np.float64]]
"""Finished measurements of the choices, by their keys."""


@dataclass(frozen=True, slots=True)
class Layer:
    """One size: what its choices cost and measure, and what any other costs at least."""

    costs: NDArray[np.float64]
    lengths: Lengths
    cutoff: float


@dataclass(frozen=True, slots=True)
class Way:
    """A choice for every size, -1 for one that is not listed, and what they cost in all."""

    rows: tuple[int, ...]
    cost: float


def shortest(layers: Sequence[Layer], steps: Sequence[Sequence[Step]], *, unlisted: bool) -> Way:
    """The cheapest choice for every size; ``steps[i]`` are those from size i to the next.

    With ``unlisted``, choices that are not listed may be taken where there are any.
    """
    columns = [_column(layer, unlisted) for layer in layers]
    best = columns[0]
    origins: list[NDArray[np.int64]] = []
    for (before, after), between, column in zip(
        itertools.pairwise(layers), steps, columns[1:], strict=True
    ):
        through = best[:, None] + _between(before, after, between, unlisted)
        origin = through.argmin(axis=0)
        origins.append(origin)
        best = np.take_along_axis(through, origin[None, :], axis=0)[0] + column
    row = int(best.argmin())
    cost, rows = float(best[row]), [row]
    for origin in reversed(origins):
        row = int(origin[row])
        rows.append(row)
    ends = [len(layer.costs) for layer in layers]
    return Way(tuple(row if row < end else -1 for row, end in zip(rows[::-1], ends, strict=True)), cost)


def _column(layer: Layer, unlisted: bool) -> NDArray[np.float64]:
    return np.append(layer.costs, layer.cutoff) if unlisted else layer.costs


def _between(
    before: Layer, after: Layer, steps: Sequence[Step], unlisted: bool
) -> NDArray[np.float64]:
    found = np.zeros((len(before.costs), len(after.costs)))
    for step in steps:
        ones, one = np.unique(before.lengths[step.key], return_inverse=True)
        others, other = np.unique(after.lengths[step.key], return_inverse=True)
        found += step.cost(ones[:, None], others[None, :])[np.ix_(one, other)]
    return np.pad(found, ((0, 1), (0, 1))) if unlisted else found
