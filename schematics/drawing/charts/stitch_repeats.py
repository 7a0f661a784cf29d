"""The stitches of a chart that are worked across, and how often: what the brackets under it show."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from schematics.crochet.charts.chart import Chart, ChartRow, Side, tally
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


def stitch_repeats(chart: Chart, layout: ChartLayout) -> list[StitchRepeats]:
    """Those of the row whose repeat is the widest, on the stitches it is worked into; from left to right.

    None where every row is one stitch all across, and where it is worked less or more often each time.
    """
    across = [(row.across.uses, row.once.uses) for row in chart.rows]
    unit, once = max(across)
    if unit + once < 2 or not unit or chart.adds[1]:
        return []
    number = across.index((unit, once)) + 1
    place = next((place for place, row in enumerate(layout.rows) if row.number == number), None)
    if place is None:
        return []
    return sorted(_stretches(chart.rows[number - 1], layout, place), key=lambda each: each.edges[0])


def _stretches(row: ChartRow, layout: ChartLayout, place: int) -> Iterator[StitchRepeats]:
    worked = layout.rows[place]
    used = 0
    for part in row.parts:
        unit = tally(part.items).uses
        times = worked.times if part.across else 1
        if part.across and unit and times:
            yield StitchRepeats(
                tuple(sorted(_edge(layout, place, used + unit * step) for step in range(times + 1))), unit
            )
        used += unit * times


def _edge(layout: ChartLayout, place: int, used: int) -> float:
    """Where, in mm, the stitches end that a row has worked into after so many."""
    worked = layout.rows[place]
    right = worked.side is Side.RIGHT
    step = layout.side / 2
    if used == 0:
        column, way = (worked.offered - 1, step) if right else (0, -step)
    else:
        column, way = (worked.offered - used, -step) if right else (used - 1, step)
    return layout.x(place - 1, column) + way
