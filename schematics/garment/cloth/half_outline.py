"""The wearer's right half of a flat piece: its outline in stretches between corners and ends of edges."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import cast

import numpy as np
import shapely
from shapely import LineString, Point, Polygon, box
from shapely.geometry.polygon import orient

from schematics.garment.cloth.arrays import Floats
from schematics.garment.garment import Piece, Vertex

_SHARP = math.radians(12)
"""A corner that turns by more keeps its place when the outline is sampled."""

_NEAR_CM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class OutlineStretch:
    """A part of an outline, counter-clockwise, with the names of what lies along it."""

    line: LineString
    names: frozenset[str]

    def sampled(self, segments: int) -> Floats:
        """The stretch's points but the last, evenly spaced."""
        shares = np.arange(segments) / segments
        return shapely.get_coordinates(shapely.line_interpolate_point(self.line, shares, normalized=True))


@dataclass(frozen=True, slots=True, kw_only=True)
class HalfOutline:
    """The stretches in order, from the fold's lower end of a body, the upper end of the middle of a panel."""

    piece: Piece
    polygon: Polygon
    stretches: tuple[OutlineStretch, ...]

    def along(self, name: str) -> list[int]:
        """The numbers of the stretches with that name, in order."""
        return [at for at, each in enumerate(self.stretches) if name in each.names]


FOLD = "fold"
"""The name of the stretch on the plane of symmetry."""


def half_outline(
    piece: Piece, lines: Iterable[tuple[str, LineString]], ends: Iterable[Vertex] = ()
) -> HalfOutline:
    """The half of a piece that is the wearer's right; ``ends`` are places of the outline that stay."""
    named = [*((edge.name, edge.path) for edge in piece.edges), *lines]
    ring = _with_points(_half_ring(piece), ends)
    kept = [Point(*end) for _, path in named for end in (path.coords[0], path.coords[-1])]
    kept += [Point(*end) for end in ends]
    marks = [0] + [at for at in range(1, len(ring)) if _turn(ring, at) > _SHARP or _is_one_of(ring[at], kept)]
    stretches = []
    for first, last in itertools.pairwise([*marks, len(ring)]):
        line = LineString([ring[at % len(ring)] for at in range(first, last + 1)])
        middle = line.interpolate(0.5, normalized=True)
        names = {name for name, path in named if path.distance(middle) < _NEAR_CM}
        if last == len(ring):
            names = {FOLD}
        stretches.append(OutlineStretch(line=line, names=frozenset(names)))
    return HalfOutline(piece=piece, polygon=Polygon(ring), stretches=tuple(stretches))


def _half_ring(piece: Piece) -> list[Vertex]:
    if piece.on_fold:
        return piece.corners
    left, low, _, high = piece.outline.bounds
    half = orient(cast("Polygon", piece.outline.intersection(box(left - 1, low - 1, 0.0, high + 1))))
    ring = [(x, y) for x, y, *_ in half.exterior.coords[:-1]]
    start = max(range(len(ring)), key=lambda at: (abs(ring[at][0]) < _NEAR_CM, ring[at][1]))
    return ring[start:] + ring[:start]


def _with_points(ring: Sequence[Vertex], points: Iterable[Vertex]) -> list[Vertex]:
    result = list(ring)
    for x, y in points:
        if any(math.dist((x, y), each) < _NEAR_CM for each in result):
            continue
        sides = [LineString([one, other]) for one, other in itertools.pairwise([*result, result[0]])]
        at = min(range(len(sides)), key=lambda side: sides[side].distance(Point(x, y)))
        result.insert(at + 1, (x, y))
    return result


def _turn(ring: Sequence[Vertex], at: int) -> float:
    (x0, y0), (x1, y1), (x2, y2) = ring[at - 1], ring[at], ring[(at + 1) % len(ring)]
    turn = math.atan2(y2 - y1, x2 - x1) - math.atan2(y1 - y0, x1 - x0)
    return abs(math.remainder(turn, math.tau))


def _is_one_of(corner: Vertex, kept: Sequence[Point]) -> bool:
    return any(math.hypot(corner[0] - each.x, corner[1] - each.y) < _NEAR_CM for each in kept)
