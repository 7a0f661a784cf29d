"""The centre panel's stitch chart: grid, key, rows in words, and how often each size works the repeat."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from schematics.crochet.charts.chart import Chart
from schematics.crochet.charts.chart_rules import extent, multiple_words
from schematics.crochet.fabric import Fabric
from schematics.design.design import Size
from schematics.document.lettering.text import LARGE, line_pitch, wrap
from schematics.drawing.charts.chart_words import (
    chart_description,
    reading_facts,
    rows_in_words,
    size_lines,
    sizes_words,
)
from schematics.drawing.charts.stitch_grid import stitch_grid
from schematics.drawing.charts.stitch_key import stitch_key
from schematics.drawing.compose import Drawing, Setting
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.page import block_size, drawing_area
from schematics.drawing.ink.text_block import TextBlock

LARGEST_CELL, SMALLEST_CELL = 11.0, 5.0
"""Sides of a cell, in mm; the strokes of a symbol run together below the smaller."""

_STEP = 0.5
_WIDE_ENOUGH = 8
"""Stitches a chart shows at least, where the multiple is small."""
_GUTTER = 8.0
_GAP = 6.0
_PARAGRAPH = 1.0
_ROWS = "the rows in words"
_NARROWEST = 46.0
"""Width of a column beside the grid, in mm, that holds a key."""


def draw_panel_chart(setting: Setting) -> Drawing | None:
    """The chart sheet; None where the panel's fabric has no chart."""
    fabric = setting.design.parts.centre_panel
    if fabric.chart is None:
        return None
    area = drawing_area(setting.paper)
    sheet = _Layout(fabric, fabric.chart, setting.design.sizes, area.x1 - area.x0, area.y1 - area.y0)
    placed, unplaced = sheet.arranged()
    return Drawing(
        groups=tuple(group for each in placed for group in each.block.at(area.x0 + each.x, area.y0 + each.y)),
        title="centre panel, stitch chart",
        description=chart_description(fabric, fabric.chart, setting.design.sizes),
        scale=None,
        unplaced=unplaced,
    )


_Band = Sequence[tuple[Block, float]]
"""Blocks side by side, each with its distance from the left."""


@dataclass(frozen=True, slots=True)
class _Placed:
    """A block with its upper left corner on the drawing area, in mm."""

    block: Block
    x: float
    y: float

    @property
    def below(self) -> float:
        """Where the next block may begin."""
        return self.y + block_size(self.block)[1] + _GAP


@dataclass(frozen=True, slots=True)
class _Layout:
    """The ways to arrange a chart on a drawing area of ``width`` and ``height`` mm."""

    fabric: Fabric
    chart: Chart
    sizes: Sequence[Size]
    width: float
    height: float

    def arranged(self) -> tuple[list[_Placed], tuple[str, ...]]:
        """The best way that has room for the grid, and what it leaves out."""
        column = (self.width - _GUTTER) / 2
        if placed := self._stacked(
            [(stitch_key(self.chart, column), 0.0), *self._words(column + _GUTTER, 1)]
        ):
            return placed, ()
        key = stitch_key(self.chart, column, columns=2, gutter=_GUTTER)
        if placed := self._stacked([(key, 0.0)]) or self._beside_key():
            return placed, (_ROWS,)
        return self._in_words_only()

    def _stacked(self, foot: _Band) -> list[_Placed] | None:
        """Heading, grid, counts and the ``foot`` from top to bottom; None if the grid has no room."""
        heading, counts = _Placed(self._heading(), 0.0, 0.0), self._counts(self.width)
        foot_height = max(block_size(block)[1] for block, _ in foot)
        room = self.height - heading.below - block_size(counts)[1] - foot_height - 2 * _GAP
        grid = self._grid(self.width, room)
        if grid is None:
            return None
        middle = _Placed(grid, (self.width - block_size(grid)[0]) / 2, heading.below)
        figures = _Placed(counts, 0.0, middle.below)
        return [heading, middle, figures, *(_Placed(block, x, figures.below) for block, x in foot)]

    def _beside_key(self) -> list[_Placed] | None:
        """Key and counts in a column beside the grid, for a tall chart; None if they have no room."""
        heading = _Placed(self._heading(), 0.0, 0.0)
        grid = self._grid(self.width - _GUTTER - _NARROWEST, self.height - heading.below)
        if grid is None:
            return None
        x = block_size(grid)[0] + _GUTTER
        key = _Placed(stitch_key(self.chart, self.width - x), x, heading.below)
        counts = _Placed(self._counts(self.width - x), x, key.below)
        fits = counts.below - _GAP <= self.height
        return [heading, _Placed(grid, 0.0, heading.below), key, counts] if fits else None

    def _in_words_only(self) -> tuple[list[_Placed], tuple[str, ...]]:
        """Without a grid: the words there is room for, from the top."""
        stitches = extent(self.chart, self.fabric.stitch_rule, 1).stitches
        grid = f"the stitch grid of {len(self.chart.rows)} rows by {stitches} stitches"
        heading = _lines_block(
            "chart-heading",
            self._title,
            [f"There is no room on this sheet for {grid}. US terms."],
            self.width,
        )
        bands: dict[str, _Band] = {
            "the heading": [(heading, 0.0)],
            "the counts of every size": [(self._counts(self.width), 0.0)],
            _ROWS: self._words(0.0, 2),
        }
        placed: list[_Placed] = []
        left_out = [grid]
        y = 0.0
        for name, band in bands.items():
            below = max(_Placed(block, x, y).below for block, x in band)
            if below - _GAP > self.height:
                left_out.append(name)
            else:
                placed += [_Placed(block, x, y) for block, x in band]
                y = below
        return placed, tuple(left_out)

    def _grid(self, width: float, height: float) -> Block | None:
        """The grid with the largest cells that fit, with several stitch repeats if there is room."""
        rule = self.fabric.stitch_rule
        enough = -(-(_WIDE_ENOUGH - rule.plus) // rule.multiple)
        words = "any number of stitches" if rule.multiple == 1 else f"multiple of {multiple_words(rule)}"
        for repeats in dict.fromkeys((max(2, enough), 2, 1)):
            shown = extent(self.chart, rule, repeats)
            side = min(LARGEST_CELL, width / shown.stitches, height / len(self.chart.rows))
            while side >= SMALLEST_CELL:
                grid = stitch_grid(self.chart, shown, side, words)
                across, up = block_size(grid)
                if across <= width and up <= height:
                    return grid
                side -= _STEP
        return None

    @property
    def _title(self) -> str:
        return f"Centre panel: {self.fabric.stitch}"

    def _heading(self) -> Block:
        return _lines_block("chart-heading", self._title, reading_facts(self.fabric, self.chart), self.width)

    def _counts(self, width: float) -> Block:
        lines = size_lines(self.fabric, self.chart, self.sizes)
        return _lines_block("chart-sizes", sizes_words(self.sizes), lines, width)

    def _words(self, x: float, columns: int) -> _Band:
        """The rows in words from ``x`` to the right edge, shared out over columns."""
        rows = rows_in_words(self.chart)
        width = (self.width - x - (columns - 1) * _GUTTER) / columns
        share = -(-len(rows) // columns)
        return [
            (
                _lines_block(
                    "chart-rows",
                    f"Rows in words{', continued' if first else ''}",
                    rows[first : first + share],
                    width,
                ),
                x + first // share * (width + _GUTTER),
            )
            for first in range(0, len(rows), share)
        ]


def _lines_block(kind: str, heading: str, paragraphs: Iterable[str], width: float) -> Block:
    """A heading with paragraphs under it."""
    text = TextBlock(heading, width, line_pitch(LARGE))
    for each in paragraphs:
        text.add([each], _PARAGRAPH if len(wrap(each, width)) > 1 else 0.0)
    return text.block(kind, heading)
