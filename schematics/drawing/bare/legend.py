"""What strokes, dots, dashes and arrows of drawn pieces mean, for who has no words beside the drawing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from schematics.checks.wording import listed, sentence_case
from schematics.document.lettering.text import Lettering, wrap
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import text_lines
from schematics.drawing.pieces.piece_texture import colour_words
from schematics.drawing.pieces.view import CENTRE_BACK
from schematics.garment.garment import Piece

LEGEND = "legend"
"""The name of its group."""

_OTHER_STROKES = "motif", "texture"
"""Kinds of groups whose strokes are no increases."""

_FEW_LINES, _MOST_LINES = 2, 5
_NARROWER = 20
"""Several lines are tried in so many parts of the width, from half of it on."""

_TOGETHER = ":\N{NO-BREAK SPACE}"


def legend_words(drawn: Sequence[tuple[Piece, Block]]) -> str:
    """A sentence on the marks that are drawn of these pieces; empty where there are none to explain."""
    words = dict.fromkeys(words for piece, block in drawn for words in _piece_words(piece, block))
    if seams := sorted({name.split()[-1] for _, block in drawn for name in _names(block, "joined")}):
        words[f"dashes inside an edge: seam{'' if len(seams) == 1 else 's'} {listed(seams)}"] = None
    if any(_names(block, "work") for _, block in drawn):
        words["arrow: direction of work"] = None
    return sentence_case(f"{'; '.join(words)}.") if words else ""


def _piece_words(piece: Piece, block: Block) -> Iterator[str]:
    if _names(block, "increases"):
        motifs = _names(block, *_OTHER_STROKES)
        if piece.name not in motifs:
            outside = f" outside {listed(motifs)}" if motifs else ""
            yield f"strokes on the {piece.name}{outside}: increases"
    if piece.dotted:
        yield f"dotted: {listed(piece.dotted)}"
    folds = dict.fromkeys(crease.name for crease in piece.creases if crease.folded)
    if _names(block, "fold") and CENTRE_BACK not in _names(block, "note", "leader"):
        folds[CENTRE_BACK] = None
    if folds:
        yield f"long and short dashes: {listed(folds)}"
    if borders := _names(block, "border"):
        yield f"line inside the {piece.name}: edge of {listed(borders)}"
    if colours := colour_words(piece):
        yield f"{piece.name}: {colours}"


def _names(block: Block, *kinds: str) -> list[str]:
    """The names of its groups of those kinds, each once."""
    return list(dict.fromkeys(group.name for group in block.groups if group.kind in kinds))


def legend_block(words: str, widths: Sequence[float], lettering: Lettering) -> Block | None:
    """The words as wide as the first of the ``widths``, in mm, at which two lines hold them; None at none.

    Where two do not, as many as the last of them needs. No line ends between a mark and what it means, and
    lines are as equally long as they can be.
    """
    together = words.replace(": ", _TOGETHER)

    def held(width: float, most: int) -> list[str]:
        """Its lines; none where they are more or a word would be cut."""
        lines = wrap(together, width, lettering.height, font=lettering.font)
        return lines if len(lines) <= most and " ".join(lines) == together else []

    tried = [*((width, _FEW_LINES) for width in widths), (widths[-1], _MOST_LINES)]
    width, lines = next(((width, lines) for width, most in tried if (lines := held(width, most))), (0.0, []))
    if not lines:
        return None
    if len(lines) > 1:
        narrower = (held(width * share / _NARROWER, len(lines)) for share in range(_NARROWER // 2, _NARROWER))
        lines = next(filter(None, narrower), lines)
    block = Block()
    block.add("note", LEGEND, text_lines((0.0, 0.0), lines, lettering.height, font=lettering.font))
    return block
