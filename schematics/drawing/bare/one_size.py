"""Bare schematics of one size, its figures in them or letters and a table."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

from schematics.checks.evaluation import Result
from schematics.drawing.bare.alike import ToFit, all_drawn, drawn_alike
from schematics.drawing.bare.lettered import (
    Lettered,
    finished_sheet,
    legend_under,
    lengths_in_words,
    pieces_in_words,
    scale_in_words,
    with_table,
)
from schematics.drawing.bare.look import Look
from schematics.drawing.bare.pieces_in_room import MUCH_LARGER, Fitted
from schematics.drawing.bare.rooms import HIGHEST, ONE_PIECE, Room
from schematics.drawing.ink.sheet import BareInk, Sheet
from schematics.drawing.pieces.figures_look import Words
from schematics.garment.garment import Garment, Piece

_SMALL = 50.0
"""An outline no longer than that either way, in mm, is small."""

_FAR = 0.36
"""Figures at the end of a leader longer than so much of a room's width are far from what they measure."""

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

    All sizes have figures or all have letters. Counts are left out, as what found no room, where all would
    be too high with them. Sizes are drawn so that they compare.
    """
    drawing = _drawing(results, [piece.name for piece in pieces], look, room)
    manner = _manner(drawing)
    if manner.is_too_high and look.counts:
        lower = draw_size(results, result, pieces, title, replace(look, counts=False), room, ink)
        return replace(lower, unplaced=(*lower.unplaced, "the counts"))
    description = f"{pieces_in_words(pieces).capitalize()}, laid flat, size {result.size.name}"
    at = drawing.results.index(result)
    figures = drawing.to_fit(at, letters=False).at(manner.scales[at]) if manner.figures else None
    if figures:
        lengths = lengths_in_words(result, pieces, look.figures(room.lettering))
        description = f"{description}, {scale_in_words(figures)}. {lengths}"
        return finished_sheet(figures, title, description, ink, room, look.lettering(room.lettering))
    lettered = replace(drawing.lettered(at), scale=manner.scales[at], under=manner.under)
    return with_table(lettered, title, description, ink)


def draw_piece(
    results: Sequence[Result], result: Result, piece: Piece, title: str, look: Look, room: Room, ink: BareInk
) -> Sheet:
    """One piece by itself: in all sizes as high as all pieces together where any would else be smaller."""
    low = replace(room, height=min(room.height, ONE_PIECE))
    alone, higher, among = (
        _scales(_drawing(results, names, look, there))
        for names, there in (
            ((piece.name,), low),
            ((piece.name,), room),
            ([each.name for each in result.garment.pieces], room),
        )
    )
    is_higher = any(alone[at] > among[at] and higher[at] < alone[at] for at in alone)
    return draw_size(results, result, (piece,), title, look, room if is_higher else low, ink)


def _scales(drawing: _Drawing) -> dict[int, float]:
    """The denominator of each size's scale, infinite where it has no room."""
    manner = _manner(drawing)
    if manner.is_too_high and drawing.look.counts:
        return _scales(replace(drawing, look=replace(drawing.look, counts=False)))
    return {at: scale or math.inf for at, scale in manner.scales.items()}


@dataclass(frozen=True, slots=True)
class _Manner:
    """How a drawing is made in all sizes: at 1:each of ``scales`` by size, the largest size first.

    They are 0 where a size has no room. With letters it ``is_too_high`` where figures have no room either,
    and so many mm are kept ``under`` the pieces for a legend.
    """

    scales: Mapping[int, float]
    figures: bool
    under: float = 0.0
    is_too_high: bool = False

    @property
    def largest(self) -> int:
        """The place of the largest size."""
        return next(iter(self.scales))


@dataclass(frozen=True, slots=True)
class _Drawing:
    """Pieces of those ``names`` of a design, to be drawn of any of its sizes; only garments tell it apart."""

    names: tuple[str, ...]
    garments: tuple[Garment, ...]
    results: tuple[Result, ...] = field(compare=False)
    look: Look
    room: Room
    under: float = 0.0
    """What is kept under lettered pieces for a legend, in mm."""

    def to_fit(self, at: int, *, letters: bool) -> ToFit:
        """That of one size."""
        inside, lettering = self.room.inside, self.look.lettering(self.room.lettering)
        words: Words = self.look.figures(self.room.lettering).labels
        if letters:
            lettered = self.lettered(at)
            words = lettered.words
            inside = replace(inside, y1=lettered.heights(lettered.table())[0])
        return ToFit(self._pieces(at), self.garments[at], words, inside, lettering, self.look.limits, letters)

    def lettered(self, at: int) -> Lettered:
        """One size over a table."""
        shape, pieces = self.results[at], self._pieces(at)
        return Lettered((shape,), shape, pieces, self.look, self.room, under=self.under)

    def all_to_fit(self, *, letters: bool) -> list[ToFit]:
        """Those of all sizes."""
        return [self.to_fit(at, letters=letters) for at in range(len(self.garments))]

    def heights(self, drawn: Mapping[int, Fitted | None], *, tight: bool = False) -> Iterator[float]:
        """Of each size over its table, in mm, without a legend."""
        for at, each in drawn.items():
            lettered = self.lettered(at)
            if each := each or lettered.over(lettered.table()):
                yield lettered.height(each, tight=tight)

    def _pieces(self, at: int) -> list[Piece]:
        return [self.garments[at].piece(name) for name in self.names]


def _drawing(results: Sequence[Result], names: Iterable[str], look: Look, room: Room) -> _Drawing:
    return _Drawing(tuple(names), tuple(each.garment for each in results), tuple(results), look, room)


@lru_cache(maxsize=64)
def _manner(drawing: _Drawing) -> _Manner:
    """Figures where they have room in all sizes, unless they are far off or letters make much larger."""
    drawn = {} if drawing.look.letters else all_drawn(drawing.all_to_fit(letters=False))
    figures = _Manner({at: each.scale for at, each in drawn.items()}, figures=True)
    far = max((each.longest_leader for each in drawn.values()), default=0.0) > _FAR * drawing.room.width
    if drawn and not far and not _is_much_larger_with_letters(drawing, figures):
        return figures
    letters, is_too_high = _lettered(drawing)
    return figures if drawn and is_too_high else replace(letters, is_too_high=is_too_high)


def _lettered(drawing: _Drawing) -> tuple[_Manner, bool]:
    """With letters, and whether that is higher than a page of figures by more than a table is worth."""
    drawn = dict(drawn_alike(drawing.all_to_fit(letters=True)))
    room, largest = drawing.room, next(iter(drawn.values()))
    if largest and not (room.scrolls or drawing.under):
        under = legend_under(largest, room.inside.x1, drawing.look.lettering(room.lettering))
        if max(drawing.heights(drawn, tight=True)) + under > HIGHEST:
            return _lettered(replace(drawing, under=under))
    most = math.inf if room.scrolls else min(_WITH_TABLE * room.height, HIGHEST)
    scales = {at: each.scale if each else 0.0 for at, each in drawn.items()}
    return _Manner(scales, figures=False, under=drawing.under), max(
        drawing.heights(drawn), default=0.0
    ) > most


def _is_much_larger_with_letters(drawing: _Drawing, figures: _Manner) -> bool:
    """Whether the largest size is small with figures and would not be with letters."""
    at, scale = figures.largest, figures.scales[figures.largest]
    is_small = drawing.to_fit(at, letters=False).longest <= _SMALL * scale
    return is_small and drawing.to_fit(at, letters=True).between(0.0, scale / MUCH_LARGER) is not None
