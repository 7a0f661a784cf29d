"""Lines drawn on a flat part, where they come to lie in space once the part is sewn and worn."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
import shapely

from schematics.drawing.draped.hidden_lines import stepped
from schematics.drawing.draped.surfaces import Floats, Surface

_OUT = 1e-6
"""A point on an edge is in the triangles on both its sides."""


def lifted(surface: Surface, part: int, paths: Iterable[Floats]) -> list[Floats]:
    """Flat paths (k, 2) of a part as paths in space (m, 3), without what does not lie on the part.

    Raises:
        ValueError: the surface was not sewn from flat parts.
    """
    if surface.part is None or surface.flat is None:
        raise ValueError("the surface has no flat parts")
    of_part = surface.part == part
    flat, corners = surface.flat[of_part], surface.vertices[surface.triangles[of_part]]
    boxes = shapely.box(*flat.min(axis=1).T, *flat.max(axis=1).T)
    tree = shapely.STRtree(boxes.tolist())
    return [run for path in paths for run in _lifted(tree, flat, corners, stepped(path))]


def _lifted(tree: shapely.STRtree, flat: Floats, corners: Floats, points: Floats) -> list[Floats]:
    point, triangle = tree.query(shapely.points(points))
    a, b, c = flat[triangle].transpose(1, 0, 2)
    at = points[point]
    whole = _cross(b - a, c - a)
    shares = np.stack([_cross(b - at, c - at), _cross(c - at, a - at), _cross(a - at, b - at)], axis=1)
    with np.errstate(divide="ignore", invalid="ignore"):
        shares = shares / whole[:, None]
    inside = (shares >= -_OUT).all(axis=1)
    found = np.full((len(points), 3), np.nan)
    found[point[inside]] = np.einsum("nk,nkd->nd", shares[inside], corners[triangle[inside]])
    on_part = ~np.isnan(found[:, 0])
    changes = np.flatnonzero(np.diff(on_part)) + 1
    runs = zip(np.split(found, changes), np.split(on_part, changes), strict=True)
    return [run for run, on in runs if on[0] and len(run) > 1]


def _cross(one: Floats, other: Floats) -> Floats:
    product: Floats = one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]
    return product
