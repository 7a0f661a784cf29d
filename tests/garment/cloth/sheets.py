"""Rectangles of fabric for tests against closed forms, and steps until they are at rest."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from scipy.spatial import Delaunay
from shapely import box

from schematics.garment.cloth.arrays import Flags, Floats, Indices
from schematics.garment.cloth.contact import Load
from schematics.garment.cloth.hanging import Fabric3d, fabric_3d, step
from schematics.garment.cloth.material import Material
from schematics.garment.cloth.one_thread import one_thread
from schematics.garment.cloth.triangles import hexagonal, triangles

WEIGHT = 4e-4
"""N/cm², of bulky fabric."""


def made(count: int, *, stiffness: float, bending: float, weight: float = WEIGHT) -> Material:
    """The same everywhere, and no stretch at which it gets stiffer."""
    both = np.full((count, 2), stiffness)
    return Material(
        weight=np.full(count, weight), soft=both, stiff=both, limit=np.full((count, 2), 9.0),
        shear=np.full(count, 0.3 * stiffness), bending=np.full(count, bending),
    )  # fmt: skip


def grid(xs: Floats, ys: Floats) -> tuple[Floats, Indices]:
    """Points ``(n, 2)`` of a grid, column after column, and its triangles, their diagonals crossing."""
    points = np.array([(x, y) for x in xs for y in ys])
    number = np.arange(len(points)).reshape(len(xs), len(ys))
    cut = []
    for i in range(len(xs) - 1):
        for j in range(len(ys) - 1):
            a, b, c, d = number[i, j], number[i + 1, j], number[i + 1, j + 1], number[i, j + 1]
            cut += [(a, b, c), (a, c, d)] if (i + j) % 2 else [(a, b, d), (b, c, d)]
    return points, np.array(cut)


def cut_as_garments_are(length: float, width: float, spacing: float) -> tuple[Floats, Indices]:
    """Points ``(n, 2)`` and triangles of a strip from x = 0, y = 0, cut as pieces of garments are."""
    along, up = (np.arange(round(each / spacing)) / round(each / spacing) for each in (length, width))
    low = np.column_stack([length * along, np.zeros_like(along)])
    right = np.column_stack([np.full_like(up, length), width * up])
    rim = np.concatenate([low, right, [length, width] - low, [length, width] - right])
    inside = hexagonal(box(0, 0, length, width), spacing)
    return np.concatenate([rim, inside]), triangles(rim, inside)


def hexagonal_strip(length: float, width: float, spacing: float, *, along: bool) -> tuple[Floats, Indices]:
    """The same of a regular grid, its rows along x or across it, about as wide."""
    long, wide = (length, width) if along else (width, length)
    apart = spacing if along else spacing / math.sqrt(0.75)
    rise = apart * math.sqrt(0.75)
    count, rows = round(long / apart), 2 * round(wide / rise / 2)
    even = np.arange(count + 1) * apart
    odd = np.concatenate([[0.0], even[:-1] + apart / 2, even[-1:]])
    rowwise = np.concatenate(
        [np.column_stack([each, np.full_like(each, row * rise)]) for row in range(rows + 1)
         for each in [odd if row % 2 else even]]
    )  # fmt: skip
    points = rowwise if along else rowwise[:, ::-1]
    cut = Delaunay(points).simplices.astype(np.int64)
    one, other = points[cut[:, 1]] - points[cut[:, 0]], points[cut[:, 2]] - points[cut[:, 0]]
    double = one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]
    cut[double < 0] = cut[double < 0][:, ::-1]
    return points, cut[np.abs(double) > 1e-6]


def flat_fabric(points: Floats, cut: Indices, held: Flags, fabric: Material, step_s: float = 1.0) -> Fabric3d:
    """Its rows run along x."""
    return fabric_3d(cut, points[cut], fabric, held, step_s=step_s)


def at_rest(
    cloth: Fabric3d, points: Floats, loads: Sequence[Load] = (), still_cm: float = 1e-4, most: int = 400
) -> Floats:
    """Where the points come to rest.

    Raises:
        AssertionError: they do not.
    """
    with one_thread():
        for _ in range(most):
            found = step(cloth, points, loads=loads, tolerance=1e-5, most=20)
            moved = float(np.abs(found.points - points).max())
            points = found.points
            if moved < still_cm:
                return points
    raise AssertionError(f"still moving by {moved} cm")
