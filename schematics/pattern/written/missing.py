"""What the pattern still lacks and what is guessed, as its last part."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.checks.wording import sentence_case
from schematics.design.guessed import GUESSED, guessed
from schematics.design.missing import missing
from schematics.document.document import Items, Section, Words
from schematics.pattern.book import Book


def section(book: Book) -> Section | None:
    """Each thing with its place; None of a pattern that lacks nothing."""
    blocks = tuple(_blocks(book))
    return Section("Still to be added", blocks, "missing") if blocks else None


def _blocks(book: Book) -> Iterator[Words | Items]:
    if lacking := missing(book.design):
        yield "This pattern is not complete. The place of each of these is marked:"
        yield Items(tuple(f"{sentence_case(each.place)}: {each.what}" for each in lacking))
    if guesses := guessed(book.design):
        yield f"These are {GUESSED}, and marked where they are used:"
        yield Items(tuple(sentence_case(each.what) for each in guesses))
