"""The normal distribution against scipy's."""

from __future__ import annotations

import math
from itertools import product

import pytest

from schematics.wearer.normal import CERTAIN, below, both_below, density, deviate_of

DEVIATES = [-6.0, -2.5, -1.2816, -0.3, 0.0, 0.05, 0.9, 1.6449, 3.1, 7.0]


@pytest.mark.parametrize("deviate", DEVIATES)
def test_below_and_density_are_scipys(deviate: float) -> None:
    from scipy.stats import norm

    assert below(deviate) == pytest.approx(norm.cdf(deviate), rel=1e-9)
    assert density(deviate) == pytest.approx(norm.pdf(deviate), rel=1e-9)


@pytest.mark.parametrize("chance", [1e-9, 0.001, 0.1, 0.4999, 0.5, 0.77, 0.9, 0.999999])
def test_a_deviate_has_that_chance_below_it(chance: float) -> None:
    """Abramowitz and Stegun give 4.5e-4 as the largest error of 26.2.23."""
    from scipy.stats import norm

    assert deviate_of(chance) == pytest.approx(norm.ppf(chance), abs=4.5e-4)


def test_what_is_certain_stays_within_bounds() -> None:
    assert deviate_of(0.0) == pytest.approx(-CERTAIN, abs=1e-3)
    assert deviate_of(1.0) == pytest.approx(CERTAIN, abs=1e-3)


@pytest.mark.parametrize("correlation", [-0.999, -0.9, -0.5, 0.0, 0.3, 0.8, 0.95, 0.99, 0.9999])
def test_two_at_once_are_scipys(correlation: float) -> None:
    from scipy.stats import multivariate_normal

    both = multivariate_normal([0, 0], [[1, correlation], [correlation, 1]])
    for first, second in product([-2.0, -0.7, 0.0, 0.4, 1.3, 2.6], repeat=2):
        assert both_below(first, second, correlation) == pytest.approx(both.cdf([first, second]), abs=1e-4)


def test_two_that_are_one_or_each_others_opposite() -> None:
    from scipy.stats import norm

    assert both_below(0.3, 1.0, 1.0) == pytest.approx(norm.cdf(0.3))
    assert both_below(0.3, 1.0, -1.0) == pytest.approx(norm.cdf(0.3) + norm.cdf(1.0) - 1)
    assert both_below(-1.0, 0.3, -1.0) == 0.0


def test_a_quarter_of_the_plane_in_closed_form() -> None:
    """Sheppard 1898: 1/4 + asin(rho) / 2 pi."""
    for correlation in (-0.6, 0.2, 0.85):
        expected = 0.25 + math.asin(correlation) / (2 * math.pi)
        assert both_below(0.0, 0.0, correlation) == pytest.approx(expected, abs=1e-9)
