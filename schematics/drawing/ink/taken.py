"""What is taken on a sheet, indexed so that many places can be tried at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any, TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import STRtree
from shapely.geometry.base import BaseGeometry

Shapes: TypeAlias = NDArray[Any]
"""Several shapes."""


def shapes_of(shapes: Sequence[BaseGeometry]) -> Shapes:
    """The shapes as an array."""
    held = np.empty(len(shapes), dtype=object)
    held[:] = shapes
    return held


@dataclass(slots=True)
class Taken:
    """Shapes that take their place."""

    _shapes: list[BaseGeometry] = field(default_factory=list)
    _held: Shapes = field(default_factory=lambda: shapes_of([]))
    _tree: STRtree = field(default_factory=lambda: STRtree([]))

    def add(self, shape: BaseGeometry) -> None:
        """Take a shape's place from now on."""
        self._shapes.append(shape)

    def _index(self) -> STRtree:
        if len(self._held) != len(self._shapes):
            self._held = shapes_of(self._shapes)
            self._tree = STRtree(self._held)
        return self._tree

    def touched(self, shapes: Shapes) -> NDArray[np.bool_]:
        """Which of ``shapes`` touch something taken."""
        touched = np.zeros(len(shapes), dtype=bool)
        touched[self._index().query(shapes, predicate="intersects")[0]] = True
        return touched

    def near(self, shapes: Shapes, distance: float) -> tuple[NDArray[np.intp], Shapes]:
        """What is taken within ``distance`` of ``shapes``: the index of a shape, and what it is near to."""
        places, taken = self._index().query(shapes, predicate="dwithin", distance=distance)
        return places, self._held[taken]

    def touched_within(self, shapes: Shapes, distance: float) -> NDArray[np.bool_]:
        """Which of ``shapes``, widened by ``distance`` with corners cut, touch something taken."""
        touched = np.zeros(len(shapes), dtype=bool)
        places, taken = self.near(shapes, distance * 1.001)
        if len(places):
            widened = np.empty(len(shapes), dtype=object)
            once = np.unique(places)
            widened[once] = shapely.buffer(shapes[once], distance, quad_segs=2)
            touched[places[shapely.intersects(widened[places], taken)]] = True
        return touched
