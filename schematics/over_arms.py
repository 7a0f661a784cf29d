"""The girth round the chest and both arms, hanging down inside the poncho, from separate girths."""

from __future__ import annotations

import math

import numpy as np

CHEST_DEPTH_SHARE = 0.75
"""Depth of a chest over its breadth (common practice, no source)."""

_TURN = (np.arange(720) + 0.5) / 720 * math.pi / 2
"""Directions over a quarter turn; the other three mirror it."""

_ELLIPSE = np.hypot(np.cos(_TURN), CHEST_DEPTH_SHARE * np.sin(_TURN))
"""How far a chest of half breadth 1 extends in each direction."""


def girth_over_arms_cm(chest_girth_cm: float, upper_arm_girth_cm: float) -> float:
    """An upper bound on the girth round the chest and both arms.

    A tape goes round an ellipse with the chest's girth and two circles with the arm's, which touch
    the ellipse at its sides: the girth of their convex hull. On a body the arms press into the
    chest and hang a little forward, so it measures less.

    Notes:
        A convex outline's girth is the sum over all directions of how far it extends in each
        (Cauchy); a hull extends as far as the farthest of its parts. The closed form and the
        published bodies it is held against are in `tests/test_over_arms.py`.

    Args:
        chest_girth_cm: girth of the chest without the arms.
        upper_arm_girth_cm: girth of one upper arm.

    Returns:
        Centimetres, more than ``chest_girth_cm``; within 0.001 cm of the closed form.
    """
    half_breadth = chest_girth_cm / (math.tau * _ELLIPSE.mean())
    radius = upper_arm_girth_cm / math.tau
    arm = (half_breadth + radius) * np.cos(_TURN) + radius
    return float(math.tau * np.maximum(half_breadth * _ELLIPSE, arm).mean())
