"""The chart sheets of bands and borders: one for each chart, its widths told and few repeats drawn."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest

from schematics.checks.evaluation import evaluate
from schematics.document.chart_words.chart_piece import ChartPiece
from schematics.drawing.charts.panel_chart import chart_sheets
from schematics.drawing.charts.part_charts import charted_parts, draw_part_charts
from schematics.drawing.compose import Drawing
from schematics.drawing.ink.marks import Text
from schematics.drawing.ink.page import drawing_area
from schematics.drawing.ink.sheet import A4
from schematics.drawing.sheets import Pages, setting_of
from tests.drawing.test_patterned import FLARED, FOLDED
from tests.pattern.test_border_words import TWO_SIZES, with_charted_bands
from tests.specs_for_tests import SPEC, read


def sheets(folder: Path, text: str) -> dict[str, str]:
    """The words on each sheet, by its title."""
    design = read(folder, text)
    return {each.title: _words(each) for each in draw_part_charts(setting_of(design, evaluate(design)))}


def _words(drawing: Drawing) -> str:
    return " ".join(mark.words for group in drawing.groups for mark in group.marks if isinstance(mark, Text))


@pytest.mark.slow
def test_every_band_and_border_with_a_chart_has_a_sheet(tmp_path: Path) -> None:
    assert list(sheets(tmp_path, with_charted_bands(TWO_SIZES))) == [
        "hem edging, stitch chart",
        "yoke, stitch chart",
        "neck band, stitch chart",
        "arm band, stitch chart",
    ]
    assert not sheets(tmp_path, SPEC)


@pytest.mark.slow
def test_of_the_many_repeats_of_a_border_two_are_drawn(tmp_path: Path) -> None:
    """Shells on multiples of 8: 16 of 176 and of 192, and no foundation chain."""
    words = sheets(tmp_path, TWO_SIZES)["hem edging, stitch chart"]
    assert "Sizes 4 (6 years): 176 (192) stitches, of which 16 are drawn" in words
    assert "[16]" in words
    assert "stitches: 176 (192)" in words
    assert "worked on the row of the body below it" in words
    assert "foundation chain" not in words


@pytest.mark.slow
@pytest.mark.parametrize("sizes", [7, 14])
def test_a_heading_wider_than_the_page_is_broken_and_not_its_chart(tmp_path: Path, sizes: int) -> None:
    """Two shells of 8 stitches fit any page, however many counts of three figures stand over them."""
    design = read(tmp_path, TWO_SIZES)
    results = evaluate(design)
    fabric, _ = charted_parts(results)["hem edging"]
    pieces = [ChartPiece(size=f"{2 + 2 * each}", stitches=176 + 8 * each, rows=6) for each in range(sizes)]
    (sheet,) = chart_sheets(setting_of(design, results), "hem edging", fabric, pieces, on_body=True)
    lines = [mark for group in sheet.groups if group.kind == "view" for mark in group.marks]
    assert len(lines) > 1
    words = " ".join(mark.words for mark in lines if isinstance(mark, Text))
    assert words.endswith(f"{176 + 8 * (sizes - 1)}) stitches, of which 16 are drawn")
    boxes = [mark.box() for mark in lines if isinstance(mark, Text)]
    area = drawing_area(A4)
    assert all(area.x0 <= box.bounds[0] and box.bounds[2] <= area.x1 for box in boxes)
    assert all(upper.bounds[3] < lower.bounds[1] for upper, lower in pairwise(boxes))
    cells = [mark for group in sheet.groups if group.kind == "cells" for mark in group.marks]
    assert len(cells) == 4 * 16


@pytest.mark.slow
def test_a_band_is_drawn_as_wide_as_it_is_deep(tmp_path: Path) -> None:
    words = sheets(tmp_path, with_charted_bands(TWO_SIZES))["neck band, stitch chart"]
    assert "Sizes 4 (6 years): 6 stitches" in words
    assert "rows in all: 72" in words
    assert "foundation chain: 7" in words


def test_a_folded_body_has_a_chart_for_its_back_and_one_for_each_front(tmp_path: Path) -> None:
    """Both fronts are alike; 124 is no multiple of 8, so the back is told as a dash."""
    found = sheets(tmp_path, FOLDED)
    assert list(found) == ["hem edging, back, stitch chart", "hem edging, each front, stitch chart"]
    assert "56 stitches, of which 16 are drawn" in found["hem edging, each front, stitch chart"]
    assert "repeat rows 2 and 3: \N{EN DASH} times" in found["hem edging, back, stitch chart"]


@pytest.mark.slow
def test_the_sheets_are_in_the_workbook(tmp_path: Path) -> None:
    design = read(tmp_path, FLARED)
    pages = Pages(setting_of(design, evaluate(design)))
    assert [stem for stem, size in pages.names if size is None] == [
        "cover",
        "sizes",
        "nest",
        "charts",
        "charts-2",
    ]
