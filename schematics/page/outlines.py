"""The pieces of every size in outline, each finished measurement with its letter."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from string import ascii_uppercase

from markupsafe import Markup

from schematics.drawing.block import Block
from schematics.drawing.marks import Label
from schematics.drawing.page import block_size
from schematics.drawing.piece_block import dimensioned
from schematics.evaluate import Result
from schematics.garment import Finished, Garment, Piece, Span
from schematics.page.inline_svg import WIDTH, inline_svg

_SCALES = (2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100)
_HEIGHT = 72.0


def letters(results: Sequence[Result]) -> dict[str, str]:
    """A letter for every measurement that is drawn, by its key, in the order of the finished measurements."""
    drawn = {span.key for result in results for piece in result.garment.pieces for span in piece.spans}
    keys = [item.key for item in results[0].garment.finished if item.key in drawn]
    names = [*ascii_uppercase, *(a + b for a in ascii_uppercase for b in ascii_uppercase)]
    return dict(zip(keys, names, strict=False))


def outlines(results: Sequence[Result]) -> list[list[Markup]]:
    """For every size the outlines of its pieces; each piece is at one scale in all sizes.

    A measurement that finds no room has no letter in the drawing, and a piece for which no scale is right
    in all sizes has none; the table beside it has them all.
    """
    named = letters(results)
    columns = []
    for number in range(len(results[0].garment.pieces)):
        pieces = [(result, result.garment.pieces[number]) for result in results]
        blocks = _at_one_scale([(piece, result.garment) for result, piece in pieces], named)
        if blocks is not None:
            drawn = zip(pieces, blocks, strict=True)
            columns.append([_drawing(result, piece, block) for (result, piece), block in drawn])
    return [[column[number] for column in columns] for number in range(len(results))]


def _at_one_scale(pieces: Sequence[tuple[Piece, Garment]], named: Mapping[str, str]) -> list[Block] | None:
    """The pieces at the largest scale at which all of them fit, with every letter if there is such a one."""

    def letter(item: Finished, _span: Span, _halved: bool) -> tuple[Label, ...]:
        return (Label((named[item.key],), bold=True),)

    fitting: list[Block] | None = None
    for scale in _SCALES:
        if any(_bare(piece) * 10 / scale > WIDTH for piece, _ in pieces):
            continue
        blocks: list[Block] = []
        for piece, garment in reversed(pieces):
            blocks.append(dimensioned(piece, garment, scale, letter, markers=False))
            width, height = block_size(blocks[-1])
            if width > WIDTH or height > _HEIGHT:
                break
        else:
            fitting = fitting or blocks[::-1]
            if not any(block.unplaced for block in blocks):
                return blocks[::-1]
    return fitting


def _bare(piece: Piece) -> float:
    x0, _, x1, _ = piece.outline.bounds
    return float(2 * x1 if piece.on_fold else x1 - x0)


def _drawing(result: Result, piece: Piece, block: Block) -> Markup:
    name = f"Size {result.size.name}, {piece.name}"
    return inline_svg(block.groups, name, f"Outline of the {piece.name} with a letter at each measurement.")
