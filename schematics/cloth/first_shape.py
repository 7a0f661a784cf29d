"""Where a garment's points are before it is worn: a cone or a folded sheet, arm bands round the wrists."""

from __future__ import annotations

import math

import numpy as np

from schematics.cloth.arrays import Floats
from schematics.cloth.neck_to_hem import down_and_around
from schematics.cloth.seamed_mesh import PARTS, SeamedMesh
from schematics.cloth.solid_body import SolidArm
from schematics.garment.garment import ArmsOn, Garment

_ABOVE_NAPE_CM = 2.0
_ROOM_CM = 0.5
"""Between an arm and the band put round it."""
_STEEPEST = 0.98
"""A cone widens by at most so much to each centimetre down."""
_HALF_OPEN = math.radians(40)
"""How far the sheets of a folded body stand off from upright."""


def first_shape(
    garment: Garment, mesh: SeamedMesh, arm: SolidArm, neck: Floats, neck_cm: float
) -> tuple[Floats, SolidArm]:
    """The points ``(n, 3)`` about the middle of a neck so thick, and the arm held out to its band."""
    on_hem = garment.arm.on is ArmsOn.HEM
    points = _cone(garment, mesh) if on_hem else _sheets(garment, mesh)
    rows = mesh.neck_rows
    off = np.hypot(points[:, 0], points[:, 2])
    wider = np.hypot(off, neck_cm / 2 + _ROOM_CM) / np.maximum(off, _ROOM_CM)
    points[:, ::2] *= wider[:, None]
    points += neck + np.array([0.0, _ABOVE_NAPE_CM, 0.0])
    up = garment.neck.band_depth_cm / (len(rows) - 1)
    for at, row in enumerate(rows[1:], 1):
        points[row] = points[rows[0]] + [0.0, at * up, 0.0]
    run = mesh.arm_rows[0]
    middle = (
        points[run].mean(axis=0) if on_hem else points[run].max(axis=0) * [1, 0, 0] + arm.joint * [0, 1, 1]
    )
    out = arm.turned_to(middle - arm.joint)
    far = min(math.dist(middle, arm.joint), arm.length_cm - garment.arm.ring.band_depth_cm / 2)
    _put_round(points, mesh, garment, out, far)
    return points, out


def _put_round(points: Floats, mesh: SeamedMesh, garment: Garment, arm: SolidArm, far: float) -> None:
    """The arm band round the arm, its joined edge so far from the joint; its seam under the arm."""
    around = mesh.arm_rows.shape[1]
    turn = (np.arange(around) / around * 2 - 1) * math.pi
    upward = np.array([-arm.direction[1], arm.direction[0], 0.0])
    upward /= np.linalg.norm(upward)
    forward = np.cross(upward, arm.direction)
    forward *= math.copysign(1.0, forward[2])
    rows = len(mesh.arm_rows)
    edge, band = garment.arm.ring.edge_cm, garment.arm.ring.band_cm
    for at, row in enumerate(mesh.arm_rows):
        share = at / (rows - 1)
        along = far + share * garment.arm.ring.band_depth_cm
        radius = max((edge + (band - edge) * share) / math.tau, arm.radius(along) + _ROOM_CM)
        round_it = np.cos(turn)[:, None] * upward + np.sin(turn)[:, None] * forward
        points[row] = arm.at(along) + radius * round_it


def _cone(garment: Garment, mesh: SeamedMesh) -> Floats:
    """As wide at each depth as the fabric is; its top is at y = 0."""
    body, panel = garment.piece(PARTS[0]), garment.piece(PARTS[1])
    neck, hem = body.edge("neck").path, body.edge("hem").path
    top, foot = panel.edge("top").length_cm / 2, panel.edge("lower").length_cm / 2
    height = panel.outline.bounds[3]
    depth, share = down_and_around(mesh.place, neck, hem)
    on_panel = mesh.piece == 1
    depth = np.where(on_panel, 1 - mesh.place[:, 1] / height, depth)
    half_body = neck.length + (hem.length - neck.length) * depth
    half_panel = top + (foot - top) * depth
    along = np.where(on_panel, half_body + half_panel + mesh.place[:, 0], share * half_body)
    turn = along / (half_body + half_panel) * math.pi
    steps = np.linspace(0.0, 1.0, 65)
    radius = (neck.length + top + (hem.length + foot - neck.length - top) * steps) / math.pi
    slant = garment.drop_cm / (len(steps) - 1)
    widening = np.clip(np.diff(radius) / slant, -_STEEPEST, _STEEPEST)
    wide = radius[0] + slant * np.concatenate([[0.0], np.cumsum(widening)])
    fallen = slant * np.concatenate([[0.0], np.cumsum(np.sqrt(1 - widening**2))])
    at_radius, at_height = np.interp(depth, steps, wide), -np.interp(depth, steps, fallen)
    points = np.column_stack([at_radius * np.sin(turn), at_height, -at_radius * np.cos(turn)])
    points[mesh.on_plane, 0] = 0.0
    return points


def _sheets(garment: Garment, mesh: SeamedMesh) -> Floats:
    """Folded along the shoulders; the fold is at y = 0, the middle of the neck hole at z = 0."""
    front = max(y for _, y in garment.piece(PARTS[0]).corners)
    down = np.where(mesh.piece == 1, front - mesh.place[:, 1], mesh.place[:, 1])
    points = np.column_stack(
        [np.abs(mesh.place[:, 0]), -np.abs(down) * math.cos(_HALF_OPEN), down * math.sin(_HALF_OPEN)]
    )
    points[mesh.on_plane, 0] = 0.0
    hole = points[mesh.neck_rows[0], 2]
    points[:, 2] -= (hole.min() + hole.max()) / 2
    return points
