"""The centre panel, row by row in all sizes."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.design.missing import marks
from schematics.document.document import Row, Section, Words
from schematics.pattern.book import Book
from schematics.pattern.sections.piece_sizes import piece_rows
from schematics.pattern.written.charted_rows import PatternRows
from schematics.pattern.written.plain_rows import PlainRows, fastened_off
from schematics.pattern.written.worked_with import worked_with


def section(book: Book) -> Section:
    """How the panel is begun, and its every row."""
    return Section("Centre panel", tuple(_blocks(book)), "centre_panel")


def _blocks(book: Book) -> Iterator[Words | Row]:
    pieces = [garment.piece("centre panel") for garment in book.garments]
    stitches, rows = [each.foundation_stitches for each in pieces], [piece_rows(each) for each in pieces]
    fabric = pieces[0].fabric
    words = PlainRows(fabric)
    hook = worked_with(book.design, "centre_panel")
    yield f"Work flat in rows, back and forth, from the hem up, {hook}. {words.turning}".rstrip()
    mark = marks(book.design).get(f"fabrics.{fabric.name}.chart", "")
    pattern_rows = PatternRows.of_piece(fabric, book.names, stitches, rows, mark)
    yield from pattern_rows.notes
    yield words.foundation(stitches)
    yield from pattern_rows.lines()
    yield fastened_off(rows)
