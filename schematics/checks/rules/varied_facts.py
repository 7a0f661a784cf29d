"""What the rules know of a garment, as it is and as it would be if a fabric's measurement were off."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from schematics.checks.rules.formula_facts import FormulaFacts
from schematics.crochet.varied_fabric import FabricError, error_fraction, varied
from schematics.design.design import Parts, Size
from schematics.garment.amounts import ROWS, Numbers
from schematics.garment.constructions import Construction
from schematics.garment.constructions.base import counts_of
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


def alike(construction: Construction, size: Size) -> Hashable:
    """What sizes must have in common to be worked out together: what is no count, and counts left out."""
    settings = construction.settings_of(size.body)
    words = tuple(each for each in settings if f"body.{each[0]}" not in construction.shaping)
    return words, tuple(name for name, value in counts_of(size).items() if value is None)


def count_columns(sizes: Sequence[Size]) -> dict[str, Numbers | None]:
    """The counts and settings of sizes that are `alike`, as columns."""
    counts = [counts_of(each) for each in sizes]
    return {
        name: None if value is None else np.array([each[name] for each in counts])
        for name, value in counts[0].items()
    }


def band_rows_of(garments: Sequence[Garment]) -> dict[str, Numbers]:
    """The rows of their bands at ``neck`` and ``arm``, as columns."""
    return {
        "neck": np.array([each.neck.band_rows for each in garments]),
        "arm": np.array([each.arm.ring.band_rows for each in garments]),
    }


class Gathered(dict[str, Numbers]):
    """Facts of several garments by their names, as columns, when asked for."""

    def __init__(self, facts: Sequence[Mapping[str, float]]) -> None:
        super().__init__()
        self._facts = facts

    def __missing__(self, name: str) -> Numbers:
        return self.setdefault(name, np.array([each[name] for each in self._facts]))


class VariedFacts(FormulaFacts):
    """Facts of garments by their names, when asked for; of what an error moves there is a row for each.

    Args:
        facts: those of the garments as they are, as columns.
        construction: of the garments.
        sizes: their counts; they are `alike`.
        band_rows: of the bands at ``neck`` and ``arm``, as columns.
        parts: their fabrics.
    """

    def __init__(
        self,
        facts: Mapping[str, Numbers],
        construction: Construction,
        sizes: Sequence[Size],
        band_rows: Mapping[str, Numbers],
        parts: Parts,
    ) -> None:
        self._parts, _ = varied_parts(parts)
        super().__init__(construction.formulas_of(sizes[0].body, self._parts), count_columns(sizes))
        self._facts, self._band_rows = facts, band_rows

    def _fact(self, name: str) -> Numbers:
        usual, moved = self._facts[name], self._moved(name)
        if np.ndim(moved) < _BY_ERROR:
            return usual
        off = moved - moved[0]
        off[np.isnan(off)] = 0.0
        return usual + off

    def _moved(self, name: str) -> Numbers:
        head, _, rest = name.partition(".")
        bands = {"neck": self._parts.neck_band, "arm": self._parts.arm_bands}
        if head in bands and rest in ("band_cm", "band_full_cm"):
            measure = bands[head].full_length_cm if rest == "band_full_cm" else bands[head].length_cm
            return measure(self._band_rows[head], ROWS)
        return super()._fact(name)


_BY_ERROR = 2
"""Axes of what an error moves: its columns, and the garments."""
