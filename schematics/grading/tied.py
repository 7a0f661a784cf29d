"""Every choice of counts that are tied together loosely only, by crossing the choices of what is not tied."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from schematics.grading.candidates import MOST_ROWS, Choices, Chooser, TooManyError, listed
from schematics.grading.case import Ask, Cost, SizeCase
from schematics.grading.columns import Columns, taken
from schematics.units import HAIR


@dataclass(frozen=True)
class TiedChooser:
    """What is to be chosen for one size from parts whose choices are found apart.

    ``floors`` are what the choices of each part cost at least; ``asks`` and ``costs`` tie the parts together.
    """

    case: SizeCase
    parts: tuple[Chooser | TiedChooser, ...]
    floors: tuple[float, ...]
    asks: tuple[Ask, ...]
    costs: tuple[Cost, ...]

    @cached_property
    def least(self) -> float:
        """What any choice costs at least."""
        return sum(self.floors)

    def choices(self, bound: float, most: int | None = None, apart: float = math.inf) -> Choices:
        """Choices that cost no more than ``bound``; no more than ``most`` of the cheapest.

        Only parts are crossed that together cost no more than ``apart``.

        Raises:
            TooManyError: they cannot be listed.
        """
        nothing = Choices({}, np.zeros(0), bound, 0)
        within = min(bound, apart)
        spare = within - self.least
        if spare < 0:
            return nothing
        lists = [part.choices(floor + spare) for part, floor in zip(self.parts, self.floors, strict=True)]
        columns: Columns = {}
        looked_at = sum(choices.looked_at for choices in lists)
        costs, left = np.zeros(1), self.least
        for choices, floor in sorted(
            zip(lists, self.floors, strict=True), key=lambda pair: len(pair[0].costs)
        ):
            left -= floor
            number = np.searchsorted(choices.costs, within - left + HAIR - costs, side="right")
            if number.sum() > MOST_ROWS:
                raise TooManyError(looked_at)
            rows = np.repeat(np.arange(len(costs)), number)
            others = np.arange(len(rows)) - np.repeat(np.cumsum(number) - number, number)
            columns = {**taken(columns, rows), **taken(choices.columns, others)}
            costs = costs[rows] + choices.costs[others]
            looked_at += len(rows)
        if not len(costs):
            return replace(nothing, looked_at=looked_at)
        kept = np.ones(len(costs), dtype=bool)
        for ask in self.asks:
            kept &= ask.miss(columns) <= HAIR
        for cost in self.costs:
            costs = costs + cost.cost(columns)
        kept &= costs <= bound + HAIR
        return listed(taken(columns, kept), costs[kept], bound, most, looked_at)
