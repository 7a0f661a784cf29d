"""Documents as files for a word processor, read back by python-docx."""

from __future__ import annotations

import io
import re
import zipfile
from dataclasses import replace

import docx
import pytest
from docx.document import Document as WordDocument
from docx.oxml.ns import qn
from PIL import Image

from schematics.document.document import Document, Section
from schematics.document.page_look import PageLook
from schematics.document.word import to_docx
from tests.document.lake_document import A4, LAKE, PICTURE, ROWS
from tests.document.test_typeset import HOSTILE, said


def png() -> bytes:
    file = io.BytesIO()
    Image.new("L", (4, 2), 255).save(file, "PNG")
    return file.getvalue()


DRAWN = replace(LAKE, sections=(*LAKE.sections[:2], Section("Schematic", (replace(PICTURE, png=png),))))


def opened(document: Document, look: PageLook = A4) -> WordDocument:
    return docx.Document(io.BytesIO(to_docx(document, look)))


@pytest.mark.slow
def test_it_has_styles_for_what_there_is() -> None:
    word = opened(DRAWN)
    styled = [(each.style.name, each.text) for each in word.paragraphs if each.style and each.text]
    assert styled == [
        ("Title", "Lake poncho"),
        ("Normal", "Designed by Ida."),
        ("Heading 1", "Sizes"),
        ("Normal", "Sizes 2\N{NO-BREAK SPACE}(4, 6)."),
        ("Heading 1", "Body"),
        *(("Normal", re.sub(r"(?<=\d) (?=\(\d)", "\N{NO-BREAK SPACE}", row.text)) for row in ROWS),
        ("Heading 2", "Shoulders"),
        ("Heading 3", "In turn"),
        ("List Bullet", "One."),
        ("List Bullet", "Two."),
        ("Heading 1", "Schematic"),
    ]


def test_a_rows_label_is_bold_and_nothing_else_of_it() -> None:
    row = next(each for each in opened(DRAWN).paragraphs if each.text.startswith("Row 1"))
    assert [(run.text, bool(run.bold)) for run in row.runs] == [
        ("Row 1 (RS):", True),
        (" Hdc in 3rd ch from hook and in each ch to end, turn. [10\N{NO-BREAK SPACE}(12, 14) sts]", False),
    ]


def test_a_tables_header_is_repeated_and_no_row_parted() -> None:
    (table,) = opened(DRAWN).tables
    assert [[cell.text for cell in row.cells] for row in table.rows] == [
        ["", "cm"], ["neck", "36\N{NO-BREAK SPACE}(38, 38)"], ["hem", "120"],
    ]  # fmt: skip
    marks = [row._tr.trPr for row in table.rows]
    assert all(each is not None and each.find(qn("w:cantSplit")) is not None for each in marks)
    assert [each is not None and each.find(qn("w:tblHeader")) is not None for each in marks] == [
        True,
        False,
        False,
    ]


def test_it_says_what_its_pictures_show_and_is_no_wider_than_the_text() -> None:
    word = opened(replace(DRAWN, sections=(Section("", (replace(PICTURE, png=png, width_mm=500),)),)))
    (shape,) = word.inline_shapes
    assert shape._inline.docPr.get("descr") == "A line from corner to corner."
    assert round(shape.width.mm) == 170


def test_it_tells_language_title_author_and_foot() -> None:
    word = opened(DRAWN)
    said_of_it = word.core_properties
    assert (said_of_it.title, said_of_it.author, said_of_it.language) == ("Lake poncho", "Ida", "en-GB")
    assert {str(each)[:10] for each in (said_of_it.created, said_of_it.modified)} == {"2024-03-01"}
    assert word.sections[0].footer.paragraphs[0].text.startswith("Lake · US terms, page ")
    assert word.sections[0].page_height is not None
    assert round(word.sections[0].page_height.mm) == 297


@pytest.mark.slow
def test_the_same_document_is_the_same_bytes() -> None:
    first = to_docx(DRAWN, A4)
    assert first == to_docx(DRAWN, A4)
    with zipfile.ZipFile(io.BytesIO(first)) as parts:
        assert {each.date_time for each in parts.infolist()} == {(1980, 1, 1, 0, 0, 0)}


@pytest.mark.slow
def test_any_text_is_in_it_as_it_stands() -> None:
    for text in (*HOSTILE, "&amp; ]]> <w:p/> \N{BALL OF YARN} \x07\ufffe"):
        document = said(text)
        document = replace(document, sections=document.sections[1:])
        word = opened(document, replace(A4, foot=text, author=text))
        kept = text.replace("\x07", "").replace("\ufffe", "")
        assert [cell.text for row in word.tables[0].rows for cell in row.cells] == [kept] * 4
        assert word.paragraphs[0].text == kept
        assert word.core_properties.author == kept
