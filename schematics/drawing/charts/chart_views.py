"""Which charts are worth drawing of a part: one for each width, and for each direction of its rows."""

from __future__ import annotations

import math
import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from schematics.crochet.charts.chart import ChartSection
from schematics.crochet.charts.chart_fault import ChartFaultError
from schematics.crochet.charts.chart_rules import trial_width
from schematics.crochet.charts.placed_stitches import WorkedRow
from schematics.crochet.charts.worked_rows import work_rows
from schematics.crochet.fabric import Fabric
from schematics.document.chart_words.chart_piece import ChartPiece, repeats_of
from schematics.document.chart_words.in_sizes import in_sizes
from schematics.drawing.charts.chart_layout import lay_out
from schematics.drawing.charts.stitch_repeats import stitch_repeats

_LONGEST = 16
"""Letters in a line beside a bracket."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionShown:
    """Rows of a view from ``first`` up to but not including ``end``, counted from nought at its foot.

    ``lines`` say how often they are worked.
    """

    section: ChartSection
    first: int
    end: int
    lines: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartView:
    """One chart to draw: the rows, worked on so many ``stitches``, and the pieces they are those of.

    ``pieces`` is empty where no size fits the chart; it is then drawn as narrow as it may be. ``numbers``
    stand beside the rows: those of the chart, or the rows' own where the repeat changes the width. Where
    pieces of several widths share it, ``across`` is how often each works what is drawn once for all.
    ``alone``: there is one size only.
    """

    pieces: tuple[ChartPiece, ...]
    stitches: int
    rows: tuple[WorkedRow, ...]
    numbers: tuple[int, ...]
    sections: tuple[SectionShown, ...]
    across: tuple[int, ...] = ()
    alone: bool = False

    @property
    def reach(self) -> int:
        """The most rows down that any stitch of the view reaches."""
        return max(
            (number - placed.target.row for number, row in enumerate(self.rows) for placed in row.stitches
             if placed.target), default=1,
        )  # fmt: skip


def chart_views(
    fabric: Fabric, pieces: Sequence[ChartPiece], *, in_short: bool = False, once_across: bool = False
) -> list[ChartView]:
    """The charts of all pieces, in their order; pieces that look the same share one.

    The fabric must have a chart. ``in_short``: as few stitches are drawn as show two repeats.
    ``once_across``: pieces that differ in how often the same stitches are worked across share one, that draws
    them once.
    """
    assert fabric.chart
    most = trial_width(fabric.chart, fabric.stitch_rule) if in_short else math.inf
    alike: dict[tuple[int, int], list[ChartPiece]] = {}
    for piece in pieces:
        repeats = repeats_of(fabric, piece)
        if repeats is not None:
            width = int(min(piece.stitches, most))
            alike.setdefault((width, _shown(fabric, repeats)), []).append(piece)
    heights = {shown for _, shown in alike}
    if once_across and len(heights) == 1 and (view := _once_across(fabric, pieces, *heights)):
        return [view]
    views = [
        view for (stitches, shown), those in alike.items() if (view := _view(fabric, stitches, shown, those))
    ]
    if views:
        return [replace(view, alone=len(pieces) == 1) for view in views]
    smallest = _view(fabric, trial_width(fabric.chart, fabric.stitch_rule), 1, ())
    return [smallest] if smallest else []


def _once_across(fabric: Fabric, pieces: Sequence[ChartPiece], shown: int) -> ChartView | None:
    """One view for all pieces that fit; None if they have one width, or if it would not be true of all."""
    chart = fabric.chart
    assert chart
    fitting = [piece for piece in pieces if repeats_of(fabric, piece) is not None]
    if len({piece.stitches for piece in fitting}) == 1 or any(chart.adds):
        return None
    for row in sorted(chart.rows, key=lambda row: row.once.uses + row.across.uses):
        width = row.once.uses + row.across.uses
        if not row.across.uses or not fabric.stitch_rule.allows(width):
            continue
        view = _view(fabric, width, shown, fitting)
        if view is None:
            continue
        common = stitch_repeats(chart, lay_out(view.rows, 1.0)).common
        if common and all(len(each.edges) == 2 for each in common):
            return replace(view, across=tuple(row.times(piece.stitches) for piece in fitting))
    return None


def _shown(fabric: Fabric, repeats: int) -> int:
    """How often the repeat is drawn.

    Once, if it is the same each time; every time, if it changes the width; and of one with an odd number of
    rows, whose sides change places, the first two, and a third before closing rows that follow an odd number
    of repeats.
    """
    assert fabric.chart
    if fabric.chart.adds[1]:
        return repeats
    if len(fabric.chart.repeat) % 2 == 0:
        return min(repeats, 1)
    return repeats if repeats < 3 else 2 + repeats % 2 * bool(fabric.chart.closing)


def _view(fabric: Fabric, stitches: int, shown: int, pieces: Sequence[ChartPiece]) -> ChartView | None:
    """The view; None if its rows cannot be worked, which the design's checks report."""
    chart = fabric.chart
    assert chart
    try:
        rows = work_rows(chart, stitches, shown)
    except ChartFaultError:
        return None
    if not rows:
        return None
    numbers = range(1, len(rows) + 1) if chart.adds[1] else (row.number for row in rows)
    return ChartView(
        pieces=tuple(pieces), stitches=stitches, rows=rows, numbers=tuple(numbers),
        sections=tuple(_sections(fabric, shown, pieces)),
    )  # fmt: skip


def _sections(fabric: Fabric, shown: int, pieces: Sequence[ChartPiece]) -> Iterator[SectionShown]:
    assert fabric.chart
    first = 0
    for section, numbers in fabric.chart.sections():
        for time in range(shown if section is ChartSection.REPEAT else 1):
            words = _times(fabric, time, shown, pieces) if section is ChartSection.REPEAT else ""
            yield SectionShown(section=section, first=first, end=first + len(numbers), lines=_lines(words))
            first += len(numbers)


def _times(fabric: Fabric, time: int, shown: int, pieces: Sequence[ChartPiece]) -> str:
    """How often what is drawn as the repeat's ``time`` from nought is worked."""
    assert fabric.chart
    if fabric.chart.adds[1]:
        return f"{time + 1} of {shown}"
    if shown > 1:
        return ("1st, 3rd ... time", "2nd, 4th ... time", "last time")[time]
    counts = [repeats for piece in pieces if (repeats := repeats_of(fabric, piece)) is not None]
    if not counts:
        return ""
    return "once" if set(counts) == {1} else f"{in_sizes(counts)} times"


def _lines(words: str) -> tuple[str, ...]:
    return tuple(textwrap.wrap(words, _LONGEST))
