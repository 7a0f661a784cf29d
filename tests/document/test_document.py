"""The document model: whatever words come to whatever block, each writer shows them as they stand."""

from __future__ import annotations

import csv
import io
import json
import math
from typing import Any

import html5lib
import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from schematics.checks.finding import Severity
from schematics.document.document import Document, Items, Quantity, Rated, Section, Table, plain
from schematics.document.writers import FORMS, written
from tests.pattern.test_writers import HOSTILE

STARTS = (
    "# a",
    "#a",
    "- a",
    "+ a",
    "* a",
    "1. a",
    "12) a",
    "a #",
    "a ##",
    "=",
    "---",
    "===",
    "> a",
    "-3.5 cm",
    ".5",
)
TEXTS = st.text(st.characters(categories=["L", "N", "P", "S"], exclude_characters="\xa0"), min_size=1)


def document(text: str) -> Document:
    """The text in every place there is: 12 of them."""
    rated = Rated(text, Severity.STOP)
    table = Table(header=(text, "b"), rows=((text, Quantity(1.5, (text, " ", rated), "cm")),), caption=text)
    inner = Section((text, ": ", rated), (text, Items((text, (rated, ".")), caption=text)))
    return Document(
        title=text,
        lead=(text,),
        sections=(Section(text, (table, inner)),),
        closing=(Section("", (text,)),),
    )


def form_of(text: str, form: str) -> str:
    return "".join(written([document(text)], form))


def read_markdown(markdown: str) -> list[str]:
    tokens = MarkdownIt("commonmark").enable("table").parse(markdown)
    kinds = {token.type for token in tokens}
    assert not kinds & {"html_block", "code_block", "fence", "blockquote_open", "ordered_list_open", "hr"}
    assert [token.type for token in tokens].count("bullet_list_open") == 1
    inlines = [token.children or [] for token in tokens if token.type == "inline"]
    spans = {child.type for children in inlines for child in children}
    assert spans <= {"text", "text_special", "strong_open", "strong_close"}
    return ["".join(child.content for child in children) for children in inlines]


def expected(text: str) -> list[str]:
    """The document from top to bottom."""
    return [text, text, text, text, text, "b", text, f"{text} {text}", f"{text}: {text}", text, text, text,
            f"{text}.", text]  # fmt: skip


@pytest.mark.parametrize("text", [*HOSTILE, *STARTS])
def test_any_words_in_any_block_are_shown_by_markdown_as_they_stand(text: str) -> None:
    assert read_markdown(form_of(text, "md")) == expected(text)


@pytest.mark.slow
@given(TEXTS)
def test_so_are_words_no_one_thought_of(text: str) -> None:
    assert read_markdown("".join(written([document(f"x{text}x")], "md"))) == expected(f"x{text}x")


@pytest.mark.parametrize("text", [*HOSTILE, *STARTS])
def test_a_page_shows_them_too(text: str) -> None:
    page: Any = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(form_of(text, "html"))
    body = page.find("body")
    body.remove(body.find("nav"))
    shown = [
        "".join(element.itertext()).strip().replace("\N{NO-BREAK SPACE}", " ")
        for element in body.iter()
        if element.tag in {"h1", "h2", "h3", "h4", "p", "li", "caption", "th", "td"}
    ]
    assert shown == expected(text)
    assert page.find("head/title").text == text
    assert not list(page.iter("script"))


@pytest.mark.parametrize("text", [*HOSTILE, *STARTS])
def test_csv_has_them_as_text_and_numbers_as_numbers(text: str) -> None:
    header, row, *sentences = csv.reader(io.StringIO(form_of(text, "csv"), newline=""), strict=True)
    assert header == ["section", header[1], "b (cm)", "sentence"]
    assert row[2] == "1.5"
    assert [line[-1].removeprefix("'") for line in sentences] == [text, text, f"{text}.", text]
    cells = [cell for line in (header, row, *sentences) for cell in line]
    assert not [cell for cell in cells if cell.lstrip().startswith(("=", "+", "-", "@"))]


def test_json_has_every_section_and_its_numbers() -> None:
    values = json.loads(form_of("a", "json"))
    assert (values["format"], values["title"]) == (1, "a")
    assert [section["heading"] for section in values["sections"]] == ["a", "a: a", ""]
    assert values["sections"][0]["tables"] == [{"caption": "a", "header": ["a", "b"], "rows": [["a", 1.5]]}]
    assert values["sections"][1]["sentences"] == ["a", "a", "a."]


def test_what_is_not_finite_is_null_and_a_small_negative_number_nought() -> None:
    rows = tuple(("a", Quantity(value, "-")) for value in (math.inf, -0.0001, 2))
    table = Table(header=("name", "number"), rows=rows)
    page = Document(title="a", sections=(Section("", (table,)),))
    values = json.loads("".join(written([page], "json")))["sections"][0]["tables"][0]["rows"]
    assert [value for _, value in values] == [None, 0, 2]
    assert [line[2] for line in csv.reader(io.StringIO("".join(written([page], "csv"))))] == [
        "number", "", "0.0", "2",
    ]  # fmt: skip


@pytest.mark.parametrize("form", ["text", "md"])
def test_what_closes_several_documents_is_said_once(form: str) -> None:
    pages = [document("first"), document("second")]
    said = "".join(written(pages, form))
    assert said.count("first") == "".join(written(pages[:1], form)).count("first") - 1
    assert said.index("first") < said.index("second")


def test_several_documents_are_a_list_in_json() -> None:
    values = json.loads("".join(written([document("first"), document("second")], "json", "designs")))
    assert [each["title"] for each in values["designs"]] == ["first", "second"]
    assert json.loads("".join(written([], "json", "designs"))) == {"designs": []}


@pytest.mark.parametrize("form", FORMS)
def test_the_same_document_gives_the_same_text(form: str) -> None:
    assert form_of("a", form) == form_of("a", form)


def test_a_form_there_is_not() -> None:
    with pytest.raises(ValueError, match="pdf"):
        list(written([document("a")], "pdf"))


def test_words_in_parts_are_one_text() -> None:
    assert plain(("Size 4: ", Rated("stop", Severity.STOP), " (1)")) == "Size 4: stop (1)"
