"""Stitches picked up along row ends for the bands: how many to each row end, in turn."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from schematics.crochet.fabric import Counted
from schematics.crochet.join_words import Side, schedule_words
from schematics.crochet.spacing import Join, join
from schematics.document.document import Figure, Table, count_figure, text_figure
from schematics.garment.garment import Garment
from schematics.pattern.book import Book

_ROW_ENDS = Side(name="body", counted=Counted.ROWS)
_STITCHES = Side(name="edge", counted=Counted.STITCHES)

_PLACES: Mapping[str, str] = {
    "arm": "each arm opening",
    "neck": "each side of the neck hole",
    "neck_right": "right side of the neck hole",
    "neck_left": "left side of the neck hole",
}
"""Where stitches are picked up, by the figures' key."""


def pick_ups(book: Book) -> tuple[tuple[Table, tuple[Figure, ...]], ...]:
    """A table and its figures for each place; nothing where bands are worked onto stitches only."""
    found = book.each(_joins)
    return tuple(
        _place(book, key, [joins.get(key) for joins in found])
        for key in _PLACES
        if any(key in joins for joins in found)
    )


def _joins(garment: Garment) -> dict[str, Join]:
    """Row ends to edge stitches, by place; both sides of the neck alike where the stitches halve."""
    found: dict[str, Join] = {}
    if garment.arm.ring.picked_up:
        found["arm"] = join(garment.arm.count, garment.arm.ring.picked_up)
    at_neck = garment.neck.picked_up
    if at_neck > 1:
        rows = garment.piece("body").edge("neck side").count
        if at_neck % 2:
            found["neck_right"] = join(rows, at_neck // 2 + 1)
            found["neck_left"] = join(rows, at_neck // 2)
        else:
            found["neck"] = join(rows, at_neck // 2)
    return found


def _place(book: Book, key: str, joins: Sequence[Join | None]) -> tuple[Table, tuple[Figure, ...]]:
    where = _PLACES[key]
    figures = tuple(_figures(f"picked_up.{key}", where, joins))
    rows = [
        (name, *(figure.text(index) for figure in figures))
        for index, name in enumerate(book.names)
        if joins[index] is not None
    ]
    header = ("size", "row ends", "stitches", "schedule")
    return Table(caption=f"Picked up along {where}", header=header, rows=tuple(rows)), figures


def _figures(key: str, where: str, joins: Sequence[Join | None]) -> Iterator[Figure]:
    yield count_figure(
        f"{key}.rows", f"{where}: row ends", "rows",
        [None if how is None else how.first_rows for how in joins],
    )  # fmt: skip
    yield count_figure(
        f"{key}.stitches", f"{where}: stitches to pick up", "sts",
        [None if how is None else how.second_rows for how in joins],
    )  # fmt: skip
    yield text_figure(
        f"{key}.schedule", f"{where}: schedule",
        [None if how is None else schedule_words(how, _ROW_ENDS, _STITCHES) for how in joins],
    )  # fmt: skip
