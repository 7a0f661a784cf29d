"""The sheets of a part's stitch chart: how it is read, each chart, key, counts and rows in words."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

from schematics.crochet.charts.chart import Chart
from schematics.crochet.fabric import Fabric
from schematics.design.design import Size
from schematics.document.chart_words.chart_piece import ChartPiece
from schematics.document.lettering.text import LARGE, SMALL, line_pitch, text_width, wrap
from schematics.drawing.charts.chart_layout import ChartLayout, has_strands, is_flat, lay_out
from schematics.drawing.charts.chart_views import ChartView, chart_views
from schematics.drawing.charts.chart_words import (
    chart_description,
    reading_facts,
    rows_in_words,
    size_lines,
    sizes_words,
    view_heading,
)
from schematics.drawing.charts.mark_facts import mark_facts
from schematics.drawing.charts.page_flow import GUTTER, PageFlow, pages_needed
from schematics.drawing.charts.stitch_grid import StitchGrid, Window
from schematics.drawing.charts.stitch_key import KeyPart, key_block, key_parts
from schematics.drawing.compose import Drawing, Setting
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Point
from schematics.drawing.ink.page import block_size, drawing_area
from schematics.drawing.ink.text_block import TextBlock

LARGEST_CELL, SMALLEST_CELL = 8.0, 5.0
"""Widths of a cell, in mm. In the smaller, strokes of 0.35 mm stand 0.3 mm apart: 0.18 mm where it is
printed at 60 %, which is more than two dots of 300 to the inch."""

SMALLEST_FLAT_CELL, SMALLEST_STRANDS_CELL = 4.0, 4.5
"""The same where no stitch of the fabric is taller than single crochet or has more than one foot, and where
stitches lie on the surface of such a fabric, whose bars stand between its stitches."""

_NARROWEST_KEY = 55.0

_STEP = 0.5
_PARAGRAPH = 1.0
_HAIR = 1e-6
_UNDER_GRID, _OVER_GRID = 9.0, 7.0
"""Room for what is under and over a grid, with a heading of one line, in mm."""


def draw_panel_chart(setting: Setting) -> tuple[Drawing, ...]:
    """The sheets of the centre panel's chart; none where its fabric has no chart."""
    pieces = panel_pieces(setting.design.sizes)
    return chart_sheets(setting, "centre panel", setting.design.parts.centre_panel, pieces)


def panel_pieces(sizes: Iterable[Size]) -> list[ChartPiece]:
    """The panel of each size."""
    return [ChartPiece(size=size.name, stitches=size.panel_stitches, rows=size.panel_rows) for size in sizes]


def chart_sheets(
    setting: Setting, part: str, fabric: Fabric, pieces: Sequence[ChartPiece], *, on_body: bool = False
) -> tuple[Drawing, ...]:
    """The sheets of the chart that a part is worked from in all sizes; none where its fabric has no chart.

    One ``on_body`` is rows of it: it has no foundation chain, and of its many repeats two are drawn.
    """
    if fabric.chart is None:
        return ()
    area = drawing_area(setting.paper)
    terms = setting.design.terms
    width, height = area.x1 - area.x0, area.y1 - area.y0
    column = (width - GUTTER) / 2
    views = chart_views(fabric, pieces, in_short=on_body)
    name = f"{part[0].upper()}{part[1:]}"
    title = f"{name}: {terms.text(fabric.stitch)}"
    rows = rows_in_words(fabric, pieces, terms)
    first, *others = reading_facts(fabric, views, terms)
    facts = [f"{first} {terms} terms.", *others, *mark_facts(fabric.chart, views)]
    head = _lines_block("chart-heading", title, facts, width)
    counts = _lines_block(
        "chart-sizes",
        sizes_words([piece.size for piece in pieces]),
        size_lines(fabric, pieces, on_body=on_body),
        column,
    )

    def key(parts: Sequence[KeyPart], *, first: bool) -> Block:
        return key_block(parts, _heading("Key", first=first))

    def words(rows: Sequence[str], *, first: bool) -> Block:
        return _lines_block("chart-rows", _heading("Rows in words", first=first), rows, width)

    parts = key_parts(fabric.chart, views, terms, column)
    texts = [key(parts, first=True), counts, words(rows, first=True)]
    side = _cell(views, block_size(head), [block_size(block) for block in texts], (width, height))
    flow = PageFlow(width, height, lambda: _lines_block("chart-heading", f"{name}, continued", (), width))
    flow.add_heading(head)
    for number, view in enumerate(views):
        blocks = view_blocks(fabric.chart, view, side, width, height)
        for block in blocks:
            flow.add(block)
        if number == 0:
            narrow = width - block_size(blocks[-1])[0] - GUTTER
            if not flow.has_room(key(parts, first=True)) and narrow > _NARROWEST_KEY:
                narrower = key_parts(fabric.chart, views, terms, narrow)
                parts = narrower if flow.has_room(key(narrower, first=True)) else parts
            flow.add_in_parts(parts, key)
    flow.add_in_parts([counts], _first)
    flow.add_in_parts(rows, words, together=False)
    pages = flow.pages(area.x0, area.y0)
    description = chart_description(fabric, part, pieces, terms)
    return tuple(
        Drawing(
            groups=groups,
            title=f"{part}, stitch chart{f', {number} of {len(pages)}' if len(pages) > 1 else ''}",
            description=description,
            scale=None,
        )
        for number, groups in enumerate(pages, start=1)
    )


def _first(blocks: Sequence[Block], *, first: bool) -> Block:  # noqa: ARG001
    return blocks[0]


def _heading(words: str, *, first: bool) -> str:
    return words if first else f"{words}, continued"


def _cell(views: Sequence[ChartView], head: Point, texts: Sequence[Point], area: Point) -> float:
    """The largest cell with which charts come in no more parts, on no more sheets, than with the least."""

    def parts_and_pages(side: float) -> tuple[int, int]:
        first, *others = [_estimates(view, side, area) for view in views]
        charts = [size for each in others for size in each]
        blocks = [head, *first, texts[0], *charts, *texts[1:]]
        return len(first) + len(charts), pages_needed(blocks, area, line_pitch(LARGE))

    smallest = smallest_cell(views)
    side, fewest = LARGEST_CELL, parts_and_pages(smallest)
    while side > smallest and any(map(int.__gt__, parts_and_pages(side), fewest)):
        side -= _STEP
    return side


def smallest_cell(views: Sequence[ChartView]) -> float:
    """The least width of a cell in which the symbols of the views are told apart, in mm."""
    rows = [view.rows for view in views]
    if not all(map(is_flat, rows)):
        return SMALLEST_CELL
    return SMALLEST_STRANDS_CELL if any(map(has_strands, rows)) else SMALLEST_FLAT_CELL


def _estimates(view: ChartView, side: float, area: Point) -> list[Point]:
    """About how large the blocks of a view are."""
    layout = lay_out(view.rows, side)
    edges = [layout.edges(row) for row in range(len(view.rows))]
    across = max(right for _, right in edges) - min(left for left, _ in edges)
    beside = _labels(view)
    up = -layout.foot(len(view.rows))
    over = _over_grid(_heading_lines(view, area[0]))
    room = area[1] - over - _UNDER_GRID - line_pitch(LARGE)
    number = math.ceil(across / (area[0] - beside)) * math.ceil(up / room)
    return [(min(across + beside, area[0]), min(up, room) + over + _UNDER_GRID)] * number


def _heading_lines(view: ChartView, width: float) -> list[str]:
    """Whose chart it is, in lines no wider than that, in mm."""
    return wrap(view_heading(view), width, bold=True)


def _over_grid(heading: Sequence[str]) -> float:
    """Room over a grid under a heading in so many lines, in mm."""
    return _OVER_GRID + (len(heading) - 1) * line_pitch(SMALL)


def _labels(view: ChartView) -> float:
    """The width of what is beside the grid, in mm."""
    colours = max(len({placed.worked.colour for placed in row.stitches} - {""}) for row in view.rows)
    number = text_width(f"{max(view.numbers)}{' ' * bool(colours)}{'W' * colours}", SMALL, bold=True)
    words = max(text_width(word) for each in view.sections for word in (each.section.words, *each.lines))
    return 2 * (number + 8.0) + words + 6.0


def view_blocks(chart: Chart, view: ChartView, side: float, width: float, height: float) -> list[Block]:
    """The chart of a view, in as many blocks as it needs."""
    grid = StitchGrid(chart, view, side)
    heading = _heading_lines(view, width)
    ranges = _row_ranges(view, grid.layout, width, height)
    widest = width - _labels(view)
    while True:
        cuts = grid.cuts(widest)
        windows = [
            Window(first, end, left, right, again) for left, right in cuts for first, end, again in ranges
        ]
        blocks = [grid.block(window, heading, _part_words(view, grid, window)) for window in windows]
        if all(block_size(block)[0] <= width for block in blocks) or widest <= 4 * side:
            return blocks
        widest -= side


def least_room(view: ChartView, side: float, width: float, height: float) -> tuple[int, float]:
    """How many blocks `view_blocks` gives at least, and how high the highest is, in mm; nothing is drawn."""
    layout = lay_out(view.rows, side)
    ranges = _row_ranges(view, layout, width, height)
    edges = [layout.edges(row) for row in range(len(view.rows))]
    across = max(right for _, right in edges) - min(left for left, _ in edges)
    parts = math.ceil((across - _HAIR) / (width - _labels(view)))
    high = max(layout.foot(first - again) - layout.foot(end) for first, end, again in ranges)
    return parts * len(ranges), high


def _row_ranges(
    view: ChartView, layout: ChartLayout, width: float, height: float
) -> list[tuple[int, int, int]]:
    """First row, end, and rows drawn again, for parts as high as there is room."""
    room = height - _over_grid(_heading_lines(view, width)) - _UNDER_GRID - line_pitch(LARGE)
    return list(_ranges_of(view, math.floor(room / max(layout.heights))))


def _ranges_of(view: ChartView, most: int) -> Iterator[tuple[int, int, int]]:
    """The same for parts of at most so many rows."""
    first, again = 0, 0
    while first < len(view.rows):
        left = len(view.rows) - first
        parts = -(-left // (most - again))
        end = first + -(-left // parts)
        yield first, end, again
        first, again = end, min(view.reach, most // 2)


def _part_words(view: ChartView, grid: StitchGrid, window: Window) -> str:
    """Which part of the chart it is, if it is one: rows from the foot, stitches from the left."""
    parts = []
    if (window.first, window.end) != (0, len(view.rows)):
        parts.append(f"rows {window.first + 1} to {window.end} of {len(view.rows)} from the foot")
    if (window.left, window.right) != grid.extent:
        row = max(range(len(view.rows)), key=lambda each: view.rows[each].stitch_count)
        shown = [
            column + 1 for column in range(view.rows[row].stitch_count)
            if window.left <= grid.layout.x(row, column) <= window.right
        ]  # fmt: skip
        parts.append(f"stitches {shown[0]} to {shown[-1]} of {view.rows[row].stitch_count} from the left")
    return "; ".join(parts)


def _lines_block(kind: str, heading: str, paragraphs: Iterable[str], width: float) -> Block:
    """A heading with paragraphs under it."""
    text = TextBlock(heading, width, line_pitch(LARGE))
    for each in paragraphs:
        text.add([each], _PARAGRAPH if len(wrap(each, width)) > 1 else 0.0)
    return text.block(kind, heading)
