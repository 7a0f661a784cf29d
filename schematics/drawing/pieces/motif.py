"""What a stitch pattern looks like from a distance: lines and dots counted in stitches and rows.

Points count stitches from the left and rows from the foot of a piece, as its right side is seen. Stitches
round posts that are raised on the right side are strands, from the stitch they go round to their own head, or
those that lie deeper where none is raised. Spikes and stitches that cross are strokes, several stitches in
one are fans, stitches together the same upside down; bobbles and the like are dots, and chains over skipped
stitches rings.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby, pairwise
from typing import TypeAlias

from schematics.crochet.charts.chart import Chart, Side
from schematics.crochet.charts.placed_stitches import PlacedStitch, WorkedRow
from schematics.crochet.stitches import Post
from schematics.crochet.symbols import StrokeKind
from schematics.units import HAIR

Place: TypeAlias = tuple[float, float]
"""Stitches from the left, rows from the foot."""

_ROUND = frozenset({StrokeKind.LEAF, StrokeKind.CROWN, StrokeKind.LOOPS})


@dataclass(frozen=True, slots=True)
class StitchStroke:
    """A straight line from the foot of a stitch to its head."""

    foot: Place
    head: Place


@dataclass(frozen=True, slots=True)
class Dot:
    """A stitch that stands out; a ring is a hole."""

    at: Place
    ring: bool = False


@dataclass(frozen=True, slots=True)
class Patch:
    """Stitches side by side in one row in a colour that is not the chart's first, by its number from 1."""

    left: float
    right: float
    row: int
    colour: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Motif:
    """Everything that shows on a piece of so many ``stitches`` at its foot."""

    strokes: tuple[StitchStroke, ...]
    dots: tuple[Dot, ...]
    patches: tuple[Patch, ...]

    @property
    def nearest(self) -> float:
        """The least distance between two upright strokes or two dots side by side in a row, in stitches."""
        upright = {each.head for each in self.strokes if each.foot[0] == each.head[0]}
        return min((*_gaps(upright), *_gaps({each.at for each in self.dots})), default=math.inf)

    def thinned(self, least: float) -> Motif | None:
        """The same without strokes whose heads are nearer than ``least`` stitches to one that is left.

        Of strands side by side those at the left edge stay, so that blocks of them stay where they are. One
        that crosses and goes on from a strand left out goes on from the nearest that stays of those that run
        beside it, so that a crossing of many is one of few; an upright one stays upright. None where nothing
        of a block that crosses another stays: it would look like another stitch.
        """
        kept: set[Place] = set()
        last = math.nan, -1.0
        for row, stitch in sorted({(each.head[1], each.head[0]) for each in self.strokes}):
            if row != last[1] or stitch >= last[0] + least - HAIR:
                kept.add((stitch, row))
                last = stitch, row
        lost = {each.head for each in self.strokes} - kept
        beside: dict[tuple[float, float], list[Place]] = {}
        for each in self.strokes:
            if each.foot not in lost:
                beside.setdefault(_run(each), []).append(each.foot)
        strokes: list[StitchStroke] = []
        for each in self.strokes:
            if each.head in kept:
                foot = each.foot
                if foot in lost and _run(each)[1]:
                    near = (place for place in beside.get(_run(each), ()) if _apart(place, foot) < least)
                    foot = min(near, key=lambda place: (_apart(place, each.foot), place), default=each.head)
                strokes.append(StitchStroke(foot, each.head))
        if any(each.foot == each.head for each in strokes):
            return None
        return replace(self, strokes=tuple(strokes))


def _run(stroke: StitchStroke) -> tuple[float, float]:
    """From which row a stroke runs, and how far aside."""
    return stroke.foot[1], round(stroke.head[0] - stroke.foot[0], 6)


def _apart(place: Place, other: Place) -> float:
    return abs(place[0] - other[0])


def _gaps(places: Iterable[Place]) -> Iterator[float]:
    """Those between neighbours of one height."""
    ordered = sorted((row, stitch) for stitch, row in places)
    yield from (after[1] - before[1] for before, after in pairwise(ordered) if after[0] == before[0])


def motif(chart: Chart, rows: Sequence[WorkedRow], stitches: int) -> Motif:
    """The motif of a piece worked from a chart.

    Args:
        chart: the chart.
        rows: its rows, as they are worked.
        stitches: of the piece at its foot. Where the chart tapers, each row is as wide as its stitches; else
            rows that have more of them for a while, as those with shells, are as wide as the others.
    """
    columns = _Columns(rows, stitches, tapers=any(chart.adds))
    colours = {letter: number for number, (letter, _) in enumerate(chart.colours)}
    strokes: list[StitchStroke] = []
    dots: list[Dot] = []
    patches: list[Patch] = []
    raised = any(_raised(placed, row) for row in rows for placed in row.stitches if _is_strand(placed))
    for index, row in enumerate(rows):
        strokes += _strands(row, index, columns, raised=raised)
        strokes += _strokes(row, index, columns)
        dots += _dots(row, index, columns)
        patches += _patches(row, index, columns, colours)
    return Motif(strokes=tuple(strokes), dots=tuple(dots), patches=tuple(patches))


class _Columns:
    """Where columns lie: row 0 is the first, row -1 the foundation."""

    def __init__(self, rows: Sequence[WorkedRow], stitches: int, *, tapers: bool) -> None:
        self._counts = [stitches, *(row.stitch_count for row in rows)]
        self._stitches, self._tapers = stitches, tapers

    def at(self, row: int, column: float) -> float:
        """Stitches from the left of the foot."""
        count = self._counts[row + 1]
        if self._tapers:
            return column + (self._stitches - count) / 2
        return column * self._stitches / count

    def on_slope(self, row: int, columns: Collection[int]) -> bool:
        """Whether these are at the edge of a piece that tapers: its outline shows what is lost there."""
        return self._tapers and bool({0, self._counts[row + 1] - 1}.intersection(columns))

    def middle(self, row: int, columns: Iterable[int]) -> float:
        """The middle of columns side by side."""
        each = sorted(columns)
        return self.at(row, (each[0] + each[-1] + 1) / 2)


def _heads(index: int, placed: PlacedStitch, columns: _Columns) -> list[Place]:
    return [(columns.middle(index, (each,)), index + 1.0) for each in _columns_of(placed)]


def _raised(placed: PlacedStitch, row: WorkedRow) -> bool:
    """Whether a stitch round a post comes to the front on the right side."""
    return placed.worked.surface or (placed.worked.stitch.post is Post.FRONT) is (row.side is Side.RIGHT)


def _is_strand(placed: PlacedStitch) -> bool:
    return placed.target is not None and (placed.worked.stitch.post is not None or placed.worked.surface)


def _strands(row: WorkedRow, index: int, columns: _Columns, *, raised: bool) -> Iterator[StitchStroke]:
    for placed in row.stitches:
        if placed.target and _is_strand(placed) and _raised(placed, row) is raised:
            foot = columns.middle(placed.target.row, (placed.target.column,)), placed.target.row + 0.5
            yield StitchStroke(foot, (columns.middle(index, _columns_of(placed)), index + 0.5))


def _crossed(row: WorkedRow) -> Iterator[PlacedStitch]:
    """Stitches into tops that are in another order than they are worked."""
    onwards = -1 if row.side is Side.RIGHT else 1
    plain = [each for each in row.stitches if each.base and not each.target]
    places = [onwards * each.base[0] for each in plain]
    for at, placed in enumerate(plain):
        if any(place > places[at] for place in places[:at]) or any(
            place < places[at] for place in places[at + 1 :]
        ):
            yield placed


def _strokes(row: WorkedRow, index: int, columns: _Columns) -> Iterator[StitchStroke]:
    for placed in row.stitches:
        if placed.target and not _is_strand(placed):
            foot = columns.middle(placed.target.row, (placed.target.column,)), placed.target.row + 1.0
            yield StitchStroke(foot, (columns.middle(index, _columns_of(placed)), index + 1.0))
    for placed in _crossed(row):
        foot = columns.middle(index - 1, placed.base), float(index)
        yield StitchStroke(foot, (columns.middle(index, _columns_of(placed)), index + 1.0))
    for base, shared in groupby(row.stitches, key=lambda each: each.base):
        if columns.on_slope(index - 1, base):
            continue
        together = [each for each in shared if not each.target and not _is_chain(each)]
        heads = [head for each in together if not _is_round(each) for head in _heads(index, each, columns)]
        feet = [(columns.middle(index - 1, (column,)), float(index)) for column in sorted(base)]
        if base and len(heads) > 1:
            middle = columns.middle(index - 1, base), float(index)
            yield from (StitchStroke(middle, head) for head in heads)
        elif len(heads) == 1 and len(feet) > 1:
            yield from (StitchStroke(foot, heads[0]) for foot in feet)


def _columns_of(placed: PlacedStitch) -> range:
    return range(placed.column, placed.column + max(placed.worked.makes, 1))


def _is_round(placed: PlacedStitch) -> bool:
    return any(stroke.kind in _ROUND for stroke in placed.worked.stitch.symbol)


def _is_chain(placed: PlacedStitch) -> bool:
    return placed.worked.stitch.abbreviation == "ch"


def _dots(row: WorkedRow, index: int, columns: _Columns) -> Iterator[Dot]:
    for placed in row.stitches:
        at = columns.middle(index, _columns_of(placed)), index + 0.5
        if _is_round(placed):
            yield Dot(at)
        elif _is_chain(placed) and placed.base:
            yield Dot(at, ring=True)


def _patches(row: WorkedRow, index: int, columns: _Columns, colours: dict[str, int]) -> Iterator[Patch]:
    standing = enumerate(row.standing())
    for colour, several in groupby(standing, key=lambda each: colours.get(each[1].worked.colour, 0)):
        numbers = [number for number, _ in several]
        if colour:
            yield Patch(columns.at(index, numbers[0]), columns.at(index, numbers[-1] + 1), index, colour)
