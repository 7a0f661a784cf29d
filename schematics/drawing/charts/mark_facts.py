"""What a chart's sheets say of its marks: where repeats end, and where a stitch goes round a chain."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from schematics.crochet.charts.chart import Chart
from schematics.drawing.charts.chart_layout import lay_out
from schematics.drawing.charts.chart_views import ChartView
from schematics.drawing.charts.stitch_repeats import stitch_repeats


def mark_facts(chart: Chart, views: Sequence[ChartView]) -> Iterator[str]:
    """How the charts are read, a paragraph each."""
    if any(any(stitch_repeats(chart, lay_out(view.rows, 1.0)).borders) for view in views):
        yield "Heavy lines between the stitches of a row are where its repeat begins and ends each time."
    if any(placed.in_space for view in views for row in view.rows for placed in row.stitches):
        yield (
            "A stitch worked into a space goes round the chain: its foot stands below the chain. That of a "
            "stitch worked into a chain stands above it."
        )
