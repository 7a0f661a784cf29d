"""Bare schematics: the pieces of a size, and one lettered outline with a table for all sizes."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache, partial

from schematics.checks.evaluation import Result
from schematics.checks.wording import listed
from schematics.document.lettering.text import Lettering
from schematics.drawing.bare.look import Look
from schematics.drawing.bare.pieces_in_room import Fitted, fitted
from schematics.drawing.bare.rooms import HIGHEST, PAGE, Room, cropped
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Group, Label, bounds
from schematics.drawing.ink.page import Box, block_size
from schematics.drawing.ink.sheet import BareInk, Sheet
from schematics.drawing.pieces.all_sizes import lettered_outline
from schematics.drawing.pieces.piece_block import FiguresLook, Words, measurement_letters
from schematics.drawing.pieces.size_table import (
    Measured,
    measured_rows,
    names_list,
    one_size_table,
    size_table,
)
from schematics.garment.garment import Finished, Garment, Piece, Span

_OVER_TABLE = 6.0
"""Between a drawing and the table under it, in mm."""

_LEAST_OUTLINE = 55.0

_NEARLY = 1.05
"""Scales that differ by no more than this factor compare."""

_SMALL, _VERY_SMALL, _TINY = 0.55, 0.45, 0.35
"""An outline that takes less than so much of the room both ways is small, very small and tiny."""

_MUCH_LARGER = 1.25
"""A drawing so many times larger is worth giving up figures in it, or one scale for all sizes."""

_WITH_TABLE = 1.25
"""A piece with its table may be so many times as high as one with figures, on a page that has room for it."""

_OUTLINE_HEIGHTS = (140.0, 300.0)
"""What a lettered outline may take over a table so long that it leaves less, in mm: the first that does."""

_NO_ROOM = ("the lettered outline",)
_NO_LETTERS: Mapping[str, str] = {}


def bare_schematic(results: Sequence[Result], room: Room = PAGE) -> Sheet | None:
    """The pieces of the middle size, a letter at each measurement; None where they find no room."""
    letters = measurement_letters(results)
    shown = results[len(results) // 2]
    groups, _ = lettered_outline(shown, letters, room.inside, Lettering(room.lettering))
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
    results: Sequence[Result],
    result: Result,
    pieces: Sequence[Piece],
    title: str,
    look: Look,
    room: Room,
    ink: BareInk,
) -> Sheet:
    """Pieces of one size with their figures, or with letters and a table where figures find no room.

    Letters are taken, too, in all sizes if the largest has no room for figures, and where pieces that are
    small with figures are much larger with letters. Counts are left out, as what found no room, where it is
    too high with them. Pieces are at the scale of the largest size, so that sizes compare; those very
    small there, or whose labels have no room, are drawn as large as they can be.
    """
    told = f"{_named(pieces).capitalize()}, laid flat, size {result.size.name}"
    names = tuple(piece.name for piece in pieces)
    largest = max(
        (each.garment for each in results),
        key=lambda garment: sum(garment.piece(name).outline.area for name in names),
    )
    box, lettering = room.inside, look.lettering(room.lettering)
    drawn = None
    if not look.letters:
        figures = look.figures(room.lettering)
        scale = _scale_of(largest, names, figures.labels, box, lettering, letters=False)
        draw = partial(fitted, pieces, result.garment, figures.labels, box, lettering, letters=False)
        drawn = _at_scale(scale, draw) if scale else None
        if drawn and drawn.share >= _SMALL:
            return _with_figures(drawn, result, pieces, figures, title, told, ink)
    lettered = _Lettered((result,), result, pieces, look, room)
    words = _letter_words(tuple(measurement_letters(results).items()), lettering)
    over_table = replace(box, y1=_heights(box.y1, lettered.table())[0])
    scale = _scale_of(largest, names, words, over_table, lettering, letters=True)
    sheet = _with_table(replace(lettered, scale=scale), title, told, ink)
    is_too_high = sheet.paper.height > min(_WITH_TABLE * room.height, HIGHEST) and not room.scrolls
    if is_too_high and not look.letters:
        drawn = drawn or draw()
    if drawn and (is_too_high or not (sheet.scale and sheet.scale <= drawn.scale / _MUCH_LARGER)):
        return _with_figures(drawn, result, pieces, figures, title, told, ink)
    if is_too_high and look.counts:
        lower = draw_size(results, result, pieces, title, replace(look, counts=False), room, ink)
        return replace(lower, unplaced=(*lower.unplaced, "the counts"))
    return sheet


def _with_figures(
    drawn: Fitted,
    result: Result,
    pieces: Sequence[Piece],
    figures: FiguresLook,
    title: str,
    told: str,
    ink: BareInk,
) -> Sheet:
    told = f"{told}, {_seen(drawn)}. {_in_words(result, pieces, figures)}"
    return _sheet(drawn, (), title, told, ink)


@lru_cache(maxsize=64)
def _scale_of(
    garment: Garment, names: Sequence[str], words: Words, box: Box, lettering: Lettering, *, letters: bool
) -> float:
    """The denominator at which its pieces of these names find room; 0 if at none."""
    pieces = [garment.piece(name) for name in names]
    drawn = fitted(pieces, garment, words, box, lettering, letters=letters)
    return drawn.scale if drawn else 0.0


def _at_scale(scale: float, draw: Callable[..., Fitted | None]) -> Fitted | None:
    """What is drawn at 1:``scale``; as large as it can be where it has no room there or scale is 0.

    So it is, too, where it takes little of the room and may be much larger.
    """
    drawn = draw(largest=scale) if scale else None
    if drawn and drawn.scale < _NEARLY * scale:
        if drawn.share >= _VERY_SMALL:
            return drawn
        enough = drawn.scale / _MUCH_LARGER
        alone = draw(smallest=enough)
        return alone if alone and alone.scale <= enough else drawn
    return draw() or drawn


def _heights(high: float, table: Block) -> list[float]:
    """What a lettered outline may take over a table, in mm, the first that will do."""
    left = high - block_size(table)[1] - _OVER_TABLE
    heights = [left] if left > _LEAST_OUTLINE else []
    return heights + [height for height in _OUTLINE_HEIGHTS if height > left]


def draw_all_sizes(results: Sequence[Result], title: str, look: Look, room: Room, ink: BareInk) -> Sheet:
    """The pieces of the middle size, a letter at each measurement, and a table of all sizes under them.

    On a page that has no room for the table, or only under pieces that are tiny, the names of the
    letters stand in its place.
    """
    lettered = _all_sizes(results, look, room)
    return _with_table(lettered, title, lettered.shape_in_words, ink)


def draw_outline(results: Sequence[Result], title: str, look: Look, room: Room, ink: BareInk) -> Sheet:
    """The lettered pieces of all sizes without their table."""
    lettered = _all_sizes(results, look, room)
    drawn = lettered.drawn(room.inside.y1)
    if drawn is None:
        return replace(draw_tables(results, title, look, room, ink)[0], unplaced=_NO_ROOM)
    told = f"{lettered.shape_in_words}, {_seen(drawn)}. A letter marks each measurement: {lettered.names}."
    return _sheet(drawn, (), title, told, ink)


def draw_tables(
    results: Sequence[Result], title: str, look: Look, room: Room, ink: BareInk
) -> tuple[Sheet, ...]:
    """The table of all sizes without the lettered pieces, in as many parts as pages have room for."""
    return tuple(
        cropped(
            each.table().groups,
            title,
            f"Finished measurements. {each.figures_in_words}",
            ink=ink if number == 1 else replace(ink, name=f"{ink.name}-{number}"),
        )
        for number, each in enumerate(_parted(results, look, room), start=1)
    )


def table_parts(results: Sequence[Result], look: Look, room: Room) -> int:
    """How many drawings the table of all sizes is."""
    return len(_parted(results, look, room))


def _parted(results: Sequence[Result], look: Look, room: Room) -> list[_Lettered]:
    """The sizes in as few parts, of equally many, as leave each a table with room on a page."""
    whole = _all_sizes(results, look, room)
    for parts in range(1, len(results) + 1):
        each = -(-len(results) // parts)
        groups = [results[start : start + each] for start in range(0, len(results), each)]
        found = [replace(whole, results=tuple(group), lettered_in=whole.lettered_in) for group in groups]
        if room.scrolls or all(block_size(part.table())[1] <= room.inside.y1 for part in found):
            break
    return found


def _all_sizes(results: Sequence[Result], look: Look, room: Room) -> _Lettered:
    shape = results[len(results) // 2]
    return _Lettered(tuple(results), shape, shape.garment.pieces, look, room, tuple(results))


@dataclass(frozen=True)
class _Lettered:
    """The measurements of ``pieces`` in all ``results``, a letter for each on the pieces of one of them.

    Letters are those of the sizes ``lettered_in``, of ``results`` if none are given. The pieces are at
    1:``scale`` if it is given and they have room there.
    """

    results: tuple[Result, ...]
    shape: Result
    pieces: Sequence[Piece]
    look: Look
    room: Room
    lettered_in: tuple[Result, ...] = ()
    scale: float = 0.0

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
        """Counts are told of one size only: where there are many, they make the table half as long again."""
        counts = self.look.counts and self._is_of_one_size
        return FiguresLook(self.look.units, counts, self.lettering, bare=True)

    @property
    def _is_of_one_size(self) -> bool:
        """Not so the last part of a table of many sizes, which is as the others."""
        return len(self.lettered_in or self.results) == 1

    @property
    def lettering(self) -> Lettering:
        """That of its words."""
        return self.look.lettering(self.room.lettering)

    @cached_property
    def rows(self) -> tuple[Measured, ...]:
        """Those of the table."""
        return measured_rows(self.letters, self.results, self.figures)

    def table(self) -> Block:
        """As wide as there is room."""
        width = self.room.inside.x1
        if self._is_of_one_size:
            return one_size_table(self.letters, self.results[0], self.figures, width)
        sizes = [result.size.name for result in self.results]
        return size_table(self.rows, "Sizes", sizes, width, self.lettering.height, font=self.lettering.font)

    def key(self) -> Block:
        """The names of the letters."""
        return names_list(self.rows, self.room.inside.x1, self.lettering)

    @property
    def names(self) -> str:
        """The same in words."""
        return "; ".join(f"{row.letter} {row.name}" for row in self.rows)

    def drawn(self, high: float) -> Fitted | None:
        """The lettered pieces, no higher than that in mm."""
        room = Box(0.0, 0.0, self.room.inside.x1, high)
        words = _letter_words(tuple(self.letters.items()), self.lettering)
        draw = partial(fitted, self.pieces, self.shape.garment, words, room, self.lettering, letters=True)
        return _at_scale(self.scale, draw)

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
def _letter_words(letters: tuple[tuple[str, str], ...], lettering: Lettering) -> Words:
    """The letter of each measurement by its key; the same object for the same letters."""
    labels = {key: (Label.lettered((letter,), lettering, bold=True),) for key, letter in letters}

    def words(item: Finished, _span: Span, _halved: bool) -> tuple[Label, ...]:
        return labels[item.key]

    return words


def _with_table(lettered: _Lettered, title: str, told: str, ink: BareInk) -> Sheet:
    table, high = lettered.table(), lettered.room.inside.y1
    may_be_high = lettered.room.scrolls or not lettered.lettered_in
    left = high - block_size(table)[1] - _OVER_TABLE
    heights = _heights(high, table) if may_be_high else [left] * (left > _LEAST_OUTLINE)
    drawn = next((each for each in map(lettered.drawn, heights) if each), None)
    has_room = may_be_high or drawn is not None
    if not may_be_high and not (drawn and drawn.share >= _TINY):
        key = lettered.key()
        over_key = next((each for each in map(lettered.drawn, _heights(high, key)) if each), None)
        if not drawn or (over_key and over_key.scale <= drawn.scale / _MUCH_LARGER):
            table, drawn, has_room = key, over_key, False
    figures = lettered.figures_in_words if has_room else f"{lettered.names}."
    if drawn is None:
        return replace(cropped(table.groups, title, f"{told}. {figures}", ink=ink), unplaced=_NO_ROOM)
    x0, _, _, y1 = bounds(drawn.groups)
    under = "the table under it says what it is" if has_room else "the list under it names them"
    told = f"{told}, {_seen(drawn)}. A letter marks each measurement; {under}."
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
    keys = letters or {span.key for piece in pieces for span in piece.spans}
    texts = []
    for item in result.garment.finished:
        if item.key in keys:
            name = f"{letters[item.key]} {item.name}" if letters else item.name
            count = f" ({counted})" if (counted := figures.count(item)) else ""
            texts.append(f"{name} {', '.join(figures.lengths(item))}{count}")
    return f"{'; '.join(texts)}."
