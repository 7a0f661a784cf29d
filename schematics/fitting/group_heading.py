"""The header of a group's file: which column holds what, and in which unit."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from schematics.errors import UsageError
from schematics.fitting.column_names import (
    AGE,
    NAME,
    Column,
    asked_about,
    folded,
    named,
    spelt_names,
    taken_for_height,
)
from schematics.reading.problems import nearest, show_value
from schematics.reading.spellings import parse_length
from schematics.units import Unit
from schematics.wearer.body import Body
from schematics.wearer.plausible import plausible_cm

MOST_COLUMNS = 100
_UNUSED_PRINTED = 5
_LONGEST_PRINTED = 40
"""Characters of a title in a message."""

_SMALLEST_HEIGHT_CM = 70.0
"""Smaller numbers may be sizes of clothes of babies or grown-ups."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """Where in a line things are; measurements with the unit of a bare number.

    ``titles`` are what the columns are called there, empty where that is long or cannot be printed.
    ``unused`` are sentences on columns that mean nothing here, or may mean several things.
    """

    titles: tuple[str, ...]
    name: int | None
    age: int | None
    bodies: Mapping[int, tuple[Body, Unit]]
    unused: tuple[str, ...]


def read_heading(
    header: Sequence[str], unit: Unit, path: Path, first_rows: Sequence[Sequence[str]] = ()
) -> Heading:
    """The columns by their names.

    Args:
        header: the names.
        unit: the unit of bare numbers in columns that name none.
        path: the file, for messages.
        first_rows: cells below; a column that may be the height is read as it where all of its cells are.

    Raises:
        UsageError: there are too many columns, one is there twice, or none is a measurement or an age.
    """
    if len(header) > MOST_COLUMNS:
        raise UsageError(f"{path}:1: expected at most {MOST_COLUMNS} columns, got {len(header)}")
    places: dict[Column, tuple[int, Unit]] = {}
    unused: list[str] = []
    for place, title in enumerate(header):
        column, own_unit = _column(title, unit)
        if column is None:
            unused += _unused(title)
        elif column not in places:
            places[column] = place, own_unit
        elif column == NAME and folded(title) != folded(first := header[places[NAME][0]]):
            unused.append(f"the column {show_value(title)} is not used; {show_value(first)} is the name")
        else:
            raise UsageError(f"{path}:1: the column {show_value(title)} stands twice; keep one")
    for place, title in enumerate(header):
        own_unit = _without_unit(title)[1] or unit
        words = taken_for_height(_without_unit(title)[0])
        if words and Body.HEIGHT not in places and _heights(first_rows, place, own_unit):
            places[Body.HEIGHT] = place, own_unit
            unused = [each for each in unused if each not in set(_unused(title))]
            unused.append(f"the column {show_value(title)} is {words}")
    if not places.keys() - {NAME}:
        asked = "".join(f"; {each}" for each in unused if "?" in each)
        raise UsageError(
            f"{path}:1: expected a header with columns such as name, age, head_girth or height_in, "
            f"got {show_value(','.join(header))}{asked}"
        )
    more = len(unused) - _UNUSED_PRINTED
    if more > 0:
        unused[_UNUSED_PRINTED:] = [f"{more} more column{' is' if more == 1 else 's are'} not used"]
    return Heading(
        titles=tuple(map(_printed_title, header)),
        name=places[NAME][0] if NAME in places else None,
        age=places[AGE][0] if AGE in places else None,
        bodies={place: (column, own) for column, (place, own) in places.items() if isinstance(column, Body)},
        unused=tuple(unused),
    )


def _printed_title(title: str) -> str:
    words = unicodedata.normalize("NFC", " ".join(title.split()))
    return words if len(words) <= _LONGEST_PRINTED and words.isprintable() else ""


def _column(title: str, unit: Unit) -> tuple[Column | None, Unit]:
    """What a column holds, and the unit of its bare numbers."""
    stem, own = _without_unit(title)
    body = None if own is None else named(stem)
    return (body, own) if isinstance(body, Body) and own else (named(folded(title)), unit)


def _heights(rows: Sequence[Sequence[str]], place: int, unit: Unit) -> bool:
    """Whether every filled cell of a column is a height that is no size of grown-ups."""
    cells = [row[place] for row in rows if place < len(row) and row[place].strip()]
    try:
        heights_cm = [parse_length(cell, unit) for cell in cells]
    except ValueError:
        return False
    _, tallest = plausible_cm(Body.HEIGHT)
    return bool(cells) and all(_SMALLEST_HEIGHT_CM <= each <= tallest for each in heights_cm)


def _without_unit(title: str) -> tuple[str, Unit | None]:
    """The folded name and the unit behind it: of ``head_girth_in``, ``Kopfumfang (cm)``, ``talla en cm``."""
    key = folded(title)
    stem, _, ending = key.rpartition("_")
    if ending not in list(Unit):
        return key, None
    return stem.removesuffix("_in").removesuffix("_en"), Unit(ending)


def _unused(title: str) -> Iterator[str]:
    if not title.strip():
        return
    words = f"the column {show_value(title)} is not used"
    if question := asked_about(_without_unit(title)[0]):
        yield f"{words}: {question}"
        return
    near = nearest(title.strip(), spelt_names())
    yield f"{words}; did you mean {near[0]}?" if near else words
