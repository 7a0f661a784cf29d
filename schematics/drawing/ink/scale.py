"""Drawing scales."""

from __future__ import annotations

SCALES = (1, 2, 5, 10, 20, 50)
"""Denominators of the reduction scales of ISO 5455 a garment needs, 1:1 to 1:50."""


def to_mm(length_cm: float, scale: float) -> float:
    """Millimetres on a sheet at 1:``scale``."""
    return length_cm * 10 / scale
