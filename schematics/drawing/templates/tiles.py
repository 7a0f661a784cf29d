"""A template laid on pages: as few as can be, named by row and column."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import product
from string import ascii_uppercase

import numpy as np
import shapely

from schematics.drawing.ink.marks import Point
from schematics.drawing.ink.page import Box
from schematics.drawing.ink.sheet import Paper
from schematics.drawing.templates.template import Template

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
        counts = [
            math.ceil((size + 2 * _AIR) / pitch) for size, pitch in zip((x1 - x0, y1 - y0), step, strict=True)
        ]
        if math.prod(counts) > 4 * MOST:
            continue
        spare = [
            n * pitch - size - 2 * _AIR
            for n, pitch, size in zip(counts, step, (x1 - x0, y1 - y0), strict=True)
        ]
        for share_y, share_x in product(_SHARES, repeat=2):
            corner = x0 - _AIR - share_x * spare[0], y0 - _AIR - share_y * spare[1]
            met = list(_met(each, corner, step, (counts[0], counts[1])))
            if len(met) <= MOST and (best is None or len(met) < len(best[2])):
                best = each, corner, met
    if best is None:
        return None
    chosen, corner, met = best
    tiles = {place: _tile(place, corner, step, first_row) for place in met}
    return Tiling(template=chosen, tiles=tiles)


def _met(
    template: Template, corner: Point, step: Point, counts: tuple[int, int]
) -> Iterator[tuple[int, int]]:
    """Row and column of each cell that the fabric reaches into."""
    columns, rows = counts
    places = [(row, column) for row in range(rows) for column in range(columns)]
    x0, y0 = np.array([(corner[0] + c * step[0], corner[1] + r * step[1]) for r, c in places]).T
    cells = shapely.box(x0, y0, x0 + step[0], y0 + step[1])
    shapely.prepare(template.fabric)
    hit = shapely.intersects(cells, template.fabric)
    yield from (place for place, reached in zip(places, hit, strict=True) if reached)


def _tile(place: tuple[int, int], corner: Point, step: Point, first_row: int) -> Tile:
    row, column = place
    x, y = corner[0] + column * step[0], corner[1] + row * step[1]
    half = OVERLAP / 2
    box = Box(x - half, y - half, x + step[0] + half, y + step[1] + half)
    return Tile(row, column, f"{_letters(first_row + row)}{column + 1}", box)


def _letters(number: int) -> str:
    """A to Z, then AA, AB and so on."""
    first, last = divmod(number, len(ascii_uppercase))
    return (_letters(first - 1) if first else "") + ascii_uppercase[last]
