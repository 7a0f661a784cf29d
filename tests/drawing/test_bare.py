"""Bare drawings of the demos, read back: lettering, lengths, layers, and tables against the measurements."""

from __future__ import annotations

import io
import re
import xml.etree.ElementTree as ET
from collections.abc import Mapping
from dataclasses import replace
from functools import cache

import pytest
from PIL import Image
from pypdf import PdfReader
from shapely import LineString
from shapely.ops import substring

from schematics.checks.evaluation import Result, evaluate
from schematics.design.design import Design
from schematics.design.publication import DrawnFigures, DrawnStyle, DrawnUnits, House, LineWeight
from schematics.drawing.bare.drawings import bare_stems
from schematics.drawing.bare.look import Look
from schematics.drawing.bare.rooms import WIDTHS, Room
from schematics.drawing.bare.schematic import draw_tables
from schematics.drawing.ink.pdf import to_pdf
from schematics.drawing.ink.raster import to_png
from schematics.drawing.ink.sheet import BareInk, Sheet
from schematics.drawing.ink.svg import to_svg
from schematics.units import Unit
from tests.drawing.bare_reading import (
    SVG,
    WIDEST_MM,
    BarePage,
    drawings_in,
    expected_figure,
    one_drawing,
    read_bare,
    read_table,
    sheet_faults,
)
from tests.examples import covering, marked, thorough
from tests.shipped import demo_names, demos, shipped_design, shipped_results


@cache
def drawings(name: str, size: str | None, widths: tuple[str, ...] = (*WIDTHS,)) -> dict[str, Sheet]:
    return dict(drawings_in(widths, shipped_design(name), shipped_results(name), size))


@cache
def shipped_drawing(name: str, size: str | None, stem: str) -> Sheet:
    return one_drawing(shipped_design(name), shipped_results(name), size, stem)


def six() -> Result:
    """Size 6 of tidepool; drawn with it alone, its drawings need not agree with those of other sizes."""
    return next(each for each in shipped_results("tidepool") if each.size.name == "6")


def drawing(design: Design, stem: str) -> Sheet:
    """That of size 6 alone."""
    return one_drawing(design, [six()], "6", stem)


def faults(sheets: Mapping[str, Sheet], result: Result | None) -> list[str]:
    """Those of the drawings of a size, which all find room."""
    return [
        each
        for stem, sheet in sheets.items()
        for each in (*sheet.unplaced, *sheet_faults(stem, sheet, result))
    ]


WIDTH_READ = {"tidepool": "page", "driftwood": "column"}
"""The width in which drawings of all sizes and of one are read but by `make fuzz`."""


@pytest.mark.slow
@pytest.mark.parametrize("name", demos(*WIDTH_READ))
def test_a_drawing_is_read_without_a_fault_in_every_width(name: str) -> None:
    """All by `make fuzz`, else those of driftwood in a column, where its many labels have least room.

    Those of tidepool are read on a page, a phone's where the house sets letters.
    """
    results = shipped_results(name)
    widths = (*WIDTHS,) if thorough() else (WIDTH_READ[name],)
    assert faults(drawings(name, None, widths), None) == []
    for result in results if thorough() else results[2:3]:
        assert faults(drawings(name, result.size.name, widths), result) == []


@pytest.mark.slow
def test_the_stems_promised_are_those_drawn() -> None:
    promised = dict(bare_stems(shipped_design("tidepool"), shipped_results("tidepool")))
    assert tuple(drawings("tidepool", None)) == promised[None]
    on_a_page = [stem for stem in promised["6"] if stem.endswith("-page")]
    assert [*drawings("tidepool", "6", ("page",))] == on_a_page
    assert {stem.rpartition("-")[2] for stem in promised["6"]} == {*WIDTHS}


@pytest.mark.slow
@pytest.mark.parametrize(("name", "width"), covering(demo_names("tidepool"), [*WIDTHS]))
def test_the_table_says_the_measurement_of_every_letter_in_every_size(name: str, width: str) -> None:
    results = shipped_results(name)
    stems = [f"all-sizes-table-{width}", *(f"all-sizes-table-{width}-{part}" for part in (2, 3))]
    drawn_parts = drawings(name, None)
    tables = [read_table(to_svg(drawn_parts[stem])) for stem in stems if stem in drawn_parts]
    table = tables[0]
    for other in tables[1:]:
        assert other.names == table.names
        for letter, lines in other.values.items():
            table.values[letter] += lines
    drawn = {span.key for result in results for piece in result.garment.pieces for span in piece.spans}
    letters = {name: letter for letter, name in table.names.items()}
    assert len(letters) == len(table.names) == len(drawn)
    for result in results:
        for item in result.garment.finished:
            if item.key in drawn:
                for unit in ("cm", "in"):
                    said = table.value(letters[item.name], unit, result.size.name)
                    assert said == expected_figure(item.key, item.length_cm, unit), (item.name, unit)


@pytest.mark.slow
def test_every_part_of_a_table_is_alike_and_tells_what_only_some_sizes_have() -> None:
    """A page so low that every size is a part; the first measurement is not drawn in the middle size."""
    first, middle, last = shipped_results("tidepool")[:3]
    body, *others = middle.garment.pieces
    without = replace(middle.garment, pieces=(replace(body, measured=lambda: body.spans[1:]), *others))
    results = (first, replace(middle, garment=without), last)
    look, ink = Look(), BareInk(name="all-sizes-table-column")
    parts = draw_tables(results, "Sizes", look, Room(85.0, 20.0), ink)
    assert len(parts) == 3
    name = next(item.name for item in middle.garment.finished if item.key == body.spans[0].key)
    for part in parts:
        assert name in part.description
        assert not re.search(r"\d (sts|rows)", words_of(part))


def styled(design: Design, drawn: DrawnStyle, **house: object) -> Design:
    look = replace(House(drawings=drawn), **house)  # type: ignore[arg-type]
    return replace(design, publication=replace(design.publication, house=look))


def words_of(sheet: Sheet) -> str:
    return "\n".join(words.text for words in read_bare(to_svg(sheet)).words)


@pytest.mark.slow
def test_the_house_sets_units_and_counts() -> None:
    design, stem = shipped_design("tidepool"), "body-page"
    both = words_of(drawing(design, stem))
    assert re.search(r"^174.5 cm(?: \(166 sts\)\n68 3/4 in|\n68 3/4 in\n166 sts)$", both, re.M)
    first = styled(design, DrawnStyle(), units_first=Unit.IN)
    inches_first = words_of(drawing(first, stem))
    assert re.search(r"^68 3/4 in(?: \(166 sts\)\n174.5 cm|\n174.5 cm\n166 sts)$", inches_first, re.M)
    alone = words_of(drawing(styled(design, DrawnStyle(units=DrawnUnits.IN)), stem))
    assert re.search(r"^68 3/4 in(?: \(166 sts\)|\n166 sts)$", alone, re.M)
    assert "cm" not in alone
    bare = words_of(drawing(styled(design, DrawnStyle(counts=False)), stem))
    assert "174.5 cm\n68 3/4 in" in bare
    assert not re.search(r"\bsts?\b|\brows?\b", bare)


@pytest.mark.slow
@pytest.mark.seeds
def test_the_house_sets_letters_for_figures() -> None:
    lettered = styled(shipped_design("tidepool"), DrawnStyle(measured_by=DrawnFigures.LETTERS))
    widths = tuple(WIDTHS) if thorough() else ("phone",)
    sheets = dict(drawings_in(widths, lettered, [six()], "6"))
    assert faults(sheets, six()) == []
    assert all(re.search("^Size 6$", words_of(sheet), re.M) for sheet in sheets.values())


@pytest.mark.slow
def test_a_size_has_letters_for_what_it_has_though_larger_ones_have_more() -> None:
    """Arms that meet at centre back leave no hem free there: one measurement fewer than in size 6."""
    lettered = styled(shipped_design("tidepool"), DrawnStyle(measured_by=DrawnFigures.LETTERS))
    four, six = (size for size in lettered.sizes if size.name in ("4", "6"))
    meeting = four.arms.model_copy(update={"from_front": 146 // 2 - 16})
    design = replace(lettered, sizes=(replace(four, arms=meeting), six))
    rows = {
        size: words_of(one_drawing(design, evaluate(design), size, "body-phone")).count("hem free")
        for size in ("4", "6")
    }
    assert rows == {"4": 0, "6": 1}


@pytest.mark.slow
def test_pieces_of_all_sizes_are_at_one_scale_where_their_labels_have_room() -> None:
    told = {
        size: read_bare(to_svg(shipped_drawing("tidepool", size, "body-page"))).scale for size in ("6", "M")
    }
    assert max(told.values()) <= 1.05 * min(told.values()), told


@pytest.mark.slow
@pytest.mark.parametrize(
    ("name", "sizes", "stem"),
    marked(
        [
            ("driftwood", "24L" if thorough() else "2L", "body-column"),
            *([("kelp", "26L", "all-pieces-column")] if thorough() else []),
        ]
    ),
)
def test_all_sizes_have_letters_where_one_has_little_room_for_figures(
    name: str, sizes: str, stem: str
) -> None:
    """A narrow neck of a body over the shoulders, or four pieces under one another, leave little."""
    for size in sizes:
        assert read_bare(to_svg(shipped_drawing(name, size, stem))).texts("table"), size


@pytest.mark.slow
@pytest.mark.parametrize(
    ("name", "size", "stem"),
    [
        ("tidepool", "2", "centre-panel-column"),
        pytest.param("sandpiper", "2", "all-pieces-page", marks=pytest.mark.thorough),
    ],
)
def test_a_piece_over_50_mm_long_needs_no_letters_for_its_figures(name: str, size: str, stem: str) -> None:
    assert shipped_page(name, size, stem).texts("table") == []


@pytest.mark.thorough
@pytest.mark.parametrize("stem", ["body-column", "body-page"])
@pytest.mark.parametrize("name", demo_names())
def test_one_piece_has_figures_in_all_sizes_or_letters_in_all(name: str, stem: str) -> None:
    tables = {
        size.name: shipped_page(name, size.name, stem).texts("table") for size in shipped_design(name).sizes
    }
    assert len({bool(table) for table in tables.values()}) == 1, tables


@pytest.mark.slow
def test_pieces_over_their_table_take_as_much_of_a_column_as_it_leaves_them() -> None:
    """A body of 26 mm, in a column of 85, was not legible; its table was as high as twice its rows."""
    x0, _, x1, _ = shipped_page("sandpiper", "2", "all-pieces-column").outlines["outline-body"].bounds
    assert x1 - x0 > WIDEST_MM["column"] / 2


def shipped_page(name: str, size: str | None, stem: str) -> BarePage:
    return read_bare(to_svg(shipped_drawing(name, size, stem)))


@pytest.mark.slow
@pytest.mark.parametrize(
    ("name", "size", "stem"),
    marked(
        [
            ("sandpiper", "14", "all-pieces-column"),
            ("saltmarsh", "M", "all-pieces-page"),
            ("kelp" if thorough() else "driftwood", None, "all-sizes-column"),
        ]
    ),
)
def test_no_label_is_on_the_other_side_of_the_outline(name: str, size: str | None, stem: str) -> None:
    """Lines to labels of a hem, of a dimension beside a wide body, and of its fold where it is short."""
    page = shipped_page(name, size, stem)
    for leader in (stroke for stroke in page.strokes if stroke.pen == "leader"):
        line = LineString(leader.points)
        beyond_tip = substring(line, 0.05, line.length)
        for piece, outline in page.outlines.items():
            assert not beyond_tip.intersects(outline.exterior), (leader.group, piece)


@pytest.mark.slow
def test_the_names_of_a_neck_and_a_hem_are_beside_the_piece() -> None:
    page = shipped_page("sandpiper", "6", "body-phone")
    names = [words for words in page.words if re.search("(neck|hem) edge", words.text)]
    assert len(names) == 2
    assert not any(words.box.intersects(page.outlines["outline-body"]) for words in names)


@pytest.mark.slow
def test_pieces_are_not_tiny_over_a_long_table_but_have_names_instead() -> None:
    """Of letters, in a column: a body over half as wide as the column is legible, one of 27 mm was not."""
    page = shipped_page("first-draft", None, "all-sizes-column")
    x0, _, x1, _ = page.outlines["outline-body"].bounds
    assert x1 - x0 > WIDEST_MM["column"] / 2
    assert "C body neck edge" in " ".join(page.texts("table"))


@pytest.mark.slow
def test_a_small_size_is_drawn_larger_than_the_largest_where_it_would_take_less_than_half_the_width() -> None:
    small, large = (
        read_bare(to_svg(shipped_drawing("driftwood", size, "body-column"))) for size in ("2", "L")
    )
    assert small.scale < large.scale / 1.25
    ((x0, _, x1, _),) = (outline.bounds for outline in small.outlines.values())
    assert (x1 - x0) / (WIDEST_MM["column"] - 2) > 0.45


@pytest.mark.slow
def test_the_house_sets_the_weight_of_lines() -> None:
    widths = {}
    for weight in LineWeight:
        sheet = drawing(styled(shipped_design("tidepool"), DrawnStyle(lines=weight)), "all-pieces-column")
        outline = next(iter(read_bare(to_svg(sheet)).of_kind("outline")))
        widths[weight] = round(outline.width, 3)
    assert widths == {LineWeight.FINE: 0.35, LineWeight.MEDIUM: 0.5, LineWeight.BOLD: 0.7}


@pytest.mark.slow
def test_names_and_letters_have_the_accent_and_are_bold_too() -> None:
    design, results = shipped_design("tidepool"), shipped_results("tidepool")
    styles = styled(design, DrawnStyle(), accent="#1f5f6b")
    sheet = one_drawing(styles, results[:2], None, "all-sizes-column")
    texts = list(ET.fromstring(to_svg(sheet)).iter(f"{SVG}text"))
    fills = {(text.get("font-weight"), text.get("fill")) for text in texts}
    assert fills == {(None, "black"), ("bold", "#1f5f6b")}
    with Image.open(io.BytesIO(to_png(sheet))) as image:
        seen = {pixel[:3] for _, pixel in image.convert("RGBA").getcolors(1 << 24) or () if pixel[3] == 255}  # type: ignore[index]
    assert seen == {(0, 0, 0), (0x1F, 0x5F, 0x6B)}
    stream = PdfReader(io.BytesIO(to_pdf(sheet))).pages[0].get_contents()
    assert stream is not None
    assert b"0.121569 0.372549 0.419608 rg" in stream.get_data()


@pytest.mark.slow
@pytest.mark.parametrize("width", WIDTHS)
def test_a_png_has_nothing_under_its_ink_and_a_pdf_is_as_large_as_it(width: str) -> None:
    sheet = drawings("tidepool", None)[f"all-sizes-{width}"]
    with Image.open(io.BytesIO(to_png(sheet))) as image:
        inked = image.convert("RGBA")
        assert inked.getpixel((0, 0)) == (0, 0, 0, 0)
        assert (0, 0, 0, 255) in {colour for _, colour in inked.getcolors(1 << 20) or ()}
        assert image.width / 300 * 25.4 == pytest.approx(sheet.paper.width, abs=0.1)
    page = PdfReader(io.BytesIO(to_pdf(sheet))).pages[0]
    assert float(page.mediabox.width) / 72 * 25.4 == pytest.approx(sheet.paper.width, abs=0.01)
    assert sheet.paper.width <= WIDEST_MM[width] + 1e-6
