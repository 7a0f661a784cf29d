"""Stitches picked up along row ends for the bands: how many to each row end, in turn."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from schematics.crochet.fabric import Counted
from schematics.crochet.join_words import JoinSide, schedule_words
from schematics.crochet.spacing import Join, join
from schematics.document.document import Figure, Table, count_figure, text_figure
from schematics.garment.garment import Garment
from schematics.pattern.book import Book, if_any

_ROW_ENDS = JoinSide("body", Counted.ROWS)
_STITCHES = JoinSide("edge", Counted.STITCHES)

_PLACES: Mapping[str, str] = {
    "arm": "each arm opening",
    "neck": "each side of the neck hole",
    "neck_right": "right side of the neck hole",
    "neck_left": "left side of the neck hole",
}
"""Where stitches are picked up, by the figures' key."""


def pick_ups(book: Book) -> Iterator[tuple[Table, tuple[Figure, ...]]]:
    """A table and its figures for each place; nothing where bands are worked onto stitches only."""
    by_size = [_joins(garment) for garment in book.garments]
    header = ("size", "row ends", "stitches", "schedule")
    for key, place in _PLACES.items():
        joins = [each.get(key) for each in by_size]
        if any(joins):
            figures = _figures(f"picked_up.{key}", place, joins)
            yield book.size_table(f"Picked up along {place}", header, figures, joins), figures


def _joins(garment: Garment) -> dict[str, Join]:
    """Row ends to edge stitches, by place; both sides of the neck alike where the stitches halve."""
    joins: dict[str, Join] = {}
    if garment.arm.ring.picked_up:
        joins["arm"] = join(garment.arm.count, garment.arm.ring.picked_up)
    at_neck = garment.neck.picked_up
    if at_neck > 1:
        rows = garment.piece("body").edge("neck side").count
        if at_neck % 2:
            joins["neck_right"] = join(rows, at_neck // 2 + 1)
            joins["neck_left"] = join(rows, at_neck // 2)
        else:
            joins["neck"] = join(rows, at_neck // 2)
    return joins


def _figures(key: str, place: str, joins: Sequence[Join | None]) -> tuple[Figure, ...]:
    row_ends = if_any(joins, lambda each: each.first_rows)
    stitches = if_any(joins, lambda each: each.second_rows)
    schedules = if_any(joins, lambda each: schedule_words(each, _ROW_ENDS, _STITCHES))
    return (
        count_figure(f"{key}.rows", f"{place}: row ends", "rows", row_ends),
        count_figure(f"{key}.stitches", f"{place}: stitches to pick up", "sts", stitches),
        text_figure(f"{key}.schedule", f"{place}: schedule", schedules),
    )
