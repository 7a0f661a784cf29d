"""The chart sheets of the shipped ripple, read back: what is shown of each size, brackets, key, words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
import yaml

from schematics.crochet.terms import Terms
from schematics.drawing.charts.panel_chart import LARGEST_CELL, SMALLEST_CELL
from schematics.drawing.ink.sheet import A4, LETTER, Paper
from schematics.drawing.sheets import Pages, setting_of
from tests.drawing.audit_layout import layout_faults
from tests.drawing.chart_sheets import ANY, SVG, Drawn, Worked, drawn, points, with_chart
from tests.drawing.readback import read_page

SPEC = Path(__file__).parents[2] / "specs" / "tidepool.yaml"


@pytest.fixture(scope="module")
def sheets(tidepool: Worked) -> Drawn:
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


@pytest.mark.slow
def test_the_grid_is_the_picture(sheets: Drawn) -> None:
    symbols = {(each.row, each.column): each.slug for each in sheets.symbols(10)}
    expected = {
        (number, column): LETTERS[letter]
        for number, line in enumerate(reversed(PICTURE), start=1)
        for column, letter in enumerate(line, start=1)
    }
    assert symbols == expected


@pytest.mark.slow
def test_a_back_post_of_a_wrong_side_row_looks_as_a_front_post_of_a_right_side_row(sheets: Drawn) -> None:
    """As JIS L 0201 asks, which shows the right side."""
    shapes = {
        each.slug: [
            [(x - each.points[0][0], y - each.points[0][1]) for x, y in path] for _, path in each.paths
        ]
        for each in sheets.symbols(10)
    }
    assert shapes["BPdc"] == [[pytest.approx(point, abs=0.003) for point in path] for path in shapes["FPdc"]]


@pytest.mark.slow
def test_each_width_has_one_chart_under_the_sizes_that_are_as_wide(sheets: Drawn) -> None:
    spec = yaml.safe_load(SPEC.read_text(encoding="utf-8"))
    widths: dict[int, list[str]] = {}
    for name, size in spec["sizes"].items():
        widths.setdefault(size["panel"]["stitches"], []).append(name)
    headings = [
        f"Sizes {first} ({', '.join(others)}): {width} stitches" for width, (first, *others) in widths.items()
    ]
    assert sheets.texts("view") == headings
    assert all(len(sheets.symbols(width)) == 8 * width for width in widths)


def test_cells_are_as_wide_as_can_be_read_and_stand_side_by_side(sheets: Drawn) -> None:
    for width in (10, 14, 18):
        page = sheets.page(width)
        for number in range(1, 9):
            cells = page.cells(width, number)
            assert cells[0][2] - cells[0][0] + 0.001 >= SMALLEST_CELL
            assert cells[0][2] - cells[0][0] <= LARGEST_CELL + 0.001
            assert [cell[0] for cell in cells[1:]] == pytest.approx(
                [cell[2] for cell in cells[:-1]], abs=0.003
            )
            assert (
                cells[0][1] == pytest.approx(page.cells(width, number + 1)[0][3], abs=0.003)
                if number < 8
                else True
            )


@pytest.mark.parametrize(
    ("section", "rows", "words"),
    [
        ("set-up-1", (1, 2), ["set-up"]),
        ("repeat-3", (3, 6), ["repeat", "6 (7) times"]),
        ("closing-7", (7, 8), ["closing"]),
    ],
)
def test_the_sections_are_bracketed_with_how_often_they_are_worked(
    sheets: Drawn, section: str, rows: tuple[int, int], words: list[str]
) -> None:
    page = sheets.page(10)
    group = page.groups("section")[f"section-w10-{section}"]
    (path,) = group.iter(f"{SVG}path")
    ys = [y for _, y in points(path)]
    bottom, top = page.cells(10, rows[0])[0][3], page.cells(10, rows[1])[0][1]
    assert [max(ys), min(ys)] == pytest.approx([bottom - 0.5, top + 0.5], abs=0.003)
    assert [text.text for text in group.iter(f"{SVG}text")] == words


def test_the_stitch_repeats_are_bracketed_and_counted(sheets: Drawn) -> None:
    """Of the ripple, ``hdc, (4 stitches) across, hdc``: all but the edge stitches."""
    for width, times in ((10, 2), (14, 3), (18, 4)):
        page = sheets.page(width)
        group = page.groups("stitch-repeat")[f"stitch-repeat-w{width}-stitch-repeat-1"]
        bracket, *ticks = [points(path) for path in group.iter(f"{SVG}path")]
        cells = page.cells(width, 1)
        assert [bracket[0][0], bracket[-1][0]] == pytest.approx([cells[1][0], cells[-2][2]], abs=0.003)
        inner = [cells[1 + 4 * each][0] for each in range(1, times)]
        assert sorted(tick[0][0] for tick in ticks) == pytest.approx(inner, abs=0.003)
        assert [text.text for text in group.iter(f"{SVG}text")] == [f"{times} times"]


def test_the_key_has_what_is_drawn_on_either_side(sheets: Drawn) -> None:
    words = "half double crochet"
    posts = "front post double crochet WS: BPdc back post double crochet"
    assert sheets.key() == {"hdc": words, "RS: FPdc": posts}


@pytest.mark.slow
def test_in_uk_terms_key_rows_and_facts_are(tidepool: Worked) -> None:
    design, results = tidepool
    sheets = drawn(replace(design, terms=Terms.UK), results)
    assert sheets.key()["RS: FPtr"] == "front post treble crochet WS: BPtr back post treble crochet"
    assert "Row 3 (RS): htr, [2 FPtr, 2 htr] to last st, htr; turn." in " ".join(sheets.texts("chart-rows"))
    assert "UK terms." in " ".join(sheets.texts("chart-heading"))


def test_the_rows_stand_in_words_as_a_pattern_has_them(sheets: Drawn) -> None:
    """28 rows to 48 are 2, 6 to 11 times 4, and 2."""
    stitches = "[10 (10, 14, 14, 14, 18, 18) sts]"
    assert " ".join(sheets.texts("chart-rows")) == " ".join(
        [
            "Rows in words",
            "Turn with ch 2 at the end of each row; it does not count as a stitch.",
            "Each post stitch stands in place of one stitch of the row below: leave the stitch behind it "
            "unworked (for a back post stitch, that in front of it).",
            f"Row 1 (RS): hdc in each st to end; turn. {stitches}",
            f"Row 2 (WS): hdc in each st to end; turn. {stitches}",
            f"Row 3 (RS): hdc, [2 FPdc, 2 hdc] to last st, hdc; turn. {stitches}",
            f"Row 4 (WS): hdc, [hdc, 2 BPdc, hdc] to last st, hdc; turn. {stitches}",
            f"Row 5 (RS): hdc, [2 hdc, 2 FPdc] to last st, hdc; turn. {stitches}",
            f"Row 6 (WS): hdc, [hdc, 2 BPdc, hdc] to last st, hdc; turn. {stitches}",
            f"Rep Rows 3-6 5 (6, 7, 8, 9, 10, 10) times more. {stitches}",
            "Row 27 (31, 35, 39, 43, 47, 47) (RS), chart row 7: hdc, [2 FPdc, 2 hdc] to "
            "last st, hdc; "
            f"turn. {stitches}",
            f"Row 28 (32, 36, 40, 44, 48, 48) (WS), chart row 8: hdc in each st to end. {stitches}",
        ]
    )


def test_the_size_strings_are_those_of_the_counts_in_the_spec(sheets: Drawn) -> None:
    """From the file itself: (rows - set-up - closing) / repeat."""
    spec = yaml.safe_load(SPEC.read_text(encoding="utf-8"))
    panels = [size["panel"] for size in spec["sizes"].values()]

    def string(figures: Iterator[object]) -> str:
        first, *rest = (str(figure) for figure in figures)
        return f"{first} ({', '.join(rest)})"

    assert sheets.texts("chart-sizes") == [
        f"Sizes {string(iter(spec['sizes']))}",
        f"foundation chain: {string(panel['stitches'] + 2 for panel in panels)}",
        f"stitches: {string(panel['stitches'] for panel in panels)}",
        f"repeat rows 3 to 6: {string((panel['rows'] - 4) // 4 for panel in panels)} times",
        f"rows in all: {string(panel['rows'] for panel in panels)}",
    ]


def test_the_description_says_it_all_in_words(sheets: Drawn) -> None:
    for page in sheets.pages:
        assert "Row 4 (WS): hdc, [hdc, 2 BPdc, hdc] to last st, hdc; turn." in page.sheet.description
        assert "repeat rows 3 to 6: " in page.sheet.description


@pytest.mark.slow
@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
def test_the_sheets_are_clear(tidepool: Worked, paper: Paper) -> None:
    for page in drawn(*tidepool, paper).pages:
        assert layout_faults(read_page(page.svg)) == []
        assert page.sheet.unplaced == ()


@pytest.mark.slow
def test_the_sheets_are_the_designs_and_there_are_none_without_a_chart(tidepool: Worked) -> None:
    design, results = tidepool
    assert [stem for stem, size in Pages(setting_of(design, results)).names if size is None][3:] == [
        "panel",
        "panel-2",
    ]
    assert drawn(with_chart(design, None, ANY), results).pages == []


@pytest.mark.slow
def test_a_size_whose_counts_do_not_fit_gets_a_dash_and_a_word(tidepool: Worked) -> None:
    design, results = tidepool
    first, second, *others = design.sizes
    odd = replace(design, sizes=(replace(first, panel_rows=27), replace(second, panel_stitches=11), *others))
    sheets = drawn(odd, results)
    lines = sheets.texts("chart-sizes")
    assert lines[3].startswith("repeat rows 3 to 6: \N{EN DASH} (\N{EN DASH}, 8")
    dash = "where there is a dash, the piece does not fit the chart: see the checks of that size"
    assert " ".join(lines[-2:]) == dash
    assert sheets.texts("view") == ["Sizes 6 (8, 10): 14 stitches", "Sizes S (M): 18 stitches"]


def test_where_no_size_fits_the_chart_is_drawn_as_narrow_as_may_be(tidepool: Worked) -> None:
    design, results = tidepool
    sizes = tuple(replace(size, panel_stitches=11) for size in design.sizes)
    sheets = drawn(replace(design, sizes=sizes), results)
    assert sheets.texts("view") == ["The narrowest that the chart may be: 10 stitches"]
    assert len(sheets.symbols(10)) == 80
