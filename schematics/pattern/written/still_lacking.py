"""What the pattern still lacks and what is guessed, as its last part."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.checks.wording import sentence_case
from schematics.design.guessed import GUESSED, guessed
from schematics.design.missing import missing
from schematics.document.document import Items, Section, Words
from schematics.pattern.book import Book
from schematics.pattern.written.ribbing import even_edges


def section(book: Book) -> Section | None:
    """Each thing with its place; None of a pattern that lacks nothing."""
    blocks = tuple(_blocks(book))
    return Section("Still to be added", blocks, "missing") if blocks else None


def _blocks(book: Book) -> Iterator[Words | Items]:
    if lacking := missing(book.design):
        yield "This pattern is not complete. The place of each of these is marked:"
        yield Items(tuple(f"{sentence_case(each.place)}: {each.what}" for each in lacking))
    if odd := tuple(_odd_edges(book)):
        yield "These bands cannot be worked, and are marked where they are told:"
        yield Items(odd)
    if guesses := guessed(book.design):
        yield f"These are {GUESSED}, and marked where they are used:"
        yield Items(tuple(sentence_case(each.what) for each in guesses))


def _odd_edges(book: Book) -> Iterator[str]:
    """What an edge has to be that has no even number of stitches, for each band and size."""
    for name, garment in zip(book.names, book.garments, strict=True):
        for band, ring in (("Neck band", garment.neck), ("Arm bands", garment.arm.ring)):
            if ring.edge_count % 2:
                yield f"{band}, size {name}: {even_edges(ring.edge_count)}"
