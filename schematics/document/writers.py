"""Documents as text: one writer for each form, loaded when it is used."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from schematics.document.document import Document

FORMS = ("text", "md", "html", "csv", "json")
"""Text for the terminal, Markdown, a page, comma-separated values, JSON."""


def written(documents: Sequence[Document], form: str, together: str = "") -> Iterator[str]:
    """The documents in one of `FORMS`, bit by bit.

    JSON is that of the one document, or an object with all of them as a list under the key ``together``. What
    closes a document closes the last only.

    Raises:
        ValueError: there is no such form, or it does not hold that many documents.
    """
    documents = [replace(each, closing=()) for each in documents[:-1]] + [*documents[-1:]]
    if form == "json":
        from schematics.document.json_document import to_json
        from schematics.document.json_text import in_parts

        values = [to_json(document) for document in documents]
        yield from in_parts({together: values} if together else values[0])
    elif form == "text":
        from schematics.document.terminal import to_text

        yield to_text(documents)
    elif form == "md":
        from schematics.document.markdown import to_markdown

        yield to_markdown(documents)
    elif form == "csv":
        from schematics.document.csv_document import to_csv

        (document,) = documents
        yield to_csv(document)
    elif form == "html":
        from schematics.document.html import to_html

        (document,) = documents
        yield to_html(document)
    else:
        raise ValueError(form)


def file_content(document: Document, form: str) -> bytes:
    """The document as the content of a file, UTF-8.

    A CSV begins with a byte order mark, by which spreadsheets know UTF-8.
    """
    text = "".join(written([document], form))
    return text.encode("utf-8-sig" if form == "csv" else "utf-8", errors="replace")
