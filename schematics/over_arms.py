"""The girth round the chest and both arms, hanging down inside the poncho, from separate girths."""

from __future__ import annotations

import math
from functools import cache

import numpy as np
from shapely import MultiPoint

CHEST_DEPTH_SHARE = 0.75
"""Depth of a chest over its breadth (common practice, no source)."""

_POINTS = 720
"""Points round each outline: the hull's girth falls 3e-6 short."""


def girth_over_arms_cm(chest_girth_cm: float, upper_arm_girth_cm: float) -> float:
    """An upper bound on the girth round the chest and both arms.

    The tape goes round an ellipse with the chest's girth and two circles with the arm's, which
    touch the ellipse at its two sides: the girth of their convex hull. Arms press into the chest
    and lie a little forward, so a body measures less. See `tests/test_over_arms.py` for the closed
    form, and for how far a body measured round the shoulders stays below it.

    Args:
        chest_girth_cm: girth of the chest without the arms.
        upper_arm_girth_cm: girth of one upper arm.

    Returns:
        Centimetres, more than ``chest_girth_cm``.
    """
    half_breadth = chest_girth_cm / _unit_ellipse_girth()
    radius = upper_arm_girth_cm / math.tau
    turn = np.linspace(0, math.tau, _POINTS, endpoint=False)
    across, deep = np.cos(turn), np.sin(turn)
    chest = np.stack([half_breadth * across, half_breadth * CHEST_DEPTH_SHARE * deep], axis=1)
    arm = np.stack([half_breadth + radius * (1 + across), radius * deep], axis=1)
    hull = MultiPoint(np.concatenate([chest, arm, -arm])).convex_hull
    return float(hull.length)


@cache
def _unit_ellipse_girth() -> float:
    """Girth of the chest's ellipse with a half breadth of 1."""
