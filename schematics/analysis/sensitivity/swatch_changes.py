"""A swatch that reads a stitch or a row more, or fewer, in ten centimetres; the spec's counts stay.

In a spec in inches it is four inches, the trade's other way to say a gauge (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from schematics.checks.evaluation import Result, evaluate
from schematics.crochet.fabric import Counted, Fabric, Swatch
from schematics.design.design import Design


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """``by`` stitches or rows more over the gauge length; negative is fewer."""

    counted: Counted
    by: int

    @property
    def words(self) -> str:
        """``1 stitch more``."""
        what = "stitch" if self.counted is Counted.STITCHES else "row"
        return f"1 {what} {'more' if self.by > 0 else 'fewer'}"


CHANGES = tuple(Change(counted=counted, by=by) for counted in Counted for by in (1, -1))
"""Every change that is tried."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """The design with one fabric's swatch changed, worked out anew: one result a size."""

    fabric: Fabric
    change: Change
    swatch: Swatch
    design: Design
    results: tuple[Result, ...]


def outlooks(design: Design) -> Iterator[Outlook]:
    """Each change to each fabric in turn; one that would leave no stitch or row is passed over."""
    for fabric in design.parts.fabrics.values():
        for change in CHANGES:
            swatch = changed_swatch(fabric.swatch, change, design.unit.gauge_span[0])
            if swatch is not None:
                other = with_swatch(design, fabric, swatch)
                yield Outlook(
                    fabric=fabric, change=change, swatch=swatch, design=other, results=evaluate(other)
                )


def changed_swatch(swatch: Swatch, change: Change, over_cm: float) -> Swatch | None:
    """The same piece with so many stitches or rows more in every ``over_cm``; None if none are left."""
    if change.counted is Counted.STITCHES:
        stitches = swatch.stitches + change.by * swatch.width_cm / over_cm
        return replace(swatch, stitches=stitches) if stitches > 0 else None
    rows = swatch.rows + change.by * swatch.height_cm / over_cm
    return replace(swatch, rows=rows) if rows > 0 else None


def with_swatch(design: Design, fabric: Fabric, swatch: Swatch) -> Design:
    """The design with the fabric's swatch exchanged wherever it is used."""

    def worked(each: Fabric) -> Fabric:
        return replace(each, swatch=swatch) if each.name == fabric.name else each

    return replace(design, parts=design.parts.with_fabrics(worked))
