"""Documents as PDF: tagged, to be read aloud (PDF/UA-1), and to be kept (PDF/A-2a).

The typesetter is Typst (https://typst.app). It is given one text: no package, and no file or font but the
lettering's own and those that the designer gives, so that the same document gives the same bytes on any
machine that has them.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import typst

from schematics.document.document import Document
from schematics.document.house_style import HouseStyle, Photo
from schematics.document.lettering.text import FONT_FOLDER
from schematics.document.page_look import PageLook
from schematics.document.typst_source import typst_source

OPENING = b"%PDF-"
"""How every PDF begins."""

_STANDARDS: list[typst.PDFStandard] = ["ua-1", "a-2a"]

_REMEMBERED = 10
"""Documents for which Typst keeps all it has worked out, some 10 MB of each pattern; no two share any of it.

It is let go of by as many that are empty, which take a tenth of the time that a pattern takes.
"""


_PARTED_LIST = "invalid list (L) structure"
"""What Typst says where a drawing it moves comes between the items of a list that two pages share."""


def to_pdf(document: Document, look: PageLook) -> bytes:
    """The document as PDF; its date is that of the look."""
    try:
        return _compiled(document, look, in_place=False)
    except typst.TypstError as error:
        if _PARTED_LIST not in str(error):
            raise
        return _compiled(document, look, in_place=True)


def _compiled(document: Document, look: PageLook, *, in_place: bool) -> bytes:
    house = document.house or HouseStyle()
    compiler = typst.Compiler(
        typst_source(document, look, in_place=in_place).encode(),
        root=_folder(document, house),
        font_paths=_fonts(*(each.file and each.file.parent for each in house.fonts)),
        ignore_system_fonts=True,
    )
    pdf = compiler.compile(format="pdf", pdf_standards=_STANDARDS, timestamp=look.created)
    assert isinstance(pdf, bytes)
    for _ in range(_REMEMBERED):
        compiler.compile(b" ", format="svg")
    return pdf


def _folder(document: Document, house: HouseStyle) -> Path:
    """The folder that the images are in; all are beside one spec."""
    images = [block for each in document.all_sections for block in each.blocks if isinstance(block, Photo)]
    return next((each.folder for each in (house.logo, *images) if each), FONT_FOLDER)


@cache
def _fonts(*given: Path | None) -> typst.Fonts:
    """The lettering's own, and those of the folders given; None is for those of this computer."""
    return typst.Fonts(
        include_system_fonts=None in given,
        include_embedded_fonts=False,
        font_paths=[FONT_FOLDER, *(folder for folder in given if folder)],
    )
