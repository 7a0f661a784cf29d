"""The flat shape of a mitred body: trapezoids side by side."""

from __future__ import annotations

import bisect
import itertools
import math
from collections.abc import Sequence

import numpy as np

from schematics.crochet.fabric import Fabric
from schematics.garment.amounts import STITCHES
from schematics.garment.constructions.base import Vertex, Vertices
from schematics.garment.constructions.neck_down.shape import Shape

_HAIR = 1e-9
"""Shares of the half hem this near to each other are one place."""


class Trapezoids(Shape):
    """The right half: trapezoids of one depth side by side, fold on x = 0 downwards from the origin.

    A section grows by ``grow_cm`` towards the hem at each line it lies next to; that side leans by
    ``atan(grow_cm / depth_cm)``, and the two sections next to a line share it.
    """

    def __init__(self, sections: Sequence[int], grow_cm: float, depth_cm: float, fabric: Fabric) -> None:
        lines = len(sections) - 1
        lean = math.atan2(grow_cm, depth_cm)
        widths = [fabric.length_cm(each, STITCHES) for each in sections[(lines + 1) // 2 :]]
        self.depth = depth_cm
        self.opening = 2 * lines * lean
        if lines % 2 == 0:
            widths[0] /= 2
        turn = lean if lines % 2 else 0.0
        self.line_cm = math.hypot(grow_cm, depth_cm)
        self._neck: list[Vertex] = [(0.0, 0.0)]
        self._hem = [self._below(0, self.line_cm if lines % 2 else depth_cm, 0.0)]
        for number, width in enumerate(widths):
            x, y = self._neck[-1]
            self._neck.append((x + width * math.cos(turn), y + width * math.sin(turn)))
            last = number == len(widths) - 1
            self._hem.append(
                self._below(-1, depth_cm, turn) if last else self._below(-1, self.line_cm, turn + lean)
            )
            turn += 2 * lean
        lengths = [math.dist(*pair) for pair in itertools.pairwise(self._hem)]
        self._shares = [0.0, *(each / sum(lengths) for each in itertools.accumulate(lengths))]
        self._shares[-1] = 1.0

    def _below(self, corner: int, length_cm: float, turn: float) -> Vertex:
        """The point that far from a neck corner, straight down turned counter-clockwise by ``turn``."""
        x, y = self._neck[corner]
        return x + length_cm * math.sin(turn), y - length_cm * math.cos(turn)

    @property
    def lines(self) -> list[tuple[Vertex, Vertex]]:
        """From corner to corner; the first pair is a line where it is longer than the depth."""
        corners = list(zip(self._neck, self._hem, strict=True))[:-1]
        return corners if self._hem[0][1] < -self.depth * (1 + _HAIR) else corners[1:]

    def _at(self, share: float, *, hem: bool) -> Vertex:
        corners = self._hem if hem else self._neck
        section = min(max(bisect.bisect_right(self._shares, share), 1), len(corners) - 1)
        low, high = self._shares[section - 1], self._shares[section]
        part = (share - low) / (high - low)
        (x0, y0), (x1, y1) = corners[section - 1], corners[section]
        return x0 * (1 - part) + x1 * part, y0 * (1 - part) + y1 * part

    def _path(self, start: float, end: float, through: Sequence[float], *, hem: bool) -> Vertices:
        low, high = min(start, end), max(start, end)
        shares = [low]
        for share in sorted([*self._shares, *through]):
            if shares[-1] + _HAIR < share < high - _HAIR:
                shares.append(share)
        shares.append(high)
        if start > end:
            shares.reverse()
        return np.array([self._at(share, hem=hem) for share in shares])
