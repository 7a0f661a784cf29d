"""A design worked at a maker's own gauge: the pattern's counts, other lengths.

A maker swatches the body fabric. Whose other swatches are not given is taken to work every fabric of
the design as much tighter or looser than the pattern in either direction as the body: it is the same
hand, yarn and hook (common practice, no source; a swatch of each fabric is better).

How well her gauge is known goes by her own swatch: by what she counted, over the length that she counted it.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from schematics.checks.rules.garment_numbers import facts
from schematics.crochet.fabric import Fabric, Swatch
from schematics.design.design import Design, Parts, Size
from schematics.garment.arm_freedom import ArmFreedom, arm_freedom
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.garment import Garment

PICKED_UP = "Stitches picked up along row ends are as many as your gauge asks for."

COUNT_DECIMALS = 9
"""What is counted of a swatch has no more: what else there is comes of dividing and multiplying again."""

USUAL_SWATCH_CM = 10.0
"""A gauge is counted over so much by default (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gauge:
    """Stitches and rows to one centimetre, counted over so much of a swatch."""

    stitches_per_cm: float
    rows_per_cm: float
    width_cm: float = USUAL_SWATCH_CM
    height_cm: float = USUAL_SWATCH_CM

    @classmethod
    def of(cls, fabric: Fabric) -> Gauge:
        """The gauge of a fabric as the pattern has it."""
        return cls(
            stitches_per_cm=fabric.stitches_per_cm,
            rows_per_cm=fabric.rows_per_cm,
            width_cm=fabric.swatch.width_cm,
            height_cm=fabric.swatch.height_cm,
        )


def parts_at_gauge(parts: Parts, body: Gauge, others: Mapping[str, Gauge] | None = None) -> Parts:
    """The fabrics as a maker of that gauge works them.

    Args:
        parts: the pattern's fabrics.
        body: the maker's gauge of the body fabric, wherever it is used.
        others: the maker's gauge of other fabrics, by their names; what is not among them is scaled as
            the body, and known as well as in the pattern.
    """
    usual = Gauge.of(parts.body)
    gauges = {**(others or {}), parts.body.name: body}

    across = usual.stitches_per_cm / body.stitches_per_cm
    along = usual.rows_per_cm / body.rows_per_cm

    def worked(fabric: Fabric) -> Fabric:
        if fabric.name in gauges:
            return fabric_at_gauge(fabric, gauges[fabric.name])
        pattern = fabric.swatch
        if across == along == 1:
            return fabric
        wide_cm, high_cm = pattern.width_cm * across, pattern.height_cm * along
        own = replace(pattern, width_cm=wide_cm, height_cm=high_cm, mass_g=None, reckoned=True)
        return _with_swatch(fabric, own)

    return parts.with_fabrics(worked)


def fabric_at_gauge(fabric: Fabric, gauge: Gauge) -> Fabric:
    """One of the pattern's fabrics as a maker of that gauge works it."""
    return _with_swatch(fabric, _counted(fabric.swatch, gauge))


def _with_swatch(fabric: Fabric, own: Swatch) -> Fabric:
    return fabric if own == fabric.swatch else replace(fabric, swatch=own, pattern_swatch=fabric.weighed)


def _counted(pattern: Swatch, gauge: Gauge) -> Swatch:
    """The maker's own swatch; the pattern's where she has its gauge and counted over as much."""
    own = Swatch(
        stitches=round(gauge.stitches_per_cm * gauge.width_cm, COUNT_DECIMALS),
        rows=round(gauge.rows_per_cm * gauge.height_cm, COUNT_DECIMALS),
        width_cm=gauge.width_cm,
        height_cm=gauge.height_cm,
    )
    same = math.isclose(own.stitches, pattern.stitches) and math.isclose(own.rows, pattern.rows)
    alike = same and (own.width_cm, own.height_cm) == (pattern.width_cm, pattern.height_cm)
    return pattern if alike else own


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeAtGauge:
    """A size as a maker makes it."""

    size: Size
    parts: Parts
    garment: Garment
    freedom: ArmFreedom | None

    @property
    def facts(self) -> dict[str, float]:
        """What the rules judge of the garment; see `schematics.checks.rules.garment_numbers.facts`."""
        return facts(self.garment, self.freedom)


def size_at_gauge(
    design: Design, size: Size, parts: Parts | None = None, pattern: Garment | None = None
) -> SizeAtGauge:
    """One size in the design's fabrics, or in ``parts`` with the counts of the pattern.

    Args:
        design: the design.
        size: one of its sizes, or one with other counts.
        parts: the maker's fabrics.
        pattern: the size's garment in the design's fabrics, if it is there already.
    """
    garment = garment_in(design, size, parts, pattern)
    return SizeAtGauge(size=size, parts=parts or design.parts, garment=garment, freedom=arm_freedom(garment))


def garment_in(
    design: Design, size: Size, parts: Parts | None = None, pattern: Garment | None = None
) -> Garment:
    """The garment of `size_at_gauge`, without its reach and spread.

    Stitches picked up along row ends, and the ribbing on them, are as many as the maker's gauge asks for.
    """
    parts = parts or design.parts
    if pattern and parts == design.parts:
        return pattern
    return CONSTRUCTIONS[design.construction].build(size, parts)
