"""Reading a group: a CSV file with one wearer a line, measurements as columns.

Columns are body measurements by name, ``head_girth`` or with their unit ``head_girth_in``, and ``name``
and ``age``, which is read to the hundredth of a year; in other languages by `column_names`. A cell may be
empty, a number, or a length with its unit. A line that cannot be used is a problem with its number; the
others are read.
"""

from __future__ import annotations

import csv
import itertools
import math
import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from schematics.errors import UsageError
from schematics.fitting.group_heading import Heading, read_heading
from schematics.reading.files.text_file import TextFileError, read_text
from schematics.reading.problems import show_value
from schematics.reading.spellings import parse_age, parse_length
from schematics.units import Unit
from schematics.wearer.body import Body
from schematics.wearer.plausible import plausible_cm, slip
from schematics.wearer.resolve import OLDEST_AGE_YEARS

LARGEST_FILE = 40_000_000
"""Bytes; a hundred thousand wearers with every measurement take about ten million."""

MOST_WEARERS = 200_000
MOST_BLANK_LINES = 100_000
LONGEST_HEADER, LONGEST_LINE, LONGEST_CELL = 10_000, 200_000, csv.field_size_limit()
"""Characters."""

_AT_ONCE = 10_000
"""Rows whose cells are kept until they are numbers."""

_AGE_DECIMALS = 2
"""Finer than four days: what is looked up for each age is looked up for twelve thousand ages at most."""

_LONGEST_CHILD_NAME = 80
_IN_PLAIN_DIGITS = frozenset("0123456789., \t")
"""What a number everybody reads alike is written in: Python reads 1_0, 1e2 and other scripts' digits too."""

_LINE = re.compile(r"[^\r\n]*(?:\r\n|[\r\n])|[^\r\n]+")

Column = NDArray[np.float64]
Refuse = Callable[[int, str], None]
_Row = tuple[int, list[str]]
"""The line a row ends on, and its cells."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RowProblem:
    """One line that cannot be used, whose it is if its name can be read, and why."""

    line: int
    name: str
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WearerGroup:
    """Wearers in the order of their lines.

    ``own`` are their measurements in cm and ``ages`` years, not a number where a cell is empty.
    ``unused`` are columns that mean nothing here.
    """

    names: tuple[str, ...]
    lines: NDArray[np.intp]
    ages: Column
    own: Mapping[Body, Column]
    problems: tuple[RowProblem, ...]
    unused: tuple[str, ...]


def read_group(path: Path, unit: Unit) -> WearerGroup:
    """The group in a CSV file; commas, semicolons or tabs part its columns.

    Args:
        path: the file.
        unit: the unit of bare numbers in columns that name none.

    Raises:
        UsageError: the file cannot be read, is larger than a group needs in any way, is empty below its
            header, or that names no measurement and no age.
    """
    text = _text(path)
    first = next(_lines(text, path), "")
    delimiter = max(",;\t", key=first.count)
    rows = _rows(text, delimiter, path)
    _, header = next(rows, (1, []))
    wearers = _wearers(rows, path)
    begun = list(itertools.islice(wearers, _AT_ONCE))
    heading = read_heading(header, unit, path, [cells for _, cells in begun])
    rest = iter(lambda: list(itertools.islice(wearers, _AT_ONCE)), [])
    groups = [_group(heading, some) for some in itertools.chain([begun] if begun else [], rest)]
    if not groups:
        raise UsageError(f"{path}: there is no wearer in it; give each a line below the header")
    return _together(groups)


def _lines(text: str, path: Path) -> Iterator[str]:
    """The lines with their ends."""
    for number, match in enumerate(_LINE.finditer(text), start=1):
        longest = LONGEST_HEADER if number == 1 else LONGEST_LINE
        if match.end() - match.start() > longest:
            what = "a header" if number == 1 else "a line"
            raise UsageError(f"{path}:{number}: expected {what} of at most {longest} characters")
        yield match[0]


def _rows(text: str, delimiter: str, path: Path) -> Iterator[_Row]:
    lines = _Lines(_lines(text, path))
    reader = csv.reader(lines, delimiter=delimiter)
    try:
        for row in reader:
            if lines.ended:
                raise UsageError(_open_quote(path, reader.line_num, row))
            lines.of_row.clear()
            yield reader.line_num, row
    except csv.Error:
        line, *before = reversed(lines.of_row)
        if len(line) > LONGEST_CELL or not before:
            words = f"{path}:{reader.line_num}: expected cells of at most {LONGEST_CELL} characters"
            raise UsageError(words) from None
        row = next(csv.reader(reversed(before), delimiter=delimiter))
        raise UsageError(_open_quote(path, reader.line_num - 1, row)) from None


class _Lines:
    """Lines as they are taken: those of the row being read, and whether they have ended."""

    def __init__(self, lines: Iterator[str]) -> None:
        self._lines = lines
        self.of_row: list[str] = []
        self.ended = False

    def __iter__(self) -> Iterator[str]:
        for line in self._lines:
            self.of_row.append(line)
            yield line
        self.ended = True


def _open_quote(path: Path, last_line: int, row: Sequence[str]) -> str:
    """The problem of a row whose last cell, in quotes, does not end on its last line."""
    lines = len(_LINE.findall(row[-1]))
    return (
        f"{path}:{last_line - max(lines, 1) + 1}: the quote opened here is not closed; close it, or delete it"
    )


def _wearers(rows: Iterable[_Row], path: Path) -> Iterator[_Row]:
    """The rows that are not blank."""
    filled = blank = 0
    for line, row in rows:
        if any(map(str.strip, row)):
            filled += 1
            if filled > MOST_WEARERS:
                raise UsageError(f"{path}:{line}: a group has at most {MOST_WEARERS} wearers; part the file")
            yield line, row
        else:
            blank += 1
            if blank > MOST_BLANK_LINES:
                raise UsageError(f"{path}:{line}: over {MOST_BLANK_LINES} lines are blank; delete them")


def _text(path: Path) -> str:
    try:
        return read_text(path, LARGEST_FILE, "a hundred thousand wearers need about ten")
    except TextFileError as error:
        raise UsageError(str(error)) from None


def _together(groups: Sequence[WearerGroup]) -> WearerGroup:
    """Groups of one heading, one below the other."""
    first = groups[0]
    return WearerGroup(
        names=tuple(name for each in groups for name in each.names),
        lines=np.concatenate([each.lines for each in groups]),
        ages=np.concatenate([each.ages for each in groups]),
        own={body: np.concatenate([each.own[body] for each in groups]) for body in first.own},
        problems=tuple(problem for each in groups for problem in each.problems),
        unused=first.unused,
    )


def _group(heading: Heading, entries: Sequence[_Row]) -> WearerGroup:
    rows = [row for _, row in entries]
    lines = np.array([line for line, _ in entries], dtype=np.intp)
    faults: dict[int, list[str]] = {}

    def refuse(row: int, sentence: str) -> None:
        faults.setdefault(row, []).append(sentence)

    for row, cells in enumerate(rows):
        if len(cells) > len(heading.titles):
            refuse(row, f"expected at most {len(heading.titles)} cells, got {len(cells)}")
            rows[row] = []
    columns = list(itertools.zip_longest(*rows, fillvalue=""))

    def column(place: int | None) -> Sequence[str]:
        return [""] * len(rows) if place is None or place >= len(columns) else columns[place]

    names = [name.strip() for name in column(heading.name)]
    for row, name in enumerate(names):
        if name and not _readable(name):
            refuse(
                row,
                f"name: expected at most {_LONGEST_CHILD_NAME} printable characters, got {show_value(name)}",
            )
    own = {
        body: _lengths(column(place), unit, body, _in_column(refuse, heading.titles[place] or body.words))
        for place, (body, unit) in heading.bodies.items()
    }
    age = "" if heading.age is None else heading.titles[heading.age]
    ages = _ages(column(heading.age), _in_column(refuse, age or "age"))
    is_known = np.isfinite([ages, *own.values()]).any(axis=0)
    for row in np.flatnonzero(~is_known).tolist():
        if row not in faults:
            refuse(row, "neither a measurement nor an age")
    good = np.array([row for row in range(len(rows)) if row not in faults], dtype=np.intp)
    return WearerGroup(
        names=tuple(names[row] for row in good.tolist()),
        lines=lines[good],
        ages=ages[good],
        own={body: column[good] for body, column in own.items()},
        problems=tuple(
            RowProblem(line=int(lines[row]), name=_readable(names[row]), sentence="; ".join(each))
            for row, each in sorted(faults.items())
        ),
        unused=heading.unused,
    )


def _readable(name: str) -> str:
    """The name, or nothing where it is none that can be printed."""
    printable = "".join(name.splitlines()).isprintable()
    return name if printable and len(name) <= _LONGEST_CHILD_NAME else ""


def _in_column(refuse: Refuse, title: str) -> Refuse:
    """Refuses what stands in a column, by the name that the column has in the file."""
    return lambda row, sentence: refuse(row, f"{title}: {sentence}")


def _numbers(cells: Sequence[str]) -> Column | None:
    """A column of plain numbers and empty cells at once; None if any cell is something else."""
    if not _IN_PLAIN_DIGITS.issuperset("".join(cells)):
        return None
    plain = "\n".join(cells).replace(",", ".").split("\n")
    try:
        return np.array([float(cell.strip() or math.nan) for cell in plain])
    except ValueError:
        return None


def _lengths(cells: Sequence[str], unit: Unit, body: Body, refuse: Refuse) -> Column:
    low, high = plausible_cm(body)
    column = _centimetres(cells, unit, refuse)
    for row in np.flatnonzero((column < low) | (column > high)).tolist():
        refuse(row, f"{slip(body, float(column[row]), unit)}")
    return column


def _centimetres(cells: Sequence[str], unit: Unit, refuse: Refuse) -> Column:
    numbers = _numbers(cells)
    if numbers is not None:
        return numbers * unit.to_cm(1.0)
    column = np.full(len(cells), np.nan)
    read: dict[str, float] = {}
    for row, cell in enumerate(cells):
        if cell in read:
            column[row] = read[cell]
        elif cell.strip():
            try:
                column[row] = read[cell] = parse_length(cell, unit)
            except ValueError as error:
                refuse(row, str(error))
    return column


def _ages(cells: Sequence[str], refuse: Refuse) -> Column:
    numbers = _numbers(cells)
    if numbers is None:
        numbers = np.array([_age(cell) for cell in cells])
    for row in np.flatnonzero((numbers < 0) | (numbers > OLDEST_AGE_YEARS)).tolist():
        refuse(row, f"expected 0 to {OLDEST_AGE_YEARS:g} years, got {show_value(cells[row].strip())}")
    return np.round(numbers, _AGE_DECIMALS)


def _age(cell: str) -> float:
    """Years; endless, which no age is, for a cell that is no number."""
    if not cell.strip():
        return math.nan
    try:
        return parse_age(cell)
    except ValueError:
        return math.inf
