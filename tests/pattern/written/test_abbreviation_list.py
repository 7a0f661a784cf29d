"""The list of abbreviations is complete and sorted, in columns on paper, and holds only what is used."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from functools import partial

import pytest

from schematics.checks.evaluation import evaluate
from schematics.crochet.stitch_list import STITCHES
from schematics.crochet.terms import Terms
from schematics.document.document import Document, Picture, Section, cell_words, plain
from schematics.pattern.published import published_pattern
from schematics.pattern.written import written_pattern
from schematics.pattern.written.abbreviations import _without_names
from schematics.pattern.written.texts import texts_of
from tests.document.pdf_reading import reader
from tests.drawing.chart_sheets import SVG
from tests.examples import covering, seeds
from tests.pattern.designs import design_of
from tests.pattern.reader.patterns import WORKED, graded, workable_spec
from tests.program import spare_pictures
from tests.shipped import shipped_pattern

COUNCIL = re.findall(
    r"\S+",
    """alt approx beg bet BL blo bo bp BP CC ch cl cont dc dec dtr ea FL flo foll fp FP hdc htr inc lp lps MC
    pat patt pc pm prev rem rep rnd rnds RS sc sk sl ss sp sps st sts t-ch tch tog tr trtr WS yo yoh""",
)
"""The Craft Yarn Council's master list of crochet abbreviations, and the UK ones: from memory, no units."""

WHOLE_WORDS = {"picot", "puff", "miss"}
KNOWN = {*COUNCIL, *(terms.abbreviation(each) for each in STITCHES for terms in Terms)} - WHOLE_WORDS
_LONGEST_FIRST = "|".join(map(re.escape, sorted(KNOWN, key=len, reverse=True)))
WORDS = re.compile(rf"(?<![\w-])(?:{_LONGEST_FIRST})s?(?![\w-])")


def list_of(document: Document) -> list[str]:
    """The short forms, those that are no signs."""
    (section,) = [each for each in document.sections if each.key == "abbreviations"]
    terms = [plain(cell_words(row[0])) for row in section.tables[0].rows]
    return [each for each in terms if not re.search(r"[\[\]×]", each)]


def text_of(document: Document) -> str:
    """All but the list itself; how special stitches are worked is in it."""
    texts: list[str] = []
    for section in document.sections:
        if section.key == "abbreviations":
            texts += [plain(cell_words(row[1])) for table in section.tables[1:] for row in table.rows]
        else:
            texts += texts_of(section)
    return "\n".join(texts)


def drawn_in(document: Document) -> str:
    """Every text of its drawings, their keys among them."""
    pictures = [
        block for each in document.all_sections for block in each.blocks if isinstance(block, Picture)
    ]
    drawings = (ET.fromstring(svg) for each in pictures for svg in (each.svg, each.narrow) if svg)
    return "\n".join(text.text or "" for svg in drawings for text in svg.iter(f"{SVG}text"))


def faults(document: Document) -> list[str]:
    listed, text = list_of(document), "\n".join((text_of(document), drawn_in(document)))
    spelt = {_plain(name) for each in listed for name in each.split(", ")}
    used = {_one(match[0]) for match in WORDS.finditer(text)}
    found = [f"{each} is not in the list" for each in sorted(used) if _plain(each) not in spelt]
    unused = [each for each in listed if not any(map(partial(_is_in, text), each.split(", ")))]
    found += [f"{each} is never used" for each in unused]
    if listed != sorted(listed, key=str.casefold):
        found.append(f"{listed} are not in order")
    return found


def _is_in(text: str, name: str) -> bool:
    return re.search(rf"(?<![\w-]){re.escape(name)}s?(?![\w-])", text, re.IGNORECASE) is not None


def _one(name: str) -> str:
    """Without its plural."""
    return name.removesuffix("s") if name.removesuffix("s") in KNOWN else name


def _plain(name: str) -> str:
    """As it is spelt within a sentence."""
    return name if name[:2] in ("FP", "BP") else name.casefold()


@pytest.mark.slow
@pytest.mark.parametrize(("name", "terms"), covering(WORKED, [*Terms]))
def test_the_list_of_a_demo(name: str, terms: Terms) -> None:
    design = graded(name).design
    assert faults(written_pattern(design, evaluate(design), terms)) == []


@pytest.mark.slow
@pytest.mark.parametrize(("name", "terms"), covering(WORKED, [*Terms]))
def test_the_list_of_a_demo_with_its_drawings(
    name: str, terms: Terms, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A chart's key calls a stitch what the rows call it, in the same terms; other drawings have no key."""
    spare_pictures(monkeypatch)
    design = replace(graded(name).design, terms=terms)
    document = published_pattern(design, evaluate(design))
    assert faults(document) == []
    keys = [line.removeprefix("RS: ").removeprefix("WS: ") for line in _keys(document)]
    special = {plain(cell_words(row[0])) for row in _abbreviations(document).tables[-1].rows}
    long = [key for key in keys if "rows below" in key and not key.startswith(("FP", "BP"))]
    assert set(long) <= special


def _abbreviations(document: Document) -> Section:
    (section,) = [each for each in document.sections if each.key == "abbreviations"]
    return section


def _keys(document: Document) -> list[str]:
    """The names in the keys of the charts."""
    pictures = [
        block for each in document.all_sections for block in each.blocks if isinstance(block, Picture)
    ]
    keys = [ET.fromstring(each.svg) for each in pictures if each.shows.startswith("Key of")]
    bold = [text for key in keys for text in key.iter(f"{SVG}text") if text.get("font-weight") == "bold"]
    return [text.text or "" for text in bold]


@pytest.mark.slow
@pytest.mark.parametrize("number", seeds(range(40)))
def test_the_list_of_a_random_design(number: int) -> None:
    design = design_of(workable_spec(number), number)
    assert faults(written_pattern(design, evaluate(design), Terms.UK if number % 3 else Terms.US)) == []


@pytest.mark.slow
def test_it_stands_in_two_columns_on_paper() -> None:
    """The heads of both columns are equally high on the page, half a page apart."""
    pages = reader(shipped_pattern("tidepool", "pdf")).pages
    page = next(each for each in pages if "\nAbbreviations" in each.extract_text())
    heads: list[tuple[float, float]] = []

    def note(text: str, cm: list[float], tm: list[float], _font: object, _size: float) -> None:
        if text.strip() == "meaning":
            x, y = tm[4:6]
            heads.append((x * cm[0] + y * cm[2] + cm[4], x * cm[1] + y * cm[3] + cm[5]))

    page.extract_text(visitor_text=note)
    assert len(heads) == 2
    assert heads[0][1] == pytest.approx(heads[1][1], abs=0.1)
    assert heads[1][0] - heads[0][0] > 200


def test_a_child_called_as_a_stitch_is_brings_no_stitch_into_the_list() -> None:
    """Bo is no bobble and Dc no double crochet; the stitches are there where they are worked."""
    text = "One size: Bo.\nSize Bo: ch 3, 2 dc in next st."
    assert _without_names(text, ["Bo", "S", "4"]) == "One size: .\nSize : ch 3, 2 dc in next st."
    assert "2 dc in next st" in _without_names(text, ["Dc"])
