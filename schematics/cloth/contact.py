"""What keeps fabric out of a body: a push that grows with how near it is, and friction by the last step's push."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import numpy as np

from schematics.cloth.arrays import Floats, norms

CLEARANCE_CM = 0.4
"""The middle of the fabric stays so far from the body, half of what bulky fabric is thick (an assumption)."""

STIFFNESS = 1.0
"""N to the square centimetre of fabric for each centimetre that it is nearer than that."""

_CREEP_CM = 0.005
"""What sticks may yet move so far in a step."""

_HAIR = 1e-12


class Load(Protocol):
    """What acts on points besides the fabric itself."""

    def energy(self, points: Floats) -> tuple[float, Floats]:
        """In N cm, and its gradient ``(n, 3)``."""
        ...

    def hessian(self, points: Floats) -> Floats:
        """``(n, 3, 3)``, without negative directions."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Tether:
    """Points ``(n, 3)`` held where they are, by ``stiffness`` ``(n,)`` in N/cm."""

    at: Floats
    stiffness: Floats

    def energy(self, points: Floats) -> tuple[float, Floats]:
        """Of springs."""
        moved = points - self.at
        pull = self.stiffness[:, None] * moved
        return 0.5 * float((pull * moved).sum()), pull

    def hessian(self, _points: Floats) -> Floats:
        """The same everywhere."""
        return self.stiffness[:, None, None] * np.eye(3)


class Solid(Protocol):
    """Something that fabric lies on, in parts."""

    def parts(self, points: Floats) -> tuple[Floats, Floats]:
        """Distances ``(parts, n)`` and gradients ``(parts, n, 3)``."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Rubbing:
    """Friction on points ``(n,)``: where each sticks to, the way it cannot slide, and what holds it, in N."""

    at: Floats
    normal: Floats
    force: Floats

    def energy(self, points: Floats) -> tuple[float, Floats]:
        """What sliding takes, and its gradient."""
        slid = self._slid(points)
        far = np.sqrt(np.einsum("ni,ni->n", slid, slid) + _CREEP_CM**2)
        return float(self.force @ (far - _CREEP_CM)), (self.force / far)[:, None] * slid

    def hessian(self, points: Floats) -> Floats:
        """``(n, 3, 3)``."""
        slid = self._slid(points)
        far = np.sqrt(np.einsum("ni,ni->n", slid, slid) + _CREEP_CM**2)
        across = np.eye(3) - self.normal[:, :, None] * self.normal[:, None, :]
        along = slid / far[:, None]
        hessian: Floats = (self.force / far)[:, None, None] * (across - along[:, :, None] * along[:, None, :])
        return hessian

    def _slid(self, points: Floats) -> Floats:
        moved = points - self.at
        along = np.einsum("ni,ni->n", moved, self.normal)
        slid: Floats = moved - along[:, None] * self.normal
        return slid


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    """Points with their share of the fabric ``area`` ``(n,)`` in cm² against a solid and the plane x = 0."""

    solid: Solid
    area: Floats

    def near(self, points: Floats) -> tuple[Floats, Floats]:
        """How much nearer than they may be ``(parts, n)``, and the ways out; the last part is the plane."""
        apart, away = self.solid.parts(points)
        near = np.maximum(CLEARANCE_CM - apart, 0.0)
        plane = np.zeros((1, *points.shape))
        plane[..., 0] = 1.0
        return np.concatenate([near, np.maximum(-points[None, :, 0], 0.0)]), np.concatenate([away, plane])

    def energy(self, points: Floats) -> tuple[float, Floats]:
        """In N cm, and its gradient."""
        near, away = self.near(points)
        push = STIFFNESS * self.area * near
        return 0.5 * float((push * near).sum()), -np.einsum("kn,kni->ni", push, away)

    def hessian(self, points: Floats) -> Floats:
        """``(n, 3, 3)``, as against planes."""
        near, away = self.near(points)
        rate = np.where(near > 0, STIFFNESS * self.area, 0.0)
        hessian: Floats = np.einsum("kn,kni,knj->nij", rate, away, away)
        return hessian

    def rubbing(self, points: Floats, at: Floats, friction: float) -> Rubbing:
        """The friction of points where they are, which stick to where ``at`` says."""
        near, away = self.near(points)
        push = STIFFNESS * self.area * near[:-1]
        pushed = np.einsum("kn,kni->ni", push, away[:-1])
        normal = pushed / (norms(pushed) + _HAIR)[:, None]
        return Rubbing(at=at, normal=normal, force=friction * push.sum(axis=0))
