"""What a build makes for customers, of every demo: no code, command, file, key or praise of the program's."""

from __future__ import annotations

import base64
import io
import re
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from xml.etree import ElementTree as ET

import docx
import html5lib
import pytest
from docx.document import Document as WordDocument

from schematics.analysis.json_keys import KEYS
from schematics.batch import work
from schematics.batch.source import spec_source
from schematics.checks import EXPLANATIONS
from schematics.cli import main
from schematics.wearer.rows import references
from tests.document.pdf_reading import bookmarks, reader, root, tags
from tests.examples import covering, thorough
from tests.fitting.page.browser import MISSING, PROGRAM, Browser
from tests.shipped import demo_names, demos, shipped_text

SPECS = Path(__file__).parents[2] / "specs"

_LAST = {key.rpartition(".")[2].strip("[]*") for keys in KEYS.values() for key in keys}
_UNDERSCORED = {key for key in _LAST if "_" in key}

OF_THE_DESIGNER = {
    "a finding's code": re.compile(rf"\b(?:{'|'.join(map(re.escape, EXPLANATIONS))})\b"),
    "a command": re.compile(rf"\bschematics (?:{'|'.join(main.commands)}|\d)|\bschematics\b(?= [a-z]+ \S+/)"),
    "an option": re.compile(r"(?<![\w-])--[a-z]"),
    "a file": re.compile(r"\w\.(?:ya?ml|json|csv|svg|png|pdf|docx|md|html|py)\b", re.IGNORECASE),
    "a path": re.compile(r"\bspecs/|\boutput/|(?<!\w)/(?:tmp|home|root|work|usr)/"),
    "a chart row's key": re.compile(rf"\b(?:{'|'.join(map(re.escape, references()))})\b|\bchart row \w+/"),
    "a key of the JSON": re.compile(rf"\b(?:{'|'.join(sorted(_UNDERSCORED))})\b"),
    "praise": re.compile(r"all good|every check|no findings", re.IGNORECASE),
    "a source of the checks": re.compile(r"common practice|no source", re.IGNORECASE),
}


PLACES = (*work.pattern_places("a4"), work.PAGE)
"""Every customer's file; the PDF on the other paper is one of them."""

READ = PLACES if thorough() else [each for each in PLACES if not each.endswith(("-letter.pdf", "-large.pdf"))]
"""The PDFs on the other paper and in large print say what the first says."""


@cache
def plan_of(name: str) -> work.Plan:
    """What a build of a demo is to make; but by `make fuzz` of its two middle sizes."""
    with TemporaryDirectory() as folder:
        few = Path(folder, f"{name}.yaml")
        few.write_text(shipped_text(name, "4", "8"), "utf-8")
        plan = work.plan(spec_source(SPECS / few.name if thorough() else few), "a4", None)
    assert isinstance(plan, work.Plan)
    return plan


@cache
def files_of(name: str) -> Mapping[str, bytes]:
    """A demo's files for customers that are read, as a build makes them."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(work, "pattern_places", lambda paper: [each for each in READ if each != work.PAGE])
        return work.pattern(plan_of(name).work) | work.maker_page(plan_of(name).work)


def pdf_text(content: bytes) -> Iterator[str]:
    pdf = reader(content)
    yield from (page.extract_text() for page in pdf.pages)
    yield from (str(each[key]) for each in tags(content) for key in ("/Alt", "/ActualText") if key in each)
    yield str(bookmarks(pdf.outline))
    yield from map(str, (pdf.metadata or {}).values())
    packet = ET.fromstring(root(content)["/Metadata"].get_data())
    yield from (each.text for each in packet.iter() if each.text)


def docx_text(content: bytes) -> Iterator[str]:
    word: WordDocument = docx.Document(io.BytesIO(content))
    yield from (each.text for each in word.paragraphs)
    yield from (cell.text for table in word.tables for row in table.rows for cell in row.cells)
    yield from (each.text for part in word.sections for each in part.footer.paragraphs)
    yield from (shape._inline.docPr.get("descr") or "" for shape in word.inline_shapes)
    yield from (shape._inline.docPr.get("name") or "" for shape in word.inline_shapes)
    facts = word.core_properties
    yield from (facts.title, facts.author, facts.subject, facts.keywords, facts.comments, facts.category)


def html_text(content: bytes) -> Iterator[str]:
    """All that is shown or read aloud: no script, no style, but the texts of drawings within the page."""
    for each in html5lib.parse(content.decode(), namespaceHTMLElements=False).iter():
        if each.tag in ("script", "style") or not isinstance(each.tag, str):
            yield each.tail or ""
            continue
        yield from (each.text or "", each.tail or "")
        yield from (each.get(key, "") for key in ("alt", "title", "aria-label", "placeholder"))
        if each.tag == "meta":
            yield each.get("content", "") if each.get("name") else ""
        if drawing := re.match(r"data:image/svg\+xml;base64,(.*)", each.get("src", "")):
            yield from filter(None, ET.fromstring(base64.b64decode(drawing[1])).itertext())


def text_of(place: str, content: bytes) -> str:
    if place.endswith(".pdf"):
        return "\n".join(pdf_text(content))
    if place.endswith(".docx"):
        return "\n".join(docx_text(content))
    return "\n".join(html_text(content)) if place.endswith(".html") else content.decode()


def found(text: str) -> dict[str, list[str]]:
    return {what: said for what, each in OF_THE_DESIGNER.items() if (said := each.findall(text))}


@pytest.mark.slow
@pytest.mark.parametrize(("name", "place"), covering(demo_names("first-draft"), READ))
def test_no_customer_meets_anything_of_the_designers(name: str, place: str) -> None:
    text = text_of(place, files_of(name)[place])
    assert "poncho" in text
    assert found(text) == {}


@pytest.mark.thorough
def test_those_are_the_files_of_a_build() -> None:
    assert set(files_of("first-draft")) == set(PLACES)


@pytest.mark.slow
@pytest.mark.parametrize("name", demos("first-draft"))
def test_nor_on_templates(name: str) -> None:
    plan = plan_of(name)
    content = work.templates(plan.work, plan.sizes[0].name)
    assert isinstance(content, bytes)
    pdf = reader(content)
    texts = [page.extract_text() for page in pdf.pages]
    told = [*map(str, bookmarks(pdf.outline)), *map(str, (pdf.metadata or {}).values())]
    text = "\n".join([*texts, *told])
    assert "for blocking" in text
    assert found(text) == {}


@pytest.mark.slow
@pytest.mark.skipif(PROGRAM is None, reason=MISSING)
def test_nor_on_the_page_with_everything_opened(browser: Browser, tmp_path: Path) -> None:
    path = tmp_path / "fit.html"
    path.write_bytes(files_of("first-draft")[work.PAGE])
    tab = browser.open(path, width=800)
    tab.run("document.querySelectorAll('details').forEach(each => each.open = true)")
    text = tab.run("document.body.innerText")
    tab.close()
    assert "From the back" in text
    assert found(text) == {}


@pytest.mark.parametrize(
    ("what", "text"),
    [
        ("a finding's code", "see NECK-PASS"),
        ("a command", "schematics check says why"),
        ("an option", "give --size 6"),
        ("a file", "from tidepool.yaml"),
        ("a path", "in /tmp/x"),
        ("a chart row's key", "for child/4"),
        ("a key of the JSON", "its cm_printed"),
        ("praise", "Size 4: all good"),
        ("a source of the checks", "(common practice)"),
    ],
)
def test_each_is_found_where_it_is(what: str, text: str) -> None:
    assert list(found(text)) == [what]
    assert found("Schematic charts, see the finished measurements; child, size 4 -- and on.") == {}
