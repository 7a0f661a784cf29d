"""Lengths and ages as people give them, against exact arithmetic by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from schematics.reading.spellings import parse_age, parse_length
from schematics.units import Unit
from tests.spellings_for_tests import SPELT


@pytest.mark.parametrize(("text", "default", "cm"), SPELT)
def test_a_length_is_read_to_the_last_digit_or_refused(text: str, default: Unit, cm: Fraction | None) -> None:
    if cm is None:
        with pytest.raises(ValueError, match=r"^expected ") as error:
            parse_length(text, default)
        assert repr(text) in str(error.value)
    else:
        assert parse_length(text, default) == pytest.approx(float(cm), rel=1e-15, abs=0)


def test_an_unknown_unit_is_named() -> None:
    with pytest.raises(ValueError, match=r"^expected the unit cm, mm, m, in or ft, got 'ells' in '8 ells'$"):
        parse_length("8 ells", Unit.CM)


def test_a_fraction_over_nought_is_refused() -> None:
    with pytest.raises(ValueError, match=r"^expected a fraction of an inch such as 1/2, got '8 1/0 in'$"):
        parse_length("8 1/0 in", Unit.CM)


@pytest.mark.parametrize(
    ("text", "months"),
    [
        ("6", 72),
        ("6.5", 78),
        ("6,5", 78),
        ("6 1/2", 78),
        ("1 1/2 years", 18),
        ("1½ yrs", 18),
        ("6 years old", 72),
        ("6 Years", 72),
        ("18 months", 18),
        ("18 mo", 18),
        ("18 mos.", 18),
        ("18m", 18),
        ("2 years 3 months", 27),
        ("2 years and 3 months", 27),
        ("2y 3m", 27),
        ("2 yr 3", 27),
        ("18 Monate", 18),
        ("6 Jahre", 72),
        ("2 Jahre und 3 Monate", 27),
        ("6 Jahre alt", 72),
        ("18 mois", 18),
        ("1 an et 6 mois", 18),
        ("6 ans", 72),
        ("18 meses", 18),
        ("6 a\u00f1os", 72),
        ("6 A\u00d1OS", 72),
        ("1 a\u00f1o y 6 meses", 18),
        ("0", 0),
    ],
)
def test_an_age_is_read(text: str, months: int) -> None:
    assert parse_age(text) == pytest.approx(months / 12, rel=1e-15)


@pytest.mark.parametrize(
    "text", ["", "old", "-1", "nan", "6 weeks", "3 months 2 years", "6 3", "six", "2 years 3 years", "1/0"]
)
def test_what_is_no_age(text: str) -> None:
    with pytest.raises(ValueError, match=r"^expected ") as error:
        parse_age(text)
    assert repr(text) in str(error.value)
