"""Packing rectangles into the page, and the parts of the page that never change."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import box as rectangle

from schematics.drawing.marks import bounds
from schematics.drawing.page import Box, TitleBlock, drawing_area, pack, page_groups
from schematics.drawing.scale import SCALES
from schematics.drawing.sheet import A4, LETTER, Paper, Sheet
from schematics.drawing.svg import to_svg
from tests.drawing.audit_layout import layout_faults
from tests.drawing.audit_scale import scale_faults
from tests.drawing.fonts import needs_fonts
from tests.drawing.readback import read_page

_sizes = st.lists(st.tuples(st.floats(1, 120), st.floats(1, 120)), min_size=1, max_size=5)


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


@given(_sizes)
def test_what_fits_in_one_column_is_packed(sizes: list[tuple[float, float]]) -> None:
    width = max(w for w, _ in sizes)
    height = sum(h for _, h in sizes) + 5.0 * (len(sizes) - 1)
    assert pack(sizes, Box(0, 0, width + 1e-6, height + 1e-6)) is not None


def test_the_order_is_changed_where_only_another_fits() -> None:
    """A wide strip between two that stand side by side leaves no room for the last."""
    corners = pack([(40, 40), (85, 20), (40, 40)], Box(0, 0, 85, 65))
    assert corners == [(0, 0), (0, 45), (45, 0)]


def _title(scale: int | None = 10, gauges: int = 2) -> TitleBlock:
    return TitleBlock(
        design="A design with a title that goes on and on until it cannot possibly fit its cell",
        size="Size 10 to 12 years, long in the body",
        wearer="chart row child/10",
        verdict="works, mind the notes",
        findings="1 stop, 2 mind, 11 good",
        sheet="pieces, laid flat",
        gauges=("ribbing, one hook size down: 33.5 sts x 40.5 rows over 15.24 x 15.24 cm",) * gauges,
        units="cm and inches",
        date="2026-09-14",
        number=12,
        total=34,
        scale=scale,
    )


@needs_fonts
@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
@pytest.mark.parametrize("scale", [None, *SCALES])
@pytest.mark.parametrize("gauges", [1, 4])
def test_nothing_of_the_page_touches_anything_at_any_scale(
    paper: Paper, scale: int | None, gauges: int
) -> None:
    groups = tuple(page_groups(paper, _title(scale, gauges)))
    sheet = Sheet(paper=paper, scale=scale, title="t", description="d", groups=groups)
    page = read_page(to_svg(sheet))
    assert [*layout_faults(page), *scale_faults(page)] == []


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
def test_the_drawing_area_keeps_clear_of_the_page(paper: Paper) -> None:
    area = drawing_area(paper)
    groups = [group for group in page_groups(paper, _title()) if group.kind != "frame"]
    _, top, _, _ = bounds(groups)
    assert area.y1 < top
    assert paper.width / 2 < area.x1 - area.x0 < paper.width - 20
    assert area.y1 - area.y0 > paper.height / 2
