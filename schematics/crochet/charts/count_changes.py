"""Where a row changes the number of stitches."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from schematics.crochet.charts.chart import ChartRow, Item, StitchGroup, StitchRun, tally


@dataclass(frozen=True, slots=True, kw_only=True)
class _Change:
    """An item that makes so many ``more`` stitches than it uses; ``gap``: chains, or stitches skipped."""

    column: int
    more: int
    gap: bool


def changing_column(row: ChartRow) -> int | None:
    """Where the one item is written that adds or takes stitches; None if there are several, or none.

    Chains and skipped stitches that make up for each other are none.
    """
    changes = list(_changes(item for part in row.parts for item in part.items))
    if sum(each.more for each in changes if each.gap) == 0:
        changes = [each for each in changes if not each.gap]
    return changes[0].column if len(changes) == 1 else None


def _changes(items: Iterable[Item], times: int = 1) -> Iterator[_Change]:
    for item in items:
        if isinstance(item, StitchGroup):
            yield from _changes(item.items, times * item.times)
        elif more := tally((item,)).makes - tally((item,)).uses:
            gap = isinstance(item, StitchRun) and item.worked.stitch.abbreviation in ("ch", "sk")
            yield _Change(column=item.column, more=more * times, gap=gap)
