"""A fabric as it is measured, and as it would be if one of its measurements were off."""

from __future__ import annotations

from dataclasses import dataclass, field, fields
from enum import StrEnum
from typing import Any

import numpy as np

from schematics.crochet.fabric import Counted, Fabric
from schematics.wearer.standard_deviations import DRIFT_FRACTION, reading_fraction, stretch_fraction


class FabricError(StrEnum):
    """What may be off of a fabric, each by itself."""

    STITCHES = "stitches"
    ROWS = "rows"
    DRIFT = "drift"
    ACROSS = "stretch across"
    ALONG = "stretch along"


LENGTH_ERRORS = {Counted.STITCHES: FabricError.STITCHES, Counted.ROWS: FabricError.ROWS}
STRETCH_ERRORS = {Counted.STITCHES: FabricError.ACROSS, Counted.ROWS: FabricError.ALONG}
"""Which error is of that direction alone."""


def error_fraction(fabric: Fabric, error: FabricError) -> float:
    """The standard deviation of an error, as a fraction of what it is an error of."""
    match error:
        case FabricError.STITCHES:
            return reading_fraction(fabric.swatch.stitches)
        case FabricError.ROWS:
            return reading_fraction(fabric.swatch.rows)
        case FabricError.DRIFT:
            return DRIFT_FRACTION
    return float(stretch_fraction(fabric.stretch_pulls))


@dataclass(frozen=True, slots=True, kw_only=True)
class VariedFabric(Fabric):
    """A fabric whose lengths are columns: as measured, then with each error, more of it and less of it.

    Of ``errors`` in all its own are those from ``first`` on, in the order of `FabricError`. The columns are
    `1 + 2 * errors` rows: nothing off, each error one standard deviation up, then each one down. There may be
    a number for each of many counts in a row.
    """

    first: int
    errors: int
    _times: dict[tuple[Counted, bool], Any] = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        """Work out the columns."""
        times = {}
        for counted in Counted:
            length = self._off(LENGTH_ERRORS[counted]) * self._off(FabricError.DRIFT)
            stretch = self.stretch(counted) * self._off(STRETCH_ERRORS[counted])
            times[counted, False], times[counted, True] = length, length * (1 + stretch)
        object.__setattr__(self, "_times", times)

    def _off(self, error: FabricError) -> Any:
        column, fraction = np.ones((1 + 2 * self.errors, 1)), error_fraction(self, error)
        place = 1 + self.first + list(FabricError).index(error)
        column[place], column[place + self.errors] = 1 + fraction, 1 - fraction
        return column

    def length_cm(self, count: float, counted: Counted) -> Any:
        """The relaxed length, in columns."""
        return Fabric.length_cm(self, count, counted) * self._times[counted, False]

    def full_length_cm(self, count: float, counted: Counted) -> Any:
        """The length at full stretch, in columns."""
        return Fabric.length_cm(self, count, counted) * self._times[counted, True]


def varied(fabric: Fabric, first: int, errors: int) -> VariedFabric:
    """The fabric with its errors from the ``first`` of so many on."""
    same = {each.name: getattr(fabric, each.name) for each in fields(Fabric)}
    return VariedFabric(**same, first=first, errors=errors)
