"""What is written at the figures of the worn sheet: heights, levels of the body, bands, reach and spread."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import product

from schematics.checks.tape import Tape
from schematics.drawing.ink.block import CLEAR, Block
from schematics.drawing.ink.dimension import FIRST_LANE, PAST, dimension_lines, draw_dimension
from schematics.drawing.ink.label_columns import spread_out
from schematics.drawing.ink.labeller import draw_label, draw_leader, is_free, off_lines
from schematics.drawing.ink.leaders import Spot
from schematics.drawing.ink.marks import Label, Line, Mark, Pen, between
from schematics.drawing.ink.scale import to_mm
from schematics.drawing.ink.track import Straight
from schematics.drawing.worn.drape import Worn
from schematics.drawing.worn.worn_figures import DOWN, OVERHANG, Both, Place
from schematics.units import Grain, printed
from schematics.wearer.body_figure import Pose

_TIP_SHARE = 0.4
"""Where on the last straight of a path drawn on the fabric the arrow to it ends."""

_BAND_TIPS = (0.0, 0.2, 0.4, 0.7)
"""How far above a band's end the arrow to it may end, as shares of the band's depth."""

_BESIDE_BAND = 1.3
"""No other line should be within this of it, in mm."""

_LOWER = tuple(range(0, 49, 3))
"""How much lower than their lines, in mm, the names of levels are tried, so that they are under the arm."""

_ABOVE_FLOOR = -2.0
"""No name of a level reaches lower, in mm."""

_NEAR_CM = 0.75
"""What is nearer than this is labelled as there, not dimensioned: the eye sees no difference."""


def draw_labels(block: Block, both: Both, down: Place, level: Place, room: float) -> None:
    """Every label of both figures, which are drawn already, no farther right than ``room`` mm take it."""
    heights = [
        ("waist", both.size.waist_height_cm),
        ("hip", both.size.hip_height_cm),
        ("knee", both.size.knee_height_cm),
    ]
    levels = sorted(heights, key=lambda item: -item[1])
    reach = down.point(both.down.half_cm, 0)[0] + 1.0
    ys = [down.point(0, height)[1] for _, height in levels]
    block.add("level", DOWN, [Line(((-reach, y), (reach, y)), Pen.SEAM) for y in ys])
    if both.down.worn is not None:
        _draw_heights(block, both, both.down.worn, down)
        _draw_band(block, both, both.down.worn, down)
    _draw_paths(block, both, down, level)
    _draw_levels(block, both, level, levels, block.bounds()[0] + room)


def _label(name: str, length_cm: float, both: Both) -> Label:
    lengths = (printed(length_cm, unit, Grain.USUAL) for unit in both.units)
    return Label((*name.split("\n"), *lengths))


def _draw_levels(
    block: Block, both: Both, level: Place, levels: Sequence[tuple[str, float]], limit: float
) -> None:
    """Waist, hip and knee as dashed lines through the second figure, named right of it."""
    named = [(name, *(printed(height, unit, Grain.USUAL) for unit in both.units)) for name, height in levels]
    wide = [Label((f"{name} at {first}", second)) for name, first, second in named]
    narrow = [Label((f"{name} at", *lengths)) for name, *lengths in named]
    ys = [level.point(0, height)[1] for _, height in levels]
    for labels in (wide, narrow):
        groups = _level_groups(block, both, level, labels, ys, limit)
        if groups is not None:
            for (name, _), marks in zip(levels, groups, strict=True):
                block.add("level", name, marks)
            return
    far = to_mm(both.size.hip_breadth_cm / 2, level.scale) + OVERHANG
    drawn: list[tuple[str, Label, Line]] = []
    for (name, _), label, y in zip(levels, wide, ys, strict=True):
        lines = (
            Line(((level.middle - left, y), (level.middle + right, y)), Pen.SEAM)
            for left, right in ((far, far), (0.0, far), (far, 0.0))
        )
        line = next((each for each in lines if is_free(block, [each])), None)
        if line is None:
            block.unplaced.append(name)
        else:
            block.add("level", name, [line])
            drawn.append((name, label, line))
    for name, label, line in drawn:
        tips = [(end, (side, 0.6)) for end, side in zip(line.points, (-1.0, 1.0), strict=True)]
        draw_leader(block, name, tips[::-1], (label,))


def _level_groups(
    block: Block, both: Both, level: Place, labels: Sequence[Label], ys: Sequence[float], limit: float
) -> list[list[Mark]] | None:
    """Lines and names in the nearest column that is free; None if it would end beyond ``limit``."""
    hip = to_mm(both.size.hip_breadth_cm / 2, level.scale)
    label_ys = spread_out(ys, labels[0].size[1] + 2.0)
    start, width = level.middle - hip - OVERHANG, max(label.size[0] for label in labels)
    for step, down in product(range(100), _LOWER):
        column = level.middle + hip + 8.0 + step
        if column + width > limit:
            return None
        groups = [
            _level_marks(label, start, column, y, label_y + down)
            for label, y, label_y in zip(labels, ys, label_ys, strict=True)
        ]
        if label_ys[-1] + down + labels[-1].size[1] / 2 <= _ABOVE_FLOOR and all(
            is_free(block, marks) for marks in groups
        ):
            return groups
    return None


def _level_marks(label: Label, start: float, column: float, y: float, label_y: float) -> list[Mark]:
    """The line from ``start``, and from its end a leader to the words, which start at ``column``."""
    bend = column - 5.0
    lines = [Line(((start, y), (bend, y)), Pen.SEAM), Line(((bend, y), (column - 1.0, label_y)), Pen.LEADER)]
    return [*lines, *(replace(text, anchor="start") for text in label.texts((column, label_y), 0.0))]


def _draw_heights(block: Block, both: Both, worn: Worn, place: Place) -> None:
    """From the nape down to the hem, left of the figure, and from the hem to the knee, right of it."""
    nape, hem, knee = (
        place.point(0, height)[1]
        for height in (both.size.nape_height_cm, worn.hem_height_cm, both.size.knee_height_cm)
    )
    foot = place.point(both.down.half_cm, 0)[0] + 1.0
    collar = place.point(worn.neck_band.bounds[2], 0)[0] + 1.0
    ends = [((-collar, nape), (-foot - 1.0, nape)), ((-foot - 1.0, hem), (foot + 1.0, hem))]
    block.add("height", "nape and hem", [Line(each, Pen.EXTENSION) for each in ends])
    from_nape = both.size.nape_height_cm
    to_hem, to_knee = from_nape - worn.hem_height_cm, from_nape - both.size.knee_height_cm
    draw_height(
        block, "nape to hem", _label("nape to hem", to_hem, both), Straight((-foot, nape), (-foot, hem))
    )
    if abs(hem - knee) >= to_mm(_NEAR_CM, place.scale):
        name = "hem to knee" if hem < knee else "knee to hem"
        gaps = (Tape(unit).compare(to_knee, to_hem).gap for unit in both.units)
        track = Straight((foot, max(hem, knee)), (foot, min(hem, knee)))
        draw_height(block, name, Label((name, *gaps)), track)


def draw_height(block: Block, name: str, label: Label, track: Straight) -> None:
    """A dimension of an upright ``track``, its label level beside the line if it is free there."""
    line = track.offset(FIRST_LANE)
    away = track.normal(0)[0] * (PAST + CLEAR + label.size[0] / 2)
    middles = (line.at(line.length * share) for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8))
    spots = [Spot((x + away, y)) for x, y in middles]
    lines = list(dimension_lines(track, line))
    if draw_label(block, "dimension", name, label, spots, beside=lines, optional=True):
        return
    if not draw_dimension(block, name, track, (label,)):
        draw_leader(block, name, [(track.at(track.length / 2), track.normal(0))], (label,))


def _draw_band(block: Block, both: Both, worn: Worn, place: Place) -> None:
    """How far from the wrist the arm band ends, along the arm, at the arm on the left."""
    freedom = both.hanging.freedom
    if freedom is None:
        return
    arm = worn.figure.arm
    end = both.hanging.along_arm_cm(both.size, Pose.DOWN) + freedom.band_depth_cm
    above = arm.length_cm - end
    label = Label(("band ends", "at the wrist"))
    if abs(above) >= _NEAR_CM:
        reach = freedom.reach_cm
        gaps = (Tape(unit).compare(reach + above, reach).gap for unit in both.units)
        label = Label(("band ends", "above wrist" if above > 0 else "over hand", *gaps))
    sides = (arm.side(end - share * freedom.band_depth_cm, 1) for share in _BAND_TIPS)
    tips = [(place.point(-x, y), (-1.0, 0.6)) for x, y in sides]
    draw_leader(block, "band", off_lines(block, tips, _BESIDE_BAND), (label,))


def _draw_paths(block: Block, both: Both, down: Place, level: Place) -> None:
    """The lengths of reach and spread, with arrows to the paths drawn on the fabric."""
    freedom = both.hanging.freedom
    if freedom is None:
        return
    across = "back" if freedom.spread_back_cm <= freedom.spread_front_cm else "front"
    paths = (
        ("reach", both.down.worn, down, freedom.reach_cm, "reach"),
        ("spread", both.level.worn, level, freedom.spread_cm, f"spread across\nthe {across}"),
    )
    for name, worn, place, length_cm, words in paths:
        if worn is not None and worn.path is not None:
            (x, y), end = place.points(worn.path)[-2:]
            tip = between((max(x, place.middle), y), end, _TIP_SHARE)
            draw_leader(block, name, [(tip, (0.4, -1.0))], (_label(words, length_cm, both),))
