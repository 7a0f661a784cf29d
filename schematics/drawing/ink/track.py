"""The shapes a dimension line follows: straight, bent, or an arc concentric with what it measures.

Sheet coordinates: y down. A track runs so that the fabric is on its left as printed, which makes
its right-hand side the free side; ``offset`` moves to that side.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import Protocol

from schematics.drawing.ink.marks import Point, along, unit


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
        """Unit direction away from the fabric at ``s``: the right-hand side as printed, y down."""
        tx, ty = self.tangent(s)
        return -ty, tx

    def off_corners(self, _gap: float) -> float:
        """How far along the middle of a gap of that length is, which takes no corner away if it can."""
        return self.length / 2

    def has_no_corner(self, _s: float, _gap: float) -> bool:
        """Whether there is no corner within a gap of that length about a place."""
        return True

    def stretches(self) -> tuple[tuple[float, float], ...]:
        """From where to where along it there is no corner."""
        return ((0.0, self.length),)

    def offset(self, distance: float) -> Track | None:
        """The parallel track ``distance`` mm away from the fabric; None if there is none."""

    def points(self) -> tuple[Point, ...]:
        """Vertices close enough together to draw it."""


@dataclass(frozen=True, slots=True)
class Straight(Track):
    """A straight track from ``start`` to ``end``."""

    start: Point
    end: Point

    @property
    def length(self) -> float:
        """Length in mm."""
        return math.dist(self.start, self.end)

    def tangent(self, _s: float) -> Point:
        """Unit direction."""
        return unit(self.start, self.end)

    def at(self, s: float) -> Point:
        """The point ``s`` mm along."""
        return along(self.start, self.tangent(s), s)

    def offset(self, distance: float) -> Straight:
        """The parallel line."""
        normal = self.normal(0)
        return Straight(along(self.start, normal, distance), along(self.end, normal, distance))

    def points(self) -> tuple[Point, ...]:
        """Both ends of the line."""
        return self.start, self.end


@dataclass(frozen=True, slots=True)
class Arc(Track):
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

    def at(self, s: float) -> Point:
        """The point ``s`` mm along, straight on beyond the ends."""
        inside = min(max(s, 0.0), self.length)
        return along(self._on(inside), self.tangent(inside), s - inside)

    def offset(self, distance: float) -> Arc | None:
        """The concentric arc; None where it would shrink to nothing."""
        radius = self.radius + (-distance if self.sweep > 0 else distance)
        return Arc(self.centre, radius, self.start, self.sweep) if radius > 1 else None

    def points(self) -> tuple[Point, ...]:
        """Vertices at most 2 degrees apart."""
        pieces = max(2, math.ceil(abs(self.sweep) / math.radians(2)))
        return tuple(self._on(self.length * i / pieces) for i in range(pieces + 1))


@dataclass(frozen=True, slots=True)
class Bent(Track):
    """A track of straight stretches through ``corners``, at least three of them."""

    corners: tuple[Point, ...]

    @property
    def length(self) -> float:
        """Length in mm."""
        return sum(math.dist(a, b) for a, b in pairwise(self.corners))

    def _stretch(self, s: float) -> tuple[Straight, float]:
        """The stretch ``s`` falls on, and how far along it."""
        left = s
        for a, b in pairwise(self.corners):
            stretch = Straight(a, b)
            if left <= stretch.length:
                return stretch, left
            left -= stretch.length
        return stretch, left + stretch.length

    def off_corners(self, gap: float) -> float:
        """How far along the middle of a gap so long is: that of the track, or of its longest stretch.

        The latter where the gap would take a corner away and the stretch is long enough.
        """
        middle = self.length / 2
        first, last = max(self.stretches(), key=lambda each: each[1] - each[0])
        stays = self.has_no_corner(middle, gap) or last - first < gap
        return middle if stays else (first + last) / 2

    def has_no_corner(self, s: float, gap: float) -> bool:
        """Whether there is no corner within a gap so long about ``s``."""
        return all(abs(s - corner) >= gap / 2 for corner, _ in self.stretches()[1:])

    def stretches(self) -> tuple[tuple[float, float], ...]:
        """From where to where along it each is straight."""
        return tuple(pairwise(accumulate((math.dist(*each) for each in pairwise(self.corners)), initial=0.0)))

    def at(self, s: float) -> Point:
        """The point ``s`` mm along, straight on beyond the ends."""
        stretch, distance = self._stretch(s)
        return stretch.at(distance)

    def tangent(self, s: float) -> Point:
        """Unit direction at ``s``."""
        return self._stretch(s)[0].tangent(0)

    def offset(self, distance: float) -> Bent | None:
        """The parallel track with mitred corners; None where a stretch would turn about."""
        normals = [Straight(a, b).normal(0) for a, b in pairwise(self.corners)]
        moved = [along(self.corners[0], normals[0], distance)]
        for corner, first, second in zip(self.corners[1:-1], normals, normals[1:], strict=False):
            share = 1 + first[0] * second[0] + first[1] * second[1]
            if share < 0.1:
                return None
            mitre = (first[0] + second[0]) / share, (first[1] + second[1]) / share
            moved.append(along(corner, mitre, distance))
        moved.append(along(self.corners[-1], normals[-1], distance))
        for (a, b), (c, d) in zip(pairwise(self.corners), pairwise(moved), strict=True):
            if (b[0] - a[0]) * (d[0] - c[0]) + (b[1] - a[1]) * (d[1] - c[1]) <= 0:
                return None
        return Bent(tuple(moved))

    def points(self) -> tuple[Point, ...]:
        """The corners."""
        return self.corners


@dataclass(frozen=True, slots=True)
class Extent(Track):
    """A straight track between the extension lines of two points that may lie anywhere before it.

    ``first`` and ``last`` are the points measured, with the extension lines running from them
    square to ``line``, whose ends lie on those extension lines clear of everything drawn.
    """

    first: Point
    last: Point
    line: Straight

    @property
    def length(self) -> float:
        """Length in mm."""
        return self.line.length

    def at(self, s: float) -> Point:
        """The measured points at both ends, else the point of the line."""
        if s <= 0:
            return self.first
        return self.last if s >= self.length else self.line.at(s)

    def tangent(self, s: float) -> Point:
        """Unit direction."""
        return self.line.tangent(s)

    def offset(self, distance: float) -> Straight:
        """The dimension line that far beyond everything drawn."""
        return self.line.offset(distance)

    def points(self) -> tuple[Point, ...]:
        """Both ends of the line."""
        return self.line.points()
