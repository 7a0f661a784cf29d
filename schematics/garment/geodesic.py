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
from numpy.typing import NDArray
from shapely import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from schematics.units import NEAR

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

    Sides are looked along from the corner; a leg is two corners by number.
    """

    at: Sequence[_Vertex]
    left: Sequence[tuple[_Vertex, _Vertex]]
    legs: Sequence[tuple[int, int]]


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
    journeys = tuple(journeys)
    roomy = domain.buffer(NEAR, join_style="mitre")
    shapely.prepare(roomy)
    ends = [each for journey in journeys for each in journey]
    names = itertools.cycle(("start", "goal"))
    for shape, name, inside in zip(ends, names, shapely.covers(roomy, ends), strict=False):
        if not inside:
            raise ValueError(f"the {name} {shape.wkt} lies outside the domain")
    corners = _corners(domain)
    graphs = [_legs_of(corners, (start.x, start.y), _vertices(goal)) for start, goal in journeys]
    legs = [(corners.at, corners.legs), *graphs]
    lines = [(nodes[one], nodes[other]) for nodes, pairs in legs for one, other in pairs]
    drawn = shapely.linestrings(np.array(lines).reshape(-1, 2, 2))
    inside = iter(np.atleast_1d(shapely.covers(roomy, drawn)).tolist())
    between, *own = ([pair for pair in pairs if next(inside)] for _, pairs in legs)
    return tuple(
        _path(_cheapest(nodes, [*between, *pairs], len(corners.at)))
        for (nodes, _), pairs in zip(graphs, own, strict=True)
    )


def straight_paths(journeys: Sequence[tuple[Polygon, Point, Point | LineString]]) -> list[Path | None]:
    """The shortest paths of journeys, each inside a polygon of its own; None of one that is not straight."""
    if not journeys:
        return []
    domains, starts, goals = map(list, zip(*journeys, strict=True))
    chords = shapely.get_coordinates(shapely.shortest_line(starts, goals)).reshape(-1, 2, 2)
    inside = shapely.covers(domains, shapely.linestrings(_drawn_in(chords)))
    lines = [place for place, goal in enumerate(goals) if isinstance(goal, LineString)]
    inside[lines] &= shapely.covers([domains[place] for place in lines], [goals[place] for place in lines])
    return [_path(pair) if straight else None for pair, straight in zip(_pairs(chords), inside, strict=True)]


def _pairs(chords: NDArray[np.float64]) -> Iterator[tuple[_Vertex, _Vertex]]:
    return (((x0, y0), (x1, y1)) for (x0, y0), (x1, y1) in chords.tolist())


def _drawn_in(chords: NDArray[np.float64]) -> NDArray[np.float64]:
    """The chords, shorter by half a hair at each end: if that lies in a domain, they do but for a hair."""
    across = chords[:, ::-1] - chords
    lengths = np.hypot(across[..., :1], across[..., 1:])
    shorter: NDArray[np.float64] = chords + across * (NEAR / 2 / np.maximum(lengths, NEAR))
    return shorter


def _path(points: Iterable[_Vertex]) -> Path:
    """The path through the points, in order; those alike are taken once."""
    kept = tuple(point for point, _ in itertools.groupby(points))
    return Path(length_cm=math.fsum(itertools.starmap(math.dist, itertools.pairwise(kept))), points=kept)


def _vertices(shape: BaseGeometry) -> list[_Vertex]:
    return [(x, y) for x, y in shapely.get_coordinates(shape).tolist()]


def _corners(domain: Polygon) -> _Corners:
    """The corners of the domain that a path may turn at."""
    reflex: list[tuple[_Vertex, tuple[_Vertex, _Vertex]]] = []
    lean: Polygon = shapely.remove_repeated_points(domain, NEAR)
    for number, ring in enumerate((lean.exterior, *lean.interiors)):
        vertices = _vertices(ring)[:-1]
        if ring.is_ccw != (number == 0):
            vertices.reverse()
        reflex += _reflex(vertices)
    at, left = zip(*reflex, strict=True) if reflex else ((), ())
    return _Corners(at=at, left=left, legs=_legs_between(at, left))


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


def _legs_between(at: Sequence[_Vertex], left: Sequence[tuple[_Vertex, _Vertex]]) -> list[tuple[int, int]]:
    """The legs from corner to corner that are taut at both ends."""
    if len(at) < 2:
        return []
    points = np.array(at)
    aside = (points - points[:, None]) @ np.array(left).swapaxes(1, 2)
    taut = (aside.max(axis=2) <= NEAR) | (aside.min(axis=2) >= -NEAR)
    return [(one, other) for one, other in np.argwhere(taut & taut.T).tolist() if one < other]


def _is_taut(corner: _Vertex, left: tuple[_Vertex, _Vertex], end: _Vertex) -> bool:
    """Whether the leg from the corner to ``end`` has both sides of the corner on one side."""
    x, y = end[0] - corner[0], end[1] - corner[1]
    one, other = (x * across + y * up for across, up in left)
    return max(one, other) <= NEAR or min(one, other) >= -NEAR


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


def _legs_of(
    corners: _Corners, start: _Vertex, goal: Sequence[_Vertex]
) -> tuple[list[_Vertex], list[tuple[int, int]]]:
    """The nodes of a journey and its legs from the start and to the goal, straight or taut at a corner.

    The corners come first, then the start, then where a last leg meets the goal.
    """
    nodes = [*corners.at, start]
    legs: list[tuple[int, int]] = []
    for number, node in enumerate([*corners.at, start]):
        side = None if number == len(corners.at) else corners.left[number]
        if side and _is_taut(node, side, start):
            legs.append((number, len(corners.at)))
        for foot in _nearest(node, goal):
            if side is None or _is_taut(node, side, foot):
                legs.append((number, len(nodes)))
                nodes.append(foot)
    return nodes, legs


def _cheapest(nodes: Sequence[_Vertex], legs: Iterable[tuple[int, int]], start: int) -> list[_Vertex]:
    """The nodes from ``start`` to the nearest of the nodes after it, along legs both ways: Dijkstra.

    Raises:
        ValueError: no leg leads there.
    """
    out: dict[int, list[tuple[int, float]]] = {}
    for one, other in legs:
        length = math.dist(nodes[one], nodes[other])
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
            return [nodes[each] for each in reversed(path)]
        if node in done:
            continue
        done.add(node)
        for other, length in out.get(node, ()):
            if other not in far or so_far + length < far[other]:
                far[other], before[other] = so_far + length, node
                heapq.heappush(heap, (far[other], next(order), other))
    raise ValueError("no path leads from the start to the goal")
