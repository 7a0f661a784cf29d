"""Colours of a chart in black and white: the first is plain, each other has lines of its own."""

from __future__ import annotations

import math
from collections.abc import Iterator

from shapely import LineString, MultiLineString
from shapely.affinity import rotate
from shapely.geometry.base import BaseGeometry

from schematics.drawing.charts.over_and_under import points_of, without
from schematics.drawing.ink.marks import Line, Mark, Pen

_PITCH = 0.85
"""Between lines, in mm: at 60 % they still stand apart."""

_SHORTEST = 0.3
"""A line that is shorter, in mm, would look like dirt."""

_WAYS: tuple[tuple[tuple[float, float], ...], ...] = (
    (),
    ((45.0, 1.0),),
    ((-45.0, 1.0),),
    ((0.0, 1.0),),
    ((45.0, 1.5), (-45.0, 1.5)),
    ((90.0, 1.0),),
    ((0.0, 1.5), (90.0, 1.5)),
)
"""The ways in which the lines of each colour run, in degrees, and their pitch in `_PITCH`; from the first
again after the last, with wider lines."""


def hatching(number: int, cell: BaseGeometry, cover: BaseGeometry) -> Iterator[Mark]:
    """The lines of the colour of that number, from nought, in a cell, except where ``cover`` is."""
    if cell.is_empty:
        return
    again, way = divmod(number, len(_WAYS))
    for angle, pitch in _WAYS[way] if way or not again else ((30.0, 2.0),):
        lines = _lines(cell, angle, pitch * _PITCH * (1 + again))
        for part in without(lines, cover, _SHORTEST):
            yield Line(points_of(part), Pen.GRID)


def _lines(cell: BaseGeometry, angle: float, pitch: float) -> BaseGeometry:
    """Parallel lines over a cell, in step with those of its neighbours."""
    x, y = cell.centroid.x, cell.centroid.y
    reach = math.hypot(cell.bounds[2] - cell.bounds[0], cell.bounds[3] - cell.bounds[1])
    turn = math.radians(angle)
    across = -math.sin(turn) * x + math.cos(turn) * y
    first = math.ceil((across - reach) / pitch)
    last = math.floor((across + reach) / pitch)
    level = MultiLineString(
        [LineString([(-1e3, step * pitch), (1e3, step * pitch)]) for step in range(first, last + 1)]
    )
    turned = rotate(level, angle, origin=(0, 0))
    return turned.intersection(cell)
