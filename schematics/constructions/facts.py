"""What grading may know of a construction: how its measurements follow from its counts, in straight lines.

Counts are named as in a spec, ``body.neck`` or ``panel.rows``. Whatever is not linear in them is left
to the checks of the made garment; `Lever` says which way each count moves it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from schematics.design import Parts
from schematics.fabric import Counted, CountRule, Fabric
from schematics.linear import Linear, Row

STITCHES, ROWS = Counted.STITCHES, Counted.ROWS

Counts = Mapping[str, Linear]


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


@dataclass(frozen=True, slots=True, kw_only=True)
class PickedUp:
    """A count that follows from others: the one nearest to ``exact`` that is even with ``besides``.

    Of two equally near it is the larger, as `CountRule.nearest` has it.
    """

    name: str
    exact: Linear
    besides: Linear

    def count(self, counts: Mapping[str, float]) -> int:
        """The count it comes to."""
        besides = round(self.besides.at(counts))
        return CountRule(multiple=2, plus=besides % 2).nearest(self.exact.at(counts))


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
    """Two edges that are joined; ``words`` name the seam or the alike seams."""

    words: str
    first_cm: Linear
    second_cm: Linear


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """What the counts ask of each other so that the body can be worked or drawn.

    ``code`` is the check's that would stop it, None where the reader would refuse the counts.
    ``cure`` says what would help, with ``{missing}`` for the number of stitches or rows.
    """

    words: str
    row: Row
    cure: str
    code: str | None = None


class Quantity(StrEnum):
    """What the checks measure on the made garment and grading cannot put into a straight line."""

    REACH = "reach"
    SPREAD_BACK = "spread across the back"
    SPREAD_FRONT = "spread across the front"
    GIRTH = "girth"
    DROP = "drop"
    LOWEST = "lowest corner of the hem"
    INCREASES = "room for increases"


@dataclass(frozen=True, slots=True, kw_only=True)
class Lever:
    """Whole-number sum of counts that moves a quantity: up with it (1), down (-1), or either way (0).

    ``by`` is the count to change where the sum is to change. A ``straight`` lever moves it by as
    much wherever it stands.
    """

    value: Linear
    by: str
    sign: int
    straight: bool = False


Levers = Mapping[Quantity, tuple[Lever, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """One size in straight lines; lengths in cm.

    ``lengths`` are finished measurements by their keys, ``growing`` those of them that never shrink
    from a size to the next. ``drop_cm`` is None where it is not linear. ``corners_cm`` are the
    hem's places that may lie farthest from the neck edge: how far across from it and how far down.
    ``widths_cm`` (front, back) is None where the body has no slot.
    """

    lengths: Mapping[str, Linear]
    growing: tuple[str, ...]
    patterns: tuple[Pattern, ...]
    picked_up: tuple[PickedUp, ...] = ()
    neck: RingFacts
    arm: RingFacts
    seams: tuple[SeamFacts, ...]
    demands: tuple[Demand, ...]
    drop_cm: Linear | None
    corners_cm: tuple[tuple[Linear, Linear], ...]
    widths_cm: tuple[Linear, Linear] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Gradable:
    """What makes a construction gradable.

    ``counts`` are its own counts that grading finds, each with the key of the finished measurement
    that tells it; other keys of its count models are settings, which a spec gives. ``keys`` are the
    finished measurements a spec can state an intent for, those of panel and bands among them.
    While a count in ``slices`` stands, a quantity is a sum of what each of its other levers gives, and
    no lever gives more with its second step than with its first: a line through steps to either side
    of a garment is never below another.
    """

    counts: Mapping[str, str]
    keys: tuple[str, ...]
    facts: Callable[[Counts, Mapping[str, Any], Parts], Facts]
    levers: Levers
    slices: Mapping[Quantity, str] = field(default_factory=dict)

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


def lever(count: str, sign: int, *, straight: bool = False) -> Lever:
    """One count by itself."""
    return Lever(value=Linear.of(count), by=count, sign=sign, straight=straight)


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


def neck_facts(counts: Counts, parts: Parts, count: Linear, cm: Linear, stretched_cm: Linear) -> RingFacts:
    """The neck band's ring on so much body edge and the panel's top."""
    panel, stitches = parts.centre_panel, counts["panel.stitches"]
    return ring_facts(
        count + stitches,
        cm + length_cm(panel, stitches, STITCHES),
        stretched_cm + full_cm(panel, stitches, STITCHES),
        parts.neck_band,
    )


def shared_lengths(counts: Counts, parts: Parts, neck: RingFacts, arm: RingFacts) -> dict[str, Linear]:
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


def shared_patterns(counts: Counts, parts: Parts, neck: RingFacts, arm: RingFacts) -> Iterable[Pattern]:
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
