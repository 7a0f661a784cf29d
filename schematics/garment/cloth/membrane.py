"""Energy of stretching and shearing triangles, its forces and a Hessian without negative directions."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.sparse import csr_array

from schematics.garment.cloth.arrays import Evaluated, Floats, Indices
from schematics.garment.cloth.bending import Sparse
from schematics.garment.cloth.material import Material


@dataclass(frozen=True, slots=True, kw_only=True)
class Membrane:
    """Triangles ``(t, 3)``, their areas at rest, and the slopes ``(t, 2, 3)`` of their corners' shares.

    ``gathers`` sum up over the triangles what their corners get, across and along; ``spread`` ``(t, 9, 6)``
    does the same within a triangle.
    """

    triangles: Indices
    area: Floats
    slopes: Floats
    material: Material
    gathers: tuple[Sparse, Sparse]
    spread: Floats

    def deformed(self, points: Floats) -> Floats:
        """``(t, 2, 3)``: where a centimetre across and one along have got to."""
        moved: Floats = self.slopes @ points[self.triangles]
        return moved

    def at(self, points: Floats) -> Evaluated:
        """Its Hessian is ``(t, 9, 9)``, of the corners; what pushes instead of pulling is left out."""
        material, moved = self.material, self.deformed(points)
        length = np.sqrt(np.einsum("tai,tai->ta", moved, moved))
        strain = length - 1
        over = np.maximum(strain - material.limit, 0.0)
        harder = material.stiff - material.soft
        pull = material.soft * strain + harder * over
        skew = np.einsum("ti,ti->t", moved[:, 0], moved[:, 1])
        energy = (
            0.5 * (material.soft * strain**2 + harder * over**2).sum(axis=1) + 0.5 * material.shear * skew**2
        )
        stress = (self.area[:, None] * pull / length)[..., None] * moved
        stress += (self.area * material.shear * skew)[:, None, None] * moved[:, ::-1]
        across, along = self.gathers

        def hessian() -> Floats:
            directions = moved / length[..., None]
            rate = np.where(over > 0, material.stiff, material.soft)
            aside = np.maximum(pull, 0.0) / length
            inner = np.zeros((len(moved), 6, 6))
            for axis, own in ((0, slice(0, 3)), (1, slice(3, 6))):
                direction = directions[:, axis]
                outer = (rate - aside)[:, axis, None, None] * direction[:, :, None] * direction[:, None, :]
                inner[:, own, own] = outer + aside[:, axis, None, None] * np.eye(3)
            skewed = moved[:, ::-1].reshape(-1, 6)
            inner += material.shear[:, None, None] * skewed[:, :, None] * skewed[:, None, :]
            inner *= self.area[:, None, None]
            blocks: Floats = self.spread @ inner @ self.spread.transpose(0, 2, 1)
            return blocks

        return float(self.area @ energy), across @ stress[:, 0] + along @ stress[:, 1], hessian


def membrane(triangles: Indices, rest: Floats, material: Material, points: int) -> Membrane:
    """Of triangles ``(t, 3)`` of so many points with corners at rest ``(t, 3, 2)``, across first."""
    sides = np.stack([rest[:, 1] - rest[:, 0], rest[:, 2] - rest[:, 0]], axis=2)
    area = 0.5 * np.abs(np.linalg.det(sides))
    inverse = np.linalg.inv(sides)
    slopes = np.stack([-inverse.sum(axis=1), inverse[:, 0], inverse[:, 1]], axis=2)
    rows, columns = triangles.ravel(), np.repeat(np.arange(len(triangles)), 3)
    across, along = (
        csr_array((slopes[:, axis].ravel(), (rows, columns)), shape=(points, len(triangles)))
        for axis in (0, 1)
    )
    spread = np.zeros((len(triangles), 3, 3, 2, 3))
    for axis in range(3):
        spread[:, :, axis, :, axis] = slopes.transpose(0, 2, 1)
    return Membrane(
        triangles=triangles, area=area, slopes=slopes, material=material, gathers=(across, along),
        spread=spread.reshape(-1, 9, 6),
    )  # fmt: skip
