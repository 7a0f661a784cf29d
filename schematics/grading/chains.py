"""Chains: what the counts of one kind cost at least over a run of sizes, by dynamic programming.

Counts that share a measurement make a group, such as the neck's stitches and the panel's. A group by
itself, over the sizes, is a chain: its cost is each size's own and that of uneven steps, which take
three sizes. The best chain is found exactly; it bounds what the whole design costs from below, and the
best chains of all groups together are where the solver starts.

Of each size only the counts near the best are looked at. All others are one state that costs as much
as the best of them would and steps for nothing, so the bound holds whatever they are.

References:
    R. Bellman, Dynamic Programming (1957).
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from schematics.grading.problem import Problem, Term, broken_name
from schematics.grading.rules import Rule
from schematics.linear import Linear

_BUDGET_CM = 6.0
"""How much more than the best of its size a choice may cost to be looked at by itself."""
_MOST_CHOICES = 48
"""Choices of one size; where there are more the budget shrinks."""
_HAIR_CM = 1e-6

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Chain:
    """One group over all sizes: the terms and wishes it pays, its choices, and its least cost.

    ``least_cm`` is by first and last size of a run. ``best`` is the best choice of each size, None
    where that is none of those looked at.
    """

    terms: tuple[tuple[int, tuple[int, ...]], ...]
    prices: tuple[tuple[int, str], ...]
    counts: tuple[str, ...]
    least_cm: Mapping[tuple[int, int], float]
    best: Mapping[str, int] | None


@dataclass(frozen=True, slots=True)
class _Layer:
    """One size's choices: counts by name, their cost, and that of any other choice."""

    choices: list[dict[str, int]]
    costs: list[float]
    other_cm: float


def chains(problem: Problem, rules: Sequence[Rule], sizes: int) -> Iterator[Chain]:
    """The chain of each group of counts that can be enumerated."""
    for group in _groups(problem, sizes):
        chain = _chain(problem, rules, group, sizes)
        if chain is not None:
            yield chain


def _groups(problem: Problem, sizes: int) -> list[set[str]]:
    """Counts without their sizes, those that share a term together."""
    groups: list[set[str]] = []
    for term in problem.terms:
        names = {name.split("/", 1)[1] for name in term.value.terms}
        touched = [group for group in groups if group & names]
        groups = [group for group in groups if not group & names]
        groups.append(names.union(*touched))
    return groups
