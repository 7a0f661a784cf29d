"""The outline of a body's right half by places along it, counter-clockwise from centre back at the hem."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import numpy as np
from shapely import LineString
from shapely import Point as ShapelyPoint
from shapely.ops import substring

from schematics.garment.garment import Edge, Garment, Piece
from schematics.units import NEAR

BODY, PANEL = "body", "centre panel"
"""Names of the two pieces a body is joined from."""
FRONT = "front"
"""The edge of the body that the panel is joined to."""


_NEAREST, _HALVINGS = 0.2, 40
"""How near to the middles of back and front the side fold may be moved, as a share of that; and how its
place is found."""


class BodyOutline:
    """The right half's outline, cut by the side fold into back and front.

    Places are distances along it in cm, from nought at centre back on the hem. In their order come
    ``side``, the outer end of the side fold; ``front_hem`` and ``front_neck``, the ends of the front
    edge; ``shoulder``, the side fold's end at the neck; ``nape``, centre back at the neck; and
    ``length``, back at the start.

    What is known to lie on the neck edge, or on the edges before the front one, is looked for there
    alone: elsewhere the outline of a body of more than a circle may come as near, or touch it.

    ``lies_equally`` is whether back and front, with its half of the panel, are equally wide.
    """

    def __init__(self, garment: Garment) -> None:
        body = garment.piece(BODY)
        points = body.corners
        self._line = LineString([*points, points[0]])
        self.length: float = self._line.length
        self.nape: float = LineString(points).length
        front = tuple(body.edge(FRONT).path.coords)
        corner = next(i for i, pair in enumerate(itertools.pairwise(points)) if pair == front)
        self._outer, self._neck = LineString(points[: corner + 1]), LineString(points[corner + 1 :])
        self.front_hem: float = self._outer.length
        self.front_neck = self.nape - self._neck.length
        shoulder, side = garment.side_fold
        self.shoulder, self.side = self._on_neck(shoulder), self._on_outer(side)
        at_shoulders = any(crease.folded for crease in body.creases)
        self.lies_equally: bool = not at_shoulders and self._fold_equally(garment.piece(PANEL))

    def _fold_equally(self, panel: Piece) -> bool:
        """Move the side fold to where back and front, with its half of the panel, lie equally wide.

        Where there is no such place, as in a body of far more than a circle, it stays: False.
        """
        outer = np.array(self._outer.coords)[:, :2]
        places = np.concatenate([[0.0], np.hypot(*np.diff(outer, axis=0).T).cumsum()])
        hem, neck = outer[-1], np.array(self.path(self.front_hem, self.front_neck).coords[-1])
        up = (neck - hem) / np.hypot(*(neck - hem))
        top, foot = (panel.edge(name).length_cm / 2 for name in ("top", "lower"))
        lean = min(1.0, (foot - top) / panel.edge("left side").length_cm)
        along, off = (outer - hem) @ up, (outer - hem) @ np.array([-up[1], up[0]])
        in_front = foot - lean * along + math.sqrt(1 - lean**2) * off

        def wider_back(place: float) -> float:
            before, after = places <= place, places >= place
            back, front = (float(np.interp(place, places, each)) for each in (outer[:, 0], in_front))
            return max(back, float(outer[before, 0].max())) - max(front, float(in_front[after].max()))

        low, high = _NEAREST * self.side, self.front_hem - _NEAREST * (self.front_hem - self.side)
        if not wider_back(low) < 0 < wider_back(high):
            return False
        for _ in range(_HALVINGS):
            middle = (low + high) / 2
            low, high = (middle, high) if wider_back(middle) < 0 else (low, middle)
        moved = low - self.side
        share = moved / (self.front_hem - self.side if moved > 0 else self.side)
        self.shoulder -= share * (self.shoulder - self.front_neck if moved > 0 else self.nape - self.shoulder)
        self.side = low
        return True

    @property
    def fold(self) -> LineString:
        """The side fold from the neck out, its ends on the outline."""
        return LineString([self._line.interpolate(place) for place in (self.shoulder, self.side)])

    def _on_outer(self, point: Sequence[float]) -> float:
        """The place nearest to the point between centre back and front edge."""
        place: float = self._outer.project(ShapelyPoint(point[0], point[1]))
        return place

    def _on_neck(self, point: Sequence[float]) -> float:
        """The place nearest to the point on the neck edge."""
        place: float = self.front_neck + self._neck.project(ShapelyPoint(point[0], point[1]))
        return place

    def span(self, edge: Edge) -> tuple[float, float]:
        """Where an edge that is joined starts and ends: the front edge, or one before it."""
        return (self.front_hem, self.front_neck) if edge.name == FRONT else self.outer_span(edge.path)

    def outer_span(self, path: LineString) -> tuple[float, float]:
        """Where a stretch between centre back and front edge starts and ends."""
        low, high = sorted(self._on_outer(path.coords[i]) for i in (0, -1))
        return low, high

    def across(self, path: LineString) -> tuple[float, float]:
        """Where a line from the neck out ends on hem or side, and where at the neck."""
        return self._on_outer(path.coords[-1]), self._on_neck(path.coords[0])

    def path(self, start: float, end: float) -> LineString:
        """The outline from one place on to a later one, without vertices a hair apart."""
        first, *rest = ((x, y) for x, y, *_ in substring(self._line, start, end).coords)
        kept = [first, *(after for before, after in itertools.pairwise((first, *rest))
                         if math.dist(before, after) > NEAR)]  # fmt: skip
        return LineString([*kept[: max(1, len(kept) - 1)], rest[-1]])
