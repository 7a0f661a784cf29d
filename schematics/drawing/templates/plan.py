"""The first page of templates: what they are for, a square to check the print, and where each page goes."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from schematics.document.lettering.text import LARGE, SMALL, line_pitch, text_width, wrap
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.labeller import draw_label
from schematics.drawing.ink.leaders import Spot
from schematics.drawing.ink.marks import Area, Group, Label, Line, Mark, Pen, Point, Text, text_lines
from schematics.drawing.ink.page import Box, block_size, pack, placed_groups
from schematics.drawing.ink.sheet import Paper
from schematics.drawing.ink.text_block import TextBlock
from schematics.drawing.notes import STOPPED_HEADING
from schematics.drawing.templates.tiles import BLANK, Tiling

SQUARE = 100.0
"""Side of the square that proves the print, in mm."""

_SIDE = "100 mm (3 15/16 in)"

_PRINT = ("Print at 100 %,", "no fitting to the page;", "both sides must measure", f"{_SIDE}.")

FOR_BLOCKING = (
    "A guide for blocking: lay the washed piece on it and pin its edges to the heavy line. "
    "The lines are the finished measurements; it is no pattern for cutting."
)

WHOLE = "the whole piece, finished:"
"""Over the measurements by which a template is checked once its pages are joined."""

_JOIN = (
    "Print this page alone first, and measure the square. Then print the others.",
    "Cut each page off along its dashed lines, on the right and below.",
    "Lay it over the next page, up to the thin line and so that the crosses meet, and tape it. "
    "Join the pages of a row, then row to row.",
)

_SCALES = (5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50)
"""Of the plan, 1 to so many."""

_SHOWN = ("piece", "fold")
"""Kinds of a template's lines that the plan shows."""

_SHARES = tuple(step / 5 for step in range(-5, 6))
"""Where across and down in its cell a page's name is tried, -1 and 1 at its edges."""

_AROUND, _OFF = ((0, 1), (0, -1), (-1, 0), (1, 0)), 1.0
"""Rows down and columns to the right of what is beside a page, and how far off its name is then, in mm."""

_UNDER_HEAD = 2.0
_GAP, _INSET = 6.0, 4.0
_CAPTION = 62.0
"""Room in mm between the square and what is beside and below it, within the square, and for a caption."""


def square_block() -> Block:
    """The square that proves the print, and what is to be done with it."""
    block = Block()
    corners = ((0.0, 0.0), (SQUARE, 0.0), (SQUARE, SQUARE), (0.0, SQUARE))
    block.add("check", "square to check the print", [Area(corners, Pen.THIN)])
    top = SQUARE / 2 - (len(_PRINT) - 1) * line_pitch(LARGE) / 2
    sides = [
        Text((SQUARE / 2, _INSET + 2), _SIDE, LARGE, "middle", bold=True),
        Text((_INSET + 2, SQUARE / 2), _SIDE, LARGE, "middle", -90.0, bold=True),
    ]
    lines = [
        Text((SQUARE / 2 + _INSET, top + number * line_pitch(LARGE)), line, LARGE, "middle")
        for number, line in enumerate(_PRINT)
    ]
    block.add("check-words", "how to check the print", [*sides, *lines])
    return block


def plan_pages(
    tilings: Sequence[Tiling], heading: str, stops: Sequence[str], paper: Paper
) -> list[tuple[Group, ...]] | None:
    """The first page, and others where the plan needs them; None where it is too large for a page.

    Args:
        tilings: the pieces on their pages.
        heading: what it is of.
        stops: why it cannot be made.
        paper: of the pages.
    """
    whole = Box(BLANK, BLANK, paper.width - BLANK, paper.height - BLANK)
    head = _head(heading, stops, whole)
    top = whole.y0 + block_size(head)[1] + _UNDER_HEAD
    first = (*head.at(whole.x0, whole.y0), *_square_and_words(whole.x0, top, whole.x1))
    below = Box(whole.x0, top + SQUARE + _GAP, whole.x1, whole.y1)
    for clear in (True, False):
        if (groups := _fitted(tilings, below, clear=clear)) is not None:
            return [(*first, *groups)]
        for parts in ([tilings], [[each] for each in tilings]):
            more = [groups for part in parts if (groups := _fitted(part, whole, clear=clear)) is not None]
            if len(more) == len(parts):
                return [first, *more]
    return None


def _head(heading: str, stops: Sequence[str], area: Box) -> Block:
    """The heading, and under it what stops the size."""
    width = area.x1 - area.x0
    block = Block()
    lines = wrap(heading, width, LARGE, bold=True)
    block.add("heading", "heading", text_lines((0.0, 0.0), lines, LARGE, bold=True))
    if stops:
        text = TextBlock(STOPPED_HEADING, width)
        text.add(stops)
        for group in text.block("checks", "checks").at(0.0, block.bounds()[3] + 2.0):
            block.add(group.kind, group.name, group.marks)
    return block


def _square_and_words(left: float, top: float, right: float) -> Iterator[Group]:
    """The square, and beside it what is to be done."""
    yield from square_block().at(left, top)
    x = left + SQUARE + _GAP
    text = TextBlock("What it is for", right - x)
    text.add((FOR_BLOCKING,))
    yield from text.block("words", "what it is for").at(x, top)
    steps = TextBlock("How to join the pages", right - x)
    for number, step in enumerate(_JOIN, start=1):
        steps.marks.append(Text((0, steps.y), f"{number}"))
        steps.add((step,), 1.0, 5.0)
    down = block_size(text.block("words", ""))[1] + _GAP
    yield from steps.block("words", "how to join the pages").at(x, top + down)


def _fitted(tilings: Sequence[Tiling], area: Box, *, clear: bool) -> tuple[Group, ...] | None:
    """The plans of pieces at the largest scale at which they have room.

    If they are to be ``clear``, the name of every page is in nobody's way; else it is in its cell at least.
    """
    for scale in _SCALES:
        blocks = [block for each in tilings if (block := _plan(each, scale)) is not None]
        if len(blocks) < len(tilings):
            return None
        corners = pack([block_size(block) for block in blocks], area)
        if corners is not None and not (clear and any(block.unplaced for block in blocks)):
            return placed_groups(zip(blocks, corners, strict=True))
    return None


def _plan(tiling: Tiling, scale: int) -> Block | None:
    """The outline over its pages with their names; None where a cell has no room for its name.

    Names for which the outline leaves no room are listed as unplaced, though they are drawn.
    """
    block = Block()

    def small(x: float, y: float) -> Point:
        return x / scale, y / scale

    template = tiling.template
    for kind, line in template.lines:
        if kind in _SHOWN:
            block.add(
                f"plan-{kind}", template.name, [Line(tuple(small(x, y) for x, y in line.points), line.pen)]
            )
    cells: list[Mark] = []
    for tile in tiling.tiles.values():
        (x0, y0), (x1, y1) = small(tile.cell.x0, tile.cell.y0), small(tile.cell.x1, tile.cell.y1)
        cells.append(Area(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), Pen.GRID))
    block.add("pages", template.name, cells)
    for tile in tiling.tiles.values():
        cell = Box(*small(tile.cell.x0, tile.cell.y0), *small(tile.cell.x1, tile.cell.y1))
        places = list(_places(tile.name, cell, [side for side in _AROUND if not tiling.beside(tile, *side)]))
        if not places:
            return None
        label = Label((tile.name,))
        if not draw_label(block, "page-name", tile.name, label, places, optional=True):
            block.add("page-name", tile.name, places[0].marks(label))
            block.unplaced.append(tile.name)
    _caption(block, tiling)
    return block


def _places(name: str, cell: Box, free: Sequence[tuple[int, int]]) -> Iterator[Spot]:
    """Where a page's name may go: in its cell, its middle first, else beside it where no page is."""
    width, height = Label((name,)).size
    x, y = (cell.x0 + cell.x1) / 2, (cell.y0 + cell.y1) / 2
    across, down = (cell.x1 - cell.x0 - width) / 2, (cell.y1 - cell.y0 - height) / 2
    if across <= 0 or down <= 0:
        return
    inside = [(x + across * share_x, y + down * share_y) for share_y in _SHARES for share_x in _SHARES]
    yield from map(Spot, sorted(inside, key=lambda place: round(math.dist(place, (x, y)), 3)))
    for rows, columns in free:
        yield Spot((x + columns * (across + width + _OFF), y + rows * (down + height + _OFF)))


def _caption(block: Block, tiling: Tiling) -> None:
    """The piece's name, its notes and its finished measurements, above its plan."""
    template = tiling.template
    x0, y0, x1, _ = block.bounds()
    width = max(_CAPTION, x1 - x0, *(math.ceil(text_width(each)) for each in template.figures))
    lines = [line for note in (*template.notes, WHOLE, *template.figures) for line in wrap(note, width)]
    names = wrap(template.heading, width, LARGE, bold=True)
    y = y0 - 2.5 - (len(lines) - 1) * line_pitch(SMALL)
    block.add("caption", template.name, [
        *text_lines((x0, y - 1.0 - len(names) * line_pitch(LARGE) + 1.0), names, LARGE, bold=True),
        *text_lines((x0, y), lines),
    ])  # fmt: skip
