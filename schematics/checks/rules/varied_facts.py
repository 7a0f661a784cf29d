"""What the rules know of a garment, as it is and as it would be if a fabric's measurement were off."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from schematics.checks.rules.formula_facts import MadeFacts
from schematics.crochet.varied_fabric import FabricError, error_fraction, varied
from schematics.design.design import Parts, Size
from schematics.garment.amounts import Numbers
from schematics.garment.constructions import Construction
from schematics.garment.garment import Garment


@dataclass(frozen=True, slots=True, kw_only=True)
class FabricDoubt:
    """One error of one fabric, by its name, and its standard deviation as a fraction."""

    fabric: str
    error: FabricError
    fraction: float


@lru_cache(maxsize=64)
def varied_parts(parts: Parts) -> tuple[Parts, tuple[FabricDoubt, ...]]:
    """Every part in its fabric's columns, and what the errors are, in their order."""
    fabrics = parts.fabrics
    each = len(FabricError)
    changed = {
        name: varied(fabric, each * place, each * len(fabrics))
        for place, (name, fabric) in enumerate(fabrics.items())
    }
    doubts = tuple(
        FabricDoubt(fabric=name, error=error, fraction=error_fraction(fabric, error))
        for name, fabric in fabrics.items()
        for error in FabricError
    )
    return parts.with_fabrics(lambda fabric: changed[fabric.name]), doubts


class VariedFacts(MadeFacts):
    """Facts by their names, when asked for, in columns as of `VariedFabric`.

    Args:
        facts: those of the garment as it is.
        construction: of the garment.
        size: its counts.
        garment: the garment.
        parts: its fabrics.
        errors: how many errors there are in all; those of fabrics are the first of them.
    """

    def __init__(
        self,
        facts: Mapping[str, float],
        construction: Construction,
        size: Size,
        garment: Garment,
        parts: Parts,
        errors: int,
    ) -> None:
        changed, doubts = varied_parts(parts)
        super().__init__(construction, size, garment, changed)
        self._facts, self._errors, self._own = facts, errors, len(doubts)

    def _fact(self, name: str) -> Numbers:
        usual = self._facts[name]
        moved = super()._fact(name)
        if not isinstance(moved, np.ndarray) or moved.ndim == 0:
            return usual
        off = moved - moved[0]
        off[np.isnan(off)] = 0.0
        column = np.full(1 + 2 * self._errors, usual)
        column[1 : 1 + self._own] += off[1 : 1 + self._own]
        column[1 + self._errors : 1 + self._errors + self._own] += off[1 + self._own :]
        return column
