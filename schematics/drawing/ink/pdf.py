"""SVG to PDF through CairoSVG, and PDFs joined; the same sheets give the same bytes."""

from __future__ import annotations

import io
from collections.abc import Sequence

from pypdf import PdfReader, PdfWriter
from pypdf.generic import NameObject, TextStringObject

from schematics.drawing.ink.raster import cairo, recording

_POINTS_A_PIXEL = 72 / 96


def to_pdf(svg: str) -> bytes:
    """A one-page PDF of the sheet, true to scale; it carries the time it was made until `join` drops it.

    Raises:
        MissingLibraryError: as `cairo`.
    """
    sheet, lib = recording(svg), cairo().surface.cairo
    out = io.BytesIO()
    surface = lib.PDFSurface(out, sheet.width * _POINTS_A_PIXEL, sheet.height * _POINTS_A_PIXEL)
    sheet.play(surface, _POINTS_A_PIXEL)
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
        "/Creator": "schematics",
        "/Producer": "schematics",
    }
    writer.root_object[NameObject("/Lang")] = TextStringObject("en")
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()
