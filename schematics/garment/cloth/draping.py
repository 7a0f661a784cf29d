"""A garment put on a body and left to hang, with the arms down and level."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from schematics.garment.cloth.draped import Draped, draped
from schematics.garment.cloth.first_shape import first_shape
from schematics.garment.cloth.hanging import Fabric3d, fabric_3d
from schematics.garment.cloth.material import Feel, material
from schematics.garment.cloth.one_thread import one_thread
from schematics.garment.cloth.posing import STEP_S, OnBody, put_on, settle, turn_arms
from schematics.garment.cloth.seamed_mesh import PARTS, SeamedMesh, seamed_mesh
from schematics.garment.cloth.solid_body import arm_direction, neck_middle, solid_arm, solid_body
from schematics.garment.garment import Garment
from schematics.wearer.body_figure import FigureSize, Pose

POINTS = 450
"""Points in the right half of body and panel, at working resolution."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hung:
    """The same garment on the same body with the arms down, and then raised level."""

    down: Draped
    level: Draped


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """A mesh, and where it came to rest, for another go with another feel."""

    mesh: SeamedMesh
    put_on: OnBody
    down: OnBody
    level: OnBody

    @property
    def hung(self) -> Hung:
        """The whole garment in both poses."""
        return Hung(down=draped(self.mesh, self.down), level=draped(self.mesh, self.level))


def settled(garment: Garment, size: FigureSize, feel: Feel, points: int = POINTS) -> Settled:
    """The garment on a body of that size, at rest in both poses, worked out on the right half.

    Args:
        garment: one size of a design.
        size: the wearer's measurements.
        feel: how stiffly its fabrics bend and how they rub.
        points: in the right half of body and panel.

    Raises:
        ClothError: a swatch was not weighed, or the garment cannot be worn.
    """
    with one_thread():
        mesh = seamed_mesh(garment, points)
        cloth = fabric_of(garment, mesh, feel)
        arm = solid_arm(size, arm_direction(Pose.DOWN.value))
        shape, out = first_shape(garment, mesh, arm, neck_middle(size), size.neck_breadth_cm)
        worn = put_on(cloth, OnBody(points=shape, body=solid_body(size, out)), mesh.arm_rows, mesh.neck_rows)
        return _settled(cloth, mesh, worn, feel)


def settled_again(garment: Garment, before: Settled, feel: Feel) -> Settled:
    """The garment at rest with another feel, from where it was put on before."""
    with one_thread():
        return _settled(fabric_of(garment, before.mesh, feel), before.mesh, before.put_on, feel)


def _settled(cloth: Fabric3d, mesh: SeamedMesh, worn: OnBody, feel: Feel) -> Settled:
    at_rest = []
    start = worn
    for pose in (Pose.DOWN, Pose.LEVEL):
        turned = turn_arms(cloth, worn, arm_direction(pose.value), feel.friction)
        worn = settle(cloth, turned, feel.friction)
        at_rest.append(worn)
    return Settled(mesh=mesh, put_on=start, down=at_rest[0], level=at_rest[1])


def fabric_of(garment: Garment, mesh: SeamedMesh, feel: Feel) -> Fabric3d:
    """The fabric of the right half."""
    fabrics = [garment.piece(name).fabric for name in PARTS]
    held = np.zeros((len(mesh.place), 3), dtype=bool)
    held[mesh.on_plane, 0] = True
    materials = material(fabrics, mesh.part, feel.bending_length_cm)
    return fabric_3d(mesh.triangles, mesh.rest, materials, held, step_s=STEP_S, on_plane=mesh.on_plane)
