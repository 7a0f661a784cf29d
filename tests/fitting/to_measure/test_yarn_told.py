"""How much yarn a maker is told of: at her own gauge, and of yarn that is none of the pattern's."""

from __future__ import annotations

import math
import re

import pytest

from schematics.fitting.gauge_text import read_gauge
from schematics.fitting.to_measure.made_to_measure import made_to_measure
from schematics.fitting.to_measure.order import Order
from schematics.fitting.to_measure.own_yarn import own_yarn
from schematics.fitting.to_measure.poncho_report import poncho_document
from tests.fitting.children import IN_SIZE_6, demo

TIDEPOOL = demo("tidepool")


def told(order: Order) -> list[str]:
    made = made_to_measure(TIDEPOOL, order)
    (section,) = (each for each in poncho_document(made).sections if each.heading == "Yarn")
    return [str(each) for each in section.blocks]


@pytest.mark.slow
@pytest.mark.parametrize(
    ("gauge", "times", "than"),
    [
        ("19 sts 14 rows over 20 cm", 1.0, ""),
        ("19 sts 14 rows over 24 cm", 1.2, "larger"),
        ("19 sts 14 rows over 20 x 28.8 cm", 1.2, "larger"),
        ("19 sts 14 rows over 18 cm", 0.9, "smaller"),
    ],
)
def test_stitches_of_another_size_take_yarn_by_their_length(gauge: str, times: float, than: str) -> None:
    """Tidepool's swatch is 19 stitches by 14 rows over 20 cm; 1.44 times the area is 1.2 times each way."""
    order = Order(wearer=IN_SIZE_6, parts=read_gauge([gauge], TIDEPOOL).parts, size="6", changes=("hem +0",))
    words = told(order)[0]
    grams = [int(each) for each in re.findall(r"\((\d+) g\)", words)]
    if not than:
        assert len(grams) == 1
        return
    assert f"Your stitches are {than} than the pattern’s" in words
    stitch_for_stitch, about = grams
    assert about == pytest.approx(times * stitch_for_stitch, abs=1.0)
    assert f"{math.ceil(about / 100)} balls of 100 g ({about} g). To be sure" in words


@pytest.mark.slow
def test_yarn_of_another_thickness_is_enough_only_at_the_patterns_gauge() -> None:
    """120 m in 50 g are two and a half times the pattern's 95 m in 100 g."""
    thin = own_yarn(TIDEPOOL.yarn, "Stash", "50 g", "120 m")
    blocks = told(Order(wearer=IN_SIZE_6, yarn=thin, stash_g={"": 400.0}))
    assert blocks[0].startswith("It takes, with 10 % to spare: ")
    assert blocks[1].startswith("Your yarn is thinner than the pattern’s.")
    assert blocks[2].startswith(
        "If one strand of it works up to the pattern’s gauge, the yarn at hand is enough: "
    )


@pytest.mark.slow
def test_the_patterns_own_yarn_is_enough_without_an_if() -> None:
    blocks = told(Order(wearer=IN_SIZE_6, stash_g={"": 1000.0}))
    assert blocks[0].startswith("It takes, with ")
    assert blocks[1].startswith("The yarn at hand is enough: ")
