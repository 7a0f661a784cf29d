"""Where the stitches of a pattern lie on a flat piece."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from schematics.crochet.fabric import Counted, Fabric

Points: TypeAlias = NDArray[np.float64]
"""Shaped (points, 2)."""


@dataclass(frozen=True, kw_only=True)
class PatternedArea:
    """Rows in one stitch pattern on a flat piece; of a piece on the fold, the whole piece is meant.

    ``place`` turns points as a chart has them, stitches from its left and rows from its foot as the right
    side is seen, into points of the piece in cm. ``first_row`` is the row of the piece it begins with.
    ``on_right`` are the stitches, from and to, that lie on the right half of a piece on the fold.
    """

    name: str
    fabric: Fabric
    stitches: int
    rows: int
    place: Callable[[Points], Points] = field(compare=False, repr=False)
    first_row: int = 1
    on_right: tuple[float, float] | None = None

    def raised(self, up_cm: float, stretched: float = 1.0) -> PatternedArea:
        """The same area where the piece is stretched upwards so many times, then moved up."""
        return replace(self, place=_Raised(self.place, up_cm, stretched))

    @property
    def last_row(self) -> int:
        """The row of the piece that the area ends with."""
        return self.first_row + self.rows - 1


@dataclass(frozen=True, slots=True)
class _Raised:
    place: Callable[[Points], Points]
    up_cm: float
    stretched: float

    def __call__(self, points: Points) -> Points:
        return self.place(points) * (1.0, self.stretched) + (0.0, self.up_cm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Upright:
    """Worked upwards: ``left`` and ``foot`` are where the first stitch and the first row begin, in cm."""

    fabric: Fabric
    left: float
    foot: float

    def __call__(self, points: Points) -> Points:
        """The points on the piece."""
        unit = [self.fabric.length_cm(1, Counted.STITCHES), self.fabric.length_cm(1, Counted.ROWS)]
        return points * unit + [self.left, self.foot]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sideways:
    """Worked from left to right: its chart is turned a quarter clockwise, so that its left side lies on top.

    ``left`` is where the first row begins and ``top`` where the chart's left side lies, in cm.
    """

    fabric: Fabric
    left: float
    top: float

    def __call__(self, points: Points) -> Points:
        """The points on the piece."""
        along = self.fabric.length_cm(1, Counted.ROWS) * points[:, 1]
        down = self.fabric.length_cm(1, Counted.STITCHES) * points[:, 0]
        return np.column_stack([self.left + along, self.top - down])
