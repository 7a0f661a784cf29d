"""The pattern as its maker gets it: its parts in order; a new one is one new file and one line in `PARTS`."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from schematics.checks.evaluation import Result
from schematics.crochet.terms import Terms
from schematics.design.design import Design
from schematics.document.document import Document, Section
from schematics.pattern.book import Book
from schematics.pattern.written import body, centre_panel
from schematics.pattern.written.in_terms import section_in_terms

PARTS: tuple[Callable[[Book], Section | None], ...] = (body.section, centre_panel.section)
"""In the order of the document. Each writes in US terms, and gives None where the design has no such part."""


def written_pattern(design: Design, results: Sequence[Result], terms: Terms | None = None) -> Document:
    """The pattern of the results, at least one, in the order given.

    Args:
        design: the design the results are sizes of.
        results: the sizes to be written.
        terms: whose stitch names to use; the design's own choice when None.
    """
    book = Book(design=design, results=tuple(results), terms=terms or design.terms)
    sections = tuple(section for part in PARTS if (section := part(book)) is not None)
    return Document(
        title=design.title,
        sections=tuple(section_in_terms(section, book.terms) for section in sections),
        head={"format": 1, "title": design.title, "terms": book.terms.value, "sizes": list(book.names)},
    )
