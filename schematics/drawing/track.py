"""The two shapes a dimension line follows: straight, or an arc concentric with what it measures.

Sheet coordinates: y down. A track runs so that the fabric is on its left as printed, which makes
its right-hand side the free side; ``offset`` moves to that side.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Protocol

from schematics.drawing.marks import Point


class Track(Protocol):
    """A curve by arc length ``s`` from 0 to ``length``, in mm."""

    @property
    def length(self) -> float:
        """Length in mm."""

    def at(self, s: float) -> Point:
        """The point ``s`` mm along; outside 0 to ``length`` it goes on straight ahead."""

    def tangent(self, s: float) -> Point:
        """Unit direction at ``s``."""

    def normal(self, s: float) -> Point:
        """Unit direction away from the fabric at ``s``."""

    def offset(self, distance: float) -> Track | None:
        """The parallel track ``distance`` mm away from the fabric; None if there is none."""

    def points(self) -> tuple[Point, ...]:
        """Vertices close enough together to draw it."""


@dataclass(frozen=True, slots=True)
class Straight:
    """A straight track from ``start`` to ``end``."""

    start: Point
    end: Point

    @property
    def length(self) -> float:
        """Length in mm."""
        return math.dist(self.start, self.end)

    def tangent(self, _s: float) -> Point:
        """Unit direction."""
        return (self.end[0] - self.start[0]) / self.length, (self.end[1] - self.start[1]) / self.length

    def normal(self, s: float) -> Point:
        """Right-hand side as printed, y down."""
        tx, ty = self.tangent(s)
        return -ty, tx

    def at(self, s: float) -> Point:
        """The point ``s`` mm along."""
        tx, ty = self.tangent(s)
        return self.start[0] + tx * s, self.start[1] + ty * s

    def offset(self, distance: float) -> Straight:
        """The parallel line."""
        nx, ny = self.normal(0)
        dx, dy = nx * distance, ny * distance
        return Straight((self.start[0] + dx, self.start[1] + dy), (self.end[0] + dx, self.end[1] + dy))

    def points(self) -> tuple[Point, ...]:
        """Both ends."""
        return self.start, self.end


@dataclass(frozen=True, slots=True)
class Arc:
    """An arc about ``centre`` from angle ``start`` through ``sweep`` (radians, as printed, y down).

    A positive sweep turns clockwise as printed.
    """

    centre: Point
    radius: float
    start: float
    sweep: float

    @property
    def length(self) -> float:
        """Length in mm."""
        return self.radius * abs(self.sweep)

    def _angle(self, s: float) -> float:
        return self.start + math.copysign(s / self.radius, self.sweep)

    def _on(self, s: float) -> Point:
        angle = self._angle(s)
        return (
            self.centre[0] + self.radius * math.cos(angle),
            self.centre[1] + self.radius * math.sin(angle),
        )

    def tangent(self, s: float) -> Point:
        """Unit direction at ``s``, held beyond the ends."""
        angle, turn = self._angle(min(max(s, 0.0), self.length)), math.copysign(1.0, self.sweep)
        return -math.sin(angle) * turn, math.cos(angle) * turn

    def normal(self, s: float) -> Point:
        """Right-hand side as printed, y down."""
        tx, ty = self.tangent(s)
        return -ty, tx

    def at(self, s: float) -> Point:
        """The point ``s`` mm along, straight on beyond the ends."""
        inside = min(max(s, 0.0), self.length)
        x, y = self._on(inside)
        tx, ty = self.tangent(inside)
        return x + tx * (s - inside), y + ty * (s - inside)

    def offset(self, distance: float) -> Arc | None:
        """The concentric arc; None where it would shrink to nothing."""
        radius = self.radius + (-distance if self.sweep > 0 else distance)
        return Arc(self.centre, radius, self.start, self.sweep) if radius > 1 else None

    def points(self) -> tuple[Point, ...]:
        """Vertices at most 2 degrees apart."""
        pieces = max(2, math.ceil(abs(self.sweep) / math.radians(2)))
        return tuple(self._on(self.length * i / pieces) for i in range(pieces + 1))
