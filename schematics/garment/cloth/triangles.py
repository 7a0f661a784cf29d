"""Flat polygons cut into triangles."""

from __future__ import annotations

import math

import numpy as np
import shapely
from scipy.spatial import Delaunay
from shapely import LineString, Polygon

from schematics.garment.cloth.arrays import Floats, Indices
from schematics.garment.cloth.cloth_error import ClothError

_CLEAR = 0.55
"""How far points inside stay from the outline, over the spacing."""

_INSET_CM = 1e-4
"""Edges of an outline that touch each other are parted by so much while it is cut."""


def hexagonal(polygon: Polygon, spacing: float, line: LineString | None = None) -> Floats:
    """Points so many cm apart in a hexagonal grid well inside the polygon.

    Those on ``line`` come first, the others are clear of it.
    """
    inside = polygon.buffer(-_CLEAR * spacing)
    left, low, right, high = polygon.bounds
    rise = spacing * math.sqrt(0.75)
    rows, columns = math.ceil((high - low) / rise) + 1, math.ceil((right - left) / spacing) + 2
    row, column = (each.ravel() for each in np.mgrid[:rows, :columns])
    grid = np.column_stack([left + (column - 0.5 * (row % 2)) * spacing, low + row * rise])
    kept: Floats = grid[shapely.contains_xy(inside, grid)]
    if line is None:
        return kept
    steps = max(1, round(line.length / spacing))
    shares = np.arange(1, steps) / steps
    on_line = shapely.get_coordinates(shapely.line_interpolate_point(line, shares, normalized=True))
    clear = shapely.distance(line, shapely.points(kept)) > _CLEAR * spacing
    return np.concatenate([on_line, kept[clear]])


def triangles(outline: Floats, inside: Floats) -> Indices:
    """Counter-clockwise triangles of an outline's points, in order, and of points inside it.

    Raises:
        ClothError: an edge of the outline is no side of a triangle.
    """
    count = len(outline)
    ring = _inset(outline)
    points = np.concatenate([ring, inside])
    simplices = Delaunay(points).simplices.astype(np.int64)
    corners = points[simplices]
    area = _area(corners)
    simplices[area < 0] = simplices[area < 0][:, ::-1]
    kept = shapely.contains_xy(Polygon(ring), corners.mean(axis=1)) & (np.abs(area) > _INSET_CM)
    result: Indices = simplices[kept]
    sides = {(int(one), int(other)) for at in range(3) for one, other in result[:, [at, (at + 1) % 3]]}
    if not all((at, (at + 1) % count) in sides for at in range(count)):
        raise ClothError("an outline is too narrow somewhere to be cut into triangles")
    return result


def _area(corners: Floats) -> Floats:
    one, other = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    area: Floats = 0.5 * (one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0])
    return area


def _inset(outline: Floats) -> Floats:
    along = np.roll(outline, -1, axis=0) - np.roll(outline, 1, axis=0)
    inward = np.column_stack([-along[:, 1], along[:, 0]]) / np.hypot(along[:, 0], along[:, 1])[:, None]
    inset: Floats = outline + _INSET_CM * inward
    return inset
