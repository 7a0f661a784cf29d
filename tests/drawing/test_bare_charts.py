"""Charts as they stand in patterns: within a page, bars told apart when that is printed at 60 %."""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import pairwise

import pytest
from shapely import LineString

from schematics.crochet.terms import Terms
from schematics.document.chart_words.chart_piece import ChartPiece
from schematics.drawing.bare.charts import CHART_SCALE, bare_charts
from schematics.drawing.charts.chart_views import chart_views
from schematics.drawing.charts.chart_words import view_heading
from schematics.drawing.ink.marks import STROKES, Pen, Text
from tests.crochet.panels.panel import Panel
from tests.drawing.chart_sheets import Page

DOTS = 2 * 25.4 / 300
"""Two dots of 300 to the inch, in mm."""
NARROWEST_TEXT, LOWEST_TEXT = 170.0, 239.4
"""Within margins of 20 mm of A4, 210 mm wide, and of Letter, 279.4 mm high."""

STRANDS = "sc across, (sc, surface {} 2 rows below, sc) x 4, sc across"


def pages(setup: tuple[str, ...], *rows: str, stitches: int, plus: int) -> list[Page]:
    panel = Panel(name="posts", shows="", multiple=(2, plus), setup=setup, repeat=rows, counts={stitches: ()})
    pieces = [ChartPiece(size="S", stitches=stitches, rows=len(setup) + len(rows))]
    sheets = bare_charts(panel.chart, "panel", chart_views(panel.fabric, pieces), Terms.US)
    return [Page(sheet) for sheet in sheets[1:]]


def bars(page: Page, stitches: int, name: str) -> list[list[LineString]]:
    """The slanting short strokes of each stitch of that name, from the top down."""
    found = []
    for symbol in page.symbols(stitches):
        if name in symbol.slug:
            lines = [LineString(path) for _, path in symbol.paths]
            stem = max(lines, key=lambda line: line.length)
            slanting = [line for line in lines if line is not stem and line.bounds[1] != line.bounds[3]]
            found.append([line for line in slanting if len(line.coords) == 2])
    return found


@pytest.mark.slow
@pytest.mark.parametrize(("name", "number", "stitches"), [("FPdc", 1, 60), ("FPtr", 2, 12), ("BPdtr", 3, 30)])
def test_bars_of_posts_are_apart_on_a_page_printed_at_60_percent(
    name: str, number: int, stitches: int
) -> None:
    row = "(sc, {}, sc, {}) across".format(*[f"{name} 2 rows below"] * 2)
    sheets = pages(("sc across", "sc across"), row, "sc across", stitches=stitches - stitches % 4, plus=0)
    shown = [each for page in sheets for each in bars(page, stitches - stitches % 4, name)]
    assert len(shown) == (stitches - stitches % 4) // 2
    share = 0.6 * CHART_SCALE
    for lines in shown:
        assert len(lines) == number
        for upper, lower in pairwise(lines):
            assert share * (upper.distance(lower) - STROKES[Pen.SYMBOL].width) >= DOTS


@pytest.mark.slow
@pytest.mark.parametrize(("stitches", "rows"), [(12, 60), (30, 2), (80, 8)])
def test_charts_keep_within_a_page(stitches: int, rows: int) -> None:
    plain = "sc across"
    sheets = pages((plain,) * 2, STRANDS.format("FPtr"), *[plain] * (rows - 1), stitches=stitches, plus=8)
    assert all(page.sheet.paper.width * CHART_SCALE <= NARROWEST_TEXT for page in sheets)
    assert all(page.sheet.paper.height * CHART_SCALE <= LOWEST_TEXT for page in sheets)
    places = {
        (each.row, each.column)
        for page in sheets for each in page.symbols(stitches) if not re.match("surface", each.slug)
    }  # fmt: skip
    assert len(places) == stitches * (rows + 2)


WIDE = {16: 4, 18: 5, 26: 9}
"""Of two stitches each at both edges of eight, ``2 k + 8``: how often an edge's is worked."""


def in_widths(*rows: str, multiple: tuple[int, int], widths: Iterable[int]) -> tuple[Panel, list[ChartPiece]]:
    panel = Panel(name="edges", shows="", multiple=multiple, setup=("sc across",), repeat=rows, counts={})
    return panel, [ChartPiece(size=f"{width}", stitches=width, rows=1 + len(rows)) for width in widths]


def test_widths_that_differ_in_repeats_alone_share_a_chart_that_draws_them_once() -> None:
    """A row of it, its edges put in as often as is said, is the row of each width."""
    rows = "sc across, hdc, FPdc, 4 hdc, FPdc, hdc, sc across", "sc across"
    panel, pieces = in_widths(*rows, multiple=(2, 8), widths=WIDE)
    (one,) = chart_views(panel.fabric, pieces, once_across=True)
    assert one.across == tuple(WIDE.values())
    for (width, times), wide in zip(WIDE.items(), chart_views(panel.fabric, pieces), strict=True):
        for narrow, whole in zip(one.rows, wide.rows, strict=True):
            names = [each.worked.abbreviation for each in narrow.stitches]
            assert [each.worked.abbreviation for each in whole.stitches] == [
                *names[:1] * times, *names[1:-1], *names[-1:] * times
            ]  # fmt: skip
        assert wide.stitches == width
    _, sheet = bare_charts(panel.chart, "panel", [one], Terms.US)
    words = [mark.words for group in sheet.groups for mark in group.marks if isinstance(mark, Text)]
    assert words.count("4 (5, 9) times") == 2
    assert "Sizes 16 (18, 26): 16 (18, 26) stitches" in words
    assert not [each for each in words if each.startswith("[")], (
        "the counts of one width are not those of all"
    )


def test_widths_whose_rows_repeat_at_different_places_have_a_chart_each() -> None:
    rows = "hdc, (2 FPdc, 2 hdc) across, hdc", "(2 sc, 2 hdc) across, 2 sc"
    panel, pieces = in_widths(*rows, multiple=(4, 2), widths=(10, 14))
    assert [view.across for view in chart_views(panel.fabric, pieces, once_across=True)] == [(), ()]


def test_a_chart_of_the_only_size_does_not_name_it() -> None:
    panel, pieces = in_widths("sc across", multiple=(2, 0), widths=WIDE)
    (alone,) = chart_views(panel.fabric, pieces[:1])
    assert view_heading(alone) == f"{pieces[0].stitches} stitches"
    several = chart_views(panel.fabric, pieces)
    assert view_heading(several[0]) == f"Size {pieces[0].size}: {pieces[0].stitches} stitches"
