"""The outline of a body's right half by places along it, counter-clockwise from centre back at the hem."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from shapely import LineString
from shapely import Point as ShapelyPoint
from shapely.ops import substring

from schematics.garment.garment import Garment
from schematics.units import NEAR

BODY, PANEL = "body", "centre panel"
"""Names of the two pieces a body is joined from."""


class BodyOutline:
    """The right half's outline, cut by the side fold into back and front.

    Places are distances along it in cm, from nought at centre back on the hem. In their order come
    ``side``, the outer end of the side fold; ``front_hem`` and ``front_neck``, the ends of the front
    edge; ``shoulder``, the side fold's end at the neck; ``nape``, centre back at the neck; and
    ``length``, back at the start.
    """

    def __init__(self, garment: Garment) -> None:
        body = garment.piece(BODY)
        points = [(x, y) for x, y, *_ in body.outline.exterior.coords[:-1]]
        on_fold = [i for i, (x, _) in enumerate(points) if abs(x) < NEAR]
        foot = min(on_fold, key=lambda i: points[i][1])
        self._line = LineString([*points[foot:], *points[: foot + 1]])
        self.length: float = self._line.length
        self.nape = self.at(points[max(on_fold, key=lambda i: points[i][1])])
        self.front_hem, self.front_neck = self.span(body.edge("front").path)
        self.shoulder, self.side = map(self.at, garment.side_fold)

    @property
    def fold(self) -> LineString:
        """The side fold from the neck out, its ends on the outline."""
        return LineString([self._line.interpolate(place) for place in (self.shoulder, self.side)])

    def at(self, point: Sequence[float]) -> float:
        """The place nearest to the point."""
        place: float = self._line.project(ShapelyPoint(point[0], point[1]))
        return place

    def span(self, path: LineString) -> tuple[float, float]:
        """Where a stretch of the outline starts and ends."""
        low, high = sorted(self.at(path.coords[i]) for i in (0, -1))
        return low, high

    def path(self, start: float, end: float) -> LineString:
        """The outline from one place on to a later one, without vertices a hair apart."""
        first, *rest = ((x, y) for x, y, *_ in substring(self._line, start, end).coords)
        kept = [first, *(after for before, after in itertools.pairwise((first, *rest))
                         if math.dist(before, after) > NEAR)]  # fmt: skip
        return LineString([*kept[: max(1, len(kept) - 1)], rest[-1]])
