"""The body, row by row in all sizes."""

from __future__ import annotations

from schematics.document.document import Section
from schematics.pattern.book import Book


def section(book: Book) -> Section:
    """How it is begun, and every row."""
    del book
    return Section("Body", ("[to be added: the body's rows]",), "body")
