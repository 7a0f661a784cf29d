"""Boxes as arrays of sides, against shapely's geometry of the same."""

from __future__ import annotations

from functools import partial

import numpy as np
import shapely
from hypothesis import given
from hypothesis import strategies as st

from schematics.drawing.ink.boxes import box_sides, meets_box
from schematics.drawing.ink.taken import Taken, lines_of, polygon_of, shapes_of
from tests.examples import examples

whole = st.integers(-6, 6)
NO_EDGE_ON_A_POINT = 1 / 97
point = st.tuples(whole, whole)
path = st.lists(point, min_size=2, max_size=4, unique=True)
triangle = st.lists(point, min_size=3, max_size=3, unique=True).filter(lambda corners: _is_face(corners))


@given(start=point, end=point, centre=point, width=st.integers(1, 6), height=st.integers(1, 6))
def test_a_line_meets_a_box_where_shapely_says_so(
    start: tuple[int, int], end: tuple[int, int], centre: tuple[int, int], width: int, height: int
) -> None:
    sides = box_sides(np.array([centre], float), np.array([width]), np.array([height]), NO_EDGE_ON_A_POINT)
    left, top, right, bottom = (float(side[0]) for side in sides)
    box = shapely.box(left, top, right, bottom)
    expected = shapely.intersects(
        box, shapely.LineString([start, end]) if start != end else shapely.Point(start)
    )
    assert meets_box(np.array([start], float), np.array([end], float), sides)[0] == expected


def _is_face(corners: list[tuple[int, int]]) -> bool:
    (x0, y0), (x1, y1), (x2, y2) = corners
    return (x1 - x0) * (y2 - y0) != (x2 - x0) * (y1 - y0)


@examples(60)
@given(
    paths=st.lists(path, max_size=4),
    triangles=st.lists(triangle, max_size=2),
    words=st.lists(point, max_size=2),
    centres=st.lists(point, min_size=1, max_size=6),
)
def test_boxes_touch_what_is_taken_where_shapely_says_so_of_each(
    paths: list[list[tuple[int, int]]],
    triangles: list[list[tuple[int, int]]],
    words: list[tuple[int, int]],
    centres: list[tuple[int, int]],
) -> None:
    level = [shapely.box(x, y, x + 3, y + 1) for x, y in words]
    held = shapes_of([*lines_of(paths), *map(polygon_of, triangles), *level])
    taken = Taken()
    for shape in held:
        taken.add(partial(shapes_of, [shape]))
    sides = box_sides(np.array(centres, float), np.full(len(centres), 3), np.full(len(centres), 2), 0.0)
    boxes = [shapely.box(*corners) for corners in zip(*(side.tolist() for side in sides), strict=True)]
    expected = [any(box.intersects(shape) for shape in held) for box in boxes]
    assert taken.touched_boxes(sides).tolist() == expected
