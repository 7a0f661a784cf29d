"""How far apart edges may be, against the rule in plain words, for numbers and for arrays."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.checks.rules.seam_limits import (
    allowed_cm,
    past_agreement_cm,
    past_equal_widths_cm,
    past_stop_cm,
)
from schematics.design.limits import Limits

LENGTHS, ROWS = st.floats(5, 120), st.floats(0.2, 3)
LIMITS = Limits()


def agree(first: float, second: float, coarser: float) -> bool:
    """They differ by no more than half a row of the coarser edge, or 1 %, whichever is more."""
    apart, longer = abs(first - second), max(first, second)
    return apart <= coarser / 2 or apart <= longer / 100


def cannot_be_seamed(first: float, second: float, coarser: float) -> bool:
    """Past 3 %, 1 cm and one row."""
    apart, longer = abs(first - second), max(first, second)
    return apart > 0.03 * longer and apart > 1 and apart > coarser


@given(first=LENGTHS, apart=st.floats(-6, 6), rows=st.tuples(ROWS, ROWS))
def test_the_rule_in_plain_words(first: float, apart: float, rows: tuple[float, float]) -> None:
    second = max(first + apart, 1.0)
    edges = first, second, *rows
    past, past_stop = past_agreement_cm(*edges, LIMITS), past_stop_cm(*edges, LIMITS)
    if abs(past) > 1e-9:
        assert bool(past <= 0) is agree(first, second, max(rows))
    if abs(past_stop) > 1e-9:
        assert bool(past_stop > 0) is cannot_be_seamed(first, second, max(rows))
    assert past == pytest.approx(abs(first - second) - allowed_cm(*edges, LIMITS))


def test_arrays_are_taken_place_by_place() -> None:
    random = np.random.default_rng(5)
    first, second = random.uniform(5, 120, (2, 200))
    rows = random.uniform(0.2, 3, (2, 200))
    for past in (past_agreement_cm, past_stop_cm):
        one_by_one = [past(*each, LIMITS) for each in zip(first, second, rows[0], rows[1], strict=True)]
        assert past(first, second, rows[0], rows[1], LIMITS).tolist() == one_by_one
    widths = [past_equal_widths_cm(*each, LIMITS) for each in zip(first, second, strict=True)]
    assert past_equal_widths_cm(first, second, LIMITS).tolist() == widths


@pytest.mark.parametrize(("front", "past"), [(90.0, -0.9), (91.0, 0.09), (89.1, 0.0), (96.0, 5.04)])
def test_front_and_back_pass_for_equally_wide_within_a_hundredth(front: float, past: float) -> None:
    assert past_equal_widths_cm(front, 90.0, LIMITS) == pytest.approx(past)
