"""The key of a stitch chart: each symbol that is drawn, with its abbreviation and its words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from schematics.crochet.charts.chart import Chart, Worked
from schematics.crochet.stitches import STITCHES
from schematics.document.lettering.text import LARGE, SMALL, line_pitch, text_width, wrap
from schematics.drawing.charts.stitch_symbols import Cell, symbol
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Mark, Text, text_lines

_CELL = 7.0
_GAP = 2.5
_BETWEEN = 1.5
_BELOW_HEADING = 2.2


def stitch_key(chart: Chart, column: float, columns: int = 1, gutter: float = 0.0) -> Block:
    """The key of everything the chart draws, in columns of that width in mm.

    Words stand beside their abbreviation where the widest fit, else under it.
    """
    shown = _shown(chart)
    block = Block()
    block.add("chart-heading", "Key", [Text((0, 0), "Key", LARGE, bold=True)])
    indent = max(text_width(worked.abbreviation, SMALL, bold=True) for worked in shown) + _GAP
    room = column - _CELL - _GAP
    beside = indent + max(text_width(worked.words) for worked in shown) <= room
    per_column = -(-len(shown) // columns)
    for start in range(0, len(shown), per_column):
        x, y = start // per_column * (column + gutter), _BELOW_HEADING
        for worked in shown[start : start + per_column]:
            words = [worked.words] if beside else wrap(worked.words, room)
            block.add("key", worked.abbreviation, _entry(worked, (x, y), words, indent if beside else None))
            y += _height(words, beside=beside) + _BETWEEN
    return block


def _shown(chart: Chart) -> list[Worked]:
    """The stitches that have a cell, in the order of the table of stitches."""
    drawn = [worked for worked in chart.used() if worked.stitch.makes]
    return sorted(drawn, key=lambda worked: (STITCHES.index(worked.stitch), worked.loop or ""))


def _height(words: Sequence[str], *, beside: bool) -> float:
    return _CELL if beside else max(_CELL, (len(words) + 1) * line_pitch(SMALL))


def _entry(
    worked: Worked, at: tuple[float, float], words: Sequence[str], indent: float | None
) -> Iterator[Mark]:
    """A boxed symbol, its abbreviation in bold, and the words ``indent`` beside it or else below."""
    x, y = at[0] + _CELL + _GAP, at[1]
    cell = Cell(at[0], y, _CELL)
    yield cell.square()
    yield from symbol(worked, cell)
    if indent is not None:
        baseline = y + (_CELL + SMALL) / 2
        yield Text((x, baseline), worked.abbreviation, bold=True)
        yield Text((x + indent, baseline), words[0])
        return
    baseline = y + SMALL + 0.2
    yield Text((x, baseline), worked.abbreviation, bold=True)
    yield from text_lines((x, baseline + line_pitch(SMALL)), words)
