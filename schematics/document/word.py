"""Documents as files for a word processor (Office Open XML), to be edited."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

import docx
from docx.document import Document as WordDocument
from docx.oxml import OxmlElement
from docx.oxml.ns import qn
from docx.shared import Mm, Pt, RGBColor
from docx.table import _Row as WordRow
from docx.text.paragraph import Paragraph

from schematics.document.document import (
    Block,
    Document,
    Items,
    Picture,
    Rated,
    Row,
    Section,
    Table,
    Words,
    plain,
    runs,
    unbroken,
)
from schematics.document.house_style import HouseStyle, Photo
from schematics.document.images import svg_to_png
from schematics.document.lettering.text import printable
from schematics.document.page_look import LEADING_MM, LOGO_HEIGHT_MM, LOGO_WIDTH_MM, PHOTO_MM, PageLook

OPENING = b"PK"
"""How every such file begins."""

_SIZES = {"Normal": 1.1, "Title": 2.4, "Heading 1": 1.5, "Heading 2": 1.2, "Heading 3": 1.1}
"""Of the letters in a style, in those of the look."""

_LANGUAGE = "en-GB"
_ZIPPED = (1980, 1, 1, 0, 0, 0)
"""The time of each part in the file, the earliest that it can have."""


def to_docx(document: Document, look: PageLook) -> bytes:
    """The document as a file; the same for the same.

    Raises:
        MissingLibraryError: a picture cannot be drawn for want of a library.
    """
    word = docx.Document()
    _set_up(word, document, look)
    writer = _Writer(word, look)
    if document.house and (logo := document.house.logo):
        writer.logo(logo)
    word.add_paragraph(printable(document.title), style="Title")
    for words in document.lead:
        writer.block(words, 1)
    for section in (*document.sections, *document.closing):
        writer.section(section, 1)
    file = io.BytesIO()
    word.save(file)
    return _undated(file)


def _set_up(word: WordDocument, document: Document, look: PageLook) -> None:
    """Paper, styles, foot and what the file says of itself."""
    page = word.sections[0]
    page.page_width, page.page_height = Mm(look.width_mm), Mm(look.height_mm)
    page.left_margin = page.right_margin = Mm(look.margin_mm)
    page.top_margin = page.bottom_margin = Mm(look.margin_mm)
    for name, size in _SIZES.items():
        style = word.styles[name]
        style.font.size = Pt(round(look.size_pt * size, 1))
        if name != "Normal":
            style.font.color.rgb = RGBColor.from_string(look.accent.removeprefix("#").upper())
    _lettered(word, document.house or HouseStyle())
    for language in word.styles.element.iter(qn("w:lang")):
        language.set(qn("w:val"), _LANGUAGE)
    foot = page.footer.paragraphs[0]
    foot.add_run(printable(f"{look.foot}, page "))
    _field(foot, "PAGE")
    foot.add_run(" of ")
    _field(foot, "NUMPAGES")
    core = word.core_properties
    core.title, core.author, core.language = printable(document.title), printable(look.author), _LANGUAGE
    core.last_modified_by, core.comments = core.author, ""
    core.created = core.modified = look.created


def _lettered(word: WordDocument, house: HouseStyle) -> None:
    """The designer's fonts by their names; a computer that lacks one takes another."""
    for name in _SIZES:
        font = house.text if name == "Normal" else house.lettering or house.text
        if font:
            fonts = word.styles[name].element.get_or_add_rPr().get_or_add_rFonts()
            for attribute in list(fonts.attrib):
                del fonts.attrib[attribute]
            for script in ("ascii", "hAnsi", "cs"):
                fonts.set(qn(f"w:{script}"), font.family)


def _field(paragraph: Paragraph, code: str) -> None:
    """A number that the word processor fills in."""
    field = OxmlElement("w:fldSimple")
    field.set(qn("w:instr"), code)
    paragraph._p.append(field)


@dataclass(frozen=True, slots=True)
class _Writer:
    """Adds each block to the end of the file."""

    word: WordDocument
    look: PageLook

    def logo(self, logo: Photo) -> None:
        """The designer's mark."""
        self._image(logo, *logo.size_mm(LOGO_WIDTH_MM, LOGO_HEIGHT_MM))

    def section(self, section: Section, level: int) -> None:
        if section.heading:
            self.word.add_heading(printable(plain(section.heading)), level)
        for pictured, blocks in groupby(section.blocks, lambda block: isinstance(block, Picture)):
            if pictured:
                self._pictures(block for block in blocks if isinstance(block, Picture))
                continue
            for block in blocks:
                self.block(block, level + 1 if section.heading else level)

    def block(self, block: Block, level: int) -> None:
        match block:
            case Section():
                self.section(block, level)
            case Items():
                if block.caption:
                    self.word.add_heading(printable(block.caption), level)
                for words in block.items:
                    _say(self.word.add_paragraph(style="List Bullet"), words)
            case Table():
                for table in block.by_size():
                    if table.caption:
                        self.word.add_heading(printable(table.caption), level)
                    self._table(table)
            case Row():
                paragraph = self.word.add_paragraph()
                paragraph.add_run(printable(f"{block.label}:")).bold = True
                _say(paragraph, f" {block.instruction}")
            case Picture():
                self._pictures([block])
            case Photo():
                highest = LEADING_MM if block.leading else PHOTO_MM
                self._image(block, *block.size_mm(self.look.width_mm - 2 * self.look.margin_mm, highest))
            case _:
                _say(self.word.add_paragraph(), block)

    def _table(self, table: Table) -> None:
        header: list[tuple[str, Words, int]] = [("", name, 1) for name in table.header]
        rows = [header, *(list(table.cells(row)) for row in table.rows)]
        added = self.word.add_table(rows=len(rows), cols=len(table.header), style="Table Grid")
        for number, (row, cells) in enumerate(zip(added.rows, rows, strict=True)):
            _fill(row, cells, header=number == 0)
        self.word.add_paragraph()

    def _image(self, photo: Photo, width_mm: float, height_mm: float) -> None:
        content = svg_to_png(photo.content) if photo.ending == "svg" else photo.content
        shape = self.word.add_picture(io.BytesIO(content), Mm(width_mm), Mm(height_mm))
        shape._inline.docPr.set("descr", printable(photo.shows))
        shape._inline.graphic.graphicData.pic.nvPicPr.cNvPr.set("name", "photo")

    def _pictures(self, pictures: Iterable[Picture]) -> None:
        """Drawings beside each other, as many as have room."""
        widest = self.look.width_mm - 2 * self.look.margin_mm
        paragraph = self.word.add_paragraph()
        for number, picture in enumerate(pictures):
            run = paragraph.add_run(" " if number else "")
            shape = run.add_picture(io.BytesIO(picture.png()), width=Mm(min(picture.width_mm, widest)))
            shape._inline.docPr.set("descr", printable(picture.shows))
            for named in shape._inline.iter(qn("pic:cNvPr")):
                named.set("name", "drawing")


def _fill(row: WordRow, cells: Sequence[tuple[str, Words, int]], *, header: bool) -> None:
    """Fill a row, which is not parted; a header is repeated on every page."""
    marks = row._tr.get_or_add_trPr()
    marks.append(OxmlElement("w:cantSplit"))
    if header:
        marks.append(OxmlElement("w:tblHeader"))
    free, at = row.cells, 0
    for _, words, wide in cells:
        cell = free[at].merge(free[at + wide - 1]) if wide > 1 else free[at]
        _say(cell.paragraphs[0], words, bold=header)
        at += wide


def _say(paragraph: Paragraph, words: Words, *, bold: bool = False) -> None:
    for run in runs(unbroken(words)):
        paragraph.add_run(printable(str(run))).bold = True if bold or isinstance(run, Rated) else None


def _undated(file: io.BytesIO) -> bytes:
    """The file with the same time for each of its parts."""
    whole = io.BytesIO()
    with zipfile.ZipFile(file) as dated, zipfile.ZipFile(whole, "w", zipfile.ZIP_DEFLATED) as undated:
        for name in dated.namelist():
            part = zipfile.ZipInfo(name, _ZIPPED)
            part.compress_type, part.create_system = zipfile.ZIP_DEFLATED, 3
            undated.writestr(part, dated.read(name))
    return whole.getvalue()
