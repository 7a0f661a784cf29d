"""The track of an overall dimension, from one far point of a drawing to another."""

from __future__ import annotations

from dataclasses import dataclass

from schematics.drawing.ink.marks import Point
from schematics.drawing.ink.track import Straight, Track


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
