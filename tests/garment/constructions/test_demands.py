"""What the counts of a size must keep."""

from __future__ import annotations

import numpy as np

from schematics.garment.amounts import Formula
from schematics.garment.constructions.demands import CountRange, at_least
from tests.garment.trees import BODY_ROWS, NECK


def test_a_range_says_how_far_it_is_missed() -> None:
    even = CountRange(Formula(NECK), low=4, high=9, multiple=2)
    missed = even.miss({"body.neck": np.array([1, 4, 5, 8, 11])})
    assert missed.tolist() == [3, 0, 1, 0, 2]
    assert at_least(NECK, BODY_ROWS).miss({"body.neck": 3, "body.rows": 5}) == 2
