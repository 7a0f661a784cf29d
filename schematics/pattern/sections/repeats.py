"""How often the pattern of each patterned piece repeats, across and up, and its rows in words."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.crochet.charts.chart_rules import multiple_words
from schematics.crochet.fabric import CountRule
from schematics.document.document import Figure, Section, Table, count_figure, listed_section, text_figure
from schematics.garment.garment import Piece
from schematics.pattern.book import Book
from schematics.pattern.chart_words.piece_words import ChartPiece, PieceWords
from schematics.pattern.sections.piece_sizes import piece_rows


def section(book: Book) -> Section:
    """Whole repeats of each patterned piece; then the rows of every piece with a chart."""
    pairs = [pair for piece in book.pieces for pair in _repeats_of(book, piece)]
    charted = {
        piece.name: _words(book, piece) for piece in book.pieces if piece.fabric.chart and not piece.on_fold
    }
    rows = {name: tuple(_row_figures(name, words)) for name, words in charted.items()}
    header = ("pattern", "it takes", "repeats")
    whole = tuple((repeats.name, rule, repeats) for rule, repeats in pairs)
    none = "No stitch pattern asks for a multiple or a row repeat."
    notes = dict.fromkeys(note for words in charted.values() for note in words.notes)
    return listed_section(
        key="repeats",
        heading="Pattern repeats",
        sentences=tuple(notes) or (() if pairs else (none,)),
        tables=(
            *([Table(caption="Whole repeats", header=header, rows=whole)] if pairs else []),
            *(_row_table(name, words, rows[name]) for name, words in charted.items()),
        ),
        figures=(
            *(figure for pair in pairs for figure in pair),
            *(figure for figures in rows.values() for pair in figures for figure in pair),
        ),
    )


def _repeats_of(book: Book, piece: Piece) -> Iterator[tuple[Figure, Figure]]:
    """The rule and the whole repeats for each direction in which a pattern repeats."""
    pieces = [garment.piece(piece.name) for garment in book.garments]
    across, up = piece.fabric.stitch_rule, piece.fabric.row_rule
    if across != CountRule():
        texts = [_repeats(across, each.foundation_stitches, "sts") for each in pieces]
        takes = f"{'' if across.only else 'a multiple of '}{multiple_words(across)} sts"
        yield _pair(piece, "across", takes, texts)
    if up.rule != CountRule():
        texts = [_repeats(up.rule, piece_rows(each), "rows") for each in pieces]
        ends = f", {up.setup} set-up and {up.closing} closing" if up.setup or up.closing else ""
        yield _pair(piece, "up", f"repeats of {up.repeat} row{'' if up.repeat == 1 else 's'}{ends}", texts)


def _pair(piece: Piece, direction: str, rule: str, texts: list[str]) -> tuple[Figure, Figure]:
    key, name = f"{piece.name.replace(' ', '_')}.repeats.{direction}", f"{piece.name}, {direction}"
    return text_figure(f"{key}.rule", f"{name}, it takes", [rule]), text_figure(key, name, texts)


def _repeats(rule: CountRule, count: int, unit: str) -> str:
    """Whole repeats; what does not fit is said."""
    if rule.allows(count):
        if rule.only:
            return "worked once"
        return str((count - rule.plus) // rule.multiple)
    return f"{count} {unit} do not fit"


def _words(book: Book, piece: Piece) -> PieceWords:
    """The piece row by row."""
    pieces = [garment.piece(piece.name) for garment in book.garments]
    extents = [
        ChartPiece(
            size=name,
            stitches=each.foundation_stitches,
            repeats=max(0, piece.fabric.row_rule.repeats(piece_rows(each))),
        )
        for name, each in zip(book.names, pieces, strict=True)
    ]
    return PieceWords.of(piece.fabric, extents, book.terms)


def _row_figures(piece: str, words: PieceWords) -> Iterator[tuple[Figure, Figure]]:
    """What is worked in each row, and the stitches at its end."""
    for line in words.lines:
        key = f"{piece.replace(' ', '_')}.{line.key}"
        name = f"{piece}, {line.label}"
        yield (
            text_figure(key, name, [line.work]),
            count_figure(f"{key}.count", f"{name}, stitches", "sts", line.counts),
        )


def _row_table(piece: str, words: PieceWords, figures: tuple[tuple[Figure, Figure], ...]) -> Table:
    return Table(
        caption=f"{piece}, row by row",
        header=("row", "work", "stitches"),
        rows=tuple((line.label, *pair) for line, pair in zip(words.lines, figures, strict=True)),
    )
