"""The panel's stitch chart, read back from its SVG: grid, symbols, brackets, key and size strings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
import yaml
from hypothesis import HealthCheck, given, settings

from schematics.checks.evaluation import Result, evaluate
from schematics.crochet.charts.chart import Chart
from schematics.crochet.charts.chart_rules import extent
from schematics.crochet.fabric import CountRule
from schematics.design.design import Design
from schematics.drawing.charts.panel_chart import LARGEST_CELL, SMALLEST_CELL
from schematics.drawing.compose import Setting
from schematics.drawing.ink.sheet import A4, LETTER, Paper
from schematics.drawing.ink.svg import to_svg
from schematics.drawing.sheets import DESIGN_SHEETS
from schematics.reading.design_file import read_design
from tests.crochet.charts_for_tests import EVERY, fitting_charts
from tests.drawing.audit_layout import layout_faults
from tests.drawing.chart_sheets import SVG, Box, Drawn, around, chart_of, drawn, ink, points, with_chart
from tests.drawing.readback import read_page

SPEC = Path(__file__).parents[2] / "specs" / "tidepool.yaml"
SLUGS = {worked.abbreviation.replace(" ", "-"): worked.abbreviation for worked in EVERY}


@pytest.fixture(scope="module")
def tidepool() -> tuple[Design, tuple[Result, ...]]:
    design = read_design(SPEC)
    return design, evaluate(design)


@pytest.fixture(scope="module")
def sheet(tidepool: tuple[Design, tuple[Result, ...]]) -> Drawn:
    return drawn(*tidepool)


PICTURE = """
TTTTTTTTTT
TTTFFTTFFT
TTBBTTBBTT
TFFTTFFTTT
TTBBTTBBTT
TTTFFTTFFT
TTTTTTTTTT
TTTTTTTTTT
""".strip().splitlines()
"""The ripple from row 8 down to row 1 as it lies before one, drawn by hand from the rows in the spec."""
LETTERS = {"T": "hdc", "F": "FPdc", "B": "BPdc"}


def test_the_grid_is_the_picture(sheet: Drawn) -> None:
    assert sheet.rows == len(PICTURE)
    for number, line in enumerate(reversed(PICTURE), start=1):
        assert [name for name, _ in sheet.stitches(number)] == [LETTERS[letter] for letter in line]
        assert len(sheet.cells(number)) == len(line)


def test_the_cells_are_squares_in_rows_and_columns_from_the_bottom_up(sheet: Drawn) -> None:
    first = sheet.cells(1)
    side = first[0][2] - first[0][0]
    assert SMALLEST_CELL <= side <= LARGEST_CELL
    for number in range(1, sheet.rows + 1):
        for column, cell in enumerate(sheet.cells(number)):
            x, y = first[0][0] + column * side, first[0][1] - (number - 1) * side
            assert cell == pytest.approx((x, y, x + side, y + side), abs=0.002)


def test_each_symbol_is_inside_its_own_cell(sheet: Drawn) -> None:
    assert list(stray_symbols(sheet)) == []


def stray_symbols(sheet: Drawn) -> Iterator[str]:
    """Symbols within a quarter of a millimetre of the edge of their cells, or beyond it."""
    for number in range(1, sheet.rows + 1):
        for (name, mark), cell in zip(sheet.stitches(number), sheet.cells(number), strict=True):
            room = (mark[0] - cell[0], mark[1] - cell[1], cell[2] - mark[2], cell[3] - mark[3])
            if min(room) < 0.25:
                yield f"{name} of row {number}"


def test_row_numbers_stand_where_the_row_begins_and_arrows_point_the_way_it_is_worked(sheet: Drawn) -> None:
    for number in range(1, sheet.rows + 1):
        group = sheet.groups("row")[f"row-{number}"]
        (text,) = group.iter(f"{SVG}text")
        line, head = (points(path) for path in group.iter(f"{SVG}path"))
        left, top, right, bottom = around(sheet.cells(number))
        assert text.text == str(number)
        baseline, tip = float(text.attrib["y"]), head[0][0]
        assert baseline - 1.25 == pytest.approx((top + bottom) / 2, abs=0.01)
        assert [y for _, y in line] == pytest.approx([(top + bottom) / 2] * 2, abs=0.01)
        if number % 2:
            assert right < tip < head[1][0] < line[0][0] < float(text.attrib["x"])
        else:
            assert left > tip > head[1][0] > line[0][0] > float(text.attrib["x"])


@pytest.mark.parametrize(
    ("section", "rows", "words"),
    [
        ("set-up", (1, 2), "set-up: 2 rows"),
        ("repeat", (3, 6), "repeat: 4 rows"),
        ("closing", (7, 8), "closing: 2 rows"),
    ],
)
def test_the_sections_are_bracketed(sheet: Drawn, section: str, rows: tuple[int, int], words: str) -> None:
    group = sheet.groups("section")[f"section-{section}"]
    (path,) = group.iter(f"{SVG}path")
    ys = [y for _, y in points(path)]
    bottom, top = sheet.cells(rows[0])[0][3], sheet.cells(rows[1])[0][1]
    assert [max(ys), min(ys)] == pytest.approx([bottom - 0.5, top + 0.5])
    assert [text.text for text in group.iter(f"{SVG}text")] == [words]


def test_the_bracketed_columns_repeat_over_the_whole_width(sheet: Drawn) -> None:
    (group,) = sheet.groups("stitch-repeat").values()
    (path,) = group.iter(f"{SVG}path")
    xs = [x for x, _ in points(path)]
    cells = sheet.cells(1)
    inside = [i for i, cell in enumerate(cells) if min(xs) - 0.01 <= cell[0] and cell[2] <= max(xs) + 0.01]
    assert [min(xs), max(xs)] == pytest.approx([cells[inside[0]][0], cells[inside[-1]][2]])
    assert len(inside) == 4
    assert [text.text for text in group.iter(f"{SVG}text")] == ["multiple of 4 plus 2"]
    for line in PICTURE:
        assert line[inside[0] : inside[-1] + 1] == line[inside[0] - 4 : inside[0]]


def test_the_key_is_exactly_what_is_drawn(sheet: Drawn) -> None:
    words = {
        "hdc": "half double crochet",
        "FPdc": "front post double crochet",
        "BPdc": "back post double crochet",
    }
    assert key_words(sheet) == words


def key_words(sheet: Drawn) -> dict[str, str]:
    entries = [
        [text.text or "" for text in group.iter(f"{SVG}text")] for group in sheet.groups("key").values()
    ]
    return {name: " ".join(words) for name, *words in entries}


def test_a_symbol_means_in_the_grid_what_it_means_in_the_key(sheet: Drawn) -> None:
    """The same shape, larger or smaller: its points by their place in the cell."""
    in_key = {}
    for group in sheet.groups("key").values():
        square, *strokes = group.iter(f"{SVG}path")
        name = next(group.iter(f"{SVG}text")).text or ""
        in_key[name] = [in_cell(points(stroke), ink(square)) for stroke in strokes]
    cells = {number: sheet.cells(number) for number in range(1, sheet.rows + 1)}
    for name, group in sheet.groups("stitch").items():
        row, column, slug = name.removeprefix("stitch-").split("-", 2)
        cell = cells[int(row)][int(column) - 1]
        here = [in_cell(points(stroke), cell) for stroke in group.iter(f"{SVG}path")]
        assert len(here) == len(in_key[slug])
        for mine, theirs in zip(here, in_key[slug], strict=True):
            assert mine == [pytest.approx(each, abs=0.001) for each in theirs]


def in_cell(path: list[tuple[float, float]], cell: Box) -> list[tuple[float, float]]:
    side = cell[2] - cell[0]
    return [((x - cell[0]) / side, (y - cell[1]) / side) for x, y in path]


def test_the_rows_stand_in_words_too(sheet: Drawn) -> None:
    chart = yaml.safe_load(SPEC.read_text(encoding="utf-8"))["fabrics"]["ripple"]["chart"]
    rows = [*chart["setup"], *chart["repeat"], *chart["closing"]]
    sides = ["RS", "WS"] * len(rows)
    assert sheet.texts("chart-rows") == [
        "Rows in words",
        *(f"Row {number} ({sides[number - 1]}): {row}." for number, row in enumerate(rows, start=1)),
    ]


def test_the_size_strings_are_those_of_the_counts_in_the_spec(sheet: Drawn) -> None:
    """From the file itself: (rows - set-up - closing) / repeat, and (stitches - plus) / multiple."""
    spec = yaml.safe_load(SPEC.read_text(encoding="utf-8"))
    panels = [size["panel"] for size in spec["sizes"].values()]
    times = [(panel["rows"] - 2 - 2) / 4 for panel in panels]
    across = [(panel["stitches"] - 2) / 4 for panel in panels]
    assert all(each.is_integer() for each in (*times, *across))

    def string(figures: Iterator[object]) -> str:
        first, *rest = (str(figure) for figure in figures)
        return f"{first} ({', '.join(rest)})"

    assert sheet.texts("chart-sizes") == [
        f"Sizes {string(iter(spec['sizes']))}",
        f"foundation chain: {string(panel['stitches'] + 2 for panel in panels)}",
        f"stitches: {string(panel['stitches'] for panel in panels)}",
        f"stitch repeats across: {string(int(each) for each in across)}",
        f"repeat rows 3 to 6: {string(int(each) for each in times)} times",
        f"rows in all: {string(panel['rows'] for panel in panels)}",
    ]


def test_the_description_says_it_all_in_words(sheet: Drawn) -> None:
    assert "Row 3, RS" not in sheet.sheet.description
    assert "Row 4 (WS): hdc, (hdc, 2 BPdc, hdc) across, hdc." in sheet.sheet.description
    assert "repeat rows 3 to 6: " in sheet.sheet.description


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
def test_the_sheet_is_clear(tidepool: tuple[Design, tuple[Result, ...]], paper: Paper) -> None:
    page = drawn(*tidepool, paper)
    assert layout_faults(read_page(to_svg(page.sheet))) == []
    assert page.sheet.unplaced == ()


def test_the_sheet_is_one_of_the_design_and_only_where_there_is_a_chart(
    tidepool: tuple[Design, tuple[Result, ...]],
) -> None:
    design, results = tidepool
    bare = with_chart(design, None, 1, 0)
    assert DESIGN_SHEETS["panel"](Setting(design=bare, results=results, paper=A4, scale=5)) is None
    assert DESIGN_SHEETS["panel"](Setting(design=design, results=results, paper=A4, scale=5)) is not None


@pytest.mark.slow
@given(made=fitting_charts())
@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_any_chart_is_drawn_clearly_or_said_to_be_left_out(
    tidepool: tuple[Design, tuple[Result, ...]], made: tuple[Chart, int, int]
) -> None:
    design, results = tidepool
    chart, multiple, plus = made
    page = drawn(with_chart(design, chart, multiple, plus), results)
    assert layout_faults(read_page(to_svg(page.sheet))) == []
    assert list(stray_symbols(page)) == []
    if page.rows == 0:
        assert any("stitch grid" in each for each in page.sheet.unplaced)
        return
    width = len(page.cells(1))
    shown = {name for number in range(1, page.rows + 1) for name, _ in page.stitches(number)}
    assert page.rows == len(chart.rows)
    assert (width - plus) % multiple == 0
    assert set(key_words(page)) == {SLUGS[name] for name in shown}
    for number, row in enumerate(chart.rows, start=1):
        order = [worked.abbreviation for worked in row.stitches(width) if worked.stitch.makes]
        seen = [SLUGS[name] for name, _ in page.stitches(number)]
        assert seen == (order[::-1] if number % 2 else order)
        assert len(page.cells(number)) == width


RIB = "hdc, (2 FPtr, 2 BPtr) across, hdc"


@pytest.mark.slow
@pytest.mark.parametrize(
    ("chart", "multiple", "plus", "left_out"),
    [
        (chart_of(*[RIB, "hdc across"] * 6, setup=("hdc across",)), 4, 2, ()),
        (chart_of(*[RIB, "hdc across"] * 8, setup=("hdc across",)), 4, 2, ("the rows in words",)),
        (chart_of(*[RIB, "hdc across"] * 13, setup=("hdc across",)), 4, 2, ("the rows in words",)),
        (
            chart_of(*[RIB, "hdc across"] * 30, setup=("hdc across",)), 4, 2,
            ("the stitch grid of 61 rows by 6 stitches",),
        ),
        (
            chart_of("(40 dc) across"), 40, 0,
            ("the stitch grid of 1 rows by 40 stitches",),
        ),
        (
            chart_of(*[RIB, "hdc across"] * 60, setup=("hdc across",)), 4, 2,
            ("the stitch grid of 121 rows by 6 stitches", "the rows in words"),
        ),
    ],
    ids=["short", "in two columns", "beside the key", "too tall", "too wide", "not even in words"],
)  # fmt: skip
def test_what_has_no_room_is_left_out_and_named(
    tidepool: tuple[Design, tuple[Result, ...]],
    chart: Chart,
    multiple: int,
    plus: int,
    left_out: tuple[str, ...],
) -> None:
    design, results = tidepool
    page = drawn(with_chart(design, chart, multiple, plus), results)
    assert page.sheet.unplaced == left_out
    assert layout_faults(read_page(to_svg(page.sheet))) == []
    assert list(stray_symbols(page)) == []
    no_grid = any("stitch grid" in each for each in left_out)
    assert (page.rows == 0) == no_grid
    said = " ".join(page.texts("chart-heading"))
    assert (f"no room on this sheet for {left_out[0]}" in said) if no_grid else "no room" not in said
    if not no_grid:
        for cell in page.cells(1):
            assert cell[2] - cell[0] >= SMALLEST_CELL - 0.001


def test_a_size_whose_counts_do_not_fit_gets_a_dash_and_a_word(
    tidepool: tuple[Design, tuple[Result, ...]],
) -> None:
    design, results = tidepool
    first, second, *others = design.sizes
    odd = replace(design, sizes=(replace(first, panel_rows=27), replace(second, panel_stitches=11), *others))
    lines = drawn(odd, results).texts("chart-sizes")
    assert lines[3].startswith("stitch repeats across: 2 (\N{EN DASH}, 3")
    assert lines[4].startswith("repeat rows 3 to 6: \N{EN DASH} (")
    assert lines[-1] == "where there is a dash, the panel does not fit the chart: see the checks of that size"


@pytest.mark.parametrize(
    ("chart", "words"),
    [
        (chart_of("hdc across"), "The repeat has an odd number of rows (1)"),
        (chart_of("(sk, ch) across", "hdc across"), "A skipped stitch (sk) has no cell"),
    ],
)
def test_what_a_reader_must_know_is_said(
    tidepool: tuple[Design, tuple[Result, ...]], chart: Chart, words: str
) -> None:
    design, results = tidepool
    said = [" ".join(drawn(each, results).texts("chart-heading"))
            for each in (with_chart(design, chart, 2, 0), design)]  # fmt: skip
    assert [words in each for each in said] == [True, False]


def test_a_small_multiple_is_shown_often_enough_to_be_seen(
    tidepool: tuple[Design, tuple[Result, ...]],
) -> None:
    design, results = tidepool
    page = drawn(with_chart(design, chart_of("hdc across", "sc across"), 1, 0), results)
    assert len(page.cells(1)) == 8
    assert page.texts("stitch-repeat") == ["any number of stitches"]


def test_two_repeats_are_shown_unless_only_one_has_room(tidepool: tuple[Design, tuple[Result, ...]]) -> None:
    design, results = tidepool
    for multiple, width in ((10, 21), (22, 23)):
        chart = chart_of(f"({multiple} dc) across, dc")
        page = drawn(with_chart(design, chart, multiple, 1), results)
        assert len(page.cells(1)) == width
        assert extent(chart, CountRule(multiple=multiple, plus=1), width // multiple).stitches == width
