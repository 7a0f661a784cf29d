"""How well a swatch tells the mass of a part.

A part's mass is its area over the swatch's area times the swatch's mass. Part and swatch are counted in
the same stitches, so the lengths cancel out: mass = stitches x rows of the part x mass of the swatch /
(stitches x rows of the swatch). What is read off the swatch is its two counts and its mass, and their
relative errors add as the root of their squares.
"""

from __future__ import annotations

import math

from schematics.crochet.fabric import Fabric, Swatch

COUNT_ERROR = 0.5
"""A swatch's stitches and rows are read to about half of one (common practice, no source)."""

SCALES_ERROR_G = 1.0
"""Kitchen scales show whole grams (common practice, no source)."""


def relative_error(swatch: Swatch) -> float | None:
    """The fraction by which a mass taken from the swatch may be off; None if it was not weighed."""
    if swatch.mass_g is None:
        return None
    return math.hypot(
        COUNT_ERROR / swatch.stitches, COUNT_ERROR / swatch.rows, SCALES_ERROR_G / swatch.mass_g
    )


def accuracy_words(fabric: Fabric) -> str:
    """The error of a fabric's swatch as its arithmetic.

    Such as ``main: ±5.0 % = root of (0.5/19)² + (0.5/14)² + (1/46)²``.

    Raises:
        ValueError: the swatch was not weighed.
    """
    swatch, error = fabric.swatch, relative_error(fabric.swatch)
    if error is None:
        raise ValueError(f"the swatch of {fabric.name} was not weighed")
    terms = (
        f"({COUNT_ERROR:g}/{swatch.stitches:g})²",
        f"({COUNT_ERROR:g}/{swatch.rows:g})²",
        f"({SCALES_ERROR_G:g}/{swatch.mass_g:g})²",
    )
    return f"{fabric.name}: ±{error:.1%} = root of {' + '.join(terms)}".replace("%", " %")


def larger_swatch(fabric: Fabric, wanted: float) -> float | None:
    """How many times as wide and high a swatch must be for a relative error of ``wanted``.

    None if the swatch was not weighed; 1 if it is large enough. Its counts grow with the factor and its
    mass with the square of it.
    """
    swatch, error = fabric.swatch, relative_error(fabric.swatch)
    if error is None or swatch.mass_g is None or wanted <= 0:
        return None
    if error <= wanted:
        return 1.0
    counts = math.hypot(COUNT_ERROR / swatch.stitches, COUNT_ERROR / swatch.rows) ** 2
    scales = (SCALES_ERROR_G / swatch.mass_g) ** 2
    # counts / f² + scales / f⁴ = wanted², a quadratic in 1 / f²
    inverse = (-counts + math.sqrt(counts**2 + 4 * scales * wanted**2)) / (2 * scales)
    return 1 / math.sqrt(inverse)
