"""Documents as PDF: tagged, to be read aloud (PDF/UA-1), and to be kept (PDF/A-2a).

The typesetter is Typst (https://typst.app). It is given one text: no file, no package and no font but the
lettering's own, so that the same document gives the same bytes on any machine.
"""

from __future__ import annotations

from datetime import UTC, datetime, time
from functools import cache

import typst

from schematics.document.document import Document
from schematics.document.lettering.text import FONT_FOLDER
from schematics.document.page_look import PageLook
from schematics.document.typst_source import typst_source

OPENING = b"%PDF-"
"""How every PDF begins."""

_STANDARDS: list[typst.PDFStandard] = ["ua-1", "a-2a"]

_UNDATED = datetime(1980, 1, 1, tzinfo=UTC)
"""Written into the file of a document that has no date; a file's own date must not change its bytes."""


def to_pdf(document: Document, look: PageLook) -> bytes:
    """The document as PDF; its date is that of the look."""
    made = datetime.combine(look.date, time(), UTC) if look.date else _UNDATED
    compiler = typst.Compiler(
        typst_source(document, look).encode(), root=FONT_FOLDER, font_paths=_fonts(), ignore_system_fonts=True
    )
    pdf = compiler.compile(format="pdf", pdf_standards=_STANDARDS, timestamp=made)
    assert isinstance(pdf, bytes)
    return pdf


@cache
def _fonts() -> typst.Fonts:
    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[FONT_FOLDER])
