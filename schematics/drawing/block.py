"""A block: one piece with its dimensions, laid out in its own millimetres before the page exists.

The block remembers what is taken, so that a label is only ever placed where it touches nothing.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

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
    moved_group,
)

_MANY = 1000
_TOUCH = 0.3
_ALONG = 3.0

CLEAR = 0.8
"""Least distance between a label and anything else, in mm."""


@dataclass(frozen=True, slots=True)
class _Taken:
    x0: float
    y0: float
    x1: float
    y1: float
    shape: BaseGeometry


def _taken(shape: BaseGeometry) -> _Taken:
    return _Taken(*shape.bounds, shape)


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
    _lines: list[_Taken] = field(default_factory=list)
    _labels: list[_Taken] = field(default_factory=list)
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
                self._lines.append(_taken(LineString(points[start : start + 7])))
            return
        (self._labels if isinstance(mark, Text | Circle) else self._lines).append(_taken(mark_shape(mark)))

    def free(self, label: Label, centre: Point, angle: float) -> bool:
        """Whether the label touches no line and no other label there."""
        box = label.box(centre, angle, CLEAR)
        return not self._hits(box, self._lines) and not self._hits(box, self._labels)

    def is_empty(self, marks: Iterable[Mark], clear: float = CLEAR) -> bool:
        """Whether nothing is where these marks would go, nor within ``clear`` mm of them."""
        shapes = [mark_shape(mark).buffer(clear, quad_segs=2) for mark in marks]
        return not any(self._hits(shape, self._lines) or self._hits(shape, self._labels) for shape in shapes)

    def clear_of_labels(self, shape: BaseGeometry) -> bool:
        """Whether a line or arrow would touch no label."""
        return not self._hits(shape.buffer(CLEAR, quad_segs=2), self._labels)

    def crosses_outline(self, shape: BaseGeometry) -> bool:
        """Whether a line would cross or graze the outline of the piece."""
        return any(outline.distance(shape) < _TOUCH for outline in self._outlines)

    def crossings(self, shape: BaseGeometry) -> int:
        """How many taken lines ``shape`` crosses; running along one counts as crossing many."""
        x0, y0, x1, y1 = shape.bounds
        near = [
            other.shape
            for other in self._lines
            if other.x0 <= x1 + _TOUCH
            and other.x1 >= x0 - _TOUCH
            and other.y0 <= y1 + _TOUCH
            and other.y1 >= y0 - _TOUCH
        ]
        beside = shape.buffer(_TOUCH, quad_segs=1, cap_style="flat")
        return sum(
            _MANY if beside.intersection(other).length > _ALONG else int(other.intersects(shape))
            for other in near
        )

    @staticmethod
    def _hits(shape: BaseGeometry, taken: list[_Taken]) -> bool:
        x0, y0, x1, y1 = shape.bounds
        return any(
            other.x0 <= x1
            and other.x1 >= x0
            and other.y0 <= y1
            and other.y1 >= y0
            and other.shape.intersects(shape)
            for other in taken
        )

    def bounds(self) -> tuple[float, float, float, float]:
        """The box round everything in the block."""
        return bounds(self.groups)

    def at(self, x: float, y: float) -> list[Group]:
        """The block's groups with its box's upper left corner at ``x``, ``y``."""
        x0, y0, _, _ = self.bounds()
        return [moved_group(group, x - x0, y - y0) for group in self.groups]
