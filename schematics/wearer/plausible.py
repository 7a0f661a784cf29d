"""Measurements that are a slip of the pen: no body of any table is near them."""

from __future__ import annotations

import math
from functools import cache
from typing import Any

from schematics.units import CM_PER, Grain, Unit, printed
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


SLIP = "expected {low} to {high}, got {number} {unit}"
MEANT = "{slip}: {number} {other}?"
MEANT_UNITS: tuple[str, ...] = (*Unit, "m")
"""What a number may have been typed in, whatever the unit of bare ones: the first that a body has."""

_FIGURES = 5
"""Of a number as it was typed."""


def slip(body: Body, length_cm: float, unit: Unit) -> str | None:
    """What is wrong with a length that no body has, and the unit it may be in; None for a plausible one.

    >>> slip(Body.HEAD_GIRTH, 20.5, Unit.CM)
    'expected 27 cm to 76 cm, got 20.5 cm: 20.5 in?'
    >>> slip(Body.HEIGHT, 1.16, Unit.CM)
    'expected 41 cm to 231 cm, got 1.16 cm: 1.16 m?'
    """
    low, high = plausible_cm(body)
    if low <= length_cm <= high:
        return None
    number = length_cm / unit.to_cm(1.0)
    shown = f"{float(f'{number:.{_FIGURES}g}'):.15g}"
    low_words, high_words = (printed(end_cm, unit, Grain.USUAL) for end_cm in (low, high))
    words = SLIP.format(low=low_words, high=high_words, number=shown, unit=unit)
    for other in MEANT_UNITS:
        if low <= number * CM_PER[other] <= high:
            return MEANT.format(slip=words, number=shown, other=other)
    return words


def slip_json() -> dict[str, Any]:
    """The words of `slip` as plain JSON values, and the units that are asked about with their centimetres."""
    return {
        "words": SLIP,
        "meant": MEANT,
        "units": [[unit, CM_PER[unit]] for unit in MEANT_UNITS],
        "figures": _FIGURES,
    }
