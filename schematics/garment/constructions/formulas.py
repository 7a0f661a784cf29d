"""A size as formulas of its counts: what is measured on it, and what its counts must keep.

Counts are named as in a spec, ``body.neck`` or ``panel.rows``. The same formulas serve one garment, columns
of them, and the arithmetic by hand.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Protocol, TypeAlias

import numpy as np

from schematics.crochet.fabric import Counted, CountRule, Fabric
from schematics.design.design import Parts
from schematics.garment.amounts import (
    ROWS,
    STITCHES,
    Count,
    CountRange,
    CountValues,
    Formula,
    Given,
    Laid,
    Measure,
    Numbers,
    Repeats,
    at_least,
    slope,
    total,
    values_of,
)
from schematics.garment.garment import Finished, Ring
from schematics.units import NEAR
from schematics.wearer.expr import Const, Expr

PANEL_STITCHES, PANEL_ROWS = Count("panel.stitches"), Count("panel.rows", ROWS)
NECK_BAND, ARM_BANDS = Count("neck_band.stitches"), Count("arm_bands.stitches")
"""Counts of panel and bands."""


@dataclass(frozen=True, kw_only=True)
class Pattern:
    """A count that a stitch multiple or row repeat binds, and the fabric whose it is."""

    words: str
    count: Expr
    counted: Counted
    fabric: Fabric

    @cached_property
    def rule(self) -> CountRule:
        """What the fabric asks of the count."""
        return self.fabric.stitch_rule if self.counted is STITCHES else self.fabric.row_rule.rule

    @cached_property
    def kept(self) -> CountRange:
        """The same as a condition."""
        rule = self.rule
        if rule.only:
            return CountRange(Formula(self.count), low=rule.plus, high=rule.plus)
        return CountRange(Formula(self.count), low=rule.smallest, multiple=rule.multiple, plus=rule.plus)

    def binds(self, name: str) -> bool:
        """Whether it is that count of a spec by itself."""
        return isinstance(self.count, Count) and self.count.name == name


@dataclass(frozen=True, kw_only=True)
class RingFormulas:
    """A sideways band on an edge, one ribbing row to each edge stitch, as formulas in cm.

    ``edge`` is what lies along the edge, one after another, ``edge_stitches`` how many stitches it has;
    ``picked_up`` of them are picked up along row ends. ``depth`` is the band's, in stitches.
    """

    name: str
    edge: tuple[Laid, ...]
    edge_stitches: Expr
    band: Fabric
    depth: Count
    picked_up: Expr | None = None

    @cached_property
    def edge_count(self) -> Formula:
        """Stitches of the edge, and rows of the band."""
        return Formula(self.edge_stitches, "sts")

    @cached_property
    def edge_cm(self) -> Formula:
        """The edge at rest."""
        return Formula(total(self.edge))

    @cached_property
    def edge_full_cm(self) -> Formula:
        """The edge at full stretch."""
        return Formula(total(run.at_full_stretch for run in self.edge))

    @cached_property
    def band_cm(self) -> Formula:
        """The band at rest."""
        return Formula(self._band)

    @cached_property
    def band_full_cm(self) -> Formula:
        """The band at full stretch."""
        return Formula(self._band.at_full_stretch)

    @property
    def _band(self) -> Laid:
        return Laid(self.edge_stitches, ROWS, self.band)

    @cached_property
    def _numbers(self) -> Callable[[CountValues], tuple[Numbers, ...]]:
        depth, lengths = Laid(self.depth, STITCHES, self.band), (self.edge_cm, self.edge_full_cm)
        picked_up = Const(0.0) if self.picked_up is None else self.picked_up
        return values_of((self.edge_count, picked_up, *lengths, self.band_cm, self.band_full_cm, depth))

    def ring(self, counts: CountValues) -> Ring:
        """The ring of one garment."""
        edge_count, picked_up, edge_cm, edge_full_cm, band_cm, band_full_cm, depth_cm = self._numbers(counts)
        return Ring(
            name=self.name,
            edge_count=int(edge_count),
            picked_up=int(picked_up),
            edge_cm=edge_cm,
            edge_full_cm=edge_full_cm,
            band_rows=int(edge_count),
            band_cm=band_cm,
            band_full_cm=band_full_cm,
            band_depth_cm=depth_cm,
        )


@dataclass(frozen=True, kw_only=True)
class SeamFormulas:
    """Two edges that are joined, row ends to row ends; ``words`` name the seam or the alike seams."""

    words: str
    first_cm: Formula
    second_cm: Formula
    first_fabric: Fabric
    second_fabric: Fabric

    @property
    def rows_cm(self) -> tuple[float, float]:
        """The height of a row of either edge."""
        return self.first_fabric.length_cm(1, ROWS), self.second_fabric.length_cm(1, ROWS)

    @cached_property
    def apart_cm(self) -> Formula:
        """How much longer the first is."""
        return Formula(self.first_cm - self.second_cm)


class Condition(Protocol):
    """Something counts keep or miss."""

    @property
    def needs(self) -> frozenset[str]:
        """The counts it depends on."""

    def miss(self, counts: CountValues) -> Numbers:
        """How far it is missed; 0 where it holds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """What the counts ask of each other so that the body can be worked or drawn.

    ``code`` is the check's that would stop it, None where the reader would refuse the counts.
    ``cure`` says what would help, with ``{missing}`` for the number of stitches or rows. A ``loose`` one ties
    counts together that otherwise have nothing to do with each other.
    """

    words: str
    kept: Condition
    cure: str
    code: str | None = None
    loose: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ArmPaths:
    """Reach and both spreads in cm, arm bands left out; not a number where they cannot be measured."""

    reach: Numbers
    back: Numbers
    front: Numbers


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
        """From a place square to the line of the middle."""
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
class Formulas:
    """One size as formulas of its counts; lengths in cm.

    ``measures`` are the finished measurements in the order they are reported, ``growing`` the keys of those
    that never shrink from a size to the next. ``drop`` is the centre back, ``longest_drop`` the distance of
    the hem's farthest place from the neck edge, ``girth_top`` and ``girth_hem`` the girths at neck and hem
    where the sides are closed. ``girths`` are those of `Garment.girths`, from counts whose
    names are in ``girths_need``, ``arm_paths`` the paths from counts in ``arm_paths_need``; ``widths_cm``
    (front, back) is None where the body has no slot. ``straight`` is how far above the hem regular increases
    end, and of what depth.
    """

    measures: tuple[Measure, ...]
    growing: tuple[str, ...]
    patterns: tuple[Pattern, ...]
    neck: RingFormulas
    arm: RingFormulas
    seams: tuple[SeamFormulas, ...]
    demands: tuple[Demand, ...]
    drop: Measure
    longest_drop: Measure
    girth_top: Measure
    girth_hem: Measure
    girths: Callable[[CountValues], tuple[tuple[Numbers, Numbers], ...]]
    girths_need: frozenset[str]
    widths_cm: tuple[Measure, Measure] | None = None
    arm_paths: Callable[[CountValues], ArmPaths]
    arm_paths_need: frozenset[str]
    straight: tuple[Callable[[CountValues], Numbers], Measure] | None = None

    @cached_property
    def lengths(self) -> Mapping[str, Measure]:
        """The measurements an intent can be stated for, by their keys."""
        return {each.key: each for each in self.measures if each.intended}

    @cached_property
    def counts(self) -> Mapping[str, str]:
        """The counts that grading finds, each with the finished measurement it is read from."""
        measured_by: dict[str, str] = {}
        for each in self.measures:
            name = each.found_by or (each.count.name if isinstance(each.count, Count) else "")
            if name and each.intended:
                measured_by.setdefault(name, each.key)
        return measured_by

    def girth_points(self, counts: CountValues) -> tuple[tuple[float, float], ...]:
        """`Garment.girths` of one garment: of points that are one only the last."""
        points = [(float(depth), float(girth)) for depth, girth in self.girths(counts)]
        depths = [*(depth for depth, _ in points[1:]), math.inf]
        return tuple(each for each, after in zip(points, depths, strict=True) if after - each[0] > NEAR)

    @cached_property
    def _numbers(self) -> Callable[[CountValues], tuple[Numbers, ...]]:
        """The length of each measurement, and the counts of those that have one."""
        return values_of((*self.measures, *(each.count for each in self.measures if each.count is not None)))

    def finished(self, counts: CountValues) -> tuple[Finished, ...]:
        """The finished measurements of one garment."""
        numbers = iter(self._numbers(counts))
        lengths = [float(next(numbers)) for _ in self.measures]
        return tuple(
            Finished(
                key=each.key,
                name=each.name,
                length_cm=length_cm,
                count=None if each.count is None else int(next(numbers)),
                counted=each.counted,
                fabric=each.fabric,
            )
            for each, length_cm in zip(self.measures, lengths, strict=True)
        )


def counted(
    key: str,
    name: str,
    count: Expr,
    of: Counted,
    fabric: Fabric,
    source: str = "",
    *,
    intended: bool = True,
    found_by: str = "",
) -> Measure:
    """A finished measurement that is one count of one fabric."""
    return Measure(
        Laid(count, of, fabric), key=key, name=name, source=source, count=count, counted=of,
        fabric=fabric.name, finished=True, intended=intended, found_by=found_by,
    )  # fmt: skip


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

    def side_cm(self, rows: int) -> float:
        """The length of a side of so many rows."""
        return float(self.side.at({PANEL_ROWS.name: rows}))

    def rows_along(self, side_cm: float) -> int:
        """The rows, in whole repeats, whose sides come nearest to that length."""
        rule = self.fabric.row_rule
        rows = side_cm * self.fabric.rows_per_cm
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
        """Each once."""
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


ONE_TO_EACH = "one ribbing row to each stitch of the"


def shared_measures(
    panel: PanelFormulas, neck: RingFormulas, arm: RingFormulas, neck_words: str, arm_words: str
) -> Iterator[Measure]:
    """The finished measurements every construction has: panel, neck and arm bands.

    Args:
        panel: the centre panel.
        neck: the neck band's ring.
        arm: the ring of either arm band.
        neck_words: what the neck edge is made of.
        arm_words: how the rows of an arm band follow.
    """
    yield from panel.measures
    yield Measure(
        total(neck.edge), key="neck.edge", name="neck edge with panel top", source=neck_words,
        count=neck.edge_stitches, counted=STITCHES, finished=True, intended=True,
    )  # fmt: skip
    for key, name, ring, words in (
        ("neck_band", "neck band", neck, f"{ONE_TO_EACH} neck edge"),
        ("arm_band", "arm band", arm, arm_words),
    ):
        yield counted(f"{key}.length", f"{name} length", ring.edge_stitches, ROWS, ring.band, words)
        yield counted(f"{key}.depth", f"{name} depth", ring.depth, STITCHES, ring.band)


WorkedOut: TypeAlias = tuple[Expr, str | tuple[str | Expr, ...]]
"""A length, and what its arithmetic does."""


def path_measures(middle: str, lengths: Iterable[WorkedOut | None]) -> Iterator[Measure]:
    """The paths from the ``middle`` of an arm run to nape, centre back and panel's middle, bands left out.

    ``lengths`` are in that order, each evaluated only after the path before it is used. None for the second:
    the nape is the nearest place of the centre back.
    """
    path = Measure(Const(0.0))
    for (key, name), length in zip(
        (
            ("way.reach", f"from the nape to {middle}"),
            ("way.back", f"from {middle} to the centre back"),
            ("way.front", f"from {middle} to the panel's middle"),
        ),
        lengths,
        strict=True,
    ):
        of, source = length or (path, "the nape is the nearest place of it")
        path = Measure(of, key=key, name=name, source=source)
        yield path


def neck_formulas(
    parts: Parts, panel: PanelFormulas, body: tuple[Laid, ...], stitches: Expr, picked_up: Expr | None = None
) -> RingFormulas:
    """The neck band's ring on so much body edge, of so many stitches, and the panel's top."""
    return RingFormulas(
        name="neck",
        edge=(*body, Laid(panel.top_stitches, STITCHES, parts.centre_panel)),
        edge_stitches=stitches + panel.top_stitches
        if picked_up is None
        else stitches + panel.top_stitches + picked_up,
        band=parts.neck_band,
        depth=NECK_BAND,
        picked_up=picked_up,
    )


def shared_patterns(parts: Parts, neck: RingFormulas, arm: RingFormulas) -> Iterator[Pattern]:
    """What the panel's fabric and the ribbing ask of the counts of panel and bands."""
    for words, count, of, fabric in (
        ("panel.stitches", PANEL_STITCHES, STITCHES, parts.centre_panel),
        ("panel.rows", PANEL_ROWS, ROWS, parts.centre_panel),
        ("neck_band.stitches", NECK_BAND, STITCHES, parts.neck_band),
        ("neck band rows", neck.edge_stitches, ROWS, parts.neck_band),
        ("arm_bands.stitches", ARM_BANDS, STITCHES, parts.arm_bands),
        ("arm band rows", arm.edge_stitches, ROWS, parts.arm_bands),
    ):
        yield Pattern(words=words, count=count, counted=of, fabric=fabric)


def even(count: Expr) -> CountRange:
    """The condition that makes a count even and positive."""
    return CountRange(Formula(count), low=2, multiple=2)
