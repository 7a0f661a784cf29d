"""Panels: read, counted and placed as a maker works them by hand, written and read again."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from schematics.crochet.charts.chart_rules import chart_faults
from schematics.crochet.charts.chart_text import parse_row
from schematics.crochet.charts.worked_rows import row_counts, work_rows
from schematics.crochet.stitch_list import TRADE
from schematics.crochet.stitches import StitchBook
from schematics.crochet.terms import Terms
from schematics.reading.chart_block import OwnStitchBlock
from tests.crochet.panels import PANELS
from tests.crochet.panels.compared import assert_worked_as_by_hand
from tests.crochet.panels.panel import Panel
from tests.examples import marked, thorough
from tests.reading.files import edited, read

each_panel = pytest.mark.parametrize("panel", PANELS, ids=lambda panel: panel.name.replace(" ", "-"))
ONE_OF_EACH = tuple({panel.shows: panel for panel in PANELS}.values())
"""A panel of each kind."""
RULES = "    multiple: {of: 4, plus: 2}\n    row_repeat: {rows: 8, setup: 2, closing: 1}\n"


def test_two_or_more_panels_of_each_kind() -> None:
    kinds = Counter(panel.shows for panel in PANELS)
    assert len(PANELS) >= 40
    assert len(kinds) == 12
    assert min(kinds.values()) >= 2
    assert len({panel.name for panel in PANELS}) == len(PANELS)


@pytest.mark.slow
@pytest.mark.parametrize("panel", marked(PANELS if thorough() else ONE_OF_EACH), ids=lambda each: each.name)
def test_read_from_a_spec(panel: Panel, tmp_path: Path) -> None:
    rows = len(panel.setup) + 2 * len(panel.repeat) + len(panel.closing)
    sizes = ("panel: {stitches: 14, rows: 43}", f"panel: {{stitches: {max(panel.counts)}, rows: {rows}}}")
    fabric = read(tmp_path, edited((RULES, panel.yaml), sizes, sizes)).parts.centre_panel
    assert fabric.chart == panel.chart
    assert (fabric.stitch_rule, fabric.row_rule) == (panel.rule, panel.row_rule)
    assert list(chart_faults(panel.chart, panel.rule, panel.row_rule)) == []


@each_panel
def test_counted_as_on_paper(panel: Panel) -> None:
    for width, counts in panel.counts.items():
        assert panel.rule.allows(width)
        assert row_counts(panel.chart, width, 1) == counts
        assert tuple(len(row.made) for row in panel.worked_by_hand(width, 1)) == counts


@each_panel
def test_written_out_as_on_paper(panel: Panel) -> None:
    width = min(panel.counts)
    offered = (width, *panel.counts[width])
    rows = work_rows(panel.chart, width, 1)
    assert panel.written_out
    for number, text in panel.written_out.items():
        names = text.split(", ")
        assert [token.name for token in panel.tokens(panel.rows[number - 1], offered[number - 1])] == names
        placed = [each.worked.stitch.abbreviation for each in rows[number - 1].stitches]
        assert placed == [name for name in names if name != "sk"]


@each_panel
@pytest.mark.parametrize("repeats", [1, 3])
def test_worked_stitch_by_stitch_as_by_hand(panel: Panel, repeats: int) -> None:
    """Every stitch stands on the stitches, and goes round or into the one, that a maker finds from hers."""
    for width in panel.counts:
        assert_worked_as_by_hand(
            work_rows(panel.chart, width, repeats), list(panel.worked_by_hand(width, repeats))
        )


@each_panel
def test_what_is_written_is_read_again(panel: Panel) -> None:
    own = [OwnStitchBlock.model_validate(each).stitch(name) for name, each in panel.own.items()]
    us = TRADE.with_own(own)
    uk = StitchBook(TRADE.stitches, uk=True).with_own(own)
    colours = frozenset(panel.colours)
    for row in panel.chart.rows:
        assert parse_row(str(row), us, colours) == row
        assert parse_row(Terms.UK.text(str(row)), uk, colours) == row
