"""What grading finds."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

EQUAL_CM = 1e-5
"""Costs this near are equal: what the solver is exact to."""


@dataclass(frozen=True, slots=True)
class Found:
    """Counts for every size, their cost in cm, and the least any counts could cost."""

    counts: tuple[Mapping[str, int], ...]
    cost_cm: float
    bound_cm: float

    @property
    def gap_cm(self) -> float:
        """How much better an answer could be at most."""
        gap = self.cost_cm - self.bound_cm
        return gap if gap > EQUAL_CM else 0.0
