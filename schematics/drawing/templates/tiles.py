"""A template laid on pages: as few as can be, named by row and column."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import product
from string import ascii_uppercase

import numpy as np
import shapely
from shapely import Polygon

from schematics.drawing.ink.marks import Point
from schematics.drawing.ink.page import Box
from schematics.drawing.ink.sheet import Paper
from schematics.drawing.templates.template import Template
from schematics.units import NEAR

OVERLAP = 10.0
"""How far neighbours lie over one another, in mm; crosses are in the middle of it."""

BLANK = 10.0
"""Paper left at each edge, in mm: printers at home leave 3 to 5 mm unprinted."""

HEAD = 12.0
"""Height in mm of the head of a page, above what is drawn."""

MOST = 150
"""Pages of one piece; more are better printed as one (common practice, no source)."""

LONGEST = 14_400 * 25.4 / 72
"""Of a PDF page, in mm: 14,400 units (ISO 32000-1, annex C)."""

_AIR = 4.0
"""Least distance in mm from the outline to where pages would be added."""

_SHARES = (0.5, 0.0, 1.0, 0.25, 0.75)
"""Where in the rows and columns of pages, on their spare length, a piece is tried."""

_TIP = 3.5
"""So many mm of a piece need no page of their own: they are seen on the half overlap of the page before."""


def frame(paper: Paper) -> Box:
    """Where a page shows its part of a template."""
    return Box(BLANK, BLANK + HEAD, paper.width - BLANK, paper.height - BLANK)


@dataclass(frozen=True, slots=True)
class Tile:
    """A page of a template.

    ``box`` is what it shows of the template, half an overlap more on every side than what is its own.
    """

    row: int
    column: int
    name: str
    box: Box

    @property
    def cell(self) -> Box:
        """What no other page has but in its overlap; crosses are at its corners."""
        half = OVERLAP / 2
        return Box(self.box.x0 + half, self.box.y0 + half, self.box.x1 - half, self.box.y1 - half)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tiling:
    """A template with its pages by row and column; those with nothing on them are left out."""

    template: Template
    tiles: Mapping[tuple[int, int], Tile]

    @property
    def rows(self) -> int:
        """How many rows of pages there are."""
        return 1 + max(row for row, _ in self.tiles)

    def beside(self, tile: Tile, down: int, right: int) -> Tile | None:
        """The page so many rows below and columns to the right, if there is one."""
        return self.tiles.get((tile.row + down, tile.column + right))


def lay(template: Template, paper: Paper, first_row: int) -> Tiling | None:
    """The piece, turned or not, on the fewest pages; None where there would be more than `MOST`.

    Args:
        template: the piece.
        paper: of the pages.
        first_row: how many rows of pages other pieces have before it.
    """
    shown = frame(paper)
    step = shown.x1 - shown.x0 - OVERLAP, shown.y1 - shown.y0 - OVERLAP
    best: tuple[Template, Point, list[tuple[int, int]]] | None = None
    for each in (template, template.quarter_turned()):
        x0, y0, x1, y1 = each.bounds
        least = [
            math.ceil((size + 2 * _AIR) / pitch) for size, pitch in zip((x1 - x0, y1 - y0), step, strict=True)
        ]
        if math.prod(least) > 4 * MOST:
            continue
        across, down = ([*_starts(size, pitch)] for size, pitch in zip((x1 - x0, y1 - y0), step, strict=True))
        for start_y, start_x in product(down, across):
            corner = x0 - start_x, y0 - start_y
            counts = math.ceil((x1 - corner[0]) / step[0]), math.ceil((y1 - corner[1]) / step[1])
            met = _met(each, corner, step, counts)
            if len(met) <= MOST and (best is None or len(met) < len(best[2])):
                best = each, corner, met
    if best is None:
        return None
    chosen, corner, met = best
    top, left = min(row for row, _ in met), min(column for _, column in met)
    tiles = {
        (row - top, column - left): _tile((row - top, column - left), (row, column), corner, step, first_row)
        for row, column in met
    }
    return Tiling(template=chosen, tiles=tiles)


def _starts(size: float, pitch: float) -> Iterator[float]:
    """How far in mm a piece is tried from where the first of the pages begins."""
    spare = math.ceil((size + 2 * _AIR) / pitch) * pitch - size - 2 * _AIR
    yield from (_AIR + share * spare for share in _SHARES)
    yield pitch - _TIP


def _met(template: Template, corner: Point, step: Point, counts: tuple[int, int]) -> list[tuple[int, int]]:
    """Row and column of each cell that the fabric reaches into, but for tips that others show."""
    columns, rows = counts
    places = [(row, column) for row in range(rows) for column in range(columns)]
    x0, y0 = np.array([(corner[0] + c * step[0], corner[1] + r * step[1]) for r, c in places]).T
    shapely.prepare(template.fabric)
    hit, well = (
        shapely.intersects(
            shapely.box(x0 + less, y0 + less, x0 + step[0] - less, y0 + step[1] - less), template.fabric
        )
        for less in (0.0, _TIP + NEAR)
    )
    reached, well_reached = (
        [place for place, met in zip(places, each, strict=True) if met] for each in (hit, well)
    )
    shown = shapely.union_all([_shown(place, corner, step, _TIP + NEAR) for place in well_reached])
    tips = {*reached} - {*well_reached}
    return [
        place
        for place in reached
        if place not in tips
        or not shown.contains(template.fabric.intersection(_shown(place, corner, step, 0.0)))
    ]


def _shown(place: tuple[int, int], corner: Point, step: Point, more: float) -> Polygon:
    """A cell, and so many mm round it."""
    x, y = corner[0] + place[1] * step[0], corner[1] + place[0] * step[1]
    return shapely.box(x - more, y - more, x + step[0] + more, y + step[1] + more)


def _tile(named: tuple[int, int], place: tuple[int, int], corner: Point, step: Point, first_row: int) -> Tile:
    row, column = named
    box = Box(*_shown(place, corner, step, OVERLAP / 2).bounds)
    return Tile(row, column, f"{_letters(first_row + row)}{column + 1}", box)


def _letters(number: int) -> str:
    """A to Z, then AA, AB and so on."""
    first, last = divmod(number, len(ascii_uppercase))
    return (_letters(first - 1) if first else "") + ascii_uppercase[last]
