"""Symmetric matrices of points in space, stored as a band: put together from blocks, factored and solved."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from scipy.linalg.lapack import dpbtrf, dpbtrs
from scipy.sparse import coo_array, csr_array
from scipy.sparse.csgraph import reverse_cuthill_mckee

from schematics.garment.cloth.arrays import Flags, Floats, Indices
from schematics.garment.cloth.bending import Sparse


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """Where the numbers of blocks go: ``order`` gives each coordinate ``(n, 3)`` its row, -1 if it is held.

    The numbers of the triangles' blocks, summed up by ``of_triangles``, and those of the points' by
    ``of_points`` are added at ``places`` in the band. ``constant`` is what never changes.
    """

    order: Indices
    width: int
    size: int
    places: Indices
    of_triangles: Sparse
    of_points: Sparse
    constant: Floats

    def solver(self, triangles: Floats, points: Floats) -> Callable[[Floats], Floats]:
        """A solver for ``(n, 3)`` with the sum of the constant, ``(t, 9, 9)`` and ``(n, 3, 3)``.

        Raises:
            ArithmeticError: the sum is not positive definite.
        """
        band = self.constant.copy()
        band[self.places] += self.of_triangles @ triangles.ravel() + self.of_points @ points.ravel()
        shaped = band.reshape(self.size, self.width + 1).T
        factor, fault = dpbtrf(shaped, lower=1, overwrite_ab=1)
        if fault:
            raise ArithmeticError(f"row {fault} of a matrix is not positive")
        free = self.order.ravel() >= 0
        to = self.order.ravel()[free]

        def solve(right: Floats) -> Floats:
            packed = np.empty(self.size)
            packed[to] = right.ravel()[free]
            solved, _ = dpbtrs(factor, packed[:, None], lower=1, overwrite_b=1)
            result = np.zeros(len(free))
            result[free] = solved[to, 0]
            return result.reshape(-1, 3)

        return solve


def band(triangles: Indices, held: Flags, forms: tuple[Sparse, Sparse], diagonal: Floats) -> Band:
    """The band of triangles ``(t, 3)`` and of quadratic forms of the first and of the other two coordinates.

    Args:
        triangles: points of each.
        held: coordinates ``(n, 3)`` that do not move.
        forms: of the first coordinate of all points, and of the second and third.
        diagonal: ``(n,)`` what is added to each coordinate of a point.
    """
    count = len(held)
    pattern = csr_array(forms[1])
    pairs = [triangles[:, [one, other]] for one in range(3) for other in range(3)]
    one, other = np.concatenate(pairs).T
    touching = csr_array((np.ones(len(one)), (one, other)), shape=(count, count))
    turn = reverse_cuthill_mckee(csr_array(abs(pattern) + touching), symmetric_mode=True)
    rank = np.empty(count, dtype=np.int64)
    rank[turn] = np.arange(count)
    order = np.full((count, 3), -1)
    rows = np.flatnonzero(~held[turn].ravel())
    order[turn] = np.where(held[turn], -1, _numbered(rows, 3 * count).reshape(count, 3))
    size = len(rows)
    entries = []
    for axis in range(3):
        form = coo_array(forms[min(axis, 1)])
        entries.append((order[form.coords[0], axis], order[form.coords[1], axis], form.data))
        entries.append((order[:, axis], order[:, axis], diagonal))
    row, column, value = (np.concatenate([each[at] for each in entries]) for at in range(3))
    corner = order[triangles].reshape(len(triangles), 9)
    corner_row, corner_column = (
        np.broadcast_to(each, (len(triangles), 9, 9)).ravel()
        for each in (corner[:, :, None], corner[:, None])
    )
    point_row, point_column = (
        np.broadcast_to(each, (count, 3, 3)).ravel() for each in (order[:, :, None], order[:, None])
    )
    width = int(
        max(
            (one - other)[(one >= 0) & (other >= 0)].max()
            for one, other in ((row, column), (corner_row, corner_column))
        )
    )

    def places(one: Indices, other: Indices) -> tuple[Indices, Indices]:
        numbers = np.flatnonzero((other >= 0) & (one >= other))
        return one[numbers] - other[numbers] + other[numbers] * (width + 1), numbers

    constant_places, constant_numbers = places(row, column)
    blocks = (places(corner_row, corner_column), places(point_row, point_column))
    taken, at = np.unique(np.concatenate([each for each, _ in blocks]), return_inverse=True)
    first = len(blocks[0][0])

    def summed(at: Indices, numbers: Indices, length: int) -> Sparse:
        return csr_array((np.ones(len(at)), (at, numbers)), shape=(len(taken), length))

    return Band(
        order=order, width=width, size=size, places=taken,
        of_triangles=summed(at[:first], blocks[0][1], len(corner_row)),
        of_points=summed(at[first:], blocks[1][1], len(point_row)),
        constant=np.bincount(constant_places, value[constant_numbers], size * (width + 1)).astype(float),
    )  # fmt: skip


def _numbered(places: Indices, count: int) -> Indices:
    """Which of the places each number is, in order; any other number -1."""
    result = np.full(count, -1)
    result[places] = np.arange(len(places))
    return result
