"""A wearer as a solid, from the measurements of the plain figure: a loft, balls' hulls and ellipsoids.

Centimetres; x = 0 is the plane of symmetry, y is up from the floor, z to the front. It is described at
x >= 0 and mirrored. Landmarks and breadths are those of `schematics.wearer.body_figure`; what a view from the
front does not say is a plain choice, named below.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from scipy.interpolate import PchipInterpolator

from schematics.garment.cloth.arrays import Floats
from schematics.garment.cloth.round_parts import Ellipsoids, Loft, RoundCones
from schematics.wearer.body_figure import (
    ANKLE_BREADTH_SHARE,
    ANKLE_SHARE,
    HEAD_LENGTH_SHARE,
    KNEE_BREADTH_SHARE,
    SHOULDER_SLOPE,
    FigureSize,
)
from schematics.wearer.over_arms import CHEST_DEPTH_SHARE

_NECK_LEAN = math.radians(20)
"""How far the neck leans forward of upright (common practice, no source)."""

_UPPER_BACK_SHARE = 0.75
"""How far behind the middle of the chest the nape is, over half the chest's depth (a plain choice)."""

_SHOULDER_DEPTH_SHARE = 0.65
"""Depth of the trunk at the shoulders over that at the chest (a plain choice)."""

_CROTCH_SHARE = 0.05
"""How far the trunk goes on below the hip, over the height (a plain choice)."""

_LOFT_STEP = 0.25

_WITHIN = 0.85
"""Where the trunk ends, inside the neck and the thighs, over their breadth."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SolidArm:
    """The straight arm at x > 0: its joint, the direction it points in and its lengths, hand apart."""

    joint: Floats
    direction: Floats
    length_cm: float
    hand_cm: float
    upper_radius_cm: float
    wrist_radius_cm: float
    hand_radius_cm: float

    def at(self, along_cm: float) -> Floats:
        """A point of its axis, so far from the joint."""
        point: Floats = self.joint + along_cm * self.direction
        return point

    def radius(self, along_cm: float) -> float:
        """Half its thickness, so far from the joint: tapered to the wrist, then the hand's."""
        if along_cm > self.length_cm:
            return self.hand_radius_cm
        share = along_cm / self.length_cm
        return self.upper_radius_cm + (self.wrist_radius_cm - self.upper_radius_cm) * share

    def turned_to(self, direction: Floats) -> SolidArm:
        """The arm pointing in another direction."""
        return replace(self, direction=direction / math.sqrt(float(direction @ direction)))


def arm_direction(angle: float) -> Floats:
    """Of an arm at that angle to the body, in radians, to the side: nought hangs down."""
    return np.array([math.sin(angle), -math.cos(angle), 0.0])


@dataclass(frozen=True, slots=True, kw_only=True)
class SolidBody:
    """A body in a pose.

    ``grown`` scales the girths of all but arms and neck, for a body that grows into a garment.
    """

    size: FigureSize
    arm: SolidArm
    grown: float
    trunk: Loft
    cones: RoundCones
    ellipsoids: Ellipsoids

    def parts(self, points: Floats) -> tuple[Floats, Floats]:
        """Distances ``(parts, n)`` and gradients ``(parts, n, 3)`` from points at x >= 0 to each part."""
        pairs = [each.distance(points) for each in (self.trunk, self.cones, self.ellipsoids)]
        return np.concatenate([one for one, _ in pairs]), np.concatenate([other for _, other in pairs])

    def distance(self, points: Floats) -> tuple[Floats, Floats]:
        """Signed distances ``(n,)`` to the body and their gradients ``(n, 3)``, of any points."""
        sign = np.where(points[:, 0] < 0, -1.0, 1.0)
        apart, away = self.parts(points * np.column_stack([sign, np.ones((len(points), 2))]))
        nearest = apart.argmin(axis=0)
        each = np.arange(len(points))
        gradient = away[nearest, each]
        gradient[:, 0] *= sign
        return apart[nearest, each], gradient


def solid_arm(size: FigureSize, direction: Floats) -> SolidArm:
    """The arm of that figure.

    Its joint is a radius inside the shoulder tip. From there to the wrist it is half a radius longer than
    from the tip: with the arm level the tape goes straight over the joint, with the arm down round it.
    """
    radius = size.upper_arm_girth_cm / math.tau
    joint = np.array(
        [size.shoulder_breadth_cm / 2 - radius, size.shoulder_height_cm - radius, _back(size) / 2]
    )
    return SolidArm(
        joint=joint,
        direction=direction,
        length_cm=size.arm_cm + radius / 2,
        hand_cm=size.hand_cm,
        upper_radius_cm=radius,
        wrist_radius_cm=size.wrist_girth_cm / math.tau,
        hand_radius_cm=size.hand_girth_cm / math.tau,
    )


def solid_body(size: FigureSize, arm: SolidArm, grown: float = 1.0) -> SolidBody:
    """The body of that figure with both arms held like ``arm``; ``grown`` is as in `SolidBody`."""
    neck = size.neck_breadth_cm / 2
    middle = neck_middle(size)
    lean = np.array([0.0, math.cos(_NECK_LEAN), math.sin(_NECK_LEAN)])
    head_middle = size.height_cm - size.head_height_cm / 2
    up = (head_middle - size.nape_height_cm) / lean[1]
    thigh = size.hip_breadth_cm / 4
    knee, ankle = (share * size.height_cm / 2 for share in (KNEE_BREADTH_SHARE, ANKLE_BREADTH_SHARE))
    slope_foot = np.array(
        [neck, size.nape_height_cm - arm.upper_radius_cm / math.cos(SHOULDER_SLOPE), _back(size) / 2]
    )
    limbs = (
        (arm.joint, arm.at(arm.length_cm), arm.upper_radius_cm, arm.wrist_radius_cm),
        (slope_foot, arm.joint, arm.upper_radius_cm, arm.upper_radius_cm),
        (middle - 1.5 * neck * lean, middle + up * lean, neck, 0.95 * neck),
        ([thigh, size.hip_height_cm, 0], [thigh, size.knee_height_cm, 0], thigh, knee),
        (
            [thigh, size.knee_height_cm, 0],
            [thigh, ANKLE_SHARE * size.height_cm, 0],
            knee,
            ankle,
        ),
    )
    start, end, first, last = (np.array(each, dtype=float) for each in zip(*limbs, strict=True))
    scale = np.array([1.0, grown, 1.0, grown, grown])
    breadth = size.head_breadth_cm / 2
    side = np.array([arm.direction[1], -arm.direction[0], 0.0])
    side = side / max(math.hypot(*side), 1e-9)
    return SolidBody(
        size=size,
        arm=arm,
        grown=grown,
        trunk=_trunk(size, grown),
        cones=RoundCones(start=start, end=end, start_radius=scale * first, end_radius=scale * last),
        ellipsoids=Ellipsoids(
            centre=np.array([middle + up * lean, arm.at(arm.length_cm + arm.hand_cm / 2)]),
            half=np.array(
                [
                    [grown * breadth, grown * size.head_height_cm / 2, grown * breadth * HEAD_LENGTH_SHARE],
                    [arm.hand_cm / 2, arm.hand_radius_cm, arm.hand_radius_cm],
                ]
            ),
            axes=np.array([np.eye(3), [arm.direction, side, np.cross(arm.direction, side)]]),
        ),
    )


def neck_middle(size: FigureSize) -> Floats:
    """The middle of the neck at the height of the nape."""
    return np.array([0.0, size.nape_height_cm, _back(size) + size.neck_breadth_cm / 2])


def _back(size: FigureSize) -> float:
    """How far forward the nape is; negative, behind the middle of the chest."""
    return -_UPPER_BACK_SHARE * size.chest_breadth_cm * CHEST_DEPTH_SHARE / 2


def _trunk(size: FigureSize, grown: float) -> Loft:
    """Hip to neck; the shoulders slope from the sides of the neck to above the joints of the arms."""
    neck, chest, hip = size.neck_breadth_cm / 2, size.chest_breadth_cm / 2, size.hip_breadth_cm / 2
    nape, armpit = size.nape_height_cm, size.armpit_height_cm
    joint = max(size.shoulder_breadth_cm / 2 - size.upper_arm_girth_cm / math.tau, 1.05 * neck)
    shoulder = nape - size.fall_cm(joint)
    depth, back = chest * CHEST_DEPTH_SHARE, _back(size)
    at_shoulder = max(_SHOULDER_DEPTH_SHARE * depth, neck)
    knots = [
        (
            size.hip_height_cm - _CROTCH_SHARE * size.height_cm,
            _WITHIN * hip,
            hip / 2,
            0.0,
        ),
        (size.hip_height_cm, hip, hip * CHEST_DEPTH_SHARE, 0.0),
        (armpit, chest, depth, 0.0),
        (shoulder, min(joint, chest), at_shoulder, back / 2),
        (nape, neck, neck, back + neck),
        (nape + 0.5 * neck, _WITHIN * neck, _WITHIN * neck, back + neck + 0.5 * neck * math.tan(_NECK_LEAN)),
    ]
    rising = [knots[0]]
    for knot in knots[1:]:
        if knot[0] > rising[-1][0] + 0.1:
            rising.append(knot)
    table = np.array(rising)
    steps = math.floor((table[-1, 0] - table[0, 0]) / _LOFT_STEP) + 1
    heights = table[0, 0] + _LOFT_STEP * np.arange(steps)
    sections = PchipInterpolator(table[:, 0], table[:, 1:])(heights)
    return Loft(foot=float(table[0, 0]), step=_LOFT_STEP, sections=sections * np.array([grown, grown, 1.0]))
