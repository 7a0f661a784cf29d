"""The centre panel, row by row in all sizes."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.crochet.charts.chart import Side
from schematics.design.missing import marks
from schematics.document.document import Row, Section, Words
from schematics.pattern.book import Book
from schematics.pattern.sections.piece_sizes import piece_rows
from schematics.pattern.written.charted_rows import PatternRows
from schematics.pattern.written.labels import Labels
from schematics.pattern.written.plain_rows import PlainRows


def section(book: Book) -> Section:
    """How it is begun, and every row."""
    return Section("Centre panel", tuple(_blocks(book)), "centre_panel")


def _blocks(book: Book) -> Iterator[Words | Row]:
    pieces = [garment.piece("centre panel") for garment in book.garments]
    stitches, rows = [each.foundation_stitches for each in pieces], [piece_rows(each) for each in pieces]
    fabric = pieces[0].fabric
    words = PlainRows(fabric)
    if colour := book.design.yarn_use.colour("centre_panel"):
        yield f"Colour: {colour}."
    yield f"Worked flat, to and fro, from the hem up. {words.turning}".rstrip()
    yield words.foundation(stitches)
    yield from PatternRows(
        fabric=fabric,
        labels=Labels(book.names, [fabric.chart.first_side if fabric.chart else Side.RIGHT] * len(pieces)),
        stitches=stitches,
        worked=[range(1, each + 1) for each in rows],
        mark=marks(book.design).get(f"fabrics.{fabric.name}.chart", ""),
    ).blocks()
    yield Row("After the last row", "Do not turn. Fasten off.")
