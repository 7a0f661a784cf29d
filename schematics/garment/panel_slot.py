"""A slot that a body leaves down its centre front for the panel."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """The slot's width, and how wide the front, with the panel in it, and the back are."""

    width_cm: float
    front_cm: float
    back_cm: float
