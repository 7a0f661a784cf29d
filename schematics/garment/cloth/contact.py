"""What keeps fabric out of a body: a push that grows with nearness, and friction by the last step's push."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import numpy as np

from schematics.garment.cloth.arrays import Evaluated, Floats, norms

CLEARANCE_CM = 0.4
"""The middle of the fabric stays so far from the body, half of what bulky fabric is thick (an assumption)."""

STIFFNESS = 2.0
"""N to the square centimetre of fabric for each centimetre that it is nearer than that."""

_WITHIN = 20.0
"""So many times stiffer is what is inside the body."""

_CREEP_CM = 0.005
"""What sticks may yet move so far in a step."""

_HAIR = 1e-12


class Load(Protocol):
    """What acts on points besides the fabric itself."""

    def at(self, points: Floats) -> Evaluated:
        """The energy of the points in N cm, its gradient, and what gives its Hessian, ``(n, 3, 3)``."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Tether:
    """Points ``(n, 3)`` held where they start, by ``stiffness`` ``(n,)`` in N/cm."""

    start: Floats
    stiffness: Floats

    def at(self, points: Floats) -> Evaluated:
        """The energy of the springs, its gradient and its Hessian, as of `Load.at`."""
        moved = points - self.start
        pull = self.stiffness[:, None] * moved
        return 0.5 * float((pull * moved).sum()), pull, lambda: self.stiffness[:, None, None] * np.eye(3)


class Solid(Protocol):
    """Something that fabric lies on, in parts."""

    def parts(self, points: Floats) -> tuple[Floats, Floats]:
        """Distances ``(parts, n)`` and gradients ``(parts, n, 3)``."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Rubbing:
    """Friction on points ``(n,)``: where each sticks, where it cannot slide to, and what holds it, in N."""

    start: Floats
    normal: Floats
    force: Floats

    def at(self, points: Floats) -> Evaluated:
        """The energy that sliding takes, its gradient and its Hessian, as of `Load.at`."""
        moved = points - self.start
        slid = moved - np.einsum("ni,ni->n", moved, self.normal)[:, None] * self.normal
        far = np.sqrt(np.einsum("ni,ni->n", slid, slid) + _CREEP_CM**2)
        rate = self.force / far

        def hessian() -> Floats:
            along = slid / far[:, None]
            blocks = np.eye(3) - self.normal[:, :, None] * self.normal[:, None, :]
            blocks -= along[:, :, None] * along[:, None, :]
            blocks *= rate[:, None, None]
            return blocks

        return float(self.force @ (far - _CREEP_CM)), rate[:, None] * slid, hessian


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    """Points with their share of the fabric ``area`` ``(n,)`` in cm² against a solid and the plane x = 0."""

    solid: Solid
    area: Floats

    def near(self, points: Floats) -> tuple[Floats, Floats]:
        """How much nearer than they may be ``(parts, n)``, and the directions out; the last is the plane."""
        apart, away = self.solid.parts(points)
        near = np.maximum(CLEARANCE_CM - apart, 0.0)
        plane = np.zeros((1, *points.shape))
        plane[..., 0] = 1.0
        return np.concatenate([near, np.maximum(-points[None, :, 0], 0.0)]), np.concatenate([away, plane])

    def at(self, points: Floats) -> Evaluated:
        """What being nearer takes; its Hessian is that against planes."""
        near, away = self.near(points)
        push, within = self._push(near)

        def hessian() -> Floats:
            part, point = np.nonzero(near)
            directions = away[part, point]
            blocks = np.zeros((len(points), 3, 3))
            rate = STIFFNESS * self.area[point] * (1 + _WITHIN * (within[part, point] > 0))
            np.add.at(blocks, point, rate[:, None, None] * directions[:, :, None] * directions[:, None, :])
            return blocks

        energy = 0.5 * STIFFNESS * float((self.area * (near**2 + _WITHIN * within**2)).sum())
        return energy, -np.einsum("kn,kni->ni", push, away), hessian

    def _push(self, near: Floats) -> tuple[Floats, Floats]:
        """What pushes in N, and how far inside they are."""
        within = np.maximum(near - CLEARANCE_CM, 0.0)
        return STIFFNESS * self.area * (near + _WITHIN * within), within

    def rubbing(self, points: Floats, start: Floats, friction: float) -> Rubbing:
        """The friction of points where they are, which stick to where they ``start``, by its coefficient."""
        near, away = self.near(points)
        push, _ = self._push(near[:-1])
        pushed = np.einsum("kn,kni->ni", push, away[:-1])
        normal = pushed / (norms(pushed) + _HAIR)[:, None]
        return Rubbing(start=start, normal=normal, force=friction * push.sum(axis=0))
