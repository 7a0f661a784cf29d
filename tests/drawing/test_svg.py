"""The SVG writer on its own: numbers, awkward words and names."""

from __future__ import annotations

import math
import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.drawing.ink.marks import Area, Circle, Group, Line, Pen, Text
from schematics.drawing.ink.sheet import A4, Sheet
from schematics.drawing.ink.svg import number, to_svg
from tests.drawing.audit_svg import svg_faults
from tests.examples import examples

LETTERS = st.characters(exclude_categories=("Cs", "Cn"))
_SVG = "{http://www.w3.org/2000/svg}"


def _sheet(words: str = "hem", name: str = "one") -> Sheet:
    marks = (
        Line(((10.0, 20.0), (30.00049, 1e-9)), Pen.THIN),
        Area(((1.0, 2.0), (3.0, 4.0), (-0.0001, 6.0)), Pen.OUTLINE),
        Circle((50.0, 60.0), 2.5),
        Text((70.0, 80.0), words, anchor="middle", angle=-90),
    )
    return Sheet(
        paper=A4,
        scale=10,
        title=f"A title: {words}",
        description=f"Described: {words}",
        groups=(Group("note", name, marks), Group("note", name, marks[:2])),
    )


@examples(100)
@given(st.floats(-1e6, 1e6))
def test_numbers_have_at_most_three_decimals_and_no_needless_ones(value: float) -> None:
    text = number(value)
    assert float(text) == pytest.approx(value, abs=5.1e-4)
    assert text == "0" or text.lstrip("-") == repr(abs(round(value, 3))).removesuffix(".0")
    assert "e" not in text


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_a_drawing_refuses_what_is_no_number(value: float) -> None:
    with pytest.raises(ValueError, match="cannot hold"):
        number(value)


@pytest.mark.slow
@examples(100)
@given(st.text(LETTERS, min_size=1, max_size=40), st.text(LETTERS, max_size=20))
def test_any_words_make_a_document_that_reads_back(words: str, name: str) -> None:
    """Whatever Unicode: markup in titles, control characters, group names that collide."""
    svg = to_svg(_sheet(words, name))
    assert svg_faults(svg) == []
    root = ET.fromstring(svg)
    expected = "".join(char for char in words if char in "\t\n" or _in_xml(char)).replace("\r", "\n")
    assert root.findtext(f"{_SVG}title") == f"A title: {expected}"
    assert [element.text or "" for element in root.iter(f"{_SVG}text")] == [expected]


def _in_xml(char: str) -> bool:
    """Char of XML 1.0, less the surrogates and the carriage return, which parsers turn into a line feed."""
    return "\x20" <= char <= "\ud7ff" or "\ue000" <= char <= "\ufffd" or char >= "\U00010000"


def test_groups_of_one_name_get_ids_of_their_own() -> None:
    root = ET.fromstring(to_svg(_sheet(name="arm.from_front")))
    ids = [element.attrib["id"] for element in root.iter() if "id" in element.attrib]
    assert ids == ["dimensions", "note-arm.from-front", "note-arm.from-front-2"]


@pytest.mark.parametrize(
    ("kind", "layer"),
    [("outline", "outline"), ("dimension", "dimensions"), ("steps", "words"), ("title", "page")],
)
def test_each_group_of_a_sheet_is_in_a_layer_with_a_name(kind: str, layer: str) -> None:
    sheet = replace(_sheet(), groups=(Group(kind, "one", (Circle((50.0, 60.0), 2.5),)),))
    (group,) = (each for each in ET.fromstring(to_svg(sheet)).iter() if each.get("id") == f"{kind}-one")
    (parent,) = (each for each in ET.fromstring(to_svg(sheet)).iter() if each.get("class") == "layer")
    assert parent.get("id") == layer
    assert [each.get("id") for each in parent] == [group.get("id")]
