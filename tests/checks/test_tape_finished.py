"""A finished measurement held against a body's reads as it is printed everywhere, or more finely."""

from __future__ import annotations

import pytest

from schematics.checks.tape import Compared, Tape
from schematics.garment.printed_lengths import grain_of
from schematics.units import Grain, Unit


@pytest.mark.parametrize(
    ("key", "unit", "first", "second", "words"),
    [
        ("neck.edge", Unit.CM, 44.62, 29.3, ("44.5 cm", "29.3 cm", "15.2 cm")),
        ("neck_band.length", Unit.CM, 30.3, 30.3, ("30.3 cm", "30.3 cm", "0 cm")),
        ("neck.edge", Unit.CM, 30.24, 30.1, ("30.2 cm", "30.1 cm", "0.1 cm")),  # to a half it were shorter
        ("neck.edge", Unit.CM, 30.24, 30.22, ("30.24 cm", "30.22 cm", "0.02 cm")),
        ("neck.edge", Unit.IN, 17.6 * 2.54, 11.6 * 2.54, ("17 1/2 in", "11 5/8 in", "5 7/8 in")),
        ("arm.run", Unit.CM, 15.21, 14.3, ("15.25 cm", "14.3 cm", "0.95 cm")),
        ("arm.opening", Unit.CM, 15.21, 14.2, ("15.25 cm", "14.2 cm", "1.05 cm")),
        ("arm_band.length", Unit.CM, 15.4, 14.3, ("15.5 cm", "14.3 cm", "1.2 cm")),
        ("arm_band.length", Unit.CM, 15.2, 15.22, ("15.20 cm", "15.22 cm", "0.02 cm")),
        ("arm_band.length", Unit.IN, 6.1 * 2.54, 5.6 * 2.54, ("6 1/8 in", "5 5/8 in", "1/2 in")),
    ],
)
def test_a_length_reads_as_printed_where_the_difference_allows(
    key: str, unit: Unit, first: float, second: float, words: tuple[str, str, str]
) -> None:
    assert Tape(unit).compare(first, second, (grain_of(key), Grain.USUAL)) == Compared(*words)
