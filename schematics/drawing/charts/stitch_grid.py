"""The stitch grid of a chart: a cell a stitch, rows bottom to top, numbered, with its repeats bracketed."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.crochet.charts.chart import Chart, ChartSection, Worked, is_right_side
from schematics.crochet.charts.chart_rules import ChartExtent
from schematics.document.lettering.text import SMALL, text_width
from schematics.drawing.charts.stitch_symbols import Cell, symbol
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Line, Mark, Pen, Point, Text, arrowhead

_GAP = 1.6
_ARROW = 6.0
_TICK = 2.0


def row_span(numbers: range) -> str:
    """``row 3``, ``rows 3 and 4`` or ``rows 3 to 6``."""
    first, last = numbers[0], numbers[-1]
    if first == last:
        return f"row {first}"
    return f"rows {first} {'and' if last == first + 1 else 'to'} {last}"


def stitch_grid(chart: Chart, extent: ChartExtent, side: float, repeat_words: str) -> Block:
    """The grid with cells of ``side`` mm, its lower left corner at the origin.

    A right-side row is worked from right to left and numbered at the right, a wrong-side row the
    other way (common practice, no source). Symbols stand for stitches as worked, not as they look
    from the right side.
    """
    block = Block()
    for number, row in enumerate(chart.rows, start=1):
        made = [worked for worked in row.stitches(extent.stitches) if worked.stitch.makes]
        as_seen = made[::-1] if is_right_side(number) else made
        _draw_row(block, number, as_seen, side)
    right = extent.stitches * side
    reach = _GAP + _ARROW + _GAP + max(text_width(str(number + 1)) for number in range(len(chart.rows)))
    _draw_sides(block, -reach, right + reach, -len(chart.rows) * side - _GAP)
    for section, numbers in chart.sections():
        block.add("section", section.words, _section_marks(section, numbers, side, right + reach + _GAP))
    block.add("stitch-repeat", "stitch repeat", _repeat_marks(extent, side, repeat_words))
    return block


def _draw_row(block: Block, number: int, as_seen: list[Worked], side: float) -> None:
    cells = [Cell(column * side, -number * side, side) for column in range(len(as_seen))]
    block.add("cells", f"row {number}", [cell.square() for cell in cells])
    for column, (worked, cell) in enumerate(zip(as_seen, cells, strict=True), start=1):
        block.add("stitch", f"{number}-{column}-{worked.abbreviation}", symbol(worked, cell))
    block.add("row", str(number), _row_marks(number, len(as_seen) * side, (0.5 - number) * side))


def _row_marks(number: int, right: float, middle: float) -> Iterator[Mark]:
    """The row's number on the side it begins at, and the way it is worked."""
    edge, way = (right, 1) if is_right_side(number) else (0.0, -1)
    tip, tail = edge + way * _GAP, edge + way * (_GAP + _ARROW)
    yield Line(((tail, middle), (tip, middle)), Pen.THIN)
    yield arrowhead((tip, middle), (tip - tail, 0.0))
    at = tail + way * _GAP, middle + SMALL / 2
    yield Text(at, str(number), anchor="start" if way > 0 else "end", bold=True)


def _draw_sides(block: Block, left: float, right: float, y: float) -> None:
    block.add("side", "wrong side", [Text((left, y), "WS")])
    block.add("side", "right side", [Text((right, y), "RS", anchor="end")])


def _section_marks(section: ChartSection, numbers: range, side: float, x: float) -> Iterator[Mark]:
    low, high = (1 - numbers[0]) * side - 0.5, -numbers[-1] * side + 0.5
    yield _bracket((x, low), (x + _TICK, low), (x + _TICK, high), (x, high))
    words = f"{section.words}: {len(numbers)} row{'' if len(numbers) == 1 else 's'}"
    yield Text((x + _TICK + _GAP, (low + high) / 2 + SMALL / 2), words)


def _repeat_marks(extent: ChartExtent, side: float, words: str) -> Iterator[Mark]:
    left, right = extent.first * side, (extent.first + extent.repeat) * side
    yield _bracket((left, _GAP), (left, _GAP + _TICK), (right, _GAP + _TICK), (right, _GAP))
    middle = max((left + right) / 2, text_width(words) / 2)
    yield Text((middle, _GAP + _TICK + _GAP + SMALL), words, anchor="middle")


def _bracket(*points: Point) -> Line:
    return Line(points, Pen.OUTLINE)
