"""The SVG writer on its own: numbers, awkward words, and the same bytes every time."""

from __future__ import annotations

import hashlib
import math
import os
import subprocess
import sys
import xml.etree.ElementTree as ET
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.checks.evaluation import evaluate
from schematics.drawing.ink.marks import Area, Circle, Group, Line, Pen, Text
from schematics.drawing.ink.sheet import A4, Sheet
from schematics.drawing.ink.svg import number, to_svg
from tests.drawing.audit_svg import svg_faults
from tests.drawing.sheets import every_sheet
from tests.examples import examples
from tests.shipped import shipped_design

_ROOT = Path(__file__).parents[2]
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
@given(st.text(st.characters(exclude_categories=("Cs", "Cn")), min_size=1, max_size=40), st.text(max_size=20))
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
    assert ids == ["note-arm.from-front", "note-arm.from-front-2"]


def _digest() -> str:
    """The bytes of every sheet of one size of a demo design."""
    design = shipped_design("first-draft")
    design = replace(design, sizes=design.sizes[:1])
    drawn = every_sheet(design, evaluate(design))
    return hashlib.sha256("".join(each.svg for each in drawn).encode()).hexdigest()


@pytest.mark.slow
def test_the_same_design_gives_the_same_bytes_in_this_process_and_any_other() -> None:
    here = _digest()
    code = "from tests.drawing.test_svg import _digest; print(_digest())"
    other = subprocess.run(
        [sys.executable, "-c", code],
        cwd=_ROOT,
        env=os.environ | {"PYTHONHASHSEED": "4711", "TZ": "Pacific/Auckland", "LC_ALL": "C"},
        capture_output=True,
        text=True,
        check=True,
    )
    assert other.stdout.strip() == here
