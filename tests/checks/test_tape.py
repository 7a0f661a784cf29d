import doctest
import re
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.checks import check_size, tape
from schematics.checks.finding import Finding
from schematics.checks.tape import Compared, Tape
from schematics.units import AnyGrain, Grain, ShortGrain, Unit
from tests.checks.gallery import gallery

lengths = st.floats(0, 300)


def number(words: str) -> float:
    """A length as printed, in its unit."""
    return float(sum(map(Fraction, words.removesuffix(" cm").removesuffix(" in").split())))


STEPS = {
    Grain.COARSE: {Unit.CM: 0.5, Unit.IN: 1 / 4},
    ShortGrain.NARROW: {Unit.CM: 0.25, Unit.IN: 1 / 8},
    Grain.USUAL: {Unit.CM: 0.1, Unit.IN: 1 / 8},
}
"""What a finished length, a narrow one and a tape's are rounded to."""
grains = st.sampled_from([*STEPS])


@given(lengths, lengths | st.floats(-0.4, 0.4), st.sampled_from(Unit), grains, grains)
def test_printed_lengths_never_contradict_the_exact_ones(
    first_cm: float, other: float, unit: Unit, first_grain: AnyGrain, second_grain: AnyGrain
) -> None:
    second_cm = first_cm + other if abs(other) < 0.5 and first_cm > 1 else abs(other)
    words = Tape(unit).compare(first_cm, second_cm, (first_grain, second_grain))
    first, second = (each / unit.to_cm(1) for each in (first_cm, second_cm))
    one, another = number(words.first), number(words.second)
    errors = [STEPS[grain][unit] / 2 + 1e-6 for grain in (first_grain, second_grain)]
    assert abs(one - first) <= errors[0]
    assert abs(another - second) <= errors[1]
    assert (one - another) * (first - second) >= 0
    if words.gap.startswith("less than "):
        finest = number(words.gap.removeprefix("less than "))
        assert finest == {Unit.CM: 0.01, Unit.IN: 1 / 32}[unit]
        assert 0 < abs(first - second) < finest
        return
    assert number(words.gap) == pytest.approx(abs(one - another), abs=1e-6)
    assert number(words.gap) == pytest.approx(abs(first - second), abs=sum(errors))
    assert (number(words.gap) > 0) is (abs(first_cm - second_cm) > 1e-9)


@pytest.mark.parametrize(
    ("first", "second", "words"),
    [
        (56.04, 56.0, ("56.04 cm", "56.00 cm", "0.04 cm")),
        (56.001, 56.0, ("56.00 cm", "56.00 cm", "less than 0.01 cm")),
        (15.96, 19.64, ("16 cm", "19.6 cm", "3.6 cm")),  # 3.68 apart
        (56.04, 56.04, ("56 cm", "56 cm", "0 cm")),
    ],
)
def test_lengths_print_as_coarsely_as_their_difference_allows(
    first: float, second: float, words: tuple[str, str, str]
) -> None:
    assert Tape(Unit.CM).compare(first, second) == Compared(*words)


@pytest.mark.parametrize(
    ("first", "second", "words"),
    [
        (22.1, 20.64, ("22 1/8 in", "20 5/8 in", "1 1/2 in")),
        (20.03, 20.0, ("20 1/32 in", "20 in", "1/32 in")),
        (9.58, 9.63, ("9 19/32 in", "9 5/8 in", "1/32 in")),
        (20.001, 20.0, ("20 in", "20 in", "less than 1/32 in")),
        (0.375, 0.0, ("3/8 in", "0 in", "3/8 in")),
    ],
)
def test_inches_are_those_of_a_tape_measure(first: float, second: float, words: tuple[str, str, str]) -> None:
    assert Tape(Unit.IN).compare(first * 2.54, second * 2.54) == Compared(*words)


@given(lengths, st.sampled_from(Unit))
def test_at_least_is_never_less(length_cm: float, unit: Unit) -> None:
    printed_cm = number(Tape(unit).at_least(length_cm)) * unit.to_cm(1)
    step_cm = {Unit.CM: 0.1, Unit.IN: 2.54 / 8}[unit]
    assert -1e-6 <= printed_cm - length_cm <= step_cm + 1e-6


def in_unit(name: str, unit: Unit) -> tuple[Finding, ...]:
    case = gallery()[name]
    return check_size(replace(case, design=replace(case.design, unit=unit)))


@pytest.mark.slow
@pytest.mark.parametrize("name", gallery())
def test_a_design_in_inches_is_told_of_in_inches(name: str) -> None:
    """The same findings, word for word, every length of theirs in inches and as long."""
    a_length = r"(?:\d+ )?\d+(?:/\d+|\.\d+)? (?:cm|in)\b"
    for metric, imperial in zip(in_unit(name, Unit.CM), in_unit(name, Unit.IN), strict=True):
        assert not re.search(r"\d cm\b", imperial.sentence)
        assert re.sub(a_length, "#", metric.sentence) == re.sub(a_length, "#", imperial.sentence)
        assert (metric.code, metric.severity, metric.figures) == (
            imperial.code,
            imperial.severity,
            imperial.figures,
        )
        for one, other in zip(
            re.findall(a_length, metric.sentence), re.findall(a_length, imperial.sentence), strict=True
        ):
            assert number(one) == pytest.approx(number(other) * 2.54, abs=0.65)  # both rounded: 1/4 and 0.5


def test_the_examples_in_the_docstrings_hold() -> None:
    assert doctest.testmod(tape).failed == 0
