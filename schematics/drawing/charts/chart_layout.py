"""Where the stitches of a chart stand on the sheet: over what they go into, each in a cell of its own.

A stitch stands over the middle of what it is worked into, where there is room; where there is not, the
stitches of a row are moved apart, the sum of their moves as small as can be (pool adjacent violators). A row
of as many stitches as the one below stands on it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from schematics.crochet.charts.chart import Passing, Side
from schematics.crochet.charts.placed_stitches import PlacedStitch, WorkedRow
from schematics.crochet.stitches import Height, Loop
from schematics.crochet.symbols import Stroke, StrokeKind, Symbol
from schematics.drawing.charts.stance import SPARE, Stance
from schematics.drawing.charts.stitch_symbols import UNDER_HOOK
from schematics.drawing.ink.marks import Point

BESIDE = 0.5
"""How far a stitch on the surface lies beside the middle of the one it lies over, in cells."""

_ROUND_POST, _UNDER_CAP = 0.12, 0.37
_INTO_SPACE = 0.56
_PAST, _PAST_STRAND = 0.33, 0.28
"""Shares of a cell's width: how high a hook ends in the cell it reaches, how far under a post's top one ends
that goes round it, how far under the top of a chain a foot stands in its space, how far
beside a stitch a stem passes it, and beside a strand on the surface, between the stitches of the fabric.
"""

_FURTHEST = 2.0
"""Cells by which the first stitch of a row may stand beside that of the foundation chain."""

_LEANS = 0.6
"""Of a cell's width: how far to one side the foot of a leaning stitch is at least."""

_LOW, _TALLER, _REACHING = 0.85, 1.2, 1.25
_LOW_STRANDS, _REACHING_STRANDS = 0.77, 1.11
_CROSSING, _FAR_CROSSING, _HIGHEST = 1.05, 0.42, 2.0
"""Height of a cell over its width in a row of slip stitches, where the fabric has stitches taller than single
crochet, where posts of the row reach further down; the first and the last where strands lie on the surface of
a flat fabric, which want width; and where stitches of a crossing lean over one column: to the row below, or,
up to the highest, to one further down."""

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
    """Rows of a piece laid out in cells ``side`` mm wide.

    ``xs`` are the middles of each row's stitches, in cells, ``foundation`` those of the chain under row 1;
    its first is at nought. The lower edge of a row is at `foot`; y is negative above the chain.
    """

    rows: tuple[WorkedRow, ...]
    foundation: tuple[float, ...]
    xs: tuple[tuple[float, ...], ...]
    side: float
    heights: tuple[float, ...]

    def foot(self, row: int) -> float:
        """The y of the lower edge of a row of the list, in mm; the row after the last has the upper edge."""
        return -sum(self.heights[:row])

    def x(self, row: int, column: int) -> float:
        """The middle of a stitch, in mm."""
        return (self.foundation if row < 0 else self.xs[row])[column] * self.side

    def edges(self, row: int) -> tuple[float, float]:
        """The left and right edges of a row's cells, in mm."""
        xs = self.foundation if row < 0 else self.xs[row]
        return (xs[0] - 0.5) * self.side, (xs[-1] + 0.5) * self.side

    def stance(self, row: int, placed: PlacedStitch) -> Stance:
        """The place on paper of a stitch of a row of the list."""
        return Stance(
            tops=tuple((x, self.foot(row + 1) + SPARE * self.heights[row]) for x in self._tops(row, placed)),
            feet=self._feet(row, placed), past=self._past(row, placed),
            width=self.side, height=self.heights[row],
            beside=self._beside(placed), bars_down=UNDER_HOOK * self.side,
        )  # fmt: skip

    def leans(self, row: int, placed: PlacedStitch) -> bool:
        """Whether the foot of a stitch is to one side of its top."""
        stance = self.stance(row, placed)
        return abs(stance.top[0] - stance.foot[0]) > _LEANS * self.side

    def _tops(self, row: int, placed: PlacedStitch) -> list[float]:
        if placed.worked.makes:
            return [self.x(row, placed.column + step) for step in range(placed.worked.makes)]
        x = self.x(row, placed.column)
        onwards = 1 if self.rows[row].side is Side.RIGHT else -1
        if placed.worked.surface:
            return [x + onwards * BESIDE * self.side]
        stitches = self.rows[row].stitches
        last = not any(each.worked.makes for each in stitches[_place(placed, stitches) :])
        return [x + (-onwards if last else onwards) * 0.5 * self.side]

    def _beside(self, placed: PlacedStitch) -> float:
        """How far beside its foot the stem of one that reaches further down ends, if it ends in a hook."""
        if not _reaches(placed):
            return 0.0
        return (_PAST_STRAND if placed.worked.surface else _PAST) * self.side

    def _past(self, row: int, placed: PlacedStitch) -> tuple[Point, ...]:
        """Where an upright stem passes the stitches of the rows between, so that all are seen.

        A spike comes back over the stitch it is worked into; a post's hook goes round it from the side.
        """
        if placed.worked.surface or not placed.target or placed.target.row > row - 2:
            return ()
        x, top = self.x(placed.target.row, placed.target.column), self._tops(row, placed)[0]
        if abs(top - x) > 0.5 * self.side:
            return ()
        if placed.worked.stitch.post and not _reaches(placed):
            return ()
        kinds = {stroke.kind for stroke in seen_symbol(placed.worked.stitch.symbol, self.rows[row].side)}
        beside = x + (_PAST if StrokeKind.HOOK_LEFT in kinds else -_PAST) * self.side
        down = self.foot(placed.target.row + 1)
        if not placed.worked.stitch.post:
            down -= SPARE * self.side
        return (beside, self.foot(row)), (beside, down)

    def _feet(self, row: int, placed: PlacedStitch) -> tuple[Point, ...]:
        bottom = self.foot(row) - SPARE * self.heights[row]
        if (target := placed.target) and len(placed.base) < 2:
            return (self._target(placed, target.row, target.column, surface=target.surface),)
        if not placed.base:
            tops = self._tops(row, placed)
            return (((tops[0] + tops[-1]) / 2, bottom),)
        below = sorted(self.x(row - 1, column) for column in placed.base)
        if placed.in_space:
            under = SPARE * self.heights[row - 1] + _INTO_SPACE * self.side
            return (((below[0] + below[-1]) / 2, self.foot(row) + under),)
        return tuple((x, bottom) for x in below)

    def _target(self, placed: PlacedStitch, into: int, column: int, *, surface: bool) -> Point:
        """The foot in the cell it reaches into; one round a post of the row below stays in its own."""
        x, row = self.x(into, column), self.rows[into]
        if surface or (placed.worked.stitch.post and placed.worked.rows_below > 1):
            round_it = (
                next(each for each in row.stitches if each.worked.surface and each.column == column)
                if surface else row.standing()[column]
            )  # fmt: skip
            x = self._tops(into, round_it)[0] if surface else x
            if round_it.worked.stitch.post or _reaches(round_it):
                return x, self.foot(into + 1) + SPARE * self.heights[into] + _UNDER_CAP * self.side
            return x, self.foot(into) - _ROUND_POST * self.side
        if placed.worked.rows_below > 1:
            return x, self.foot(into + 1) + SPARE * self.side
        return x, self.foot(into + 1) - SPARE * self.heights[into + 1]


def lay_out(rows: Sequence[WorkedRow], side: float) -> ChartLayout:
    """The rows, row 1 of the piece first, in cells that wide."""
    foundation = tuple(float(column) for column in range(rows[0].offered))
    xs: list[tuple[float, ...]] = []
    for row in rows:
        below = xs[-1] if xs else foundation
        if row.stitch_count == row.offered:
            shift = _shift(row, below)
            xs.append(tuple(x + shift for x in below))
        else:
            xs.append(_apart(_wanted(row, below)))
    least = 1.0 if is_flat(rows) else _TALLER
    strands = least == 1.0 and has_strands(rows)
    low, reaching = (_LOW_STRANDS, _REACHING_STRANDS) if strands else (_LOW, _REACHING)
    heights = tuple(
        side * max(low if least == 1.0 and _is_low(row) else least, _CROSSING * _crossed(row),
                   min(_HIGHEST, _FAR_CROSSING * _crossed_far(row)),
                   reaching * any(map(_reaches, row.stitches)))
        for row in rows
    )  # fmt: skip
    return ChartLayout(tuple(rows), foundation, tuple(xs), side, heights)


def is_flat(rows: Sequence[WorkedRow]) -> bool:
    """Whether no stitch is taller than single crochet, or stands on several, but those on the surface."""
    low = (Height.NONE, Height.CHAIN, Height.SLIP, Height.SINGLE)
    return all(
        each.worked.surface or (each.worked.stitch.height in low and len(each.base) < 2)
        for row in rows for each in row.stitches
    )  # fmt: skip


def has_strands(rows: Sequence[WorkedRow]) -> bool:
    """Whether stitches lie on the surface."""
    return any(each.worked.surface for row in rows for each in row.stitches)


def _is_low(row: WorkedRow) -> bool:
    """Whether it is of slip stitches alone."""
    return all(each.worked.stitch.height is Height.SLIP for each in row.stitches)


def _shift(row: WorkedRow, below: Sequence[float]) -> float:
    """How far, in cells, a row of as many stitches as that below it moves.

    Where several in one and several together make up for one another, so far that most stitches stand over
    their feet: by half cells, and no further than `_FURTHEST` from the foundation chain.
    """
    clusters = _clusters(row)
    together = any(len(placed.base) > 1 for placed in row.stitches)
    if not together or max(each.size for each in clusters) < 2 or any(each.passing for each in row.stitches):
        return 0.0
    shifts: list[float] = []
    column = 0
    for each in clusters:
        own = below[column : column + each.size]
        column += each.size
        if each.base:
            shifts.append(sum(below[place] for place in each.base) / len(each.base) - sum(own) / len(own))
    wanted = round(2 * median(shifts)) / 2
    return min(_FURTHEST, max(-_FURTHEST, below[0] + wanted)) - below[0]


def _reaches(placed: PlacedStitch) -> bool:
    """Whether it has a stem down to a stitch further down than the row below."""
    kinds = {stroke.kind for stroke in placed.worked.stitch.symbol}
    return placed.target is not None and placed.worked.rows_below > 1 and StrokeKind.STEM in kinds


def _place(placed: PlacedStitch, stitches: Sequence[PlacedStitch]) -> int:
    return next(number for number, each in enumerate(stitches) if each is placed)


def _crossed(row: WorkedRow) -> int:
    """The most columns that a stitch of a crossing leans over to reach the row below."""
    return max(
        (abs(placed.column - placed.target.column) for placed in row.stitches
         if placed.target and placed.worked.rows_below == 1 and not placed.worked.surface), default=0,
    ) if row.stitch_count == row.offered else 0  # fmt: skip


def _crossed_far(row: WorkedRow) -> int:
    """The same of stitches that reach further down."""
    return max(
        (abs(placed.column - placed.target.column) for placed in row.stitches
         if placed.target and placed.passing and placed.worked.rows_below > 1), default=0,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Cluster:
    """Neighbours that share what they are worked into: so many stitches over the columns ``base``, if any."""

    size: int
    base: tuple[int, ...]

    def wanted(self, below: Sequence[float]) -> list[float]:
        """Where they would stand if they had all the room: over what they are worked into."""
        left, right = below[self.base[0]], below[self.base[-1]]
        step = min(1.0, (right - left) / (self.size - 1)) if self.size > 1 else 0.0
        middle = sum(below[column] for column in self.base) / len(self.base)
        return [middle + step * (number - (self.size - 1) / 2) for number in range(self.size)]


def _clusters(row: WorkedRow) -> list[_Cluster]:
    clusters: list[_Cluster] = []
    for placed in row.standing():
        base = tuple(sorted(placed.base))
        if clusters and set(clusters[-1].base) & set(base):
            joined = tuple(sorted({*clusters[-1].base, *base}))
            clusters[-1] = _Cluster(clusters[-1].size + 1, joined)
        else:
            clusters.append(_Cluster(1, base))
    return clusters


def _wanted(row: WorkedRow, below: Sequence[float]) -> list[float]:
    """Where each stitch of a row would stand if it had all the room.

    What is worked together leaves no gap beside it: the row closes up. What is worked into nothing stands
    between its neighbours.
    """
    wanted: list[float | None] = []
    closed: list[float] = []
    before: _Cluster | None = None
    for cluster in _clusters(row):
        places = cluster.wanted(below) if cluster.base else [None]
        gone = closed[-1] if closed else 0.0
        if before and before.base and places[0] is not None and cluster.base[0] == before.base[-1] + 1:
            apart = below[cluster.base[0]] - below[before.base[-1]]
            gone += places[0] - (wanted[-1] or 0.0) - apart
        wanted += places
        closed += [gone] * cluster.size
        before = cluster
    shift = median(closed)
    moved = [None if x is None else x - gone + shift for x, gone in zip(wanted, closed, strict=True)]
    return _between_neighbours(moved)


def _between_neighbours(places: Sequence[float | None]) -> list[float]:
    """The places, and for each None the middle between the nearest on either side."""
    placed = [number for number, place in enumerate(places) if place is not None]
    result: list[float] = []
    for number, place in enumerate(places):
        if place is None:
            beside = [max((each for each in placed if each < number), default=None),
                      min((each for each in placed if each > number), default=None)]  # fmt: skip
            near = [places[each] or 0.0 for each in beside if each is not None]
            place = sum(near) / len(near) if near else 0.0
        result.append(place)
    return result


def _apart(wanted: Sequence[float]) -> tuple[float, ...]:
    """The nearest places, by the sum of the moves, each of which is at least one cell right of the last."""
    pools: list[list[float]] = []
    for number, each in enumerate(wanted):
        pool = [each - number]
        while pools and median(pools[-1]) > median(pool) + 1e-9:
            pool = pools.pop() + pool
        pools.append(pool)
    shifts = [shift for pool in pools for shift in [median(pool)] * len(pool)]
    return tuple(round(number + shift, 6) for number, shift in enumerate(shifts))
