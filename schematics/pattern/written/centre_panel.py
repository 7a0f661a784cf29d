"""The centre panel, row by row in all sizes."""

from __future__ import annotations

from schematics.document.document import Section
from schematics.pattern.book import Book


def section(book: Book) -> Section:
    """How it is begun, and every row of its chart in words."""
    del book
    return Section("Centre panel", ("[to be added: the panel's rows]",), "centre_panel")
