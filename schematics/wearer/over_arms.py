"""The girth round the chest and both arms, hanging down inside the poncho, from separate girths.

It is an upper bound: a tape goes round an ellipse with the chest's girth and two circles with the arm's,
which touch the ellipse at its sides, so it measures the girth of their convex hull. On a body the arms press
into the chest and hang a little forward: it is above the girth of each of 507 measured adults, by 16 % on
average and 34 % at most; of children none is published. What bodies measure is the limit
`girth_body_fraction`. A convex outline's girth is the sum over all directions of how far it extends in each
(Cauchy); a hull extends as far as the farthest of its parts. The closed form and the published bodies it is
held against are in `tests/wearer/test_over_arms.py`.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

CHEST_DEPTH_SHARE = 0.69
"""Depth of a chest over its breadth: the mean of the bdims data of 507 adults (Heinz et al. 2003; standard
deviation 0.07), taken for children, too."""

_TURN = (np.arange(720) + 0.5) / 720 * math.pi / 2
"""Directions over a quarter turn; the other three mirror it."""

_ELLIPSE = np.hypot(np.cos(_TURN), CHEST_DEPTH_SHARE * np.sin(_TURN))
"""How far a chest of half breadth 1 extends in each direction."""

_MOST_SHARE = 100.0
"""The largest arm girth over chest girth that is distinguished, far beyond any body."""


def _ratio(arm_shares: NDArray[np.float64]) -> NDArray[np.float64]:
    """Girth over the arms by arm girth, both over the chest girth."""
    half_breadth = 1 / (math.tau * _ELLIPSE.mean())
    radius = arm_shares[:, None] / math.tau
    arm = (half_breadth + radius) * np.cos(_TURN) + radius
    ratio: NDArray[np.float64] = math.tau * np.maximum(half_breadth * _ELLIPSE, arm).mean(axis=1)
    return ratio


def _table() -> tuple[tuple[float, float], ...]:
    straight_from = CHEST_DEPTH_SHARE / float(_ELLIPSE.mean())
    shares = np.append(straight_from * (np.arange(501) / 500) ** 1.5, _MOST_SHARE).round(9)
    return tuple(zip(shares.tolist(), _ratio(shares).round(9).tolist(), strict=True))


RATIO_BY_ARM_SHARE = _table()
"""Upper arm girth and girth over the arms, both over the chest girth: rising, straight between entries.

So dense that nowhere between them is it farther than 1e-6 from `_ratio`; a page computes with it, too.
"""
