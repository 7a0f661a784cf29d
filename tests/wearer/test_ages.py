from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.wearer.ages import AgeReading, read_at

LINE = [
    AgeReading(age_years=age, low_cm=2 * age, cm=3 * age + 1, high_cm=4 * age + 2, where=f"at {age:g}")
    for age in (1.0, 4.0, 9.0)
]


@pytest.mark.slow
@given(age_years=st.floats(1.0, 9.0))
def test_a_straight_line_is_read_back_exactly(age_years: float) -> None:
    reading = read_at(LINE, age_years)
    assert (reading.low_cm, reading.cm, reading.high_cm) == pytest.approx(
        (2 * age_years, 3 * age_years + 1, 4 * age_years + 2)
    )


@given(age_years=st.floats(1.0, 9.0))
def test_a_line_in_the_square_root_is_read_back_exactly(age_years: float) -> None:
    roots = [
        AgeReading(age_years=age, low_cm=math.sqrt(age), cm=2 * math.sqrt(age), high_cm=9.0, where="")
        for age in (1.0, 3.0, 9.0)
    ]
    assert read_at(roots, age_years, math.sqrt).cm == pytest.approx(2 * math.sqrt(age_years))


@pytest.mark.parametrize(("age_years", "at"), [(0.0, 1.0), (1.0, 1.0), (4.0, 4.0), (9.0, 9.0), (50.0, 9.0)])
def test_a_row_itself_and_the_ends_are_returned_as_they_are(age_years: float, at: float) -> None:
    assert read_at(LINE, age_years) == LINE[[1.0, 4.0, 9.0].index(at)]


def test_a_reading_between_rows_names_both() -> None:
    assert read_at(LINE, 5.0).where == "between at 4 and at 9"
