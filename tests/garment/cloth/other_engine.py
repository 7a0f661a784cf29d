"""The same garments hung by another program: MuJoCo, a general physics engine, by its own steps and contacts.

What is given to it, of ours:

- the seamed triangles, both halves, each point with its share of the weight as a mass;
- how triangles stretch, as the engine's table of stiffness: across, along and shear, of strain as it has it,
  half of the squared lengths' change. An edge has one length at rest there, the mean of its two triangles';
- how edges bend, as its table of bending, by the formula of its documents for a plate of that rigidity;
- the body's parts as hulls of points on them, the trunk in slices; arms that turn about their joints;
- the clearance, as the fabric's radius, and friction.

What it has not: that fabric is stiffer beyond the stretch it gives.

What is its own: the garment whole, nothing of it held on the plane of symmetry; triangles that touch the
body, not points alone; friction of contacts that are solved for, not of the last step's push; mass, falling
and swinging, slowed as if in a thick liquid; the way: from where the garment was put on, it falls with the
arms held out, and the arms are then turned slowly.

References:
    https://mujoco.readthedocs.io/en/4.0.0/XMLreference.html, flex/elasticity
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import pytest

from schematics.checks.evaluation import Result
from schematics.garment.cloth.arrays import Floats, Indices
from schematics.garment.cloth.contact import CLEARANCE_CM
from schematics.garment.cloth.draped import Draped, draped
from schematics.garment.cloth.draping import Hung, Settled, settled
from schematics.garment.cloth.material import GRAVITY, Feel, Material, material
from schematics.garment.cloth.seamed_mesh import PARTS
from schematics.garment.cloth.solid_body import SolidBody
from schematics.garment.garment import Garment
from schematics.wearer.body_figure import Pose
from schematics.wearer.proportions import proportioned

mujoco: Any = pytest.importorskip("mujoco", reason="no other engine: .venv/bin/pip install mujoco-core")

USUAL = Feel()
STEP_S = 0.02
FALL_S, TURN_DOWN_S, RAISE_S, SETTLE_S = 1.0, 3.0, 6.0, 4.0
"""How long it falls with the arms held out, how long they take to turn, how long it then comes to rest."""
_DRAG = 10.0
"""Of the speed of a point, so much is lost in a second."""
_ARMATURE = 10.0
"""kg m²: so heavy to turn that no fabric turns an arm."""
_SLICE_CM, _AROUND = 2.0, 40
_DEEP_CM, _INSIDE = 4.0, 0.3
"""So far above and below a slice are its points inside, and so far out from the middle."""
_METRE = 100.0
"""Centimetres."""
_FIRST_POINT = 4
"""Of all joints those of the arms come first."""
_HAIR = 1e-6


@dataclass
class Hanging:
    """A garment in the engine, which changes as time goes on; ``first`` is where it was put on."""

    first: Draped
    arms: Floats
    model: Any
    data: Any
    drag: Floats

    @property
    def worn(self) -> Draped:
        """Where it is."""
        return replace(self.first, vertices=self.first.vertices + self._moved_cm())

    def _moved_cm(self) -> Floats:
        moved: Floats = self.data.qpos[_FIRST_POINT:].reshape(-1, 3) * _METRE
        return moved

    def run(self, seconds: float, angle: float | None = None) -> None:
        """Let time go on, the arms held as they are or turned to an angle to the side, faster half-way."""
        steps, start = round(seconds / STEP_S), self.arms
        end = start if angle is None else np.array([angle, 0.0])
        for at in range(1, steps + 1):
            share = at / steps
            wanted = start + (end - start) * share * share * (3 - 2 * share) - _angles(self.first.body)
            turned = self.data.qpos[:_FIRST_POINT]
            self.data.qvel[:_FIRST_POINT] = (np.concatenate([-wanted, wanted]) - turned) / STEP_S
            self.data.qfrc_applied[_FIRST_POINT:] = -self.drag * self.data.qvel[_FIRST_POINT:]
            mujoco.mj_step(self.model, self.data)
        self.arms = end


def _angles(body: SolidBody) -> Floats:
    """Of the arms to the body, to the side and then to the front."""
    x, y, z = body.arm.direction
    return np.array([math.atan2(x, -y), math.asin(z)])


def hung_both_ways(result: Result, feel: Feel = USUAL) -> tuple[Hung, Hung]:
    """A size with the arms down and then level: as it hangs here, and as the engine hangs it."""
    figure = proportioned(result.wearer)
    if figure is None:
        raise ValueError(f"{result.size.name} has no height")
    ours = settled(result.garment, figure.size, feel)
    theirs = hanging(result.garment, ours, feel)
    theirs.run(FALL_S)
    worn = []
    for pose, seconds in ((Pose.DOWN, TURN_DOWN_S), (Pose.LEVEL, RAISE_S)):
        theirs.run(seconds, pose.value)
        theirs.run(SETTLE_S)
        worn.append(theirs.worn)
    return ours.hung, Hung(down=worn[0], level=worn[1])


def hanging(garment: Garment, before: Settled, feel: Feel) -> Hanging:
    """A garment as it was put on, before it falls."""
    first = draped(before.mesh, before.put_on)
    both = np.concatenate([before.mesh.rest, before.mesh.rest[:, [0, 2, 1]] * [-1.0, 1.0]]) / _METRE
    part = np.concatenate([before.mesh.part, before.mesh.part])
    cloth = material([garment.piece(name).fabric for name in PARTS], part, feel.bending_length_cm)
    triangles, count = first.triangles, len(first.vertices)
    area = _area(both)
    shares = np.repeat(cloth.weight * _METRE**2 * area / 3 / GRAVITY, 3)
    mass = np.bincount(triangles.ravel(), shares, count)
    spec = _world()
    touch = {
        "friction": [feel.friction, 0.005, 0.0001], "condim": 3,
        "solref": [STEP_S, 1.0], "solimp": [0.99, 0.999, 0.001, 0.5, 2.0],
    }  # fmt: skip
    _add_body(spec, before.put_on.body, touch)
    names = [f"point {at}" for at in range(count)]
    for name, place, own in zip(names, first.vertices / _METRE, mass, strict=True):
        point = spec.worldbody.add_body(
            name=name, pos=place, mass=own, inertia=[own * 1e-5] * 3, explicitinertial=True
        )
        for axis in np.eye(3):
            point.add_joint(type=mujoco.mjtJoint.mjJNT_SLIDE, axis=axis)
    fabric = spec.add_flex(
        name="fabric", dim=2, radius=CLEARANCE_CM / _METRE, young=1.0, thickness=1.0, elastic2d=3,
        damping=STEP_S, contype=2, conaffinity=1, **touch,
    )  # fmt: skip
    fabric.vertbody, fabric.elem = names, triangles.ravel().tolist()
    fabric.selfcollide = mujoco.mjtFlexSelf.mjFLEXSELF_NONE
    model = spec.compile()
    _stretch(model, both, area, cloth)
    _bend(model, triangles, both, area, cloth)
    return Hanging(
        first=first, arms=_angles(before.put_on.body), model=model, data=mujoco.MjData(model),
        drag=np.repeat(_DRAG * mass, 3).astype(float),
    )  # fmt: skip


def _world() -> Any:
    spec = mujoco.MjSpec()
    spec.memory = 2**30
    option = spec.option
    option.timestep, option.gravity = STEP_S, [0.0, -GRAVITY, 0.0]
    option.integrator = mujoco.mjtIntegrator.mjINT_DISCRETE
    option.solver = mujoco.mjtSolver.mjSOL_NEWTON
    option.cone, option.impratio = mujoco.mjtCone.mjCONE_ELLIPTIC, 10.0
    option.tolerance, option.iterations = 1e-6, 50
    return spec


def _add_body(spec: Any, body: SolidBody, touch: dict[str, Any]) -> None:
    """Its parts as hulls; the first cone and the second ellipsoid are the arm and the hand."""

    def add(parent: Any, points: Floats) -> None:
        name = f"hull {len(spec.meshes)}"
        mesh = spec.add_mesh(name=name, inertia=mujoco.mjtMeshInertia.mjMESH_INERTIA_CONVEX)
        mesh.uservert = (points / _METRE).ravel().tolist()
        parent.add_geom(
            type=mujoco.mjtGeom.mjGEOM_MESH, meshname=name, density=1.0, contype=1, conaffinity=2, **touch
        )

    cones, balls, ball = body.cones, body.ellipsoids, _ball()
    limbs = [
        np.concatenate([start + ball * first, end + ball * last])
        for start, end, first, last in zip(
            cones.start, cones.end, cones.start_radius, cones.end_radius, strict=True
        )
    ]
    eggs = [
        middle + (ball * half) @ axes
        for middle, half, axes in zip(balls.centre, balls.half, balls.axes, strict=True)
    ]
    forward = np.cross(body.arm.direction * [1.0, 1.0, 0.0], [0.0, 0.0, 1.0])
    for sign in (-1.0, 1.0):
        side = np.array([sign, 1.0, 1.0])
        arm = spec.worldbody.add_body(pos=body.arm.joint * side / _METRE)
        for axis in (np.array([0.0, 0.0, 1.0]), forward * side):
            arm.add_joint(type=mujoco.mjtJoint.mjJNT_HINGE, axis=axis, armature=_ARMATURE)
        for points in (limbs[0], eggs[1]):
            add(arm, (points - body.arm.joint) * side)
        for points in limbs[1:]:
            if abs(points[:, 0].mean()) > _HAIR:
                add(spec.worldbody, points * side)
    middle_parts = [each for each in limbs[1:] if abs(each[:, 0].mean()) <= _HAIR]
    for points in (*middle_parts, eggs[0], *_slices(body)):
        add(spec.worldbody, points)


def _ball(steps: int = 20) -> Floats:
    """Points on a ball of radius 1."""
    down, round_it = np.meshgrid(
        np.linspace(0, math.pi, steps // 2 + 1), np.arange(steps) / steps * math.tau, indexing="ij"
    )
    return np.stack(
        [np.sin(down) * np.cos(round_it), np.cos(down), np.sin(down) * np.sin(round_it)], axis=-1
    ).reshape(-1, 3)


def _slices(body: SolidBody) -> Iterator[Floats]:
    """The trunk in slices, which are convex, each with points well inside the trunk above and below it.

    So a slice has no level face, by which what is pushed into it a little would be pushed out upwards.
    """
    trunk, turn = body.trunk, np.arange(_AROUND) / _AROUND * math.tau

    def ring(height: float, share: float = 1.0) -> Floats:
        ((half, deep, middle),), _ = trunk.section(np.array([height]))
        return np.column_stack(
            [share * half * np.cos(turn), np.full(_AROUND, height), middle + share * deep * np.sin(turn)]
        )

    levels = np.linspace(trunk.foot, trunk.top, round((trunk.top - trunk.foot) / _SLICE_CM) + 1)
    for low, high in itertools.pairwise(levels):
        inside = [
            ring(float(np.clip(y, trunk.foot, trunk.top)), _INSIDE) for y in (low - _DEEP_CM, high + _DEEP_CM)
        ]
        yield np.concatenate([ring(low), ring((low + high) / 2), ring(high), *inside])


def _area(corners: Floats) -> Floats:
    one, other = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    area: Floats = 0.5 * np.abs(one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0])
    return area


def _stretch(model: Any, rest: Floats, area: Floats, cloth: Material) -> None:
    """Lengths at rest, and stiffness against a change of squared lengths.

    The energy of a triangle is a quarter of d' S d, d being the changes of its squared lengths, and half of
    area e' D e, e being its strains across, along and of shear: d = 2 P e, and so S = area/2 P'⁻¹ D P⁻¹.
    """
    sides = np.roll(rest, -1, axis=1) - np.roll(rest, -2, axis=1)
    edges = model.flex_elemedge.reshape(-1, 3)
    lengths = np.sqrt((sides**2).sum(axis=2))
    count = len(model.flex_edge)
    model.flexedge_length0[:] = np.bincount(edges.ravel(), lengths.ravel(), count) / np.bincount(
        edges.ravel()
    )
    x, y = sides[..., 0], sides[..., 1]
    back = np.linalg.inv(np.stack([x * x, y * y, 2 * x * y], axis=2))
    stiff = _METRE * np.column_stack([cloth.soft, 4 * cloth.shear])
    table = 0.5 * area[:, None, None] * np.einsum("tki,tk,tkj->tij", back, stiff, back)
    model.flex_stiffness.reshape(len(rest), -1)[:, :6] = table[:, *np.triu_indices(3)]


def _bend(model: Any, triangles: Indices, rest: Floats, area: Floats, cloth: Material) -> None:
    """Each edge between two triangles, flat at rest: rigidity over their area, times the hinge's weights."""
    one, other = np.roll(rest, -1, axis=1) - rest, np.roll(rest, -2, axis=1) - rest
    cotangent = (one * other).sum(axis=2) / (2 * area[:, None])
    edges, ends, flaps = model.flex_elemedge.reshape(-1, 3), model.flex_edge, model.flex_edgeflap
    weights, around, rigid = np.zeros((len(ends), 4)), np.zeros(len(ends)), np.zeros(len(ends))
    for corner in range(3):
        edge, start = edges[:, corner], triangles[:, (corner + 1) % 3]
        at_start, at_end = cotangent[:, (corner + 1) % 3], cotangent[:, (corner + 2) % 3]
        forward = ends[edge, 0] == start
        np.add.at(weights, (edge, 0), np.where(forward, at_end, at_start))
        np.add.at(weights, (edge, 1), np.where(forward, at_start, at_end))
        flap = np.where(flaps[edge, 0] == triangles[:, corner], 2, 3)
        np.add.at(weights, (edge, flap), -at_start - at_end)
        np.add.at(around, edge, area)
        np.add.at(rigid, edge, cloth.bending / _METRE / 2)
    hinges = (rigid / around)[:, None, None] * weights[:, :, None] * weights[:, None, :]
    hinges[flaps[:, 1] < 0] = 0.0
    model.flex_bending.reshape(len(ends), -1)[:] = 0.0
    model.flex_bending.reshape(len(ends), -1)[:, :16] = hinges.reshape(-1, 16)
