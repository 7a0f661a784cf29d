"""The nest: each piece of every size overlaid from a common point, so that sizes compare at a glance.

Bodies share their centre back neck, panels the middle of the lower edge. Every outline is named at
its end, and neighbours differ in line, not in colour. Bands differ too little to be overlaid.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator

from shapely import LineString

from schematics.design.size_string import size_string
from schematics.document.lettering.text import LARGE
from schematics.drawing.compose import Drawing, Setting
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.labeller import Spot, draw_label
from schematics.drawing.ink.marks import Area, Group, Label, Pen, Point, Text, along, unit
from schematics.drawing.ink.page import block_size, drawing_area, pack, placed_groups, unplaced_names
from schematics.drawing.pieces.piece_block import overlaps_itself
from schematics.drawing.pieces.view import View, mirrored
from schematics.garment.garment import Piece

_PENS = (Pen.OUTLINE, Pen.SEAM, Pen.THIN, Pen.FOLD)

_NESTED = ("body", "centre panel")
_TRIES = sorted(
    itertools.product((0, 15, -15, 30, -30, 45, -45), (3.0 + 2.0 * step for step in range(20))),
    key=lambda turn_and_mm: turn_and_mm[1] + abs(turn_and_mm[0]) / 2,
)
"""Turns of a name's line, in degrees from straight off the piece, and lengths in mm; short ones first."""


def draw_nest(setting: Setting) -> Drawing:
    """The nest of all sizes, at the largest scale at which it fits."""
    groups: tuple[Group, ...] = ()
    unplaced: tuple[str, ...] = ("the nest",)
    shown, sheet = setting.ways[-1]
    for scale, paper in setting.ways:
        area = drawing_area(paper)
        blocks = [_nested(setting, name, scale) for name in _NESTED]
        corners = pack([block_size(block) for block in blocks], area)
        if corners is not None:
            groups, unplaced = placed_groups(zip(blocks, corners, strict=True)), unplaced_names(blocks)
            shown, sheet = scale, paper
            break
    sizes = size_string([size.name for size in setting.design.sizes])
    return Drawing(
        groups=groups,
        title="nest of all sizes",
        description=f"The pieces of {setting.design.title} in sizes {sizes}, overlaid from a common point.",
        scale=shown,
        paper=sheet,
        unplaced=unplaced,
    )


def _nested(setting: Setting, name: str, scale: int) -> Block:
    """One piece in every size; sizes that end in one point are named together."""
    block = Block()
    half_only = any(overlaps_itself(result.garment.piece(name), result.garment) for result in setting.results)
    view = View(scale=scale, half_only=half_only)
    ends: dict[tuple[float, float], tuple[list[str], Point, Point]] = {}
    for number, result in enumerate(setting.results):
        piece = result.garment.piece(name)
        pen = _PENS[number % len(_PENS)]
        block.add("outline", f"{name} {result.size.name}", [Area(view.outline(piece), pen)])
        at, away = _end(piece, view)
        key = round(at[0], 1), round(at[1], 1)
        ends.setdefault(key, ([], at, away))[0].append(result.size.name)
    lines: list[LineString] = []
    for names, at, away in ends.values():
        _name(block, ", ".join(names), at, away, lines)
    x0, y0, _, _ = block.bounds()
    block.add("caption", name, [Text((x0, y0 - 3.0), name, LARGE, bold=True)])
    return block


def _end(piece: Piece, view: View) -> tuple[Point, Point]:
    """The corner at which a size is named, and the direction off the piece there."""
    if piece.name == "body":
        hem_end, neck_end = _ends(piece, "front", view)
        run = unit(neck_end, hem_end)
        return hem_end, (run[1], -run[0])
    return _ends(piece, "right side", view)[1], (1.0, 0.0)


def _ends(piece: Piece, edge: str, view: View) -> tuple[Point, Point]:
    path = view.line(piece.edge(edge).path)
    return path[0], path[-1]


def _name(block: Block, name: str, at: Point, away: Point, lines: list[LineString]) -> None:
    """A short line off the corner with the size's name at its end, longer or turned where its place is taken.

    It meets none of the ``lines`` of other sizes, and is one of them then.
    """
    label, tips = Label((name,)), [(at, away), (mirrored(at), mirrored(away))]
    spot = draw_label(block, "size", name, label, _spots(label, at, away), lines=lines, tips=tips)
    if spot:
        lines.append(LineString(spot.line))


def _spots(label: Label, at: Point, away: Point) -> Iterator[Spot]:
    width, height = label.size
    for turn, distance in _TRIES:
        direction = _turned(away, turn)
        tip = along(at, direction, distance)
        reach = (abs(direction[0]) * width + abs(direction[1]) * height) / 2 + 1.0
        yield Spot(along(tip, direction, reach), line=(at, tip))


def _turned(direction: Point, degrees: float) -> Point:
    cosine, sine = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return direction[0] * cosine - direction[1] * sine, direction[0] * sine + direction[1] * cosine
