"""The chart sheets of bands and borders: one for each chart, its widths told and few repeats drawn."""

from __future__ import annotations

from pathlib import Path

from schematics.checks.evaluation import evaluate
from schematics.drawing.charts.part_charts import draw_part_charts
from schematics.drawing.compose import Drawing
from schematics.drawing.ink.marks import Text
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


def test_every_band_and_border_with_a_chart_has_a_sheet(tmp_path: Path) -> None:
    assert list(sheets(tmp_path, with_charted_bands(TWO_SIZES))) == [
        "hem edging, stitch chart",
        "yoke, stitch chart",
        "neck band, stitch chart",
        "arm band, stitch chart",
    ]
    assert not sheets(tmp_path, SPEC)


def test_of_the_many_repeats_of_a_border_two_are_drawn(tmp_path: Path) -> None:
    """Shells on multiples of 8: 16 of 176 and of 192, and no foundation chain."""
    words = sheets(tmp_path, TWO_SIZES)["hem edging, stitch chart"]
    assert "Sizes 4 (6 years): 176 (192) stitches, of which 16 are drawn" in words
    assert "[16]" in words
    assert "stitches: 176 (192)" in words
    assert "worked on the row of the body below it" in words
    assert "foundation chain" not in words


def test_a_band_is_drawn_as_wide_as_it_is_deep(tmp_path: Path) -> None:
    words = sheets(tmp_path, with_charted_bands(TWO_SIZES))["neck band, stitch chart"]
    assert "Sizes 4 (6 years): 6 stitches" in words
    assert "rows in all: 72 (72)" in words
    assert "foundation chain: 7 (7)" in words


def test_a_folded_body_has_a_chart_for_its_back_and_one_for_each_front(tmp_path: Path) -> None:
    """Both fronts are alike; 124 is no multiple of 8, so the back is told as a dash."""
    found = sheets(tmp_path, FOLDED)
    assert list(found) == ["hem edging, back, stitch chart", "hem edging, each front, stitch chart"]
    assert "56 stitches, of which 16 are drawn" in found["hem edging, each front, stitch chart"]
    assert "repeat rows 2 and 3: \N{EN DASH} times" in found["hem edging, back, stitch chart"]


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
