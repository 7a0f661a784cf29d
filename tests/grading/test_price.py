"""The order of importance that the prices are to keep, whatever the lengths."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.grading.price import farthest_cm, mind_cost, off_cost, straight_cost

TOLERANCES = st.floats(0.5, 5)
FAR = st.floats(0, 300)
WEIGHTS = st.floats(0.01, 10)


@pytest.mark.slow
@given(TOLERANCES, FAR, FAR, WEIGHTS)
def test_farther_off_never_costs_less(tolerance_cm: float, one: float, other: float, weight: float) -> None:
    near, far = sorted((one, other))
    assert off_cost(near, tolerance_cm, weight) <= off_cost(far, tolerance_cm, weight)
    assert off_cost(-far, tolerance_cm, weight) == off_cost(far, tolerance_cm, weight)


@given(TOLERANCES, st.floats(0.001, 50), FAR, st.floats(0, 100))
def test_no_finding_to_mind_outweighs_a_tolerance(
    tolerance_cm: float, beyond_cm: float, past_cm: float, weight: float
) -> None:
    """A length beyond its tolerance costs more than the finding and a length at the tolerance's edge."""
    inside = float(off_cost(tolerance_cm, tolerance_cm, 1.0))
    assert float(mind_cost(past_cm, weight)) + inside < float(
        off_cost(tolerance_cm + beyond_cm, tolerance_cm, 1.0)
    )


@given(FAR, FAR)
def test_a_finding_costs_nothing_at_its_limit_and_more_the_further_past(one: float, other: float) -> None:
    near, far = sorted((one, other))
    assert float(mind_cost(0.0, 2.0)) == float(mind_cost(-far, 2.0)) == 0
    assert float(mind_cost(near, 2.0)) <= float(mind_cost(far, 2.0))


@given(TOLERANCES, st.floats(0, 1e4), WEIGHTS)
def test_the_farthest_for_a_cost_costs_that(tolerance_cm: float, cost: float, weight: float) -> None:
    """A hair may lie in between, and a whole jump where the tolerance ends."""
    off_cm = farthest_cm(cost, tolerance_cm, weight)
    assert float(off_cost(off_cm - 1e-6, tolerance_cm, weight)) <= cost + 1e-3
    assert float(off_cost(off_cm + 1e-3, tolerance_cm, weight)) >= cost - 1e-9


def test_a_sixth_of_the_depth_may_be_worked_straight() -> None:
    """30 cm of depth: 5 cm are free, 7 cm more cost 0.25 each."""
    assert float(straight_cost(5.0, 30.0)) == 0
    assert float(straight_cost(12.0, 30.0)) == pytest.approx(1.75)
