"""Fine lines that show how fabric looks: never so near that they run into one, never under what is read."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from schematics.drawing.ink.block import CLEAR, Block, mark_shape
from schematics.drawing.ink.marks import Circle, Line, Mark, Pen, Point, Text
from schematics.drawing.ink.taken import Shapes, lines_of, shapes_of
from schematics.units import HAIR

LEAST_APART = 0.6
"""Lines nearer to each other than this, in mm, run into one in print."""

BESIDE = 0.5
"""Least distance from a line that is read, such as a seam's dashes, in mm."""

_SHORTEST = 0.55
"""What is left of a line and shorter, in mm, would look like dirt."""

_READ = frozenset({Pen.SEAM, Pen.FOLD, Pen.INCREASE, Pen.DIMENSION, Pen.EXTENSION, Pen.LEADER, Pen.SOLID})
"""Pens of lines that are read."""

_READ_KINDS = frozenset({"marker", "work", "join"})
"""Kinds of groups all lines of which are read."""


def every_nth(apart_mm: float) -> int:
    """How many lines ``apart_mm`` from each other go by to the next that is drawn.

    >>> every_nth(0.9), every_nth(0.25)
    (1, 3)
    """
    return max(1, math.ceil(LEAST_APART / apart_mm - HAIR))


def nth_words(nth: int) -> str:
    """``every 2nd``, and so on.

    >>> nth_words(2), nth_words(13)
    ('every 2nd', 'every 13th')
    """
    ending = "th" if nth % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(nth % 10, "th")
    return f"every {nth}{ending}"


def fine_lines(
    block: Block, lines: Sequence[Sequence[Point]], seen: BaseGeometry | None = None
) -> list[Line]:
    """The lines, those in the face ``seen`` if one is given, cut wherever something in the block is read."""
    drawn = [each for each in lines if len(each) > 1]
    if not drawn:
        return []
    shapes = lines_of(drawn)
    cut = cut_clear(block, shapes if seen is None else shapely.intersection(shapes, seen))
    return [Line(tuple(points), Pen.TEXTURE) for points in _parts(shapes, cut)]


def cut_clear(block: Block, shapes: Shapes) -> Shapes:
    """The shapes without what is too near to something in the block that is read."""
    rooms = _rooms(block, shapes)
    under, over = shapely.STRtree(rooms).query(shapes, predicate="intersects")
    if not len(under):
        return shapes
    cut, under = shapes.copy(), np.unique(under)
    cut[under] = shapely.difference(shapes[under], shapely.union_all(rooms[np.unique(over)]))
    return cut


def clear(block: Block, shapes: Shapes) -> NDArray[np.bool_]:
    """Which of the shapes are not too near to something in the block that is read."""
    free = np.ones(len(shapes), bool)
    free[shapely.STRtree(_rooms(block, shapes)).query(shapes, predicate="intersects")[0]] = False
    return free


def what_is_read(block: Block) -> BaseGeometry:
    """Words and the lines that mean something, each with the room round it that fine lines leave free."""
    return shapely.union_all(_rooms(block))


def _rooms(block: Block, near: Shapes | None = None) -> Shapes:
    """The same one by one, none that is away from all the shapes that are ``near``, if those are given."""
    covered: list[BaseGeometry] = []
    away: list[float] = []
    for group in block.groups:
        for mark in group.marks:
            if (room := _room(group.kind, mark)) is not None:
                covered.append(mark_shape(mark))
                away.append(room)
    shapes, rooms = shapes_of(covered), np.array(away)
    if near is not None and len(shapes):
        x0, y0, x1, y1 = shapely.total_bounds(near)
        left, top, right, bottom = shapely.bounds(shapes).T
        reach = rooms + HAIR
        close = (left - reach < x1) & (right + reach > x0) & (top - reach < y1) & (bottom + reach > y0)
        shapes, rooms = shapes[close], rooms[close]
    return np.asarray(shapely.buffer(shapes, rooms, quad_segs=2))


def _room(kind: str, mark: Mark) -> float | None:
    if isinstance(mark, Text):
        return CLEAR
    if isinstance(mark, Circle):
        return CLEAR if kind != "motif" else None
    return BESIDE if mark.pen in _READ or kind in _READ_KINDS else None


def _parts(shapes: Shapes, cut: Shapes) -> Iterator[list[Point]]:
    """What is left of shapes that were cut: those that are whole, and parts that are long enough."""
    parts, owner = shapely.get_parts(cut, return_index=True)
    lengths = shapely.length(parts)
    kept = (lengths >= _SHORTEST) | (lengths >= shapely.length(shapes)[owner] - HAIR)
    for part in parts[kept & ~shapely.is_empty(parts)]:
        yield [(float(x), float(y)) for x, y in shapely.get_coordinates(part)]
