"""Documents as PDF, read back by pypdf: tags, language, bookmarks, alternative texts, letters, bytes."""

from __future__ import annotations

import hashlib
import os
import re
import subprocess
import sys
from collections import Counter
from dataclasses import replace
from datetime import date
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.checks.finding import Severity
from schematics.document.document import Block, Document, Items, Rated, Row, Section, Table, plain, unbroken
from schematics.document.typeset import to_pdf
from schematics.document.typst_source import typst_source
from tests.document.lake_document import A4, LAKE, PICTURE, ROWS, TABLE
from tests.document.pdf_reading import bare, bookmarks, reader, root, shown, tags
from tests.examples import covering, examples


def said(text: str) -> Document:
    """A document that says a text in every place a text can stand."""
    return Document(
        title=text,
        lead=(text,),
        sections=(
            Section(
                text,
                (text, Row(text, text, text), Items((text,), text), replace(PICTURE, shows=text)),
            ),
            Section(
                "", (Table(header=(text, text), rows=((text, Rated(text, Severity.STOP)),), caption=text),)
            ),
        ),
    )


@pytest.mark.slow
@pytest.mark.skipif(not Path("/proc/self/statm").exists(), reason="reads what Linux says of the process")
def test_what_was_worked_out_for_a_document_is_let_go_of() -> None:
    """Kept for ten documents, as Typst would, eight hold 40 MB more than the first; let go of, 4."""

    def resident_mb() -> float:
        return int(Path("/proc/self/statm").read_text().split()[1]) * os.sysconf("SC_PAGE_SIZE") / 1e6

    held = []
    for number in range(9):
        rows = tuple(Row(f"Row {number}.{row}", f"{row * number} hdc, turn.") for row in range(250))
        to_pdf(Document(title=f"Lake {number}", sections=(Section("Body", rows),)), A4)
        held.append(resident_mb())
    assert held[-1] - held[0] < 10


def test_its_tags_are_those_of_its_blocks() -> None:
    counts = Counter(str(each["/S"]) for each in tags(to_pdf(LAKE, A4)))
    assert counts["/Title"] == 1
    assert (counts["/H1"], counts["/H2"], counts["/H3"]) == (3, 1, 1)
    assert (counts["/Table"], counts["/TR"], counts["/TH"], counts["/TD"]) == (1, 3, 2, 4)
    assert (counts["/L"], counts["/LI"], counts["/Figure"]) == (1, 2, 1)


def test_it_says_what_its_pictures_show() -> None:
    figures = [each for each in tags(to_pdf(LAKE, A4)) if each["/S"] == "/Figure"]
    assert [each["/Alt"] for each in figures] == ["A line from corner to corner."]


def test_it_tells_language_title_author_and_date() -> None:
    said_of_it, pdf = root(to_pdf(LAKE, A4)), reader(to_pdf(LAKE, A4))
    assert said_of_it["/Lang"] == "en-GB"
    assert said_of_it["/MarkInfo"]["/Marked"].value is True
    assert said_of_it["/ViewerPreferences"]["/DisplayDocTitle"].value is True
    assert pdf.metadata is not None
    assert (pdf.metadata.title, pdf.metadata.author) == ("Lake poncho", "Ida")
    assert pdf.metadata.creation_date is not None
    assert pdf.metadata.creation_date.date() == date(2024, 3, 1)


def test_it_is_of_both_standards() -> None:
    """By the identifiers that ISO 14289-1, 5 and ISO 19005-2, 6.6.4 ask for."""
    packet = root(to_pdf(LAKE, A4))["/Metadata"].get_data().decode()
    facts = {each.tag: each.text for each in ET.fromstring(packet).iter()}
    assert facts["{http://www.aiim.org/pdfua/ns/id/}part"] == "1"
    assert facts["{http://www.aiim.org/pdfa/ns/id/}part"] == "2"
    assert facts["{http://www.aiim.org/pdfa/ns/id/}conformance"] == "A"


def test_its_headings_are_bookmarks() -> None:
    outline = reader(to_pdf(LAKE, A4)).outline
    assert bookmarks(outline) == ["Sizes", "Body", ["Shoulders", ["In turn"]], "Schematic"]


def test_its_fonts_are_the_lettering_and_within_it() -> None:
    fonts = {
        str(font["/BaseFont"]): font["/DescendantFonts"][0]["/FontDescriptor"]
        for page in root(to_pdf(LAKE, A4))["/Pages"]["/Kids"]
        for font in (each.get_object() for each in page.get_object()["/Resources"]["/Font"].values())
    }
    assert {name.partition("+")[2].removesuffix("-Identity-H") for name in fonts} == {
        "DejaVuSans",
        "DejaVuSans-Bold",
    }
    assert all("/FontFile2" in font for font in fonts.values())


@pytest.mark.parametrize(("width", "height"), [(210.0, 297.0), (215.9, 279.4)])
def test_its_pages_are_as_large_as_the_paper(width: float, height: float) -> None:
    look = replace(A4, width_mm=width, height_mm=height)
    for page in reader(to_pdf(LAKE, look)).pages:
        assert float(page.mediabox.width) == pytest.approx(width / 25.4 * 72, abs=0.01)
        assert float(page.mediabox.height) == pytest.approx(height / 25.4 * 72, abs=0.01)


@pytest.mark.slow
def test_every_page_has_its_number_and_the_foot() -> None:
    many = replace(LAKE, sections=(Section("Body", ROWS * 60),))
    pages = [page.extract_text() for page in reader(to_pdf(many, A4)).pages]
    assert len(pages) > 2
    for number, text in enumerate(pages, start=1):
        assert "Lake · US terms" in text
        assert f"page {number} of {len(pages)}" in text


@pytest.mark.slow
def test_a_row_of_a_table_is_on_one_page() -> None:
    """Each row begins and ends with its own number; a header stands on every page."""
    text = "the same words over and over, so that they take several lines; " * 6
    rows = tuple((f"<{number}", f"{text}{number}>") for number in range(40))
    table = Table(header=("number", "words"), rows=rows)
    pages = [
        bare(page.extract_text())
        for page in reader(to_pdf(replace(LAKE, sections=(Section("", (table,)),)), A4)).pages
    ]
    assert len(pages) > 2
    for page in pages:
        assert re.findall(r"<(\d+)the", page) == re.findall(r"(\d+)>", page)
        assert page.count("numberwords") == 1


@pytest.mark.slow
def test_a_heading_is_on_the_page_of_what_follows_it() -> None:
    """The rows before it take more and more of the second page, until the heading goes to the third."""
    found_on = set()
    for before in range(43, 47):
        sections = (Section("First", ROWS * before), Section("Second", ("What follows.", *ROWS)))
        pages = [page.extract_text() for page in reader(to_pdf(replace(LAKE, sections=sections), A4)).pages]
        (page,) = (number for number, text in enumerate(pages, start=1) if "Second" in text)
        assert "What follows." in pages[page - 1]
        found_on.add(page)
    assert found_on == {2, 3}


def small(caption: str, cell: str) -> Table:
    return Table(caption=caption, header=("edge", "rows"), rows=((cell, "12"),))


@pytest.mark.slow
@pytest.mark.parametrize(
    ("blocks", "together"),
    [
        (
            ("What leads in. " * 3, "What is told of it. " * 8, *ROWS),
            ("leads in", "told of it", "Foundation"),
        ),
        (("What leads in. " * 9, small("Seams", "front")), ("leads in", "Seams", "front")),
        (
            (small("Seams", "front"), "So they meet:", small("", "half way")),
            ("front", "they meet", "half way"),
        ),
    ],
    ids=["rows", "table", "tables"],
)
def test_words_are_on_the_page_of_the_rows_or_the_table_they_lead_to(
    blocks: tuple[Block, ...], together: tuple[str, ...]
) -> None:
    """The rows before them take more and more of the second page, until all goes to the third."""
    found_on = set()
    for before in range(38, 47):
        sections = (Section("First", ROWS * before), Section("Second", blocks))
        pages = [page.extract_text() for page in reader(to_pdf(replace(LAKE, sections=sections), A4)).pages]
        (page,) = (number for number, text in enumerate(pages, start=1) if "Second" in text)
        assert all(words in pages[page - 1] for words in together)
        found_on.add(page)
    assert found_on == {2, 3}


@pytest.mark.slow
def test_the_same_document_is_the_same_bytes_in_any_process() -> None:
    probe = (
        "import hashlib; from tests.document.lake_document import A4, LAKE; "
        "from schematics.document.typeset import to_pdf; print(hashlib.sha256(to_pdf(LAKE, A4)).hexdigest())"
    )
    there = subprocess.run([sys.executable, "-c", probe], capture_output=True, text=True, check=True).stdout
    assert there.strip() == hashlib.sha256(to_pdf(LAKE, A4)).hexdigest()
    assert to_pdf(LAKE, A4) == to_pdf(LAKE, A4)
    undated = replace(A4, date=None)
    assert to_pdf(LAKE, undated) == to_pdf(LAKE, undated)


HOSTILE = (
    '#read("/etc/passwd") #panic() $x^2$ \\ \\u{41} [[ ]] <label> @ref *b* _i_ `raw` = - + / ~ // /* */',
    '" + read("/etc/passwd") + "',
    "-- --- ... 'q' \"q\" http://a.example/?b#c %d {} ; , : \N{EM DASH} \N{WHITE SMILING FACE} Ærø Ωμέγα Дом",
    "(a, b: c) => d; #let x = 1; #show: none; #set page(width: 1pt)",
)


@pytest.mark.parametrize(("text", "large"), covering(HOSTILE, (False, True)))
def test_markup_in_a_text_is_printed_as_it_stands(text: str, large: bool) -> None:
    look = replace(A4, foot=text, author=text, large=large)
    pdf = to_pdf(said(text), look)
    assert shown(pdf, text).count(bare(text)) == 14 - large
    assert [each["/Alt"] for each in tags(pdf) if each["/S"] == "/Figure"] == [text]
    metadata = reader(pdf).metadata
    assert metadata is not None
    assert metadata.title == text


@pytest.mark.slow
@given(st.text(st.characters(max_codepoint=127, exclude_categories=["C"]), min_size=1, max_size=60))
@examples(60)
def test_any_text_is_printed_as_it_stands(text: str) -> None:
    pdf = to_pdf(Document(title="t", sections=(Section("", (Row("begin", text, "end"),)),)), A4)
    assert shown(pdf, A4.foot) == bare(f"tbegin: {text} [end]")


def test_a_character_that_the_font_lacks_has_a_sign_in_its_place() -> None:
    pdf = to_pdf(
        Document(title="t", sections=(Section("", ("a\N{BALL OF YARN}b\N{CJK UNIFIED IDEOGRAPH-4E2D}",)),)),
        A4,
    )
    assert shown(pdf, A4.foot) == "ta\ufffdb\ufffd"


def test_large_print_is_one_column_of_large_letters_without_tables() -> None:
    pdf = to_pdf(LAKE, replace(A4, large=True, size_pt=22))
    sizes: Counter[float] = Counter()
    for page in reader(pdf).pages:

        def count(text: str, _cm: object, _tm: object, _font: object, size: float) -> None:
            if text.strip() and "page" not in text and "Lake ·" not in text:
                sizes[round(size, 1)] += 1

        page.extract_text(visitor_text=count)
    assert min(sizes) >= 22
    assert not [each for each in tags(pdf) if each["/S"] == "/Table"]
    assert bare("neck cm: 36 (38, 38) hem cm: 120") in shown(pdf, A4.foot)


def test_a_verdict_is_bold_too() -> None:
    """What is not told by colour alone: the one run with a verdict is tagged as strong."""
    plain = replace(TABLE, rows=(("neck", "36"), ("hem", "120")))
    strong = [
        sum(
            each["/S"] == "/Strong"
            for each in tags(to_pdf(Document(title="t", sections=(Section("", (table,)),)), A4))
        )
        for table in (plain, TABLE)
    ]
    assert strong[1] == strong[0] + 1


def test_large_print_tells_the_unit_of_every_figure() -> None:
    """A letter is drawn to what it is the letter of; a name that has no heading is not drawn to a figure."""
    tables = (
        Table(header=("", "cm", "inches"), rows=(("round the head", "48", "19"),)),
        Table(header=("", "measurement", "cm"), rows=(("A", "body neck edge", "36"),)),
    )
    pdf = to_pdf(replace(LAKE, sections=(Section("", tables),)), replace(A4, large=True, size_pt=22))
    assert bare("round the head cm: 48 inches: 19") in shown(pdf, A4.foot)
    assert bare("A body neck edge cm: 36") in shown(pdf, A4.foot)


@pytest.mark.parametrize("height", [297, 279.4])
def test_two_drawings_of_less_than_half_a_page_stand_on_one_in_large_print(height: float) -> None:
    look = replace(A4, large=True, size_pt=22, margin_mm=15, height_mm=height)
    svg = "<svg xmlns='http://www.w3.org/2000/svg' width='105' height='110'><path d='M0,0 L105,110'/></svg>"
    drawing = replace(PICTURE, svg=svg, width_mm=105, height_mm=110)
    pages = reader(to_pdf(replace(LAKE, sections=(Section("", (drawing,) * 4),)), look)).pages
    assert len(pages) == 3, "the title's, with one; two; one"


def test_in_large_print_what_a_row_is_about_is_named() -> None:
    """A 4 by itself is a size, or anything else."""
    table = Table(header=("size", "body row ends", "ratio"), rows=(("4", "31", "1 to 2"),))
    pdf = to_pdf(replace(LAKE, sections=(Section("", (table,)),)), replace(A4, large=True, size_pt=22))
    assert bare("size: 4 body row ends: 31 ratio: 1 to 2") in shown(pdf, A4.foot)


@pytest.mark.slow
def test_a_tall_card_goes_on_overleaf_in_large_print_with_its_name_on_the_page_before() -> None:
    table = Table(
        header=("", *(f"size {size}" for size in range(6))),
        rows=tuple((f"length {number}", *("10 cm",) * 6) for number in range(12)),
    )
    look = replace(A4, large=True, size_pt=22, margin_mm=15)
    pages = reader(to_pdf(replace(LAKE, sections=(Section("", (table,)),)), look)).pages
    per_page = [bare(page.extract_text()).count("size") for page in pages]
    assert sum(per_page) == 72
    assert any(lines % 6 for lines in per_page), "only whole cards are on a page"
    for page in pages:
        lines = page.extract_text().splitlines()
        assert not lines[-3].startswith("length"), "a name stands alone at the foot"


def test_a_key_and_a_chart_are_not_both_after_their_words_in_large_print() -> None:
    look = replace(A4, large=True, size_pt=22)
    section = Section("Chart", (Items(("Read it from below.",)), PICTURE, PICTURE))
    source = typst_source(replace(LAKE, sections=(section,)), look).splitlines()
    begun = [line.partition("(")[0] for line in source[-6:]]
    assert begun == ["#title", "#paragraph", "#heading", "#floating-plate", "#items", "#floating-plate"]


def test_a_figure_keeps_with_its_unit_and_with_those_of_larger_sizes() -> None:
    words = unbroken("50 % wool, 3 (4, 5) hdc, 36 1/2 (38, 40 1/4) in")
    assert plain(words).split(" ") == [
        "50\N{NO-BREAK SPACE}%", "wool,", "3\N{NO-BREAK SPACE}(4,", "5)", "hdc,",
        "36\N{NO-BREAK SPACE}1/2\N{NO-BREAK SPACE}(38,", "40\N{NO-BREAK SPACE}1/4)", "in",
    ]  # fmt: skip


def test_drawings_stand_one_by_one_in_large_print_as_large_as_they_are() -> None:
    """110 mm of 180 are 0.6111 of the text; four of 60 mm are as high as a page and title allow."""
    svg = "<svg xmlns='http://www.w3.org/2000/svg' width='110' height='60'><path d='M0,0 L110,60'/></svg>"
    drawing = replace(PICTURE, svg=svg, width_mm=110, height_mm=60)
    look = replace(A4, large=True, size_pt=22, margin_mm=15)
    document = replace(LAKE, sections=(Section("", (drawing,) * 4),))
    drawn = [
        line for line in typst_source(document, look).splitlines() if line.startswith("#floating-plate(")
    ]
    assert [re.findall(r", (0\.\d+), ([\d.]+)\)", line) for line in drawn] == [[("0.6111", "60.000")]] * 4
    assert len(reader(to_pdf(document, look)).pages) == 2


def test_text_fills_the_page_that_a_drawing_does_not_fit_on_in_large_print() -> None:
    """Of 180 mm no two stand on a page; between them the text takes no more pages than by itself."""
    svg = "<svg xmlns='http://www.w3.org/2000/svg' width='170' height='180'><path d='M0,0 L170,180'/></svg>"
    drawing = replace(PICTURE, svg=svg, width_mm=170, height_mm=180)
    look = replace(A4, large=True, size_pt=22, margin_mm=15)
    text = "Work in each st to the end. " * 24
    pages = [
        len(reader(to_pdf(replace(LAKE, sections=(Section("", blocks),)), look)).pages)
        for blocks in ((drawing,) * 6, (text,) * 6, (drawing, text) * 6)
    ]
    assert pages[2] <= pages[0] + pages[1]
