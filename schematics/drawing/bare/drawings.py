"""Every bare drawing of a design, in each width. A new kind is one function and one line here."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial

from schematics.checks.evaluation import Result
from schematics.design.design import Design
from schematics.drawing.bare.bare_steps import draw_steps, step_stems
from schematics.drawing.bare.look import Look, look_of
from schematics.drawing.bare.one_size import draw_piece, draw_size
from schematics.drawing.bare.rooms import WIDTHS, Room
from schematics.drawing.bare.schematic import (
    draw_all_sizes,
    draw_outline,
    draw_tables,
    table_parts,
)
from schematics.drawing.ink.sheet import BareInk, Sheet
from schematics.drawing.notes import stops_in_words

Draw = Callable[[Room, BareInk], tuple[Sheet, ...]]
"""Draws in a room, in an ink that has no name yet."""

_TABLE = "all-sizes-table"


def _whole(design: Design, results: Sequence[Result], look: Look) -> Mapping[str, Draw]:
    """Drawings of the whole design by the stem of their files."""
    title = f"{design.title}, all sizes"
    return {
        "all-sizes": _single(draw_all_sizes, results, f"{title}: schematic", look),
        "all-sizes-outline": _single(draw_outline, results, f"{title}: outline", look),
        _TABLE: partial(draw_tables, results, f"{title}: finished measurements", look),
    }


def _of_size(design: Design, results: Sequence[Result], result: Result, look: Look) -> Mapping[str, Draw]:
    """Drawings of one size, by the stem of their files: all its pieces, and each by itself."""
    pieces = result.garment.pieces
    title = f"{design.title}, size {result.size.name}"
    drawings = {"all-pieces": _single(draw_size, results, result, pieces, f"{title}: all pieces", look)}
    for piece in pieces:
        stem, named = slug(piece.name), f"{title}: {piece.name}"
        drawings[stem] = _single(draw_piece, results, result, piece, named, look)
    return drawings


def _single(draw: Callable[..., Sheet], *about: object) -> Draw:
    return lambda room, ink: (draw(*about, room, ink),)


def bare_stems(design: Design, results: Sequence[Result]) -> Iterator[tuple[str | None, tuple[str, ...]]]:
    """The files' stems, first those of the whole design, then those of each size by its name."""
    look = look_of(design)
    own: list[str] = []
    for stem in _whole(design, results, look):
        for width, room in WIDTHS.items():
            parts = table_parts(results, look, room) if stem == _TABLE else 1
            own += _numbered(f"{stem}-{width}", parts)
    yield None, (*own, *step_stems(design, results))
    for result in results:
        stems = ("all-pieces", *(slug(piece.name) for piece in result.garment.pieces))
        yield result.size.name, tuple(f"{stem}-{width}" for stem in stems for width in WIDTHS)


def _numbered(stem: str, parts: int) -> Iterator[str]:
    """``all-sizes-table-column``, ``all-sizes-table-column-2`` and so on."""
    return (stem if number == 1 else f"{stem}-{number}" for number in range(1, parts + 1))


def bare_drawings(design: Design, results: Sequence[Result], size: str | None) -> Iterator[tuple[str, Sheet]]:
    """The drawings of a size, of the whole design if None, each with its file's stem."""
    look = look_of(design)
    if size is None:
        shown = tuple(results)
        drawings = _whole(design, results, look)
    else:
        shown = tuple(each for each in results if each.size.name == size)
        drawings = _of_size(design, results, shown[0], look)
    stops = stops_in_words(shown, design.terms)
    for stem, draw in drawings.items():
        for width, room in WIDTHS.items():
            sheets = draw(room, look.ink(""))
            for numbered, sheet in zip(_numbered(f"{stem}-{width}", len(sheets)), sheets, strict=True):
                name = "-".join(each for each in (design.slug, slug(size or ""), numbered) if each)
                description = " ".join(filter(None, (stops, sheet.description)))
                yield numbered, replace(sheet, description=description, ink=look.ink(name))
    if size is None:
        for stem, sheet in draw_steps(design, results, look.font):
            ink = look.ink(f"{design.slug}-{stem}")
            description = " ".join(filter(None, (stops, sheet.description)))
            yield stem, replace(sheet, description=description, ink=ink)


def slug(words: str) -> str:
    """Words as part of a file's name: ``centre-panel``."""
    return re.sub(r"[^a-zA-Z0-9]+", "-", words).strip("-").lower()
