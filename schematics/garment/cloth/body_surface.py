"""A body as triangles, for drawing: closed shapes that run into each other."""

from __future__ import annotations

import math

import numpy as np

from schematics.garment.cloth.arrays import Floats, Indices
from schematics.garment.cloth.round_parts import Loft
from schematics.garment.cloth.solid_body import SolidBody
from schematics.wearer.body_figure import ANKLE_SHARE, FOOT_SHARE, FigureSize

_AROUND = 32
_CAP = 6
"""Rings from the side of a ball to its pole."""
_POLE = 0.05
"""What is left open round an ellipsoid's pole, as an angle, before it is closed flat."""
_LEVELS_CM = 1.0

FOOT_LENGTH_SHARE = 0.152
"""Length of the foot over the height: Drillis and Contini 1966, from memory."""


def body_surface(body: SolidBody) -> tuple[Floats, Indices]:
    """Vertices ``(n, 3)`` and triangles ``(t, 3)``, counter-clockwise seen from outside, on both sides.

    Each part of the body is closed; what of it lies inside another is not cut off.
    """
    sheets = [_loft(body.trunk)]
    cones, balls = body.cones, body.ellipsoids
    for each in range(len(cones.start)):
        sheet = _round_cone(
            cones.start[each], cones.end[each], float(cones.start_radius[each]), float(cones.end_radius[each])
        )
        sheets += [sheet] if abs(float(cones.start[each][0])) < 1e-9 else [sheet, _mirrored(sheet)]
    for each in range(len(balls.centre)):
        sheet = _ellipsoid(balls.centre[each], balls.half[each], balls.axes[each])
        sheets += [sheet] if abs(float(balls.centre[each][0])) < 1e-9 else [sheet, _mirrored(sheet)]
    foot = _foot(body.size)
    sheets += [foot, _mirrored(foot)]
    starts = np.cumsum([0, *(len(points) for points, _ in sheets)])
    return (
        np.concatenate([points for points, _ in sheets]),
        np.concatenate([start + triangles for start, (_, triangles) in zip(starts, sheets, strict=False)]),
    )


_Sheet = tuple[Floats, Indices]


def _rings(rings: Floats) -> _Sheet:
    """Rings ``(rings, around, 3)`` of points joined to a tube; the first and the last are closed by fans."""
    count, around, _ = rings.shape
    grid = np.arange(count * around).reshape(count, around)
    low, high = grid[:-1].ravel(), grid[1:].ravel()
    low_next, high_next = (np.roll(each, -1, axis=1).ravel() for each in (grid[:-1], grid[1:]))
    sides = [np.column_stack([low, low_next, high_next]), np.column_stack([low, high_next, high])]
    fan = np.arange(1, around - 1)
    first = np.column_stack([np.zeros_like(fan), fan + 1, fan])
    last = grid[-1, 0] + np.column_stack([np.zeros_like(fan), fan, fan + 1])
    points = rings.reshape(-1, 3)
    triangles = np.concatenate([*sides, first, last])
    corners = points[triangles]
    outward = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    if np.einsum("ti,ti->", outward, corners.mean(axis=1) - points.mean(axis=0)) < 0:
        triangles = triangles[:, ::-1]
    return points, triangles


def _mirrored(sheet: _Sheet) -> _Sheet:
    points, triangles = sheet
    return points * np.array([-1.0, 1.0, 1.0]), triangles[:, ::-1]


def _turns() -> Floats:
    return np.arange(_AROUND) / _AROUND * math.tau


def _loft(trunk: Loft) -> _Sheet:
    levels = max(2, round((trunk.top - trunk.foot) / _LEVELS_CM))
    heights = np.linspace(trunk.foot, trunk.top, levels)
    sections, _ = trunk.section(heights)
    turn = _turns()
    x = sections[:, :1] * np.cos(turn)
    z = sections[:, 2:] + sections[:, 1:2] * np.sin(turn)
    return _rings(np.stack([x, np.broadcast_to(heights[:, None], x.shape), z], axis=2))


def _around(axis: Floats) -> Floats:
    """Two directions square to a direction of length 1 and to each other."""
    least = np.eye(3)[np.abs(axis).argmin()]
    first = np.cross(axis, least)
    first /= np.linalg.norm(first)
    return np.array([first, np.cross(axis, first)])


def _round_cone(start: Floats, end: Floats, first: float, last: float) -> _Sheet:
    length = float(np.linalg.norm(end - start))
    axis = (end - start) / length
    lean = math.asin(min(1.0, max(-1.0, (first - last) / length)))
    tilts = [
        *((start, first, each) for each in np.linspace(-math.pi / 2, lean, _CAP + 1)[1:]),
        *((end, last, each) for each in np.linspace(lean, math.pi / 2, _CAP + 1)[:-1]),
    ]
    turn, sides = _turns(), _around(axis)
    round_it = np.cos(turn)[:, None] * sides[0] + np.sin(turn)[:, None] * sides[1]
    rings = [
        centre + radius * (math.sin(tilt) * axis + math.cos(tilt) * round_it)
        for centre, radius, tilt in tilts
    ]
    return _rings(np.array(rings))


def _foot(size: FigureSize) -> _Sheet:
    """The right one, on the floor; nothing hangs so low, so that it is only drawn."""
    half = size.height_cm / 2 * np.array([FOOT_SHARE, ANKLE_SHARE, FOOT_LENGTH_SHARE])
    centre = np.array([size.hip_breadth_cm / 4, half[1], half[2] / 2])
    return _ellipsoid(centre, half[[2, 0, 1]], np.eye(3)[[2, 0, 1]])


def _ellipsoid(centre: Floats, half: Floats, axes: Floats) -> _Sheet:
    turn = _turns()
    tilts = np.linspace(_POLE - math.pi / 2, math.pi / 2 - _POLE, 2 * _CAP + 1)
    rings = [
        np.column_stack(
            [np.full(_AROUND, math.sin(tilt)), math.cos(tilt) * np.cos(turn), math.cos(tilt) * np.sin(turn)]
        )
        for tilt in tilts
    ]
    return _rings(centre + (np.array(rings) * half) @ axes)
