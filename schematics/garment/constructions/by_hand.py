"""A size worked out by hand: measures one after another, later ones built on earlier ones."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from schematics.design.design import Parts, Size
from schematics.garment.amounts import CountValues, Measure, value_of
from schematics.garment.constructions.formulas import Formulas
from schematics.garment.garment import Garment
from schematics.garment.geodesic import Path
from schematics.garment.walks import WalkName
from schematics.wearer.expr import Expr


@dataclass(slots=True, kw_only=True)
class HandSheet:
    """The measures of a size, by their keys, in the order they are worked out.

    ``paths`` are the shortest paths on the fabric, empty where they cannot be measured.
    """

    size: Size
    parts: Parts
    garment: Garment
    formulas: Formulas
    counts: CountValues
    paths: Mapping[WalkName, Path]
    steps: dict[str, Measure] = field(default_factory=dict)

    def add(self, measure: Measure) -> Measure:
        """Put a measure on the sheet."""
        self.steps[measure.key] = measure
        return measure

    def put(
        self, key: str, name: str, of: Expr, source: str | tuple[str | Expr, ...], unit: str = "cm"
    ) -> Measure:
        """Put a length, angle (°) or area (cm²) on the sheet; ``source`` says what the arithmetic does."""
        return self.add(Measure(of, unit, key=key, name=name, source=source))

    def value(self, of: Expr) -> float:
        """What a tree comes to in this size."""
        return float(value_of(of, self.counts))

    def __getitem__(self, key: str) -> Measure:
        return self.steps[key]
