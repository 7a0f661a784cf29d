"""The pieces of every size in outline, each finished measurement with its letter."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from schematics.checks.evaluation import Result
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Group, Label, bounds
from schematics.drawing.pieces.figures_look import measurement_letters
from schematics.drawing.pieces.piece_block import dimensioned, overlaps_itself
from schematics.fitting.page.inline_svg import WIDTH, inline_svg
from schematics.garment.garment import Finished, Garment, Piece, Span

_SCALES = (2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100)
_HEIGHT = 72.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """One piece of one size: what it is, in words, and its drawing."""

    caption: str
    drawing: Markup


def outlines(results: Sequence[Result]) -> list[list[Outline]]:
    """For every size the outlines of its pieces, all of one size at one scale.

    A measurement that finds no room has no letter in the drawing; the table beside it has them all.
    """
    named = measurement_letters(results)
    return [
        [
            _outline(piece, result.garment, result.size.name, groups)
            for piece, groups in zip(result.garment.pieces, _at_one_scale(result.garment, named), strict=True)
        ]
        for result in results
    ]


def _at_one_scale(garment: Garment, named: Mapping[str, str]) -> list[list[Group]]:
    """The pieces at the largest scale at which all of them fit, with every letter if there is such a one.

    Their fold has no name: small drawings leave that to the text.
    Where letters on leaders make them too large at any scale, the smallest; a phone then shrinks them.
    """
    fitting: list[list[Group]] | None = None
    for scale in _SCALES:
        if any(_breadth(piece, garment) * 10 / scale > WIDTH for piece in garment.pieces):
            continue
        blocks: list[Block] = []
        for piece in garment.pieces:
            blocks.append(_block(piece, garment, scale, named))
            if _over(blocks[-1].groups) > 0 or (fitting and blocks[-1].unplaced):
                break
        else:
            fitting = fitting or [block.groups for block in blocks]
            if not any(block.unplaced for block in blocks):
                return [block.groups for block in blocks]
    if fitting is not None:
        return fitting
    tried = [
        [_block(piece, garment, scale, named).groups for piece in garment.pieces] for scale in _SCALES[-4:]
    ]
    return min(tried, key=lambda drawn: max(map(_over, drawn)))


def _block(piece: Piece, garment: Garment, scale: int, named: Mapping[str, str]) -> Block:
    def letter(item: Finished, _span: Span, _halved: bool) -> tuple[Label, ...]:
        return (Label((named[item.key],), bold=True),)

    return dimensioned(piece, garment, scale, letter, fold_named=False)


def _over(groups: Sequence[Group]) -> float:
    """By how much a drawing is too large, in mm; not positive if it is not."""
    x0, y0, x1, y1 = bounds(groups)
    return max(x1 - x0 - WIDTH, y1 - y0 - _HEIGHT)


def _breadth(piece: Piece, garment: Garment) -> float:
    x0, _, x1, _ = piece.outline.bounds
    return float(2 * x1 if piece.on_fold and not overlaps_itself(piece, garment) else x1 - x0)


def _outline(piece: Piece, garment: Garment, size: str, groups: Sequence[Group]) -> Outline:
    half = ", right half on the fold" if overlaps_itself(piece, garment) else ""
    make = f" (make {piece.quantity})" if piece.quantity > 1 else ""
    description = f"Outline of the {piece.name}{half} with a letter at each measurement."
    return Outline(
        caption=f"{piece.name}{make}{half}",
        drawing=inline_svg(groups, f"Size {size}, {piece.name}", description),
    )
