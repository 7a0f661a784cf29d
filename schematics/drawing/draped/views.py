"""The sides a drawing is seen from: where points come on the paper, and how near they are."""

from __future__ import annotations

import math
from enum import Enum

import numpy as np

from schematics.garment.cloth.arrays import Floats


class LookedFrom(Enum):
    """The side that cloth is seen from: the turn about the upright line from the front, in radians."""

    FRONT = 0.0
    OBLIQUE = math.radians(35)
    SIDE = math.radians(90)
    BACK = math.radians(180)

    def seen(self, points: Floats) -> Floats:
        """Points (n, 3) as seen from there: to the right, up, and towards who looks, in cm."""
        sin, cos = math.sin(self.value), math.cos(self.value)
        x, y, z = points.T
        return np.stack([x * cos - z * sin, y, x * sin + z * cos], axis=1)
