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

_HAIR = 1e-9
"""Shares of the half hem this near to each other are one place."""


class Trapezoids:
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
        self.centre: Vertex | None = None
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
        """The lines of increases on this half, neck to hem, one on the fold among them."""
        corners = list(zip(self._neck, self._hem, strict=True))[:-1]
        return corners if self._hem[0][1] < -self.depth * (1 + _HAIR) else corners[1:]

    def neck_at(self, share: float) -> Vertex:
        """The point of the neck edge as far along its section as ``share`` is along the section's hem."""
        return self._at(self._neck, share)

    def hem_at(self, share: float) -> Vertex:
        """The point of the hem; stitches lie evenly along it."""
        return self._at(self._hem, share)

    def neck(self, start: float, end: float) -> Vertices:
        """Vertices of the neck edge from share ``start`` to share ``end``."""
        return self._path(self._neck, start, end, ())

    def hem(self, start: float, end: float, through: Sequence[float] = ()) -> Vertices:
        """Vertices of the hem from share ``start`` to share ``end``, ``through`` among them."""
        return self._path(self._hem, start, end, through)

    def _at(self, corners: Sequence[Vertex], share: float) -> Vertex:
        section = min(max(bisect.bisect_right(self._shares, share), 1), len(corners) - 1)
        low, high = self._shares[section - 1], self._shares[section]
        part = (share - low) / (high - low)
        (x0, y0), (x1, y1) = corners[section - 1], corners[section]
        return x0 * (1 - part) + x1 * part, y0 * (1 - part) + y1 * part

    def _path(
        self, corners: Sequence[Vertex], start: float, end: float, through: Sequence[float]
    ) -> Vertices:
        low, high = min(start, end), max(start, end)
        shares = [low]
        for share in sorted([*self._shares, *through]):
            if shares[-1] + _HAIR < share < high - _HAIR:
                shares.append(share)
        shares.append(high)
        if start > end:
            shares.reverse()
        return np.array([self._at(corners, share) for share in shares])
