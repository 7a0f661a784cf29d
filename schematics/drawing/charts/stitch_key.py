"""The key of a stitch chart: each symbol that is drawn, and what it is on right-side and wrong-side rows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from shapely import Polygon

from schematics.crochet.charts.chart import Chart, Side, Worked
from schematics.crochet.stitches import Loop
from schematics.crochet.symbols import StrokeKind, Symbol
from schematics.crochet.terms import Terms
from schematics.document.lettering.text import LARGE, SMALL, line_pitch, text_width, wrap
from schematics.drawing.charts.chart_layout import seen_loop, seen_symbol
from schematics.drawing.charts.chart_views import ChartView
from schematics.drawing.charts.colour_hatching import hatching
from schematics.drawing.charts.stance import cell_stance
from schematics.drawing.charts.stitch_symbols import symbol_marks
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Area, Line, Mark, Pen, Text, moved

_CELL, _HEIGHT = 7.0, 8.0
_WIDE = 2.4
"""Width of the cell of a stitch that makes or uses several, over that of others."""
_GAP = 2.5
_BETWEEN = 1.8
_BELOW_HEADING = 2.2
_MOST_ROWS = 4
"""Rows that a symbol which reaches further down still spans in the key."""


@dataclass(frozen=True, slots=True)
class KeyEntry:
    """A symbol as it is drawn, and what is worked there on the sides on which it occurs."""

    symbol: Symbol
    loop: Loop | None
    worked: dict[Side, Worked]

    @property
    def any(self) -> Worked:
        """What is worked, on one side or the other."""
        return next(iter(self.worked.values()))


def key_entries(views: Sequence[ChartView]) -> list[KeyEntry]:
    """The symbols of the charts, in the order in which they are met; colours make no difference."""
    entries: dict[tuple[object, ...], KeyEntry] = {}
    for view in views:
        for row in view.rows:
            for placed in row.stitches:
                worked = replace(placed.worked, colour="")
                if not worked.stitch.symbol:
                    continue
                symbol, loop = seen_symbol(worked.stitch.symbol, row.side), seen_loop(worked.loop, row.side)
                letter = (
                    worked.stitch.abbreviation if StrokeKind.LETTER in {each.kind for each in symbol} else ""
                )
                sort = (symbol, loop, worked.rows_below, worked.surface, worked.makes, worked.uses, letter)
                entry = entries.setdefault(sort, KeyEntry(symbol, loop, {}))
                entry.worked.setdefault(row.side, worked)
    return list(entries.values())


def _named(worked: Worked, terms: Terms) -> Worked:
    stitch = worked.stitch
    named = replace(stitch, abbreviation=terms.abbreviation(stitch), words=terms.words(stitch))
    return replace(worked, stitch=named)


def key_parts(chart: Chart, views: Sequence[ChartView], terms: Terms, width: float) -> list[KeyPart]:
    """What is in a key ``width`` mm wide, in order."""
    stitches = (_stitch_part(entry, terms, width) for entry in key_entries(views))
    return [*stitches, *_colour_parts(chart, width)]


def key_block(parts: Sequence[KeyPart], heading: str) -> Block:
    """Parts of a key under one another."""
    block = Block()
    block.add("chart-heading", heading, [Text((0, 0), heading, LARGE, bold=True)])
    y = _BELOW_HEADING
    for part in parts:
        block.add("key", part.name, part.at(0.0, y))
        y += part.height + _BETWEEN
    return block


@dataclass(frozen=True, slots=True)
class KeyPart:
    """A box with a picture, and beside it lines of which some begin in bold."""

    name: str
    picture: tuple[Mark, ...]
    box: tuple[float, float]
    lines: tuple[tuple[str, str], ...]

    @property
    def height(self) -> float:
        """The height in mm."""
        return max(self.box[1], len(self.lines) * line_pitch(SMALL))

    def at(self, x: float, y: float) -> Iterator[Mark]:
        """Its marks, its upper left corner at that place, in mm."""
        for mark in self.picture:
            yield moved(mark, x, y)
        text_x = x + self.box[0] + _GAP
        first = (
            y + (self.height - len(self.lines) * line_pitch(SMALL)) / 2 + line_pitch(SMALL) / 2 + SMALL / 2
        )
        for number, (bold, plain) in enumerate(self.lines):
            baseline = first + number * line_pitch(SMALL)
            if bold:
                yield Text((text_x, baseline), bold, bold=True)
            if plain:
                indent = text_width(bold + "  ", SMALL, bold=True) if bold else 0.0
                yield Text((text_x + indent, baseline), plain)


def _stitch_part(entry: KeyEntry, terms: Terms, width: float) -> KeyPart:
    worked = entry.any
    wide = max(worked.makes, worked.uses) > 1
    box = (
        _CELL * (_WIDE if wide else 1),
        _HEIGHT * (0.9 + 0.3 * _rows_shown(worked) if worked.rows_below > 1 else 1),
    )
    both = entry.worked.get(Side.RIGHT) == entry.worked.get(Side.WRONG) or (
        len(entry.worked) == 1 and not _has_sides(entry)
    )
    lines: list[tuple[str, str]] = []
    for side, each in sorted(entry.worked.items()):
        named = _named(each, terms)
        before = "" if both else f"{side}: "
        lines += _wrapped(f"{before}{named.name}", named.words, width - box[0] - _GAP)
        if both:
            break
    name = _named(worked, terms).name + ("" if both else f" {next(iter(entry.worked))}")
    return KeyPart(name, tuple(_picture(entry, box)), box, tuple(lines))


def _rows_shown(worked: Worked) -> int:
    return min(worked.rows_below, _MOST_ROWS)


def _has_sides(entry: KeyEntry) -> bool:
    """Whether the symbol means something else on rows of the other side."""
    return (
        seen_symbol(entry.symbol, Side.WRONG) != entry.symbol
        or seen_loop(entry.loop, Side.WRONG) != entry.loop
    )


def _wrapped(bold: str, words: str, width: float) -> Iterator[tuple[str, str]]:
    """The abbreviation, and the words beside it where they fit, or else under it."""
    if words == bold:
        yield bold, ""
    elif text_width(bold + "  ", SMALL, bold=True) + text_width(words) <= width:
        yield bold, words
    else:
        for line in wrap(bold, width, bold=True):
            yield line, ""
        for line in wrap(words, width):
            yield "", line


def _picture(entry: KeyEntry, box: tuple[float, float]) -> Iterator[Mark]:
    """The symbol in its box; lines across it stand for the rows it reaches over."""
    worked = entry.any
    width, height = box
    yield Area(((0, 0), (width, 0), (width, height), (0, height)), Pen.THIN)
    rows = _rows_shown(worked)
    stance = cell_stance(0, 0, width, height, rows=rows, cells=max(worked.makes, worked.uses, 1))
    if worked.makes > 1 or worked.uses > 1:
        tops = stance.tops if worked.makes > 1 else (stance.top,)
        feet = stance.feet if worked.uses > 1 else (stance.foot,)
        stance = replace(stance, tops=tops, feet=feet)
    for row in range(1, rows):
        yield Line(((0, height * row / rows), (width, height * row / rows)), Pen.GRID)
    stance = replace(
        stance, width=_CELL if not len(stance.tops) + len(stance.feet) > 2 else stance.width * 1.0
    )
    if rows > 1:
        stance = replace(stance, width=min(_CELL, 1.2 * stance.height))
    yield from symbol_marks(entry.symbol, entry.loop, stance, worked.stitch.abbreviation)


def _colour_parts(chart: Chart, width: float) -> Iterator[KeyPart]:
    """A box of each colour's hatching with its letter and words."""
    square = ((0.0, 0.0), (_CELL, 0.0), (_CELL, _HEIGHT), (0.0, _HEIGHT))
    for number, (letter, words) in enumerate(chart.colours):
        marks = (Area(square, Pen.THIN), *hatching(number, Polygon(square), Polygon()))
        lines = tuple(_wrapped(letter, words, width - _CELL - _GAP))
        yield KeyPart(f"colour {letter}", marks, (_CELL, _HEIGHT), lines)
