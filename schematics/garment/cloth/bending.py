"""Bending as a quadratic form of the points, for surfaces that bend and do not stretch.

Each edge between two triangles, of areas A and A', takes 3 B S (Kx)² / 2(A + A')²: K x is the paper's sum of
cotangents, S the area that the edge stands for: what each triangle has for each of its edges that can bend, a
third but at the rim. In a hexagonal grid, bent to a cylinder about any axis, that is half of B times the
square of the curvature to each cm²; on other triangles it is that only about.

References:
    M. Bergou, M. Wardetzky, D. Harmon, D. Zorin, E. Grinspun, A quadratic bending model for inextensible
    surfaces, Symposium on Geometry Processing 2006.
"""

from __future__ import annotations

from typing import Any, TypeAlias

import numpy as np
from scipy.sparse import csr_array

from schematics.garment.cloth.arrays import Flags, Floats, Indices

Sparse: TypeAlias = "csr_array[Any, tuple[int, int]]"


def bending_forms(
    triangles: Indices, rest: Floats, stiffness: Floats, on_plane: Flags, points: int
) -> tuple[Sparse, Sparse]:
    """The forms of the coordinates across the plane of symmetry, and of the other two.

    An edge on the plane bends between a triangle and its mirror image: half of that is this half's, and
    across the plane the image moves in the other direction.

    Args:
        triangles: ``(t, 3)`` points.
        rest: their corners at rest, ``(t, 3, 2)``.
        stiffness: of each triangle, in N cm.
        on_plane: which points are on the plane of symmetry.
        points: how many there are.
    """
    count = len(triangles)
    one, other = (np.roll(rest, -turn, axis=1) for turn in (1, 2))
    towards, away = one - rest, other - rest
    cross = np.abs(towards[..., 0] * away[..., 1] - towards[..., 1] * away[..., 0])
    cotangent = np.einsum("tki,tki->tk", towards, away) / cross
    area = 0.5 * cross[:, 0]
    sides = np.concatenate([triangles[:, [at, (at + 1) % 3]] for at in range(3)])
    opposite = np.concatenate([triangles[:, (at + 2) % 3] for at in range(3)])
    at_start = np.concatenate([cotangent[:, at] for at in range(3)])
    at_end = np.concatenate([cotangent[:, (at + 1) % 3] for at in range(3)])
    owner = np.tile(np.arange(count), 3)
    swapped = sides[:, 0] > sides[:, 1]
    low, high = sides.min(axis=1), sides.max(axis=1)
    at_low, at_high = np.where(swapped, at_end, at_start), np.where(swapped, at_start, at_end)
    order = np.lexsort((owner, high, low))
    same = (low[order][1:] == low[order][:-1]) & (high[order][1:] == high[order][:-1])
    first, second = order[:-1][same], order[1:][same]
    paired = np.zeros(len(owner), dtype=bool)
    paired[first] = paired[second] = True
    mirrored = np.flatnonzero(~paired & on_plane[low] & on_plane[high])
    bending = paired.copy()
    bending[mirrored] = True
    shared = area / np.maximum(np.bincount(owner, bending, count), 1)

    def form(pairs: tuple[Indices, Indices], share: float, *, alone: bool) -> Sparse:
        front, back = pairs
        weight = 0.5 * (stiffness[owner[front]] + stiffness[owner[back]])
        stands_for = shared[owner[front]] + shared[owner[back]]
        scale = np.sqrt(3 * share * weight * stands_for) / (area[owner[front]] + area[owner[back]])
        rows = np.arange(len(front))
        ends = [
            (low[front], at_high[front] + at_high[back]),
            (high[front], at_low[front] + at_low[back]),
            (opposite[front], -(at_low + at_high)[front] * (2 if alone else 1)),
        ]
        if not alone:
            ends.append((opposite[back], -(at_low + at_high)[back]))
        lines = csr_array(
            (
                np.concatenate([scale * each for _, each in ends]),
                (np.tile(rows, len(ends)), np.concatenate([each for each, _ in ends])),
            ),
            shape=(len(front), points),
        )
        return csr_array(lines.T @ lines)

    inside = form((first, second), 1.0, alone=False)
    return inside, csr_array(inside + form((mirrored, mirrored), 0.5, alone=True))
