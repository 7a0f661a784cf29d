"""The surfaces of a solid body, part by part: rings of points, closed to tubes."""

from __future__ import annotations

import math

import numpy as np

from schematics.cloth.solid_body import SolidBody
from schematics.drawing.draped.surfaces import Floats, Surface

_AROUND = 48
"""Points to a ring."""

_RINGS = 12
"""Rings from a pole of a ball to its middle."""

_MIDDLE = 1e-6
"""What is no farther aside than this, in cm, is there once."""

_TURNS = np.linspace(0.0, math.tau, _AROUND, endpoint=False)
_CIRCLE = np.stack([np.cos(_TURNS), np.sin(_TURNS)], axis=1)


def body_surfaces(body: SolidBody) -> tuple[Surface, ...]:
    """Trunk, head, neck and limbs of both sides, each closed; they reach into each other."""
    cones, balls = body.cones, body.ellipsoids
    one_side = [
        *map(_round_cone, cones.start, cones.end, cones.start_radius, cones.end_radius),
        *map(_ellipsoid, balls.centre, balls.half, balls.axes),
    ]
    twice = [each for each in one_side if abs(each.vertices[:, 0].mean()) > _MIDDLE]
    return (_trunk(body), *one_side, *(_mirrored(each) for each in twice))


def ringed(rings: Floats) -> Surface:
    """Rings ``(k, n, 3)`` one after the other; seen from the end they come from, each runs clockwise."""
    count, around, _ = rings.shape
    numbers = np.arange(count * around).reshape(count, around)
    a, b = numbers[:-1], numbers[1:]
    c, d = np.roll(b, -1, axis=1), np.roll(a, -1, axis=1)
    halves = (np.stack([a, c, b], axis=-1), np.stack([a, d, c], axis=-1))
    triangles = np.concatenate([half.reshape(-1, 3) for half in halves])
    return Surface(vertices=rings.reshape(-1, 3), triangles=triangles, lines={})


def _round_cone(start: Floats, end: Floats, first: float, last: float) -> Surface:
    """The hull of two balls."""
    axis = end - start
    length = float(np.linalg.norm(axis))
    tangent = math.asin(min(max((first - last) / length, -1.0), 1.0))
    lower = np.linspace(-math.pi / 2, tangent, 2 * _RINGS)
    upper = np.linspace(tangent, math.pi / 2, 2 * _RINGS)
    along = np.concatenate([first * np.sin(lower), length + last * np.sin(upper)])
    radius = np.concatenate([first * np.cos(lower), last * np.cos(upper)])
    one, other = _square_to(axis / length)
    ring = _CIRCLE[:, :1] * one + _CIRCLE[:, 1:] * other
    middles = start + along[:, None] * axis / length
    return ringed(middles[:, None] + radius[:, None, None] * ring)


def _ellipsoid(centre: Floats, half: Floats, axes: Floats) -> Surface:
    turns = np.linspace(-math.pi / 2, math.pi / 2, 2 * _RINGS)
    flat = np.broadcast_to(_CIRCLE, (len(turns), _AROUND, 2)) * np.cos(turns)[:, None, None]
    up = np.broadcast_to(np.sin(turns)[:, None, None], (len(turns), _AROUND, 1))
    return ringed(centre + np.concatenate([flat, up], axis=2) * half @ axes)


def _trunk(body: SolidBody) -> Surface:
    """The loft, a ring for every centimetre or so, closed at both ends."""
    loft = body.trunk
    sections = loft.sections[:: max(round(1 / loft.step), 1)]
    heights = loft.foot + loft.step * max(round(1 / loft.step), 1) * np.arange(len(sections))
    half, forward = sections[:, :2], sections[:, 2]
    half, forward, heights = (
        np.concatenate([each[:1], each, each[-1:]]) for each in (half, forward, heights)
    )
    half[[0, -1]] = 0.0
    x = half[:, :1] * _CIRCLE[:, 0]
    z = forward[:, None] - half[:, 1:] * _CIRCLE[:, 1]
    y = np.broadcast_to(heights[:, None], x.shape)
    return ringed(np.stack([x, y, z], axis=2))


def _mirrored(surface: Surface) -> Surface:
    return Surface(
        vertices=surface.vertices * [-1.0, 1.0, 1.0], triangles=surface.triangles[:, ::-1], lines={}
    )


def _square_to(axis: Floats) -> tuple[Floats, Floats]:
    """Two unit directions that with the axis make a right-handed three."""
    least = np.eye(3)[int(np.argmin(np.abs(axis)))]
    one = np.cross(axis, least)
    one = one / np.linalg.norm(one)
    return one, np.cross(axis, one)
