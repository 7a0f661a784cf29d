"""A stitch chart: the rows of a fabric's set-up, repeat and closing, for any number of stitches.

A row is written in working order, as a maker reads it: ``hdc, (2 FPdc, 2 hdc) across, hdc``. What
is marked *across* is worked as often as it fits between the stitches before and after it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum

from schematics.crochet.stitches import Loop, Stitch


class ChartSection(StrEnum):
    """The parts of a chart, bottom to top; the value is the key in a spec."""

    SETUP = "setup"
    REPEAT = "repeat"
    CLOSING = "closing"

    @property
    def words(self) -> str:
        """The section's name as printed."""
        return "set-up" if self is ChartSection.SETUP else self.value


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """A stitch as it is worked: into both loops (``loop`` is None), or into one only."""

    stitch: Stitch
    loop: Loop | None = None

    @property
    def abbreviation(self) -> str:
        """The trade's abbreviation."""
        return f"{self.stitch.abbreviation} {self.loop}" if self.loop else self.stitch.abbreviation

    @property
    def words(self) -> str:
        """The abbreviation in full."""
        return f"{self.stitch.words}, {self.loop.words}" if self.loop else self.stitch.words


@dataclass(frozen=True, slots=True, kw_only=True)
class StitchRun:
    """The same stitch ``count`` times."""

    worked: Worked
    count: int = 1

    def __str__(self) -> str:
        return f"{self.count} {self.worked.abbreviation}" if self.count > 1 else self.worked.abbreviation


@dataclass(frozen=True, slots=True, kw_only=True)
class StitchGroup:
    """Items worked ``times`` times over."""

    items: tuple[Item, ...]
    times: int

    def __str__(self) -> str:
        return f"({items_text(self.items)}) x {self.times}"


Item = StitchRun | StitchGroup


def items_text(items: Iterable[Item]) -> str:
    """The items as they are written."""
    return ", ".join(map(str, items))


@dataclass(frozen=True, slots=True)
class Tally:
    """Stitches used of the row below, and stitches made for the row above."""

    uses: int = 0
    makes: int = 0

    def __add__(self, other: Tally) -> Tally:
        return Tally(self.uses + other.uses, self.makes + other.makes)

    def __mul__(self, times: int) -> Tally:
        return Tally(self.uses * times, self.makes * times)


def tally(items: Iterable[Item]) -> Tally:
    """What the items use and make."""
    total = Tally()
    for item in items:
        if isinstance(item, StitchGroup):
            total += tally(item.items) * item.times
        else:
            stitch = item.worked.stitch
            total += Tally(stitch.uses, stitch.makes) * item.count
    return total


def spelt_out(items: Iterable[Item]) -> Iterator[Worked]:
    """Every stitch of the items, one by one, in working order."""
    for item in items:
        if isinstance(item, StitchGroup):
            stitches = tuple(spelt_out(item.items))
            for _ in range(item.times):
                yield from stitches
        else:
            yield from (item.worked,) * item.count


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartRow:
    """A row: what is worked once ``before``, what is worked ``across`` and what once ``after``."""

    across: tuple[Item, ...]
    before: tuple[Item, ...] = ()
    after: tuple[Item, ...] = ()

    def __str__(self) -> str:
        alone = len(self.across) == 1 and isinstance(self.across[0], StitchRun) and self.across[0].count == 1
        inside = items_text(self.across)
        across = f"{inside} across" if alone else f"({inside}) across"
        return ", ".join(part for part in (items_text(self.before), across, items_text(self.after)) if part)

    @property
    def once(self) -> Tally:
        """What is used and made besides the stitches worked across."""
        return tally((*self.before, *self.after))

    def stitches(self, width: int) -> tuple[Worked, ...]:
        """Every stitch of the row, in working order, on a row below of ``width`` stitches.

        Raises:
            ValueError: the row does not come out even on so many stitches.
        """
        left, each = width - self.once.uses, tally(self.across).uses
        if left < 0 or each == 0 or left % each:
            raise ValueError(f"'{self}' does not fit {width} stitches")
        across = tuple(spelt_out(self.across)) * (left // each)
        return (*spelt_out(self.before), *across, *spelt_out(self.after))


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """The rows of a fabric, bottom to top. Row 1 is a right-side row (common practice, no source)."""

    repeat: tuple[ChartRow, ...]
    setup: tuple[ChartRow, ...] = ()
    closing: tuple[ChartRow, ...] = ()

    @property
    def rows(self) -> tuple[ChartRow, ...]:
        """All rows, each section once; row 1 first."""
        return (*self.setup, *self.repeat, *self.closing)

    def sections(self) -> Iterator[tuple[ChartSection, range]]:
        """The sections that have rows, with their row numbers."""
        first = 1
        for section, rows in zip(ChartSection, (self.setup, self.repeat, self.closing), strict=True):
            if rows:
                yield section, range(first, first + len(rows))
            first += len(rows)

    def used(self) -> tuple[Worked, ...]:
        """Every stitch of the chart once, as first met."""
        rows = self.rows
        parts = (part for row in rows for part in (row.before, row.across, row.after))
        return tuple(dict.fromkeys(worked for part in parts for worked in spelt_out(part)))


def is_right_side(number: int) -> bool:
    """Whether the row of that number is worked with the right side facing."""
    return number % 2 == 1
