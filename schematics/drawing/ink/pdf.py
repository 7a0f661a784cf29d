"""A sheet as PDF, and PDFs joined; the same sheets give the same bytes."""

from __future__ import annotations

import io
from collections.abc import Sequence

from pypdf import PdfReader, PdfWriter
from pypdf.generic import NameObject, TextStringObject

from schematics.document.lettering.text import printable
from schematics.drawing.ink.cairo_pen import cairo, draw
from schematics.drawing.ink.sheet import Sheet

_POINTS_PER_MM = 72 / 25.4
_CREATOR = "schematics"


def to_pdf(sheet: Sheet) -> bytes:
    """A one-page PDF of the sheet, true to scale, with its title; the same bytes for the same sheet.

    Raises:
        MissingLibraryError: the cairo library is not on this machine, or does not take the font.
    """
    out = io.BytesIO()
    lib, paper = cairo(), sheet.paper
    surface = lib.PDFSurface(out, paper.width * _POINTS_PER_MM, paper.height * _POINTS_PER_MM)
    surface.set_metadata(lib.PDF_METADATA_TITLE, printable(sheet.title))
    surface.set_metadata(lib.PDF_METADATA_CREATOR, _CREATOR)
    surface.set_metadata(lib.PDF_METADATA_CREATE_DATE, "")
    draw(sheet, surface, _POINTS_PER_MM)
    surface.finish()
    return out.getvalue()


def join(pages: Sequence[tuple[str, bytes]], title: str) -> bytes:
    """One-page PDFs joined into one.

    Args:
        pages: the bookmark and the PDF of each page, in order.
        title: the document's title.

    Returns:
        The same bytes for the same pages: it has no date of making.
    """
    writer = PdfWriter()
    for words, content in pages:
        writer.append(PdfReader(io.BytesIO(content)), outline_item=words, import_outline=False)
    writer.metadata = {
        "/Title": title,
        "/Creator": _CREATOR,
        "/Producer": _CREATOR,
    }
    writer.root_object[NameObject("/Lang")] = TextStringObject("en")
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()
