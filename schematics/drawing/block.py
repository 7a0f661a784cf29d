"""A block: one piece with its dimensions, laid out in its own millimetres before the page exists.

The block remembers what is taken, so that a label is only ever placed where it touches nothing.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely import box as rectangle
from shapely.geometry.base import BaseGeometry

from schematics.drawing.marks import (
    Area,
    Circle,
    Group,
    Label,
    Line,
    Mark,
    Pen,
    Point,
    Text,
    bounds,
    box_round,
    mark_points,
    moved_group,
)
from schematics.drawing.taken import Taken, touch

_MANY = 1000
_TOUCH = 0.3
_ALONG = 3.0

CLEAR = 0.8
"""Least distance between a label and anything else, in mm."""


def mark_shape(mark: Mark) -> BaseGeometry:
    """What a mark covers: the box of a text, the line of an outline, the face of a filled area."""
    if isinstance(mark, Text):
        return mark.box()
    if isinstance(mark, Circle):
        (x, y), r = mark.centre, mark.radius
        return rectangle(x - r, y - r, x + r, y + r)
    if isinstance(mark, Line):
        return LineString(mark.points)
    return Polygon(mark.points) if mark.pen is Pen.SOLID else LineString([*mark.points, mark.points[0]])


@dataclass(slots=True)
class Block:
    """Collects groups of marks and answers where a label is free.

    ``unplaced`` names what found no room; nothing is ever drawn badly instead.
    """

    groups: list[Group] = field(default_factory=list)
    unplaced: list[str] = field(default_factory=list)
    _lines: Taken = field(default_factory=Taken)
    _labels: Taken = field(default_factory=Taken)
    _outlines: list[BaseGeometry] = field(default_factory=list)

    def add(self, kind: str, name: str, marks: Iterable[Mark]) -> None:
        """Add a group; its lines and labels are taken from now on."""
        group = Group(kind, name, tuple(marks))
        self.groups.append(group)
        for mark in group.marks:
            self._remember(mark)
        if kind == "outline":
            self._outlines += map(mark_shape, group.marks)

    def _remember(self, mark: Mark) -> None:
        if isinstance(mark, Line | Area) and len(mark.points) > 8 and not (
            isinstance(mark, Area) and mark.pen is Pen.SOLID
        ):  # fmt: skip
            points = mark.points if isinstance(mark, Line) else (*mark.points, mark.points[0])
            for start in range(0, len(points) - 1, 6):
                self._lines.add(LineString(points[start : start + 7]))
            return
        (self._labels if isinstance(mark, Text | Circle) else self._lines).add(mark_shape(mark))

    def free(self, label: Label, centre: Point, angle: float) -> bool:
        """Whether the label touches no line and no other label there."""
        corners = label.corners(centre, angle, CLEAR)
        box = box_round(corners)
        near = [taken for taken in (self._lines.near(box), self._labels.near(box)) if len(taken)]
        if not near:
            return True
        shape = Polygon(corners)
        return not any(touch(taken, shape) for taken in near)

    def is_empty(self, marks: Iterable[Mark], clear: float = CLEAR) -> bool:
        """Whether nothing is where these marks would go, nor within ``clear`` mm of them."""
        for mark in marks:
            box = box_round(mark_points(mark))
            near = [taken for kind in (self._lines, self._labels) if len(taken := kind.near(box, clear))]
            if near:
                shape = mark_shape(mark).buffer(clear, quad_segs=2)
                if any(touch(taken, shape) for taken in near):
                    return False
        return True

    def clear_of_labels(self, shape: BaseGeometry) -> bool:
        """Whether a line or arrow would touch no label."""
        near = self._labels.near(shape.bounds, CLEAR)
        return not len(near) or not touch(near, shape.buffer(CLEAR, quad_segs=2))

    def crosses_outline(self, shape: BaseGeometry) -> bool:
        """Whether a line would cross or graze the outline of the piece."""
        return any(outline.distance(shape) < _TOUCH for outline in self._outlines)

    def crossings(self, shape: BaseGeometry) -> int:
        """How many taken lines ``shape`` crosses; running along one counts as crossing many."""
        near = self._lines.near(shape.bounds, _TOUCH)
        if len(near):
            near = near[shapely.dwithin(shape, near, _TOUCH * 1.01)]
        if not len(near):
            return 0
        beside = shape.buffer(_TOUCH, quad_segs=1, cap_style="flat")
        along = shapely.length(shapely.intersection(beside, near)) > _ALONG
        return int(np.where(along, _MANY, shapely.intersects(shape, near)).sum())

    def bounds(self) -> tuple[float, float, float, float]:
        """The box round everything in the block."""
        return bounds(self.groups)

    def at(self, x: float, y: float) -> list[Group]:
        """The block's groups with its box's upper left corner at ``x``, ``y``."""
        x0, y0, _, _ = self.bounds()
        return [moved_group(group, x - x0, y - y0) for group in self.groups]
