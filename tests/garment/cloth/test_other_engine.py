"""Hems of two constructions, arms down and level, as MuJoCo hangs them; it is installed by hand for this."""

from __future__ import annotations

from functools import cache

import pytest

from schematics.garment.cloth.draping import Hung
from schematics.garment.cloth.worn_heights import answers
from tests.garment.cloth.other_engine import hung_both_ways
from tests.shipped import shipped_results

MOST_CM = 1.5
HEIGHTS = ("hem_back_cm", "hem_side_cm", "hem_front_cm", "hem_lowest_cm")


@cache
def both(design: str) -> tuple[Hung, Hung]:
    return hung_both_ways(next(each for each in shipped_results(design) if each.size.name == "6"))


@pytest.mark.thorough
@pytest.mark.parametrize("design", ["tidepool", "kelp"])
@pytest.mark.parametrize("pose", ["down", "level"])
def test_hems_hang_as_high_in_another_engine(design: str, pose: str) -> None:
    ours, theirs = (answers(getattr(each, pose)) for each in both(design))
    found = {name: getattr(theirs, name) for name in HEIGHTS}
    assert found == pytest.approx({name: getattr(ours, name) for name in HEIGHTS}, abs=MOST_CM)


@pytest.mark.thorough
@pytest.mark.parametrize("design", ["tidepool", "kelp"])
@pytest.mark.parametrize("pose", ["down", "level"])
def test_there_too_it_stays_out_of_the_body(design: str, pose: str) -> None:
    ours, theirs = (getattr(each, pose) for each in both(design))
    assert ours.body.distance(theirs.vertices)[0].min() > -0.1
