"""The pattern as its maker gets it: its parts in order; a new one is one new file and one line in `PARTS`."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from schematics.checks.evaluation import Result
from schematics.crochet.terms import Terms
from schematics.design.design import Design
from schematics.document.common import cautions_section
from schematics.document.document import Document, Section
from schematics.document.in_terms import section_in_terms
from schematics.pattern.book import Book
from schematics.pattern.written import (
    abbreviations,
    about,
    arm_bands,
    arm_markers,
    body_piece,
    centre_panel,
    finished,
    finishing,
    gauges,
    general_notes,
    materials,
    neck_band,
    seaming,
    sizes,
    still_lacking,
)
from schematics.pattern.written.texts import texts_of

PARTS: tuple[Callable[[Book], Section | None], ...] = (
    about.section,
    sizes.section,
    finished.section,
    materials.section,
    gauges.section,
    general_notes.section,
    body_piece.section,
    centre_panel.section,
    seaming.front_seams,
    arm_markers.section,
    neck_band.section,
    arm_bands.section,
    seaming.side_seams,
    finishing.section,
    finishing.care_section,
    lambda _: cautions_section("cautions"),
    still_lacking.section,
)
"""In the order of the document. Each writes in US terms, and gives None where the design has no such part."""

_ABBREVIATIONS_BEFORE = "notes"
"""The key of the part that the abbreviations come before; they are those that the parts use."""


def written_pattern(
    design: Design,
    results: Sequence[Result],
    terms: Terms | None = None,
    drawn: Iterable[str] | None = None,
) -> Document:
    """The pattern of the results, at least one, in the order given.

    Args:
        design: the design the results are sizes of.
        results: the sizes to be written.
        terms: whose stitch names to use; the design's own choice when None.
        drawn: what its drawings say, in US terms, whose abbreviations it tells too; None where it has none.
    """
    terms = terms or design.terms
    book = Book(design=design, results=tuple(results), terms=terms, drawn=drawn is not None)
    sections = [section for part in PARTS if (section := part(book)) is not None]
    texts = (*(text for section in sections for text in texts_of(section)), *(drawn or ()))
    place = next(index for index, section in enumerate(sections) if section.key == _ABBREVIATIONS_BEFORE)
    sections.insert(place, abbreviations.section(book, texts))
    return Document(
        title=design.title,
        sections=tuple(section_in_terms(section, book.terms) for section in sections),
        head={"format": 1, "title": design.title, "terms": book.terms.value, "sizes": list(book.names)},
        sold=True,
    )
