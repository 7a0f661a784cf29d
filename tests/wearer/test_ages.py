from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from schematics.wearer.ages import Reading, place, read_at

LINE = [
    Reading(age_years=age, low_cm=2 * age, cm=3 * age + 1, high_cm=4 * age + 2, where=f"at {age:g}")
    for age in (1.0, 4.0, 9.0)
]


@given(age_years=st.floats(1.0, 9.0))
def test_a_straight_line_is_read_back_exactly(age_years: float) -> None:
    reading = read_at(LINE, age_years)
    assert (reading.low_cm, reading.cm, reading.high_cm) == pytest.approx(
        (2 * age_years, 3 * age_years + 1, 4 * age_years + 2)
    )


@given(age_years=st.floats(1.0, 9.0))
def test_a_line_in_the_square_root_is_read_back_exactly(age_years: float) -> None:
    roots = [
        Reading(age_years=age, low_cm=math.sqrt(age), cm=2 * math.sqrt(age), high_cm=9.0, where="")
        for age in (1.0, 3.0, 9.0)
    ]
    assert read_at(roots, age_years, math.sqrt).cm == pytest.approx(2 * math.sqrt(age_years))


@pytest.mark.parametrize(("age_years", "at"), [(0.0, 1.0), (1.0, 1.0), (4.0, 4.0), (9.0, 9.0), (50.0, 9.0)])
def test_a_row_itself_and_the_ends_are_returned_as_they_are(age_years: float, at: float) -> None:
    assert read_at(LINE, age_years) == LINE[[1.0, 4.0, 9.0].index(at)]


def test_a_reading_between_rows_names_both() -> None:
    assert read_at(LINE, 5.0).where == "between at 4 and at 9"


@given(
    rising=st.lists(st.floats(-100, 100), min_size=1, max_size=6, unique=True).map(sorted),
    value=st.floats(-200, 200),
)
def test_a_place_lies_between_its_entry_and_the_next(rising: list[float], value: float) -> None:
    index, share = place(rising, value, float)
    assert 0 <= share <= 1
    if value <= rising[0]:
        assert (index, share) == (0, 0)
    elif value >= rising[-1]:
        assert (index, share) == (len(rising) - 1, 0)
    else:
        assume(rising[index + 1] - rising[index] > 1e-6)
        step = rising[index + 1] - rising[index]
        assert rising[index] + share * step == pytest.approx(value, abs=1e-9)
