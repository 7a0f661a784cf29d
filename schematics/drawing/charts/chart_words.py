"""What a stitch chart's sheet says in words: how to read it, its rows, and the counts of every size."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from schematics.crochet.charts.chart import Chart, ChartSection, is_right_side
from schematics.crochet.fabric import Fabric
from schematics.design.design import Size
from schematics.design.size_string import size_string
from schematics.drawing.charts.stitch_grid import row_span

_MISFIT = "\N{EN DASH}"


def reading_facts(fabric: Fabric, chart: Chart) -> Iterator[str]:
    """How the chart is read, a paragraph each."""
    yield (
        "Read from the bottom up: right-side rows (RS) from right to left, wrong-side rows (WS) from left to "
        "right. A cell is a stitch made; its symbol shows the stitch as worked in that row, on wrong-side "
        "rows too. US terms."
    )
    chains = fabric.turning_chains
    if chains:
        which = "The chain that turns a row is" if chains == 1 else f"The {chains} chains that turn a row are"
        yield f"{which} not drawn and not counted as a stitch."
    if any(not worked.stitch.makes for worked in chart.used()):
        yield "A skipped stitch (sk) has no cell: the chart goes on with the next stitch made."
    if len(chart.repeat) % 2:
        yield (
            f"The repeat has an odd number of rows ({len(chart.repeat)}): every second time it is worked, "
            "right side and wrong side change places, and so they may for the closing rows."
        )


def rows_in_words(chart: Chart) -> list[str]:
    """Every row as a sentence, row 1 first."""
    sides = {True: "RS", False: "WS"}
    return [
        f"Row {number} ({sides[is_right_side(number)]}): {row}."
        for number, row in enumerate(chart.rows, start=1)
    ]


def size_lines(fabric: Fabric, chart: Chart, sizes: Sequence[Size]) -> list[str]:
    """Counts of every size; a dash where a size's count does not fit the fabric's rule."""
    across, along = fabric.stitch_rule, fabric.row_rule
    numbers = next(numbers for section, numbers in chart.sections() if section is ChartSection.REPEAT)
    stitches = [size.panel_stitches for size in sizes]
    rows = [size.panel_rows for size in sizes]
    stitch_repeats = [
        str((count - across.plus) // across.multiple) if across.allows(count) else _MISFIT
        for count in stitches
    ]
    row_repeats = [str(along.repeats(count)) if along.rule.allows(count) else _MISFIT for count in rows]
    lines = [
        f"foundation chain: {_string(fabric.foundation_chain(count) for count in stitches)}",
        f"stitches: {_string(stitches)}",
        f"stitch repeats across: {size_string(stitch_repeats)}",
        f"repeat {row_span(numbers)}: {size_string(row_repeats)} times",
        f"rows in all: {_string(rows)}",
    ]
    if _MISFIT in (*stitch_repeats, *row_repeats):
        lines.append("where there is a dash, the panel does not fit the chart: see the checks of that size")
    return lines


def _string(counts: Iterator[int] | Sequence[int]) -> str:
    return size_string([str(count) for count in counts])


def sizes_words(sizes: Sequence[Size]) -> str:
    """``Sizes 2 (4, 6)``."""
    return f"Sizes {size_string([size.name for size in sizes])}"


def chart_description(fabric: Fabric, chart: Chart, sizes: Sequence[Size]) -> str:
    """The whole sheet in words, for screen readers."""
    return (
        f"Stitch chart of the centre panel in {fabric.stitch}. {' '.join(rows_in_words(chart))} "
        f"{sizes_words(sizes)}: {'; '.join(size_lines(fabric, chart, sizes))}."
    )
