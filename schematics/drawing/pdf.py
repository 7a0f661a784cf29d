"""SVG to PDF through CairoSVG, and sheets joined into one booklet; the same sheets give the same bytes."""

from __future__ import annotations

import io
from collections.abc import Sequence

from pypdf import PdfReader, PdfWriter
from pypdf.generic import NameObject, TextStringObject

from schematics.drawing.raster import cairo


def to_pdf(svg: str, title: str) -> bytes:
    """A one-page PDF of the sheet, true to scale.

    Raises:
        MissingLibraryError: the cairo library is not on this machine.
    """
    return join([(title, _raw_pdf(svg))], title)


def booklet(pages: Sequence[tuple[str, str]], title: str) -> bytes:
    """One PDF of several sheets with a bookmark each.

    Args:
        pages: the bookmark and the SVG of each page, in order.
        title: the document's title.

    Raises:
        MissingLibraryError: the cairo library is not on this machine.
    """
    return join([(words, _raw_pdf(svg)) for words, svg in pages], title)


def _raw_pdf(svg: str) -> bytes:
    pdf: bytes = cairo().svg2pdf(bytestring=svg.encode())
    return pdf


def join(pages: Sequence[tuple[str, bytes]], title: str) -> bytes:
    """One-page PDFs joined, each under its bookmark, with no date of making in them."""
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
