"""Lengths in and out, against pint and against exact arithmetic with `fractions` and `decimal`."""

from __future__ import annotations

import math
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.reading.spellings import parse_length
from schematics.units import Unit, format_both, format_cm, format_inches, round_half_up
from tests.examples import ANY

if TYPE_CHECKING:
    import pint


@cache
def by_pint() -> pint.UnitRegistry[float]:
    import pint

    return pint.UnitRegistry()


PINT_WORDS = {
    "cm": "centimeter",
    "in": "inch",
    "inch": "inch",
    "inches": "inch",
    "mm": "millimeter",
    '"': "inch",
}

WRITTEN = [
    ("8", Unit.CM, 8.0),
    ("8", Unit.IN, 20.32),
    ("8.5", Unit.CM, 8.5),
    (".5 in", Unit.CM, 1.27),
    ("8 in", Unit.CM, 20.32),
    ("8 cm", Unit.IN, 8.0),
    ("8 1/2 in", Unit.CM, 21.59),
    ("8 1/2", Unit.IN, 21.59),
    ("8 1/2 cm", Unit.IN, 8.5),
    ('8 1/2"', Unit.CM, 21.59),
    ("8 1/2\u2033", Unit.CM, 21.59),
    ("3/4 inch", Unit.CM, 1.905),
    ("3 / 4 inches", Unit.CM, 1.905),
    ("85 mm", Unit.IN, 8.5),
    ("85mm", Unit.CM, 8.5),
    ("  12 CM ", Unit.IN, 12.0),
    ("0", Unit.CM, 0.0),
]


@pytest.mark.parametrize(("text", "default", "length_cm"), WRITTEN)
def test_ways_to_write_a_length(text: str, default: Unit, length_cm: float) -> None:
    assert parse_length(text, default) == pytest.approx(length_cm, rel=1e-12)


NOT_LENGTHS = ["", " ", "cm", "-8", "8.5.1", "1:30", "8 ft 20 in", "8 1/2 1/4", "1e3", "nan", "inf"]
NOT_LENGTHS += ["\u0663 cm", "8\u00b2", "1" * 400, f"{'1' * 5000} 1/2"]


@pytest.mark.parametrize("text", NOT_LENGTHS)
def test_what_is_no_length_is_named_whole(text: str) -> None:
    with pytest.raises(
        ValueError, match=r"^expected a length such as 20, '20 cm' or '8 1/2 in', got "
    ) as error:
        parse_length(text, Unit.CM)
    assert repr(text) in str(error.value)


@pytest.mark.slow
@given(st.decimals(0, 10_000, places=4), st.sampled_from(sorted(PINT_WORDS)))
def test_decimals_convert_as_in_pint(number: Decimal, word: str) -> None:
    expected = by_pint().Quantity(float(number), PINT_WORDS[word]).to("centimeter").magnitude
    assert parse_length(f"{number} {word}", Unit.CM) == pytest.approx(expected, rel=1e-12, abs=1e-15)


@given(st.integers(0, 500), st.integers(0, 64), st.integers(1, 64))
def test_mixed_fractions_of_an_inch_are_exact_before_the_last_rounding(
    whole: int, top: int, bottom: int
) -> None:
    exact = (whole + Fraction(top, bottom)) * Fraction(254, 100)
    assert parse_length(f"{whole} {top}/{bottom} in", Unit.CM) == pytest.approx(float(exact), rel=1e-15)


@pytest.mark.slow
@given(st.text(ANY))
def test_any_text_is_a_length_or_a_value_error(text: str) -> None:
    try:
        length_cm = parse_length(text, Unit.IN)
    except ValueError:
        return
    assert math.isfinite(length_cm)
    assert length_cm >= 0


def _halves_away(exact: Fraction, steps: int) -> Fraction:
    """``exact`` to a whole number of ``1/steps``, by decimal's own rule for halves."""
    scaled = exact * steps
    whole = Decimal(scaled.numerator) / Decimal(scaled.denominator)
    return Fraction(int(whole.quantize(Decimal(1), rounding=ROUND_HALF_UP)), steps)


@given(st.integers(-40_000, 40_000))
def test_centimetres_print_to_the_nearest_half(hundredths: int) -> None:
    expected = _halves_away(Fraction(hundredths, 100), 2)
    assert format_cm(hundredths / 100) == f"{float(expected):g} cm"


@given(st.integers(-80_000, 80_000))
def test_inches_print_to_the_nearest_quarter(eighths: int) -> None:
    """Eighths of an inch, half of which are the halves that rounding must send away from zero."""
    expected = _halves_away(Fraction(eighths, 8), 4)
    whole, rest = divmod(abs(expected), 1)
    words = [str(whole)] if whole or not rest else []
    words += [f"{rest.numerator}/{rest.denominator}"] if rest else []
    sign = "-" if expected < 0 else ""
    assert format_inches(eighths / 8 * 2.54) == f"{sign}{' '.join(words)} in"


@pytest.mark.parametrize(
    ("length_cm", "text"),
    [
        (42.1, "42 cm (16 1/2 in)"),
        (0.0, "0 cm (0 in)"),
        (-0.1, "0 cm (0 in)"),
        (0.25, "0.5 cm (0 in)"),
        (0.635, "0.5 cm (1/4 in)"),
        (2.54, "2.5 cm (1 in)"),
        (1.905, "2 cm (3/4 in)"),
        (-2.6, "-2.5 cm (-1 in)"),
    ],
)
def test_both_units_as_printed(length_cm: float, text: str) -> None:
    assert format_both(length_cm) == text


@given(st.floats(-1e5, 1e5), st.sampled_from([0.25, 0.5]))
def test_rounding_moves_a_length_by_half_a_step_at_most(value: float, step: float) -> None:
    rounded = round_half_up(value, step)
    assert abs(rounded - value) <= step / 2 * (1 + 1e-6)
    assert math.remainder(rounded, step) == 0
    assert round_half_up(rounded, step) == rounded


@given(st.integers(0, 2000))
def test_printed_inches_read_back(quarters: int) -> None:
    length_cm = quarters / 4 * 2.54
    assert parse_length(format_inches(length_cm), Unit.CM) == pytest.approx(length_cm, rel=1e-12)
