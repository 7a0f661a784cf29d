"""A folded body joined and laid flat, at one stitch and one row to the centimetre."""

from __future__ import annotations

import pytest

from schematics.garment.constructions.folded.folded_counts import FoldedArms, FoldedBody
from schematics.garment.garment import Garment
from tests.drawing.joined_views import back_view, joined_views, width
from tests.garment.constructions.samples import fabric, garment, parts


def folded_example() -> Garment:
    body = FoldedBody(
        width=60, front_rows=30, back_rows=32, neck=20, neck_front_rows=6, neck_back_rows=2, slot=10
    )
    return garment(body, FoldedArms(rows=20), parts(fabric()), panel_stitches=12, panel_rows=24)


def test_folded_front_is_wider_by_what_the_panel_is_wider_than_its_slot() -> None:
    front, back = joined_views(folded_example())
    assert width(back) == pytest.approx(60)
    assert width(front) == pytest.approx(62)


def test_folded_sides_are_seamed_below_the_arm_bands_on_both_views() -> None:
    front, back = joined_views(folded_example())
    for view, rows in ((front, 20), (back, 22)):
        for half, letter in zip(view.halves, "CD" if view is front else "DC", strict=True):
            (seam,) = (each for each in half.seams if each.letter == letter)
            assert seam.path.length == pytest.approx(rows)
            assert half.band is not None
            assert half.band.base.length == pytest.approx(10)


def test_folded_neck_band_stands_on_the_back_neck_and_reaches_over_the_fold() -> None:
    back = back_view(folded_example())
    x0, y0, x1, y1 = back.neck_band.shape.bounds
    assert (x0, y0, x1, y1) == pytest.approx((-10, -2, 10, 2))
