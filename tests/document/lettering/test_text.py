"""Text measured against the font itself (DejaVu Sans), and broken into lines."""

from __future__ import annotations

import json
import re
from importlib.resources import files
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.document.lettering.text import (
    LARGE,
    SMALL,
    ascent,
    descent,
    font_size,
    line_pitch,
    shorten,
    text_width,
    wrap,
)
from tests.drawing.fonts import face
from tests.examples import examples

_PACKAGED = json.loads(
    files("schematics.document.lettering").joinpath("data/dejavu_sans.json").read_text("utf-8")
)

_known = st.text(st.sampled_from(sorted(set(_PACKAGED["normal"]["advances"]))), max_size=60)
_words = st.text(st.characters(categories=("L", "N", "P", "Zs")), max_size=80)
_bold = st.booleans()
_heights = st.sampled_from((SMALL, LARGE, 7.0))


@pytest.mark.parametrize("bold", [False, True])
def test_the_packaged_table_holds_the_fonts_own_advances(bold: bool) -> None:
    table = _PACKAGED["bold" if bold else "normal"]
    font = face(bold)
    assert table["units_per_em"] == font.units
    assert set(map(chr, range(0x20, 0x7F))) <= set(table["advances"])
    assert table["advances"] == {char: font.advance_units(char) for char in table["advances"]}
    assert all(font.has(char) for char in table["advances"])


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("height", [SMALL, LARGE])
def test_a_font_size_gives_capitals_of_that_height(bold: bool, height: float) -> None:
    """ISO 3098-1 measures lettering by its capitals."""
    assert font_size(height) * face(bold).capital_units / face(bold).units == pytest.approx(height)


@pytest.mark.slow
@examples(100)
@given(_known, _bold, _heights)
def test_no_text_is_wider_than_measured_nor_much_narrower(text: str, bold: bool, height: float) -> None:
    exact = face(bold).width(text) * font_size(height)
    measured = text_width(text, height, bold=bold)
    assert exact <= measured <= exact * 1.08 + 1e-9


@examples(100)
@given(_words, _bold)
def test_characters_outside_the_table_are_not_measured_too_narrow(text: str, bold: bool) -> None:
    font = face(bold)
    shown = "".join(char for char in text if font.has(char) and font.glyph(char).advance <= 1.1)
    assert font.width(shown) * font_size(SMALL) <= text_width(shown, SMALL, bold=bold) + 1e-9


def test_boxes_reach_over_the_ink_of_latin_letters() -> None:
    for bold in (False, True):
        for char in map(chr, range(0x21, 0x7F)):
            top, bottom = face(bold).reach(char)
            if char not in "|_`":
                assert top * font_size(SMALL) <= ascent(SMALL) + 0.03, char
                assert -bottom * font_size(SMALL) <= descent(SMALL) + 0.03, char


def test_lines_stand_as_far_apart_as_iso_3098_asks() -> None:
    """ISO 3098-1: baselines at least 19/14 of the lettering's height apart."""
    assert line_pitch(SMALL) >= SMALL * 19 / 14
    assert ascent(SMALL) + descent(SMALL) < line_pitch(SMALL)


@examples(100)
@given(_words, st.floats(4, 200), _heights, _bold)
def test_wrapped_lines_are_never_too_wide_and_lose_nothing(
    text: str, width: float, height: float, bold: bool
) -> None:
    lines = wrap(text, width, height, bold=bold)
    for line in lines:
        assert text_width(line, height, bold=bold) <= width or len(line) == 1
    assert re.sub(r"\s", "", "".join(lines)) == re.sub(r"\s", "", text)


@examples(100)
@given(st.lists(st.text(st.sampled_from("abcdefgh,.;()"), min_size=1, max_size=12), max_size=30))
def test_words_that_fit_a_line_are_never_cut_and_lines_are_filled(words: list[str]) -> None:
    lines = wrap(" ".join(words), 60.0)
    assert [word for line in lines for word in line.split(" ")] == words
    for line, after in pairwise(lines):
        assert text_width(f"{line} {after.split(' ')[0]}") > 60.0


def test_no_line_breaks_at_a_no_break_space() -> None:
    assert wrap("to\u00a0do more", 13.0) == ["to\u00a0do", "more"]


@pytest.mark.parametrize(
    "kept",
    ["16 1/2", "16 1/2 in", "18 sts", "1 row", "9 cm", "82 %", "1 × 4", "1] × 2", "chain 16", "4 lines"],
)
def test_a_number_stays_with_its_fraction_unit_or_times(kept: str) -> None:
    for before in range(40):
        lines = wrap(f"{'i' * before} {kept}, and on", 40.0)
        assert any(kept in line for line in lines), lines
        assert " ".join(lines) == f"{'i' * before} {kept}, and on".lstrip()


def test_a_number_is_parted_from_its_unit_before_either_is_cut() -> None:
    """No line ends with a space, which SVG would leave out."""
    assert wrap("of (55.0 cm, 21 3/4 in)", 1.05 * text_width("(55.0")) == [
        "of",
        "(55.0",
        "cm,",
        "21",
        "3/4",
        "in)",
    ]


@examples(100)
@given(_words, st.floats(6, 100), _bold)
def test_shortened_text_fits_and_says_that_it_was_cut(text: str, width: float, bold: bool) -> None:
    short = shorten(text, width, bold=bold)
    assert text_width(short, bold=bold) <= width
    assert short == text or (short.endswith("…") and text.startswith(short.removesuffix("…")))
