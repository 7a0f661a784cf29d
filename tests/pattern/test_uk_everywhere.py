"""A design in UK terms names no stitch in US terms on any page, sheet or drawing.

Each says whose terms it uses. US only, after the Craft Yarn Council's table of terms (from memory, as in
test_terms.py): single crochet, half double crochet, their abbreviations, skip, gauge; a UK pattern has ss for
sl st and yarn over hook for yarn over.
"""

from __future__ import annotations

import base64
import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator, Mapping
from functools import cache
from itertools import islice, product
from pathlib import Path
from tempfile import TemporaryDirectory

import html5lib
import pytest

from schematics.analysis.check_report import check_document
from schematics.analysis.measurements import measurements
from schematics.analysis.workings.workings_tables import workings_document
from schematics.checks.evaluation import Result, evaluate
from schematics.design.design import Design
from schematics.document.document import Document
from schematics.document.writers import file_content
from schematics.drawing.ink.sheet import A4
from schematics.drawing.sheets import Pages, setting_of
from schematics.fitting.page.fit_page import fit_page
from schematics.pattern import figures
from schematics.pattern.pattern_files import LARGE, document_content, page_look, pattern_documents
from schematics.reading.design_file import read_design
from tests.document.pdf_reading import page_texts, tags
from tests.examples import seeds, thorough
from tests.pattern.written.lake import ONE
from tests.shipped import shipped_text
from tests.specs_for_tests import read

US_ONLY = re.compile(
    r"\b(single crochets?|half[- ]double|hdc|sc|skip(s|ped|ping)?|gauges?|sl sts?|sk|yarn over(?! hook))\b",
    re.IGNORECASE,
)
LAKE = ONE.replace("half double:", "main:").replace("body: half double", "body: main")
"""A fabric keeps the name that its designer gives it."""

NAMES = ["lake", "tidepool", *(["kelp", "sandpiper"] if thorough() else [])]


@cache
def in_uk_terms(name: str) -> tuple[Design, tuple[Result, ...]]:
    text = LAKE if name == "lake" else shipped_text(name, "6")
    with TemporaryDirectory() as folder:
        path = Path(folder) / f"{name}.yaml"
        path.write_text(text.replace("\nconstruction:", "\nterms: UK\nconstruction:", 1), "utf-8")
        design = read_design(path)
    return design, evaluate(design)


def of_svg(svg: str) -> str:
    """Title, description and words of a drawing."""
    return "\n".join(element.text or "" for element in ET.fromstring(svg).iter())


def of_page(page: str) -> Iterator[str]:
    """What is seen of a page or read aloud, its drawings' words too, but for a column that tells US names."""
    for match in re.finditer(r'(?:src|srcset)="data:image/svg\+xml;base64,([^"]+)"', page):
        yield of_svg(base64.b64decode(match[1]).decode())
    body = html5lib.parse(page, namespaceHTMLElements=False).find("body")
    assert body is not None
    for element in body.iter():
        if element.tag in ("script", "style") or element.get("data-label") == "in US terms":
            continue
        yield from (element.get(name, "") for name in ("alt", "aria-label"))
        yield from (element.text or "", element.tail or "")


def of_script(page: str) -> Iterator[str]:
    """The sentences that the page's script may show."""
    (data,) = re.findall(r'<script[^>]*type="application/json"[^>]*>(.*?)</script>', page, re.DOTALL)
    yield from re.findall(r'"((?:[^"\\]|\\.)* (?:[^"\\]|\\.)*)"', data)


@cache
def patterns(name: str) -> Mapping[str, Document]:
    return pattern_documents(*in_uk_terms(name))


def pattern_file(name: str, form: str) -> bytes:
    design, _ = in_uk_terms(name)
    return document_content(patterns(name)[form], form, page_look(design, A4, large=form == LARGE))


def sheets(design: Design, results: tuple[Result, ...]) -> Iterator[tuple[tuple[str, str | None], str]]:
    """The words of each sheet; of sizes by `make fuzz` all, else the last."""
    pages = Pages(setting_of(design, results))
    for index, (stem, size) in enumerate(pages.names):
        if thorough() or size in (None, pages.names[-1][1]):
            yield (stem, size), of_svg(pages.draw(index).svg)


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize("name", NAMES[1:])
def test_no_us_name_on_any_sheet(name: str) -> None:
    for sheet, words in sheets(*in_uk_terms(name)):
        assert US_ONLY.findall(words) == [], sheet
        assert "UK terms" in words.splitlines(), sheet


@pytest.mark.thorough
@pytest.mark.parametrize(("name", "form"), seeds([*product(NAMES, ["pdf", LARGE])], step=4))
def test_no_us_name_on_any_page_of_the_pattern(name: str, form: str) -> None:
    pdf = pattern_file(name, form)
    for text in page_texts(pdf):
        assert US_ONLY.findall(text) == []
        assert "UK terms" in text
    assert not any(US_ONLY.search(str(each["/Alt"])) for each in tags(pdf) if "/Alt" in each)


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize("name", NAMES if thorough() else NAMES[1:])
def test_no_us_name_in_the_texts(name: str) -> None:
    design, results = in_uk_terms(name)
    documents = {
        "pattern": patterns(name)["md"],
        "workings": workings_document(design, results[:1]),
        "check": check_document(design, results, show_all=True),
    }
    for what, document in documents.items():
        text = file_content(document, "md").decode()
        assert [each[0] for each in US_ONLY.finditer(text)] == [], what
        assert "UK terms" in text, what
    told = file_content(figures(design, results), "md").decode()
    ours = re.sub(r"^(\|.*\|) [^|]*\|$", r"\1", told.partition("## Abbreviations")[2], flags=re.MULTILINE)
    assert US_ONLY.findall(told.partition("## Abbreviations")[0]) == []
    assert "in UK terms" in ours


def test_no_us_name_in_what_findings_say_in_the_measurements() -> None:
    found = [each for size in measurements(*in_uk_terms("lake"))["sizes"] for each in size["findings"]]
    assert len(found) > 20
    assert [each["sentence"] for each in found if US_ONLY.search(each["sentence"])] == []


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize("name", NAMES if thorough() else NAMES[:1])
def test_no_us_name_on_the_web_pages(name: str) -> None:
    design, results = in_uk_terms(name)
    maker = fit_page(design, results)
    for page in (pattern_file(name, "html").decode(), maker):
        seen = list(of_page(page))
        assert [each for each in seen if US_ONLY.search(each)] == []
        assert any("UK terms" in each for each in seen)
    assert [each for each in of_script(maker) if US_ONLY.search(each)] == []


@pytest.mark.slow
@pytest.mark.seeds
def test_a_design_in_us_terms_says_so_too_and_would_be_found(tmp_path: Path) -> None:
    design = read(tmp_path, LAKE)
    results = evaluate(design)
    words = [words for _, words in islice(sheets(design, results), None if thorough() else 3)]
    assert all("US terms" in each.splitlines() for each in words)
    assert any(US_ONLY.search(each) for each in words)
    assert any("US terms" in each for each in of_page(fit_page(design, results)))
