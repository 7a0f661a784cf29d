"""What a stitch chart's sheet says in words: its rows, and the counts of every size."""

from __future__ import annotations

from collections.abc import Sequence

from schematics.crochet.charts.chart import Chart
from schematics.crochet.fabric import Fabric
from schematics.crochet.terms import Terms
from schematics.design.design import Size
from schematics.design.size_string import size_string


def rows_in_words(chart: Chart, terms: Terms) -> list[str]:
    """Every row as a sentence, row 1 first."""
    return [
        f"Row {number} ({chart.side(number)}): {terms.text(str(row))}."
        for number, row in enumerate(chart.rows, start=1)
    ]


def size_lines(fabric: Fabric, sizes: Sequence[Size]) -> list[str]:
    """Counts of every size."""
    stitches = [size.panel_stitches for size in sizes]
    return [
        f"foundation chain: {size_string([str(fabric.foundation_chain(count)) for count in stitches])}",
        f"stitches: {size_string([str(count) for count in stitches])}",
        f"rows in all: {size_string([str(size.panel_rows) for size in sizes])}",
    ]


def sizes_words(sizes: Sequence[Size]) -> str:
    """``Sizes 2 (4, 6)``."""
    return f"Sizes {size_string([size.name for size in sizes])}"
