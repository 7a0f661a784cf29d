"""A block: one piece with its dimensions, laid out in its own millimetres before the page exists.

The block remembers what is taken, so that a label is only ever placed where it touches nothing.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import chain, islice, repeat
from typing import TypeVar

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LinearRing, Polygon
from shapely import box as rectangle
from shapely.geometry.base import BaseGeometry

from schematics.drawing.ink.boxes import Sides
from schematics.drawing.ink.marks import (
    Area,
    Circle,
    Group,
    Label,
    Line,
    Mark,
    Pen,
    Point,
    Text,
    box_round,
    mark_points,
    moved_group,
)
from schematics.drawing.ink.taken import Shapes, Taken, line_of, lines_of, polygon_of, shapes_of
from schematics.units import NEAR

_UNCROSSED = frozenset({Pen.LEADER, Pen.DIMENSION, Pen.SOLID})
"""Pens of what no leader crosses."""

_MEANT = _UNCROSSED | {Pen.EXTENSION}
"""Pens of what an arrow beside it could be meant for."""

_WORDS = (Text, Circle)
_TINT = "tint"
_MANY = 1000
_TOUCH = 0.3
_ALONG = 3.0

_FEW_FIRST, _THEN = (1, 3), 8
"""So many choices are tried at once: the first ones mostly do."""

_T = TypeVar("_T")

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
        return line_of(mark.points)
    return polygon_of(mark.points) if mark.pen is Pen.SOLID else line_of([*mark.points, mark.points[0]])


def _taken_by(mark: Mark) -> Shapes:
    """What a mark covers, a long line in several parts."""
    if not isinstance(mark, _WORDS) and len(mark.points) > 8 and mark.pen is not Pen.SOLID:
        points = mark.points if isinstance(mark, Line) else (*mark.points, mark.points[0])
        return lines_of([points[at : at + 7] for at in range(0, len(points) - 1, 6)])
    return shapes_of([mark_shape(mark)])


_PAIRED, _MIDST = 2.5, (0.35, 0.65)
"""Lines whose midst, between these shares of their length, is within so many mm of another read as a pair."""


_BEND = 1.6
"""A leader's bend is read as a part of a line within so many mm of it."""


@dataclass(slots=True)
class _Place:
    """What a mark covers, made when first asked for."""

    mark: Mark
    shapes: Shapes | None = None

    def __call__(self) -> Shapes:
        if self.shapes is None:
            self.shapes = _taken_by(self.mark)
        return self.shapes


def _is_point(mark: Mark) -> bool:
    """Whether a line has shrunk to nothing, as at the end of a piece that is folded away."""
    return isinstance(mark, Line) and len(set(mark.points)) < 2


def _beside(lines: Shapes, near: Shapes) -> NDArray[np.float64]:
    """How much of the line near each line lies within `_TOUCH` of its straight parts, in mm.

    Every stretch of what is near is cut to the box round each straight part, after Liang and Barsky 1984.
    """
    points = shapely.get_coordinates(lines).reshape(len(lines), -1, 2)
    parts = np.diff(points, axis=1)
    sizes = np.hypot(parts[..., 0], parts[..., 1])
    units = parts / np.where(sizes, sizes, 1.0)[..., None]
    ends, owner = shapely.get_coordinates(near, return_index=True)
    whole = owner[1:] == owner[:-1]
    starts, runs, owner = ends[:-1][whole], np.diff(ends, axis=0)[whole], owner[1:][whole]
    away, unit = starts[:, None] - points[owner, :-1], units[owner]
    x, y = unit[..., 0], unit[..., 1]
    enter, leave = np.zeros(x.shape), np.ones(x.shape)
    for place, run, low, high in (
        (away[..., 0] * x + away[..., 1] * y, runs[:, :1] * x + runs[:, 1:] * y, 0.0, sizes[owner]),
        (away[..., 1] * x - away[..., 0] * y, runs[:, 1:] * x - runs[:, :1] * y, -_TOUCH, _TOUCH),
    ):
        with np.errstate(divide="ignore", invalid="ignore"):
            one, other = (low - place) / run, (high - place) / run
        enter, leave = np.fmax(enter, np.fmin(one, other)), np.fmin(leave, np.fmax(one, other))
    inside = np.maximum(0.0, leave - enter).sum(axis=1) * np.hypot(runs[:, 0], runs[:, 1])
    return np.bincount(owner, inside, minlength=len(near)).astype(np.float64)


@dataclass(slots=True)
class Block:
    """Collects groups of marks and answers where a label is free.

    ``unplaced`` lists what could not be placed; nothing is ever drawn badly instead. No label is free where
    it would make the block wider than ``widest`` mm. In one that is ``hurried`` few places are tried, and
    none once it ``is_lost``, for it will be laid out again at another scale.
    """

    widest: float = math.inf
    hurried: bool = False

    groups: list[Group] = field(default_factory=list)
    unplaced: list[str] = field(default_factory=list)
    _lines: Taken = field(default_factory=Taken)
    _labels: Taken = field(default_factory=Taken)
    _uncrossed: Taken = field(default_factory=Taken)
    _meant: Taken = field(default_factory=Taken)
    _extensions: Taken = field(default_factory=Taken)
    _leaders: Taken = field(default_factory=Taken)
    _folds: list[tuple[Point, ...]] = field(default_factory=list)
    _outlines: list[LinearRing] = field(default_factory=list)
    _faces: list[Polygon] = field(default_factory=list)
    _box: tuple[float, float, float, float] = (math.inf, math.inf, -math.inf, -math.inf)

    @property
    def is_lost(self) -> bool:
        """Whether something had no room, or it is wider than it may be."""
        left, _, right, _ = self._box
        return bool(self.unplaced) or right - left > self.widest

    def add(self, kind: str, name: str, marks: Iterable[Mark]) -> None:
        """Add a group; its lines and labels are taken from now on."""
        group = Group(kind, name, tuple(mark for mark in marks if not _is_point(mark)))
        self.groups.append(group)
        left, top, right, bottom = self._box
        for mark in group.marks:
            shapes = _Place(mark)
            (self._labels if isinstance(mark, _WORDS) else self._lines).add(shapes)
            if isinstance(mark, Line | Area) and mark.pen in _UNCROSSED:
                self._uncrossed.add(shapes)
            if kind == "dimension" and isinstance(mark, Line) and mark.pen is Pen.EXTENSION:
                self._extensions.add(shapes)
            if isinstance(mark, Line) and mark.pen is Pen.FOLD:
                self._folds.append(mark.points)
            if isinstance(mark, Line) and mark.pen is Pen.LEADER:
                self._leaders.add(shapes)
            if isinstance(mark, Line | Area) and mark.pen in _MEANT:
                self._meant.add(shapes)
            x0, y0, x1, y1 = box_round(mark_points(mark))
            left, top, right, bottom = min(left, x0), min(top, y0), max(right, x1), max(bottom, y1)
        self._box = left, top, right, bottom
        if kind == "outline":
            faces = [polygon_of(mark.points) for mark in group.marks if isinstance(mark, Line | Area)]
            outlines = [face.exterior for face in faces]
            shapely.prepare([*faces, *outlines])
            self._faces += faces
            self._outlines += outlines

    def underlay(self, name: str, faces: Iterable[Area]) -> None:
        """Add tinted faces under all there is, over tints that are there already; they take no room."""
        if marks := tuple(faces):
            tints = sum(group.kind == _TINT for group in self.groups)
            self.groups.insert(tints, Group(_TINT, name, marks))

    def free(self, label: Label, centre: Point, angle: float) -> bool:
        """Whether the label touches no line and no other label there."""
        shape = shapes_of([label.box(centre, angle, CLEAR)])
        if self._too_wide(*shapely.bounds(shape)[:, ::2].T).any():
            return False
        return not self._lines.touched(shape).any() and not self._labels.touched(shape).any()

    def free_places(self, sides: Sides) -> NDArray[np.intp]:
        """Which of several upright boxes touch no line and no label and make the block not too wide."""
        left, _, right, _ = sides
        places = np.flatnonzero(~self._too_wide(left, right))
        for taken in (self._labels, self._lines):
            left, top, right, bottom = (side[places] for side in sides)
            places = places[~taken.touched_boxes((left, top, right, bottom))]
        return places

    def _too_wide(self, x0: NDArray[np.float64], x1: NDArray[np.float64]) -> NDArray[np.bool_]:
        """Which of several, from x0 to x1, would make the block wider than it may be, or wider still."""
        left, _, right, _ = self._box
        width = np.maximum(x1, right) - np.minimum(x0, left)
        return np.asarray(width > max(self.widest, right - left))

    def empty(
        self, choices: Iterable[tuple[_T, Sequence[Mark]]], clear: float = CLEAR, apart: float = 0.0
    ) -> Iterator[_T]:
        """Those choices within ``clear`` mm of whose marks is nothing, and that keep the block's width.

        Nor may a label be within ``apart`` mm to the left or right of them, where both would read as one.
        """
        coming = iter(choices)
        for at_once in chain(_FEW_FIRST, repeat(_THEN)):
            tried = list(islice(coming, at_once))
            if not tried:
                return
            empty = self._empty([marks for _, marks in tried], clear, apart)
            yield from (choice for (choice, _), is_empty in zip(tried, empty, strict=True) if is_empty)

    def _empty(self, choices: Sequence[Sequence[Mark]], clear: float, apart: float) -> NDArray[np.bool_]:
        """Which of the choices are `empty`."""
        shapes = shapes_of([mark_shape(mark) for marks in choices for mark in marks])
        owner = np.repeat(np.arange(len(choices)), [len(marks) for marks in choices])
        empty = np.ones(len(choices), dtype=bool)
        x0, y0, x1, y1 = shapely.bounds(shapes).T
        empty[owner[self._too_wide(x0, x1)]] = False
        for taken in (self._lines, self._labels):
            left = empty[owner]
            empty[owner[left][taken.touched_within(shapes[left], clear)]] = False
        left = empty[owner]
        beside = np.asarray(shapely.box(x0[left] - apart, y0[left], x1[left] + apart, y1[left]))
        empty[owner[left][self._labels.touched(beside)]] = False
        return empty

    def is_empty(self, marks: Sequence[Mark], clear: float = CLEAR, apart: float = 0.0) -> bool:
        """Whether these marks are, as in `empty`."""
        return bool(self._empty([marks], clear, apart)[0])

    def on_labels(self, shapes: Shapes) -> NDArray[np.bool_]:
        """Which of several lines or arrows would touch a label."""
        return self._labels.touched_within(shapes, CLEAR)

    def misleads(self, leaders: Shapes) -> NDArray[np.bool_]:
        """Which of several leaders would cross or touch a dimension line, an arrow or a leader that is there.

        Whose is which would then be unclear.
        """
        return self._uncrossed.touched_within(leaders, CLEAR)

    def on_extensions(self, leaders: Shapes) -> NDArray[np.bool_]:
        """Which of them would cross or touch an extension line of a dimension."""
        return self._extensions.touched_within(leaders, CLEAR)

    def beside_extensions(self, leaders: Shapes) -> NDArray[np.bool_]:
        """Which of them would run along beside an extension line, or bend by it, and read as its pair."""
        beside = np.ones(len(leaders), dtype=bool)
        for share in _MIDST:
            points = np.asarray(shapely.line_interpolate_point(leaders, share, normalized=True))
            beside[beside] = self._extensions.touched_within(points[beside], _PAIRED)
        return beside | self._extensions.touched_within(shapely.get_point(leaders, 1), _BEND)

    def on_leaders(self, extensions: Shapes) -> NDArray[np.bool_]:
        """Which of several extension lines would cross or touch a leader that is there."""
        return self._leaders.touched_within(extensions, CLEAR)

    def beside_a_line(self, points: Sequence[Point], distance: float) -> list[bool]:
        """Whether a line that an arrow could be meant for is within ``distance`` mm of each of the points."""
        shapes = np.asarray(shapely.points(np.array(points).reshape(-1, 2)))
        beside: list[bool] = self._meant.touched_within(shapes, distance).tolist()
        return beside

    def on_a_fold(self, mark: Mark) -> bool:
        """Whether an extension line lies on a fold that is drawn."""
        if not isinstance(mark, Line) or mark.pen is not Pen.EXTENSION:
            return False
        ends = shapely.points(mark.points)
        return any(bool((shapely.distance(line_of(fold), ends) < NEAR).all()) for fold in self._folds)

    def crosses_outline(self, shape: BaseGeometry, clear: float = _TOUCH) -> bool:
        """Whether a line would cross the outline of the piece or come within ``clear`` mm of it."""
        return any(shapely.dwithin(outline, shape, clear) for outline in self._outlines)

    def near_outline(self, shapes: Shapes, clear: float = _TOUCH) -> NDArray[np.bool_]:
        """Which of several lines would cross an outline or come within ``clear`` mm of it."""
        near = np.zeros(len(shapes), dtype=bool)
        for outline in self._outlines:
            near |= shapely.dwithin(outline, shapes, clear)
        return near

    def outlines_crossed(self, shapes: Shapes) -> NDArray[np.int_]:
        """How many outlines of pieces each of several lines crosses."""
        return sum(
            (shapely.intersects(outline, shapes).astype(int) for outline in self._outlines),
            np.zeros(len(shapes), dtype=int),
        )

    def on_pieces(self, points: NDArray[np.float64]) -> NDArray[np.int_]:
        """On how many pieces each of several points lies."""
        on_each = (shapely.contains_xy(face, points).astype(int) for face in self._faces)
        return sum(on_each, np.zeros(len(points), dtype=int))

    def crossings(self, shape: BaseGeometry) -> int:
        """How many taken lines ``shape`` crosses; running along one counts as crossing many."""
        return int(self.all_crossings(shapes_of([shape]))[0])

    def all_crossings(self, shapes: Shapes) -> NDArray[np.int_]:
        """The `crossings` of each of several lines, which have equally many points."""
        places, near, apart = self._lines.near(shapes, _TOUCH * 1.01)
        if not len(places):
            return np.zeros(len(shapes), dtype=int)
        lines, each = shapes[places], (apart <= NEAR).astype(float)
        if len(long := np.flatnonzero(shapely.length(near) > _ALONG)):
            each[long[_beside(lines[long], near[long]) > _ALONG]] = _MANY
        return np.bincount(places, each, minlength=len(shapes)).astype(int)

    def bounds(self) -> tuple[float, float, float, float]:
        """The box round everything in the block."""
        return self._box

    def at(self, x: float, y: float) -> list[Group]:
        """The block's groups with its box's upper left corner at ``x``, ``y``."""
        x0, y0, _, _ = self.bounds()
        return [moved_group(group, x - x0, y - y0) for group in self.groups]
