"""What grading may know of a construction: how its measurements follow from its counts, for many at once.

Counts are named as in a spec, ``body.neck`` or ``panel.rows``. The same formulas serve one garment and
columns of them. `tests/garment/constructions/test_facts.py` holds them against garments that were made.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, Protocol

import numpy as np

from schematics.crochet.fabric import Counted, CountRule, Fabric
from schematics.design.design import Parts
from schematics.garment.linear import Counts, Linear, Numbers, Row

STITCHES, ROWS = Counted.STITCHES, Counted.ROWS
_TIE = 1e-6
"""Stitches; a sum of floats comes as near to a tie, swatch figures tell ties farther apart."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """A count that a stitch multiple or row repeat binds, and the fabric whose it is."""

    words: str
    count: Linear
    counted: Counted
    fabric: Fabric

    @property
    def rule(self) -> CountRule:
        """What the fabric asks of the count."""
        return self.fabric.stitch_rule if self.counted is STITCHES else self.fabric.row_rule.rule

    @property
    def row(self) -> Row:
        """The same as a condition."""
        return Row(value=self.count, low=self.rule.smallest, multiple=self.rule.multiple, plus=self.rule.plus)


@dataclass(frozen=True, slots=True, kw_only=True)
class PickedUp:
    """A count that follows from others: the one nearest to ``exact`` that is even with ``besides``.

    Of two equally near it is the larger, as `CountRule.nearest` has it; it is at least 1.
    """

    name: str
    exact: Linear
    besides: Linear

    @property
    def needs(self) -> frozenset[str]:
        """The counts it depends on."""
        return self.exact.needs | self.besides.needs

    def count(self, counts: Counts) -> Numbers:
        """The count it comes to."""
        exact, odd = self.exact.at(counts), np.round(self.besides.at(counts)) % 2
        least = np.where(odd == 1, 1, 2)
        low = np.maximum(least, 2 * np.floor((exact - odd) / 2 + 1e-9) + odd)
        high = np.maximum(least, 2 * np.ceil((exact - odd) / 2 - 1e-9) + odd)
        return np.where(exact - low < high - exact - _TIE, low, high).astype(int)


@dataclass(frozen=True, slots=True, kw_only=True)
class RingFacts:
    """The same as a `Ring`, in cm; a ring opens as far as the tighter of edge and band."""

    edge_count: Linear
    edge_cm: Linear
    edge_full_cm: Linear
    band_cm: Linear
    band_full_cm: Linear


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamFacts:
    """Two edges that are joined, row ends to row ends; ``words`` name the seam or the alike seams."""

    words: str
    first_cm: Linear
    second_cm: Linear
    first_fabric: Fabric
    second_fabric: Fabric

    @property
    def rows_cm(self) -> tuple[float, float]:
        """The height of a row of either edge."""
        return self.first_fabric.length_cm(1, ROWS), self.second_fabric.length_cm(1, ROWS)


class Condition(Protocol):
    """Something counts keep or miss."""

    @property
    def needs(self) -> frozenset[str]:
        """The counts it depends on."""

    def miss(self, counts: Counts) -> Numbers:
        """How far it is missed; 0 where it holds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """What the counts ask of each other so that the body can be worked or drawn.

    ``code`` is the check's that would stop it, None where the reader would refuse the counts.
    ``cure`` says what would help, with ``{missing}`` for the number of stitches or rows.
    """

    words: str
    row: Condition
    cure: str
    code: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ways:
    """Reach and both spreads in cm, arm bands left out; not a number where they cannot be measured."""

    reach: Numbers
    back: Numbers
    front: Numbers


@dataclass(frozen=True, slots=True, kw_only=True)
class Distance:
    """A straight distance that goes so far across and so far down, in cm."""

    down: Linear
    across: Linear = field(default_factory=Linear)

    @property
    def needs(self) -> frozenset[str]:
        """The counts it depends on."""
        return self.down.needs | self.across.needs

    def at(self, counts: Counts) -> Numbers:
        """The distance in cm."""
        down = self.down.at(counts)
        return np.hypot(self.across.at(counts), down) if self.across.terms else down


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """One size as formulas of its counts; lengths in cm.

    ``lengths`` are finished measurements by their keys, ``growing`` those of them that never shrink
    from a size to the next. ``drop`` is the centre back, ``corners`` are the hem's places that may lie
    farthest from the neck edge. ``girths`` are those of `Garment.girths`, found from counts whose
    names are in ``girths_need``; ``widths_cm`` (front, back) is None where the body has no slot; ``ways`` are
    found from those in ``ways_need``; ``straight_cm`` is how far above the hem regular increases end.
    """

    lengths: Mapping[str, Linear]
    growing: tuple[str, ...]
    patterns: tuple[Pattern, ...]
    picked_up: tuple[PickedUp, ...] = ()
    neck: RingFacts
    arm: RingFacts
    seams: tuple[SeamFacts, ...]
    demands: tuple[Demand, ...]
    drop: Distance
    corners: tuple[Distance, ...]
    girths: Callable[[Counts], tuple[tuple[Numbers, Numbers], ...]]
    girths_need: frozenset[str]
    widths_cm: tuple[Linear, Linear] | None = None
    ways: Callable[[Counts], Ways]
    ways_need: frozenset[str]
    straight_cm: Callable[[Counts], Numbers] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Gradable:
    """What makes a construction gradable.

    ``counts`` are its own counts that grading finds, each with the key of the finished measurement
    that tells it; other keys of its count models are settings, which a spec gives. ``shaping`` are counts
    that say on which rows increases are made, where that is to be regular: ``shapings`` lists, for columns of
    the other counts and one of the ``intervals``, what they can be, as the row of each and its columns.
    ``keys`` are the finished measurements a spec can state an intent for, those of panel and bands among
    them.
    """

    counts: Mapping[str, str]
    keys: tuple[str, ...]
    facts: Callable[[Mapping[str, Linear], Mapping[str, Any], Parts], Facts]
    shaping: tuple[str, ...] = ()
    shapings: Callable[[Counts, Mapping[str, Any], float], tuple[Numbers, Counts]] | None = None
    intervals: tuple[float, ...] = (1,)

    @property
    def all_counts(self) -> Mapping[str, str]:
        """Its own counts and those of panel and bands."""
        return {**self.counts, **SHARED_COUNTS}


SHARED_COUNTS: Mapping[str, str] = {
    "panel.stitches": "panel.width",
    "panel.rows": "panel.length",
    "neck_band.stitches": "neck_band.depth",
    "arm_bands.stitches": "arm_band.depth",
}
"""Counts of panel and bands, each with its finished measurement."""

SHARED_KEYS = (
    "neck.edge", "neck_band.length", "neck_band.depth", "arm_band.length", "arm_band.depth",
    "panel.width", "panel.length",
)  # fmt: skip
"""Finished measurements of panel and bands that an intent can be stated for."""


def length_cm(fabric: Fabric, count: Linear, counted: Counted) -> Linear:
    """The relaxed length of so many stitches or rows."""
    return count * fabric.length_cm(1, counted)


def full_cm(fabric: Fabric, count: Linear, counted: Counted) -> Linear:
    """The same at full stretch."""
    return count * fabric.full_length_cm(1, counted)


def ring_facts(edge_count: Linear, edge_cm: Linear, edge_full_cm: Linear, band: Fabric) -> RingFacts:
    """A sideways band on an edge: one ribbing row to each edge stitch."""
    return RingFacts(
        edge_count=edge_count,
        edge_cm=edge_cm,
        edge_full_cm=edge_full_cm,
        band_cm=length_cm(band, edge_count, ROWS),
        band_full_cm=full_cm(band, edge_count, ROWS),
    )


def neck_facts(
    counts: Mapping[str, Linear], parts: Parts, count: Linear, cm: Linear, stretched_cm: Linear
) -> RingFacts:
    """The neck band's ring on so much body edge and the panel's top."""
    panel, stitches = parts.centre_panel, counts["panel.stitches"]
    return ring_facts(
        count + stitches,
        cm + length_cm(panel, stitches, STITCHES),
        stretched_cm + full_cm(panel, stitches, STITCHES),
        parts.neck_band,
    )


def shared_lengths(
    counts: Mapping[str, Linear], parts: Parts, neck: RingFacts, arm: RingFacts
) -> dict[str, Linear]:
    """Lengths by the keys in `SHARED_KEYS`."""
    panel, neck_band, arm_bands = parts.centre_panel, parts.neck_band, parts.arm_bands
    return {
        "neck.edge": neck.edge_cm,
        "neck_band.length": neck.band_cm,
        "neck_band.depth": length_cm(neck_band, counts["neck_band.stitches"], STITCHES),
        "arm_band.length": arm.band_cm,
        "arm_band.depth": length_cm(arm_bands, counts["arm_bands.stitches"], STITCHES),
        "panel.width": length_cm(panel, counts["panel.stitches"], STITCHES),
        "panel.length": length_cm(panel, counts["panel.rows"], ROWS),
    }


def shared_patterns(
    counts: Mapping[str, Linear], parts: Parts, neck: RingFacts, arm: RingFacts
) -> Iterable[Pattern]:
    """What the panel's fabric and the ribbing ask of the counts of panel and bands."""
    for words, count, counted, fabric in (
        ("panel.stitches", counts["panel.stitches"], STITCHES, parts.centre_panel),
        ("panel.rows", counts["panel.rows"], ROWS, parts.centre_panel),
        ("neck_band.stitches", counts["neck_band.stitches"], STITCHES, parts.neck_band),
        ("neck band rows", neck.edge_count, ROWS, parts.neck_band),
        ("arm_bands.stitches", counts["arm_bands.stitches"], STITCHES, parts.arm_bands),
        ("arm band rows", arm.edge_count, ROWS, parts.arm_bands),
    ):
        yield Pattern(words=words, count=count, counted=counted, fabric=fabric)


def even(count: Linear) -> Row:
    """The row that makes a count even and positive."""
    return Row(value=count, low=2, multiple=2)
