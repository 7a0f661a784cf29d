"""The stitches of a chart that are worked across, and how often: written under it, or in each row."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from schematics.crochet.charts.chart import Chart, ChartRow, Side, tally
from schematics.crochet.charts.placed_stitches import WorkedRow
from schematics.drawing.charts.chart_layout import ChartLayout


@dataclass(frozen=True, slots=True)
class StitchRepeats:
    """A stretch worked across: ``edges`` of its repeats from left to right, in mm, and stitches in each."""

    edges: tuple[float, ...]
    unit: int

    @property
    def words(self) -> str:
        """``4 times``."""
        times = len(self.edges) - 1
        return "once" if times == 1 else f"{times} times"


@dataclass(frozen=True, slots=True)
class ChartRepeats:
    """What is worked across: ``common`` stretches of all rows, or else the ``borders`` of each row, in mm."""

    common: tuple[StitchRepeats, ...]
    borders: tuple[tuple[float, ...], ...]


def stitch_repeats(chart: Chart, layout: ChartLayout) -> ChartRepeats:
    """The stretches of a chart's rows, counted in the stitches that each row makes.

    They are common to all if every row has them, but for rows of one stitch all across, and stands on the one
    below.
    A row's borders are those of its repeats of several stitches.
    """
    own = [
        tuple(_stretches(chart.rows[row.number - 1], layout, place)) for place, row in enumerate(layout.rows)
    ]
    worked = {each for each, row in zip(own, layout.rows, strict=True) if not _is_plain(row)}
    if len(worked) <= 1 and len({layout.foundation, *layout.xs}) == 1:
        return ChartRepeats(next(iter(worked), ()), ((),) * len(own))
    borders = (sorted({x for each in stretches if each.unit > 1 for x in each.edges}) for stretches in own)
    return ChartRepeats((), tuple(map(tuple, borders)))


def _is_plain(row: WorkedRow) -> bool:
    """Whether it is one stitch all across, so that any stretch is true of it."""
    return len({placed.worked for placed in row.stitches}) == 1 and row.stitch_count == len(row.stitches)


def _stretches(row: ChartRow, layout: ChartLayout, place: int) -> Iterator[StitchRepeats]:
    """Those of a row of the list, from left to right."""
    worked = layout.rows[place]
    done = 0
    repeats: list[StitchRepeats] = []
    for part in row.parts:
        unit = tally(part.items).makes
        times = worked.times if part.across else 1
        if part.across and unit and times:
            edges = sorted(_edge(layout, place, done + unit * step) for step in range(times + 1))
            repeats.append(StitchRepeats(tuple(edges), unit))
        done += unit * times
    yield from repeats if worked.side is Side.WRONG else repeats[::-1]


def _edge(layout: ChartLayout, place: int, count: int) -> float:
    """Where, in mm, the stitches of a row end after so many: between two of them where they stand apart."""
    worked = layout.rows[place]
    column = worked.stitch_count - count if worked.side is Side.RIGHT else count
    step = layout.side / 2
    beside = [layout.x(place, each) + offset for each, offset in ((column - 1, step), (column, -step))
              if 0 <= each < worked.stitch_count]  # fmt: skip
    return round(sum(beside) / len(beside), 6)
