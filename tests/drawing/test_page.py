"""Packing rectangles into the page, and the parts of the page that never change."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import box as rectangle

from schematics.drawing.ink.marks import bounds
from schematics.drawing.ink.page import Box, drawing_area, pack, page_groups, spread_down
from schematics.drawing.ink.scale import STEPS
from schematics.drawing.ink.sheet import A4, LETTER, Paper
from tests.drawing.audit_layout import layout_faults
from tests.drawing.audit_scale import scale_faults
from tests.drawing.pages import made_up_page, title_block
from tests.examples import covering, examples

_sizes = st.lists(st.tuples(st.floats(1, 120), st.floats(1, 120)), min_size=1, max_size=5)


@pytest.mark.slow
@examples(100)
@given(_sizes, st.floats(20, 250), st.floats(20, 250))
def test_packed_rectangles_lie_inside_and_apart(
    sizes: list[tuple[float, float]], width: float, height: float
) -> None:
    area = Box(12.0, 15.0, 12.0 + width, 15.0 + height)
    corners = pack(sizes, area)
    if corners is None:
        assert len(sizes) > 1 or sizes[0][0] > width or sizes[0][1] > height
        return
    placed = [rectangle(x, y, x + w, y + h) for (x, y), (w, h) in zip(corners, sizes, strict=True)]
    inside = rectangle(area.x0, area.y0, area.x1, area.y1).buffer(1e-6)
    assert all(inside.contains(each) for each in placed)
    assert all(a.distance(b) > 4.99 for a, b in combinations(placed, 2))


@examples(100)
@given(_sizes)
def test_what_fits_in_one_column_is_packed(sizes: list[tuple[float, float]]) -> None:
    width = max(w for w, _ in sizes)
    height = sum(h for _, h in sizes) + 5.0 * (len(sizes) - 1)
    assert pack(sizes, Box(0, 0, width + 1e-6, height + 1e-6)) is not None


def test_the_order_is_changed_where_only_another_fits() -> None:
    """A wide strip between two that stand side by side leaves no room for the last."""
    corners = pack([(40, 40), (85, 20), (40, 40)], Box(0, 0, 85, 65))
    assert corners == [(0, 0), (0, 45), (45, 0)]


def test_room_left_under_rows_is_shared_out_under_each() -> None:
    """Two rows with 24 mm left have 12 more between them; of 90 no more than 20 goes there."""
    rows = [Box(0, 0, 40, 30), Box(50, 0, 90, 20), Box(0, 35, 40, 60), Box(50, 35, 90, 76)]
    for foot, apart in ((100, 12), (166, 20)):
        spread = spread_down(rows, Box(0, 0, 90, foot))
        assert [(box.x0, box.y0) for box in spread] == [(0, 0), (50, 0), (0, 35 + apart), (50, 35 + apart)]


def test_rows_that_stand_into_each_other_stay_as_they_are() -> None:
    rows = [Box(0, 0, 40, 70), Box(45, 0, 90, 30), Box(45, 35, 90, 60)]
    assert spread_down(rows, Box(0, 0, 90, 100)) == rows


PAPERS = [
    pytest.param(paper, id=f"{paper.name} {paper.width:g} wide")
    for upright in (A4, LETTER)
    for paper in (upright, upright.turned)
]


@pytest.mark.slow
@pytest.mark.parametrize(("paper", "fabrics"), covering([A4, A4.turned, LETTER, LETTER.turned], (6, 1, 4)))
def test_nothing_of_the_page_touches_anything_at_any_scale(paper: Paper, fabrics: int) -> None:
    found = {}
    for scale in (None, *STEPS):
        page = made_up_page((), paper, title_block(scale, fabrics))
        found[scale] = [*layout_faults(page), *scale_faults(page)]
    assert {scale: faults for scale, faults in found.items() if faults} == {}


@pytest.mark.parametrize("paper", PAPERS)
def test_the_drawing_area_keeps_clear_of_the_page(paper: Paper) -> None:
    area = drawing_area(paper)
    groups = [group for group in page_groups(paper, title_block()) if group.kind != "frame"]
    _, top, _, _ = bounds(groups)
    assert area.y1 < top
    assert paper.width / 2 < area.x1 - area.x0 < paper.width - 20
    assert area.y1 - area.y0 > paper.height / 2
