"""Stitches in their places: where each stands, and what it is worked into or round.

Columns count a row's stitches from nought at the left, as seen with the right side facing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from schematics.crochet.charts.chart import ChartSection, Passing, Side, Worked


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """The stitch that one is worked into or round: its row's place in the list (-1: foundation) and column.

    ``surface``: it is the one that lies on the surface there.
    """

    row: int
    column: int
    surface: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedStitch:
    """A stitch in its place.

    ``column`` is that of its first stitch for the row above; a stitch on the surface has the column of the
    one it lies over. ``base`` are the columns of the row below that it uses. ``target`` is set where it
    goes round a post, or into a row further down.
    """

    worked: Worked
    base: tuple[int, ...]
    column: int = -1
    target: Target | None = None
    passing: Passing | None = None
    in_space: bool = False
    written: int = field(default=1, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkedRow:
    """A row of a piece: ``stitches`` in working order, and which columns of the row below were ``skipped``.

    ``number`` is the row of the chart, from 1; ``times`` how often what is worked across was worked.
    """

    number: int
    section: ChartSection
    index: int
    side: Side
    offered: int
    stitch_count: int
    times: int
    stitches: tuple[PlacedStitch, ...]
    skipped: tuple[int, ...]

    def standing(self) -> tuple[PlacedStitch, ...]:
        """The stitch that stands in each column, surface stitches left out: ``stitch_count`` of them."""
        by_column: dict[int, PlacedStitch] = {}
        for placed in self.stitches:
            for step in range(placed.worked.makes):
                by_column[placed.column + step] = placed
        return tuple(by_column[column] for column in range(self.stitch_count))

    def chain_columns(self) -> frozenset[int]:
        """The columns that hold a chain."""
        chains = {each.column for each in self.stitches if each.worked.stitch.abbreviation == "ch"}
        middles = {each.column + 1 for each in self.stitches if each.worked.stitch.abbreviation == "V-st"}
        return frozenset(chains | middles)


def column_under(column: int, standing: Iterable[Sequence[PlacedStitch]]) -> int | None:
    """The column of what stands under a column, below rows that are ``standing``, from the top down.

    Under stitches worked together it is the middle one, of two the later; under a stitch that uses none
    there is none.
    """
    place: int | None = column
    for stitches in standing:
        base = stitches[place].base if place is not None else ()
        place = base[len(base) // 2] if base else None
    return place
