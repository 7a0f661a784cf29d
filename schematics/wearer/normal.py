"""The normal distribution, of one number and of two that go together; for one case or for columns.

References:
    M. Abramowitz, I. A. Stegun: Handbook of Mathematical Functions, 1964, 26.2.23 (from memory).
    Z. Drezner, G. O. Wesolowsky: On the computation of the bivariate normal integral, Journal of Statistical
    Computation and Simulation 35, 1990 (from memory).
"""

from __future__ import annotations

import math
from typing import Any, TypeAlias

import numpy as np

Numbers: TypeAlias = Any
"""A float, or a column of them: `numpy.ndarray` of float64."""

CERTAIN = 8.0
"""Deviates; what lies as far from its limit as this is certain: 1e-15 of all lie beyond."""

_OVER, _UNDER = (2.515517, 0.802853, 0.010328), (1.0, 1.432788, 0.189269, 0.001308)
_ONE = 1 - 1e-9
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(20)
_HALVES = (_NODES + 1) / 2
_ROOT = math.sqrt(2)
_ERFC = np.frompyfunc(math.erfc, 1, 1)
_RAREST = math.erfc(CERTAIN / _ROOT) / 2


def density(deviates: Numbers) -> Numbers:
    """The density at so many standard deviations from the mean."""
    return np.exp(-deviates * deviates / 2) / math.sqrt(2 * math.pi)


def below(deviates: Numbers) -> Numbers:
    """The chance of lying below so many standard deviations over the mean."""
    if isinstance(deviates, float):
        return math.erfc(-deviates / _ROOT) / 2
    return _ERFC(-deviates / _ROOT).astype(np.float64) / 2


def deviate_of(chances: Numbers) -> Numbers:
    """The deviates below which one lies with those chances, to 5e-4, no farther out than `CERTAIN`."""
    rarer = np.maximum(np.minimum(chances, 1 - chances), _RAREST)
    root = np.sqrt(-2 * np.log(rarer))
    over, under = (sum(each * root**power for power, each in enumerate(sums)) for sums in (_OVER, _UNDER))
    return np.where(chances > 0.5, 1, -1)[()] * (root - over / under)


def both_below(first: Numbers, second: Numbers, correlation: Numbers) -> Numbers:
    """The chance that two standard normal numbers of that correlation lie below these deviates, to 1e-4.

    Their chance if they were independent, and an integral over the correlation's angle by Gauss and Legendre.
    """
    one, other = below(first), below(second)
    angle = np.arcsin(np.clip(correlation, -_ONE, _ONE))
    sine = np.sin(np.multiply.outer(_HALVES, angle))
    squares = first * first - 2 * first * second * sine + second * second
    more = angle / (4 * math.pi) * (_WEIGHTS @ np.exp(-squares / (2 - 2 * sine * sine)))
    together = np.where(correlation > _ONE, np.minimum(one, other), one * other + more)
    together = np.where(correlation < -_ONE, one + other - 1, together)
    return np.clip(together, 0.0, 1.0)[()]


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
