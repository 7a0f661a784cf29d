"""Finished measurements as a table: a letter and a name down, sizes across, a value repeated once."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum, auto
from itertools import accumulate, groupby

from schematics.checks.evaluation import Result
from schematics.document.document import NONE
from schematics.document.lettering.text import Font, Lettering, line_pitch, text_width, wrap
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Line, Mark, Pen, Text, text_lines
from schematics.drawing.pieces.figures_look import FiguresLook
from schematics.garment.printed_lengths import finished_figure
from schematics.units import NEAR

_BETWEEN = 1.8
"""From one column to the next, in mm."""

_UNITS_APART = 2.8
"""The same between lengths of different units, lest ``5 1/4`` and ``13.25`` be read as one."""

_ROW_GAP, _TIGHT_ROW_GAP = 0.25, 0.05
"""Between two measurements, in lines, and where what is over the table needs the room."""

_NARROWER = 1.0
"""Words in several lines are tried narrower by so much each time, in mm."""

_LOOKED_UP = 1.1
"""How much lower a table is to be whose names are looked up in a list."""

_UNBROKEN, _BROKEN = 2, 1.0
"""So many lines of a name are read at once; what each line beyond costs, in lines."""

_ASIDE, _LEAST_ASIDE = 5.0, 28.0
"""From a tight table to the sentence beside it, and how wide that is at least, in mm."""

_LEAST_DASH = 1.2
"""Shortest line beside a value that several sizes share, in mm."""

SHARED = "A value between lines is that of all the sizes above them."


class NamePlace(Enum):
    """Where the names of measurements are: beside their values, each on a line over them, or in a list."""

    BESIDE = auto()
    OVER = auto()
    LISTED = auto()


@dataclass(frozen=True, slots=True)
class Measured:
    """A row of the table: its letter and name, and lines of a unit and a value for each size."""

    letter: str
    name: str
    lines: tuple[tuple[str, tuple[str, ...]], ...]


def measured_rows(
    letters: Mapping[str, str], results: Sequence[Result], look: FiguresLook
) -> tuple[Measured, ...]:
    """Every lettered measurement in all sizes, a line for each unit and for the counts."""
    by_size = [{item.key: item for item in result.garment.finished} for result in results]
    rows = []
    for key, letter in letters.items():
        items = [each.get(key) for each in by_size]
        first = next((item for item in items if item), None)
        if first is None:
            continue
        lines = [
            (
                str(unit),
                tuple(finished_figure(each, unit) if each else NONE for each in items),
            )
            for unit in look.units
        ]
        counts = tuple(NONE if each is None or each.count is None else str(each.count) for each in items)
        if look.counts and first.counted and set(counts) != {NONE}:
            lines.append((first.counted.value, counts))
        rows.append(Measured(letter, first.name, tuple(lines)))
    return tuple(rows)


def one_size_table(
    letters: Mapping[str, str], result: Result, look: FiguresLook, width: float, *, tight: bool = False
) -> Block:
    """The same of one size: lengths under each unit, and the count, side by side."""
    finished = {item.key: item for item in result.garment.finished}
    rows = []
    for key, letter in letters.items():
        item = finished[key]
        lengths = (finished_figure(item, unit) for unit in look.units)
        values = (*lengths, *((look.count(item),) if look.counts else ()))
        rows.append(Measured(letter, item.name, (("", values),)))
    columns = [*map(str, look.units), *([""] if look.counts else [])]
    heading, lettering = f"Size {result.size.name}", look.lettering
    return size_table(rows, heading, columns, width, lettering.height, font=lettering.font, tight=tight)


def names_list(rows: Sequence[Measured], width: float, lettering: Lettering) -> Block:
    """The letters with their names, in columns no wider than ``width`` mm together."""
    block = Block()
    names = [replace(row, lines=()) for row in rows]
    listed = _Setting(names, "", (), width, lettering.height, 1, NamePlace.LISTED, font=lettering.font)
    block.add("table", "measurements", listed.names())
    return block


def size_table(
    rows: Sequence[Measured],
    heading: str,
    sizes: Sequence[str],
    width: float,
    height: float,
    *,
    font: Font | None = None,
    tight: bool = False,
    remark: str = "",
    names: NamePlace | None = None,
) -> Block:
    """The table in letters ``height`` high, no wider than ``width`` mm; a ``tight`` one is lower.

    A ``remark`` is set where it is said how the table is read. Where not all sizes have room side by side
    there are several tables under one another. If it is not told where ``names`` are, they are beside
    the values or, where there are letters, over them or in a list above the table, whatever is lowest.
    """
    layout = _lowest(rows, heading, sizes, width, height, font=font, tight=tight, remark=remark, names=names)
    block = Block()
    block.add("table", "measurements", layout.marks())
    return block


def names_place(
    rows: Sequence[Measured],
    heading: str,
    sizes: Sequence[str],
    width: float,
    height: float,
    *,
    font: Font | None = None,
    tight: bool = False,
) -> NamePlace:
    """Where `size_table` has the names if it is not told."""
    return _lowest(rows, heading, sizes, width, height, font=font, tight=tight).names_at


def _lowest(
    rows: Sequence[Measured],
    heading: str,
    sizes: Sequence[str],
    width: float,
    height: float,
    *,
    font: Font | None,
    tight: bool,
    remark: str = "",
    names: NamePlace | None = None,
) -> _Setting:
    anywhere = tuple(NamePlace) if any(row.letter for row in rows) else (NamePlace.BESIDE,)
    places = (names,) if names else anywhere
    layouts = [
        _Setting(rows, heading, sizes, width, height, parts, place, font=font, tight=tight, remark=remark)
        for parts in range(1, len(sizes) + 1)
        for place in places
    ]
    fitting = [layout for layout in layouts if layout.fits] or layouts[-1:]
    return min(fitting, key=lambda layout: layout.cost)


class _Setting:
    """Where the columns are of a table in so many ``parts``, and ``names_at`` which place its names are."""

    def __init__(
        self,
        rows: Sequence[Measured],
        heading: str,
        sizes: Sequence[str],
        width: float,
        height: float,
        parts: int,
        names_at: NamePlace,
        *,
        font: Font | None,
        tight: bool = False,
        remark: str = "",
    ) -> None:
        self._rows, self._sizes, self._width, self._height = rows, sizes, width, height
        self._heading_words, self.names_at, self._font = heading, names_at, font
        self._remark = remark
        self._tight, self._gap = tight, _TIGHT_ROW_GAP if tight else _ROW_GAP
        self._pitch = line_pitch(height)
        self._columns = math.ceil(len(sizes) / parts)
        letters = self._widest((row.letter for row in rows), bold=True)
        self._letter = letters + _BETWEEN if letters else 0.0
        units = self._widest(unit for row in rows for unit, _ in row.lines)
        self._unit = units + _BETWEEN if units else 0.0
        self._between = _BETWEEN if units else _UNITS_APART
        self._rights = self._column_ends()
        room = width - self._letter - self._unit - self._rights[self._columns]
        name = min(self._widest(row.name for row in rows), room)
        beside = names_at is NamePlace.BESIDE
        self._name = name + _BETWEEN if beside else 0.0
        self._first = max(self._letter + self._name + self._unit, self._heading_width())
        longest = self._widest(word for row in rows for word in row.name.split())
        has_room = self._first + self._rights[self._columns] - self._between <= width + NEAR
        self.fits = has_room and (name >= longest or not beside)
        listed = self._letter + self._widest(row.name for row in rows) + _BETWEEN
        columns = max(1, math.floor((width + _BETWEEN) / listed))
        self._lists = columns if names_at is NamePlace.LISTED else 0

    def _column_ends(self) -> list[float]:
        """Where columns of values end, after a nought; those of sizes are equally wide."""
        lines = [line for row in self._rows for _, line in row.lines]
        headed = zip(self._sizes, zip(*lines, strict=True), strict=True)
        widths = [max(self._widest((head,), bold=True), self._widest(values)) for head, values in headed]
        if self._unit or self._columns < len(widths):
            widths = [max(widths)] * len(widths)
        return list(accumulate((width + self._between for width in widths), initial=0.0))

    def _heading_width(self) -> float:
        """Where values may start so that the heading has room before that of the first column."""
        if not self._sizes:
            return 0.0
        spare = self._rights[1] - self._between - self._widest(self._sizes[:: self._columns], bold=True)
        return self._widest((self._heading_words,), bold=True) + _BETWEEN - spare

    @property
    def cost(self) -> float:
        """How high it is in lines, a list of names costing a little more than they show."""
        parts = math.ceil(len(self._sizes) / self._columns)
        a_part = 2.0 + sum(self._row_lines(row) + self._gap + self._broken(row) for row in self._rows)
        return (self._listed_lines + parts * a_part) * (_LOOKED_UP if self._lists else 1.0)

    @property
    def _listed_lines(self) -> int:
        """How many lines the list of names takes, and one under it."""
        if not self._lists:
            return 0
        columns = (self._rows[at :: self._in_column] for at in range(self._in_column))
        return 1 + sum(max(len(self._listed(row)) for row in line) for line in columns)

    @property
    def _in_column(self) -> int:
        """So many names are under one another in the list."""
        return math.ceil(len(self._rows) / self._lists)

    def _listed(self, row: Measured) -> list[str]:
        return self._wrap(row.name, self._width / self._lists - self._letter - _BETWEEN)

    def names(self) -> Iterator[Mark]:
        """Letters and names in columns, down one and then down the next."""
        y = 0.0
        for at in range(self._in_column):
            deepest = 1
            for column, row in enumerate(self._rows[at :: self._in_column]):
                x, names = column * self._width / self._lists, self._listed(row)
                yield Text((x, y), row.letter, self._height, bold=True, font=self._font)
                yield from text_lines((x + self._letter, y), names, self._height, font=self._font)
                deepest = max(deepest, len(names))
            y += deepest * self._pitch

    def _widest(self, texts: Iterable[str], *, bold: bool = False) -> float:
        widths = (text_width(text, self._height, bold=bold, font=self._font) for text in texts)
        return max(widths, default=0.0)

    def _wrap(self, words: str, width: float) -> list[str]:
        """In as few lines as there is room for, none much shorter than the others."""
        lines = wrap(words, width, self._height, font=self._font)
        if len(lines) == 1:
            return lines
        longest = self._widest(words.split())
        while len(lines) > 1 and (width := width - _NARROWER) >= longest:
            narrower = wrap(words, width, self._height, font=self._font)
            if len(narrower) > len(lines):
                break
            lines = narrower
        return lines

    def marks(self) -> Iterator[Mark]:
        """The table, or the tables under one another."""
        y, shared = (top := self._listed_lines * self._pitch), False
        if self._lists:
            yield from self.names()
        for start in range(0, len(self._sizes), self._columns):
            columns = slice(start, start + self._columns)
            yield from self._heading(y, columns)
            y += 0.5 * self._pitch
            for row in self._rows:
                y += self._gap * self._pitch
                for mark in self._row(row, y, columns):
                    shared = shared or isinstance(mark, Line)
                    yield mark
                y += self._row_lines(row) * self._pitch
            y += 1.5 * self._pitch
        if words := " ".join(filter(None, (SHARED if shared else "", self._remark))):
            aside = self._right(self._columns - 1) + _ASIDE
            is_aside = self._tight and self._width - aside >= _LEAST_ASIDE
            at, width = ((aside, top), self._width - aside) if is_aside else ((0.0, y), self._width)
            yield from text_lines(at, self._wrap(words, width), self._height, font=self._font)

    def _right(self, column: int) -> float:
        """Where the values of a column end."""
        return self._first + self._rights[column + 1] - self._between

    def _heading(self, y: float, columns: slice) -> Iterator[Mark]:
        sizes = self._sizes[columns]
        yield Text((0.0, y), self._heading_words, self._height, bold=True, font=self._font)
        for column, size in enumerate(sizes):
            if size:
                yield Text((self._right(column), y), size, self._height, "end", bold=True, font=self._font)
        rule = y + 0.45 * self._pitch
        yield Line(((0.0, rule), (self._right(len(sizes) - 1), rule)), Pen.THIN)

    def _names(self, row: Measured) -> list[str]:
        if self.names_at is NamePlace.BESIDE:
            return self._wrap(row.name, self._name - _BETWEEN + NEAR)
        over = self.names_at is NamePlace.OVER
        return self._wrap(row.name, self._width - self._letter) if over else []

    def _row_lines(self, row: Measured) -> int:
        return self._over(row) + max(len(self._names(row)) - self._over(row), len(row.lines))

    def _over(self, row: Measured) -> int:
        """How many lines are over its values."""
        return len(self._names(row)) if self.names_at is NamePlace.OVER else 0

    def _broken(self, row: Measured) -> float:
        return _BROKEN * max(0, len(self._names(row)) - _UNBROKEN)

    def _row(self, row: Measured, y: float, columns: slice) -> Iterator[Mark]:
        y += self._pitch
        if row.letter:
            yield Text((0.0, y), row.letter, self._height, bold=True, font=self._font)
        yield from text_lines((self._letter, y), self._names(row), self._height, font=self._font)
        y += self._over(row) * self._pitch
        for unit, values in row.lines:
            if unit:
                yield Text((self._letter + self._name, y), unit, self._height, font=self._font)
            yield from self._line(values[columns], y)
            y += self._pitch

    def _line(self, values: Sequence[str], y: float) -> Iterator[Mark]:
        """Values under their sizes; one that several share once, in the middle of a line under them."""
        column = 0
        for value, same in groupby(values):
            count = len(list(same))
            left, right = self._first + self._rights[column], self._right(column + count - 1)
            column += count
            if count == 1 or not value:
                if value:
                    yield Text((right, y), value, self._height, "end", font=self._font)
                continue
            middle, half = (left + right) / 2, self._widest((value,)) / 2
            yield Text((middle, y), value, self._height, "middle", font=self._font)
            level = y - self._height / 2
            for start, end in ((left, middle - half - 1.0), (middle + half + 1.0, right)):
                if end - start >= _LEAST_DASH:
                    yield Line(((start, level), (end, level)), Pen.THIN)
