"""The name of a piece over it, and its colour under that."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.document.lettering.text import PLAIN, Lettering, line_pitch
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Text
from schematics.garment.garment import Piece


def name_over(piece: Piece, block: Block, lettering: Lettering = PLAIN) -> Iterator[Text]:
    """Its name over the block, and its colour between, so that pieces find room beside each other."""
    x0, y0, _, _ = block.bounds()
    height, y = lettering.height, y0 - 1.2 * lettering.height
    name, _, colour = piece.heading.partition(", ")
    if colour:
        yield Text((x0, y), colour, height, font=lettering.font)
        y -= line_pitch(height)
    yield Text((x0, y), name, height, bold=True, font=lettering.font)
