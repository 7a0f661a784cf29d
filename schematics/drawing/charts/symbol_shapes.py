"""Arcs, ovals, strands and figures of which symbols are made."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from schematics.crochet.stitches import Loop
from schematics.drawing.charts.stance import Stance
from schematics.drawing.ink.marks import Area, Line, Mark, Pen, Point, between

ARC_ROOM = 0.24
"""Height of the room for the arc of a loop, over the width of a cell."""

_HALF_ARC, _ARC = 0.25, 0.13


def loop_arc(loop: Loop, foot: Point, width: float) -> Line:
    """Open at the top for the front loop, at the bottom for the back loop, level for the third loop."""
    x, y = foot
    half, deep = _HALF_ARC * width, _ARC * width
    if loop is Loop.THIRD:
        return Line(((x - half, y - deep / 2), (x + half, y - deep / 2)), Pen.SYMBOL)
    if loop is Loop.FRONT:
        return Line(arc((x, y - deep), half, deep, math.pi, 0.0), Pen.SYMBOL)
    return Line(arc((x, y), half, -deep, math.pi, 0.0), Pen.SYMBOL)


def oval(centre: Point, across: float, up: float) -> Area:
    """An open oval of those half axes."""
    return Area(arc(centre, across, up, 0, math.tau)[:-1], Pen.SYMBOL)


def arc(centre: Point, across: float, up: float, start: float, end: float) -> tuple[Point, ...]:
    """Vertices of an elliptic arc; angles in radians, clockwise as printed from the right."""
    pieces = max(6, round(abs(end - start) / math.radians(20)))
    angles = (start + (end - start) * i / pieces for i in range(pieces + 1))
    return tuple((centre[0] + across * math.cos(a), centre[1] + up * math.sin(a)) for a in angles)


def strand(stance: Stance, across: float, *, straight: bool) -> Iterator[Point]:
    """A strand of a leaf, ``across`` mm from its axis at the middle: round, or straight with a bend."""
    for share, bulge in _profile(straight=straight):
        x, y = between(stance.top, stance.foot, share)
        yield x + across * bulge, y


def _profile(*, straight: bool) -> Iterator[tuple[float, float]]:
    if straight:
        yield from ((0.0, 0.0), (0.5, 1.0), (1.0, 0.0))
        return
    for step in range(9):
        yield step / 8, math.sin(math.pi * step / 8)


def round_strand(stance: Stance, across: float) -> Iterator[Point]:
    """A loop of a puff: half an ellipse."""
    for step in range(13):
        angle = math.pi * step / 12
        x, y = between(stance.top, stance.foot, (1 - math.cos(angle)) / 2)
        yield x + across * math.sin(angle) ** 0.6, y


def point_down(stem: Sequence[Point], y: float) -> Point:
    """Where a strand is so far down, ``y`` in mm; its lower end if it does not go so far."""
    for start, end in pairwise(stem):
        if start[1] <= y <= end[1]:
            return between(start, end, (y - start[1]) / (end[1] - start[1]))
    return stem[-1]


def figure(number: int, centre: Point, height: float) -> Iterator[Mark]:
    """A figure from 6 to 9 in strokes, as wide as two thirds of its height."""
    for path in _FIGURES[number]:
        yield Line(
            tuple((centre[0] + (x - 0.5) * height * 0.66, centre[1] + (y - 0.5) * height) for x, y in path),
            Pen.SYMBOL,
        )


_FIGURES: Mapping[int, tuple[tuple[Point, ...], ...]] = {
    6: ((*arc((0.8, 0.68), 0.8, 0.68, math.pi * 1.45, math.pi)[:-1],
         *arc((0.5, 0.68), 0.5, 0.32, math.pi, -math.pi)),),
    7: (((0.0, 0.0), (1.0, 0.0), (0.35, 1.0)),),
    8: (arc((0.5, 0.25), 0.4, 0.25, 0, math.tau), arc((0.5, 0.75), 0.5, 0.25, 0, math.tau)),
    9: ((*arc((0.2, 0.32), 0.8, 0.68, math.pi * 0.45, 0.0)[:-1],
         *arc((0.5, 0.32), 0.5, 0.32, 0.0, math.tau)),),
}  # fmt: skip
"""Strokes in a box of 1 by 1."""
