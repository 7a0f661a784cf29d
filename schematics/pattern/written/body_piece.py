"""The body, row by row in all sizes: by its steps, or by its increases where it has none."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from schematics.checks.wording import sentence_case
from schematics.crochet.plain_stitch import plain_stitch
from schematics.design.missing import marks
from schematics.document.chart_words.in_sizes import in_sizes, not_none, texts_in_sizes
from schematics.document.document import Row, Section, Table, Words
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.patterned_area import PatternedArea
from schematics.pattern.book import Book
from schematics.pattern.sections.piece_sizes import piece_rows
from schematics.pattern.written.charted_rows import PatternRows
from schematics.pattern.written.labels import Labels
from schematics.pattern.written.plain_rows import PlainRows, fastened_off
from schematics.pattern.written.shaped_rows import ShapedRows
from schematics.pattern.written.stepped_rows import SteppedRows, part_heading
from schematics.pattern.written.stretches import Stretch, first_sides, stretches
from schematics.pattern.written.worked_with import worked_with

Blocks = Iterator[Words | Row | Table | Section]
_NOUGHT = re.compile(r"\b0\b")
_FLAT = "Work flat in rows, back and forth, from the neck down"
_NOTHING = "Where the figure for your size is 0, work nothing there and go on with what follows."


def section(book: Book) -> Section:
    """How it is begun, every row, and how it ends."""
    labels = Labels(book.names, first_sides(book.garments))
    rows = PlainRows(book.design.parts.body)
    construction = CONSTRUCTIONS[book.design.construction]
    steps = construction.body_steps([result.size.body for result in book.results])
    if steps is None:
        blocks = _shaped(book, labels, rows)
    else:
        blocks = _stepped(book, SteppedRows(steps, book.garments, labels, rows))
    return Section("Body", tuple(_noughts_explained(tuple(blocks))), "body")


def _noughts_explained(blocks: Sequence[Words | Row | Table | Section]) -> Blocks:
    """What a nought in a size string means, before the first row, where any row has one."""
    first = next(place for place, block in enumerate(blocks) if isinstance(block, Row))
    yield from blocks[:first]
    if any(isinstance(block, Row) and _NOUGHT.search(block.work) for block in blocks):
        yield _NOTHING
    yield from blocks[first:]


def _shaped(book: Book, labels: Labels, rows: PlainRows) -> Blocks:
    plans = [garment.increases for garment in book.garments if garment.increases]
    begun = texts_in_sizes(labels.begun)
    notes = filter(
        None, (rows.turning, f"{sentence_case(rows.increase)}." if any(plan.used for plan in plans) else "")
    )
    yield " ".join((f"{_FLAT}, {worked_with(book.design, 'body')}. In Row 1 the {begun} faces you.", *notes))
    yield from _unknown(book)
    shaped = ShapedRows(plans, labels, rows)
    whole = [range(1, piece_rows(garment.piece("body")) + 1) for garment in book.garments]
    begins = True
    for stretch in stretches(book.garments, whole):
        if stretch.border:
            yield from _border(book, labels, stretch)
        else:
            yield from shaped.blocks(stretch, begins=begins)
            begins = False
    yield _ends(book)


def _stepped(book: Book, stepped: SteppedRows) -> Blocks:
    begun = texts_in_sizes(stepped.labels.begun)
    flat = stepped.steps.sentences[0].removesuffix(".")
    worked = f"{flat}, {worked_with(book.design, 'body')}."
    yield f"{worked} In Row 1 the {begun} faces you. {stepped.rows.turning}".rstrip()
    yield from _unknown(book)
    yield from _with_borders(book, stepped.labels, stepped.whole())
    if not stepped.divided:
        yield _ends(book)
        return
    for number in (0, 1):
        blocks = (*_with_borders(book, stepped.labels, stepped.part(number)), _ends(book))
        yield Section(part_heading(number), blocks)


def _ends(book: Book) -> str:
    return fastened_off([piece_rows(garment.piece("body")) for garment in book.garments])


def _unknown(book: Book) -> Iterator[str]:
    fabric = book.design.parts.body
    if plain_stitch(fabric.stitch) is None:
        mark = marks(book.design).get(f"fabrics.{fabric.name}.chart", "[to be added: rows of the body]")
        yield f"{sentence_case(fabric.stitch)}: {mark}"


def _with_borders(book: Book, labels: Labels, blocks: Iterable[Stretch | Words | Row]) -> Blocks:
    for block in blocks:
        if isinstance(block, Stretch):
            yield from _border(book, labels, block)
        else:
            yield block


def _border(book: Book, labels: Labels, stretch: Stretch) -> Blocks:
    """Where a border is, and its rows."""
    areas = [_area(book, index, stretch.border) for index in range(len(book.names))]
    fabric = next(area.fabric for area in areas if area)
    stitches = [area.stitches if area else 0 for area in areas]
    first, last = (in_sizes(not_none(rows)) for rows in (stretch.first, stretch.last))
    where = f"Row {first} is" if first == last else f"Rows {first} to {last} are"
    yield f"{where} the {stretch.border}, in {fabric.stitch}:"
    pattern_rows = PatternRows(
        fabric=fabric,
        labels=labels,
        stitches=stitches,
        worked=stretch.rows,
        mark=marks(book.design).get(f"borders.{fabric.name}.chart", ""),
    )
    yield from pattern_rows.notes
    if {rows[0] for rows in stretch.rows if rows} == {1}:
        yield PlainRows(fabric).foundation(stitches)
    yield from pattern_rows.lines()


def _area(book: Book, index: int, name: str) -> PatternedArea | None:
    areas: Sequence[PatternedArea] = book.garments[index].piece("body").patterned
    return next((area for area in areas if area.name == name), None)
