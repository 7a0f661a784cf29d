"""The colours of a chart's stitches, as hatching of their cells, and of cells between them for strands."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import shapely
from shapely import STRtree
from shapely.geometry.base import BaseGeometry

from schematics.crochet.charts.chart import Chart
from schematics.crochet.charts.placed_stitches import PlacedStitch
from schematics.drawing.charts.chart_layout import ChartLayout
from schematics.drawing.charts.colour_hatching import hatching
from schematics.drawing.charts.over_and_under import halo
from schematics.drawing.ink.marks import Area, Mark, Pen, Point

_BETWEEN = 0.3
"""Half the width of the cell of a stitch that lies between others, over that of theirs."""


class ChartColours:
    """The hatching of stitches that are drawn: each its row in the list, itself and its marks."""

    def __init__(
        self, chart: Chart, layout: ChartLayout, shown: Sequence[tuple[int, PlacedStitch, Sequence[Mark]]]
    ) -> None:
        self._letters = [letter for letter, _ in chart.colours]
        self._layout = layout
        self._shown = shown
        self._inks = [halo(marks) for *_, marks in shown if marks]
        self._tree = STRtree(self._inks)
        between = [self._between(row, placed) for row, placed, _ in shown]
        self._cells = [shapely.Polygon(corners) if corners else None for corners in between]
        self._strands = shapely.union_all([cell for cell in self._cells if cell])

    def of_fabric(self) -> Iterator[Mark]:
        """Lines in the cells of stitches, beside the cells of those that lie between them."""
        for row, placed, _ in self._shown:
            for step in range(placed.worked.makes):
                square = shapely.Polygon(cell_corners(self._layout, row, placed.column + step))
                yield from self._lines(placed, square.difference(self._strands))

    def of_strands(self) -> Iterator[tuple[Mark, ...]]:
        """For each stitch its own narrow cell with its lines, if it makes none and so lies between others."""
        for (_, placed, _), cell in zip(self._shown, self._cells, strict=True):
            if cell is None:
                yield ()
                continue
            outline = tuple((float(x), float(y)) for x, y in cell.exterior.coords[:-1])
            yield Area(outline, Pen.GRID), *self._lines(placed, cell)

    def _lines(self, placed: PlacedStitch, cell: BaseGeometry) -> Iterator[Mark]:
        near = [self._inks[number] for number in sorted(self._tree.query(cell, predicate="intersects"))]
        colour = placed.worked.colour
        number = self._letters.index(colour) if colour in self._letters else 0
        yield from hatching(number, cell, shapely.union_all(near))

    def _between(self, row: int, placed: PlacedStitch) -> tuple[Point, ...]:
        """The corners of the cell of a stitch that makes none; empty for any other."""
        if placed.worked.makes or not placed.worked.stitch.symbol:
            return ()
        x = self._layout.stance(row, placed).top[0]
        half = _BETWEEN * self._layout.side
        return _corners(x - half, x + half, self._layout.foot(row), self._layout.foot(row + 1))


def cell_corners(layout: ChartLayout, row: int, column: int) -> tuple[Point, ...]:
    """The corners of a stitch's cell, in mm, from the upper left one on clockwise."""
    x, half = layout.x(row, column), layout.side / 2
    return _corners(x - half, x + half, layout.foot(row), layout.foot(row + 1))


def _corners(left: float, right: float, low: float, high: float) -> tuple[Point, ...]:
    return (left, high), (right, high), (right, low), (left, low)
