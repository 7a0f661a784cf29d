"""The shortest way on flat fabric: the shortest path inside a polygon, round its corners and holes.

Notes:
    A shortest path inside a polygon is straight between corners that stick into it (reflex
    vertices), and it bends about each as a taut thread does: both sides of the corner lie on one
    side of each leg. So the graph of what sees what needs the reflex vertices only, and of those
    the pairs whose line is taut at both ends; on an arc that leaves neighbours.

References:
    M. de Berg, O. Cheong, M. van Kreveld, M. Overmars: Computational Geometry, 3rd edition, 2008,
    chapter 15 (from memory).
"""

from __future__ import annotations

import heapq
import itertools
import math
from collections.abc import Container, Iterable
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LineString, Point, Polygon
from shapely.geometry.polygon import orient

_HAIR_CM = 1e-6
"""A path may leave the domain by this much: computed points lie on a line only nearly."""

_STRAIGHT = 1e-9
"""Sine of the largest angle that counts as none."""

_Array: TypeAlias = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Path:
    """A path of straight legs: its length and its points in order, no two alike in a row, in cm."""

    length_cm: float
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Corners:
    """Reflex vertices and their two sides: ``left`` is a unit vector to the left of each side.

    Shaped (corners, 2) and (sides, corners, 2); sides are looked along from the corner.
    """

    at: _Array
    left: _Array


def shortest_path(domain: Polygon, start: Point, goal: Point | LineString) -> Path:
    """The shortest path inside a polygon, its boundary included.

    Args:
        domain: a valid polygon, with or without holes, in cm.
        start: a point of the domain.
        goal: a point of it, or a line in it, any point of which will do.

    Returns:
        The path from ``start`` to ``goal``; exact, but that it may cut a corner by a hair (1e-6 cm).

    Raises:
        ValueError: the domain is not valid, or start or goal lies outside it.

    >>> ell = Polygon([(0, 0), (4, 0), (4, 1), (1, 1), (1, 4), (0, 4)])
    >>> shortest_path(ell, Point(4, 1), Point(1, 4)).points
    ((4.0, 1.0), (1.0, 1.0), (1.0, 4.0))
    """
    return shortest_paths(domain, [(start, goal)])[0]


def shortest_paths(domain: Polygon, journeys: Iterable[tuple[Point, Point | LineString]]) -> tuple[Path, ...]:
    """The shortest path of each journey, a start and a goal, inside one polygon: see `shortest_path`.

    What depends on the polygon only is done once.
    """
    if not domain.is_valid:
        raise ValueError(f"the domain is not a valid polygon: {shapely.is_valid_reason(domain)}")
    roomy = domain.buffer(_HAIR_CM, join_style="mitre")
    shapely.prepare(roomy)
    corners = None
    paths = []
    for start, goal in journeys:
        for name, shape in (("start", start), ("goal", goal)):
            if not roomy.covers(shape):
                raise ValueError(f"the {name} {shape.wkt} lies outside the domain")
        direct = shapely.shortest_line(start, goal)
        if roomy.covers(direct):
            paths.append(_path(shapely.get_coordinates(direct)))
            continue
        corners = corners or _corners(domain)
        paths.append(_path(_round_corners(corners, roomy, shapely.get_coordinates(start), _segments(goal))))
    return tuple(paths)


def _path(points: _Array) -> Path:
    """The path through the points, in order; those alike are taken once."""
    kept = tuple((x, y) for (x, y), _ in itertools.groupby(points.tolist()))
    return Path(length_cm=math.fsum(itertools.starmap(math.dist, itertools.pairwise(kept))), points=kept)


def _corners(domain: Polygon) -> _Corners:
    """The reflex vertices of the domain."""
    clean = orient(shapely.remove_repeated_points(domain, _HAIR_CM))
    rings = [shapely.get_coordinates(ring) for ring in (clean.exterior, *clean.interiors)]
    vertices = np.concatenate([ring[:-1] for ring in rings])
    before = np.concatenate([np.concatenate([ring[-2:-1], ring[:-2]]) for ring in rings]) - vertices
    after = np.concatenate([ring[1:] for ring in rings]) - vertices
    sides = np.stack([before, after])
    lengths = np.hypot(sides[..., 0], sides[..., 1])
    cross = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
    reflex = cross > _STRAIGHT * lengths[0] * lengths[1]
    turned = np.stack([-sides[..., 1], sides[..., 0]], axis=-1)
    return _Corners(at=vertices[reflex], left=turned[:, reflex] / lengths[:, reflex, None])


def _segments(goal: Point | LineString) -> _Array:
    """Start and end of each segment of the goal, shaped (segments, 2, 2); a point is one without length."""
    points = shapely.get_coordinates(goal)
    return np.stack([points, points] if len(points) == 1 else [points[:-1], points[1:]], axis=1)


def _nearest(points: _Array, segments: _Array) -> _Array:
    """The nearest point of each segment to each point, shaped (points, segments, 2)."""
    first, along = segments[:, 0], segments[:, 1] - segments[:, 0]
    square = (along**2).sum(axis=1)
    share = ((points[:, None] - first) * along).sum(axis=2) / np.where(square > 0, square, 1)
    nearest: _Array = first + np.clip(share, 0, 1)[..., None] * along
    return nearest


def _taut(corners: _Corners, ends: _Array) -> NDArray[np.bool_]:
    """Whether the leg from each corner to each of its ``ends`` has both of its sides on one side."""
    way = ends - corners.at[:, None]
    one, other = (way[..., 0] * left[:, :1] + way[..., 1] * left[:, 1:] for left in corners.left)
    taut: NDArray[np.bool_] = (np.maximum(one, other) <= _HAIR_CM) | (np.minimum(one, other) >= -_HAIR_CM)
    return taut


def _sees(roomy: Polygon, one: _Array, other: _Array) -> NDArray[np.bool_]:
    """Whether the straight line between each pair of points stays in the domain."""
    lines = shapely.linestrings(np.stack([one, other], axis=1))
    return np.asarray(shapely.covers(roomy, lines), dtype=bool)


def _round_corners(corners: _Corners, roomy: Polygon, start: _Array, goal: _Array) -> _Array:
    """The points of the shortest path that may turn at the corners.

    In the graph, node 0 is the start; the corners follow, then where a last leg meets the goal.
    """
    turns = np.concatenate([start, corners.at])
    count, feet = len(turns), _nearest(turns, goal)
    ends = np.concatenate([np.broadcast_to(turns, (count, count, 2)), feet], axis=1)
    taut = np.ones(ends.shape[:2], dtype=bool)
    taut[1:] = _taut(corners, ends[1:])
    one, other = np.nonzero(np.triu(taut[:, :count] & taut[:, :count].T, 1))
    node, target = np.nonzero(taut[:, count:])
    last = count + np.arange(len(node))
    points = np.concatenate([turns, feet[node, target]])
    one, other = np.concatenate([one, node]), np.concatenate([other, last])
    seen = _sees(roomy, points[one], points[other])
    one, other = one[seen], other[seen]

    lengths = np.hypot(*(points[one] - points[other]).T)
    legs = zip(one.tolist(), other.tolist(), lengths.tolist(), strict=True)
    way: _Array = points[_cheapest(legs, 0, frozenset(last.tolist()))]
    return way


def _cheapest(legs: Iterable[tuple[int, int, float]], start: int, goals: Container[int]) -> list[int]:
    """The nodes from ``start`` to the nearest of the goals along legs that go both ways: Dijkstra.

    Raises:
        ValueError: no leg leads there.
    """
    out: dict[int, list[tuple[int, float]]] = {}
    for one, other, length in legs:
        out.setdefault(one, []).append((other, length))
        out.setdefault(other, []).append((one, length))
    far, before, done = {start: 0.0}, {start: start}, set[int]()
    order = itertools.count()
    heap = [(0.0, next(order), start)]
    while heap:
        so_far, _, node = heapq.heappop(heap)
        if node in goals:
            way = [node]
            while way[-1] != start:
                way.append(before[way[-1]])
            return way[::-1]
        if node in done:
            continue
        done.add(node)
        for other, length in out.get(node, ()):
            if other not in far or so_far + length < far[other]:
                far[other], before[other] = so_far + length, node
                heapq.heappush(heap, (far[other], next(order), other))
    raise ValueError("no way leads from the start to the goal")
