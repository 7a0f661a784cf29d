"""The rows of a body in turn: stretches that are worked plain, and borders between them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from schematics.crochet.charts.chart import Side
from schematics.document.chart_words.in_sizes import Sized
from schematics.garment.garment import Garment
from schematics.garment.patterned_area import PatternedArea


@dataclass(frozen=True, slots=True)
class Stretch:
    """Rows that follow each other, in each size; empty where a size has none. They may be a ``border``."""

    rows: tuple[range, ...]
    border: str = ""

    @property
    def first(self) -> Sized:
        """The first row in each size."""
        return [rows[0] if rows else None for rows in self.rows]

    @property
    def last(self) -> Sized:
        """The last row in each size."""
        return [rows[-1] if rows else None for rows in self.rows]


def stretches(garments: Sequence[Garment], whole: Sequence[range]) -> Iterator[Stretch]:
    """The rows of the body from ``whole``, in order, without stretches that no size has."""
    bodies = [_borders(garment, rows) for garment, rows in zip(garments, whole, strict=True)]
    names = {name: area.first_row for body in reversed(bodies) for name, area in body.items()}
    at = [rows.start for rows in whole]
    for name in sorted(names, key=lambda each: names[each]):
        areas = [body.get(name) for body in bodies]
        places = [
            range(area.first_row, area.last_row + 1) if area else range(begun, begun)
            for area, begun in zip(areas, at, strict=True)
        ]
        before = Stretch(tuple(range(begun, place.start) for begun, place in zip(at, places, strict=True)))
        if any(before.rows):
            yield before
        yield Stretch(tuple(places), name)
        at = [place.stop for place in places]
    rest = Stretch(tuple(range(begun, rows.stop) for begun, rows in zip(at, whole, strict=True)))
    if any(rest.rows):
        yield rest


def _borders(garment: Garment, whole: range) -> dict[str, PatternedArea]:
    areas = garment.piece("body").patterned
    return {area.name: area for area in areas if area.first_row in whole and area.last_row in whole}


def first_sides(garments: Sequence[Garment]) -> tuple[Side, ...]:
    """The side that faces in row 1 of the body: the right side, unless a border's chart asks otherwise."""
    return tuple(map(_first_side, garments))


def _first_side(garment: Garment) -> Side:
    for area in garment.piece("body").patterned:
        if chart := area.fabric.chart:
            return chart.first_side if area.first_row % 2 else chart.first_side.other
    return Side.RIGHT
