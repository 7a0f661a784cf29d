"""Bands on edges, and edges that are joined, as formulas of the counts."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from schematics.crochet.fabric import Fabric
from schematics.design.design import Parts
from schematics.garment.amounts import (
    ROWS,
    STITCHES,
    Count,
    CountValues,
    Formula,
    Laid,
    Numbers,
    total,
    values_of,
)
from schematics.garment.garment import Ring
from schematics.wearer.expr import Const, Expr

NECK_BAND, ARM_BANDS = Count("neck_band.stitches"), Count("arm_bands.stitches")
"""Counts of bands."""


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


def front_seams_formulas(parts: Parts, front_edge: Formula, panel_side: Formula) -> SeamFormulas:
    """The seams of both front edges of the body to the panel's sides."""
    return SeamFormulas(
        words="seams A and B, body to panel",
        first_cm=front_edge,
        second_cm=panel_side,
        first_fabric=parts.body,
        second_fabric=parts.centre_panel,
    )
