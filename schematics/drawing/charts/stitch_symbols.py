"""The symbols of a stitch chart, drawn into a square cell.

Shapes as the trade commonly draws them (common practice, from memory): an oval chain, a filled slip
stitch, a cross for single crochet, a T for half double, with a bar for every yarn over of taller stitches, a
hook at the foot of a post stitch, an arc under a stitch worked into one loop only.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from schematics.crochet.charts.chart import Worked
from schematics.crochet.stitches import Loop
from schematics.drawing.ink.marks import Area, Line, Mark, Pen, Point

_TOP, _FOOT = 0.15, 0.85
_FOOT_OVER_ARC = 0.65
_POST_FOOT = 0.68
_BAR_PITCH = 0.16
_HOOK = 0.11
_LEGS = 0.25
"""Shares of the cell, from its upper left corner."""


@dataclass(frozen=True, slots=True)
class Cell:
    """A square on the sheet: its upper left corner and its side, in mm."""

    x: float
    y: float
    side: float

    def at(self, x: float, y: float) -> Point:
        """The sheet point at these shares of the cell."""
        return self.x + x * self.side, self.y + y * self.side

    def square(self) -> Area:
        """The cell's outline."""
        return Area((self.at(0, 0), self.at(1, 0), self.at(1, 1), self.at(0, 1)), Pen.THIN)


def symbol(worked: Worked, cell: Cell) -> tuple[Mark, ...]:
    """The marks of a stitch, well inside its cell.

    Raises:
        KeyError: the stitch has no symbol, because it makes no stitch.
    """
    strokes = [*_SHAPES[worked.stitch.abbreviation](_FOOT_OVER_ARC if worked.loop else _FOOT)]
    if worked.loop:
        strokes.append(_loop_arc(worked.loop))
    return tuple(_mark(stroke, cell) for stroke in strokes)


@dataclass(frozen=True, slots=True)
class _Stroke:
    """A shape in shares of the cell."""

    points: tuple[Point, ...]
    closed: bool = False
    filled: bool = False


_Strokes = Iterator[_Stroke]


def _mark(stroke: _Stroke, cell: Cell) -> Mark:
    points = tuple(cell.at(x, y) for x, y in stroke.points)
    if stroke.closed:
        return Area(points, Pen.SOLID if stroke.filled else Pen.OUTLINE)
    return Line(points, Pen.OUTLINE)


def _line(*points: Point) -> _Stroke:
    return _Stroke(points)


def _oval(centre: Point, across: float, up: float, *, filled: bool = False) -> _Stroke:
    return _Stroke(_arc(centre, across, up, 0, math.tau)[:-1], closed=True, filled=filled)


def _arc(centre: Point, across: float, up: float, start: float, end: float) -> tuple[Point, ...]:
    """Vertices of an elliptic arc; angles in radians, clockwise as printed from the right."""
    pieces = max(6, round(abs(end - start) / math.radians(15)))
    angles = (start + (end - start) * i / pieces for i in range(pieces + 1))
    return tuple((centre[0] + across * math.cos(a), centre[1] + up * math.sin(a)) for a in angles)


def _bars(top: Point, foot: Point, count: int, half: float = 0.13, about: float = 0.5) -> _Strokes:
    """Slanting bars across a stem, about its middle or another share of its length."""
    for number in range(count):
        share = about + (number - (count - 1) / 2) * _BAR_PITCH / math.dist(top, foot)
        x = top[0] + (foot[0] - top[0]) * share
        y = top[1] + (foot[1] - top[1]) * share
        yield _line((x - half, y + half * 0.42), (x + half, y - half * 0.42))


def _tall(bars: int, foot: float) -> _Strokes:
    yield _line((0.27, _TOP), (0.73, _TOP))
    yield _line((0.5, _TOP), (0.5, foot))
    yield from _bars((0.5, _TOP), (0.5, foot), bars)


def _post(bars: int, side: int) -> _Strokes:
    """A tall stitch whose foot hooks to the right (``side`` 1, front) or to the left (-1, back)."""
    yield _line((0.27, _TOP), (0.73, _TOP))
    start, end = (math.pi, 0.0) if side > 0 else (0.0, math.pi)
    hook = _arc((0.5 + side * _HOOK, _POST_FOOT), _HOOK, _HOOK * 1.4, start, end)
    yield _line((0.5, _TOP), *hook)
    yield from _bars((0.5, _TOP), (0.5, _POST_FOOT), bars)


def _together(bars: int, top: float, *, roof: bool) -> _Strokes:
    """Two legs that meet at the top."""
    peak = (0.5, top)
    for x in (0.5 - _LEGS, 0.5 + _LEGS):
        yield _line(peak, (x, _FOOT))
        yield from _bars(peak, (x, _FOOT), bars, 0.1, about=0.72)
    if roof:
        yield _line((0.27, top), (0.73, top))


def _leaf(*, bars: int, roof: bool, crown: bool) -> _Strokes:
    """Three stems out of one foot that meet again at the top, with bars across all three."""
    top = 0.26 if crown else _TOP
    middle, half = (top + _FOOT) / 2, (_FOOT - top) / 2
    for across in (-0.24, 0.0, 0.24):
        yield _line(*_arc((0.5, middle), across, half, -math.pi / 2, math.pi / 2))
    yield from _bars((0.5, top), (0.5, _FOOT), bars, 0.3)
    if roof:
        yield _line((0.27, top), (0.73, top))
    if crown:
        yield _oval((0.5, 0.2), 0.13, 0.07)


def _cross(foot: float) -> _Strokes:
    middle = (_TOP + foot) / 2
    yield _line((0.28, middle - 0.22), (0.72, middle + 0.22))
    yield _line((0.28, middle + 0.22), (0.72, middle - 0.22))


def _slip(foot: float) -> _Strokes:
    yield _oval((0.5, (_TOP + foot) / 2), 0.17, 0.11, filled=True)


def _chain() -> _Strokes:
    yield _oval((0.5, 0.5), 0.3, 0.15)


_SHAPES: dict[str, Callable[[float], _Strokes]] = {
    "ch": lambda _: _chain(),
    "sl st": _slip,
    "sc": _cross,
    "hdc": lambda foot: _tall(0, foot),
    "dc": lambda foot: _tall(1, foot),
    "tr": lambda foot: _tall(2, foot),
    "dtr": lambda foot: _tall(3, foot),
    "FPhdc": lambda _: _post(0, 1),
    "BPhdc": lambda _: _post(0, -1),
    "FPdc": lambda _: _post(1, 1),
    "BPdc": lambda _: _post(1, -1),
    "FPtr": lambda _: _post(2, 1),
    "BPtr": lambda _: _post(2, -1),
    "sc2tog": lambda _: _together(1, 0.35, roof=False),
    "hdc2tog": lambda _: _together(0, _TOP, roof=True),
    "dc2tog": lambda _: _together(1, _TOP, roof=True),
    "cl": lambda _: _leaf(bars=1, roof=True, crown=False),
    "puff": lambda _: _leaf(bars=0, roof=False, crown=False),
    "pc": lambda _: _leaf(bars=1, roof=False, crown=True),
}
"""By abbreviation: from the height of a stitch's foot, in shares of the cell, to its strokes."""


def _loop_arc(loop: Loop) -> _Stroke:
    """Open at the top for the front loop, at the bottom for the back loop."""
    ends, bulge = (0.75, 0.12) if loop is Loop.FRONT else (0.87, -0.12)
    return _line(*_arc((0.5, ends), 0.22, bulge, math.pi, 0.0))
