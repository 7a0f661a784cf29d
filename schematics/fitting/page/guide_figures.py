"""Drawings of the measuring guide: a plain figure with the tape on it, each measurement numbered.

Heavy lines are the tape, thin ones the body. They show where to measure and are to no scale: the
figure is that of a typical child of six years.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from types import MappingProxyType

from markupsafe import Markup
from shapely import LineString, Point, Polygon, box, line_merge, unary_union
from shapely.affinity import rotate, translate
from shapely.geometry.base import BaseGeometry

from schematics.document.lettering.text import SMALL
from schematics.drawing.ink.marks import Area, Circle, Group, Line, Mark, Pen, Text, arrowhead
from schematics.drawing.ink.marks import Point as Spot
from schematics.drawing.ink.scale import to_mm
from schematics.fitting.page.guide_words import NUMBERS, GuideView
from schematics.fitting.page.inline_svg import inline_svg
from schematics.wearer.body import Body, WearerSpec
from schematics.wearer.body_figure import BodyFigure, ellipse, figure
from schematics.wearer.proportions import proportioned
from schematics.wearer.resolve import resolve

_SCALE, _HAND_SCALE = 15, 3
_BADGE = 2.6
"""Radius of the circle round a number, in mm."""

_ARROW = 3.0
_SAG = 0.16
"""Half the height of a tape seen from a little above, over its breadth."""

_TURNS = [math.pi * i / 24 for i in range(25)]


def _point(x_cm: float, y_cm: float) -> Spot:
    return to_mm(x_cm, _SCALE), -to_mm(y_cm, _SCALE)


def _outline(shape: Polygon) -> Area:
    return Area(tuple(_point(x, y) for x, y, *_ in shape.exterior.coords[:-1]), Pen.THIN)


def _heads(points: Sequence[Spot]) -> list[Mark]:
    ends = [(points[-1], points[-2]), (points[0], points[1])]
    return [arrowhead(tip, (tip[0] - behind[0], tip[1] - behind[1]), _ARROW) for tip, behind in ends]


def _arrow(*points: Spot) -> list[Mark]:
    """The tape along a line, with arrowheads at its ends."""
    return [Line(points, Pen.OUTLINE), *_heads(points)]


def _numbered(body: Body, start: Spot, end: Spot, share: float = 0.5) -> list[Group]:
    """The tape along a straight line, its number in a gap of it ``share`` along it."""
    at, length = _middle(start, end, share), math.dist(start, end)
    gap = _BADGE / length
    halves = [(start, _middle(start, end, share - gap)), (_middle(start, end, share + gap), end)]
    marks: list[Mark] = [Line(half, Pen.OUTLINE) for half in halves]
    return [Group("tape", body.value, (*marks, *_heads((start, end)))), _badge(body, at)]


def _tape(left: Spot, right: Spot) -> list[Mark]:
    """The tape round a limb between two points of its outline: before it solid, behind it dashed."""
    middle = (left[0] + right[0]) / 2, (left[1] + right[1]) / 2
    along = (right[0] - left[0]) / 2, (right[1] - left[1]) / 2
    across = -along[1] * 2 * _SAG, along[0] * 2 * _SAG
    front, behind = (
        tuple(
            (
                middle[0] - math.cos(turn) * along[0] + side * math.sin(turn) * across[0],
                middle[1] - math.cos(turn) * along[1] + side * math.sin(turn) * across[1],
            )
            for turn in _TURNS
        )
        for side in (1, -1)
    )
    return [Line(behind, Pen.SEAM), Line(front, Pen.OUTLINE)]


def _badge(body: Body, at: Spot, tip: Spot | None = None) -> Group:
    """The measurement's number in a circle, with a thin line to ``tip``."""
    words = Text((at[0], at[1] + SMALL / 2), str(NUMBERS[body]), SMALL, "middle", bold=True)
    marks: list[Mark] = [Circle(at, _BADGE), words]
    if tip is not None:
        away = math.dist(at, tip)
        share = _BADGE / away
        start = at[0] + (tip[0] - at[0]) * share, at[1] + (tip[1] - at[1]) * share
        marks.append(Line((start, tip)))
    return Group("number", body.value, tuple(marks))


def _across(shape: Polygon, height_cm: float) -> tuple[Spot, Spot]:
    """Where the figure's middle is crossed at a height."""
    low_x, _, high_x, _ = shape.bounds
    cut = shape.intersection(LineString([(low_x - 1, height_cm), (high_x + 1, height_cm)]))
    parts = [part for part in getattr(cut, "geoms", [cut]) if part.bounds[0] < 0 < part.bounds[2]]
    x0, _, x1, _ = parts[0].bounds
    return _point(x0, height_cm), _point(x1, height_cm)


@cache
def _child(angle: float) -> BodyFigure:
    """A typical child of six years, arms at that angle to the body."""
    body = proportioned(resolve(WearerSpec(chart="age/6"), "guide"))
    if body is None:
        raise LookupError("the survey gives a child of six years no height")
    return figure(body.size, angle)


def _front() -> list[Group]:
    body = _child(math.radians(24))
    size, arm = body.size, body.arm
    head = _across(body.outline, size.height_cm - 0.38 * size.head_height_cm)
    neck = _across(body.outline, size.nape_height_cm + 0.8)
    chest_height = size.armpit_height_cm - 1.5
    half = size.chest_breadth_cm / 2
    chest = _point(-half, chest_height), _point(half, chest_height)
    upper, wrist = (
        (_point(*arm.side(along, -1)), _point(*arm.side(along, 1))) for along in (9.0, arm.length_cm - 0.5)
    )
    ends = {
        Body.HEAD_GIRTH: head,
        Body.NECK_GIRTH: neck,
        Body.CHEST_GIRTH: chest,
        Body.UPPER_ARM_GIRTH: upper,
        Body.WRIST_GIRTH: wrist,
    }
    middle = (chest[0][0] + chest[1][0]) / 2
    right, left = to_mm(size.shoulder_breadth_cm, _SCALE) + 2, -to_mm(size.shoulder_breadth_cm, _SCALE) - 2
    return [
        Group("figure", "front", (_outline(body.outline),)),
        *(Group("tape", body.value, tuple(_tape(*each))) for body, each in ends.items()),
        _badge(Body.HEAD_GIRTH, (right, head[1][1] - 3), head[1]),
        _badge(Body.NECK_GIRTH, (left, neck[0][1] - 3), neck[0]),
        _badge(Body.CHEST_GIRTH, (middle, chest[0][1] + 9)),
        _badge(Body.UPPER_ARM_GIRTH, (upper[1][0] + 8, upper[1][1] - 5), upper[1]),
        _badge(Body.WRIST_GIRTH, (wrist[1][0] + 7, wrist[1][1] - 4), wrist[1]),
    ]


def _back() -> list[Group]:
    body = _child(math.radians(24))
    size, arm = body.size, body.arm
    tip_x, tip_y = arm.tip
    tips = _point(-tip_x, tip_y), _point(tip_x, tip_y)
    nape, waist = _point(0, size.nape_height_cm), _point(0, size.waist_height_cm)
    sleeve = [nape, tips[1], _point(*arm.side(arm.length_cm, 1))]
    elbow, wrist = (_point(*arm.at(along, arm.upper_radius_cm + 4.5)) for along in (15.0, arm.length_cm))
    armpit = size.armpit_height_cm
    depth = [_point(-tip_x + 2.4, height) for height in (tip_y, armpit)]
    waist_level = Line(_across(body.outline, size.waist_height_cm), Pen.SEAM)
    under_arm = Line((_point(-tip_x - 1, armpit), _point(-tip_x + 8, armpit)), Pen.SEAM)
    side = to_mm(size.shoulder_breadth_cm, _SCALE) + 2
    return [
        Group("figure", "back", (_outline(body.outline),)),
        Group("level", "back", (waist_level, Circle(nape, 0.8, Pen.SOLID))),
        Group("tape", Body.SHOULDER_BREADTH.value, tuple(_arrow(*tips))),
        Group("tape", Body.CENTRE_BACK_NECK_TO_WRIST.value, tuple(_arrow(*sleeve))),
        Group("tape", Body.ARMHOLE_DEPTH.value, (*_arrow(*depth), under_arm)),
        _badge(Body.SHOULDER_BREADTH, (-side, tips[0][1] - 6), _middle(*tips, 0.25)),
        _badge(
            Body.CENTRE_BACK_NECK_TO_WRIST, (side + 3, tips[1][1] + 2), _middle(sleeve[1], sleeve[2], 0.25)
        ),
        *_numbered(Body.FOREARM_LENGTH, (-elbow[0], elbow[1]), (-wrist[0], wrist[1])),
        _badge(Body.ARMHOLE_DEPTH, (-side - 2, depth[1][1] - 1), _middle(depth[0], depth[1], 0.7)),
        *_numbered(Body.BACK_WAIST_LENGTH, nape, waist, 0.6),
    ]


def _middle(first: Spot, second: Spot, share: float) -> Spot:
    return first[0] + (second[0] - first[0]) * share, first[1] + (second[1] - first[1]) * share


def _wall() -> list[Group]:
    body = _child(math.radians(7))
    size = body.size
    knee = to_mm(size.hip_breadth_cm / 4, _SCALE)
    heights = {
        Body.KNEE_HEIGHT: (size.knee_height_cm, knee),
        Body.HIP_HEIGHT: (size.hip_height_cm, 0.0),
        Body.WAIST_HEIGHT: (size.waist_height_cm, 0.0),
        Body.NAPE_HEIGHT: (size.nape_height_cm, 0.0),
        Body.HEIGHT: (size.height_cm, 0.0),
    }
    edge = to_mm(body.outline.bounds[2], _SCALE)
    groups = [Group("figure", "wall", (_outline(body.outline),))]
    for lane, (measured, (height, start)) in enumerate(heights.items()):
        x, top = edge + 4 + 7.0 * lane, -to_mm(height, _SCALE)
        level = Line(((start, top), (x + 1.5, top)), Pen.SEAM)
        groups += [Group("level", measured.value, (level,)), *_numbered(measured, (x, 0.0), (x, top))]
    floor = Line(((-edge - 2, 0.0), (edge + 4 + 7.0 * len(heights), 0.0)), Pen.OUTLINE)
    return [*groups, Group("floor", "wall", (floor,))]


def _capsule(length: float, breadth: float) -> Polygon:
    """A finger upright on nought, its tip round."""
    shape = LineString([(0, 0), (0, length - breadth / 2)]).buffer(breadth / 2, quad_segs=12)
    whole = shape.intersection(box(-breadth, 0, breadth, length))
    return whole if isinstance(whole, Polygon) else shape


def _hand() -> list[Group]:
    """The palm of a hand, fingers together, the thumb laid over it."""
    fingers = [
        translate(_capsule(length, 1.45), x, 5.6)
        for x, length in ((-2.1, 4.6), (-0.7, 5.4), (0.7, 5.0), (2.1, 3.8))
    ]
    palm = box(-2.1, 0.9, 2.1, 5.9).buffer(0.72, quad_segs=12)
    arm = Polygon([(-1.7, -3.2), (1.7, -3.2), (2.2, 1.4), (-2.2, 1.4)])
    ball = ellipse((-2.2, 2.2), 1.6, 3.4)
    hand = unary_union([palm, arm, ball, *fingers]).boundary
    thumb = translate(rotate(_capsule(5.2, 1.7), -50, origin=(0, 0)), -2.4, 2.0)
    over_palm = line_merge(thumb.exterior.difference(Point(-2.4, 2.0).buffer(1.3)))
    ends = _hand_points(LineString([(-2.95, 4.1), (2.95, 4.1)]))
    between = [LineString([(x, 6.3), (x, 9.4)]) for x in (-1.4, 0.0, 1.4)]
    return [
        Group(
            "figure",
            "hand",
            tuple(Line(_hand_points(line), Pen.THIN) for line in (hand, over_palm, *between)),
        ),
        Group("tape", Body.HAND_GIRTH.value, tuple(_tape(*ends))),
        _badge(Body.HAND_GIRTH, (ends[1][0] + 10, ends[1][1] - 8), ends[1]),
    ]


def _hand_points(line: BaseGeometry) -> tuple[Spot, ...]:
    return tuple((to_mm(x, _HAND_SCALE), -to_mm(y, _HAND_SCALE)) for x, y, *_ in line.coords)


DRAWINGS: Mapping[str, Callable[[], list[Group]]] = MappingProxyType(
    {"front": _front, "hand": _hand, "back": _back, "wall": _wall}
)
"""What draws each view of the guide, by its key."""


def view_svg(view: GuideView, bodies: Sequence[Body], *, named: bool = False) -> Markup:
    """The view with the numbers of so many of its measurements, for a page; see `inline_svg`."""
    shown = {view.key, *(body.value for body in bodies)}
    groups = [group for group in DRAWINGS[view.key]() if group.name in shown]
    numbered = ", ".join(f"{NUMBERS[body]} {body.words}" for body in bodies)
    description = f"A plain figure with the tape: {numbered}."
    return inline_svg(groups, f"{view.title}: where to measure", description, named=named)
