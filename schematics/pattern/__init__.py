"""The figures a pattern needs, for every size at once, in Markdown, CSV, JSON and HTML."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import schematics
from schematics.checks.evaluation import Result
from schematics.crochet.terms import Terms
from schematics.design.design import Design
from schematics.document.document import Document
from schematics.pattern.book import Book
from schematics.pattern.sections import SECTIONS

__all__ = ["FORMATS", "figures", "figures_file"]


def figures(design: Design, results: Sequence[Result], terms: Terms | None = None) -> Document:
    """The figures of the results, at least one, in the order given.

    Args:
        design: the design the results are sizes of.
        results: the sizes to be shown.
        terms: whose stitch names to use; the design's own choice when None.
    """
    book = Book(design=design, results=tuple(results), terms=terms or design.terms)
    return Document(
        title=design.title,
        spec=design.path.name,
        date=design.date.isoformat() if design.date else None,
        program=f"schematics {schematics.__version__}",
        terms=book.terms.value,
        sizes=book.names,
        stops=tuple(result.size.name for result in results if result.verdict == "stop"),
        sections=tuple(section(book) for section in SECTIONS),
    )


def _markdown(document: Document) -> str:
    from schematics.document.markdown import to_markdown

    return to_markdown(document)


def _csv(document: Document) -> str:
    from schematics.document.csv_document import to_csv

    return to_csv(document)


def _json(document: Document) -> str:
    from schematics.document.json_document import to_json
    from schematics.document.json_text import as_text

    return as_text(to_json(document))


def _html(document: Document) -> str:
    from schematics.document.html import to_html

    return to_html(document)


FORMATS: Mapping[str, Callable[[Document], str]] = {
    "md": _markdown,
    "csv": _csv,
    "json": _json,
    "html": _html,
}
"""The text of each kind of file by the ending of its name."""


def figures_file(document: Document, ending: str) -> bytes:
    """The content of ``figures.<ending>``, UTF-8.

    The CSV begins with a byte order mark, by which spreadsheets know UTF-8.

    Raises:
        KeyError: there is no such kind of file.
    """
    text = FORMATS[ending](document)
    return text.encode("utf-8-sig" if ending == "csv" else "utf-8", errors="replace")
