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
    }
)
"""Widths of panel and bands, and how deep the neck is cut, in all sizes: half a centimetre is much of them
(common practice, no source)."""

_ROUND_THE_BODY = frozenset({"neck.edge", "neck_band.length", "arm.run", "arm.opening", "arm_band.length"})
"""What closes round a head, neck, hand or wrist, and is held against it: as a tape measures those."""


def grain_of(key: str) -> AnyGrain:
    """The grain of the finished measurement with that key, whatever its size and wherever it is printed."""
    if key in _ROUND_THE_BODY:
        return Grain.USUAL
    return ShortGrain.NARROW if key in _NARROW else Grain.COARSE


def finished_figure(item: Finished, unit: Unit, *, bare: bool = False) -> str:
    """The number a finished measurement is printed as, without its unit; ``bare`` as in `figure`."""
    return figure(item.length_cm, unit, grain_of(item.key), bare=bare)
