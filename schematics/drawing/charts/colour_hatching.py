"""Colours of a chart in black and white: the first is plain, each other has lines of its own."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from schematics.drawing.charts.over_and_under import points_of, without
from schematics.drawing.ink.marks import Line, Mark, Pen
from schematics.drawing.ink.taken import Shapes, straight_lines

_PITCH = 0.85
"""Between lines, in mm: at 60 % they are still apart."""

_SHORTEST = 0.3
"""A line that is shorter, in mm, would look like dirt."""

_HATCHINGS: tuple[tuple[tuple[float, float], ...], ...] = (
    (),
    ((45.0, 1.0),),
    ((-45.0, 1.0),),
    ((0.0, 1.0),),
    ((45.0, 1.5), (-45.0, 1.5)),
    ((90.0, 1.0),),
    ((0.0, 1.5), (90.0, 1.5)),
)
"""The angles of the lines of each colour, in degrees, and their pitch in `_PITCH`; from the first
again after the last, with wider lines."""


def hatching(number: int, cell: BaseGeometry, cover: BaseGeometry) -> Iterator[Mark]:
    """The lines of the colour of that number, from nought, in a cell, except where ``cover`` is."""
    if cell.is_empty:
        return
    again, which = divmod(number, len(_HATCHINGS))
    for angle, pitch in _HATCHINGS[which] if which or not again else ((30.0, 2.0),):
        lines = _lines(cell, angle, pitch * _PITCH * (1 + again))
        for part in without(lines, cover, _SHORTEST):
            yield Line(points_of(part), Pen.GRID)


def _lines(cell: BaseGeometry, angle: float, pitch: float) -> Shapes:
    """Parallel lines over a cell, in step with those of its neighbours."""
    turn = math.radians(angle)
    along, across = np.array([math.cos(turn), math.sin(turn)]), np.array([-math.sin(turn), math.cos(turn)])
    corners = shapely.get_coordinates(cell)
    reach, width = corners @ along, corners @ across
    steps = np.arange(math.ceil(width.min() / pitch), math.floor(width.max() / pitch) + 1) * pitch
    ends = np.array([reach.min(), reach.max()])
    level = steps[:, None, None] * across + ends[:, None] * along
    return np.asarray(shapely.intersection(straight_lines(level), cell))
