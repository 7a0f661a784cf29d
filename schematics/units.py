"""Lengths: centimetres inside, both units on paper.

Rounding happens here and nowhere else, and always from the exact length, so nothing is rounded twice.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from enum import StrEnum
from typing import TypeAlias

CM_PER_INCH = 2.54
"""Exact by the international yard and pound agreement of 1959."""

CM_PER: Mapping[str, float] = {"cm": 1.0, "mm": 0.1, "m": 100.0, "in": CM_PER_INCH, "ft": 12 * CM_PER_INCH}
"""Centimetres of each unit that people give a length in."""

GAUGE_STEP = 0.01
"""What stitches and rows over the span of a gauge are rounded to."""

HAIR = 1e-9
"""Float error that never decides a comparison."""

NEAR = 1e-6
"""Computed points and lengths that are no farther apart are one, in cm on fabric and in mm on a sheet."""

METRES_PER_YARD = 0.9144
"""Exact by the same agreement."""

GRAMS_PER_OUNCE = 28.349523125
"""Avoirdupois; exact by the same agreement."""


class Unit(StrEnum):
    """The unit a spec's bare numbers are in."""

    CM = "cm"
    IN = "in"

    def to_cm(self, value: float) -> float:
        """The length in centimetres of ``value`` of this unit."""
        return value * CM_PER_INCH if self is Unit.IN else value

    def from_cm(self, length_cm: float) -> float:
        """The length in this unit."""
        return length_cm / CM_PER_INCH if self is Unit.IN else length_cm

    @property
    def words(self) -> str:
        """``cm`` or ``inches``."""
        return "inches" if self is Unit.IN else "cm"

    @property
    def gauge_span(self) -> tuple[float, str]:
        """What a gauge is counted over: centimetres, and in words (10 cm and 4 in, common practice)."""
        return (4 * CM_PER_INCH, "4 in") if self is Unit.IN else (10.0, "10 cm")

    def gauge_figure(self, per_cm: float) -> str:
        """Stitches or rows over that span, as every gauge is printed: to `GAUGE_STEP`, no needless nought.

        >>> Unit.CM.gauge_figure(0.9419), Unit.IN.gauge_figure(1.9)
        ('9.42', '19.3')
        """
        return f"{round_half_up(per_cm * self.gauge_span[0], GAUGE_STEP):.2f}".rstrip("0").rstrip(".")


def exceeds(value: float, limit: float) -> bool:
    """Whether ``value`` is over ``limit`` by more than a hair of float error; at the limit it is not."""
    return value > limit + HAIR


def round_half_up(value: float, step: float) -> float:
    """``value`` rounded to the nearest multiple of ``step``, halves away from zero, never -0.0."""
    rounded = math.floor(abs(value) / step + 0.5 + HAIR) * step
    return rounded if value >= 0 else 0.0 - rounded


class Grain(StrEnum):
    """How finely a length is printed, whatever it is printed on (common practice, no source).

    A garment's finished measurements, and the bodies a size of several is to fit, are printed ``coarse``, to
    0.5 cm and 1/4 in, but for those that `schematics.garment.printed_lengths` names; what a tape measures and
    what else is worked out ``usual``, to 0.1 cm and 1/8 in; ``fine``, to 0.01 cm and 1/32 in, only where a
    difference would be rounded away.
    """

    COARSE = "coarse"
    USUAL = "usual"
    FINE = "fine"


class ShortGrain(StrEnum):
    """How finely finished measurements are printed that are short in every size (common practice, no source).

    ``narrow``: to 0.25 cm and 1/8 in.
    """

    NARROW = "narrow"


AnyGrain: TypeAlias = Grain | ShortGrain

_STEPS: Mapping[Unit, Mapping[AnyGrain, float]] = {
    Unit.CM: {Grain.COARSE: 0.5, ShortGrain.NARROW: 0.25, Grain.USUAL: 0.1, Grain.FINE: 0.01},
    Unit.IN: {Grain.COARSE: 1 / 4, ShortGrain.NARROW: 1 / 8, Grain.USUAL: 1 / 8, Grain.FINE: 1 / 32},
}


def step_of(unit: Unit, grain: AnyGrain) -> float:
    """What lengths are rounded to, in their unit."""
    return _STEPS[unit][grain]


def finer_of(one: AnyGrain, other: AnyGrain) -> AnyGrain:
    """The grain in which the difference of two lengths of these grains is written exactly.

    >>> str(finer_of(Grain.COARSE, Grain.USUAL)), str(finer_of(ShortGrain.NARROW, Grain.USUAL))
    ('usual', 'narrow')
    """
    return max(one, other, key=lambda grain: (decimals_of(grain), -_STEPS[Unit.IN][grain]))


def decimals_of(grain: AnyGrain) -> int:
    """How many decimals a number has at most."""
    return 2 if grain in (Grain.FINE, ShortGrain.NARROW) else 1


def figure(length_cm: float, unit: Unit, grain: AnyGrain = Grain.COARSE) -> str:
    """The number a length is printed as, without its unit; every printed length is one of these.

    The exact length is rounded once, in the unit it is printed in, halves away from zero, and has no needless
    nought.

    >>> figure(41.91, Unit.CM), figure(42.49, Unit.CM), figure(41.91, Unit.IN)
    ('42', '42.5', '16 1/2')
    >>> [figure(cm, Unit.CM, ShortGrain.NARROW) for cm in (4.62, 4.29)]
    ['4.5', '4.25']
    """
    return _digits(round_half_up(unit.from_cm(length_cm), _STEPS[unit][grain]), unit, grain)


def _digits(rounded: float, unit: Unit, grain: AnyGrain) -> str:
    """What has been rounded, in its unit."""
    if unit is Unit.IN:
        return _in_fractions(rounded, round(1 / step_of(unit, grain)))
    text = f"{rounded:.{decimals_of(grain)}f}"
    return text if grain is Grain.FINE else text.rstrip("0").removesuffix(".")


def _in_fractions(inches: float, parts: int) -> str:
    """Whole parts of an inch, so many to one, as a whole and a fraction: ``16 1/2``."""
    total = round(inches * parts)
    whole, rest = divmod(abs(total), parts)
    shared = math.gcd(rest, parts)
    fraction = f"{rest // shared}/{parts // shared}"
    words = f"{whole} {fraction}" if whole and rest else fraction if rest else f"{whole}"
    return f"-{words}" if total < 0 else words


def printed(length_cm: float, unit: Unit, grain: AnyGrain = Grain.COARSE) -> str:
    """A length with its unit: ``42 cm``, ``16 1/2 in``."""
    return f"{figure(length_cm, unit, grain)} {unit}"


def printed_rounded(rounded: float, unit: Unit, grain: AnyGrain) -> str:
    """A number of the unit that has been rounded already, printed with its unit."""
    return f"{_digits(rounded, unit, grain)} {unit}"


def printed_mass(grams: float, unit: Unit) -> str:
    """A mass to whoever measures in a unit: ``99 g``, ``3.5 oz``."""
    return f"{grams / GRAMS_PER_OUNCE:.1f} oz" if unit is Unit.IN else f"{grams:.0f} g"


def format_cm(length_cm: float, grain: AnyGrain = Grain.COARSE) -> str:
    """The length in centimetres: ``42 cm``."""
    return printed(length_cm, Unit.CM, grain)


def format_inches(length_cm: float, grain: AnyGrain = Grain.COARSE) -> str:
    """The length in inches: ``16 1/2 in``."""
    return printed(length_cm, Unit.IN, grain)


def format_both(length_cm: float, grain: AnyGrain = Grain.COARSE) -> str:
    """The length in both units on one line: ``42 cm (16 1/2 in)``."""
    return f"{format_cm(length_cm, grain)} ({format_inches(length_cm, grain)})"
