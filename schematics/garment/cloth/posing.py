"""A garment on a body: the body grown into it, the arms moved, left to come to rest."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from schematics.garment.cloth.arrays import Floats, Indices
from schematics.garment.cloth.contact import Contact, Load, Tether
from schematics.garment.cloth.hanging import Fabric3d, step
from schematics.garment.cloth.solid_body import SolidBody, solid_body

STEP_S = 0.3
"""A step resists like the mass of the fabric in so short a fall."""

_GROWN = np.linspace(0.2, 1.0, 9)
_GROWING_GRAVITY = 0.02
_HELD_ARM_BAND, _HELD_NECK_BAND = 5.0, 0.3
"""N/cm that hold each point of a band meanwhile; the chin may push that of the neck away."""
_TURN = math.radians(7)
"""The arms turn by at most so much in a step."""
_ALONG_CM = 2.0
"""Fabric nearer to the arm than this turns with it, farther off less and less, to nothing at twice as far."""
STILL_CM = 0.05
"""Where no point moves farther in a step, the fabric is at rest."""
_MOST_STEPS = 200
_TOLERANCE = 3e-3
_MOST_NEWTON = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class OnBody:
    """Fabric on a body: its points, the body, how far the last step moved any, and the work done."""

    points: Floats
    body: SolidBody
    moved_cm: float = 0.0
    steps: int = 0
    iterations: int = 0
    evaluations: int = 0


def put_on(cloth: Fabric3d, worn: OnBody, arm_bands: Indices, neck_band: Indices) -> OnBody:
    """The body grown to its size, without friction and nearly without weight, the bands held meanwhile."""
    stiffness = np.zeros(len(worn.points))
    stiffness[neck_band], stiffness[arm_bands] = _HELD_NECK_BAND, _HELD_ARM_BAND
    tether = Tether(start=worn.points, stiffness=stiffness)
    for grown in _GROWN:
        body = solid_body(worn.body.size, worn.body.arm, float(grown))
        worn = _stepped(cloth, worn, body, (tether,), gravity=_GROWING_GRAVITY)
    return worn


def turn_arms(cloth: Fabric3d, worn: OnBody, direction: Floats, friction: float) -> OnBody:
    """The arms turned to a unit vector, the fabric on them with them; ``friction`` is its coefficient."""
    start = worn.body.arm.direction
    angle = math.acos(float(np.clip(start @ direction, -1, 1)))
    steps = math.ceil(angle / _TURN - 1e-9)
    for at in range(1, steps + 1):
        share = at / steps
        between = (math.sin((1 - share) * angle) * start + math.sin(share * angle) * direction) / math.sin(
            angle
        )
        arm = worn.body.arm.turned_to(between)
        worn = _rubbed(cloth, worn, solid_body(worn.body.size, arm), friction)
    return worn


def settle(cloth: Fabric3d, worn: OnBody, friction: float, still_cm: float = STILL_CM) -> OnBody:
    """Steps until it is at rest, no point moving by ``still_cm`` in one, a limited number of them."""
    for _ in range(_MOST_STEPS):
        worn = _rubbed(cloth, worn, worn.body, friction)
        if worn.moved_cm < still_cm:
            break
    return worn


def _rubbed(cloth: Fabric3d, worn: OnBody, body: SolidBody, friction: float) -> OnBody:
    anchor = _carried(worn.points, worn.body, body)
    before = Contact(solid=worn.body, area=cloth.area)
    return _stepped(cloth, worn, body, (before.rubbing(worn.points, anchor, friction),))


def _stepped(
    cloth: Fabric3d, worn: OnBody, body: SolidBody, loads: Sequence[Load], gravity: float = 1.0
) -> OnBody:
    stepped = step(
        cloth,
        _carried(worn.points, worn.body, body),
        loads=(Contact(solid=body, area=cloth.area), *loads),
        gravity=gravity,
        tolerance=_TOLERANCE,
        most=_MOST_NEWTON,
    )
    return OnBody(
        points=stepped.points,
        body=body,
        moved_cm=float(np.abs(stepped.points - worn.points).max()),
        steps=worn.steps + 1,
        iterations=worn.iterations + stepped.iterations,
        evaluations=worn.evaluations + stepped.evaluations,
    )


def _carried(points: Floats, before: SolidBody, after: SolidBody) -> Floats:
    """Points near the arm turned with it."""
    one, other = before.arm.direction, after.arm.direction
    cosine = float(one @ other)
    if cosine > 1 - 1e-12:
        return points
    axis = np.cross(one, other)
    off = points - before.arm.joint
    turned = off * cosine + np.cross(axis, off) + np.outer(off @ axis, axis) / (1 + cosine)
    along = off @ one
    length = before.arm.length_cm + before.arm.hand_cm
    from_axis = np.sqrt(np.maximum((off**2).sum(axis=1) - along**2, 0)) - before.arm.upper_radius_cm
    share = np.clip(2 - from_axis / _ALONG_CM, 0.0, 1.0)
    share = share * np.clip(along / (0.15 * length), 0.0, 1.0)
    carried: Floats = points + share[:, None] * (turned - off)
    return carried
