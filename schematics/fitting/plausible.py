"""Measurements that are a slip of the pen: no body of any table is near them."""

from __future__ import annotations

import math
from functools import cache

from schematics.checks.tape import Tape
from schematics.units import Unit
from schematics.wearer.body import Body, WearerSpec
from schematics.wearer.resolve import resolve
from schematics.wearer.rows import references

_SLACK = 0.25
"""How far beyond the smallest and largest body of all tables a length may be, as a fraction of it."""


@cache
def plausible_cm(body: Body) -> tuple[float, float]:
    """The lengths that are no slip of the pen: whole cm, a quarter beyond the ends of all tables."""
    everyone = (resolve(WearerSpec(chart=reference), reference) for reference in references())
    values = [value for value in (wearer.get(body) for wearer in everyone) if value is not None]
    low, high = min(value.low_cm for value in values), max(value.high_cm for value in values)
    return float(math.floor(low * (1 - _SLACK))), float(math.ceil(high * (1 + _SLACK)))


def slip(body: Body, length_cm: float, unit: Unit) -> str | None:
    """What is wrong with a length that no body has, and the unit it may be in; None for a plausible one.

    >>> slip(Body.HEAD_GIRTH, 20.5, Unit.CM)
    "expected 24.0 cm to 76.0 cm, got 20.5 cm; if it is in inches, write '20.5 in'"
    """
    low, high = plausible_cm(body)
    if low <= length_cm <= high:
        return None
    tape, number = Tape(unit), length_cm / unit.to_cm(1.0)
    words = f"expected {tape.length(low)} to {tape.length(high)}, got {number:.5g} {unit}"
    other = Unit.CM if unit is Unit.IN else Unit.IN
    if low <= other.to_cm(number) <= high:
        return f"{words}; if it is in {other.words}, write '{number:.5g} {other}'"
    return words
