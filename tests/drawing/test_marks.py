"""Marks: boxes that turn with their text, blocks that keep their shape, arrowheads."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon
from shapely import box as rectangle
from shapely.affinity import rotate, translate

from schematics.document.lettering.text import LARGE, SMALL, font_size
from schematics.drawing.ink.marks import (
    Area,
    Circle,
    Group,
    Label,
    Line,
    Mark,
    Pen,
    Text,
    arrowhead,
    bounds,
    moved_group,
    turned_corners,
)
from tests.drawing.fonts import face
from tests.examples import examples

_coordinates = st.floats(-300, 300)
_points = st.tuples(_coordinates, _coordinates)
_angles = st.floats(-180, 180)
_lines = st.lists(
    st.text(st.sampled_from("0123456789. cmstrow/()"), min_size=1, max_size=24), min_size=1, max_size=4
)
_labels = st.builds(Label, _lines.map(tuple), st.sampled_from((SMALL, LARGE)), st.booleans())


@examples(100)
@given(_points, _angles)
def test_a_box_turns_clockwise_as_printed(origin: tuple[float, float], angle: float) -> None:
    """Shapely turns counter-clockwise with y up, which with y down is clockwise."""
    ours = Polygon(turned_corners(origin, (-3.0, -2.0, 11.0, 1.0), angle))
    theirs = rotate(translate(rectangle(-3, -2, 11, 1), *origin), angle, origin=origin)
    assert ours.symmetric_difference(theirs).area < 1e-6


@pytest.mark.slow
@examples(100)
@given(_labels, _points, _angles)
def test_a_labels_lines_stay_in_its_box(label: Label, centre: tuple[float, float], angle: float) -> None:
    """By the font's own widths and by how far the ink of these characters reaches."""
    box = label.box(centre, angle).buffer(0.05)
    texts = list(label.texts(centre, angle))
    assert [text.words for text in texts] == list(label.lines)
    for text in texts:
        font, size = face(text.bold), font_size(text.height)
        half, (top, bottom) = font.width(text.words) * size / 2, font.reach(text.words)
        ink = Polygon(turned_corners(text.at, (-half, -top * size, half, -bottom * size), angle))
        assert box.contains(ink)
        assert box.contains(text.box())


@pytest.mark.slow
@examples(100)
@given(_labels, _points, _angles, st.floats(0, 5))
def test_a_margin_widens_a_labels_box_on_all_sides(
    label: Label, centre: tuple[float, float], angle: float, margin: float
) -> None:
    width, height = label.size
    wide = label.box(centre, angle, margin)
    assert wide.area == pytest.approx((width + 2 * margin) * (height + 2 * margin), rel=1e-6)
    assert (wide.centroid.x, wide.centroid.y) == pytest.approx(centre, abs=1e-6)


@examples(100)
@given(st.sampled_from(("start", "middle", "end")), _points)
def test_text_lies_where_its_anchor_says(anchor: str, at: tuple[float, float]) -> None:
    x0, y0, x1, y1 = Text(at, "16 1/2 in", anchor=anchor).box().bounds
    expected = {"start": x0, "middle": (x0 + x1) / 2, "end": x1}[anchor]
    assert at[0] == pytest.approx(expected, abs=1e-6)
    assert y0 < at[1] < y1


@examples(100)
@given(_points, st.floats(-math.pi, math.pi), st.floats(1, 5))
def test_an_arrowhead_points_where_it_should(tip: tuple[float, float], way: float, length: float) -> None:
    head = arrowhead(tip, (7 * math.cos(way), 7 * math.sin(way)), length)
    assert head.points[0] == tip
    (bx, by) = ((head.points[1][i] + head.points[2][i]) / 2 for i in (0, 1))
    assert (tip[0] - bx, tip[1] - by) == pytest.approx(
        (length * math.cos(way), length * math.sin(way)), abs=1e-6
    )
    assert math.dist(head.points[1], head.points[2]) == pytest.approx(length / 3)
    assert head.pen is Pen.SOLID


@examples(100)
@given(_coordinates, _coordinates)
def test_a_moved_group_keeps_its_shape(dx: float, dy: float) -> None:
    marks: tuple[Mark, ...] = (
        Line(((0, 0), (5, 1))),
        Area(((0, 0), (4, 0), (4, 3))),
        Circle((9, 9), 2),
        Text((1, 20), "hem", angle=30),
    )
    group = Group("note", "all kinds", marks)
    x0, y0, x1, y1 = bounds([group])
    assert bounds([moved_group(group, dx, dy)]) == pytest.approx(
        (x0 + dx, y0 + dy, x1 + dx, y1 + dy), abs=1e-9
    )


def test_bounds_are_those_of_everything_drawn() -> None:
    box = Text((1, 20), "hem", angle=30).box()
    group = Group("note", "two", (Circle((9, 9), 2), Text((1, 20), "hem", angle=30)))
    union = box.union(rectangle(7, 7, 11, 11))
    assert bounds([group]) == pytest.approx(union.bounds)
