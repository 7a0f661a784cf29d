"""Lines drawn on a flat part, where they come to lie in space once the part is sewn and worn."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from schematics.drawing.draped.hidden_lines import stepped
from schematics.drawing.draped.over_triangles import OverTriangles, runs_where
from schematics.drawing.draped.surfaces import Surface
from schematics.garment.cloth.arrays import Floats


def lifted(surface: Surface, part: int, paths: Iterable[Floats]) -> list[Floats]:
    """Flat paths (k, 2) of a part as paths in space (m, 3), without what does not lie on the part.

    Raises:
        ValueError: the surface was not sewn from flat parts.
    """
    if surface.part is None or surface.flat is None:
        raise ValueError("the surface has no flat parts")
    of_part = surface.part == part
    flat, corners = OverTriangles(surface.flat[of_part]), surface.vertices[surface.triangles[of_part]]
    return [run for path in paths for run in _lifted(flat, corners, stepped(path))]


def _lifted(flat: OverTriangles, corners: Floats, points: Floats) -> list[Floats]:
    point, triangle, shares = flat.under(points)
    on_cloth = np.full((len(points), 3), np.nan)
    on_cloth[point] = np.einsum("nk,nkd->nd", shares, corners[triangle])
    return runs_where(~np.isnan(on_cloth[:, 0]), on_cloth, 2)
