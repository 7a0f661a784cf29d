"""Bare drawings in a designer's own font, held against fontTools' reading of the font's file."""

from __future__ import annotations

import base64
import io
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import combinations, pairwise
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from PIL import Image
from shapely import box

from schematics.design.design import Design
from schematics.design.publication import House, SeamSides
from schematics.document.fonts import font_of
from schematics.document.lettering.text import FONT_FOLDER, text_width
from schematics.drawing.assembly.held_picture import held_picture
from schematics.drawing.assembly.step_canvas import Canvas
from schematics.drawing.bare.bare_steps import draw_steps
from schematics.drawing.bare.look import look_of
from schematics.drawing.ink.marks import Group, Text
from schematics.drawing.ink.raster import to_png
from schematics.drawing.ink.sheet import BareInk, Paper, Sheet
from schematics.drawing.ink.svg import to_svg
from schematics.drawing.pieces.view import View
from schematics.errors import SchematicsError, UsageError
from schematics.reading.design_file import read_design
from tests.drawing.bare_reading import SVG, one_drawing
from tests.pattern.written.lake import PATTERN
from tests.shipped import shipped_design, shipped_results
from tests.specs_for_tests import SPEC, write

WIDER = 1.3
LACKS = "k"
OWN = TTFont(FONT_FOLDER / "DejaVuSans.ttf")
EM = OWN["head"].unitsPerEm
CAPITAL = OWN["glyf"]["H"].yMax / EM


def advance(char: str) -> float:
    """In ems, of the made-up font; what it lacks is as wide as the program's own."""
    units: int = OWN["hmtx"][OWN.getBestCmap()[ord(char)]][0]
    ems: float = units / EM * (1.0 if char == LACKS else WIDER)
    return ems


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One with a font a third wider than the program's own, and without one of its letters."""
    made = TTFont(FONT_FOLDER / "DejaVuSans.ttf", recalcTimestamp=False)
    for name, (width, left) in made["hmtx"].metrics.items():
        made["hmtx"].metrics[name] = round(width * WIDER), left
    for table in made["cmap"].tables:
        table.cmap.pop(ord(LACKS), None)
    for record in made["name"].names:
        if record.nameID in (1, 3, 4, 6, 16):
            record.string = "Broad"
    place = tmp_path_factory.mktemp("house")
    made.save(place / "broad.ttf")
    return place


@pytest.fixture(scope="module")
def design(folder: Path) -> Design:
    plain = shipped_design("tidepool")
    published = replace(plain.publication, house=House(font="broad.ttf"))
    return replace(plain, path=folder / "tidepool.yaml", publication=published)


@pytest.mark.slow
def test_widths_are_those_of_the_font_and_of_our_own_for_what_it_lacks(folder: Path) -> None:
    font = font_of("broad.ttf", folder)
    for words in ("42 cm (40 sts)", "neck", "16 1/2 in"):
        expected = sum(map(advance, words)) * 2.5 / CAPITAL * 1.05
        assert text_width(words, 2.5, font=font) == pytest.approx(expected, rel=1e-4)


@pytest.mark.slow
def test_words_of_a_drawing_stand_as_the_font_sets_them_and_do_not_meet(design: Design) -> None:
    results = shipped_results("tidepool")[2:3]
    svg = to_svg(one_drawing(design, results, "6", "body-column"))
    root = ET.fromstring(svg)
    assert root.findall(f"{SVG}g")[0].get("font-family", "").startswith('"Broad", DejaVu Sans')
    boxes = []
    for text in root.iter(f"{SVG}text"):
        words, size = text.text or "", float(text.get("font-size", ""))
        assert size == pytest.approx(2.5 / CAPITAL, abs=1e-3)
        starts = [float(x) for x in text.get("x", "").split()]
        for char, (left, right) in zip(words, pairwise(starts), strict=False):
            assert right - left == pytest.approx(advance(char) * size, abs=2e-3)
        if not text.get("transform"):
            y, right = float(text.get("y", "")), starts[-1] + advance(words[-1]) * size
            boxes.append(box(starts[0], y - 2.5, right, y))
    assert len(boxes) > 8
    assert not any(one.intersects(other) for one, other in combinations(boxes, 2))


@pytest.mark.slow
def test_an_svg_has_the_letters_it_shows_and_no_more(design: Design) -> None:
    results = shipped_results("tidepool")[:1]
    svg = to_svg(one_drawing(design, results, None, "all-sizes-outline-column"))
    shown = {True: set[str](), False: set[str]()}
    for text in ET.fromstring(svg).iter(f"{SVG}text"):
        shown[text.get("font-weight") == "bold"] |= set(text.text or "")
    faces = re.findall(r"font-weight: (\w+); src: url\(data:font/ttf;base64,([^)]+)\)", svg)
    assert len(faces) == 2
    for weight, content in faces:
        embedded = TTFont(io.BytesIO(base64.b64decode(content)))
        assert set(embedded.getBestCmap()) == {ord(char) for char in shown[weight == "bold"] - {LACKS}}


@pytest.mark.slow
def test_a_png_is_drawn_with_the_fonts_own_letters(folder: Path) -> None:
    font = font_of("broad.ttf", folder)
    paper = Paper(name="label", width=60, height=20)
    text = Text((5, 15), "HkH", 9, font=font)
    sheet = Sheet(
        paper=paper,
        scale=None,
        title="",
        description="",
        groups=(Group("words", "one", (text,)),),
        ink=BareInk(name="one", font=font),
    )
    with Image.open(io.BytesIO(to_png(sheet))) as image:
        ink = image.convert("RGBA").getchannel("A").getbbox()
    size = 9 / CAPITAL
    glyph = OWN["glyf"]["H"]
    left, right = 5 + glyph.xMin / EM * size, 5 + (advance("H") + advance("k") + glyph.xMax / EM) * size
    assert ink is not None
    assert [ink[0] / 300 * 25.4, ink[2] / 300 * 25.4] == pytest.approx([left, right], abs=0.12)


@pytest.mark.slow
def test_a_font_without_latin_letters_is_told(folder: Path, design: Design) -> None:
    made = TTFont(folder / "broad.ttf")
    for table in made["cmap"].tables:
        for char in "Hlp":
            table.cmap.pop(ord(char), None)
    for record in made["name"].names:
        if record.nameID in (1, 3, 4, 6, 16):
            record.string = "Signs"
    made.save(folder / "signs.ttf")
    published = replace(design.publication, house=House(font="signs.ttf"))
    with pytest.raises(UsageError, match=r"signs\.ttf: the font Signs has no letter"):
        look_of(replace(design, publication=published))


def test_a_spec_that_names_such_a_font_is_refused_with_its_line(tmp_path: Path) -> None:
    """A font of Greek letters alone."""
    made = TTFont(FONT_FOLDER / "DejaVuSans.ttf")
    for table in made["cmap"].tables:
        for code in [each for each in table.cmap if not 0x370 <= each < 0x400]:
            del table.cmap[code]
    made.save(tmp_path / "signs.ttf")
    path = write(tmp_path, SPEC + PATTERN + "  house:\n    font: signs.ttf\n")
    line = path.read_text().splitlines().index("    font: signs.ttf") + 1
    with pytest.raises(SchematicsError, match=rf":{line}: pattern\.house\.font: .*no letter.*Latin letters"):
        read_design(path)


@pytest.mark.slow
def test_pictures_of_the_steps_are_in_the_font_too(design: Design) -> None:
    """So are those of their key; nothing touches or leaves the paper."""
    results = shipped_results("tidepool")[2:3]
    font = look_of(design).font
    for stem, sheet in draw_steps(design, results, font):
        assert sheet.unplaced == (), stem
        texts = [mark for group in sheet.groups for mark in group.marks if isinstance(mark, Text)]
        assert texts
        for text in texts:
            assert text.font is font
        boxes = [text.box() for text in texts]
        assert not any(one.intersects(other) for one, other in combinations(boxes, 2)), stem
        paper = box(0, 0, sheet.paper.width, sheet.paper.height)
        assert all(paper.contains(each) for each in boxes), stem


@pytest.mark.slow
def test_what_is_held_is_said_in_a_wide_font_too(folder: Path) -> None:
    """A third wider than the program's own: where work goes to is then in two lines."""
    canvas = held_picture(SeamSides.RIGHT, Canvas(View(scale=1), font_of("broad.ttf", folder)))
    said = {group.name for group in canvas.block.groups if group.kind == "note"}
    assert said == {"right side", "wrong side", "join yarn", "hem", "neck"}
    assert canvas.block.unplaced == []
