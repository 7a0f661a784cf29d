"""Reading a group: a CSV file with one wearer a line, measurements as columns.

Columns are body measurements by name, ``head_girth`` or with their unit ``head_girth_in``, and ``name``
and ``age``. A cell may be empty, a number, or a length with its unit. A line that cannot be used is a
problem with its number; the others are read.
"""

from __future__ import annotations

import csv
import io
import math
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from schematics.errors import UsageError
from schematics.fit.plausible import plausible_cm, slip
from schematics.spec.problems import nearest, show_value
from schematics.text_file import TextFileError, read_text
from schematics.units import Unit, parse_length
from schematics.wearer.body import Body
from schematics.wearer.resolve import OLDEST_AGE_YEARS

LARGEST_FILE = 100_000_000
"""Bytes; a hundred thousand wearers with every measurement take about ten million."""

MOST_WEARERS = 200_000
_LONGEST_NAME = 80

_DECIMAL_COMMA = re.compile(r"(\s*[0-9]+),([0-9]+\b.*)", re.ASCII)
"""A number as spreadsheets write it that part cells with semicolons."""

Column = NDArray[np.float64]
Refuse = Callable[[int, str], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class RowProblem:
    """One line that cannot be used, or the header, and why."""

    line: int
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Heading:
    """Where in a line things stand; measurements with the unit of a bare number."""

    name: int | None
    age: int | None
    bodies: Mapping[int, tuple[Body, Unit]]
    unused: tuple[str, ...]


def read_group(path: Path, unit: Unit) -> Group:
    """The group in a CSV file; commas, semicolons or tabs part its columns.

    Where it is not commas, ``20,5`` is 20.5.

    Args:
        path: the file.
        unit: the unit of bare numbers in columns that name none.

    Raises:
        UsageError: the file cannot be read, is empty below its header, or that names no measurement and no
            age.
    """
    text = _text(path)
    sample = text.partition("\n")[0]
    delimiter = max(",;\t", key=sample.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter)
    try:
        header = next(reader, [])
        heading = _heading(header, unit, path)
        lines: list[int] = []
        rows: list[list[str]] = []
        problems: list[RowProblem] = []
        for row in reader:
            if len(rows) + len(problems) >= MOST_WEARERS:
                raise UsageError(
                    f"{path}:{reader.line_num}: a group has at most {MOST_WEARERS} wearers; part the file"
                )
            if len(row) > len(header):
                sentence = f"expected at most {len(header)} cells, got {len(row)}"
                problems.append(RowProblem(line=reader.line_num, sentence=sentence))
            elif any(map(str.strip, row)):
                lines.append(reader.line_num)
                cells = row if delimiter == "," else _with_points(row, heading)
                rows.append(cells + [""] * (len(header) - len(row)))
    except csv.Error as error:
        raise UsageError(f"{path}:{reader.line_num}: this is no CSV: {error}") from None
    if not rows and not problems:
        raise UsageError(f"{path}: there is no wearer in it; give each a line below the header")
    return _group(heading, lines, rows, problems)


def _with_points(row: list[str], heading: _Heading) -> list[str]:
    """The cells of a line whose columns no comma parts: a comma in a number is a decimal point."""
    return [
        _DECIMAL_COMMA.sub(r"\1.\2", cell) if "," in cell and place != heading.name else cell
        for place, cell in enumerate(row)
    ]


def _text(path: Path) -> str:
    try:
        return read_text(path, LARGEST_FILE, "a hundred thousand wearers need about ten")
    except TextFileError as error:
        raise UsageError(str(error)) from None


def _heading(header: Sequence[str], unit: Unit, path: Path) -> _Heading:
    name = age = None
    bodies: dict[int, tuple[Body, Unit]] = {}
    unused: list[str] = []
    for place, title in enumerate(header):
        key = re.sub(r"[\s-]+", "_", title.strip().casefold())
        found = _body(key, unit)
        if key == "name" and name is None:
            name = place
        elif key in ("age", "age_years") and age is None:
            age = place
        elif found is not None and found[0] not in {body for body, _ in bodies.values()}:
            bodies[place] = found
        elif found is not None or key in ("name", "age", "age_years"):
            raise UsageError(f"{path}:1: the column {show_value(title)} stands twice; keep one")
        elif title.strip():
            unused.append(_unused(title, key))
    if not bodies and age is None:
        raise UsageError(
            f"{path}:1: expected a header with columns such as name, age, head_girth or height_in, "
            f"got {show_value(','.join(header))}"
        )
    return _Heading(name=name, age=age, bodies=bodies, unused=tuple(unused))


def _body(key: str, unit: Unit) -> tuple[Body, Unit] | None:
    stem, _, ending = key.rpartition("_")
    if ending in list(Unit) and stem in list(Body):
        return Body(stem), Unit(ending)
    return (Body(key), unit) if key in list(Body) else None


def _unused(title: str, key: str) -> str:
    near = nearest(key, [body.value for body in Body])
    hint = f"; did you mean {near[0]}?" if near else ""
    return f"the column {show_value(title)} is not used{hint}"


def _group(
    heading: _Heading, lines: Sequence[int], rows: Sequence[Sequence[str]], problems: list[RowProblem]
) -> Group:
    bad = np.zeros(len(rows), dtype=bool)
    told: dict[int, list[str]] = {}

    def refuse(row: int, sentence: str) -> None:
        bad[row] = True
        told.setdefault(row, []).append(sentence)

    names = [row[heading.name].strip() if heading.name is not None else "" for row in rows]
    for row, name in enumerate(names):
        if len(name) > _LONGEST_NAME or not "".join(name.splitlines()).isprintable():
            refuse(
                row, f"name: expected at most {_LONGEST_NAME} printable characters, got {show_value(name)}"
            )
    own: dict[Body, Column] = {}
    for place, (body, unit) in heading.bodies.items():
        low, high = plausible_cm(body)
        column = _lengths([row[place] for row in rows], unit, body, refuse)
        for row in np.flatnonzero((column < low) | (column > high)).tolist():
            refuse(row, f"{body.words}: {slip(body, float(column[row]), unit)}")
        own[body] = column
    ages = _ages([row[heading.age] for row in rows] if heading.age is not None else [""] * len(rows), refuse)
    known = ~np.isnan(ages)
    for column in own.values():
        known |= ~np.isnan(column)
    for row in np.flatnonzero(~known & ~bad).tolist():
        refuse(row, "neither a measurement nor an age")
    problems += [RowProblem(line=lines[row], sentence="; ".join(each)) for row, each in told.items()]
    good = np.flatnonzero(~bad).tolist()
    return Group(
        names=tuple(names[row] for row in good),
        lines=np.array(lines, dtype=np.intp)[good],
        ages=ages[good],
        own={body: column[good] for body, column in own.items()},
        problems=tuple(sorted(problems, key=lambda each: each.line)),
        unused=heading.unused,
    )


def _numbers(cells: Sequence[str]) -> Column | None:
    """A column of plain numbers and empty cells at once; None if any cell is something else."""
    if not all(map(_in_plain_digits, cells)):
        return None
    try:
        return np.array([cell if cell and not cell.isspace() else "nan" for cell in cells], dtype=np.float64)
    except ValueError:
        return None


def _in_plain_digits(cell: str) -> bool:
    """Whether a number in it is one to everybody: Python reads 1_0 and digits of other scripts as well."""
    return cell.isascii() and "_" not in cell


def _lengths(cells: Sequence[str], unit: Unit, body: Body, refuse: Refuse) -> Column:
    numbers = _numbers(cells)
    if numbers is not None and _plain(cells, numbers):
        return numbers * unit.to_cm(1.0)
    column = np.full(len(cells), np.nan)
    for row, cell in enumerate(cells):
        if cell.strip():
            try:
                column[row] = parse_length(cell, unit)
            except ValueError as error:
                refuse(row, f"{body.words}: {error}")
    return column


def _plain(cells: Sequence[str], numbers: Column) -> bool:
    """Whether what is no number is an empty cell, not the word."""
    return bool(np.isfinite(numbers).sum() + sum(not cell.strip() for cell in cells) == len(cells))


def _ages(cells: Sequence[str], refuse: Refuse) -> Column:
    numbers = _numbers(cells)
    if numbers is None or not _plain(cells, numbers):
        numbers = np.array([_age(cell) for cell in cells])
    for row in np.flatnonzero((numbers < 0) | (numbers > OLDEST_AGE_YEARS)).tolist():
        refuse(
            row,
            f"age: expected 0 to {OLDEST_AGE_YEARS:g} years, got {show_value(cells[row].strip())}",
        )
    return numbers


def _age(cell: str) -> float:
    """Years; endless, which no age is, for a cell that is no number."""
    if not cell.strip():
        return math.nan
    try:
        years = float(cell) if _in_plain_digits(cell) else math.inf
    except ValueError:
        return math.inf
    return years if math.isfinite(years) else math.inf
