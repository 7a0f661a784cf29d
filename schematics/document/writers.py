"""Documents as text: a writer for each form. A new form is one new file and one line in `WRITERS`."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from schematics.document.document import Document

WRITERS = {
    "text": "terminal",
    "md": "markdown",
    "html": "html",
    "csv": "csv_document",
    "json": "json_document",
}
"""The file of this room that writes each form, loaded when it is used, by its function ``write``."""

FORMS = tuple(WRITERS)
"""Text for the terminal, Markdown, a page, comma-separated values, JSON."""


def written(documents: Sequence[Document], form: str, together: str = "") -> Iterator[str]:
    """The documents in one of `FORMS`, bit by bit.

    JSON is that of the one document, or an object with all of them as a list under the key ``together``. What
    closes a document closes the last only.

    Raises:
        ValueError: there is no such form.
    """
    if form not in WRITERS:
        raise ValueError(form)
    documents = [replace(each, closing=()) for each in documents[:-1]] + [*documents[-1:]]
    yield from import_module(f"schematics.document.{WRITERS[form]}").write(documents, together)


def file_content(document: Document, form: str) -> bytes:
    """The document as the content of a file, UTF-8.

    A CSV begins with a byte order mark, by which spreadsheets know UTF-8.
    """
    text = "".join(written([document], form))
    return text.encode("utf-8-sig" if form == "csv" else "utf-8", errors="replace")
