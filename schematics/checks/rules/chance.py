"""Chances under a normal distribution, as trees."""

from __future__ import annotations

import math
from statistics import NormalDist

from schematics.wearer.expr import Expr, Lookup, table

_NORMAL = NormalDist()
_FARTHEST, _STEPS = 4, 20
_POINTS = tuple(
    (step / _STEPS, round(1 - _NORMAL.cdf(step / _STEPS), 6))
    for step in range(-_FARTHEST * _STEPS, _FARTHEST * _STEPS + 1)
)

_TENTHS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine")

IN_WORDS = (
    (0.05, "fewer than one in ten"),
    *((number / 10 + 0.05, f"about {word} in ten") for number, word in enumerate(_TENTHS, start=1)),
    (math.inf, "nearly all"),
)
"""What is said of a chance below each of these."""


def chance_over(deviations: Expr) -> Lookup:
    """The chance of lying more than so many standard deviations above the mean, to 0.0001."""
    return table(deviations, _POINTS)


def exceeded_by(chance: float) -> float:
    """How many standard deviations above the mean is exceeded with this chance, over 0 and below 1."""
    return _NORMAL.inv_cdf(1 - chance)
