"""How often the pattern of each patterned piece repeats, across and up, and its rows in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from schematics.checks.wording import listed, sentence_case
from schematics.crochet.charts.count_rules import multiple_words
from schematics.crochet.fabric import CountRule, Fabric
from schematics.document.chart_words.chart_piece import ChartPiece
from schematics.document.chart_words.in_sizes import texts_in_sizes
from schematics.document.chart_words.piece_words import PieceWords
from schematics.document.document import (
    NONE,
    Figure,
    Section,
    Table,
    count_figure,
    listed_section,
    text_figure,
)
from schematics.pattern.book import Book
from schematics.pattern.sections.piece_sizes import piece_rows


@dataclass(frozen=True, slots=True, kw_only=True)
class _Patterned:
    """A piece, or rows of the body that are a border, in every size: stitches and rows, 0 where it has none.

    ``body_rows`` are the first and the last of a border's rows on the body.
    """

    name: str
    fabric: Fabric
    extents: tuple[tuple[int, int], ...]
    body_rows: tuple[tuple[int, int], ...] = ()

    @property
    def key(self) -> str:
        """The name in the keys of its figures."""
        return self.name.replace(",", "").replace(" ", "_")

    @property
    def place(self) -> str:
        """Such as ``rows 25 to 30 (29 to 34) of the body``; empty for a piece."""
        if not self.body_rows:
            return ""
        return f"rows {texts_in_sizes([_rows_text(*each) for each in self.body_rows])} of the body"


def _rows_text(first: int, last: int) -> str:
    return f"{first} to {last}" if last else NONE


def section(book: Book) -> Section:
    """Whole repeats of each patterned piece and border; then the rows of each that has a chart."""
    patterned = [*_pieces(book), *_borders(book)]
    pairs = [pair for each in patterned for pair in _repeats_of(each)]
    charted = [(each, _words(book, each)) for each in patterned if each.fabric.chart]
    rows = {each.name: tuple(_row_figures(each, words)) for each, words in charted}
    header = ("pattern", "it takes", "repeats")
    whole = tuple((repeats.name, rule, repeats) for rule, repeats in pairs)
    none = "No stitch pattern asks for a multiple or a row repeat."
    notes = _notes(charted)
    places = [_place_words(each) for each in patterned if each.body_rows]
    return listed_section(
        key="repeats",
        heading="Pattern repeats",
        sentences=(*places, *notes) or (() if pairs else (none,)),
        tables=(
            *([Table(caption="Whole repeats", header=header, rows=whole)] if pairs else []),
            *(_row_table(each, words, rows[each.name]) for each, words in charted),
        ),
        figures=(
            *(figure for pair in pairs for figure in pair),
            *(figure for figures in rows.values() for pair in figures for figure in pair),
        ),
    )


def _pieces(book: Book) -> Iterator[_Patterned]:
    for piece in book.pieces:
        pieces = [garment.piece(piece.name) for garment in book.garments]
        extents = tuple((each.foundation_stitches, piece_rows(each)) for each in pieces)
        fabric = replace(piece.fabric, chart=None) if piece.on_fold else piece.fabric
        yield _Patterned(name=piece.name, fabric=fabric, extents=extents)


def _borders(book: Book) -> Iterator[_Patterned]:
    """The body's, each at each of its places."""
    bodies = [{area.name: area for area in garment.piece("body").patterned} for garment in book.garments]
    for name in dict.fromkeys(name for body in bodies for name in body):
        areas = [body.get(name) for body in bodies]
        yield _Patterned(
            name=name,
            fabric=next(area.fabric for area in areas if area),
            extents=tuple((area.stitches, area.rows) if area else (0, 0) for area in areas),
            body_rows=tuple((area.first_row, area.last_row) if area else (0, 0) for area in areas),
        )


def _place_words(border: _Patterned) -> str:
    """Where a border is worked, and the side on which the body is begun so that its rows face as charted."""
    words = f"{sentence_case(border.name)}: {border.place}, in place of plain rows"
    if border.fabric.chart is None:
        return f"{words}."
    side = border.fabric.chart.first_side
    begun = [(side if first % 2 else side.other) if first else NONE for first, _ in border.body_rows]
    return f"{words}; for that, row 1 of the body is worked with the {texts_in_sizes(begun)} facing."


def _notes(charted: Sequence[tuple[_Patterned, PieceWords]]) -> list[str]:
    """What holds for all rows: for which pieces, where it does not hold for all that have a chart."""
    pieces: dict[str, list[str]] = {}
    for piece, words in charted:
        for note in words.notes:
            pieces.setdefault(note, []).append(piece.name)
    return [
        note if len(names) == len(charted) else f"{sentence_case(listed(names))}: {note[0].lower()}{note[1:]}"
        for note, names in pieces.items()
    ]


def _repeats_of(piece: _Patterned) -> Iterator[tuple[Figure, Figure]]:
    """The rule and the whole repeats for each direction in which a pattern repeats."""
    across, up = piece.fabric.stitch_rule, piece.fabric.row_rule
    if across != CountRule():
        texts = [_repeats(across, stitches, "sts") for stitches, _ in piece.extents]
        takes = f"{'' if across.only else 'a multiple of '}{multiple_words(across)} sts"
        yield _pair(piece, "across", takes, texts)
    if up.rule != CountRule():
        texts = [_repeats(up.rule, rows, "rows") for _, rows in piece.extents]
        ends = f", {up.setup} set-up and {up.closing} closing" if up.setup or up.closing else ""
        yield _pair(piece, "up", f"repeats of {up.repeat} row{'' if up.repeat == 1 else 's'}{ends}", texts)


def _pair(piece: _Patterned, direction: str, rule: str, texts: list[str]) -> tuple[Figure, Figure]:
    key, name = f"{piece.key}.repeats.{direction}", f"{piece.name}, {direction}"
    return text_figure(f"{key}.rule", f"{name}, it takes", [rule]), text_figure(key, name, texts)


def _repeats(rule: CountRule, count: int, unit: str) -> str:
    """Whole repeats; what does not fit is noted."""
    if rule.allows(count):
        if rule.only:
            return "worked once"
        return str((count - rule.plus) // rule.multiple)
    return f"{count} {unit} do not fit"


def _words(book: Book, piece: _Patterned) -> PieceWords:
    """The piece row by row."""
    pieces = tuple(
        ChartPiece(size=name, stitches=stitches, rows=rows)
        for name, (stitches, rows) in zip(book.names, piece.extents, strict=True)
    )
    return PieceWords(piece.fabric, pieces, book.terms)


def _row_figures(piece: _Patterned, words: PieceWords) -> Iterator[tuple[Figure, Figure]]:
    """What is worked in each row, and the stitches at its end."""
    for line in words.lines:
        key = f"{piece.key}.{line.key}"
        name = f"{piece.name}, {line.label}"
        counts = line.counts[:1] if len(set(line.counts)) == 1 else line.counts
        yield (
            text_figure(key, name, [line.work]),
            count_figure(f"{key}.count", f"{name}, stitches", "sts", counts),
        )


def _row_table(piece: _Patterned, words: PieceWords, figures: tuple[tuple[Figure, Figure], ...]) -> Table:
    return Table(
        caption=f"{sentence_case(piece.name)}, {piece.place}" if piece.place else f"{piece.name}, row by row",
        header=("row", "work", "stitches"),
        rows=tuple((line.label, *pair) for line, pair in zip(words.lines, figures, strict=True)),
    )
