"""Overall measurements on a view of the joined garment, read off the view as it is drawn."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import TypeAlias

from shapely import LineString
from shapely import box as rectangle

from schematics.drawing.assembly.joined import JoinedView
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.dimension import FIRST_LANE, draw_dimension
from schematics.drawing.ink.labeller import draw_leader
from schematics.drawing.ink.marks import Label, Line, Point, between, unit
from schematics.drawing.ink.scale import to_mm
from schematics.drawing.ink.surface import Strip
from schematics.drawing.ink.track import Extent, Straight
from schematics.drawing.pieces.view import View
from schematics.garment.garment import Garment, Ring
from schematics.garment.printed_lengths import grain_of
from schematics.units import Unit, printed

Units: TypeAlias = tuple[Unit, ...]
"""Both units, the one that is printed first before the other."""

_FABRIC = ("fabric", "fold", "band")
"""Kinds of groups that show the garment itself."""


def draw_width(block: Block, view: JoinedView, on_sheet: View, units: Units, *, labelled: bool) -> Point:
    """The width on a line above everything, if ``labelled``; gives the left end of that line."""
    points = [on_sheet.point(x, y) for shape in view.shapes for x, y, *_ in shape.exterior.coords]
    left = min(points, key=lambda p: (round(p[0], 3), p[1]))
    right = max(points, key=lambda p: (round(p[0], 3), -p[1]))
    _, top, _, _ = block.bounds()
    if labelled:
        track = Extent(right, left, Straight((right[0], top), (left[0], top)))
        _dimension(block, "width", track, _labels(view.width_cm, units))
    return left[0], top - FIRST_LANE


def draw_drop(block: Block, view: JoinedView, garment: Garment, on_sheet: View, units: Units) -> None:
    """From the top of the neck band to the hem at centre back, on a line at the viewer's right."""
    neck, hem = on_sheet.line(view.middle)
    top = neck[0], neck[1] - to_mm(view.neck_band.depth_cm, on_sheet.scale)
    length_cm = garment.drop_cm + garment.neck.band_depth_cm
    labels = _labels(length_cm, units, "centre back", "with neck band")
    if view.neck_band.depth_cm < garment.neck.band_depth_cm:
        draw_leader(block, "drop", ((hem, (0.0, 1.0)),), labels)
        return
    lines = [
        LineString(mark.points)
        for group in block.groups
        for mark in group.marks
        if group.kind in _FABRIC and isinstance(mark, Line)
    ]
    right = max(line.bounds[2] for line in lines)
    foot, above = ((_clear_of(lines, at, right), at[1]) for at in (hem, top))
    track = Extent(foot, above, Straight((right, hem[1]), (right, top[1])))
    _dimension(block, "drop", track, labels)


def _clear_of(lines: Sequence[LineString], at: Point, right: float) -> float:
    """How far right a level line from ``at`` meets or nearly meets anything drawn."""
    level = rectangle(at[0], at[1] - 1.2, right + 1.0, at[1] + 1.2)
    met = (line.intersection(level) for line in lines)
    return max([at[0], *(part.bounds[2] for part in met if not part.is_empty)])


def draw_girth(block: Block, view: JoinedView, ring: Ring, on_sheet: View, units: Units) -> None:
    """The length of an arm band, which is joined to a ring."""
    bands = [half.band for half in view.halves if half.band]
    first, second = (printed(ring.band_cm, unit, grain_of("arm_band.length")) for unit in units)
    tips = [tip for band in bands for tip in _rim_tips(band, on_sheet)]
    draw_leader(
        block, "arm band", tips, (Label(("arm band round", f"{first} ({ring.band_rows} rows)", second)),)
    )


def _rim_tips(band: Strip, view: View) -> Iterator[tuple[Point, Point]]:
    """Places on the free edge, then the open ends, each with a direction off the band.

    That is down and in under the garment if it can be.
    """
    points = view.line(band.rim)
    rim = LineString(points[1:-1])
    for share in (0.5, 0.35, 0.65, 0.2, 0.8):
        at, near = rim.interpolate(share, normalized=True), rim.interpolate(share * 0.99, normalized=True)
        run, side = unit((near.x, near.y), (at.x, at.y)), 1.0 if band.on_left else -1.0
        out = run[1] * side, -run[0] * side
        for down in ((math.copysign(0.2, -at.x), 1.0), (0.0, 1.0)):
            yield (at.x, at.y), (down if out[0] * down[0] + out[1] * down[1] > 0.4 else out)
    for (start, end), folded in ((points[:2], band.ends_folded), (points[-2:], band.starts_folded)):
        if not folded:
            yield between(start, end), (0.0, 1.0)


def _labels(length_cm: float, units: Units, *names: str) -> tuple[Label, ...]:
    first, second = (printed(length_cm, unit) for unit in units)
    if not names:
        return Label((first, second)), Label((f"{first} ({second})",))
    return (Label((*names, first, second)),)


def _dimension(block: Block, name: str, track: Extent, labels: Sequence[Label]) -> None:
    if not draw_dimension(block, name, track, labels):
        block.unplaced.append(name)
