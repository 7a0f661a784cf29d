"""A size as formulas of its counts: what is measured on it, and what its counts must keep.

Counts are named as in a spec, ``body.neck`` or ``panel.rows``. The same formulas serve one garment, columns
of them, and the arithmetic by hand.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from schematics.design.design import Parts
from schematics.garment.amounts import (
    ROWS,
    STITCHES,
    Count,
    CountValues,
    Laid,
    Measure,
    Numbers,
    counted,
    total,
    values_of,
)
from schematics.garment.constructions.demands import Demand, Pattern
from schematics.garment.constructions.edge_formulas import ARM_BANDS, NECK_BAND, RingFormulas, SeamFormulas
from schematics.garment.constructions.panel_formulas import PANEL_ROWS, PANEL_STITCHES, PanelFormulas
from schematics.garment.constructions.path_formulas import ArmPaths
from schematics.garment.garment import Finished
from schematics.units import NEAR
from schematics.wearer.expr import Expr


@dataclass(frozen=True, kw_only=True)
class Formulas:
    """One size as formulas of its counts; lengths in cm.

    ``measures`` are the finished measurements in the order they are reported, ``growing`` the keys of those
    that never shrink from a size to the next. ``drop`` is the centre back, ``longest_drop`` the distance of
    the hem's farthest place from the neck edge, ``girth_top`` and ``girth_hem`` the girths at neck and hem
    where the sides are closed. ``girths`` are those of `Garment.girths`, from counts whose
    names are in ``girths_need``, ``arm_paths`` the paths from counts in ``arm_paths_need``; ``widths_cm``
    (front, back) is None where the body has no slot, ``opening``, the angle that it opens to in radians,
    where it always lies flat. ``straight`` is how far above the hem regular increases end, and of what depth.
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
    opening: Callable[[CountValues], Numbers] | None = None
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
            name = each.graded_by or (each.count.name if isinstance(each.count, Count) else "")
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


DROP = "centre back, neck edge to hem"


def drop_measure(of: Expr, source: str) -> Measure:
    """The length of the centre back, neck edge to hem."""
    return Measure(of, key="drop", name=DROP, source=source, finished=True)


def longest_drop_measure(of: Expr, source: str) -> Measure:
    """The distance from the neck edge to the hem's farthest place."""
    return Measure(of, key="longest_drop", name="longest way from neck edge to hem", source=source)


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
