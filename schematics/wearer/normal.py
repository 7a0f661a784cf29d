"""The normal distribution, of one number and of two that go together.

References:
    M. Abramowitz, I. A. Stegun: Handbook of Mathematical Functions, 1964, 26.2.23 (from memory).
    Z. Drezner, G. O. Wesolowsky: On the computation of the bivariate normal integral, Journal of Statistical
    Computation and Simulation 35, 1990 (from memory).
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np

CERTAIN = 8.0
"""Deviates; what lies as far from its limit as this is certain: 1e-15 of all lie beyond."""

_OVER, _UNDER = (2.515517, 0.802853, 0.010328), (1.0, 1.432788, 0.189269, 0.001308)
_ONE = 1 - 1e-9
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(20)
_HALVES = (_NODES + 1) / 2


def density(deviate: float) -> float:
    """The density at so many standard deviations from the mean."""
    return math.exp(-deviate * deviate / 2) / math.sqrt(2 * math.pi)


def below(deviate: float) -> float:
    """The chance of lying below so many standard deviations over the mean."""
    return math.erfc(-deviate / math.sqrt(2)) / 2


def deviate_of(chance: float) -> float:
    """The deviate below which one lies with that chance, to 5e-4, no farther out than `CERTAIN`."""
    if chance > 0.5:
        return -deviate_of(1 - chance)
    root = math.sqrt(-2 * math.log(max(chance, below(-CERTAIN))))
    over, under = (sum(each * root**power for power, each in enumerate(sums)) for sums in (_OVER, _UNDER))
    return over / under - root


def both_below(first: float, second: float, correlation: float) -> float:
    """The chance that two standard normal numbers of that correlation lie below these deviates, to 1e-4.

    Their chance if they were independent, and an integral over the correlation's angle by Gauss and Legendre.
    """
    if abs(correlation) > _ONE:
        alike = min(below(first), below(second))
        return alike if correlation > 0 else max(0.0, below(first) + below(second) - 1)
    angle = math.asin(correlation)
    sine = np.sin(_HALVES * angle)
    squares = first * first - 2 * first * second * sine + second * second
    more = angle / (4 * math.pi) * float(_WEIGHTS @ np.exp(-squares / (2 - 2 * sine * sine)))
    return min(1.0, max(0.0, below(first) * below(second) + more))


def normal_json() -> dict[str, Any]:
    """The numbers that these are worked out from, as plain JSON values, for a page that has the functions."""
    return {
        "over": list(_OVER),
        "under": list(_UNDER),
        "one": _ONE,
        "halves": _HALVES.tolist(),
        "weights": _WEIGHTS.tolist(),
        "least_chance": float(below(-CERTAIN)),
    }
