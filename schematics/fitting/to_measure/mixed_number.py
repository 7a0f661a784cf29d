"""Lengths that follow from whole stitches and rows, as whole centimetres and a fraction: exact, and short."""

from __future__ import annotations

from fractions import Fraction

_LARGEST = 100_000
"""The largest denominator."""


def nearest_fraction(length: float) -> float:
    """The length of the fraction that is meant by a float.

    >>> nearest_fraction(19.755555555555553)
    19.755555555555556
    """
    return float(_fraction(length))


def mixed_number(length: float) -> str:
    """A length that is a `nearest_fraction`, as it is read back.

    >>> mixed_number(19.755555555555556), mixed_number(0.2), mixed_number(8.0)
    ('19 34/45', '1/5', '8')
    """
    whole, part = divmod(_fraction(length), 1)
    return " ".join(str(each) for each in (whole, part) if each) or "0"


def _fraction(length: float) -> Fraction:
    return Fraction(length).limit_denominator(_LARGEST)
