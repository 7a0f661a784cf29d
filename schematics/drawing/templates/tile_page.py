"""A page of a template: its part at full size, and how it meets its neighbours."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.document.lettering.text import LARGE, shorten, text_width
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.labeller import draw_label
from schematics.drawing.ink.leaders import Spot
from schematics.drawing.ink.marks import Circle, Group, Label, Line, Mark, Pen, Point, Text, moved_group
from schematics.drawing.ink.page import Box
from schematics.drawing.ink.sheet import Paper, Sheet
from schematics.drawing.templates.parts import TileWindow, draw_parts
from schematics.drawing.templates.tiles import BLANK, HEAD, OVERLAP, Tile, Tiling, frame

_ARM = 8.0
"""Length of a cross's arm in mm, cut at the page's frame; so it shows beyond the page laid over it."""

_RING = 1.5

_NAME = 7.0
"""Height of the capitals of a page's name, in mm."""

_AGAIN, _CORNER = 5.0, 6.0
"""The same of the name inside the frame, and how far from the corner that is, in mm."""

_SHARES = (0.5, 0.35, 0.65, 0.42, 0.58, 0.27, 0.73, 0.2, 0.8, 0.12, 0.88)
_DEEP = (OVERLAP / 2, 0.3 * OVERLAP, 0.7 * OVERLAP)
"""Where along a strip that lies under a neighbour its name is tried, and how deep in it, in mm."""

_OFF = (OVERLAP + 3.0, OVERLAP + 5.0)
"""How deep it is tried beside the strip, where lines run along that."""

PRINT = "print at 100 %, no fitting to the page"


def tile_sheets(
    tiling: Tiling, paper: Paper, title: str, size: str, numbers: range, total: int
) -> Iterator[tuple[Tile, Sheet]]:
    """Every page of a template.

    Args:
        tiling: the template on its pages.
        paper: of the pages.
        title: the design's.
        size: its name.
        numbers: those of the pages.
        total: how many pages there are of everything.
    """
    tiles = [*tiling.tiles.values()]
    windows = [_window(tiling, tile) for tile in tiles]
    blocks = draw_parts(tiling.template, size, windows)
    corner, heading = frame(paper), f"{tiling.template.heading}, size {size}"
    for tile, window, block, number in zip(tiles, windows, blocks, numbers, strict=True):
        _name_page(block, tiling, tile, window)
        groups = (
            moved_group(group, corner.x0 - tile.box.x0, corner.y0 - tile.box.y0) for group in block.groups
        )
        head = Group(
            "head", tile.name, tuple(_head(tile, heading, title, paper, f"page {number} of {total}"))
        )
        yield (
            tile,
            Sheet(
                paper=paper,
                scale=1,
                title=f"{title}, size {size}: {tiling.template.name}, page {tile.name}",
                description=f"Page {tile.name} of the template of the {tiling.template.name}, at full size.",
                groups=(head, *groups),
                unplaced=tuple(block.unplaced),
            ),
        )


def _head(tile: Tile, heading: str, title: str, paper: Paper, page: str) -> Iterator[Mark]:
    """Above the frame: the page's name, the piece, and how to print it."""
    left, right, base = BLANK, paper.width - BLANK, BLANK + HEAD - 3.0
    yield Text((left, base), tile.name, _NAME, bold=True)
    left += text_width(tile.name, _NAME, bold=True) + 4.0
    yield Text((right, base - 4.5), page, LARGE, "end")
    room = right - left - text_width(page, LARGE) - 4.0
    yield Text((left, base - 4.5), shorten(heading, room, LARGE, bold=True), LARGE, bold=True)
    yield Text((left, base), f"{shorten(title, right - left - text_width(f'; {PRINT}'))}; {PRINT}")


def _window(tiling: Tiling, tile: Tile) -> TileWindow:
    """Words keep off the strips that lie over or under a neighbour."""
    box = tile.box
    above, left, below, right = (
        OVERLAP if tiling.beside(tile, *side) else 1.0 for side in ((-1, 0), (0, -1), (1, 0), (0, 1))
    )
    return TileWindow(
        cut=box,
        words=Box(box.x0 + left, box.y0 + above, box.x1 - right, box.y1 - below),
        marks=tuple(_joining(tiling, tile)),
    )


def _joining(tiling: Tiling, tile: Tile) -> Iterator[Group]:
    """The frame, cut lines to the right and below, where neighbours come to lie, and the crosses."""
    box = tile.box
    yield Group("frame", tile.name, tuple(_frame(tiling, tile)))
    for name, side, line in (
        ("left", (0, -1), ((box.x0 + OVERLAP, box.y0), (box.x0 + OVERLAP, box.y1))),
        ("above", (-1, 0), ((box.x0, box.y0 + OVERLAP), (box.x1, box.y0 + OVERLAP))),
    ):
        if tiling.beside(tile, *side):
            yield Group("overlap", f"{tile.name} {name}", (Line(line, Pen.GRID),))
    for down, right in ((-1, -1), (-1, 1), (1, -1), (1, 1)):
        if any(tiling.beside(tile, *side) for side in ((down, 0), (0, right), (down, right))):
            cell = tile.cell
            at = cell.x0 if right < 0 else cell.x1, cell.y0 if down < 0 else cell.y1
            yield Group("crosshair", f"{tile.name} {at[0]:.0f} {at[1]:.0f}", tuple(_cross(at, box)))


def _frame(tiling: Tiling, tile: Tile) -> Iterator[Line]:
    """The edges of what is drawn, dashed where the page is cut off to be laid over its neighbour."""
    x0, y0, x1, y1 = tile.box.x0, tile.box.y0, tile.box.x1, tile.box.y1
    for line, side in (
        (((x0, y0), (x1, y0)), None),
        (((x1, y0), (x1, y1)), (0, 1)),
        (((x1, y1), (x0, y1)), (1, 0)),
        (((x0, y1), (x0, y0)), None),
    ):
        yield Line(line, Pen.SEAM if side and tiling.beside(tile, *side) else Pen.GRID)


def _cross(at: Point, box: Box) -> Iterator[Mark]:
    x, y = at
    yield Line(((max(box.x0, x - _ARM), y), (min(box.x1, x + _ARM), y)))
    yield Line(((x, max(box.y0, y - _ARM)), (x, min(box.y1, y + _ARM))))
    yield Circle(at, _RING)


def _name_page(block: Block, tiling: Tiling, tile: Tile, window: TileWindow) -> None:
    """The page's name once more, where it stays to be seen, and which pages come over its strips."""
    label = Label((tile.name,), _AGAIN, bold=True)
    width, height = label.size
    inside, box = window.words, tile.box
    xs = inside.x0 + width / 2 + _CORNER, inside.x1 - width / 2 - _CORNER
    ys = inside.y0 + height / 2 + _CORNER, inside.y1 - height / 2 - _CORNER
    spots = [Spot((x, y)) for y in ys for x in xs]
    draw_label(block, "page-name", tile.name, label, spots, optional=True)
    for side, angle, where in (((0, -1), -90.0, "at the left"), ((-1, 0), 0.0, "above")):
        if other := tiling.beside(tile, *side):
            for words, depths in (
                (f"page {other.name} comes over this strip", _DEEP),
                (f"under page {other.name}", _DEEP),
                (f"page {other.name} comes over the strip {where}", _OFF),
            ):
                spots = [
                    Spot((box.x0 + deep, box.y0 + (box.y1 - box.y0) * share), angle)
                    if angle
                    else Spot((box.x0 + (box.x1 - box.x0) * share, box.y0 + deep))
                    for deep in depths
                    for share in _SHARES
                ]
                name = f"{tile.name} {other.name}"
                if draw_label(block, "overlap-name", name, Label((words,)), spots, optional=True):
                    break
