"""Which of many flat triangles lie over a point, and where in them it is."""

from __future__ import annotations

from functools import cached_property

import numpy as np
import shapely

from schematics.garment.cloth.arrays import Flags, Floats, Indices

_OUT = 1e-9
"""A point on an edge is in the triangles on both its sides."""


class OverTriangles:
    """Flat triangles, looked up by place.

    Args:
        corners: theirs, (t, 3, 2).
    """

    def __init__(self, corners: Floats) -> None:
        self.corners = corners

    @cached_property
    def _tree(self) -> shapely.STRtree:
        """The upright boxes round them."""
        low, high = self.corners.min(axis=1), self.corners.max(axis=1)
        return shapely.STRtree(shapely.box(*low.T, *high.T).tolist())

    def under(self, points: Floats) -> tuple[Indices, Indices, Floats]:
        """Pairs of a point (n, 2) and a triangle over it, and the share of each corner there, (pairs, 3)."""
        point, triangle = self._tree.query(shapely.points(points))
        a, b, c = self.corners[triangle].transpose(1, 0, 2)
        at = points[point]
        opposite = [_cross(b - at, c - at), _cross(c - at, a - at), _cross(a - at, b - at)]
        with np.errstate(divide="ignore", invalid="ignore"):
            shares = np.stack(opposite, axis=1) / _cross(b - a, c - a)[:, None]
            inside = (shares >= -_OUT).all(axis=1)
        return point[inside], triangle[inside], shares[inside]


def runs_where(kept: Flags, points: Floats, least: int) -> list[Floats]:
    """The stretches of a path whose points are kept, of at least so many points each."""
    changes = np.flatnonzero(np.diff(kept)) + 1
    runs = zip(np.split(points, changes), np.split(kept, changes), strict=True)
    return [run for run, here in runs if here[0] and len(run) >= least]


def _cross(one: Floats, other: Floats) -> Floats:
    """Twice the area between two directions."""
    area: Floats = one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]
    return area
