"""Rectangles of fabric for tests against closed forms, and steps until they are at rest."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from schematics.garment.cloth.arrays import Flags, Floats, Indices
from schematics.garment.cloth.contact import Load
from schematics.garment.cloth.hanging import Fabric3d, fabric_3d, step
from schematics.garment.cloth.material import Material
from schematics.garment.cloth.one_thread import one_thread

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


def flat_fabric(
    points: Floats, triangles: Indices, held: Flags, fabric: Material, step_s: float = 1.0
) -> Fabric3d:
    """Its rows run along x."""
    return fabric_3d(triangles, points[triangles], fabric, held, step_s=step_s)


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
