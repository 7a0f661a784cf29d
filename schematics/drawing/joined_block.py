"""One view of the joined garment as a block: fabric, bands, seams, folds, markers, dimensions."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from shapely import LineString
from shapely import box as rectangle

from schematics.drawing.block import Block
from schematics.drawing.dimension import FIRST_LANE, draw_dimension, draw_leader, upright
from schematics.drawing.extent import Extent
from schematics.drawing.joined import Half, JoinedPanel, JoinedView, Marker
from schematics.drawing.marks import Area, Label, Line, Mark, Pen, Point
from schematics.drawing.placing import place
from schematics.drawing.scale import to_mm
from schematics.drawing.surface import Strip, waves
from schematics.drawing.text import LARGE, SMALL
from schematics.drawing.track import Straight
from schematics.drawing.view import View
from schematics.garment import Garment, Ring
from schematics.units import format_cm, format_inches

_RIB_MM = 1.3
_WAVE_MM = 2.0
"""Least distances between ribs and between waves on paper."""

_FABRIC = ("fabric", "fold", "band")
"""Kinds of groups that show the garment itself."""

_TRIANGLE = 2.4
_TICK = 1.25


def view_block(view: JoinedView, garment: Garment, scale: int) -> Block:
    """Everything drawn of one view at 1:``scale``."""
    on_sheet = View(scale=scale)
    block = Block()
    if view.panel:
        _draw_panel(block, view.panel, on_sheet)
    for half in view.halves:
        _draw_half(block, half, on_sheet)
    _draw_bands(block, view, garment, on_sheet)
    starts = list(_draw_markers(block, view, on_sheet))
    if view.panel is None:
        starts.append(_draw_neck_start(block, view, on_sheet))
    for half in view.halves:
        for marker in half.markers:
            _number(block, marker, on_sheet)
        _letter_seams(block, half, on_sheet)
    corner = _draw_width(block, view, on_sheet)
    _caption(block, view, corner)
    for start in starts:
        _note_start(block, *start)
    if view.panel is None:
        _draw_drop(block, view, garment, on_sheet)
    _draw_girth(block, view, garment, on_sheet)
    for half in view.halves:
        _name_side(block, half, on_sheet)
    return block


def _draw_panel(block: Block, panel: JoinedPanel, view: View) -> None:
    x0, _, x1, top = panel.shape.bounds
    rows = panel.piece.edge("left side").count
    least = _WAVE_MM * view.scale / 10
    texture = waves(panel.piece.fabric, rows, x1 - x0, top, least)
    block.add("fabric", "panel", [Line(view.line(path), Pen.OUTLINE) for path in panel.edges])
    block.add("texture", "panel", [Line(view.line(path)) for path in texture])


def _draw_half(block: Block, half: Half, view: View) -> None:
    side = "left" if half.left else "right"
    edges = [*half.edges, half.neck]
    block.add("fabric", f"body {side}", [Line(view.line(path), Pen.OUTLINE) for path in edges])
    if half.creases:
        block.add("crease", side, [Line(view.line(path)) for path in half.creases])
    for seam in half.seams:
        block.add("seam", seam.letter, [Line(view.line(seam.path), Pen.SEAM)])
    block.add("fold", side, [Line(view.line(half.fold), Pen.FOLD)])


def _draw_bands(block: Block, view: JoinedView, garment: Garment, on_sheet: View) -> None:
    _draw_band(block, "neck band", view.neck_band, garment.neck, on_sheet)
    for half in view.halves:
        if half.band:
            name = f"arm band {'left' if half.left else 'right'}"
            _draw_band(block, name, half.band, garment.arm.ring, on_sheet)


def _draw_band(block: Block, name: str, band: Strip, ring: Ring, view: View) -> None:
    """The rim solid but for ends on a fold, and a thin line for each ridge or for every so many."""
    points = view.line(band.rim)
    ends = ((points[:2], band.ends_folded), (points[-2:], band.starts_folded))
    marks: list[Mark] = [Line(end, Pen.FOLD if folded else Pen.OUTLINE) for end, folded in ends]
    marks.append(Line(points[1:-1], Pen.OUTLINE))
    ridge = 2 * ring.edge_cm / ring.edge_count
    every = max(1, math.ceil(_RIB_MM / to_mm(ridge, view.scale)))
    marks += [Line(view.line(rib)) for rib in band.ribs(ridge * every)]
    block.add("band", name, marks)


def _draw_markers(block: Block, view: JoinedView, on_sheet: View) -> Iterator[tuple[Point, Point]]:
    """Ticks, with a triangle where yarn is joined; yields where the triangles stand and point from."""
    for half in view.halves:
        for marker in half.markers:
            at, inward = on_sheet.point(*marker.at), _turned(marker.inward)
            tick = _along(at, inward, -_TICK), _along(at, inward, _TICK)
            block.add("marker", f"marker {marker.number}", [Line(tick, Pen.OUTLINE)])
            if marker.starts:
                yield _draw_triangle(block, f"arm {marker.number}", _along(at, inward, _TICK + 0.4), inward)


def _draw_neck_start(block: Block, view: JoinedView, on_sheet: View) -> tuple[Point, Point]:
    neck = on_sheet.point(*view.middle.coords[0])
    return _draw_triangle(block, "neck", (neck[0], neck[1] + 0.6), (0.0, 1.0))


def _draw_triangle(block: Block, name: str, tip: Point, inward: Point) -> tuple[Point, Point]:
    """An open triangle with its tip to the edge; gives the middle of its foot and the way it faces."""
    foot = _along(tip, inward, _TRIANGLE)
    across = -inward[1] * _TRIANGLE / 2, inward[0] * _TRIANGLE / 2
    corners = (tip, (foot[0] - across[0], foot[1] - across[1]), (foot[0] + across[0], foot[1] + across[1]))
    block.add("join", name, [Area(corners, Pen.THIN)])
    return foot, inward


def _note_start(block: Block, foot: Point, inward: Point) -> None:
    label = Label(("join yarn",))
    width, height = label.size
    spots = [
        ((foot[0] + dx, foot[1] + dy), 0.0)
        for away in (0.6, 1.6, 3.0)
        for dx, dy in (
            (inward[0] * (height / 2 + away), inward[1] * (height / 2 + away)),
            (width / 2 + away + 1.2, -inward[1] * _TRIANGLE / 2),
            (-width / 2 - away - 1.2, -inward[1] * _TRIANGLE / 2),
        )
    ]
    if place(block, "note", "join yarn", label, spots):
        return
    across = -inward[1], inward[0]
    corners = [(_along(foot, across, side * _TRIANGLE / 2), _along(inward, across, side)) for side in (1, -1)]
    draw_leader(block, "join yarn", ((foot, inward), *corners), (label,))


def _number(block: Block, marker: Marker, view: View) -> None:
    at, inward, along = view.point(*marker.at), _turned(marker.inward), _turned(marker.along)
    label = Label((str(marker.number),))
    spots = [
        (_along(_along(at, inward, away), along, aside), 0.0)
        for away in (3.6, 4.6, 5.6, 7.0, 9.0)
        for aside in (0.0, -2.0, 2.0, -4.0, 4.0, -6.0, 6.0)
    ]
    if not place(block, "marker-number", str(marker.number), label, spots):
        draw_leader(block, str(marker.number), ((at, _along((0, 0), inward, -1)),), (label,))


def _letter_seams(block: Block, half: Half, view: View) -> None:
    for seam in half.seams:
        points = view.line(seam.path)
        start, end = points[0], points[-1]
        size = math.dist(start, end)
        normal = (end[1] - start[1]) / size, (start[0] - end[0]) / size
        spots = [
            (_along((start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share),
                    normal, away), 0.0)
            for share in (0.5, 0.4, 0.6, 0.25, 0.75)
            for away in (3.6, -3.6, 4.6, -4.6, 6.0, -6.0)
        ]  # fmt: skip
        label = Label((seam.letter,), SMALL, bold=True)
        if not place(block, "seam-letter", seam.letter, label, spots, ring=True):
            block.unplaced.append(f"seam letter {seam.letter}")


def _draw_width(block: Block, view: JoinedView, on_sheet: View) -> Point:
    """The widest the fabric lies, arm bands left out, on a line above everything; gives its left end."""
    points = [on_sheet.point(x, y) for shape in view.shapes for x, y, *_ in shape.exterior.coords]
    left = min(points, key=lambda p: (round(p[0], 3), p[1]))
    right = max(points, key=lambda p: (round(p[0], 3), -p[1]))
    _, top, _, _ = block.bounds()
    track = Extent(right, left, Straight((right[0], top), (left[0], top)))
    width_cm = (right[0] - left[0]) * on_sheet.scale / 10
    _dimension(block, "width", track, _labels(width_cm))
    return left[0], top - FIRST_LANE


def _draw_drop(block: Block, view: JoinedView, garment: Garment, on_sheet: View) -> None:
    """From the top of the neck band to the hem at centre back, on a line at the viewer's right."""
    neck, hem = on_sheet.line(view.middle)
    top = neck[0], neck[1] - to_mm(view.neck_band.depth_cm, on_sheet.scale)
    length_cm = garment.drop_cm + garment.neck.band_depth_cm
    labels = _labels(length_cm, "centre back", "with neck band")
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


def _draw_girth(block: Block, view: JoinedView, garment: Garment, on_sheet: View) -> None:
    """The length of an arm band, which is joined to a ring; on the back unless the front shows it all."""
    bands = [half.band for half in view.halves if half.band and not (view.panel and half.band.starts_folded)]
    if not bands:
        return
    ring = garment.arm.ring
    cm, inches = f"{format_cm(ring.band_cm)} ({ring.band_rows} rows)", format_inches(ring.band_cm)
    tips = [tip for band in bands for tip in _rim_tips(band, on_sheet)]
    draw_leader(block, "arm band", tips, (Label(("arm band round", cm, inches)),))


def _rim_tips(band: Strip, view: View) -> Iterator[tuple[Point, Point]]:
    """Places on the free edge, with the way down and in under the garment if that leads off the band."""
    rim = LineString(view.line(band.rim)[1:-1])
    for share in (0.5, 0.35, 0.65, 0.2, 0.8):
        at, near = rim.interpolate(share, normalized=True), rim.interpolate(share * 0.99, normalized=True)
        size = math.dist((at.x, at.y), (near.x, near.y))
        side = 1.0 if band.on_left else -1.0
        out = (at.y - near.y) / size * side, (near.x - at.x) / size * side
        down = (-0.2 if at.x > 0 else 0.2), 1.0
        yield (at.x, at.y), (down if out[0] * down[0] + out[1] * down[1] > 0.4 else out)


def _name_side(block: Block, half: Half, view: View) -> None:
    """The fold and the wearer's side named along the fold, or where that is short, beside it."""
    words = f"wearer's {'left' if half.left else 'right'}"
    if any(_name_fold(block, half, view, Label(lines)) for lines in ((f"fold, {words}",), (words, "fold"))):
        return
    neck, *_, out = view.line(half.fold)
    if not _name_fold(block, half, view, Label(("fold",))):
        middle = (neck[0] + out[0]) / 2, (neck[1] + out[1]) / 2
        draw_leader(block, f"fold, {words}", ((middle, (0.0, -1.0)),), (Label(("fold",)),))
    side = 1.0 if out[0] > 0 else -1.0
    shapes = [half.shape, *([half.band.shape] if half.band else [])]
    edge = to_mm(max(abs(x) for shape in shapes for x in (shape.bounds[0], shape.bounds[2])), view.scale)
    for label in (Label(tuple(words.split())), Label((words,))):
        spots = [
            ((side * (edge + label.size[0] / 2 + gap), out[1] + lower), 0.0)
            for gap in (2.0, 4.0, 7.0, 10.0)
            for lower in (-6.0, -9.0, -12.0, 0.0, 5.0, 10.0, -16.0, -20.0, 15.0)
        ]
        if place(block, "note", words, label, spots):
            return
    block.unplaced.append(words)


def _name_fold(block: Block, half: Half, view: View, label: Label) -> bool:
    """The label along the fold and no longer than it, inside it or outside."""
    neck, *_, out = view.line(half.fold)
    size, (width, height) = math.dist(neck, out), label.size
    run = (out[0] - neck[0]) / size, (out[1] - neck[1]) / size
    middle, within = _along(neck, run, size / 2), view.point(half.shape.centroid.x, half.shape.centroid.y)
    away = run[1], -run[0]
    if away[0] * (middle[0] - within[0]) + away[1] * (middle[1] - within[1]) < 0:
        away = -away[0], -away[1]
    spots = [
        (
            _along(_along(neck, run, width / 2 + (size - width) * share), away, side * (height / 2 + gap)),
            upright(run),
        )
        for gap in (1.6, 2.6, 4.0)
        for side in (-1, 1)
        for share in (0.5, 0.35, 0.65, 0.2, 0.8, 0.0, 1.0)
    ]
    return width <= size and place(block, "note", "fold", label, spots)


def _caption(block: Block, view: JoinedView, corner: Point) -> None:
    """The view's name under ``corner``, that of its width dimension, or above everything."""
    label = Label((view.name,), LARGE, bold=True)
    width, height = label.size
    x0, y0, _, _ = block.bounds()
    spots = [
        ((corner[0] + width / 2 + aside, corner[1] + height / 2 + lower), 0.0)
        for lower in (2.5, 4.0)
        for aside in (2.5, 4.0, 6.0)
    ]
    spots.append(((x0 + width / 2, y0 - height / 2 - 1.5), 0.0))
    if not place(block, "caption", view.name, label, spots):
        block.unplaced.append(view.name)


def _labels(length_cm: float, *names: str) -> tuple[Label, ...]:
    cm, inches = format_cm(length_cm), format_inches(length_cm)
    if not names:
        return Label((cm, inches)), Label((f"{cm} ({inches})",))
    return (Label((*names, cm, inches)),)


def _dimension(block: Block, name: str, track: Extent, labels: Sequence[Label]) -> None:
    if not draw_dimension(block, name, track, labels):
        block.unplaced.append(name)


def _turned(way: Point) -> Point:
    """A direction on the fabric, y up, as one on the sheet."""
    return way[0], -way[1]


def _along(at: Point, way: Point, distance: float) -> Point:
    return at[0] + way[0] * distance, at[1] + way[1] * distance
