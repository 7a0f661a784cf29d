"""How finely each finished measurement is printed: once, for every output."""

from __future__ import annotations

from schematics.garment.garment import Finished
from schematics.units import AnyGrain, Grain, ShortGrain, Unit, figure, printed, step_of

_NARROW = frozenset(
    {
        "panel.width",
        "panel.top",
        "body.slot",
        "neck_band.depth",
        "arm_band.depth",
        "body.neck_front",
        "body.neck_back",
        "arm.run",
        "arm.opening",
        "arm_band.length",
    }
)
"""Widths of panel and bands, how deep the neck is cut, and what closes round a wrist, in all sizes: half a
centimetre is much of them (common practice, no source)."""

NARROW_WORDS = "widths of panel and bands, neck depths and what goes round an arm"


def step_in_words(unit: Unit, grain: AnyGrain) -> str:
    """What a grain rounds to.

    >>> step_in_words(Unit.CM, Grain.COARSE), step_in_words(Unit.IN, ShortGrain.NARROW)
    ('0.5 cm', '1/8 in')
    """
    return printed(unit.to_cm(step_of(unit, grain)), unit, grain)


_COARSE, _FINER = (
    " and ".join(step_in_words(unit, grain) for unit in Unit) for grain in (Grain.COARSE, ShortGrain.NARROW)
)
STEPS_IN_WORDS = f"to {_COARSE}, {NARROW_WORDS} to {_FINER}"


def grain_of(key: str) -> AnyGrain:
    """The grain of the finished measurement with that key, whatever its size and wherever it is printed."""
    return ShortGrain.NARROW if key in _NARROW else Grain.COARSE


def finished_figure(item: Finished, unit: Unit) -> str:
    """The number a finished measurement is printed as, without its unit."""
    return figure(item.length_cm, unit, grain_of(item.key))
