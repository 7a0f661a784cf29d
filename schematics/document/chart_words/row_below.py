"""What the stitches of a row find below: raised strands or posts, and chains among the stitches."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from schematics.crochet.charts.chart import Crossing, Side, StitchRun
from schematics.crochet.charts.placed_stitches import PlacedStitch, WorkedRow, column_under

Worked = tuple[tuple[WorkedRow, ...], int]
"""The rows of a piece, and the place among them of the row that is put into words."""


@dataclass(frozen=True, slots=True)
class Strands:
    """The ``number`` of raised strands under a crossing, and which are ``taken``, counted from 1."""

    taken: tuple[int, ...]
    number: int


class RowBelow:
    """What a row of a chart is worked into or round, in all sizes and each time that it is worked."""

    def __init__(self, worked: Sequence[Worked] = ()) -> None:
        self._worked = worked

    def strands_or_posts(self, run: StitchRun) -> frozenset[bool]:
        """Whether what the run goes round is a raised strand (True) or a post (False)."""
        return frozenset(
            placed.target.surface
            for rows, place in self._worked
            for placed in rows[place].stitches
            if placed.written == run.column and placed.target
        )

    def chains(self, run: StitchRun) -> bool:
        """Whether chains are among what the run is worked into."""
        return any(
            placed.written == run.column and not rows[place - 1].chain_columns().isdisjoint(placed.base)
            for rows, place in self._worked
            if place
            for placed in rows[place].stitches
        )

    def strands(self, crossing: Crossing, run: StitchRun) -> Strands | None:
        """Which strands a run of the crossing goes round; None where it is not the same each time."""
        each_time = {
            _strands(rows, place, own, taking)
            for rows, place in self._worked
            for own, taking in _crossings(rows[place], crossing, run)
        }
        return each_time.pop() if len(each_time) == 1 else None


def _crossings(
    row: WorkedRow, crossing: Crossing, run: StitchRun
) -> Iterator[tuple[Sequence[PlacedStitch], range]]:
    """Each time the crossing is worked in the row: the run's stitches, and the columns it is worked over."""
    written: defaultdict[int, list[PlacedStitch]] = defaultdict(list)
    for placed in row.stitches:
        written[placed.written].append(placed)
    parts = [(written[each.column], each.count) for each in crossing.items if isinstance(each, StitchRun)]
    own = written[run.column]
    for time in range(len(own) // run.count):
        base = [
            column
            for stitches, count in parts
            for placed in stitches[time * count : (time + 1) * count]
            for column in placed.base
        ]
        yield own[time * run.count : (time + 1) * run.count], range(min(base), max(base) + 1)


def _strands(
    rows: Sequence[WorkedRow], place: int, own: Sequence[PlacedStitch], over: range
) -> Strands | None:
    targets = [placed.target for placed in own if placed.target]
    down = targets[0].row
    between = [rows[row].standing() for row in range(place - 1, down, -1)]
    under = {column_under(column, between) for column in over}
    strands = sorted(
        {each.column for each in rows[down].stitches if each.worked.surface and each.column in under},
        reverse=rows[place].side is Side.RIGHT,
    )
    if not all(target.surface and target.column in strands for target in targets):
        return None
    return Strands(tuple(strands.index(target.column) + 1 for target in targets), len(strands))
