"""The pieces sheet: every flat piece of one size, dimensioned, at a scale all sizes share."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache, lru_cache, partial

from schematics.checks.evaluation import Result
from schematics.checks.finding import Severity
from schematics.crochet.terms import Terms
from schematics.document.lettering.text import LARGE
from schematics.drawing.compose import Drawing, Setting
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Group
from schematics.drawing.ink.page import Box, block_size, drawing_area, pack, placed_groups, unplaced_names
from schematics.drawing.ink.scale import SCALES, to_mm
from schematics.drawing.ink.sheet import A4, Paper
from schematics.drawing.notes import SHORTER, notes_block
from schematics.drawing.pieces.piece_block import overlaps_itself, piece_block
from schematics.garment.garment import Garment
from schematics.garment.printed_lengths import finished_figure
from schematics.units import NEAR, Unit

_ROOM = 5.0
"""Least distance between the findings and a piece, in mm."""

_NOTES_WIDTHS = (150.0, 110.0, 80.0, 60.0)
_LEAST_HEIGHT = 2 * LARGE
"""No findings are lower than this, in mm."""


@lru_cache(maxsize=32)
def _blocks(garment: Garment, scale: int, area: Box, terms: Terms) -> tuple[Block, ...]:
    return tuple(piece_block(piece, garment, scale, area.x1 - area.x0, terms) for piece in garment.pieces)


def common_scale(results: Sequence[Result], paper: Paper = A4, terms: Terms = Terms.US) -> int:
    """The largest scale of ISO 5455, as its denominator, at which every size fits the paper.

    Where a label finds no room at any of them, the largest at which the pieces fit; the sheets then
    name what is missing.
    """
    area = drawing_area(paper)
    fitting = []
    for scale in SCALES:
        if not all(pieces_fit(result.garment, scale, area) for result in results):
            continue
        if not all(_has_room(result, scale, area, terms) for result in results):
            continue
        fitting.append(scale)
        if not any(unplaced_names(_blocks(result.garment, scale, area, terms)) for result in results):
            return scale
    return fitting[0] if fitting else SCALES[-1]


def pieces_fit(garment: Garment, scale: int, area: Box) -> bool:
    """Whether every bare piece is smaller than the drawing area: cheap, and mostly decides it."""
    for piece in garment.pieces:
        x0, y0, x1, y1 = piece.outline.bounds
        width = 2 * x1 if piece.on_fold and not overlaps_itself(piece, garment) else x1 - x0
        if to_mm(width, scale) > area.x1 - area.x0 or to_mm(y1 - y0, scale) > area.y1 - area.y0:
            return False
    return True


def _has_room(result: Result, scale: int, area: Box, terms: Terms) -> bool:
    """Whether the pieces fit, and what stops a size; the title block counts the other findings."""
    boxes = _packed(result.garment, scale, area, terms)
    if boxes is None:
        return False
    return result.verdict is not Severity.STOP or bool(_notes(result, boxes, area, terms))


def _packed(garment: Garment, scale: int, area: Box, terms: Terms) -> list[Box] | None:
    """Where the pieces go; None where they do not fit."""
    sizes = [block_size(block) for block in _blocks(garment, scale, area, terms)]
    corners = pack(sizes, area)
    if corners is None:
        return None
    return [Box(x, y, x + width, y + height) for (x, y), (width, height) in zip(corners, sizes, strict=True)]


def draw_pieces(setting: Setting, result: Result) -> Drawing:
    """The pieces sheet of one size, with what the checks say."""
    area, terms = drawing_area(setting.paper), setting.design.terms
    blocks = _blocks(result.garment, setting.scale, area, terms)
    unplaced = unplaced_names(blocks)
    groups: tuple[Group, ...] = ()
    boxes = _packed(result.garment, setting.scale, area, terms)
    notes = _notes(result, boxes, area, terms) if boxes else []
    if boxes is None or (result.verdict is Severity.STOP and not notes):
        unplaced += (f"the pieces at 1:{setting.scale}",)
    else:
        corners = [(box.x0, box.y0) for box in boxes]
        groups = (*placed_groups(zip(blocks, corners, strict=True)), *notes)
    return Drawing(
        groups=groups,
        title="pieces, laid flat",
        description=_description(setting, result),
        scale=setting.scale,
        unplaced=unplaced,
    )


def _notes(result: Result, boxes: Sequence[Box], area: Box, terms: Terms) -> list[Group]:
    """The findings where the pieces leave room: in whole sentences if there is any, else by their codes.

    Of several places the one where they take the fewest lines.
    """
    corners = _free_corners(boxes, area)
    for in_full in SHORTER:
        block_of = cache(partial(notes_block, result.findings, result.verdict, in_full=in_full, terms=terms))
        spots = []
        for x, y in corners:
            for width in (area.x1 - x, *_NOTES_WIDTHS):
                if x + width > area.x1 + NEAR or _free_height(boxes, area, x, y, width) < _LEAST_HEIGHT:
                    continue
                block = block_of(width=round(width, 3))
                height = block_size(block)[1]
                if height <= _free_height(boxes, area, x, y, width):
                    spots.append((height, y, x, block))
        if spots:
            _, y, x, block = min(spots, key=lambda spot: spot[:3])
            return block.at(x, y)
    return []


def _free_corners(boxes: Sequence[Box], area: Box) -> list[tuple[float, float]]:
    """Where a text may start, the left edge first, then from the top."""
    xs = sorted({area.x0, *(box.x1 + _ROOM for box in boxes)})
    ys = sorted({area.y0, *(box.y1 + _ROOM for box in boxes)})
    return [(x, y) for x in xs for y in ys]


def _free_height(boxes: Sequence[Box], area: Box, x: float, y: float, width: float) -> float:
    """How far down a text of that width may go from there; not positive where something is."""
    below = [
        box.y0 - _ROOM
        for box in boxes
        if box.x0 < x + width + _ROOM and x < box.x1 + _ROOM - NEAR and box.y1 + _ROOM - NEAR > y
    ]
    return min([area.y1, *below]) - y


def _description(setting: Setting, result: Result) -> str:
    lengths = "; ".join(
        f"{item.name} {finished_figure(item, Unit.CM)} cm"
        + (f" ({item.count} {item.counted})" if item.count else "")
        for item in result.garment.finished
    )
    return (
        f"Flat pieces of {setting.design.title}, size {result.size.name}, for {result.wearer.label}, "
        f"drawn at 1:{setting.scale}. {lengths}. Verdict: {result.verdict}."
    )
