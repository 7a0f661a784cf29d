"""The outline of a body's right half by places along it, counter-clockwise from centre back at the hem."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import numpy as np
from shapely import LineString
from shapely import Point as ShapelyPoint
from shapely.ops import substring

from schematics.garment.garment import Edge, Garment
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

    The side fold is ``halfway``, or where there is one near by at which back and front, with its half of the
    panel, lie equally wide. The panel's left side lies as ``panel_side`` says, or straight and as long as the
    front edge.
    """

    def __init__(
        self, garment: Garment, panel_side: LineString | None = None, *, halfway: bool = False
    ) -> None:
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
        top, foot = (garment.piece(PANEL).edge(name).length_cm / 2 for name in ("top", "lower"))
        ends = (panel_side.coords[0], panel_side.coords[-1]) if panel_side else front
        lean = min(1.0, (foot - top) / math.dist(*ends))
        if not halfway and not any(crease.folded for crease in body.creases):
            self._fold_equally(foot, lean)

    def _fold_equally(self, foot: float, lean: float) -> None:
        """Move the side fold to where back and front, with its half of the panel, lie equally wide.

        That half is ``foot`` wide at the hem; its side leans out by ``lean``, the sine of the angle.

        Where there is no such place, as in a body of far more than a circle, it stays.
        """
        outer = np.array(self._outer.coords)[:, :2]
        places = np.concatenate([[0.0], np.hypot(*np.diff(outer, axis=0).T).cumsum()])
        hem, neck = outer[-1], np.array(self.path(self.front_hem, self.front_neck).coords[-1])
        up = (neck - hem) / np.hypot(*(neck - hem))
        along, off = (outer - hem) @ up, (outer - hem) @ np.array([-up[1], up[0]])
        in_front = foot - lean * along + math.sqrt(1 - lean**2) * off

        def wider_back(place: float) -> float:
            before, after = places <= place, places >= place
            back, front = (float(np.interp(place, places, each)) for each in (outer[:, 0], in_front))
            return max(back, float(outer[before, 0].max())) - max(front, float(in_front[after].max()))

        low, high = _NEAREST * self.side, self.front_hem - _NEAREST * (self.front_hem - self.side)
        if not wider_back(low) < 0 < wider_back(high):
            return
        for _ in range(_HALVINGS):
            middle = (low + high) / 2
            low, high = (middle, high) if wider_back(middle) < 0 else (low, middle)
        moved = low - self.side
        share = moved / (self.front_hem - self.side if moved > 0 else self.side)
        self.shoulder -= share * (self.shoulder - self.front_neck if moved > 0 else self.nape - self.shoulder)
        self.side = low

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
