"""What is taken on a sheet, indexed so that many places can be tried at once."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from itertools import chain
from typing import Any, TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from schematics.drawing.ink.boxes import Sides, meeting

Shapes: TypeAlias = NDArray[Any]
"""Several shapes."""

_SURELY = 0.9
"""A shape widened with its corners cut reaches at least so much of the distance everywhere."""


_WHOLE = 1 - 1e-9
"""What covers at least so much of the box round it fills it."""


def shapes_of(shapes: Sequence[BaseGeometry]) -> Shapes:
    """The shapes as an array."""
    held = np.empty(len(shapes), dtype=object)
    held[:] = shapes
    return held


def line_of(points: Sequence[tuple[float, float]]) -> LineString:
    """A line through points, made sooner than by its class."""
    line: LineString = shapely.linestrings(points)
    return line


def polygon_of(points: Sequence[tuple[float, float]]) -> Polygon:
    """A polygon of its corners, made sooner than by its class."""
    polygon: Polygon = shapely.polygons(points)
    return polygon


def lines_of(lines: Sequence[Sequence[tuple[float, float]]]) -> Shapes:
    """Lines through points, as an array."""
    if not lines:
        return shapes_of([])
    owner = np.repeat(np.arange(len(lines)), [len(each) for each in lines])
    return np.asarray(shapely.linestrings(list(chain.from_iterable(lines)), indices=owner))


def straight_lines(points: NDArray[np.float64]) -> Shapes:
    """Lines through equally many points each, in an array of lines, points, and x and y."""
    return np.asarray(shapely.linestrings(points)) if len(points) else shapes_of([])


def touches_any(shapes: Shapes, others: Shapes) -> NDArray[np.bool_]:
    """Which of ``shapes`` touch one of a few others."""
    return np.asarray(shapely.intersects(shapes[:, None], others).any(axis=1))


@dataclass(slots=True)
class Taken:
    """Shapes that take their place."""

    _coming: list[Callable[[], Shapes]] = field(default_factory=list)
    _held: Shapes = field(default_factory=lambda: shapes_of([]))
    _bounds: NDArray[np.float64] = field(default_factory=lambda: np.zeros((0, 4)))
    _fills: NDArray[np.bool_] = field(default_factory=lambda: np.zeros(0, dtype=bool))

    def add(self, shapes: Callable[[], Shapes]) -> None:
        """Take the places of shapes from now on; they are made when something is first asked."""
        self._coming.append(shapes)

    def _index(self) -> None:
        if self._coming:
            self._held = np.concatenate([self._held, *(shapes() for shapes in self._coming)])
            self._bounds = shapely.bounds(self._held)
            self._coming.clear()

    def touched(self, shapes: Shapes) -> NDArray[np.bool_]:
        """Which of ``shapes`` touch something taken."""
        self._index()
        touched = np.zeros(len(shapes), dtype=bool)
        indices, places = np.nonzero(meeting([*shapely.bounds(shapes).T], self._bounds))
        touched[places[shapely.intersects(shapes[places], self._held[indices])]] = True
        return touched

    def touched_boxes(self, sides: Sides) -> NDArray[np.bool_]:
        """Which of several upright boxes touch something taken.

        Where that fills the box round it, as level words and lines do, numbers say so; only the others are
        held against shapes.
        """
        self._index()
        if len(self._fills) < len(self._held):
            x0, y0, x1, y1 = self._bounds.T
            self._fills = shapely.area(self._held) >= _WHOLE * (x1 - x0) * (y1 - y0)
        touched = np.asarray(meeting(sides, self._bounds[self._fills]).any(axis=0))
        free = np.flatnonzero(~touched)
        unsure = free[meeting([side[free] for side in sides], self._bounds[~self._fills]).any(axis=0)]
        if len(unsure):
            left, top, right, bottom = (side[unsure] for side in sides)
            touched[unsure] = self.touched(np.asarray(shapely.box(left, top, right, bottom)))
        return touched

    def near(self, shapes: Shapes, distance: float) -> tuple[NDArray[np.intp], Shapes, NDArray[np.float64]]:
        """What is taken within ``distance`` of ``shapes``: the index of a shape, what is near, how far."""
        self._index()
        left, top, right, bottom = shapely.bounds(shapes).T
        wider = left - distance, top - distance, right + distance, bottom + distance
        indices, places = np.nonzero(meeting(wider, self._bounds))
        taken = self._held[indices]
        apart = shapely.distance(shapes[places], taken)
        near = apart <= distance
        return places[near], taken[near], apart[near]

    def touched_within(self, shapes: Shapes, distance: float) -> NDArray[np.bool_]:
        """Which of ``shapes``, widened by ``distance`` with corners cut, touch something taken."""
        touched = np.zeros(len(shapes), dtype=bool)
        places, taken, apart = self.near(shapes, distance * 1.001)
        touched[places[apart <= distance * _SURELY]] = True
        unsure = ~touched[places]
        if unsure.any():
            places, taken = places[unsure], taken[unsure]
            once, which = np.unique(places, return_inverse=True)
            widened = shapely.buffer(shapes[once], distance, quad_segs=2)
            touched[places[shapely.intersects(widened[which], taken)]] = True
        return touched
