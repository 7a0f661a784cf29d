"""The flat shape of a body that widens evenly all round: a ring sector."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import numpy as np

from schematics.garment.constructions.base import Vertex, Vertices
from schematics.garment.constructions.neck_down.shape import Shape

_STEP = 0.02
"""Largest angle between two vertices of an arc, in radians: its length falls 2e-5 short."""
_MOST_STEPS = 1000
"""Between two places of an arc. Three times round the centre takes fewer, and fabric that goes farther cannot
be drawn: there the steps grow larger."""


class Sector(Shape):
    """A ring sector about the fold, origin at the neck's centre back, fold along x = 0 downwards.

    An opening angle of nought is a rectangle.
    """

    def __init__(self, neck_cm: float, hem_cm: float, depth_cm: float) -> None:
        self.depth = depth_cm
        self.opening = (hem_cm - neck_cm) / depth_cm
        self._neck_cm = neck_cm
        self._flat = math.isclose(neck_cm, hem_cm, rel_tol=1e-12)
        self._inner = math.inf if self._flat else neck_cm / self.opening
        self.centre = None if self._flat else (0.0, self._inner)

    def _at(self, share: float, *, hem: bool) -> Vertex:
        radial = self.depth if hem else 0
        if self._flat:
            return share * self._neck_cm / 2, -radial
        angle = share * self.opening / 2
        radius = self._inner + radial
        return radius * math.sin(angle), self._inner - radius * math.cos(angle)

    def _path(self, start: float, end: float, through: Sequence[float], *, hem: bool) -> Vertices:
        low, high = min(start, end), max(start, end)
        knots = sorted({low, high, *(share for share in through if low < share < high)})
        stretches: list[Vertices] = [np.array([low])]
        for near, far in itertools.pairwise(knots):
            angle = 0.0 if self._flat else (far - near) * self.opening / 2
            pieces = min(_MOST_STEPS, max(1, math.ceil(angle / _STEP)))
            stretches.append(near + (far - near) * np.arange(1, pieces + 1) / pieces)
        shares = np.concatenate(stretches)[:: -1 if start > end else 1]
        radial, vertices = self.depth if hem else 0, np.empty((len(shares), 2))
        if self._flat:
            vertices[:, 0], vertices[:, 1] = shares * self._neck_cm / 2, -radial
            return vertices
        angles, radius = shares * self.opening / 2, self._inner + radial
        vertices[:, 0], vertices[:, 1] = radius * np.sin(angles), self._inner - radius * np.cos(angles)
        return vertices
