"""A chart worked row by row: the count of each row, and where each stitch of it stands."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from schematics.crochet.charts.bracket_rules import stitches_worked
from schematics.crochet.charts.chart import Chart, ChartRow, ChartSection
from schematics.crochet.charts.chart_fault import ChartFault, ChartFaultError, uneven_words
from schematics.crochet.charts.placed_stitches import WorkedRow
from schematics.crochet.charts.row_worker import RowWorker
from schematics.crochet.charts.rows_below import RowsBelow


def row_counts(chart: Chart, stitches: int, repeats: int) -> tuple[int, ...]:
    """The stitches after each row of a piece of so many at its foot; the last row of the piece is the last.

    Raises:
        ChartFaultError: a row does not come out even.
    """
    counts: list[int] = []
    for number, section, index, row in _order(chart, repeats):
        offered = counts[-1] if counts else stitches
        try:
            times = row.times(offered)
        except ValueError:
            fault = ChartFault(
                sentence=f"row {number}: {uneven_words(row, offered)}", section=section, index=index
            )
            raise ChartFaultError(fault) from None
        counts.append(row.once.makes + times * row.across.makes)
    return tuple(counts)


@lru_cache(maxsize=16)
def work_rows(chart: Chart, stitches: int, repeats: int) -> tuple[WorkedRow, ...]:
    """Every row of a piece of so many stitches at its foot, worked from the foundation chain up.

    Raises:
        UnevenRowError: a row does not come out even.
        ChartFaultError: a stitch has nothing to go into.
    """
    below = RowsBelow(stitches)
    side = chart.first_side
    for number, section, index, row in _order(chart, repeats):
        below.add(RowWorker(number, section, index, row, side, below).worked_row())
        side = side.other
    return tuple(below.rows)


def stitches_in(chart: Chart, stitches: int, repeats: int) -> int:
    """How many stitches are worked in a piece of so many at its foot, which its rows fit."""
    offered = (stitches, *row_counts(chart, stitches, repeats))
    return sum(
        _worked_in(row, row.times(width))
        for row, width in zip(rows_in_order(chart, repeats), offered, strict=False)
    )


def _worked_in(row: ChartRow, times: int) -> int:
    return sum(stitches_worked(part.items) * (times if part.across else 1) for part in row.parts)


def rows_in_order(chart: Chart, repeats: int) -> Iterator[ChartRow]:
    """Every row of a piece, from the bottom up."""
    return (row for *_, row in _order(chart, repeats))


def _order(chart: Chart, repeats: int) -> Iterator[tuple[int, ChartSection, int, ChartRow]]:
    for section, numbers in chart.sections():
        for _ in range(repeats if section is ChartSection.REPEAT else 1):
            for index, number in enumerate(numbers):
                yield number, section, index, chart.rows[number - 1]
