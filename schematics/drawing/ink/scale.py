"""Drawing scales: those of ISO 5455, and steps between them, which it allows where none of them will do."""

from __future__ import annotations

SCALES = (1, 2, 5, 10, 20, 50)
"""Denominators of the reduction scales of ISO 5455 a garment needs, 1:1 to 1:50."""

STEPS = (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50)
"""The same with steps between them that a ruler's reading is easily multiplied by."""

FINE_STEPS = (1, 2, 3, 4, 5, 6, 7, 8, 9, *STEPS[STEPS.index(10) :])
"""Those with every whole number up to ten, for what a coarser step would leave much of its page empty."""


def to_mm(length_cm: float, scale: float) -> float:
    """Millimetres on a sheet at 1:``scale``."""
    return length_cm * 10 / scale
