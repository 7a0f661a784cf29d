"""Where an arrow that names an edge may end."""

from __future__ import annotations

import math

import pytest

from schematics.drawing.ink.marks import Point
from schematics.drawing.ink.track import Bent, Straight
from schematics.drawing.pieces.edge_tips import edge_tips


@pytest.mark.parametrize("hurried", [True, False])
def test_an_arrow_to_an_edge_that_bends_ends_half_way_between_corners(hurried: bool) -> None:
    """Three sides of 20, 30 and 20 mm and a notch of 2 mm at its end: its middle is 36 mm along."""
    track = Bent(((0.0, 0.0), (0.0, 20.0), (30.0, 20.0), (30.0, 0.0), (32.0, 0.0)))
    ends = [end for end, _ in edge_tips(track, hurried=hurried)]
    assert ends == [(15.0, 20.0), (9.0, 20.0), (21.0, 20.0), (30.0, 10.0), (0.0, 10.0), (31.0, 0.0)]


def test_an_edge_without_corners_is_pointed_at_in_its_middle_first() -> None:
    (end, away), *others = edge_tips(Straight((0.0, 0.0), (50.0, 0.0)), hurried=True)
    assert (end, away) == ((25.0, 0.0), (0.0, 1.0))
    ends: list[Point] = [(0.0, 0.0), (50.0, 0.0)]
    assert all(math.dist(at, corner) >= 10.0 for at, _ in others for corner in ends)
