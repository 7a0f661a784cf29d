"""From a piece in centimetres, y up, to tracks and outlines in sheet millimetres, y down."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from shapely import LineString, MultiLineString, line_merge
from shapely.geometry.base import BaseGeometry

from schematics.drawing.ink.marks import Point
from schematics.drawing.ink.scale import to_mm
from schematics.drawing.ink.track import Arc, Bent, Straight, Track
from schematics.garment.garment import Piece, Span
from schematics.units import NEAR

CENTRE_BACK = "centre back"
"""The name of the fold of a piece that is drawn whole."""


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """How a piece is drawn: its scale, and whether a piece on the fold is drawn by half."""

    scale: float
    half_only: bool = False

    def point(self, x_cm: float, y_cm: float) -> Point:
        """The sheet point of a fabric point."""
        return to_mm(x_cm, self.scale), -to_mm(y_cm, self.scale)

    def line(self, path: LineString) -> tuple[Point, ...]:
        """The sheet points of a path."""
        return tuple(self.point(x, y) for x, y, *_ in path.coords)

    def outline(self, piece: Piece) -> tuple[Point, ...]:
        """The drawn outline: whole where the piece lies flat, else the right half on the fold."""
        right = [self.point(x, y) for x, y in piece.corners]
        if not piece.on_fold or self.half_only:
            return tuple(right)
        return (*right, *(mirrored(p) for p in reversed(right[1:-1])))

    def fold(self, piece: Piece) -> tuple[Point, Point]:
        """Both ends of the fold at centre back of a piece on the fold, the upper one first."""
        low, *_, high = piece.corners
        return self.point(*high), self.point(*low)

    @property
    def fold_words(self) -> str:
        """What is written along it."""
        return f"{CENTRE_BACK}, on the fold" if self.half_only else CENTRE_BACK

    def track(self, span: Span) -> Track:
        """The stretch of outline a span measures, on its right the side it is read on."""
        points = list(self.line(span.path))
        if span.on_left and not self.half_only:
            points = [mirrored(p) for p in reversed(points)]
        if span.crosses_fold and not self.half_only:
            if abs(points[0][0]) < NEAR:
                points = [mirrored(p) for p in reversed(points)] + points[1:]
            else:
                points = points + [mirrored(p) for p in reversed(points[:-1])]
        if span.inside:
            points.reverse()
        if span.centre is None:
            corners = _corners(points)
            return Straight(points[0], points[-1]) if len(corners) == 2 else Bent(corners)
        centre = self.point(*span.centre)
        return arc_through(centre, points)


def line_parts(shape: BaseGeometry) -> list[LineString]:
    """The lines of a shape, joined where they run on."""
    merged = line_merge(shape) if isinstance(shape, MultiLineString) else shape
    return [part for part in getattr(merged, "geoms", [merged]) if isinstance(part, LineString)]


def mirrored(point: Point) -> Point:
    """The point on the other side of the fold."""
    return -point[0], point[1]


def _corners(points: list[Point]) -> tuple[Point, ...]:
    """The points at which the path bends, with both ends."""
    kept = [points[0]]
    for point, after in pairwise(points[1:]):
        before = kept[-1]
        ax, ay, bx, by = point[0] - before[0], point[1] - before[1], after[0] - point[0], after[1] - point[1]
        if abs(ax * by - ay * bx) > NEAR * math.hypot(ax, ay) * math.hypot(bx, by):
            kept.append(point)
    return (*kept, points[-1])


def arc_through(centre: Point, points: list[Point]) -> Arc:
    """The arc about ``centre`` from the first of ``points`` through the others to the last."""
    angles = [math.atan2(y - centre[1], x - centre[0]) for x, y in points]
    sweep = sum(math.remainder(b - a, math.tau) for a, b in pairwise(angles))
    return Arc(centre, math.dist(centre, points[0]), angles[0], sweep)
