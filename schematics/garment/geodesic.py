"""The shortest paths on flat fabric: inside a polygon, round its corners and holes.

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
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
import shapely
from shapely import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

_HAIR_CM = 1e-6
"""A path may leave the domain by this much: computed points lie on a line only nearly."""

_STRAIGHT = 1e-9
"""Sine of the largest angle that counts as none."""

_Vertex: TypeAlias = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Path:
    """A path of straight legs: its length and its points in order, no two alike in a row, in cm."""

    length_cm: float
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Corners:
    """Reflex vertices, a unit vector to the left of each of their two sides, and the taut legs between them.

    Sides are looked along from the corner; a leg is two corners by number and its length.
    """

    at: Sequence[_Vertex]
    left: Sequence[tuple[_Vertex, _Vertex]]
    legs: Sequence[tuple[int, int, float]]


def shortest_paths(domain: Polygon, journeys: Iterable[tuple[Point, Point | LineString]]) -> tuple[Path, ...]:
    """The shortest path of each journey inside one polygon, its boundary included.

    Args:
        domain: a valid polygon, with or without holes, in cm.
        journeys: for each a start in the domain, and a goal: a point of it, or a line in it, any point of
            which will do.

    Returns:
        The paths; exact, but that one may cut a corner by a hair (1e-6 cm).

    Raises:
        ValueError: the domain is not valid, or a start or goal lies outside it.

    >>> ell = Polygon([(0, 0), (4, 0), (4, 1), (1, 1), (1, 4), (0, 4)])
    >>> shortest_paths(ell, [(Point(4, 1), Point(1, 4))])[0].points
    ((4.0, 1.0), (1.0, 1.0), (1.0, 4.0))
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
            paths.append(_path(_vertices(direct)))
            continue
        corners = corners or _corners(domain, roomy)
        paths.append(_path(_round_corners(corners, roomy, (start.x, start.y), _vertices(goal))))
    return tuple(paths)


def _path(points: Iterable[_Vertex]) -> Path:
    """The path through the points, in order; those alike are taken once."""
    kept = tuple(point for point, _ in itertools.groupby(points))
    return Path(length_cm=math.fsum(itertools.starmap(math.dist, itertools.pairwise(kept))), points=kept)


def _vertices(shape: BaseGeometry) -> list[_Vertex]:
    return [(x, y) for x, y in shapely.get_coordinates(shape).tolist()]


def _corners(domain: Polygon, roomy: Polygon) -> _Corners:
    """The corners of the domain that a path may turn at."""
    found: list[tuple[_Vertex, tuple[_Vertex, _Vertex]]] = []
    for number, ring in enumerate(shapely.get_rings(shapely.remove_repeated_points(domain, _HAIR_CM))):
        vertices = _vertices(ring)[:-1]
        if ring.is_ccw != (number == 0):
            vertices.reverse()
        found += _reflex(vertices)
    at, left = zip(*found, strict=True) if found else ((), ())
    return _Corners(at=at, left=left, legs=_legs_between(at, left, roomy))


def _reflex(vertices: Sequence[_Vertex]) -> Iterator[tuple[_Vertex, tuple[_Vertex, _Vertex]]]:
    """The corners of a ring, fabric on its left, that stick into the fabric; see `_Corners`."""
    before = vertices[-1]
    for (x, y), after in zip(vertices, (*vertices[1:], vertices[0]), strict=True):
        to_before, to_after = (before[0] - x, before[1] - y), (after[0] - x, after[1] - y)
        back, on = math.hypot(*to_before), math.hypot(*to_after)
        if to_before[0] * to_after[1] - to_before[1] * to_after[0] > _STRAIGHT * back * on:
            left = (-to_before[1] / back, to_before[0] / back), (-to_after[1] / on, to_after[0] / on)
            yield (x, y), left
        before = x, y


def _legs_between(
    at: Sequence[_Vertex], left: Sequence[tuple[_Vertex, _Vertex]], roomy: Polygon
) -> list[tuple[int, int, float]]:
    """The legs from corner to corner that are taut at both ends and stay in the domain."""
    if len(at) < 2:
        return []
    points = np.array(at)
    aside = (points - points[:, None]) @ np.array(left).swapaxes(1, 2)
    taut = (aside.max(axis=2) <= _HAIR_CM) | (aside.min(axis=2) >= -_HAIR_CM)
    pairs = np.array((taut & taut.T).nonzero()).T
    seen = pairs[shapely.covers(roomy, shapely.linestrings(points[pairs]))]
    return [(one, other, math.dist(at[one], at[other])) for one, other in seen.tolist() if one < other]


def _is_taut(corner: _Vertex, left: tuple[_Vertex, _Vertex], end: _Vertex) -> bool:
    """Whether the leg from the corner to ``end`` has both sides of the corner on one side."""
    x, y = end[0] - corner[0], end[1] - corner[1]
    one, other = (x * across + y * up for across, up in left)
    return max(one, other) <= _HAIR_CM or min(one, other) >= -_HAIR_CM


def _nearest(point: _Vertex, goal: Sequence[_Vertex]) -> Iterator[_Vertex]:
    """The nearest point of each segment of the goal; of a goal that is one point, that."""
    if len(goal) == 1:
        yield goal[0]
    for (x, y), (to_x, to_y) in itertools.pairwise(goal):
        along = to_x - x, to_y - y
        square = along[0] ** 2 + along[1] ** 2
        share = ((point[0] - x) * along[0] + (point[1] - y) * along[1]) / square if square else 0.0
        share = min(max(share, 0.0), 1.0)
        yield x + share * along[0], y + share * along[1]


def _round_corners(
    corners: _Corners, roomy: Polygon, start: _Vertex, goal: Sequence[_Vertex]
) -> list[_Vertex]:
    """The points of the shortest path that may turn at the corners.

    In the graph, the corners come first, then the start, then where a last leg meets the goal.
    """
    nodes = [*corners.at, start]
    legs: list[tuple[int, int]] = []
    for number, node in enumerate([*corners.at, start]):
        side = None if node is start else corners.left[number]
        if side and _is_taut(node, side, start):
            legs.append((number, len(corners.at)))
        for foot in _nearest(node, goal):
            if side is None or _is_taut(node, side, foot):
                legs.append((number, len(nodes)))
                nodes.append(foot)
    lines = np.array([(nodes[one], nodes[other]) for one, other in legs])
    inside = itertools.compress(legs, np.atleast_1d(shapely.covers(roomy, shapely.linestrings(lines))))
    weighed = [*corners.legs, *((one, other, math.dist(nodes[one], nodes[other])) for one, other in inside)]
    return [nodes[node] for node in _cheapest(weighed, len(corners.at))]


def _cheapest(legs: Iterable[tuple[int, int, float]], start: int) -> list[int]:
    """The nodes from ``start`` to the nearest of the nodes after it, along legs that go both ways: Dijkstra.

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
        if node > start:
            path = [node]
            while path[-1] != start:
                path.append(before[path[-1]])
            return path[::-1]
        if node in done:
            continue
        done.add(node)
        for other, length in out.get(node, ()):
            if other not in far or so_far + length < far[other]:
                far[other], before[other] = so_far + length, node
                heapq.heappush(heap, (far[other], next(order), other))
    raise ValueError("no path leads from the start to the goal")
