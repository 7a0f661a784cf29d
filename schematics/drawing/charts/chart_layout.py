"""Where the stitches of a chart stand on the sheet: over what they go into, each in a cell of its own.

A stitch stands over the middle of what it is worked into, where there is room; where there is not, the stitches of a
row are moved apart, as little as can be in the sense of least squares (pool adjacent violators).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from schematics.crochet.charts.chart import Passing, Side
from schematics.crochet.charts.worked_rows import PlacedStitch, WorkedRow
from schematics.crochet.stitches import Height, Loop
from schematics.crochet.symbols import Stroke, StrokeKind, Symbol
from schematics.drawing.charts.stitch_symbols import SPARE, Stance
from schematics.drawing.ink.marks import Point

BESIDE = 0.5
"""How far a stitch on the surface lies beside the middle of the one it lies over, in cells."""

_ROUND_POST = 0.12
_INTO_SPACE = 0.22
"""Shares of a cell's height: where a hook ends in the cell it reaches into, and how far a foot goes into a space."""

_TALLER = 1.2
"""Height of a cell over its width where the fabric has stitches taller than single crochet."""

_MIRRORED = {
    StrokeKind.HOOK_LEFT: StrokeKind.HOOK_RIGHT,
    StrokeKind.HOOK_RIGHT: StrokeKind.HOOK_LEFT,
}
_OTHER_LOOP = {Loop.FRONT: Loop.BACK, Loop.BACK: Loop.FRONT}
_OTHER_PASSING = {Passing.FRONT: Passing.BEHIND, Passing.BEHIND: Passing.FRONT}


def seen_symbol(symbol: Symbol, side: Side) -> Symbol:
    """The symbol from the right side of a stitch that is worked with that side facing."""
    if side is Side.RIGHT:
        return symbol
    return tuple(Stroke(_MIRRORED.get(stroke.kind, stroke.kind), stroke.count) for stroke in symbol)


def seen_loop(loop: Loop | None, side: Side) -> Loop | None:
    """The loop as it is seen from the right side."""
    return loop if side is Side.RIGHT or loop is None else _OTHER_LOOP.get(loop, loop)


def seen_passing(passing: Passing | None, side: Side) -> Passing | None:
    """On which side a stitch passes those before it, as seen from the right side."""
    return passing if side is Side.RIGHT or passing is None else _OTHER_PASSING[passing]


@dataclass(frozen=True, slots=True)
class ChartLayout:
    """Rows of a piece laid out in cells ``side`` mm wide: ``xs`` are the middles of each row's stitches, in cells.

    ``foundation`` are those of the chain the first row is worked into. The middle of the first cell is at nought; a
    row's foot is at ``foot``, and everything above it is negative.
    """

    rows: tuple[WorkedRow, ...]
    foundation: tuple[float, ...]
    xs: tuple[tuple[float, ...], ...]
    side: float
    height: float

    def foot(self, row: int) -> float:
        """The y of the lower edge of a row of the list, in mm; -1 is the foundation chain, under it all."""
        return -row * self.height

    def x(self, row: int, column: int) -> float:
        """The middle of a stitch, in mm."""
        return (self.foundation if row < 0 else self.xs[row])[column] * self.side

    def edges(self, row: int) -> tuple[float, float]:
        """The left and right edges of a row's cells, in mm."""
        xs = self.foundation if row < 0 else self.xs[row]
        return (xs[0] - 0.5) * self.side, (xs[-1] + 0.5) * self.side

    def stance(self, row: int, placed: PlacedStitch) -> Stance:
        """Where a stitch of a row of the list stands."""
        return Stance(
            tops=tuple((x, self.foot(row + 1) + SPARE * self.height) for x in self._tops(row, placed)),
            feet=self._feet(row, placed), width=self.side, height=self.height,
            round_foot=placed.target is not None and placed.worked.rows_below > 1,
        )  # fmt: skip

    def _tops(self, row: int, placed: PlacedStitch) -> list[float]:
        if placed.worked.makes:
            return [self.x(row, placed.column + step) for step in range(placed.worked.makes)]
        x = self.x(row, placed.column)
        way = 1 if self.rows[row].side is Side.RIGHT else -1
        if placed.worked.surface:
            return [x + way * BESIDE * self.side]
        stitches = self.rows[row].stitches
        last = not any(each.worked.makes for each in stitches[_place(placed, stitches) :])
        return [x + (-way if last else way) * 0.5 * self.side]

    def _feet(self, row: int, placed: PlacedStitch) -> tuple[Point, ...]:
        bottom = self.foot(row) - SPARE * self.height
        if target := placed.target:
            return (self._target(placed, target.row, target.column, surface=target.surface),)
        if not placed.base:
            tops = self._tops(row, placed)
            return (((tops[0] + tops[-1]) / 2, bottom),)
        below = sorted(self.x(row - 1, column) for column in placed.base)
        if placed.in_space:
            return (((below[0] + below[-1]) / 2, self.foot(row) + _INTO_SPACE * self.height),)
        return tuple((x, bottom) for x in below)

    def _target(self, placed: PlacedStitch, into: int, column: int, *, surface: bool) -> Point:
        """The foot in the cell it reaches into; one round a post of the row below stays in its own."""
        x = self.x(into, column)
        if surface:
            over = next(
                each for each in self.rows[into].stitches if each.worked.surface and each.column == column
            )
            x = self._tops(into, over)[0]
            return x, self.foot(into) - _ROUND_POST * self.height
        if placed.worked.stitch.post and placed.worked.rows_below > 1:
            return x, self.foot(into) - _ROUND_POST * self.height
        if placed.worked.rows_below > 1:
            return x, self.foot(into + 1) + SPARE * self.height
        return x, self.foot(into + 1) - SPARE * self.height


def lay_out(rows: Sequence[WorkedRow], side: float) -> ChartLayout:
    """The rows, row 1 of the piece first, in cells that wide."""
    foundation = tuple(float(column) for column in range(rows[0].offered))
    xs: list[tuple[float, ...]] = []
    for row in rows:
        xs.append(_apart(_wanted(row, xs[-1] if xs else foundation)))
    low = (Height.NONE, Height.CHAIN, Height.SLIP, Height.SINGLE)
    flat = all(
        each.worked.stitch.height in low or each.worked.surface for row in rows for each in row.stitches
    )
    return ChartLayout(tuple(rows), foundation, tuple(xs), side, side if flat else side * _TALLER)


def _place(placed: PlacedStitch, stitches: Sequence[PlacedStitch]) -> int:
    return next(number for number, each in enumerate(stitches) if each is placed)


def _wanted(row: WorkedRow, below: Sequence[float]) -> list[float]:
    """Where each stitch of a row would stand if it had all the room: over what it is worked into."""
    wanted = [
        sum(below[column] for column in placed.base) / len(placed.base) if placed.base else None
        for placed in row.standing()
    ]
    result: list[float] = []
    for number, each in enumerate(wanted):
        if each is None:
            before = result[-1] if result else None
            after = next((other for other in wanted[number:] if other is not None), None)
            beside = [other for other in (before, after) if other is not None]
            each = sum(beside) / len(beside) if beside else 0.0
        result.append(each)
    return result


def _apart(wanted: Sequence[float]) -> tuple[float, ...]:
    """The nearest places, by least squares, of which each is at least one cell right of that before."""
    pools: list[tuple[float, int]] = []
    for number, each in enumerate(wanted):
        total, count = each - number, 1
        while pools and pools[-1][0] / pools[-1][1] > total / count:
            more, others = pools.pop()
            total, count = total + more, count + others
        pools.append((total, count))
    shifts = [total / count for total, count in pools for _ in range(count)]
    return tuple(round(number + shift, 6) for number, shift in enumerate(shifts))
