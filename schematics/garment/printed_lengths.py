"""How finely each finished measurement is printed: once, for every output."""

from __future__ import annotations

from schematics.garment.garment import Finished
from schematics.units import AnyGrain, Grain, ShortGrain, Unit, figure

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
STEPS_IN_WORDS = f"to 0.5 cm and 1/4 in, {NARROW_WORDS} to 0.25 cm and 1/8 in"


def grain_of(key: str) -> AnyGrain:
    """The grain of the finished measurement with that key, whatever its size and wherever it is printed."""
    return ShortGrain.NARROW if key in _NARROW else Grain.COARSE


def finished_figure(item: Finished, unit: Unit, *, bare: bool = False) -> str:
    """The number a finished measurement is printed as, without its unit; ``bare`` as in `figure`."""
    return figure(item.length_cm, unit, grain_of(item.key), bare=bare)
