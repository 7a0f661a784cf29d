import doctest

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.checks import wording
from schematics.checks.wording import Compared, compare_cm, exceeds, listed, of_body, percent, sentence_case
from schematics.wearer.body import Origin
from tests.checks.cases import measured, spread

lengths = st.floats(0, 300)


def number(words: str) -> float:
    return float(words.removesuffix(" cm"))


@given(lengths, lengths, st.sampled_from([0.5, 0.1]))
def test_printed_lengths_never_contradict_the_exact_ones(first: float, second: float, step: float) -> None:
    words = compare_cm(first, second, step=step)
    one, other = number(words.first), number(words.second)
    assert abs(one - first) <= step / 2 + 1e-6
    assert abs(other - second) <= step / 2 + 1e-6
    assert (one - other) * (first - second) >= 0
    if words.gap == "less than 0.01 cm":
        assert 0 < abs(first - second) < 0.01
        return
    assert number(words.gap) == pytest.approx(abs(one - other), abs=1e-6)
    assert number(words.gap) == pytest.approx(abs(first - second), abs=0.1 + 1e-6)
    assert (number(words.gap) > 0) is (abs(first - second) > 1e-9)


@pytest.mark.parametrize(
    ("first", "second", "step", "words"),
    [
        (56.0, 52.5, 0.5, ("56.0 cm", "52.5 cm", "3.5 cm")),
        (56.2, 52.4, 0.5, ("56.2 cm", "52.4 cm", "3.8 cm")),  # to 0.5 cm they would print 3.5 apart
        (30.1, 30.0, 0.5, ("30.1 cm", "30.0 cm", "0.1 cm")),
        (56.04, 56.0, 0.1, ("56.04 cm", "56.00 cm", "0.04 cm")),
        (56.001, 56.0, 0.1, ("56.00 cm", "56.00 cm", "less than 0.01 cm")),
        (15.96, 19.64, 0.1, ("16.0 cm", "19.6 cm", "3.6 cm")),  # 3.68 apart
        (56.04, 56.04, 0.1, ("56.0 cm", "56.0 cm", "0.0 cm")),
    ],
)
def test_lengths_print_as_coarsely_as_their_difference_allows(
    first: float, second: float, step: float, words: str
) -> None:
    assert compare_cm(first, second, step=step) == Compared(first=words[0], second=words[1], gap=words[2])


@pytest.mark.parametrize(
    ("fraction", "against", "words"),
    [
        (0.35, (), "35 %"),
        (0.903, (0.9,), "90.3 %"),
        (0.9, (0.9,), "90 %"),
        (0.9004, (0.9,), "90.04 %"),
        (0.0325, (0.01, 0.03), "3.3 %"),
    ],
)
def test_percent_prints_unlike_the_limit_it_breaks(
    fraction: float, against: tuple[float, ...], words: str
) -> None:
    assert percent(fraction, *against) == words


def test_signed_percent() -> None:
    assert percent(0.2, signed=True) == "+20 %"
    assert percent(-0.1, signed=True) == "-10 %"


def test_at_the_limit_is_not_over_it() -> None:
    assert not exceeds(0.1 + 0.2, 0.3)
    assert not exceeds(0.3, 0.3)
    assert exceeds(0.300001, 0.3)


def test_body_figures_say_their_end_and_origin() -> None:
    assert of_body(measured(52), "high end") == "measured"
    assert of_body(spread(50, 52, 54, Origin.AGE_TABLE), "high end") == "high end, from the age table"


def test_lists_and_capitals() -> None:
    assert [listed("a"), listed("ab"), listed("abc")] == ["a", "a and b", "a, b and c"]
    assert sentence_case("seams A and B") == "Seams A and B"


def test_the_examples_in_the_docstrings_hold() -> None:
    assert doctest.testmod(wording).attempted == 1
    assert doctest.testmod(wording).failed == 0
