"""Every bare drawing of a design, in each width. A new kind is one function and one line here."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial

from schematics.checks.evaluation import Result
from schematics.design.design import Design
from schematics.drawing.bare.look import Look, look_of
from schematics.drawing.bare.rooms import ONE_PIECE, WIDTHS, Room
from schematics.drawing.bare.schematic import draw_all_sizes, draw_outline, draw_size, draw_table
from schematics.drawing.ink.sheet import BareInk, Sheet
from schematics.garment.garment import Piece

Draw = Callable[[Room, BareInk], Sheet]


_WHOLE: Mapping[str, tuple[str, Callable[[Sequence[Result], str, Look, Room, BareInk], Sheet]]] = {
    "all-sizes": ("schematic", draw_all_sizes),
    "all-sizes-outline": ("outline", draw_outline),
    "all-sizes-table": ("finished measurements", draw_table),
}
"""Drawings of the whole design by the stem of their files, each with its name."""


def _whole(design: Design, results: Sequence[Result], look: Look) -> Mapping[str, Draw]:
    return {
        stem: partial(draw, results, f"{design.title}, all sizes: {name}", look)
        for stem, (name, draw) in _WHOLE.items()
    }


def _of_size(design: Design, result: Result, look: Look) -> Mapping[str, Draw]:
    """Drawings of one size, by the stem of their files: all its pieces, and each by itself."""
    pieces = result.garment.pieces
    title = f"{design.title}, size {result.size.name}"
    drawings: dict[str, Draw] = {
        "all-pieces": partial(draw_size, result, pieces, f"{title}: all pieces", look),
    }
    for piece in pieces:
        drawings[slug(piece.name)] = partial(_one_piece, result, piece, f"{title}: {piece.name}", look)
    return drawings


def _one_piece(result: Result, piece: Piece, title: str, look: Look, room: Room, ink: BareInk) -> Sheet:
    lower = replace(room, height=min(room.height, ONE_PIECE))
    return draw_size(result, (piece,), title, look, lower, ink)


def bare_stems(results: Sequence[Result]) -> Iterator[tuple[str | None, tuple[str, ...]]]:
    """The files' stems, first those of the whole design, then those of each size by its name."""
    yield None, tuple(f"{stem}-{width}" for stem in _WHOLE for width in WIDTHS)
    for result in results:
        stems = ("all-pieces", *(slug(piece.name) for piece in result.garment.pieces))
        yield result.size.name, tuple(f"{stem}-{width}" for stem in stems for width in WIDTHS)


def bare_drawings(design: Design, results: Sequence[Result], size: str | None) -> Iterator[tuple[str, Sheet]]:
    """The drawings of a size, of the whole design if None, each with its file's stem."""
    look = look_of(design)
    if size is None:
        drawings = _whole(design, results, look)
    else:
        drawings = _of_size(design, next(each for each in results if each.size.name == size), look)
    for stem, draw in drawings.items():
        for width, room in WIDTHS.items():
            name = "-".join(each for each in (design.slug, slug(size or ""), stem, width) if each)
            yield f"{stem}-{width}", draw(room, look.ink(name))


def slug(words: str) -> str:
    """Words as part of a file's name: ``centre-panel``."""
    return re.sub(r"[^a-zA-Z0-9]+", "-", words).strip("-").lower()
