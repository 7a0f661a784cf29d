"""The letters of the schematic as they are placed: 2.5 mm on paper, 22 points in large print, 12 pixels on a
phone; nothing overlaps, and every letter of the table is there.
"""

from __future__ import annotations

import base64
import re
from itertools import product

import pytest

from schematics.checks.evaluation import evaluate
from schematics.document.lettering.text import SMALL
from schematics.drawing.bare.look import look_of
from schematics.drawing.bare.rooms import LARGE_PAGE, PAGE, PHONE, Room
from schematics.drawing.bare.schematic import bare_schematic
from schematics.drawing.ink.marks import Text
from schematics.drawing.ink.sheet import A4, LETTER, Paper
from schematics.drawing.ink.svg import to_svg
from schematics.drawing.pieces.figures_look import measurement_letters
from schematics.pattern.pattern_files import LARGE
from tests.document.pdf_reading import figure_letters
from tests.drawing.audit_layout import letters_astray, words_on_lines, words_on_words
from tests.drawing.bare_reading import read_bare
from tests.examples import seeds
from tests.pattern.designs import design_of, dressed_spec
from tests.shipped import demos, shipped_pattern

CAPITALS = 0.729
"""Of the font's capitals over its size: sCapHeight 1493 of 2048 units (its OS/2 table)."""


def schematic_letters(name: str, form: str, paper: Paper) -> list[float]:
    """Heights of the capitals in the schematic of a demo's PDF, in mm."""
    sizes = figure_letters(shipped_pattern(name, form, paper), "The pieces laid flat")
    return [size / 72 * 25.4 * CAPITALS for size in sizes]


@pytest.mark.slow
@pytest.mark.parametrize(("name", "paper"), seeds([*product(("tidepool", "driftwood"), (A4, LETTER))]))
def test_capitals_of_the_schematic_are_two_and_a_half_millimetres_on_paper(name: str, paper: Paper) -> None:
    heights = schematic_letters(name, "pdf", paper)
    assert len(heights) > 20
    assert min(heights) >= 2.495
    assert max(heights) <= 2.6


@pytest.mark.slow
@pytest.mark.parametrize("name", demos("tidepool"))
def test_in_large_print_they_are_as_large_as_the_text(name: str) -> None:
    heights = schematic_letters(name, LARGE, A4)
    assert min(heights) >= 22 / 72 * 25.4 * CAPITALS - 0.005


@pytest.mark.slow
@pytest.mark.parametrize(
    ("number", "room"),
    seeds([*product(range(15), (PAGE, PHONE, LARGE_PAGE))], step=17),
)
def test_the_schematic_of_a_random_design_fits_its_room_and_loses_no_letter(number: int, room: Room) -> None:
    design = design_of(dressed_spec(number), number)
    results = evaluate(design)
    drawn = bare_schematic(results, look_of(design), room)
    assert drawn is not None
    sheet, legend = drawn
    assert legend.endswith(".")
    assert "arrow: direction of work" in legend.lower()
    assert sheet.paper.width <= room.width
    assert sheet.paper.height <= room.height
    texts = [mark for group in sheet.groups for mark in group.marks if isinstance(mark, Text)]
    assert {text.height for text in texts} == {room.lettering}
    assert room.lettering >= SMALL
    page = read_bare(to_svg(sheet))
    spans = (span for piece in results[len(results) // 2].garment.pieces for span in piece.spans)
    letters = measurement_letters(results)
    assert {letters[span.key] for span in spans} <= {words.text for words in page.words}
    assert [*letters_astray(page), *words_on_words(page), *words_on_lines(page)] == []


@pytest.mark.slow
def test_a_page_has_the_schematic_for_a_phone_beside_that_for_a_screen() -> None:
    page = shipped_pattern("tidepool", "html").decode()
    narrow = re.findall(
        r'<source media="\(max-width: 40rem\)" srcset="data:image/svg\+xml;base64,([^"]+)">', page
    )
    assert [read_bare(base64.b64decode(each).decode()).width <= PHONE.width for each in narrow] == [True]
