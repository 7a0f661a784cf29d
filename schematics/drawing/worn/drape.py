"""How a poncho comes to lie on a figure: a plain model that shows where hem and bands come.

Centimetres in the figure's coordinates, seen from the front. Fabric is taken to lie close along
shoulder and arm and to hang straight below; folds, stretch and the give of the body are left out.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from shapely import LineString, Polygon
from shapely.affinity import scale

from schematics.garment.arm_freedom import ArmFreedom
from schematics.garment.garment import ArmsOn, Garment
from schematics.units import HAIR
from schematics.wearer.body_figure import Arm, BodyFigure, FigureSize, Pose, ellipse_breadth, figure
from schematics.wearer.over_arms import CHEST_DEPTH_SHARE

Vertex = tuple[float, float]

LEAST_ANGLE = math.radians(6)
"""Arms hang no closer to the body than this."""

_PIECES = 24
"""Straight pieces to half a hem or neck edge."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hanging:
    """What of a garment the model needs, in cm.

    ``worn_drop_cm`` is the centre back from neck edge to hem with its sag; ``freedom`` is None where
    reach and spread are unknown.
    """

    garment: Garment
    freedom: ArmFreedom | None
    worn_drop_cm: float

    @property
    def on_hem(self) -> bool:
        """Whether the arm bands are worked onto the hem, not onto the sides."""
        return self.garment.arm.on is ArmsOn.HEM

    @property
    def panel_cm(self) -> tuple[float, float]:
        """Width of the centre panel at its top and at its foot."""
        panel = self.garment.piece("centre panel")
        return panel.edge("top").length_cm, panel.edge("lower").length_cm

    @property
    def half_run_cm(self) -> float:
        """Half the arm run, along its edge."""
        arm = self.garment.arm
        return arm.count / 2 * arm.edge.length_cm / arm.edge.count

    @property
    def before_run_cm(self) -> float:
        """From the arm run along its edge to the edge's front end: the front seam, or the front hem."""
        arm = self.garment.arm
        return (arm.first - 1) * arm.edge.length_cm / arm.edge.count

    def girth_cm(self, depth_cm: float) -> float:
        """Girth of the garment that far below the neck edge; endless where nothing closes the sides."""
        girths = self.garment.girths
        if not girths:
            return math.inf
        depth = min(max(depth_cm, girths[0][0]), girths[-1][0])
        for (d0, g0), (d1, g1) in pairwise(girths):
            if depth <= d1:
                return g0 + (g1 - g0) * (depth - d0) / (d1 - d0) if d1 > d0 else g1
        return girths[-1][1]

    def along_arm_cm(self, size: FigureSize, pose: Pose) -> float:
        """The length along the arm from the shoulder tip to where the arm band joins the body.

        Arms down: the reach, less the band's depth and half the shoulder breadth, which the path from
        the nape takes first. Arms level: the same, or what half the spread leaves where that is less.
        Where they are unknown: the centre-back length, less the path from neck edge to shoulder tip.
        """
        half = size.shoulder_breadth_cm / 2
        if self.freedom is None:
            return max(self.garment.drop_cm - self.over_shoulder_cm(size), 0.0)
        reach = self.freedom.reach_cm
        if pose is Pose.LEVEL:
            reach = min(reach, self.freedom.spread_cm / 2)
        return max(reach - self.freedom.band_depth_cm - half, 0.0)

    def over_shoulder_cm(self, size: FigureSize) -> float:
        """The length along the shoulder from the neck edge to its tip."""
        x, tip = self.neck_half_cm(size), size.shoulder_breadth_cm / 2
        return math.hypot(tip - x, size.fall_cm(tip) - size.fall_cm(x))

    def neck_half_cm(self, size: FigureSize) -> float:
        """Half the breadth of the neck edge: a circle of its girth at rest, between neck and shoulder tip."""
        radius = self.garment.neck.rest_cm / math.tau
        return min(max(radius, size.neck_breadth_cm / 2), size.shoulder_breadth_cm / 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Worn:
    """A garment on a figure.

    ``cloth`` is body and panel, ``hem`` its lower edge from left to right; ``arm_bands`` are right
    and left as seen, empty where it is unknown where they come. ``path`` suggests the path the fabric
    takes: down one arm from the nape, or from band to band with the arms level. ``hem_height_cm`` is
    that of the hem at the centre, over the floor.
    """

    figure: BodyFigure
    cloth: Polygon
    hem: LineString
    neck_band: Polygon
    arm_bands: tuple[Polygon, ...]
    panel_seams: tuple[LineString, ...]
    path: LineString | None
    hem_height_cm: float


def wear(size: FigureSize, hanging: Hanging, pose: Pose) -> Worn | None:
    """The garment on the figure.

    - The neck edge lies round the neck on the line of the shoulders, its centre back at the nape; the
      neck band stands on it.
    - Along shoulder and arm the body comes as far as `Hanging.along_arm_cm` says; the arm bands go on
      from there, round the arm.
    - Arms down, the hem at the centre hangs ``worn_drop_cm`` below the nape.
    - Arms level, it hangs as low, or as low as the hem lets it: hung from both bands like a chain
      (taken as a parabola) it is no longer than it is flat, over the panel from the middle of one run
      to the middle of the other, because the bands tilt.
    - From there to the bands the hem is a parabola. Where the bands are on the sides, these hang
      straight down from the bands, and arms down no lower than the path on the fabric from the shoulder
      tip to the hem's corner.
    - Arms hang away from the body as far as half the garment's girth there allows, as the breadth of
      an ellipse.

    Returns:
        None where the garment is too short to cover the shoulders.
    """
    angle = _angle(size, hanging) if pose is Pose.DOWN else pose.value
    body = figure(size, angle)
    along = hanging.along_arm_cm(size, pose)
    half_edge = max(hanging.garment.arm.ring.edge_cm / math.tau, body.arm.radius(along))
    outer, inner = body.arm.at(along, half_edge), body.arm.at(along, -half_edge)
    corner = inner if hanging.on_hem else _side_corner(hanging, body.arm, along, inner, pose)
    hem_height = size.nape_height_cm - hanging.worn_drop_cm
    if pose is Pose.LEVEL and hanging.on_hem:
        half_hem = hanging.half_run_cm + hanging.before_run_cm + hanging.panel_cm[1] / 2
        hem_height = max(hem_height, corner[1] - chain_sag(corner[0], half_hem))
    neck = _neck_edge(size, hanging)
    hem = _hem(corner, hem_height)
    right = [*neck, body.arm.tip, *_arm_side(body.arm, along, outer), inner, *hem]
    cloth = Polygon([*right, *((-x, y) for x, y in reversed(right[1:-1]))])
    if not cloth.is_valid or hem_height >= min(neck[0][1], size.shoulder_height_cm):
        return None
    return Worn(
        figure=body,
        cloth=cloth,
        hem=LineString([(-x, y) for x, y in hem[:-1]] + hem[::-1]),
        neck_band=_neck_band(neck, hanging.garment.neck.band_depth_cm),
        arm_bands=_arm_bands(hanging, body.arm, along),
        panel_seams=_panel_seams(cloth, *hanging.panel_cm),
        path=_path(size, hanging, body.arm, along, pose),
        hem_height_cm=hem_height,
    )


def chain_sag(half_span: float, half_length: float) -> float:
    """How far a chain hangs down in the middle, taken as a parabola of that arc length.

    Args:
        half_span: half the distance between its ends, positive.
        half_length: half its length; no longer than ``half_span`` gives nought.
    """
    if half_length <= half_span:
        return 0.0
    low, high = 0.0, half_length
    for _ in range(60):
        sag = (low + high) / 2
        low, high = (sag, high) if _half_arc(half_span, sag) < half_length else (low, sag)
    return (low + high) / 2


def _half_arc(half_span: float, sag: float) -> float:
    """Length of a parabola from its lowest point to ``half_span`` aside and ``sag`` up."""
    slope = 2 * sag / half_span
    if slope < HAIR:
        return half_span
    return half_span / 2 * (math.hypot(1, slope) + math.asinh(slope) / slope)


def _angle(size: FigureSize, hanging: Hanging) -> float:
    """The angle of hanging arms at which the garment is no wider over them than its girth allows."""
    along = hanging.along_arm_cm(size, Pose.DOWN)
    girth = hanging.girth_cm(hanging.over_shoulder_cm(size) + along)
    half_breadth = ellipse_breadth(girth, CHEST_DEPTH_SHARE) / 2
    over_arm = max((hanging.garment.arm.ring.edge_cm - size.upper_arm_girth_cm) / math.tau, 0.0)
    room = half_breadth - size.shoulder_breadth_cm / 2 - over_arm
    if along <= 0 or room >= along * math.sin(Pose.DOWN.value):
        return Pose.DOWN.value
    return max(math.asin(max(room, 0.0) / along), LEAST_ANGLE)


def _neck_edge(size: FigureSize, hanging: Hanging) -> list[Vertex]:
    """The front of the neck edge from the centre to the right: a circle in a plane, seen from the front.

    The plane goes through the nape at the back and the line of the shoulders at the sides.
    """
    half = hanging.neck_half_cm(size)
    fall = size.fall_cm(half)
    side = size.nape_height_cm - fall
    turns = [math.pi / 2 * i / _PIECES for i in range(_PIECES + 1)]
    return [(half * math.sin(turn), side - fall * math.cos(turn)) for turn in turns]


def _neck_band(neck: list[Vertex], depth: float) -> Polygon:
    lower = [*((-x, y) for x, y in reversed(neck[1:])), *neck]
    return Polygon([*lower, *((x, y + depth) for x, y in reversed(lower))])


def _arm_side(arm: Arm, along: float, outer: Vertex) -> list[Vertex]:
    """From the shoulder tip down the outer side of the arm, by the wrist if it is passed."""
    if along <= 0:
        return []
    return [arm.side(arm.length_cm, 1), outer] if along > arm.length_cm else [outer]


def _side_corner(hanging: Hanging, arm: Arm, along: float, start: Vertex, pose: Pose) -> Vertex:
    """Where the side edge ends below a band on the side."""
    lowest = start[1] - hanging.before_run_cm
    if pose is Pose.DOWN:
        side = hanging.half_run_cm + hanging.before_run_cm
        lowest = max(lowest, arm.tip[1] - math.hypot(along, side))
    return start[0], lowest


def _hem(corner: Vertex, height: float) -> list[Vertex]:
    """From the corner to the centre."""
    x, y = corner
    shares = [1 - i / _PIECES for i in range(_PIECES + 1)]
    return [(x * share, height + (y - height) * share * share) for share in shares]


def _arm_bands(hanging: Hanging, arm: Arm, along: float) -> tuple[Polygon, ...]:
    if hanging.freedom is None:
        return ()
    end = along + hanging.freedom.band_depth_cm
    rest = hanging.garment.arm.ring.rest_cm / math.tau
    ends = [(each, max(rest, arm.radius(each))) for each in (along, end)]
    right = Polygon(
        [*(arm.at(each, off) for each, off in ends), *(arm.at(each, -off) for each, off in reversed(ends))]
    )
    return right, scale(right, xfact=-1, origin=(0, 0))


def _panel_seams(cloth: Polygon, top_cm: float, foot_cm: float) -> tuple[LineString, ...]:
    """Both sides of the panel, straight from its top down to its foot."""
    low, high = cloth.bounds[1], cloth.bounds[3]
    wider = (foot_cm - top_cm) / 2 / (high - low)
    above, below = top_cm / 2 - wider, foot_cm / 2 + wider
    lines = (LineString([(side * above, high + 1), (side * below, low - 1)]) for side in (-1, 1))
    cuts = [line.intersection(cloth) for line in lines]
    return tuple(cut for cut in cuts if isinstance(cut, LineString) and cut.length > 0)


def _path(size: FigureSize, hanging: Hanging, arm: Arm, along: float, pose: Pose) -> LineString | None:
    if hanging.freedom is None:
        return None
    end = arm.at(along + hanging.freedom.band_depth_cm)
    if pose is Pose.LEVEL:
        return LineString([(-end[0], end[1]), end])
    return LineString([(0, size.nape_height_cm), arm.at(0), end])
