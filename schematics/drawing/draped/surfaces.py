"""Triangulated surfaces made smooth: each step of Loop's subdivision makes four triangles of one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from schematics.garment.cloth.arrays import Flags, Floats, Indices


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Surface:
    """Triangles in space, and lines along their edges.

    ``vertices`` are (n, 3), in cm; ``triangles`` are (t, 3) numbers of vertices, counter-clockwise as seen
    from outside; ``lines`` are numbers of vertices in order, each two neighbours an edge of a triangle.
    A line whose name is in ``creases`` stays a line of its own: what lies beside it does not round it off.
    Of a surface that was sewn from flat parts, ``part`` (t,) is the number of each triangle's and ``flat``
    (t, 3, 2) are its corners there, in cm.
    """

    vertices: Floats
    triangles: Indices
    lines: Mapping[str, Indices]
    creases: frozenset[str] = frozenset()
    part: Indices | None = None
    flat: Floats | None = None

    def path(self, name: str) -> Floats:
        """The points of a line, (k, 3)."""
        return self.vertices[self.lines[name]]

    @property
    def normals(self) -> Floats:
        """A unit normal at each vertex, (n, 3): the mean of its triangles', by their areas."""
        a, b, c = (self.vertices[self.triangles[:, corner]] for corner in range(3))
        normals = np.zeros_like(self.vertices)
        for corner in range(3):
            np.add.at(normals, self.triangles[:, corner], np.cross(b - a, c - a))
        unit: Floats = normals / np.maximum(np.linalg.norm(normals, axis=1), 1e-12)[:, None]
        return unit


def smoothed(surface: Surface, times: int) -> Surface:
    """The surface after so many steps of Loop's subdivision.

    Open edges and creases become cubic B-splines, which do not move with what lies beside them.

    References:
        C. Loop, Smooth Subdivision Surfaces Based on Triangles, University of Utah 1987; creases after
        H. Hoppe and others, Piecewise smooth surface reconstruction, SIGGRAPH 1994; both from memory.
    """
    for _ in range(times):
        surface = _once(surface)
    return surface


def _once(surface: Surface) -> Surface:
    corners, vertices = surface.triangles, surface.vertices
    count = len(vertices)
    sides = np.sort(np.concatenate([corners[:, [0, 1]], corners[:, [1, 2]], corners[:, [2, 0]]]), axis=1)
    edges, edge_of, uses = np.unique(sides, axis=0, return_inverse=True, return_counts=True)
    edge_of = edge_of.reshape(-1)
    sharp = (uses != 2) | np.isin(_keys(edges, count), _keys(_crease_edges(surface), count))
    ends = vertices[edges[:, 0]] + vertices[edges[:, 1]]
    across = _summed(edge_of, vertices[corners[:, [2, 0, 1]].T.reshape(-1)], len(edges))
    middles = np.where(sharp[:, None], ends / 2, 3 / 8 * ends + across / 8)
    number = _keys(edges, count)
    first, second, third = (count + each for each in edge_of.reshape(3, -1))
    a, b, c = corners.T
    parts = [(a, first, third), (first, b, second), (third, second, c), (first, second, third)]
    return Surface(
        vertices=np.concatenate([_moved(vertices, edges, sharp), middles]),
        triangles=np.concatenate([np.stack(part, axis=1) for part in parts]),
        lines={name: _with_middles(line, number, count) for name, line in surface.lines.items()},
        creases=surface.creases,
        part=None if surface.part is None else np.tile(surface.part, 4),
        flat=None if surface.flat is None else _quartered(surface.flat),
    )


def _quartered(flat: Floats) -> Floats:
    """The corners of four triangles for each, in the order of the finer ones."""
    a, b, c = flat.transpose(1, 0, 2)
    first, second, third = (a + b) / 2, (b + c) / 2, (c + a) / 2
    parts = [(a, first, third), (first, b, second), (third, second, c), (first, second, third)]
    return np.concatenate([np.stack(part, axis=1) for part in parts])


def _moved(vertices: Floats, edges: Indices, sharp: Flags) -> Floats:
    """Where the old vertices come to lie; one in which more or fewer than two sharp edges meet stays."""
    neighbours, around = _neighbours(vertices, edges)
    share = np.where(neighbours == 3, 3 / 16, 3 / (8 * np.maximum(neighbours, 1)))[:, None]
    inside = (1 - neighbours[:, None] * share) * vertices + share * around
    meeting, beside = _neighbours(vertices, edges[sharp])
    on_line = 3 / 4 * vertices + beside / 8
    still = np.where((meeting == 2)[:, None], on_line, vertices)
    return np.where((meeting == 0)[:, None], inside, still)


def _neighbours(vertices: Floats, edges: Indices) -> tuple[Indices, Floats]:
    """How many edges meet in each vertex, and the sum of their other ends."""
    here, there = np.concatenate([edges, edges[:, ::-1]]).T
    return np.bincount(here, minlength=len(vertices)), _summed(here, vertices[there], len(vertices))


def _summed(places: Indices, points: Floats, count: int) -> Floats:
    total = np.zeros((count, 3))
    np.add.at(total, places, points)
    return total


def _keys(edges: Indices, count: int) -> Indices:
    """A number for each edge, rising as their sorted pairs do."""
    low, high = np.sort(edges, axis=1).T
    keys: Indices = low * count + high
    return keys


def _crease_edges(surface: Surface) -> Indices:
    pairs = [pair for name in sorted(surface.creases) for pair in pairwise(surface.lines[name])]
    return np.array(pairs, dtype=np.int64).reshape(-1, 2)


def _with_middles(line: Indices, number: Indices, count: int) -> Indices:
    """A line through the middles of its edges as well."""
    pairs = np.stack([line[:-1], line[1:]], axis=1)
    finer = np.empty(2 * len(line) - 1, dtype=np.int64)
    finer[::2] = line
    finer[1::2] = count + np.searchsorted(number, _keys(pairs, count))
    return finer
