"""Signed distances to the shapes that a body is made of, many points at once; outside is positive.

Each gives, for ``k`` shapes and ``n`` points, distances ``(k, n)`` in cm and their gradients ``(k, n, 3)``.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from schematics.garment.cloth.arrays import Floats, norms

_HAIR = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundCones:
    """Hulls of two balls each: centres ``(k, 3)`` and radii ``(k,)`` at the start and at the end."""

    start: Floats
    end: Floats
    start_radius: Floats
    end_radius: Floats

    def distance(self, points: Floats) -> tuple[Floats, Floats]:
        """How far points are outside, and the direction away; exact, but inside near the axis."""
        axis = self.end - self.start
        length = norms(axis)
        along = axis / length[:, None]
        lean = (self.start_radius - self.end_radius) / length
        tilt = lean / np.sqrt(np.maximum(1 - lean * lean, 0.01))
        off = points[None] - self.start[:, None]
        level = np.einsum("kni,ki->kn", off, along)
        aside = off - level[..., None] * along[:, None]
        share = np.clip((level - norms(aside) * tilt[:, None]) / length[:, None], 0.0, 1.0)
        away = off - share[..., None] * axis[:, None]
        far = norms(away) + _HAIR
        radius = self.start_radius[:, None] + (self.end_radius - self.start_radius)[:, None] * share
        return far - radius, away / far[..., None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ellipsoids:
    """Ellipsoids: centres ``(k, 3)``, half axes ``(k, 3)`` and their directions ``(k, 3, 3)``, a row each."""

    centre: Floats
    half: Floats
    axes: Floats

    def distance(self, points: Floats) -> tuple[Floats, Floats]:
        """How far points are outside, and the direction away; to first order, exact on the surface."""
        own = np.einsum("kni,kji->knj", points[None] - self.centre[:, None], self.axes)
        apart, away = _from_ellipse(own, self.half[:, None])
        return apart, np.einsum("knj,kji->kni", away, self.axes)


@dataclass(frozen=True, slots=True, kw_only=True)
class Loft:
    """Upright ellipses one above the other, at equal steps of height from ``foot``.

    A row each: half breadth, half depth and how far forward the middle is.
    """

    foot: float
    step: float
    sections: Floats

    @property
    def top(self) -> float:
        """The height of the last section."""
        return self.foot + self.step * (len(self.sections) - 1)

    def section(self, heights: Floats) -> tuple[Floats, Floats]:
        """The sections at these heights, and how they change with height."""
        place = np.clip((heights - self.foot) / self.step, 0.0, len(self.sections) - 1.001)
        low = place.astype(np.int64)
        change = self.sections[low + 1] - self.sections[low]
        return self.sections[low] + (place - low)[:, None] * change, change / self.step

    def distance(self, points: Floats) -> tuple[Floats, Floats]:
        """Within the level of each point, to first order; beyond the first and last ellipse nothing is."""
        section, change = self.section(points[:, 1])
        half = section[:, :2]
        own = np.column_stack([points[:, 0], points[:, 2] - section[:, 2]])
        apart, away = _from_ellipse(own, half)
        scaled = own / half
        size = norms(scaled) + _HAIR
        steep = norms(scaled / half) + _HAIR
        by_size = -(scaled**2 / half) / size[:, None]
        by_steep = -2 * scaled**2 / half**3 / steep[:, None]
        by_half = ((2 * size - 1) / steep)[:, None] * by_size - (size * (size - 1) / steep**2)[
            :, None
        ] * by_steep
        upward = (by_half * change[:, :2]).sum(axis=1) - away[:, 1] * change[:, 2]
        beyond = (points[:, 1] < self.foot) | (points[:, 1] > self.top)
        return (
            np.where(beyond, 1e6, apart)[None],
            np.column_stack([away[:, 0], upward, away[:, 1]])[None],
        )


def _from_ellipse(own: Floats, half: Floats) -> tuple[Floats, Floats]:
    """Distance to first order from an ellipse or ellipsoid about the origin, and its gradient."""
    scaled = own / half
    steeper = scaled / half
    size, steep = norms(scaled) + _HAIR, norms(steeper) + _HAIR
    apart = size * (size - 1) / steep
    away = ((2 * size - 1) / (size * steep))[..., None] * steeper
    away -= (size * (size - 1) / steep**3)[..., None] * (steeper / half**2)
    return apart, away
