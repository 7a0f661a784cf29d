"""The centre panel as formulas of its counts."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from schematics.crochet.fabric import Fabric
from schematics.garment.amounts import (
    ROWS,
    STITCHES,
    Count,
    CountValues,
    Given,
    Laid,
    Measure,
    Numbers,
    Repeats,
    counted,
    slope,
    total,
)
from schematics.garment.constructions.demands import Demand, at_least
from schematics.wearer.expr import Expr

PANEL_STITCHES, PANEL_ROWS = Count("panel.stitches"), Count("panel.rows", ROWS)
"""Counts of the panel."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelCm:
    """Panels of that width at ``foot`` and ``top``, so long; for paths each side is taken as straight.

    Beside the seam lies half a trapezoid, whose middle leans off the seam by ``lean``: in radians, negative
    where the panel is wider at its top, nought where it keeps its width and does not taper. A place beside
    the seam lies so far ``off`` its line, and so far ``down`` along it from its upper end.
    """

    foot: Numbers
    top: Numbers
    length: Numbers
    tapers: bool

    @property
    def lean(self) -> Numbers:
        """The angle between side and middle."""
        return np.arctan2((self.foot - self.top) / 2, self.length)

    @property
    def side(self) -> Numbers:
        """The length of a side."""
        return np.hypot((self.foot - self.top) / 2, self.length)

    def along_middle(self, off: Numbers, down: Numbers) -> Numbers:
        """How far along the middle, from the top, a place is."""
        return down * np.cos(self.lean) - off * np.sin(self.lean)

    def to_middle(self, off: Numbers, down: Numbers) -> Numbers:
        """The distance from a place square to the line of the middle."""
        return off * np.cos(self.lean) + down * np.sin(self.lean) + self.top / 2

    def path(self, off: Numbers, down: Numbers, front: Numbers) -> Numbers:
        """From a place to the middle, round the lower end of the seam where it lies below it.

        ``front`` is the length of the body's edge there: the seam ends where the shorter of the two ends.
        """
        end = np.minimum(self.side, front)
        round_end = np.hypot(off, down - end) + self.to_middle(0.0, end)
        level, last = self.along_middle(off, down), self.along_middle(0.0, end)
        return np.where(level <= last, self.to_middle(off, down), round_end)


@dataclass(frozen=True, kw_only=True)
class PanelFormulas:
    """The centre panel: its ``width`` at the foot and at the ``top``, its ``length``, and that of a ``side``.

    A panel that keeps its width has one width and one length. Of one that tapers each side is as long as its
    straight slopes together: set-up, every repeat and closing gain or lose half of what they add on it.
    """

    fabric: Fabric
    width: Measure
    top: Measure
    length: Measure
    side: Measure

    def side_cm(self, rows: Numbers) -> Numbers:
        """The length of a side of so many rows."""
        return self.side.at({PANEL_ROWS.name: rows})

    def rows_along(self, side_cm: Numbers) -> Numbers:
        """The rows, in whole repeats, whose sides come nearest to that length."""
        rule = self.fabric.row_rule
        rows = self.fabric.count_along(side_cm, ROWS)
        if self.tapers:
            ends = rule.setup + rule.closing
            none, one = self.side_cm(ends), self.side_cm(ends + rule.repeat)
            rows = ends + (side_cm - none) / (one - none) * rule.repeat
        return rule.rule.nearest(rows)

    @property
    def tapers(self) -> bool:
        """Whether foot and top may differ."""
        return self.top is not self.width

    @property
    def top_stitches(self) -> Expr:
        """Stitches of the last row."""
        return self.top.count or PANEL_STITCHES

    @property
    def measures(self) -> tuple[Measure, ...]:
        """The panel's measurements, each once."""
        return (self.width, self.top, self.length, self.side) if self.tapers else (self.width, self.length)

    def at(self, columns: CountValues) -> PanelCm:
        """The sizes of columns of panels."""
        foot, top, length = (each.at(columns) for each in (self.width, self.top, self.length))
        return PanelCm(foot=foot, top=top, length=length, tapers=self.tapers)

    def demands(self) -> Iterator[Demand]:
        """What a panel that tapers asks of its counts: a stitch at its top."""
        if self.tapers:
            yield Demand(
                words="the panel has stitches left at its top",
                kept=at_least(self.top_stitches, 1),
                cure="{missing} more stitches at the panel's foot, or fewer panel rows",
            )


def panel_formulas(fabric: Fabric) -> PanelFormulas:
    """The formulas of a panel of that fabric, whose chart says what it gains and loses."""
    setup, repeat, closing = fabric.chart.adds if fabric.chart else (0, 0, 0)
    if not (setup or repeat or closing):
        width = counted("panel.width", "panel width", PANEL_STITCHES, STITCHES, fabric)
        length = counted("panel.length", "panel length", PANEL_ROWS, ROWS, fabric)
        return PanelFormulas(fabric=fabric, width=width, top=width, length=length, side=length)
    rows, repeats = fabric.row_rule, Repeats(PANEL_ROWS, fabric.row_rule)
    stitches = _more(_more(PANEL_STITCHES, setup + closing), repeat, repeats)
    sides = [
        *([_side(fabric, rows.setup, setup)] if rows.setup else []),
        repeats * _side(fabric, rows.repeat, repeat),
        *([_side(fabric, rows.closing, closing)] if rows.closing else []),
    ]
    return PanelFormulas(
        fabric=fabric,
        width=counted("panel.width", "panel width at the foot", PANEL_STITCHES, STITCHES, fabric),
        top=counted(
            "panel.top", "panel width at the top", stitches, STITCHES, fabric,
            "what the rows of its chart add to those at the foot and take off", intended=False,
        ),
        length=counted("panel.length", "panel length", PANEL_ROWS, ROWS, fabric),
        side=Measure(
            total(sides), key="panel.side", name="panel side, along its slope", finished=True,
            source="for set-up, each repeat and closing: their rows, and half of what they add",
        ),
    )  # fmt: skip


def _more(stitches: Expr, change: int, times: Expr | None = None) -> Expr:
    """The stitches and so many more, or fewer, each time."""
    if change == 0:
        return stitches
    by: Expr = Given(abs(change), "sts")
    by = by if times is None else times * by
    return stitches + by if change > 0 else stitches - by


def _side(fabric: Fabric, rows: int, change: int) -> Expr:
    """The slope of either side over so many rows, which add so many stitches across."""
    high = Laid(Given(rows, "rows"), ROWS, fabric)
    return slope(Laid(Given(abs(change) / 2, "sts"), STITCHES, fabric), high) if change else high
