"""The pattern as a file, in each form that it is sold in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from schematics.checks.evaluation import Result
from schematics.design.design import Design
from schematics.document.document import Document
from schematics.document.page_look import PAGED_FORMS, PageLook
from schematics.document.writers import FORMS, file_content
from schematics.pattern.illustrated import illustrated
from schematics.pattern.published import in_large_print, page_look, published_pattern
from schematics.pattern.written import written_pattern

__all__ = ["LARGE", "document_content", "page_look", "pattern_document", "pattern_documents"]

LARGE = "large"
"""Large print, among the forms: a PDF too."""

_DRAWN_FORMS = ("html", *PAGED_FORMS, LARGE)


def pattern_document(design: Design, results: Sequence[Result], form: str) -> Document:
    """The pattern of the results, at least one, with its drawings where the form shows any."""
    if form not in _DRAWN_FORMS:
        return illustrated(written_pattern(design, results), design)
    document = illustrated(published_pattern(design, results), design)
    return in_large_print(document, design, results) if form == LARGE else document


def pattern_documents(design: Design, results: Sequence[Result]) -> Mapping[str, Document]:
    """The pattern of the results in every form, by the form."""
    written = illustrated(written_pattern(design, results), design)
    published = illustrated(published_pattern(design, results), design)
    large = in_large_print(published, design, results)
    return dict.fromkeys(FORMS, written) | dict.fromkeys(_DRAWN_FORMS, published) | {LARGE: large}


def document_content(document: Document, form: str, look: PageLook) -> bytes:
    """A document as the content of a file; ``look`` is that of its pages, where it has pages.

    Raises:
        MissingLibraryError: pictures for a word processor cannot be drawn without the cairo library.
    """
    if form in ("pdf", LARGE):
        from schematics.document.typeset import to_pdf

        return to_pdf(document, look)
    if form == "docx":
        from schematics.document.word import to_docx

        return to_docx(document, look)
    return file_content(document, form)
