"""Shortest paths by brute force, in exact arithmetic: what `tests/garment/test_geodesic.py` measures against.

Vertices are whole numbers. Every vertex sees every other whose line stays inside, which is decided
without rounding, and networkx finds the shortest ways among them all.
"""

from __future__ import annotations

import itertools
import math
import random
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import TypeAlias

from shapely import Polygon, box, unary_union

Vertex: TypeAlias = tuple[int, int]
Exact: TypeAlias = tuple[Fraction, Fraction]
Rings: TypeAlias = Sequence[Sequence[Vertex]]


def _side(a: Exact | Vertex, b: Exact | Vertex, c: Exact | Vertex) -> int:
    """1 if c lies to the left of the line from a to b, -1 to the right, 0 on it."""
    cross = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    return (cross > 0) - (cross < 0)


def _on(a: Vertex, b: Vertex, c: Exact | Vertex) -> bool:
    """Whether c lies on the segment from a to b."""
    return (
        _side(a, b, c) == 0
        and min(a[0], b[0]) <= c[0] <= max(a[0], b[0])
        and min(a[1], b[1]) <= c[1] <= max(a[1], b[1])
    )


def _edges(rings: Rings) -> Iterator[tuple[Vertex, Vertex]]:
    for ring in rings:
        yield from itertools.pairwise([*ring, ring[0]])


def inside(rings: Rings, point: Exact | Vertex) -> bool:
    """Whether the point lies in the polygon or on its boundary: an odd number of edges to its right."""
    x, y = point
    crossings = 0
    for a, b in _edges(rings):
        if _on(a, b, point):
            return True
        if (a[1] > y) != (b[1] > y) and a[0] + Fraction(b[0] - a[0], b[1] - a[1]) * (y - a[1]) > x:
            crossings += 1
    return crossings % 2 == 1


def sees(rings: Rings, one: Vertex, other: Vertex) -> bool:
    """Whether the segment stays in the polygon: it crosses no edge, and between the vertices that it
    touches its middles lie inside.
    """
    for a, b in _edges(rings):
        if _side(one, other, a) * _side(one, other, b) < 0 and _side(a, b, one) * _side(a, b, other) < 0:
            return False
    touched = {one, other} | {vertex for ring in rings for vertex in ring if _on(one, other, vertex)}
    along = sorted(touched)
    return all(
        inside(rings, (Fraction(a[0] + b[0], 2), Fraction(a[1] + b[1], 2)))
        for a, b in itertools.pairwise(along)
    )


def shortest_lengths(rings: Rings, extra: Sequence[Vertex]) -> dict[tuple[Vertex, Vertex], float]:
    """The length of the shortest way between every two of all vertices and the extra points."""
    import networkx as nx

    nodes = list(dict.fromkeys([*(vertex for ring in rings for vertex in ring), *extra]))
    graph: nx.Graph[Vertex] = nx.Graph()
    graph.add_nodes_from(nodes)
    graph.add_weighted_edges_from(
        (one, other, math.dist(one, other))
        for one, other in itertools.combinations(nodes, 2)
        if sees(rings, one, other)
    )
    lengths = nx.all_pairs_dijkstra_path_length(graph)
    return {(one, other): float(length) for one, found in lengths for other, length in found.items()}


def star(rng: random.Random) -> Rings:
    """A spiky outline round the origin with a spiky hole, corners on whole numbers."""

    def spikes(count: int, low: int, high: int) -> list[Vertex]:
        angles = sorted(rng.uniform(0, math.tau) for _ in range(count))
        radii = [rng.uniform(low, high) for _ in angles]
        return [(round(r * math.cos(t)), round(r * math.sin(t))) for r, t in zip(radii, angles, strict=True)]

    while True:
        outer, hole = spikes(rng.randint(8, 14), 400, 2000), spikes(rng.randint(3, 7), 100, 380)
        made = Polygon(outer, [hole])
        if made.is_valid and made.area > 0:
            return [outer, hole]


def blocks(rng: random.Random) -> Rings:
    """Rectangles on a coarse grid laid over each other, one or more holes: many lines along edges."""
    while True:
        corners = [(rng.randint(0, 8), rng.randint(0, 8)) for _ in range(9)]
        made = unary_union(
            [box(x, y, x + rng.randint(1, 5), y + rng.randint(1, 5)) for x, y in corners]
        ).simplify(0)
        if isinstance(made, Polygon) and made.interiors:
            return [
                [(round(x), round(y)) for x, y in ring.coords[:-1]]
                for ring in (made.exterior, *made.interiors)
            ]


def points_in(rings: Rings, rng: random.Random, count: int) -> list[Vertex]:
    """Whole-number points of the polygon, some of them on its boundary or corners."""
    xs, ys = ([vertex[axis] for vertex in rings[0]] for axis in (0, 1))
    found: list[Vertex] = [rng.choice(rng.choice(list(rings)))]
    while len(found) < count:
        point = rng.randint(min(xs), max(xs)), rng.randint(min(ys), max(ys))
        if inside(rings, point):
            found.append(point)
    return found
