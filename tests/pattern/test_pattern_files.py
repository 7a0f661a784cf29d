"""The pattern as files: every word in its PDF, in order; the same in each form; nothing of the designer's."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterator
from dataclasses import replace
from itertools import product
from pathlib import Path
from typing import NamedTuple

import docx
import html5lib
import pytest

from schematics.checks import EXPLANATIONS
from schematics.checks.evaluation import evaluate
from schematics.design.design import Design
from schematics.document.document import Document, Picture, Row, Section, Table, plain
from schematics.document.page_look import PageLook
from schematics.drawing.ink.sheet import A4, LETTER, Paper
from schematics.pattern.pattern_files import document_content, page_look, pattern_document
from tests.document.pdf_reading import bare, page_texts, reader, shown, tags
from tests.examples import covering, seeds
from tests.pattern.written.lake import FOLDED, ONE, PATTERN, THREE
from tests.program import call, files_in, spare_drawings, spare_pictures
from tests.shipped import demo_names, shipped_design, shipped_pattern, shipped_patterns, shipped_results
from tests.specs_for_tests import SPEC, read, write

TWO = SPEC + PATTERN
"""Two sizes that nothing stops."""


class Lake(NamedTuple):
    """The pattern of `THREE` on letter paper."""

    design: Design
    document: Document
    look: PageLook
    pdf: bytes


@pytest.fixture(scope="module")
def lake(tmp_path_factory: pytest.TempPathFactory) -> Lake:
    design = read(tmp_path_factory.mktemp("lake"), THREE)
    document, look = pattern_document(design, evaluate(design), "pdf"), page_look(design, LETTER)
    return Lake(design, document, look, document_content(document, "pdf", look))


def texts(section: Section) -> Iterator[str]:
    """Every text of a section in the order of its reading."""
    yield plain(section.heading)
    for block in section.blocks:
        if isinstance(block, Section):
            yield from texts(block)
        elif isinstance(block, Table):
            for table in block.by_size():
                yield table.caption
                yield from (plain(words) for row in table.rows for _, words, _ in table.cells(row))
        elif isinstance(block, Row):
            yield block.text
        elif not isinstance(block, Picture):
            yield from map(plain, Section("", (block,)).sentences)


def out_of_order(document: Document, pdf: bytes, foot: str) -> list[str]:
    """The texts of a document that do not stand in its PDF after those before; a plate may stand anywhere."""
    all_of_it, at, missing = shown(pdf, foot), 0, []
    for section in document.sections:
        for text in map(bare, texts(section)):
            found = all_of_it.find(text, 0 if section.key == "schematic" else at)
            if found < 0:
                missing.append(text)
            elif section.key != "schematic":
                at = found + len(text)
    return missing


@pytest.mark.slow
@pytest.mark.parametrize("text", seeds([FOLDED, THREE], step=2))
def test_every_word_of_the_pattern_is_in_its_pdf_in_order(tmp_path: Path, text: str) -> None:
    design = read(tmp_path, text)
    document, look = pattern_document(design, evaluate(design), "pdf"), page_look(design, A4)
    # The schematic may stand before or after its place, and breaks no row: nothing else moves.
    assert out_of_order(document, document_content(document, "pdf", look), look.foot) == []


@pytest.mark.slow
def test_steps_and_schematic_are_told_in_words(lake: Lake) -> None:
    """Nine steps: the panel, how edges are held, two seams, two runs marked, three bands."""
    told = [each["/Alt"] for each in tags(lake.pdf) if each["/S"] == "/Figure"]
    *steps, schematic = told
    named = ("panel", "edges", "A", "B", "right", "left", "neck", "right", "left")
    for step, words in zip(steps, named, strict=True):
        assert re.search(rf"\b{words}\b", step)
    for words in ("body, centre panel, neck band and arm band", "C body neck edge", "P arm band depth"):
        assert words in schematic


@pytest.mark.slow
def test_every_page_says_which_terms_are_asked_for(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Those of the design itself are in the foot of each page, which `shown` holds."""
    spare_pictures(monkeypatch)
    output = tmp_path / "lake.pdf"
    result = call("pattern", write(tmp_path, ONE), "--terms", "UK", "-o", output)
    assert (result.exit_code, result.stdout, result.stderr) == (0, "", "")
    for text in page_texts(output.read_bytes()):
        assert "Lake poncho · UK terms" in text


@pytest.mark.slow
def test_all_forms_say_the_same(lake: Lake) -> None:
    document, look = lake.document, lake.look
    word, page = (document_content(document, form, look) for form in ("docx", "html"))
    sides = [float(each) for each in reader(lake.pdf).pages[0].mediabox[2:]]
    assert sides == pytest.approx([612, 792], abs=0.01)
    paragraphs = [bare(each.text) for each in docx.Document(io.BytesIO(word)).paragraphs]
    body = html5lib.parse(page.decode(), namespaceHTMLElements=False).find("body")
    assert body is not None
    web, paged = bare("".join(body.itertext())), shown(lake.pdf, look.foot)
    rows = [block for each in document.all_sections for block in each.blocks if isinstance(block, Row)]
    assert len(rows) > 20
    for row in rows:
        assert bare(row.text) in paragraphs
        assert bare(row.text) in web
        assert bare(row.text) in paged


@pytest.mark.slow
def test_the_page_has_a_language_a_title_and_words_for_its_drawings(lake: Lake) -> None:
    document = pattern_document(lake.design, evaluate(lake.design), "html")
    page = document_content(document, "html", lake.look)
    tree = html5lib.parse(page.decode(), namespaceHTMLElements=False)
    assert tree.get("lang") == "en-GB"
    assert tree.findtext("head/title") == "Lake poncho"
    images = list(tree.iter("img"))
    assert [each.get("alt", "").startswith("The pieces laid flat") for each in images] == [*[False] * 9, True]
    assert all(len(each.get("alt", "")) > 60 for each in images)
    assert all(each.get("src", "").startswith("data:image/svg+xml;base64,") for each in images)


def read_out(form: str, content: bytes) -> str:
    """All a customer can find in a file, its facts and alternative texts included."""
    if form == "docx":
        with zipfile.ZipFile(io.BytesIO(content)) as parts:
            names = ("word/document.xml", "docProps/core.xml", "word/footer1.xml")
            return "".join(parts.read(name).decode() for name in names)
    if form == "pdf":
        told = [str(each["/Alt"]) for each in tags(content) if "/Alt" in each]
        return "\n".join([*page_texts(content), *told, str(reader(content).metadata)])
    return re.sub(r"base64,[\w+/=]+", "", content.decode())


OF_THE_DESIGNER = re.compile(
    r"\bschematics\b|\.ya?ml|\.(?:svg|png|pdf|json|csv|md)\b|all good|\bspecs/|--\w|(?:child|woman|man)/\w"
    r"|common practice",
    re.IGNORECASE,
)


@pytest.mark.thorough
@pytest.mark.parametrize(("name", "form"), covering(demo_names("tidepool"), ("pdf", "html", "docx", "md")))
def test_a_customer_sees_nothing_of_the_designers(name: str, form: str) -> None:
    codes = re.compile(rf"\b(?:{'|'.join(map(re.escape, EXPLANATIONS))})\b")
    text = read_out(form, shipped_pattern(name, form, A4))
    assert "poncho" in text
    assert OF_THE_DESIGNER.findall(text) == []
    assert codes.findall(text) == []


@pytest.mark.slow
@pytest.mark.parametrize(("name", "paper"), seeds([*product(("tidepool", "driftwood"), (A4, LETTER))]))
def test_every_word_of_a_demo_is_in_its_pdf_in_order(name: str, paper: Paper) -> None:
    foot = page_look(shipped_design(name), paper).foot
    assert out_of_order(shipped_patterns(name)["pdf"], shipped_pattern(name, "pdf", paper), foot) == []


@pytest.mark.slow
@pytest.mark.parametrize("name", seeds(["tidepool", "saltmarsh", "kelp"]))
def test_nine_sizes_of_a_design_take_six_pages_of_text(name: str) -> None:
    """Two sizes more than the demo has, alike but for their names; charts and schematic left out."""
    design = shipped_design(name)
    sizes = [replace(size, name=f"{size.name} long") for size in design.sizes[-2:]]
    design = replace(design, sizes=(*design.sizes, *sizes))
    document = pattern_document(design, evaluate(design), "md")
    assert len(reader(document_content(document, "pdf", page_look(design, A4))).pages) <= 6


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (("--format", "pdf"), "--format pdf goes to a file; name it, such as -o pattern.pdf\n"),
        (("--format", "docx"), "--format docx goes to a file; name it, such as -o pattern.docx\n"),
        (("--format", "docx", "--large", "-o", "a.docx"), "--large is for --format pdf\n"),
        (("--large", "-o", "a.docx"), "--large is for --format pdf\n"),
        (
            ("--format", "pdf", "-o", "a.docx"),
            "--format pdf does not go into a file that ends in .docx; leave out one of them\n",
        ),
        (
            ("--json", "-o", "a.MD"),
            "--json does not go into a file that ends in .MD; leave out one of them\n",
        ),
    ],
)
def test_what_cannot_be_written(tmp_path: Path, arguments: tuple[str, ...], message: str) -> None:
    result = call("pattern", write(tmp_path, TWO), *arguments)
    assert (result.exit_code, result.stdout, result.stderr) == (2, "", message)


@pytest.mark.slow
@pytest.mark.parametrize(
    ("name", "opening"),
    [("a.docx", b"PK"), ("a.HTML", b"<!DOCTYPE html>"), ("a.md", b"# "), ("a", b"# ")],
)
def test_a_files_ending_names_its_form(tmp_path: Path, name: str, opening: bytes) -> None:
    """Nobody finds Markdown in a file that is called a PDF."""
    assert call("pattern", write(tmp_path, ONE), "-o", tmp_path / name).exit_code == 0
    assert (tmp_path / name).read_bytes().startswith(opening)


@pytest.mark.slow
def test_rows_above_a_repeat_that_is_drawn_once_are_told_to_have_other_numbers(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Row 7 of tidepool's chart is worked as Row 27 of size 2; saltmarsh's chart ends with its repeat."""
    spare_pictures(monkeypatch)
    for name, told in (("tidepool", True), ("saltmarsh", False)):
        document = pattern_document(shipped_design(name), shipped_results(name), "pdf")
        words = " ".join(each for section in document.sections for each in texts(section))
        assert "Read from the bottom up" in words
        assert ("have other numbers here than in the written rows" in words) is told
        assert not re.search(r"where it ends\. (US|UK) terms", words)


def test_one_file_takes_one_pattern(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    specs = [write(tmp_path, TWO), write(tmp_path, THREE, "other.yaml")]
    result = call("pattern", *specs, "-o", "a.md")
    assert (result.exit_code, result.stderr) == (
        2, "-o takes one pattern, and there are 2 specs; name one of them\n",
    )  # fmt: skip
    assert not Path("a.md").exists()


def test_an_unknown_size_writes_nothing(tmp_path: Path) -> None:
    output = tmp_path / "a.pdf"
    result = call("pattern", write(tmp_path, TWO), "--size", "9", "--format", "pdf", "-o", output)
    assert result.exit_code == 2
    assert "no size '9'; the sizes are 4, 6 years" in result.stderr
    assert not output.exists()


@pytest.mark.slow
def test_a_file_of_somebody_else_is_never_written_over(tmp_path: Path) -> None:
    output = tmp_path / "a.pdf"
    output.write_text("my notes", "utf-8")
    result = call("pattern", write(tmp_path, TWO), "--format", "pdf", "-o", output)
    assert result.exit_code == 2
    assert "the file there is not one that the program drew" in result.stderr
    assert output.read_text("utf-8") == "my notes"


@pytest.mark.slow
@pytest.mark.parametrize("form", ["md", "json", "csv"])
def test_a_file_has_what_is_printed_and_is_written_over(tmp_path: Path, form: str) -> None:
    spec, output = write(tmp_path, TWO), tmp_path / "out"
    for _ in range(2):
        assert call("pattern", spec, "--format", form, "-o", output).exit_code == 0
    if form != "json":  # printed, that of one design is in a list of designs
        assert output.read_text("utf-8-sig") == call("pattern", spec, "--format", form).stdout


@pytest.mark.slow
def test_build_writes_the_pattern_in_every_form(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    spare_drawings(monkeypatch)
    assert call("build", write(tmp_path, ONE), "--jobs", "1").exit_code == 0
    written = [name for name in files_in(tmp_path / "output" / "lake") if name.startswith("pattern")]
    paged = ["pattern-large.pdf", "pattern-letter.pdf", "pattern.docx"]
    assert written == [*paged, "pattern.html", "pattern.md", "pattern.pdf"]
    assert call("build", write(tmp_path, ONE), "--jobs", "1").stdout.endswith(", as it was\n")
