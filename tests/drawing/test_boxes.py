"""Boxes as arrays of sides, against shapely's geometry of the same."""

from __future__ import annotations

import numpy as np
import shapely
from hypothesis import given
from hypothesis import strategies as st

from schematics.drawing.ink.boxes import box_sides, meets_box

whole = st.integers(-6, 6)
NO_EDGE_ON_A_POINT = 1 / 97
point = st.tuples(whole, whole)


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
