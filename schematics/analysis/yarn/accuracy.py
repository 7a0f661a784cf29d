"""How well the mass of a part follows from that of a swatch.

mass = stitches of the part x mass of the swatch / (stitches x rows of the swatch). What is read off the
swatch is its two counts and its mass; who works looser than the swatch draws as much more yarn into each
stitch. To first order these relative errors, independent of each other, add as the root of their squares.
"""

from __future__ import annotations

import math

from schematics.crochet.fabric import Fabric, Swatch
from schematics.wearer.standard_deviations import DRIFT_FRACTION, READING_COUNT, reading_fraction

SCALES_ERROR_G = 1.0
"""Kitchen scales show whole grams (common practice, no source)."""

ALIKE = 0.05
"""Amounts that differ by no more are alike: no swatch tells more (common practice, no source)."""


def relative_error(swatch: Swatch) -> float | None:
    """The fraction by which a mass taken from the swatch may be off; None if it was not weighed."""
    if swatch.mass_g is None:
        return None
    return math.hypot(_counts_error(swatch), SCALES_ERROR_G / swatch.mass_g, DRIFT_FRACTION)


def _counts_error(swatch: Swatch) -> float:
    return math.hypot(reading_fraction(swatch.stitches), reading_fraction(swatch.rows))


def accuracy_words(fabric: Fabric) -> str:
    """The error of a fabric's swatch as its arithmetic.

    Such as ``main: ±5.3 % = root of (0.5/19)² + (0.5/14)² + (1/46)² + (2 %)²``.

    Raises:
        ValueError: the swatch was not weighed.
    """
    swatch, error = fabric.weighed, relative_error(fabric.weighed)
    if error is None:
        raise ValueError(f"the swatch of {fabric.name} was not weighed")
    terms = (
        f"({READING_COUNT:g}/{swatch.stitches:g})²",
        f"({READING_COUNT:g}/{swatch.rows:g})²",
        f"({SCALES_ERROR_G:g}/{swatch.mass_g:g})²",
        f"({DRIFT_FRACTION:.0%})²",
    )
    return f"{fabric.name}: ±{error:.1%} = root of {' + '.join(terms)}".replace("%", " %")


def larger_swatch(fabric: Fabric, wanted: float) -> float | None:
    """How many times as wide and high a swatch must be for a relative error of ``wanted``.

    None if the swatch was not weighed, or no swatch is large enough; 1 if it is. Its counts grow with the
    factor and its mass with the square of it.
    """
    swatch, error = fabric.weighed, relative_error(fabric.weighed)
    if error is None or swatch.mass_g is None or wanted <= DRIFT_FRACTION:
        return None
    if error <= wanted:
        return 1.0
    counts, scales = _counts_error(swatch) ** 2, (SCALES_ERROR_G / swatch.mass_g) ** 2
    left = wanted**2 - DRIFT_FRACTION**2
    # counts / f² + scales / f⁴ = left, a quadratic in 1 / f²
    inverse = (-counts + math.sqrt(counts**2 + 4 * scales * left)) / (2 * scales)
    return 1 / math.sqrt(inverse)
