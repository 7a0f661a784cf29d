"""A finished measurement held against another length reads as it is printed, or more finely."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.checks.tape import Compared, Tape
from schematics.garment.printed_lengths import grain_of
from schematics.units import Unit


@pytest.mark.parametrize(
    ("key", "unit", "first", "second", "words"),
    [
        ("panel.width", Unit.CM, 12.73, 12.0, ("12.75 cm", "12.0 cm", "0.75 cm")),
        ("panel.width", Unit.CM, 9.3, 9.3, ("9.25 cm", "9.25 cm", "0.0 cm")),
        ("panel.width", Unit.CM, 9.33, 9.23, ("9.3 cm", "9.2 cm", "0.1 cm")),  # both are 9.25 to a quarter
        ("panel.width", Unit.IN, 5 * 2.54, 4.875 * 2.54, ("5 in", "4 7/8 in", "1/8 in")),
        ("panel.length", Unit.CM, 40.1, 36.1, ("40.0 cm", "36.0 cm", "4.0 cm")),
    ],
)
def test_a_length_reads_as_printed_where_the_difference_allows(
    key: str, unit: Unit, first: float, second: float, words: tuple[str, str, str]
) -> None:
    assert Tape(unit).compare(first, second, grain_of(key)) == Compared(*words)


def number(words: str) -> Fraction:
    return sum(map(Fraction, words.removesuffix(" cm").removesuffix(" in").split()), Fraction(0))


@given(st.floats(0.5, 30), st.floats(-3, 3), st.sampled_from(Unit))
def test_the_figures_add_up_and_never_hide_a_difference(first: float, apart: float, unit: Unit) -> None:
    second = max(0.1, first + apart)
    words = Tape(unit).compare(first, second, grain_of("neck_band.depth"))
    exact = abs(first - second) / unit.to_cm(1)
    if words.gap.startswith("less than"):
        assert 0 < exact < 0.01
        return
    assert number(words.gap) == abs(number(words.first) - number(words.second))
    assert float(number(words.gap)) == pytest.approx(exact, abs={Unit.CM: 0.1, Unit.IN: 1 / 8}[unit] + 1e-6)
    assert (number(words.gap) > 0) is (exact > 1e-9)
