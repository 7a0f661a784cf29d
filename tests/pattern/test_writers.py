"""The four files: the same figures in each, read back with other libraries, and hostile names harmless."""

from __future__ import annotations

import csv
import io
import json
import re
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from markdown_it.token import Token

from schematics.checks.evaluation import evaluate
from schematics.design.cautions import CAUTIONS
from schematics.document.document import Document, Section, Table, listed_section, text_figure
from schematics.document.markdown import escape
from schematics.document.writers import FORMS, file_content, written
from schematics.pattern import figures
from tests.pattern.designs import design_of, dressed_spec
from tests.pattern.reading import read_work
from tests.shipped import shipped_design, shipped_results

HOSTILE = (
    "<script>alert(1)</script>",
    "=HYPERLINK(1)",
    "+1+1",
    "-2+3|cmd",
    "@SUM(A1)",
    "[a](javascript:alert(1))",
    "![a](http://a.test/b.png)",
    "a | b || c",
    "*a* _b_ `c` ~~d~~ $e$",
    "\"quoted\", 'too'",
    "&lt;b&gt; &amp; {{ 7*7 }} {% if %}",
    "\\| back\\slash \\",
    "[a]: b.test",
)
VOID = {"meta", "link", "br", "hr", "img", "input"}


def document(number: int = 4) -> Document:
    design = design_of(dressed_spec(number), number)
    return figures(design, evaluate(design))


def demo(name: str) -> Document:
    return figures(shipped_design(name), shipped_results(name))


def hostile(text: str) -> Document:
    """A document with the text in every place a user's own words can come to."""
    figure = text_figure(text, text, [text, text])
    table = Table(caption=text, header=(text, text), rows=((text, figure), (text, text)))
    section = listed_section(key="key", heading=text, sentences=(text,), tables=(table,), figures=(figure,))
    return Document(title=text, sections=(section,), sizes=(text, text), head={"spec": text, "stops": [text]})


def text_of(document: Document, form: str) -> str:
    return "".join(written([document], form))


def tokens(markdown: str) -> list[Token]:
    return MarkdownIt("commonmark").enable("table").enable("strikethrough").parse(markdown)


def shown(markdown: str) -> list[str]:
    """The text of every block as a reader sees it; nothing but text is allowed."""
    texts = []
    for token in tokens(markdown):
        assert token.type not in {"html_block", "code_block", "fence"}
        if token.type == "inline":
            assert {child.type for child in token.children or ()} <= {"text", "text_special"}, token.content
            texts.append("".join(child.content for child in token.children or ()))
    return texts


@pytest.mark.parametrize("name", ["tidepool", "saltmarsh", "driftwood", "first-draft"])
def test_markdown_reads_as_the_document(name: str) -> None:
    page = demo(name)
    expected = []
    for section in page.sections:
        expected += [section.heading, *section.sentences]
        for table in section.tables:
            expected += [table.caption, *table.header, *(str(cell) for row in table.rows for cell in row)]
    texts = shown(text_of(page, "md"))
    assert [text for text in texts[3:] if text] == [text for text in expected if text]
    assert texts[0] == page.title == f"{page.head['title']}: figures for the pattern"


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_words_are_shown_as_they_stand_in_markdown(text: str) -> None:
    texts = shown(text_of(hostile(text), "md"))
    assert texts.count(text) == 9
    assert texts[0] == text


@pytest.mark.slow
@given(st.text(st.characters(categories=["L", "N", "P", "S", "Zs"], exclude_characters="\xa0"), min_size=1))
def test_any_text_is_shown_as_it_stands_in_a_cell(text: str) -> None:
    line = f"| a |\n| --- |\n| x{escape(text)}x |"
    assert shown(line)[-1] == f"x{text}x"


class Page(HTMLParser):
    """Elements in order with their attributes, and the text of each; every element is closed properly."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.texts: dict[str, list[str]] = {}
        self.open: list[str] = []
        self.feed(html)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)
            self.texts.setdefault(tag, []).append("")

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if self.open:
            self.texts[self.open[-1]][-1] += data

    def attributes(self, tag: str) -> list[dict[str, str | None]]:
        return [attributes for name, attributes in self.elements if name == tag]


ALLOWED = {
    "html", "head", "meta", "title", "style", "body", "header", "nav", "main", "section", "h1", "h2", "p",
    "time", "ul", "li", "a", "table", "caption", "thead", "tbody", "tr", "th", "td",
}  # fmt: skip


@pytest.mark.parametrize("name", ["tidepool", "saltmarsh", "driftwood", "first-draft"])
def test_the_page_is_semantic_and_self_contained(name: str) -> None:
    html = text_of(demo(name), "html")
    page = Page(html)
    assert html.startswith("<!DOCTYPE html>")
    assert page.attributes("html") == [{"lang": "en-GB"}]
    assert {tag for tag, _ in page.elements} <= ALLOWED
    assert [tag for tag, _ in page.elements if tag in {"h1", "main", "header", "nav"}] == [
        "header", "h1", "nav", "main",
    ]  # fmt: skip
    ids = [attributes["id"] for _, attributes in page.elements if "id" in attributes]
    assert len(ids) == len(set(ids))
    links = [attributes["href"] for attributes in page.attributes("a")]
    assert links == [f"#{name}" for name in ids if name and not name.endswith("-heading")]
    assert all(attributes["aria-labelledby"] in ids for attributes in page.attributes("section"))
    tags = [tag for tag, _ in page.elements]
    assert tags.count("caption") == tags.count("table") == tags.count("thead")
    assert {attributes["scope"] for attributes in page.attributes("th")} == {"col", "row"}
    assert not re.search(r"https?:|url\(|@import|\bon\w+=|javascript:", html)
    assert "width=device-width" in html
    assert "@media print" in html
    for attributes in page.attributes("td"):
        assert attributes["role"] == "cell"
        assert attributes["data-label"]


def test_the_page_holds_the_documents_cells() -> None:
    document = demo("saltmarsh")
    page = Page(text_of(document, "html"))
    rows = [row for section in document.sections for table in section.tables for row in table.rows]
    cells = [text.replace("\N{NO-BREAK SPACE}", " ") for text in page.texts["td"]]
    assert cells == [str(cell) for row in rows for cell in row[1:]]
    assert page.texts["caption"] == [table.caption for each in document.sections for table in each.tables]
    sentences = [sentence for section in document.sections for sentence in section.sentences]
    assert page.texts["li"][len(document.sections) :] == sentences


def test_a_figure_says_of_which_sizes_it_is_where_a_row_is_read_by_itself() -> None:
    """Neighbours that are alike are one cell."""
    table = Table(header=("", "measurement", "2", "4", "S"), rows=(("A", "hem", "8", "8", "9"),), shared=2)
    page = Page(text_of(Document(title="Lake", sections=(Section("Sizes", (table,)),)), "html"))
    assert [each.get("data-label") for each in page.attributes("td")][1:] == [
        "measurement", "sizes 2, 4", "size S",
    ]  # fmt: skip


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_words_are_shown_as_they_stand_on_the_page(text: str) -> None:
    page = Page(text_of(hostile(text), "html"))
    assert {tag for tag, _ in page.elements} <= ALLOWED
    assert page.texts["td"] == [f"{text} ({text})", text]
    assert page.texts["h2"] == page.texts["caption"] == [text]
    assert [attributes["data-label"] for attributes in page.attributes("td")] == [text, text]


def rows_of(content: bytes) -> list[list[str]]:
    return list(csv.reader(io.StringIO(content.decode("utf-8-sig"), newline="")))


@pytest.mark.parametrize("number", range(6))
def test_csv_and_json_hold_the_same_exact_values(number: int) -> None:
    page = document(number)
    rows = rows_of(file_content(page, "csv"))
    stored: Any = json.loads(file_content(page, "json"))
    assert rows[0] == ["section", "key", "figure", "unit", *(f"size {name}" for name in stored["sizes"])]
    told = [(section["key"], each) for section in stored["sections"] for each in section["figures"]]
    assert len(rows) == len(told) + 1 > 60
    for row, (section, figure) in zip(rows[1:], told, strict=True):
        assert row[:4] == [section, figure["key"], figure["name"], figure["unit"] or ""]
        for cell, value in zip(row[4:], figure["values"], strict=True):
            assert cell == ("" if value is None else str(value))
    keys = [row[1] for row in rows[1:]]
    assert len(set(keys)) == len(keys)


def test_json_says_what_is_printed() -> None:
    stored: Any = json.loads(file_content(demo("tidepool"), "json"))
    by_key = {each["key"]: each for section in stored["sections"] for each in section["figures"]}
    hem = by_key["body.hem.cm"]
    assert hem["size_string"] == f"{hem['printed'][0]} ({', '.join(hem['printed'][1:])})"
    assert all(
        abs(float(text) - cm) <= 0.25 + 1e-9 for text, cm in zip(hem["printed"], hem["values"], strict=True)
    )
    assert stored["terms"] == "US"
    assert [each["sentence"] for each in stored["cautions"]] == [each.sentence for each in CAUTIONS]


@pytest.mark.parametrize("name", ["tidepool", "saltmarsh"])
def test_json_numbers_the_stitches_that_are_increased_in(name: str) -> None:
    """Worked in words, the increases fall in the stitches numbered."""
    stored: Any = json.loads(file_content(demo(name), "json"))
    by_key = {each["key"]: each["values"] for section in stored["sections"] for each in section["figures"]}
    keys = [key for key in by_key if re.fullmatch(r"increases\.row\.\d+", key)]
    assert len(keys) >= 10
    for key in keys:
        for words, numbers in zip(by_key[key], by_key[f"{key}.at"], strict=True):
            places, at = [], 0
            for done in read_work(words) if words else []:
                at += 1 if done is None else done
                places += [at] if done is None else []
            assert (numbers or "") == ", ".join(map(str, places))


@pytest.mark.parametrize("text", HOSTILE)
def test_no_cell_of_the_csv_begins_a_formula(text: str) -> None:
    rows = rows_of(file_content(hostile(text), "csv"))
    assert all(not cell.lstrip().startswith(("=", "+", "-", "@")) for row in rows for cell in row)
    assert rows[1][2].removeprefix("'") == text


def test_negative_numbers_stay_numbers(tmp_path: Path) -> None:
    from tests.specs_for_tests import SPEC, read

    design = read(tmp_path, SPEC.replace("from_front: 40, stitches: 20", "from_front: 80, stitches: 20"))
    rows = rows_of(file_content(figures(design, evaluate(design)), "csv"))
    (back,) = [row for row in rows if row[1] == "arm.back.count"]
    assert int(back[4]) == 176 - 2 * (80 + 20)


@pytest.mark.slow
@pytest.mark.parametrize("ending", FORMS)
def test_every_file_carries_the_cautions_and_the_sizes_that_stop(ending: str) -> None:
    page = demo("first-draft")
    content = file_content(page, ending).decode()
    assert page.head["stops"] == ["4", "8"]
    if ending == "csv":
        rows = rows_of(content.encode())
        assert [row[4] for row in rows if row[0] == "cautions"] == [each.sentence for each in CAUTIONS]
        assert [row[4:] for row in rows if row[1] == "checks.verdict"] == [["stop", "stop"]]
        return
    unescaped = " ".join(content.replace("\\", "").replace("&#39;", "'").split())
    assert all(each.sentence in unescaped for each in CAUTIONS)
    assert "cannot be made or worn as it stands" in unescaped


@pytest.mark.slow
@pytest.mark.parametrize("ending", FORMS)
def test_the_same_design_gives_the_same_bytes(ending: str) -> None:
    assert file_content(document(), ending) == file_content(document(), ending)
