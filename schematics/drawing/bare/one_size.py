"""Bare schematics of one size, its figures in them or letters and a table."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache, partial

from schematics.checks.evaluation import Result
from schematics.drawing.bare.lettered import (
    Lettered,
    finished_sheet,
    legend_height,
    lengths_in_words,
    letter_words,
    outline_heights,
    pieces_in_words,
    scale_in_words,
    with_table,
)
from schematics.drawing.bare.look import Look
from schematics.drawing.bare.pieces_in_room import MUCH_LARGER, Fitted, at_scale, fitted, scale_of
from schematics.drawing.bare.rooms import HIGHEST, Room
from schematics.drawing.ink.sheet import BareInk, Sheet
from schematics.drawing.pieces.figures_look import measurement_letters
from schematics.garment.garment import Garment, Piece

_SMALL = 50.0
"""An outline no longer than that either way, in mm, is small."""

_WITH_TABLE = 1.25
"""A piece with its table may be so many times as high as one with figures, on a page that has room for it."""


def draw_size(
    results: Sequence[Result],
    result: Result,
    pieces: Sequence[Piece],
    title: str,
    look: Look,
    room: Room,
    ink: BareInk,
) -> Sheet:
    """Pieces of one size with their figures, or with letters and a table where figures find no room.

    All sizes have figures or all have letters, whichever suits the smallest and the largest. Counts are
    left out, as what found no room, where it is too high with them. Pieces are at the scale of the largest
    size, so that sizes compare; those very small there, or whose labels have no room, are drawn as large as
    they can be.
    """
    names = tuple(piece.name for piece in pieces)
    by_size = sorted(results, key=lambda each: sum(each.garment.piece(name).outline.area for name in names))
    design = _Design((by_size[0].garment, by_size[-1].garment), (by_size[0], by_size[-1]))
    drawing = _Drawing(names, design, look, room)
    description = f"{pieces_in_words(pieces).capitalize()}, laid flat, size {result.size.name}"
    lettered = None if _has_figures(drawing) else drawing.with_letters(result, title, description, ink)
    is_too_high = lettered is not None and drawing.is_too_high(lettered)
    figures = drawing.with_figures(result.garment) if is_too_high or lettered is None else None
    if figures:
        lengths = lengths_in_words(result, pieces, look.figures(room.lettering))
        description = f"{description}, {scale_in_words(figures)}. {lengths}"
        return finished_sheet(figures, title, description, ink, room, look.lettering(room.lettering))
    if is_too_high and look.counts:
        lower = draw_size(results, result, pieces, title, replace(look, counts=False), room, ink)
        return replace(lower, unplaced=(*lower.unplaced, "the counts"))
    return lettered or drawing.with_letters(result, title, description, ink)


@dataclass(frozen=True, slots=True)
class _Design:
    """The smallest and the largest size; only garments differ from one to another."""

    garments: tuple[Garment, Garment]
    ends: tuple[Result, Result] = field(compare=False)


@dataclass(frozen=True, slots=True)
class _Drawing:
    """Pieces of those ``names`` of a design, to be drawn of any of its sizes."""

    names: tuple[str, ...]
    design: _Design
    look: Look
    room: Room

    def with_figures(self, garment: Garment) -> Fitted | None:
        """None where they, or those of the largest size, have no room for figures, or are to have letters.

        Where others have figures it is worth looking finely for room.
        """
        if self.look.letters:
            return None
        inside, lettering = self.room.inside, self.look.lettering(self.room.lettering)
        words = self.look.figures(self.room.lettering).labels
        scale = scale_of(self._largest, self.names, words, inside, lettering, letters=False)
        draw = partial(fitted, self._of(garment), garment, words, inside, lettering, letters=False)
        return at_scale(scale, draw) or draw(finely=True) if scale else None

    def with_letters(self, result: Result, title: str, description: str, ink: BareInk) -> Sheet:
        """Over a table."""
        inside, lettering = self.room.inside, self.look.lettering(self.room.lettering)
        lettered = Lettered((result,), result, self._of(result.garment), self.look, self.room)
        letters = measurement_letters(self.design.ends[1:])
        words = letter_words(tuple(letters.items()), lettering)
        over_table = replace(inside, y1=outline_heights(inside.y1, lettered.table())[0])
        scale = scale_of(self._largest, self.names, words, over_table, lettering, letters=True)
        return with_table(replace(lettered, scale=scale), title, description, ink)

    def is_too_high(self, sheet: Sheet) -> bool:
        """Whether it is higher than a page of figures by more than a table is worth."""
        high = sheet.paper.height - legend_height(sheet)
        return high > min(_WITH_TABLE * self.room.height, HIGHEST) and not self.room.scrolls

    @property
    def _largest(self) -> Garment:
        return self.design.garments[1]

    def _of(self, garment: Garment) -> list[Piece]:
        return [garment.piece(name) for name in self.names]


@lru_cache(maxsize=64)
def _has_figures(drawing: _Drawing) -> bool:
    """Whether figures have room in the smallest and the largest size and letters make neither much larger."""
    for result in drawing.design.ends:
        figures = drawing.with_figures(result.garment)
        if figures is None:
            return False
        if figures.longest <= _SMALL:
            lettered = drawing.with_letters(result, "", "", drawing.look.ink(""))
            is_much_larger = lettered.scale and lettered.scale <= figures.scale / MUCH_LARGER
            if is_much_larger and not drawing.is_too_high(lettered):
                return False
    return True
