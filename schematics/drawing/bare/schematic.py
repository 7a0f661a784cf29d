"""Bare schematics: the pieces of a size, and one lettered outline with a table for all sizes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

from schematics.checks.evaluation import Result
from schematics.checks.wording import listed
from schematics.drawing.bare.look import Look
from schematics.drawing.bare.pieces_in_room import Fitted, fitted
from schematics.drawing.bare.rooms import PAGE, Room, cropped
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Group, Label, bounds
from schematics.drawing.ink.page import Box, block_size
from schematics.drawing.ink.sheet import BareInk, Sheet
from schematics.drawing.pieces.all_sizes import lettered_outline
from schematics.drawing.pieces.piece_block import FiguresLook, Words, measurement_letters
from schematics.drawing.pieces.size_table import Measured, measured_rows, one_size_table, size_table
from schematics.garment.garment import Finished, Piece, Span

_OVER_TABLE = 6.0
"""Between a drawing and the table under it, in mm."""

_LEAST_OUTLINE = 80.0

_OUTLINE_HEIGHTS = (140.0, 300.0)
"""What a lettered outline may take over a table so long that it leaves less, in mm: the first that does."""

_NO_ROOM = ("the lettered outline",)
_NO_LETTERS: Mapping[str, str] = {}


def bare_schematic(results: Sequence[Result], room: Room = PAGE) -> Sheet | None:
    """The pieces of the middle size, a letter at each measurement; None where they find no room."""
    letters = measurement_letters(results)
    shown = results[len(results) // 2]
    groups, _ = lettered_outline(shown, letters, room.inside, room.lettering)
    if not groups:
        return None
    names = {item.key: item.name for result in results for item in result.garment.finished}
    measured = ", ".join(f"{letter} {names[key]}" for key, letter in letters.items())
    return cropped(
        groups,
        "Schematic",
        f"The pieces laid flat: {_named(shown.garment.pieces)}. A letter marks each measurement: {measured}.",
    )


def draw_size(
    result: Result, pieces: Sequence[Piece], title: str, look: Look, room: Room, ink: BareInk
) -> Sheet:
    """Pieces of one size with their figures, or with letters and a table where figures find no room."""
    told = f"{_named(pieces).capitalize()}, laid flat, size {result.size.name}"
    if not look.letters:
        figures = look.figures(room.lettering)
        drawn = fitted(pieces, result.garment, figures.labels, room.inside, room.lettering, letters=False)
        if drawn:
            return _sheet(
                drawn, (), title, f"{told}, {_seen(drawn)}. {_in_words(result, pieces, figures)}", ink
            )
    return _with_table(_Lettered((result,), result, pieces, look, room), title, told, ink)


def draw_all_sizes(results: Sequence[Result], title: str, look: Look, room: Room, ink: BareInk) -> Sheet:
    """The pieces of the middle size, a letter at each measurement, and a table of all sizes under them."""
    lettered = _all_sizes(results, look, room)
    return _with_table(lettered, title, lettered.shape_in_words, ink)


def draw_outline(results: Sequence[Result], title: str, look: Look, room: Room, ink: BareInk) -> Sheet:
    """The lettered pieces of all sizes without their table."""
    lettered = _all_sizes(results, look, room)
    drawn = lettered.drawn(room.inside.y1)
    if drawn is None:
        return replace(draw_table(results, title, look, room, ink), unplaced=_NO_ROOM)
    names = "; ".join(f"{row.letter} {row.name}" for row in lettered.rows)
    told = f"{lettered.shape_in_words}, {_seen(drawn)}. A letter marks each measurement: {names}."
    return _sheet(drawn, (), title, told, ink)


def draw_table(results: Sequence[Result], title: str, look: Look, room: Room, ink: BareInk) -> Sheet:
    """The table of all sizes without the lettered pieces."""
    lettered = _all_sizes(results, look, room)
    return cropped(
        lettered.table().groups, title, f"Finished measurements. {lettered.figures_in_words}", ink=ink
    )


def _all_sizes(results: Sequence[Result], look: Look, room: Room) -> _Lettered:
    shape = results[len(results) // 2]
    return _Lettered(tuple(results), shape, shape.garment.pieces, look, room)


@dataclass(frozen=True)
class _Lettered:
    """The measurements of ``pieces`` in all ``results``, a letter for each on the pieces of one of them."""

    results: tuple[Result, ...]
    shape: Result
    pieces: Sequence[Piece]
    look: Look
    room: Room

    @cached_property
    def letters(self) -> dict[str, str]:
        """The letters that measurements of these pieces have among all, by their keys."""
        drawn = {span.key for result in self.results for span in self._spans(result)}
        return {key: letter for key, letter in measurement_letters(self.results).items() if key in drawn}

    def _spans(self, result: Result) -> Iterator[Span]:
        names = {piece.name for piece in self.pieces}
        return (span for piece in result.garment.pieces if piece.name in names for span in piece.spans)

    @cached_property
    def figures(self) -> FiguresLook:
        """Counts are told of one size only: where there are many, they make the table half as long again."""
        counts = self.look.counts and len(self.results) == 1
        return FiguresLook(self.look.units, counts, self.room.lettering, bare=True)

    @cached_property
    def rows(self) -> tuple[Measured, ...]:
        """Those of the table."""
        return measured_rows(self.letters, self.results, self.figures)

    def table(self) -> Block:
        """As wide as there is room."""
        width, height = self.room.inside.x1, self.room.lettering
        if len(self.results) == 1:
            return one_size_table(self.letters, self.shape, self.figures, width)
        sizes = [result.size.name for result in self.results]
        return size_table(self.rows, "Sizes", sizes, width, height)

    def drawn(self, high: float) -> Fitted | None:
        """The lettered pieces, no higher than that in mm."""
        room, height = Box(0.0, 0.0, self.room.inside.x1, high), self.room.lettering
        words = _lettering(tuple(self.letters.items()), height)
        return fitted(self.pieces, self.shape.garment, words, room, height, letters=True)

    @property
    def shape_in_words(self) -> str:
        """What is drawn."""
        return f"{_named(self.pieces).capitalize()}, laid flat, in the shape of size {self.shape.size.name}"

    @property
    def figures_in_words(self) -> str:
        """The table, size by size."""
        return " ".join(
            f"Size {result.size.name}: {_in_words(result, self.pieces, self.figures, self.letters)}"
            for result in self.results
        )


@lru_cache(maxsize=8)
def _lettering(letters: tuple[tuple[str, str], ...], height: float) -> Words:
    """The letter of each measurement by its key; the same object for the same letters."""
    labels = {key: (Label((letter,), height, bold=True),) for key, letter in letters}

    def words(item: Finished, _span: Span, _halved: bool) -> tuple[Label, ...]:
        return labels[item.key]

    return words


def _with_table(lettered: _Lettered, title: str, told: str, ink: BareInk) -> Sheet:
    table = lettered.table()
    left = lettered.room.inside.y1 - block_size(table)[1] - _OVER_TABLE
    heights = [left] if left > _LEAST_OUTLINE else []
    heights += [height for height in _OUTLINE_HEIGHTS if height > left]
    drawn = next((each for each in map(lettered.drawn, heights) if each), None)
    figures = lettered.figures_in_words
    if drawn is None:
        return replace(cropped(table.groups, title, f"{told}. {figures}", ink=ink), unplaced=_NO_ROOM)
    x0, _, _, y1 = bounds(drawn.groups)
    told = f"{told}, {_seen(drawn)}. A letter marks each measurement; the table under it says what it is."
    return _sheet(drawn, table.at(x0, y1 + _OVER_TABLE), title, f"{told} {figures}", ink)


def _sheet(drawn: Fitted, more: Sequence[Group], title: str, told: str, ink: BareInk) -> Sheet:
    return cropped((*drawn.groups, *more), title, told, scale=drawn.scale, ink=ink)


def _seen(drawn: Fitted) -> str:
    """The scale, which holds where the drawing is placed as large as it is, and what is left out."""
    scale = f"drawn at 1:{drawn.scale:.1f}".removesuffix(".0")
    return "; ".join((scale, *drawn.thinned))


def _named(pieces: Sequence[Piece]) -> str:
    return listed([piece.name for piece in pieces])


def _in_words(
    result: Result, pieces: Sequence[Piece], figures: FiguresLook, letters: Mapping[str, str] = _NO_LETTERS
) -> str:
    """The figures as they are printed: ``body hem edge 187.5 cm, 73 3/4 in (178 sts)``."""
    keys = {span.key for piece in pieces for span in piece.spans}
    texts = []
    for item in result.garment.finished:
        if item.key in keys:
            name = f"{letters[item.key]} {item.name}" if letters else item.name
            count = f" ({counted})" if (counted := figures.count(item)) else ""
            texts.append(f"{name} {', '.join(figures.lengths(item))}{count}")
    return f"{'; '.join(texts)}."
