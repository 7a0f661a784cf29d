"""One view of the joined garment as a block: its fabric, bands, seams, folds and markers, and their names."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint

from schematics.drawing.assembly.joined import JoinedPanel, JoinedView
from schematics.drawing.assembly.joined_dimensions import Units, draw_drop, draw_girth, draw_width
from schematics.drawing.assembly.joined_half import Half
from schematics.drawing.assembly.joined_labels import (
    caption,
    letter_seams,
    name_fold,
    name_side,
    number,
    refer,
)
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.labeller import turned
from schematics.drawing.ink.marks import TICK, Area, Line, Mark, Pen, Point, along, marker_tick
from schematics.drawing.ink.scale import to_mm
from schematics.drawing.ink.surface import Strip
from schematics.drawing.ink.texture import every_nth
from schematics.drawing.pieces.body_outline import BODY
from schematics.drawing.pieces.piece_texture import (
    RIDGE,
    draw_colour,
    draw_increases,
    draw_texture,
    draw_tint,
    shade_of,
)
from schematics.drawing.pieces.view import View
from schematics.garment.garment import Garment, Ring

TRIANGLE = 2.4
"""Height and foot of the triangle that shows where yarn is joined, in mm."""

_ASLANT = tuple(math.radians(turn) for turn in (0, -25, 25, -50, 50))
_OFF_FOLD = 2.0
"""The middle of a triangle at a fold is so far from it, in mm, if turning it about its tip can help it."""


def view_block(
    view: JoinedView,
    garment: Garment,
    scale: int,
    units: Units,
    *,
    girth: bool,
    width: bool = True,
    widest: float = math.inf,
) -> Block:
    """Everything drawn of one view at 1:``scale``; with ``girth``, that of the arm bands it shows.

    Without ``width`` how wide it lies is not labelled.

    Lengths are in these ``units``, the first one first. No wider than ``widest`` mm if labels can help it.
    """
    on_sheet = View(scale=scale)
    block = Block(widest=widest)
    _draw_garment(block, view, garment, on_sheet)
    corner = draw_width(block, view, on_sheet, units, labelled=width)
    if view.panel is None:
        draw_drop(block, view, garment, on_sheet, units)
    for half in view.halves:
        letter_seams(block, half, on_sheet)
    if girth:
        draw_girth(block, view, garment.arm.ring, on_sheet, units)
    for half in view.halves:
        for marker in half.markers:
            number(block, marker, half, on_sheet)
    for marker in (each for half in view.halves if not half.band for each in half.markers):
        refer(block, marker, on_sheet, view.other)
    caption(block, view.name, corner)
    for half in view.halves:
        name_fold(block, half, on_sheet)
        name_side(block, half, on_sheet, corner[1])
    return block


def _draw_garment(block: Block, view: JoinedView, garment: Garment, on_sheet: View) -> None:
    """All that is drawn without words."""
    if view.panel:
        _draw_panel(block, view.panel, on_sheet)
    for half in view.halves:
        _draw_half(block, half, on_sheet)
    _draw_bands(block, view, garment, on_sheet)
    _draw_markers(block, view, on_sheet)
    if view.panel is None:
        neck = on_sheet.point(*view.middle.coords[0])
        _draw_triangle(block, "neck", (neck[0], neck[1] + 0.6), (0.0, 1.0))


def _draw_panel(block: Block, panel: JoinedPanel, view: View) -> None:
    block.add("fabric", "panel", [Line(view.line(path), Pen.OUTLINE) for path in panel.edges])


def with_looks(laid_out: Block, view: JoinedView, garment: Garment, scale: int) -> Block:
    """A block of `view_block` with what the panel's fabric looks like, each increase, and the bands' colours.

    It takes no more room, and fills what else has left: so it is drawn once, when all is laid out.
    """
    block, on_sheet = replace(laid_out, groups=[*laid_out.groups]), View(scale=scale)
    for half in view.halves:
        face = Polygon(on_sheet.line(half.shape.exterior))
        draw_tint(block, "body", shade_of(garment.piece(BODY)), face)
        draw_increases(block, "left" if half.left else "right", half.increases, on_sheet)
    if view.panel:
        eased = view.panel.eased
        up = view.panel.shape.bounds[3] - view.panel.piece.outline.bounds[3] * eased
        draw_texture(block, view.panel.piece, on_sheet, up, eased)
    for name, band in (("neck band", view.neck_band), *(("arm band", half.band) for half in view.halves)):
        if band:
            face = Polygon(on_sheet.line(LineString(band.shape.exterior)))
            draw_colour(block, garment.piece(name), face)
    return block


def _draw_half(block: Block, half: Half, view: View) -> None:
    side = "left" if half.left else "right"
    edges = [*half.edges, half.neck]
    block.add("fabric", f"body {side}", [Line(view.line(path), Pen.OUTLINE) for path in edges])
    if half.creases:
        block.add("crease", side, [Line(view.line(path), Pen.INCREASE) for path in half.creases])
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
    ridge = RIDGE * ring.edge_cm / ring.edge_count
    every = every_nth(to_mm(ridge, view.scale))
    marks += [Line(view.line(rib), Pen.TEXTURE) for rib in band.ribs(ridge * every)]
    block.add("band", name, marks)


def _draw_markers(block: Block, view: JoinedView, on_sheet: View) -> None:
    """Ticks, with a triangle where yarn is joined.

    Where no band is seen the edge ends so close by that a tick across it would read as a cross: it is inside.
    """
    for half in view.halves:
        for marker in half.markers:
            at, inward = on_sheet.point(*marker.at), turned(marker.inward)
            tick = marker_tick(at, inward)
            tick = tick if half.band else Line((at, tick.points[1]), tick.pen)
            block.add("marker", f"marker {marker.number}", [tick])
            if marker.starts:
                fold = LineString(on_sheet.line(half.fold))
                facing = min(_facings(inward), key=lambda each: _in_the_way(at, each, fold))
                _draw_triangle(block, f"arm {marker.number}", along(at, facing, TICK + 0.4), facing)


def _facings(inward: Point) -> Iterator[Point]:
    """Directions of a triangle whose tip is at a marker: straight into the fabric, or aslant."""
    for turn in _ASLANT:
        cos, sin = math.cos(turn), math.sin(turn)
        yield inward[0] * cos - inward[1] * sin, inward[0] * sin + inward[1] * cos


def _in_the_way(at: Point, facing: Point, fold: LineString) -> float:
    """How far the triangle comes short of being clear of the fold, in mm."""
    middle = along(at, facing, TICK + 0.4 + TRIANGLE / 2)
    return max(0.0, _OFF_FOLD - fold.distance(ShapelyPoint(middle)))


def _draw_triangle(block: Block, name: str, tip: Point, inward: Point) -> None:
    """An open triangle with its tip to the edge."""
    foot = along(tip, inward, TRIANGLE)
    across, half = (-inward[1], inward[0]), TRIANGLE / 2
    corners = tip, along(foot, across, -half), along(foot, across, half)
    block.add("join", name, [Area(corners, Pen.THIN)])
