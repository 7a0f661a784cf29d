"""What counts cost: how far lengths are from what was meant, and how lengths step from size to size.

Costs are in cm. The order of importance is the scale of the prices: nothing that may happen within the
tolerances outweighs leaving one, and growing outweighs being near.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from schematics.garment.amounts import Numbers
from schematics.units import HAIR

NEAR = 0.25
"""Cost of a centimetre off within the tolerance."""
JUMP_CM, STEEP = 5.0, 10.0
"""Cost of leaving the tolerance at all; and for ``e`` cm beyond it, ``STEEP * (e + e * e)``."""
EQUAL_CM = 2.0
"""Cost of a length that stays where it is meant to grow by half a stitch, row or repeat; less for less."""
SHRINK_CM, SHRINK = 20.0, 10.0
"""Cost of a length that shrinks at all, and of each centimetre of that."""
STRAIGHT, STRAIGHT_SHARE = 0.25, 1 / 6
"""Cost of a centimetre worked straight above the hem, beyond that share of the body's depth."""
UNSURE = 0.25
"""Cost of a centimetre short of surely good, beside one past a limit to mind."""
APART = 20.0
"""Cost of a size whose increases are by hand on other rows than those of all other sizes."""
LEAST_WEIGHT = 0.01
"""Weight of a length that does not matter: of two answers else alike, the nearer is taken."""
_LARGEST = np.finfo(float).max


def off_cost(off_cm: Numbers, tolerance_cm: float, weight: float) -> Numbers:
    """What lengths cost that are so far off."""
    off = np.abs(off_cm)
    past = np.maximum(off - tolerance_cm, 0.0)
    beyond = JUMP_CM + STEEP * (past + past * past)
    return max(weight, LEAST_WEIGHT) * (NEAR * off + np.where(past > HAIR, beyond, 0.0))


def mind_cost(past_cm: Numbers, weight: float) -> Numbers:
    """What it costs that a finding to mind is so far past its limit, negative where it is not.

    It rises from nought and stays below `JUMP_CM`, so that by itself no finding to mind moves a length out of
    its tolerance.
    """
    cost = weight * np.fmin(np.fmax(past_cm, 0.0), _LARGEST)
    return cost / (1 + cost / JUMP_CM)


def straight_cost(straight_cm: Numbers, depth_cm: Numbers) -> Numbers:
    """The price of increases that end so far above the hem of a body so deep."""
    return STRAIGHT * np.maximum(straight_cm - STRAIGHT_SHARE * depth_cm, 0.0)


def farthest_cm(cost: float, tolerance_cm: float, weight: float) -> float:
    """How far off a length may be for no more than that cost."""
    each = cost / max(weight, LEAST_WEIGHT)
    within = each / NEAR
    if within <= tolerance_cm:
        return within
    rest = each - NEAR * tolerance_cm - JUMP_CM
    if rest <= 0:
        return tolerance_cm + HAIR
    slope = STEEP + NEAR
    return tolerance_cm + (math.sqrt(slope * slope + 4 * STEEP * rest) - slope) / (2 * STEEP) + HAIR


@dataclass(frozen=True, slots=True, kw_only=True)
class GrowthStep:
    """What a length may do from one size to the next.

    ``wanted_cm`` is how much it is meant to grow; ``unit_cm`` is the least it can grow by; ``weight`` is that
    of uneven steps.
    """

    key: str
    wanted_cm: float
    unit_cm: float
    weight: float

    def least_cost(self, least_cm: Numbers, most_cm: Numbers) -> Numbers:
        """The least that a step between ``least_cm`` and ``most_cm`` costs, for columns."""
        shrinks = np.where(most_cm < -HAIR, SHRINK_CM - SHRINK * np.minimum(most_cm, 0.0), 0.0)
        apart = np.maximum(np.maximum(self.wanted_cm - most_cm, least_cm - self.wanted_cm), 0.0)
        uneven = self.weight * NEAR * apart
        if self.wanted_cm < -HAIR:
            return uneven
        stays = EQUAL_CM * min(1.0, max(0.0, self.wanted_cm) / (self.unit_cm / 2))
        equal = (np.abs(least_cm) <= HAIR) & (np.abs(most_cm) <= HAIR)
        return uneven + shrinks + np.where(equal, stays, 0.0)
