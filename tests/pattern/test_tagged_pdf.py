"""The patterns of demos as PDF, walked with pypdf: what PDF/UA-1 and PDF/A-2a ask that can be counted.

Clauses are those of ISO 14289-1 and ISO 19005-2, from memory.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import pytest
from pypdf import PageObject
from pypdf.generic import ContentStream

from schematics.checks.evaluation import evaluate
from schematics.document.document import Picture, Section, plain
from schematics.pattern.pattern_files import pattern_document
from tests.document.pdf_reading import bare, bookmarks, page_texts, reader, root, tags
from tests.pattern.written.lake import ONE
from tests.shipped import demos, shipped_pattern, shipped_patterns
from tests.specs_for_tests import read

EACH = pytest.mark.parametrize("name", demos("driftwood"))
LONGEST = pytest.mark.parametrize("name", demos("driftwood"))
"""The pattern of most pages."""
_PAINTING = ("Tj", "TJ", "'", '"', "f", "F", "f*", "S", "s", "B", "B*", "b", "b*", "sh", "Do", "EI")
SHOWING = {each.encode() for each in _PAINTING}
"""Operators that put ink on the page (ISO 32000-1, 8.2)."""

pytestmark = pytest.mark.slow


def pattern(name: str) -> tuple[bytes, tuple[Section, ...]]:
    return shipped_pattern(name, "pdf"), tuple(shipped_patterns(name)["pdf"].all_sections)


@EACH
def test_it_says_that_it_is_of_both_standards_in_which_language_and_what_it_is_called(name: str) -> None:
    """ISO 14289-1, 5, 7.1 and 7.2; ISO 19005-2, 6.2.3 and 6.6.4."""
    said = root(pattern(name)[0])
    assert said["/MarkInfo"]["/Marked"].value is True
    assert said["/Lang"] == "en-GB"
    assert said["/ViewerPreferences"]["/DisplayDocTitle"].value is True
    assert [each["/S"] for each in said["/OutputIntents"]] == ["/GTS_PDFA1"]
    facts = {each.tag: each.text for each in ET.fromstring(said["/Metadata"].get_data()).iter()}
    assert facts["{http://www.aiim.org/pdfua/ns/id/}part"] == "1"
    assert facts["{http://www.aiim.org/pdfa/ns/id/}part"] == "2"
    assert facts["{http://www.aiim.org/pdfa/ns/id/}conformance"] == "A"
    assert not {"/AA", "/OpenAction", "/AcroForm", "/AF"} & said.keys()
    assert not reader(pattern(name)[0]).is_encrypted


def marked(page: PageObject) -> tuple[list[int], int]:
    """The numbers of the page's tagged content, and how many operators put ink outside of any."""
    contents = page.get_contents()
    numbers: list[int] = []
    open_marks: list[bool] = []
    bare_ink = 0
    assert isinstance(contents, ContentStream)
    for operands, operator in contents.operations:
        if operator in (b"BDC", b"BMC"):
            facts: Any = operands[1] if operator == b"BDC" else {}
            if isinstance(facts, str):
                facts = page["/Resources"]["/Properties"][facts]  # type: ignore[index]
            if "/MCID" in facts:
                numbers.append(int(facts["/MCID"]))
            open_marks.append(operands[0] == "/Artifact" or "/MCID" in facts)
        elif operator == b"EMC":
            open_marks.pop()
        elif operator in SHOWING and not any(open_marks):
            bare_ink += 1
    return numbers, bare_ink


def told_of(node: Any, page: Any = None) -> Iterator[tuple[int, int]]:
    """Page and number of all content that the tree of tags holds."""
    node = node.get_object() if hasattr(node, "get_object") else node
    if isinstance(node, list):
        for each in node:
            yield from told_of(each, page)
    elif isinstance(node, int):
        yield page, int(node)
    elif isinstance(node, dict):
        page = node.raw_get("/Pg").idnum if "/Pg" in node else page  # type: ignore[attr-defined]
        if "/MCID" in node:
            yield page, int(node["/MCID"])
        elif node.get("/Type") != "/OBJR":
            yield from told_of(node.get("/K", []), page)


@LONGEST
def test_all_ink_is_tagged_or_told_to_be_none_and_every_tag_holds_its_own(name: str) -> None:
    """ISO 14289-1, 7.1: content is an artifact or in the tree of tags, once."""
    pdf = pattern(name)[0]
    there: list[tuple[int, int]] = []
    for page in reader(pdf).pages:
        numbers, bare_ink = marked(page)
        assert bare_ink == 0
        assert str(page["/Tabs"]) == "/S"
        assert page.indirect_reference is not None
        there += [(page.indirect_reference.idnum, number) for number in numbers]
    assert len(there) == len(set(there)) > 100
    assert Counter(told_of(root(pdf)["/StructTreeRoot"]["/K"])) == Counter(there)


@EACH
def test_every_figure_is_told_in_words(name: str) -> None:
    """ISO 14289-1, 7.3: each picture of the pattern, in its own words."""
    pdf, sections = pattern(name)
    told = Counter(str(each["/Alt"]) for each in tags(pdf) if each["/S"] == "/Figure")
    shown = Counter(
        block.shows for section in sections for block in section.blocks if isinstance(block, Picture)
    )
    assert shown
    assert all(told[words] == count for words, count in shown.items())
    assert all(words.strip() for words in told)


@EACH
def test_headings_are_in_order_and_are_the_bookmarks(name: str) -> None:
    """ISO 14289-1, 7.4.2: none of a level below the next one above it."""
    pdf, sections = pattern(name)
    levels = [int(each["/S"][2:]) for each in tags(pdf) if re.fullmatch(r"/H[1-6]", str(each["/S"]))]
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))
    assert [each["/S"] for each in tags(pdf)].count("/Title") == 1

    def flat(marks: list[Any]) -> Iterator[str]:
        for each in marks:
            yield from flat(each) if isinstance(each, list) else (each,)

    named = list(flat(bookmarks(reader(pdf).outline)))
    assert len(named) == len(levels)
    assert {plain(section.heading) for section in sections if section.heading} <= {*named}


@LONGEST
def test_a_bookmark_leads_to_the_page_of_its_heading(name: str) -> None:
    pdf = reader(pattern(name)[0])
    pages = [bare(text) for text in page_texts(pattern(name)[0])]
    for each in pdf.outline:
        if not isinstance(each, list):
            number = pdf.get_destination_page_number(each)
            assert number is not None
            assert bare(str(each.title)) in pages[number]


@EACH
def test_tables_have_headers_and_lists_their_items(name: str) -> None:
    """ISO 14289-1, 7.5 and 7.6: headers say what they are over."""
    within = {"/TR": {"/TH", "/TD"}, "/L": {"/LI"}, "/LI": {"/Lbl", "/LBody"}}
    for each in tags(pattern(name)[0]):
        children = each.get("/K", [])
        kinds = {
            str(child.get_object()["/S"])
            for child in (children if isinstance(children, list) else [children])
            if isinstance(child.get_object(), dict) and "/S" in child.get_object()
        }
        if allowed := within.get(str(each["/S"])):
            assert kinds <= allowed
        if each["/S"] == "/Table":
            assert "/TH" in {str(tag["/S"]) for tag in _below(each)}


def _below(node: Any) -> Iterator[Any]:
    children = node.get("/K", [])
    for child in children if isinstance(children, list) else [children]:
        element = child.get_object()
        if isinstance(element, dict) and "/S" in element:
            yield element
            yield from _below(element)


@LONGEST
def test_every_font_is_within_it_and_can_be_read_back(name: str) -> None:
    """ISO 14289-1, 7.21.4.1 and 7.21.7; fonts of drawings too."""
    fonts = list(_fonts(reader(pattern(name)[0]).pages))
    assert fonts
    for font in fonts:
        assert "/ToUnicode" in font
        (letters,) = font["/DescendantFonts"]
        assert {"/FontFile2", "/FontFile3"} & letters.get_object()["/FontDescriptor"].keys()


def _fonts(holders: Any) -> Iterator[Any]:
    for holder in holders:
        resources = holder.get("/Resources")
        if resources is None:
            continue
        resources = resources.get_object()
        yield from (each.get_object() for each in resources.get("/Font", {}).values())
        forms = (each.get_object() for each in resources.get("/XObject", {}).values())
        yield from _fonts(form for form in forms if form.get("/Subtype") == "/Form")


@pytest.mark.thorough
def test_the_same_pattern_is_the_same_document(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Its pictures, drawn anew, too. The same document is the same bytes: `tests.document.test_typeset`."""
    monkeypatch.undo()
    design = read(tmp_path, ONE)
    first, again = (pattern_document(design, evaluate(design), "pdf") for _ in range(2))
    assert any(isinstance(block, Picture) for each in first.all_sections for block in each.blocks)
    assert first == again


@LONGEST
def test_no_page_but_the_last_ends_half_empty(name: str) -> None:
    """The lowest letters above the foot stand in the lower third, those of charts counted."""
    for page in list(reader(pattern(name)[0]).pages)[:-1]:
        heights: list[float] = []

        def see(
            text: str, cm: list[float], tm: list[float], *_: object, heights: list[float] = heights
        ) -> None:
            if text.strip():
                heights.append(tm[4] * cm[1] + tm[5] * cm[3] + cm[5])

        page.extract_text(visitor_text=see)
        above_foot = [height for height in heights if height > 18 * 72 / 25.4]
        assert min(above_foot) < float(page.mediabox.height) / 3
