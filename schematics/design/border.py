"""A border: rows of the body, such as a yoke or an edging at the hem, in a stitch pattern of their own."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from enum import StrEnum

from schematics.crochet.charts.chart import Chart
from schematics.crochet.fabric import CountRule, Fabric, RowRule


class BorderEdge(StrEnum):
    """The edge of the body along which a border lies; the value is the word in a spec."""

    NECK = "neck"
    HEM = "hem"


@dataclass(frozen=True, slots=True, kw_only=True)
class Border:
    """Rows of the body in a stitch pattern of their own, at the body's gauge.

    ``name`` is the designer's. ``at`` is the edge it lies along, or the row of the body that it begins on,
    counted from 1 as they are worked; so is row 1 of its ``chart`` worked first. ``rows`` fit ``row_rule``.
    """

    name: str
    stitch: str
    at: BorderEdge | int
    rows: int
    stitch_rule: CountRule = field(default_factory=CountRule)
    row_rule: RowRule = field(default_factory=RowRule)
    chart: Chart | None = None

    def fabric(self, body: Fabric) -> Fabric:
        """The border's pattern in the body's fabric, with its swatch and so its gauge."""
        return replace(
            body,
            name=self.name,
            stitch=self.stitch,
            stitch_rule=self.stitch_rule,
            row_rule=self.row_rule,
            chart=self.chart,
        )
