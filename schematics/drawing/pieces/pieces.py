"""The pieces sheet: every flat piece of one size, dimensioned, as large as they fit."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache, partial

from schematics.checks.evaluation import Result
from schematics.checks.finding import Severity
from schematics.document.lettering.text import LARGE
from schematics.drawing.compose import Drawing, Setting, SheetScale
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Group, Point
from schematics.drawing.ink.page import (
    Box,
    block_size,
    drawing_area,
    pack,
    placed_groups,
    spread_down,
    unplaced_names,
)
from schematics.drawing.ink.scale import SCALES, to_mm
from schematics.drawing.ink.sheet import A4, Paper
from schematics.drawing.notes import SHORTER, notes_block
from schematics.drawing.pieces.figures_look import FiguresLook, Wording, wording_of
from schematics.drawing.pieces.piece_block import labelled_block, overlaps_itself, view_of, with_texture
from schematics.garment.garment import Garment
from schematics.units import NEAR

_ROOM = 5.0
"""Least distance between the findings and a piece, in mm."""

_NOTES_WIDTHS = (150.0, 110.0, 80.0, 60.0)
_NARROWEST_NOTES = 45.0
"""Findings are set as wide as there is room, or so wide; narrower than the last, in mm, words are cut."""

_CAPTION = 10.0
"""No piece's name and facts over it are lower than this, in mm."""

_MOSTLY = (32.0, 27.0)
"""What labels take round most pieces, across and up, in mm."""

_AT_LEAST = 0.8
"""So much of the room round a piece its labels take on another sheet too."""

_WHOLE = 3
"""What a sheet is worth that says all it is to say."""

_PLAINLY = Wording()

_LEAST_HEIGHT = 2 * LARGE
"""No findings are lower than this, in mm."""


@dataclass(frozen=True, slots=True)
class _Layout:
    """Pieces with their labels and where each goes; ``boxes`` is None where they do not all fit.

    Of those that do not, ``blocks`` are the first, as many as it took to know.
    """

    blocks: tuple[Block, ...]
    boxes: tuple[Box, ...] | None


@lru_cache(maxsize=32)
def _laid_out(garment: Garment, scale: int, area: Box, wording: Wording) -> _Layout:
    """Pieces one after another, as long as the others have the room that they take at least."""
    sizes = [(width, height + _CAPTION) for width, height in _bare_sizes(garment, scale)]
    corners: Sequence[Point] | None = ()
    blocks: list[Block] = []
    for number, piece in enumerate(garment.pieces):
        blocks.append(labelled_block(piece, garment, scale, area.x1 - area.x0, wording))
        sizes[number] = block_size(blocks[-1])
        corners = pack(sizes, area)
        if corners is None:
            return _Layout(tuple(blocks), None)
    boxes = (Box(x, y, x + w, y + h) for (x, y), (w, h) in zip(corners or (), sizes, strict=True))
    return _Layout(tuple(blocks), tuple(boxes))


def common_scale(results: Sequence[Result], paper: Paper = A4, wording: Wording = _PLAINLY) -> int:
    """The largest scale of ISO 5455, as its denominator, at which every size fits the paper upright.

    Where a label finds no room at any of them, the largest at which the pieces fit; the sheets then
    name what is missing.
    """
    return _best_scale(results, [(scale, paper) for scale in SCALES], wording)[0]


def _best_scale(
    results: Sequence[Result], scales: Sequence[SheetScale], wording: Wording, *, draft: bool = False
) -> SheetScale:
    """The first scale and paper at which every size fits with all that is to be read, else with most.

    A scale of ISO 5455 is always tried; what labels took round pieces there shows of those between whether
    they are worth laying out. Of a ``draft`` no scale is tried that leaves less room than labels mostly take.
    """
    best, chosen = 0, scales[-1]
    margins = [[_MOSTLY if draft else (0.0, _CAPTION)] * len(each.garment.pieces) for each in results]
    for scale, paper in scales:
        area = drawing_area(paper)
        always = scale in SCALES and not draft
        tight = zip(results, [None] * len(results) if always else margins, strict=True)
        if not all(_might_fit(each.garment, scale, area, taken) for each, taken in tight):
            continue
        worth = min(_worth(each, scale, area, wording) for each in results)
        margins = [
            _margins(each.garment, scale, area, wording, before)
            for each, before in zip(results, margins, strict=True)
        ]
        if worth > best:
            best, chosen = worth, (scale, paper)
        if best == _WHOLE:
            break
    return chosen


def _worth(result: Result, scale: int, area: Box, wording: Wording) -> int:
    """How much of a size's sheet fits: nothing, the pieces, all their labels, what stops it in full too."""
    laid = _laid_out(result.garment, scale, area, wording)
    stops = result.verdict is Severity.STOP
    if laid.boxes is None or (stops and not _notes(result, laid.boxes, area, wording)):
        return 0
    if unplaced_names(laid.blocks):
        return 1
    return 2 if stops and not _notes(result, laid.boxes, area, wording, SHORTER[:-1]) else _WHOLE


def pieces_fit(garment: Garment, scale: int, area: Box) -> bool:
    """Whether every bare piece is smaller than the drawing area: cheap, and mostly decides it."""
    room = area.x1 - area.x0, area.y1 - area.y0
    return all(width <= room[0] and height <= room[1] for width, height in _bare_sizes(garment, scale))


def _bare_sizes(garment: Garment, scale: int) -> list[tuple[float, float]]:
    """Width and height of each piece as it is drawn, without labels."""
    sizes = []
    for piece in garment.pieces:
        x0, y0, x1, y1 = piece.outline.bounds
        width = 2 * x1 if piece.on_fold and not overlaps_itself(piece, garment) else x1 - x0
        sizes.append((to_mm(width, scale), to_mm(y1 - y0, scale)))
    return sizes


def _might_fit(
    garment: Garment, scale: int, area: Box, margins: Sequence[tuple[float, float]] | None
) -> bool:
    """Whether the pieces would fit with such margins, in mm across and up; None where they are not known."""
    if margins is None or not pieces_fit(garment, scale, area):
        return pieces_fit(garment, scale, area)
    bare = _bare_sizes(garment, scale)
    sizes = [(w + across, h + up) for (w, h), (across, up) in zip(bare, margins, strict=True)]
    return pack(sizes, area) is not None


def _margins(
    garment: Garment, scale: int, area: Box, wording: Wording, before: Sequence[tuple[float, float]]
) -> list[tuple[float, float]]:
    """What labels take round each piece, and would at other scales, at least, in mm across and up.

    Of pieces that are not laid out at this scale it is what it was ``before``.
    """
    sizes = [block_size(block) for block in _laid_out(garment, scale, area, wording).blocks]
    taken = [
        (_AT_LEAST * (width - w), _AT_LEAST * (height - h))
        for (width, height), (w, h) in zip(sizes, _bare_sizes(garment, scale), strict=False)
    ]
    return [*taken, *before[len(taken) :]]


def draw_pieces(setting: Setting, result: Result) -> Drawing:
    """The pieces sheet of one size, with what the checks say, as large as it fits or at the common scale."""
    wording = wording_of(setting.design)
    scales = setting.sheet_scales if setting.scale is None else setting.sheet_scales[:1]
    scale, paper = _best_scale((result,), scales, wording, draft=setting.draft)
    area = drawing_area(paper)
    laid = _laid_out(result.garment, scale, area, wording)
    unplaced = unplaced_names(laid.blocks)
    groups: tuple[Group, ...] = ()
    boxes = laid.boxes
    notes = _notes(result, boxes, area, wording) if boxes else []
    if boxes is None or (result.verdict is Severity.STOP and not notes):
        unplaced += (f"the pieces at 1:{scale}",)
    else:
        corners = [(box.x0, box.y0) for box in (boxes if notes else spread_down(boxes, area))]
        pieces = zip(laid.blocks, result.garment.pieces, strict=True)
        blocks = [
            with_texture(block, piece, view_of(piece, result.garment, scale)) for block, piece in pieces
        ]
        groups = (*placed_groups(zip(blocks, corners, strict=True)), *notes)
    return Drawing(
        groups=groups,
        title="pieces, laid flat",
        description=_description(setting, result, scale),
        scale=scale,
        paper=paper,
        unplaced=unplaced,
    )


def _notes(
    result: Result,
    boxes: Sequence[Box],
    area: Box,
    wording: Wording,
    shorter: Sequence[Collection[Severity]] = SHORTER,
) -> list[Group]:
    """The findings where the pieces leave room: in whole sentences if there is any, else by their codes.

    Of several places the one where they take the fewest lines; empty where there are none or no room.
    """
    if result.verdict is Severity.GOOD:
        return []
    corners = _free_corners(boxes, area)
    for in_full in shorter:
        block_of = cache(partial(notes_block, result.findings, in_full=in_full, terms=wording.terms))
        spots = []
        for x, y in corners:
            for width in (area.x1 - x, *_NOTES_WIDTHS):
                if width < _NARROWEST_NOTES or x + width > area.x1 + NEAR:
                    continue
                if _free_height(boxes, area, x, y, width) < _LEAST_HEIGHT:
                    continue
                block = block_of(width=round(width, 3))
                height = block_size(block)[1] if block else 0.0
                if block and height <= _free_height(boxes, area, x, y, width):
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


def _description(setting: Setting, result: Result, scale: int) -> str:
    figures = FiguresLook(setting.design.units)
    lengths = "; ".join(
        f"{item.name} {', '.join(figures.lengths(item))}"
        + (f", {item.count} {item.counted}" if item.count else "")
        for item in result.garment.finished
    )
    return (
        f"Flat pieces of {setting.design.title}, size {result.size.name}, for {result.wearer.label}, "
        f"drawn at 1:{scale}. {lengths}."
    )
