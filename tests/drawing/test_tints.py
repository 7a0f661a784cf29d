"""Fills in the yarns' colours: where they are, under everything, and nothing else changed by them."""

from __future__ import annotations

import io
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from pathlib import Path

import pytest
from PIL import Image, ImageColor
from shapely import Polygon

from schematics.checks.evaluation import evaluate
from schematics.design.design import Design
from schematics.document.contrast import BLACK, as_ground, contrast
from schematics.drawing.assembly.step_pictures import step_pictures
from schematics.drawing.compose import finish
from schematics.drawing.ink.raster import to_png
from schematics.drawing.ink.sheet import Sheet
from schematics.drawing.ink.svg import to_svg
from schematics.drawing.sheets import SIZE_SHEETS, setting_of
from schematics.drawing.templates.template import templates_of
from schematics.reading.design_file import read_design
from schematics.reading.problems import SpecError
from tests.drawing.bare_reading import SVG, one_drawing, read_bare, sheet_faults
from tests.drawing.readback import read_page
from tests.shipped import shipped_text

SAND, MOSS = "#d8c39d", "#2f5d3a"
IN_PARTS = "yarn_use:\n  colours: {centre_panel: moss, neck_band: moss, arm_bands: moss}\n"

pytestmark = [pytest.mark.seeds, pytest.mark.slow]


def read_with(folder: Path, yarn: str) -> Design:
    """Tidepool's size 6 in two colours, with those lines about the yarn."""
    text = shipped_text("tidepool", "6").replace("  fibre: 100 % wool\n", f"  colour: sand\n{yarn}", 1)
    path = folder / "two.yaml"
    path.write_text(text.replace("hook: 9 mm\n", f"hook: 9 mm\n{IN_PARTS}", 1), encoding="utf-8")
    return read_design(path)


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> Design:
    return read_with(tmp_path_factory.mktemp("plain"), "")


@pytest.fixture(scope="module")
def shown(tmp_path_factory: pytest.TempPathFactory) -> Design:
    return read_with(tmp_path_factory.mktemp("shown"), f"  shades: {{sand: '{SAND}', moss: '{MOSS}'}}\n")


@pytest.fixture(scope="module")
def pieces_shown(shown: Design) -> Sheet:
    return size_sheet(shown, "pieces")


def size_sheet(design: Design, kind: str) -> Sheet:
    setting = setting_of(design, evaluate(design))
    result = next(each for each in setting.results if each.size.name == "6")
    return finish(setting, SIZE_SHEETS[kind](setting, result), result, 1, 1)


def fills(svg: str) -> list[tuple[str, str, Polygon]]:
    """Tinted faces in their order: the group, the colour, the face."""
    found = []
    for group in (each for each in ET.fromstring(svg).iter(f"{SVG}g") if each.get("class") == "tint"):
        for face in group:
            numbers = [float(each) for each in re.findall(r"-?[0-9.]+", face.get("d") or "")]
            shape = Polygon(list(zip(numbers[::2], numbers[1::2], strict=True)))
            found.append((str(group.get("id")), str(face.get("fill")), shape))
    return found


def without_fills(svg: str) -> str:
    left = re.sub(r'<g class="tint".*?</g>', "", svg)
    return left.replace('<g class="layer" id="colours"></g>', "")


def test_pieces_are_filled_as_far_as_their_outlines(plain: Design, pieces_shown: Sheet) -> None:
    """Nothing else of the sheet is changed: the hatching is what is left in black and white."""
    svg = to_svg(pieces_shown)
    outlines = read_page(svg).outlines
    faces = {name.removeprefix("tint-"): (colour, face) for name, colour, face in fills(svg)}
    assert {name: colour for name, (colour, _) in faces.items()} == {
        "body": SAND,
        **dict.fromkeys(("centre-panel", "neck-band", "arm-band"), as_ground(MOSS, BLACK)),
    }
    for name, (_, face) in faces.items():
        assert face.symmetric_difference(outlines[f"outline-{name}"]).area < 1e-3 * face.length
    assert without_fills(svg) == to_svg(size_sheet(plain, "pieces"))


@pytest.mark.parametrize("kind", ["assembly", "worn"])
def test_the_joined_and_the_worn_garment_are_filled_and_their_colours_named(shown: Design, kind: str) -> None:
    """The body first, what lies over it later."""
    svg = to_svg(size_sheet(shown, kind))
    colours = [colour for _, colour, _ in fills(svg)]
    assert colours[0] == SAND
    assert set(colours) == {SAND, as_ground(MOSS, BLACK)}
    words = " ".join(read_page(svg).texts("steps" if kind == "assembly" else "checks"))
    assert "Body in sand; centre panel in moss, hatched; neck band and arm bands in moss, ribbed." in words


def test_every_fill_is_read_on_in_black_and_in_the_accent(shown: Design) -> None:
    """The accent of a house is as pale as can be: #767676 has 4.54 on white (from memory)."""
    house = replace(shown.publication.house, accent="#767676")
    design = replace(shown, publication=replace(shown.publication, house=house))
    results = evaluate(design)
    six = next(each for each in results if each.size.name == "6")
    sheet = one_drawing(design, results, "6", "all-pieces-column")
    found = {colour for _, colour, _ in fills(to_svg(sheet))}
    assert len(found) == 2
    assert all(contrast(colour, ink) >= 4.5 for colour in found for ink in (BLACK, "#767676"))
    assert sheet.ink
    black = replace(sheet, ink=replace(sheet.ink, accent=None))
    assert not sheet_faults("all-pieces-column", black, six)


@pytest.mark.parametrize("kind", ["pieces", "bare"])
def test_a_png_has_the_colours_of_its_svg(shown: Design, pieces_shown: Sheet, kind: str) -> None:
    """Where no line is, a pixel of the body is sand; under a bare drawing there is still nothing."""
    bare = one_drawing(shown, evaluate(shown), "6", "body-page") if kind == "bare" else None
    sheet = bare or pieces_shown
    _, _, face = next(each for each in fills(to_svg(sheet)) if each[0] == "tint-body")
    with Image.open(io.BytesIO(to_png(sheet))) as image:
        pixels = image.convert("RGBA")
        corner = pixels.getpixel((1, 1))
        per_mm = image.width / sheet.paper.width
        x0, y0, x1, y1 = (round(each * per_mm) for each in face.bounds)
        counts = pixels.crop((x0, y0, x1, y1)).getcolors(maxcolors=1000)
    assert counts
    (_, most), *_ = sorted((each for each in counts if each[1] != corner), reverse=True)
    assert most == (*ImageColor.getrgb(SAND), 255)
    assert corner == ((255, 255, 255, 255) if kind == "pieces" else (0, 0, 0, 0))


def test_pictures_of_steps_have_no_colours(plain: Design, shown: Design) -> None:
    """Hatching is the wrong side there."""
    for with_colours, without in zip(
        step_pictures(evaluate(shown)), step_pictures(evaluate(plain)), strict=True
    ):
        assert to_svg(with_colours.sheet) == to_svg(without.sheet)
        assert not fills(to_svg(with_colours.sheet))


@pytest.mark.parametrize(
    ("shades", "words"),
    [
        ("{sand: sandy}", "yarn.shades.sand: expected a colour in quotes, such as '#1f5f6b', got 'sandy'"),
        ("{snad: '#d8c39d'}", "there is no colour 'snad'; did you mean 'sand'?"),
        ("{sand: '#d8c39'}", "got '#d8c39'"),
        ("'#d8c39d'", "yarn.shades: expected a mapping of names to their blocks, got '#d8c39d'"),
    ],
)
def test_a_shade_that_is_none_is_told_with_its_line(tmp_path: Path, shades: str, words: str) -> None:
    with pytest.raises(SpecError) as caught:
        read_with(tmp_path, f"  shades: {shades}\n")
    (problem,) = caught.value.problems
    assert words in problem
    assert re.match(r".*two\.yaml:\d+: ", problem)


def test_templates_name_colours_and_are_not_hatched(shown: Design) -> None:
    """Their lines are for blocking; nothing on them is hatched."""
    (result,) = (each for each in evaluate(shown) if each.size.name == "6")
    headings = [each.heading for each in templates_of(result.garment, shown.units, halved=True)]
    assert headings == [
        "body, in sand",
        "centre panel, in moss",
        "neck band, in moss",
        "arm band (make 2), in moss",
    ]


def test_one_colour_is_named_where_nothing_says_how_it_looks(tmp_path: Path) -> None:
    design = read_with(tmp_path, "")
    design = replace(design, yarn_use=replace(design.yarn_use, colours={}))
    page = read_bare(to_svg(one_drawing(design, evaluate(design), "6", "all-pieces-page")))
    assert not page.of_kind("tint")
    assert [words.text for words in page.words].count("in sand") == 4
