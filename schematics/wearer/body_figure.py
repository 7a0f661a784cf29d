"""A plain standing figure from body measurements: ellipses, boxes and tapered limbs, no face.

Centimetres, seen from the front: x = 0 on the midline, y = 0 on the floor and upwards, the same on
both sides. It shows where things come on a body; it is no likeness and no fitting dummy.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from shapely import LineString, MultiPoint, Point, Polygon, box, unary_union
from shapely.affinity import scale, translate

from schematics.wearer.over_arms import CHEST_DEPTH_SHARE

HEAD_LENGTH_SHARE = 1 / 0.78
"""Length of a head, front to back, over its breadth: cephalic index 78, from memory."""

HEAD_HEIGHT_SHARE = 1.1
"""Chin to crown over the length of the head: figure drawing's five heads at four years and seven and a
half grown, from memory."""

HIP_TO_CHEST = 1.05
"""Hip girth over chest girth: about the middle of the trade's chart (Craft Yarn Council)."""

SHOULDER_SLOPE = math.radians(20)
"""Fall of the shoulder from the side of the neck (common practice, no source)."""

HAND_SHARE, FOOT_SHARE, ANKLE_SHARE = 0.108, 0.055, 0.039
"""Length of the hand, breadth of the foot and height of the ankle over the height: Drillis and Contini
1966, from memory."""

KNEE_BREADTH_SHARE, ANKLE_BREADTH_SHARE = 0.06, 0.04
"""Breadths of knee and ankle over the height: plain choices of this drawing."""

_QUARTER = 16
"""Segments to a quarter circle."""


class Pose(Enum):
    """How the arms are held: the angle between arm and body, in radians."""

    DOWN = math.radians(20)
    LEVEL = math.radians(90)


def ellipse_breadth(girth_cm: float, depth_share: float) -> float:
    """Breadth of an ellipse of that girth whose depth is ``depth_share`` of its breadth.

    Notes:
        Ramanujan's second approximation of the girth; for a depth of 0.5 to 2 times the breadth it
        is exact to nine figures.

    References:
        S. Ramanujan, Modular equations and approximations to pi, Quarterly Journal of Mathematics
        45 (1914), from memory.
    """
    h = ((1 - depth_share) / (1 + depth_share)) ** 2
    girth_of_unit = math.pi / 2 * (1 + depth_share) * (1 + 3 * h / (10 + math.sqrt(4 - 3 * h)))
    return girth_cm / girth_of_unit


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureSize:
    """The measurements a figure is built from, in cm, all positive; girths are taken round the body."""

    height_cm: float
    head_girth_cm: float
    neck_girth_cm: float
    chest_girth_cm: float
    upper_arm_girth_cm: float
    wrist_girth_cm: float
    hand_girth_cm: float
    shoulder_breadth_cm: float
    centre_back_neck_to_wrist_cm: float
    nape_height_cm: float
    waist_height_cm: float
    hip_height_cm: float
    knee_height_cm: float

    @property
    def head_breadth_cm(self) -> float:
        """Breadth of an ellipse of the head's girth."""
        return ellipse_breadth(self.head_girth_cm, HEAD_LENGTH_SHARE)

    @property
    def head_height_cm(self) -> float:
        """Chin to crown, from the head's length."""
        return HEAD_HEIGHT_SHARE * HEAD_LENGTH_SHARE * self.head_breadth_cm

    @property
    def neck_breadth_cm(self) -> float:
        """Breadth of a round neck."""
        return self.neck_girth_cm / math.pi

    @property
    def chest_breadth_cm(self) -> float:
        """Breadth of an ellipse of the chest's girth."""
        return ellipse_breadth(self.chest_girth_cm, CHEST_DEPTH_SHARE)

    @property
    def hip_breadth_cm(self) -> float:
        """Breadth of an ellipse of the hip girth that goes with the chest's."""
        return ellipse_breadth(HIP_TO_CHEST * self.chest_girth_cm, CHEST_DEPTH_SHARE)

    @property
    def shoulder_height_cm(self) -> float:
        """Height of the shoulder tip: below the nape by the slope from the side of the neck."""
        return self.nape_height_cm - self.fall_cm(self.shoulder_breadth_cm / 2)

    @property
    def armpit_height_cm(self) -> float:
        """Height of the armpit: a round arm hangs below the shoulder tip."""
        return self.shoulder_height_cm - self.upper_arm_girth_cm / math.pi

    @property
    def arm_cm(self) -> float:
        """Shoulder tip to wrist: centre back neck to wrist less half the shoulder breadth."""
        return max(self.centre_back_neck_to_wrist_cm - self.shoulder_breadth_cm / 2, 0.0)

    @property
    def hand_cm(self) -> float:
        """Length of the hand."""
        return HAND_SHARE * self.height_cm

    def fall_cm(self, x_cm: float) -> float:
        """How far the shoulder line lies below the nape at that distance from the midline."""
        return max(x_cm - self.neck_breadth_cm / 2, 0.0) * math.tan(SHOULDER_SLOPE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Arm:
    """The arm at x > 0, straight, hanging from the shoulder tip at ``angle`` to the body.

    Lengths along it are taken from the shoulder tip on its outer or upper side.
    """

    tip: tuple[float, float]
    angle: float
    length_cm: float
    hand_cm: float
    upper_radius_cm: float
    wrist_radius_cm: float
    hand_radius_cm: float

    def radius(self, along_cm: float) -> float:
        """Half its thickness ``along_cm`` from the shoulder: tapered to the wrist, then the hand's."""
        if along_cm > self.length_cm:
            return self.hand_radius_cm
        share = along_cm / self.length_cm if self.length_cm else 1.0
        return self.upper_radius_cm + (self.wrist_radius_cm - self.upper_radius_cm) * share

    def at(self, along_cm: float, off_cm: float = 0.0) -> tuple[float, float]:
        """A point ``along_cm`` from the shoulder, ``off_cm`` off the middle, outwards or upwards."""
        sin, cos = math.sin(self.angle), math.cos(self.angle)
        x, y = self.tip
        off = off_cm - self.upper_radius_cm
        return x + along_cm * sin + off * cos, y - along_cm * cos + off * sin

    def side(self, along_cm: float, sign: int) -> tuple[float, float]:
        """A point on its outer (``way`` 1) or inner (-1) side."""
        return self.at(along_cm, sign * self.radius(along_cm))


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyFigure:
    """A figure in a pose; ``outline`` is valid, in one part, and the same on both sides."""

    size: FigureSize
    arm: Arm
    outline: Polygon


def figure(size: FigureSize, angle: float = Pose.DOWN.value) -> BodyFigure:
    """The figure with both arms at ``angle`` to the body, in radians: nought hang down, a right angle level.

    What hangs on a limb without girth is left out.
    """
    arm = Arm(
        tip=(size.shoulder_breadth_cm / 2, size.shoulder_height_cm),
        angle=angle,
        length_cm=size.arm_cm,
        hand_cm=size.hand_cm,
        upper_radius_cm=size.upper_arm_girth_cm / math.tau,
        wrist_radius_cm=size.wrist_girth_cm / math.tau,
        hand_radius_cm=size.hand_girth_cm / math.tau,
    )
    root = MultiPoint([arm.side(0, 1), arm.side(0, -1), *_chest_and_neck(size)]).convex_hull
    right = [*_arm_parts(arm), root, *_leg_parts(size)]
    left = [scale(part, xfact=-1, origin=(0, 0)) for part in right]
    whole = unary_union([*_trunk_parts(size), *right, *left])
    joined = [part for part in getattr(whole, "geoms", [whole]) if isinstance(part, Polygon)]
    return BodyFigure(size=size, arm=arm, outline=max(joined, key=lambda part: part.area))


def ellipse(centre: tuple[float, float], breadth: float, height: float) -> Polygon:
    """An upright ellipse, so many cm broad and high."""
    disc = Point(0, 0).buffer(1, quad_segs=_QUARTER)
    return translate(scale(disc, breadth / 2, height / 2), *centre)


def _taper(first: tuple[float, float], r1: float, second: tuple[float, float], r2: float) -> Polygon:
    """The hull of two discs."""
    discs = [
        Point(centre).buffer(max(r, 1e-6), quad_segs=_QUARTER) for centre, r in ((first, r1), (second, r2))
    ]
    hull = unary_union(discs).convex_hull
    return hull if isinstance(hull, Polygon) else discs[0]


def _chest_and_neck(size: FigureSize) -> tuple[tuple[float, float], tuple[float, float]]:
    """Where the chest ends under the arm, and the side of the neck."""
    under_arm = size.armpit_height_cm
    return (size.chest_breadth_cm / 2, under_arm), (size.neck_breadth_cm / 2, size.nape_height_cm)


def _trunk_parts(size: FigureSize) -> list[Polygon]:
    """Head, neck, and the trunk: from the shoulders to the chest under the arms, from there to the hip."""
    head_middle = size.height_cm - size.head_height_cm / 2
    chest, neck = _chest_and_neck(size)
    half_neck, nape = neck
    corners = [
        [neck, (size.shoulder_breadth_cm / 2, size.shoulder_height_cm), chest],
        [chest, (size.hip_breadth_cm / 2, size.hip_height_cm)],
    ]
    trunk = [MultiPoint([(s * x, y) for x, y in part for s in (1, -1)]).convex_hull for part in corners]
    return [
        ellipse((0, head_middle), size.head_breadth_cm, size.head_height_cm),
        box(-half_neck, min(chest[1], head_middle), half_neck, max(nape, head_middle)),
        *(part for part in trunk if isinstance(part, Polygon)),
    ]


def _arm_parts(arm: Arm) -> list[Polygon]:
    wrist = Point(arm.at(arm.length_cm)).buffer(arm.wrist_radius_cm, quad_segs=_QUARTER)
    limb = unary_union([LineString([arm.side(0, 1), arm.side(0, -1)]), wrist]).convex_hull
    hand = scale(
        Point(0, 0).buffer(1, quad_segs=_QUARTER), arm.hand_radius_cm, arm.hand_cm / 2, origin=(0, 0)
    )
    sin, cos = math.sin(arm.angle), math.cos(arm.angle)
    middle = arm.at(arm.length_cm + arm.hand_cm / 2)
    turned = Polygon(
        [(middle[0] + x * cos - y * sin, middle[1] + x * sin + y * cos) for x, y in hand.exterior.coords]
    )
    return [*([limb] if isinstance(limb, Polygon) else []), turned]


def _leg_parts(size: FigureSize) -> list[Polygon]:
    """One leg: hip to knee, knee to ankle, and a foot from the ankle to the floor."""
    thigh = size.hip_breadth_cm / 4
    knee = min(KNEE_BREADTH_SHARE * size.height_cm / 2, thigh)
    ankle = min(ANKLE_BREADTH_SHARE * size.height_cm / 2, thigh)
    ankle_height, half_foot = ANKLE_SHARE * size.height_cm, FOOT_SHARE * size.height_cm / 2
    at_hip, at_knee = (thigh, size.hip_height_cm), (thigh, size.knee_height_cm)
    at_ankle = (thigh, ankle_height)
    sole = box(thigh - half_foot, 0, thigh + half_foot, ankle_height / 2)
    foot = unary_union([sole, _taper(at_ankle, ankle, at_ankle, ankle)]).convex_hull
    return [
        _taper(at_hip, thigh, at_knee, knee),
        _taper(at_knee, knee, at_ankle, ankle),
        *([foot] if isinstance(foot, Polygon) else []),
    ]
