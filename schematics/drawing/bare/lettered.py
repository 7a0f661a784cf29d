"""Pieces with a letter at each measurement, and the table under them that says what each is."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache, partial
from typing import TypeVar

from schematics.checks.evaluation import Result
from schematics.checks.wording import listed
from schematics.document.lettering.text import Lettering
from schematics.drawing.bare.legend import legend_block, legend_words
from schematics.drawing.bare.look import Look
from schematics.drawing.bare.pieces_in_room import MUCH_LARGER, Fitted, at_scale, fitted
from schematics.drawing.bare.rooms import HIGHEST, Room, cropped
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Label, bounds
from schematics.drawing.ink.page import Box, block_size
from schematics.drawing.ink.sheet import BareInk, Sheet
from schematics.drawing.pieces.figures_look import FiguresLook, Words, measurement_letters
from schematics.drawing.pieces.size_table import (
    Measured,
    NamePlace,
    measured_rows,
    names_list,
    names_place,
    one_size_table,
    size_table,
)
from schematics.garment.garment import Finished, Piece, Span

_OVER_TABLE = 6.0
"""Between a drawing and the table under it, in mm."""

_OVER_LEGEND = 3.0
"""Between a drawing and the words under it, in mm."""

_LEAST_OUTLINE = 55.0

_TINY, _TINY_MM = 0.35, 43.0
"""An outline that takes less than so much of the room both ways, or so many mm, is tiny."""

_OUTLINE_HEIGHTS = (140.0, 300.0)
"""What a lettered outline may take over a table so long that it leaves less, in mm: the first that does."""

NO_ROOM = ("the lettered outline",)
"""What is unplaced where it is left out."""

_Made = TypeVar("_Made", Block, NamePlace)

_NO_LETTERS: Mapping[str, str] = {}


@dataclass(frozen=True)
class Lettered:
    """The measurements of ``pieces`` in all ``results``, a letter for each on the pieces of one of them.

    Letters are those of the sizes ``lettered_in``, of ``results`` if none are given. The pieces are at
    1:``scale`` if it is given and they have room there. ``under`` them so many mm are kept for a legend, and
    the table is tight, where that is not 0. ``names_at`` says where a table of many sizes has its names, if
    not where it is lowest.
    """

    results: tuple[Result, ...]
    shape: Result
    pieces: Sequence[Piece]
    look: Look
    room: Room
    lettered_in: tuple[Result, ...] = ()
    scale: float = 0.0
    under: float = 0.0
    names_at: NamePlace | None = None

    @cached_property
    def letters(self) -> dict[str, str]:
        """The letters that measurements of these pieces have among all, by their keys."""
        among = self.lettered_in or self.results
        drawn = {span.key for result in among for span in self._spans(result)}
        return {key: letter for key, letter in measurement_letters(among).items() if key in drawn}

    def _spans(self, result: Result) -> Iterator[Span]:
        names = {piece.name for piece in self.pieces}
        return (span for piece in result.garment.pieces if piece.name in names for span in piece.spans)

    @cached_property
    def figures(self) -> FiguresLook:
        """Counts are for one size only: where there are many, they make the table half as long again."""
        counts = self.look.counts and self._is_of_one_size
        return FiguresLook(self.look.units, counts, self.lettering)

    @property
    def _is_of_one_size(self) -> bool:
        """Not so the last part of a table of many sizes, which is as the others."""
        return len(self.lettered_in or self.results) == 1

    @property
    def lettering(self) -> Lettering:
        """The font and the height of its words."""
        return self.look.lettering(self.room.lettering)

    @cached_property
    def rows(self) -> tuple[Measured, ...]:
        """The rows of the table of measurements."""
        return measured_rows(self.letters, self.results, self.figures)

    def table(self, *, tight: bool = False) -> Block:
        """The table of measurements, as wide as there is room."""
        tight = tight or self.under > 0
        if self._is_of_one_size:
            width = self.room.inside.x1
            return one_size_table(self.letters, self.results[0], self.figures, width, tight=tight)
        return self._of_sizes(size_table, tight=tight, names=self.names_at)

    @property
    def place_of_names(self) -> NamePlace:
        """Where the names of a table of many sizes are that is as low as it can be."""
        return self._of_sizes(names_place)

    def _of_sizes(self, make: Callable[..., _Made], **how: object) -> _Made:
        sizes = [result.size.name for result in self.results]
        height, font = self.lettering.height, self.lettering.font
        return make(self.rows, "Sizes", sizes, self.room.inside.x1, height, font=font, **how)

    def heights(self, table: Block) -> list[float]:
        """What the pieces may take over a table, in mm, the first that will do."""
        left = self.left(table)
        heights = [left] if left > _LEAST_OUTLINE else []
        return heights + [height for height in _OUTLINE_HEIGHTS if height > left]

    def left(self, table: Block) -> float:
        """What a table leaves of the height, in mm."""
        return self.room.inside.y1 - self.under - block_size(table)[1] - _OVER_TABLE

    def over(self, table: Block) -> Fitted | None:
        """The lettered pieces over a table."""
        return next(filter(None, map(self.drawn, self.heights(table))), None)

    def height(self, drawn: Fitted, *, tight: bool = False) -> float:
        """Of what is drawn over its table, in mm, without a legend."""
        return drawn.height + _OVER_TABLE + block_size(self.table(tight=tight))[1]

    def key(self) -> Block:
        """The names of the letters."""
        return names_list(self.rows, self.room.inside.x1, self.lettering)

    @property
    def names(self) -> str:
        """Each letter with the name of what it marks, in words."""
        return "; ".join(f"{row.letter} {row.name}" for row in self.rows)

    @property
    def letters_in_words(self) -> str:
        """What the letters mark, where no table says it."""
        return f"A letter marks each measurement: {self.names}."

    @property
    def words(self) -> Words:
        """The letter of each measurement of all pieces: the same object for each of them."""
        letters = measurement_letters(self.lettered_in or self.results)
        return letter_words(tuple(letters.items()), self.lettering)

    def drawn(self, high: float, *, finely: bool = False) -> Fitted | None:
        """The lettered pieces, no higher than that in mm; ``finely``: more scales are tried."""
        room = Box(0.0, 0.0, self.room.inside.x1, high)
        draw = partial(
            fitted,
            self.pieces,
            self.shape.garment,
            self.words,
            room,
            self.lettering,
            self.look.limits,
            letters=True,
            finely=finely,
        )
        return at_scale(self.scale, draw)

    @property
    def shape_in_words(self) -> str:
        """A sentence that says what is drawn."""
        pieces = pieces_in_words(self.pieces).capitalize()
        return f"{pieces}, laid flat, in the shape of size {self.shape.size.name}"

    @property
    def figures_in_words(self) -> str:
        """The table, size by size."""
        return " ".join(
            f"Size {result.size.name}: {lengths_in_words(result, self.pieces, self.figures, self.letters)}"
            for result in self.results
        )


@lru_cache(maxsize=64)
def letter_words(letters: tuple[tuple[str, str], ...], lettering: Lettering) -> Words:
    """The letter of each measurement by its key; the same object for the same letters."""
    labels = {key: (Label.lettered((letter,), lettering, bold=True),) for key, letter in letters}

    def words(item: Finished, _span: Span, _halved: bool) -> tuple[Label, ...]:
        return labels[item.key]

    return words


def with_table(lettered: Lettered, title: str, description: str, ink: BareInk) -> Sheet:
    """The pieces over their table, or over the names of the letters where a page has no room for it."""
    table = lettered.table()
    may_be_high = lettered.room.scrolls or not lettered.lettered_in
    if may_be_high:
        drawn = lettered.over(table)
    else:
        left = lettered.left(table)
        drawn = lettered.drawn(left) if left > _LEAST_OUTLINE else None
    has_room = may_be_high or drawn is not None
    if not may_be_high and not (drawn and drawn.share >= _TINY and drawn.longest >= _TINY_MM):
        key = lettered.key()
        over_key = lettered.over(key)
        if not drawn or (over_key and over_key.scale <= drawn.scale / MUCH_LARGER):
            table, drawn, has_room = key, over_key, False
    figures = lettered.figures_in_words if has_room else f"{lettered.names}."
    if drawn is None:
        return replace(cropped(table.groups, title, f"{description}. {figures}", ink=ink), unplaced=NO_ROOM)
    under = "the table under it says what it is" if has_room else "the list under it names them"
    description = f"{description}, {scale_in_words(drawn)}. A letter marks each measurement; {under}."
    tables = (lambda: table, *((partial(lettered.table, tight=True),) if has_room else ()))
    return finished_sheet(
        drawn, title, f"{description} {figures}", ink, lettered.room, lettered.lettering, tables=tables
    )


def finished_sheet(
    drawn: Fitted,
    title: str,
    description: str,
    ink: BareInk,
    room: Room,
    lettering: Lettering,
    *,
    tables: Sequence[Callable[[], Block]] = (),
) -> Sheet:
    """What is drawn over its legend, if it may be so high, and its table, all cropped.

    Of several ``tables`` it is the first over which the legend has room.
    """
    groups, words = list(drawn.groups), legend_words(drawn.finished)
    parts = [(table(), _OVER_TABLE) for table in tables[:1]]
    x0, y0, x1, y1 = bounds(groups)
    if words and (legend := legend_block(words, (x1 - x0, room.inside.x1), lettering)):
        most = _highest(room)
        for at in range(max(1, len(tables))):
            with_legend = [(legend, _OVER_LEGEND), *((table(), _OVER_TABLE) for table in tables[at : at + 1])]
            if y1 - y0 + sum(block_size(block)[1] + gap for block, gap in with_legend) <= most:
                parts = with_legend
                break
    for block, gap in parts:
        x0, _, _, y1 = bounds(groups)
        groups += block.at(x0, y1 + gap)
    return cropped(groups, title, " ".join(filter(None, (description, words))), scale=drawn.scale, ink=ink)


def _highest(room: Room) -> float:
    """How high a drawing may be with its legend and its table, in mm."""
    return math.inf if room.scrolls else room.inside.y1 if room.amid_text else HIGHEST


def legend_under(drawn: Fitted, width: float, lettering: Lettering) -> float:
    """What a legend no wider than ``width`` takes under a drawing with what parts them, in mm."""
    legend = legend_block(legend_words(drawn.finished), (width,), lettering)
    return block_size(legend)[1] + _OVER_LEGEND if legend else 0.0


def scale_in_words(drawn: Fitted) -> str:
    """The scale, which holds where the drawing is placed as large as it is, and what is left out."""
    scale = f"drawn at 1:{drawn.scale:.1f}".removesuffix(".0")
    return "; ".join((scale, *drawn.thinned))


def pieces_in_words(pieces: Sequence[Piece]) -> str:
    """The pieces' names, as a list in a sentence."""
    return listed([piece.name for piece in pieces])


def lengths_in_words(
    result: Result, pieces: Sequence[Piece], figures: FiguresLook, letters: Mapping[str, str] = _NO_LETTERS
) -> str:
    """The figures as they are printed: ``body hem edge 187.5 cm, 73 3/4 in (178 sts)``."""
    keys = letters or {span.key for piece in pieces for span in piece.spans}
    texts = []
    for item in result.garment.finished:
        if item.key in keys:
            name = f"{letters[item.key]} {item.name}" if letters else item.name
            count = f" ({counted})" if (counted := figures.count(item)) else ""
            texts.append(f"{name} {', '.join(figures.lengths(item))}{count}")
    return f"{'; '.join(texts)}."
