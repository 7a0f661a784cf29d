"""Chances of margins, and of several of them together."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.wearer.events import Event, all_of, any_of, over_nought_event
from tests.examples import examples

SLOPES = st.lists(st.floats(-2, 2), min_size=3, max_size=3)


def event(margin_cm: float, *slopes_cm: float) -> Event:
    return over_nought_event(margin_cm, np.array(slopes_cm))


@pytest.mark.slow
def test_the_difference_of_two_normal_lengths() -> None:
    """60 give or take 3 over 56 give or take 1: 4 over nought, give or take the root of 10."""
    from scipy.stats import norm

    assert event(4.0, 3.0, -1.0).chance == pytest.approx(norm.cdf(4 / math.sqrt(10)))
    assert event(4.0, 3.0, -1.0).shares ** 2 == pytest.approx([0.9, 0.1])


@pytest.mark.parametrize(("margin_cm", "chance"), [(0.1, 1.0), (0.0, 0.0), (-0.1, 0.0)])
def test_without_doubt_it_is_or_is_not(margin_cm: float, chance: float) -> None:
    assert event(margin_cm, 0.0, 0.0).chance == pytest.approx(chance, abs=1e-12)


def test_a_certain_part_changes_nothing() -> None:
    doubtful = event(1.0, 1.0, 0.5)
    assert all_of([doubtful, event(1.0, 0.0, 0.0)]) is doubtful
    assert any_of([doubtful, event(-1.0, 0.0, 0.0)]).chance == pytest.approx(doubtful.chance)
    assert all_of([doubtful, event(-1.0, 0.0, 0.0)]).chance == pytest.approx(0.0, abs=1e-12)


@given(margins=st.tuples(st.floats(-3, 3), st.floats(-3, 3)), one=SLOPES, other=SLOPES)
def test_two_at_once_are_scipys(margins: tuple[float, float], one: list[float], other: list[float]) -> None:
    from scipy.stats import multivariate_normal, norm

    slopes = np.array([one, other])
    covariance = slopes @ slopes.T
    if np.linalg.eigvalsh(covariance)[0] < 1e-3:
        return
    both = all_of([event(margin, *each) for margin, each in zip(margins, slopes, strict=True)])
    expected = multivariate_normal([0, 0], covariance).cdf(margins)
    assert both.chance == pytest.approx(expected, abs=3e-4)
    either = any_of([event(margin, *each) for margin, each in zip(margins, slopes, strict=True)])
    singly = [norm.cdf(margin / np.linalg.norm(each)) for margin, each in zip(margins, slopes, strict=True)]
    assert either.chance == pytest.approx(sum(singly) - expected, abs=3e-4)


@pytest.mark.slow
@given(
    margins=st.tuples(*[st.floats(-2, 3)] * 3),
    slopes=st.tuples(*[st.lists(st.floats(0.1, 2), min_size=3, max_size=3)] * 3),
)
@examples(60)
def test_three_of_the_same_garment_are_near_scipys(
    margins: tuple[float, ...], slopes: tuple[list[float], ...]
) -> None:
    """Put together two by two. Those that one garment's errors move alike are within two points."""
    from scipy.stats import multivariate_normal

    covariance = np.array(slopes) @ np.array(slopes).T
    if np.linalg.eigvalsh(covariance)[0] < 1e-2:
        return
    together = all_of([event(margin, *each) for margin, each in zip(margins, slopes, strict=True)])
    assert together.chance == pytest.approx(multivariate_normal([0, 0, 0], covariance).cdf(margins), abs=0.02)


@given(margin=st.floats(-3, 3), more=st.floats(0.01, 2), slopes=SLOPES, other=SLOPES)
def test_a_larger_margin_is_never_less_likely(
    margin: float, more: float, slopes: list[float], other: list[float]
) -> None:
    rest = event(0.5, *other)
    chances = [all_of([event(each, *slopes), rest]).chance for each in (margin, margin + more)]
    assert chances[1] >= chances[0] - 2e-4


@given(slopes=SLOPES, others=SLOPES, margins=st.tuples(st.floats(-2, 2), st.floats(-2, 2)))
def test_shares_add_up_to_one_and_the_tighter_margin_is_told(
    slopes: list[float], others: list[float], margins: tuple[float, float]
) -> None:
    events = [event(margin, *each) for margin, each in zip(margins, (slopes, others), strict=True)]
    if min(each.sd_cm for each in events) < 1e-6:
        return
    together = all_of(events)
    assert together.shares @ together.shares == pytest.approx(1.0)
    assert together.margin_cm == pytest.approx(min(margins))
    assert any_of(events).margin_cm == pytest.approx(max(margins))
