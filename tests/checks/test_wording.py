from dataclasses import replace

import pytest

from schematics.checks.wording import listed, of_body, percent, sentence_case
from schematics.units import exceeds
from schematics.wearer.body import Origin
from tests.checks.cases import measured, spread


@pytest.mark.parametrize(
    ("fraction", "against", "words"),
    [
        (0.35, (), "35 %"),
        (0.903, (0.9,), "90.3 %"),
        (0.9, (0.9,), "90 %"),
        (0.9004, (0.9,), "just over 90 %"),
        (0.7498, (0.6, 0.75), "just under 75 %"),
        (0.7494, (0.75,), "74.9 %"),
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
    by_age = spread(50, 52, 54, Origin.AGE_TABLE)
    assert of_body(by_age, "high end") == "high end, from the age table"
    assert of_body(replace(by_age, held="youngest, 2 to 3.5 years"), "high end") == (
        "high end, from the age table's youngest, 2 to 3.5 years"
    )


def test_lists_and_capitals() -> None:
    assert [listed("a"), listed("ab"), listed("abc")] == ["a", "a and b", "a, b and c"]
    assert sentence_case("seams A and B") == "Seams A and B"
