"""What borders along an edge ask of a body's counts, for grading."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from schematics.crochet.fabric import Counted
from schematics.design.border import BorderEdge
from schematics.design.design import Parts
from schematics.garment.amounts import CountValues, Numbers
from schematics.garment.constructions.demands import Pattern
from schematics.wearer.expr import Expr


def border_patterns(parts: Parts, edges: Mapping[BorderEdge, Mapping[str, Expr]]) -> Iterator[Pattern]:
    """What the multiples of borders ask of the stitches along their edge.

    Args:
        parts: the fabrics and borders.
        edges: the counts along each edge, by words for them.
    """
    for border in parts.borders:
        counts = edges.get(border.at, {}) if isinstance(border.at, BorderEdge) else {}
        for words, count in counts.items():
            yield Pattern(
                words=f"{words} for the border {border.name}",
                count=count,
                counted=Counted.STITCHES,
                fabric=border.fabric(parts.body),
            )


@dataclass(frozen=True, slots=True)
class EndsAbove:
    """The last increase row lies above the last so many ``rows``; the names are those of the two counts."""

    rows: int
    until: str
    last: str = "body.rows"

    @property
    def needs(self) -> frozenset[str]:
        """The counts it depends on."""
        return frozenset({self.until, self.last})

    def miss(self, counts: CountValues) -> Numbers:
        """Rows by which it lies too low."""
        return np.maximum(0, counts[self.until] - (counts[self.last] - self.rows))


def rows_at_the_hem(parts: Parts) -> int:
    """The rows of the highest border along the hem; 0 where there is none."""
    return max((border.rows for border in parts.borders if border.at is BorderEdge.HEM), default=0)
