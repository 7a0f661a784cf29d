"""The poncho on a plain figure of one body, by itself: arms down, arms level, with what is measured there."""

from __future__ import annotations

from schematics.checks.evaluation import Result
from schematics.design.design import Design
from schematics.document.lettering.text import SMALL, line_pitch, wrap
from schematics.drawing.bare.rooms import Room, cropped
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import text_lines
from schematics.drawing.ink.page import block_size, printed_labels
from schematics.drawing.ink.scale import STEPS, to_mm
from schematics.drawing.ink.sheet import Sheet
from schematics.drawing.pieces.piece_texture import shades_in_words
from schematics.drawing.worn.worn import both_figures
from schematics.drawing.worn.worn_figures import DOWN, LEVEL, Both, Place, draw_figures
from schematics.drawing.worn.worn_labels import draw_labels
from schematics.drawing.worn.worn_texture import draw_looks
from schematics.wearer.proportions import proportioned

LANDSCAPE = Room(250.0, 170.0)
"""Of A4 or Letter lying."""

_GAPS = (30.0, 18.0, 6.0)
"""Between the two figures, in mm, the first at which all labels find room."""

PICTURE = 15
"""The scale of a picture without measurements, one to so many."""


def worn_drawing(design: Design, result: Result, room: Room = LANDSCAPE) -> Sheet | None:
    """The largest drawing that fits the room; None of a body of which too little is known to draw it.

    Where no scale has room for everything that is written at the figures, the one that has room for most.
    """
    body = proportioned(result.wearer)
    if body is None:
        return None
    both = both_figures(design, result, body)
    drawn: list[tuple[int, Block]] = []
    for scale in STEPS:
        drawn += [(scale, block) for gap in _GAPS if (block := _drawn(both, scale, gap, room))]
        if any(not block.unplaced for _, block in drawn):
            break
    if not drawn:
        return None
    scale, block = min(drawn, key=lambda each: len(each[1].unplaced))
    labels = "; ".join(printed_labels(block.groups))
    figure = f"{design.title} on a plain figure of {result.wearer.label}, arms down and arms level."
    description = " ".join(filter(None, (figure, f"{labels}.", shades_in_words(result.garment))))
    return cropped(block.groups, f"{design.title}, worn", description, scale=scale)


def figure_picture(design: Design, result: Result) -> Sheet | None:
    """The two figures by themselves, without a measurement; None of a body of which too little is known."""
    body = proportioned(result.wearer)
    if body is None:
        return None
    both = both_figures(design, result, body)
    places = Place(PICTURE, 0.0), Place(PICTURE, to_mm(both.down.half_cm + both.level.half_cm, PICTURE) + 6.0)
    block = Block()
    draw_figures(block, both, *places)
    draw_looks(block, both, *places, (DOWN, LEVEL))
    groups = [group for group in block.groups if group.kind != "caption"]
    description = f"{design.title} on a plain figure, arms down and arms level."
    return cropped(groups, design.title, description, scale=PICTURE)


def _drawn(both: Both, scale: int, gap: float, room: Room) -> Block | None:
    """The figures at that scale; None where they have no room."""
    inside = room.inside
    width, height = inside.x1 - inside.x0, inside.y1 - inside.y0
    apart = to_mm(both.down.half_cm + both.level.half_cm, scale)
    if 2 * apart > width or to_mm(both.height_cm, scale) > height:
        return None
    places = Place(scale, 0.0), Place(scale, apart + gap)
    block = Block()
    draw_figures(block, both, *places)
    draw_labels(block, both, *places, width)
    draw_looks(block, both, *places, (DOWN, LEVEL))
    _name_colours(block, both)
    broad, high = block_size(block)
    return None if broad > width or high > height else block


def _name_colours(block: Block, both: Both) -> None:
    """Which piece has which colour, under the figures."""
    if shades := shades_in_words(both.hanging.garment):
        left, _, right, foot = block.bounds()
        at = left, foot + line_pitch(SMALL)
        block.add("note", "colours", text_lines(at, wrap(shades, right - left)))
