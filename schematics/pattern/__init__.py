"""The figures a pattern needs, for every size at once."""

from __future__ import annotations

from collections.abc import Sequence

from schematics.checks.evaluation import Result
from schematics.crochet.terms import Terms
from schematics.design.design import Design
from schematics.design.size_string import size_string
from schematics.document.common import cautions_json, head_json
from schematics.document.document import PROGRAM, Document
from schematics.pattern.book import Book
from schematics.pattern.sections import SECTIONS


def figures(design: Design, results: Sequence[Result], terms: Terms | None = None) -> Document:
    """The figures of the results, at least one, in the order given.

    Args:
        design: the design the results are sizes of.
        results: the sizes to be shown.
        terms: whose stitch names to use; the design's own choice when None.
    """
    book = Book(design=design, results=tuple(results), terms=terms or design.terms)
    date = design.date.isoformat() if design.date else None
    return Document(
        title=f"{design.title}: figures for the pattern",
        lead=(
            f"Sizes {size_string(book.names)}. Stitch names in {book.terms.value} terms.",
            f"Made from {design.path.name}{f', {date}' if date else ''}, by {PROGRAM}.",
        ),
        sections=tuple(section(book) for section in SECTIONS),
        sizes=book.names,
        head={
            **head_json(design, 2),
            "date": date,
            "terms": book.terms.value,
            "sizes": list(book.names),
            "stops": [result.size.name for result in results if result.verdict == "stop"],
            "cautions": cautions_json(),
        },
    )
