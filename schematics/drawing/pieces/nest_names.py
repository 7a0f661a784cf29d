"""The names of overlaid sizes, each at a place of its outline that no other size's comes near."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from shapely import LineString, box, unary_union
from shapely import Point as ShapelyPoint
from shapely.geometry.base import BaseGeometry

from schematics.drawing.ink.block import Block
from schematics.drawing.ink.label_columns import spread_out
from schematics.drawing.ink.labeller import draw_label
from schematics.drawing.ink.leaders import Spot
from schematics.drawing.ink.marks import Label, Line, Pen, Point, along, opposite, unit

_ONE = 0.3
"""Outlines nearer to each other than this, in mm, are seen as one there."""

_NEAREST = 0.6
_CLEAR_OF_OTHERS = (2.0, 1.2, _NEAREST)
"""Distances in mm that a place for a name keeps from other outlines: at least, and best first."""

_ALONE = 4.0
"""A corner that is farther from other outlines than this, in mm, is its size's alone: it is named there."""

_SAMPLES = 60
"""Places tried along an outline after its corners."""

_BEND, _COLUMN = 1.6, 5.0
"""How far from the middle lines to names bend and end, in mm."""

_APART = 0.6
"""Between names in a column, in mm."""

_STRAIGHT_ON = math.cos(math.radians(20))
"""An outline that turns by more than that has a corner there."""

_SHORT = 6.0
"""A name goes inside its outline if its line is no longer than this there, in mm."""

_TRIES = sorted(
    itertools.product((0, 15, -15, 30, -30, 45, -45, 60, -60), (2.5 + 1.5 * step for step in range(26))),
    key=lambda turn_and_mm: turn_and_mm[1] + abs(turn_and_mm[0]) / 2,
)
"""Turns of a name's line, in degrees from straight off the piece, and lengths in mm; short ones first."""


@dataclass(frozen=True)
class Nested:
    """The outline of a size's right half, from one end of its middle line round to the other.

    The end that is apart from that of other sizes is the last where it is ``named_at_end``, or the first.
    """

    name: str
    points: tuple[Point, ...]
    named_at_end: bool

    @cached_property
    def line(self) -> LineString:
        """The outline."""
        return LineString(self.points)

    @property
    def end(self) -> tuple[float, Point]:
        """How far along the outline the end is where it is named best, in mm, and its place."""
        return (self.line.length, self.points[-1]) if self.named_at_end else (0.0, self.points[0])


def name_sizes(block: Block, outlines: Sequence[Nested]) -> None:
    """Name every outline: in a column beside the middle where it ends there by itself, else beside it."""
    at_middle: list[tuple[str, Point]] = []
    beside: list[tuple[str, Nested, float, BaseGeometry]] = []
    for group in _alike(outlines):
        others = unary_union([each.line for each in outlines if each not in group])
        first, names = group[0], [each.name for each in group]
        apart = others.is_empty or ShapelyPoint(first.end[1]).distance(others) >= _NEAREST
        if apart and _has_room_for_column(first.end[1], max(names, key=len), outlines):
            at_middle += [(name, first.end[1]) for name in names]
        else:
            beside.append((", ".join(names), first, _place(first, others), others))
    _name_column(block, at_middle)
    lines: list[LineString] = []
    for name, outline, place, others in beside:
        _name_beside(block, name, outline, place, lines, others)


def _has_room_for_column(end: Point, name: str, outlines: Sequence[Nested]) -> bool:
    """Whether nothing is left of the middle there: a half can go nearly all round the neck."""
    (x, y), (width, height) = end, Label((name,)).size
    room = box(x - _COLUMN - 1.0 - width, y - height, x - _NEAREST, y + height)
    return not any(room.intersects(each.line) for each in outlines)


def _alike(outlines: Sequence[Nested]) -> list[list[Nested]]:
    """Sizes whose outlines are one."""
    groups: list[list[Nested]] = []
    for each in outlines:
        for group in groups:
            if each.line.hausdorff_distance(group[0].line) < _ONE:
                group.append(each)
                break
        else:
            groups.append([each])
    return groups


def _place(outline: Nested, others: BaseGeometry) -> float:
    """How far along its outline a size is named, in mm: at the corner that is most its own if there is one.

    Else at the right if it is clear of the others there.
    """
    own = max(_corners(outline.points), key=lambda at: ShapelyPoint(at).distance(others), default=None)
    if own and ShapelyPoint(own).distance(others) > _ALONE:
        return outline.line.project(ShapelyPoint(own))
    right = max(outline.points, key=lambda point: (round(point[0], 1), -point[1]))
    samples = [outline.line.length * step / _SAMPLES for step in range(1, _SAMPLES)]
    samples.sort(key=lambda place: -outline.line.interpolate(place).x)
    places = [outline.line.project(ShapelyPoint(right)), *samples]
    away = {place: outline.line.interpolate(place).distance(others) for place in places}
    for clear in _CLEAR_OF_OTHERS:
        if clear_places := [place for place in places if away[place] >= clear]:
            return clear_places[0]
    return max(places, key=lambda place: away[place])


def _corners(points: Sequence[Point]) -> Iterator[Point]:
    """Where an outline turns, but not as an arc does."""
    for before, at, after in zip(points, points[1:], points[2:], strict=False):
        (ax, ay), (bx, by) = unit(before, at), unit(at, after)
        if ax * bx + ay * by < _STRAIGHT_ON:
            yield at


def _name_column(block: Block, ends: Sequence[tuple[str, Point]]) -> None:
    """Names left of the middle line, each with a line from the outline's end there."""
    ordered = sorted(ends, key=lambda each: each[1][1])
    if not ordered:
        return
    labels = [Label((name,)) for name, _ in ordered]
    levels = spread_out([y for _, (_, y) in ordered], labels[0].size[1] + _APART)
    for (name, (x, y)), label, level in zip(ordered, labels, levels, strict=True):
        points = ((x - 0.6, y), (x - _BEND, y), (x - _COLUMN, level))
        centre = (x - _COLUMN - 1.0 - label.size[0] / 2, level)
        block.add("size", name, [Line(points, Pen.LEADER), *label.texts(centre, 0.0)])


def _name_beside(
    block: Block,
    name: str,
    outline: Nested,
    place: float,
    lines: list[LineString],
    others: BaseGeometry,
) -> None:
    """A short line off the outline with the name at its end, longer or turned where its place is taken.

    It meets none of the ``lines`` of other sizes, and is one of them then. The name is across no outline of
    ``others`` if that can be.
    """
    at, away = _off(outline, place)
    label = Label((name,))
    spots = (
        *_spots(label, at, opposite(away), _SHORT),
        *_spots(label, at, away),
        *_spots(label, at, opposite(away)),
    )
    apart = [each for each in spots if not LineString((at, each.centre)).intersects(others)]
    spot = draw_label(block, "size", name, label, (*apart, *spots), lines=lines, tips=((at, away),))
    if spot:
        lines.append(LineString(spot.line))


def _off(outline: Nested, place: float) -> tuple[Point, Point]:
    """The place on the outline and the unit direction off the piece there: its outlines run leftwards round.

    At a corner it is between the directions of both sides.
    """
    line = outline.line
    at, before, after = (line.interpolate(each) for each in (place, max(place - 0.5, 0.0), place + 0.5))
    along_it = [unit((a.x, a.y), (b.x, b.y)) for a, b in ((before, at), (at, after)) if a.distance(b) > 1e-6]
    normals = [(-dy, dx) for dx, dy in along_it]
    x, y = sum(n[0] for n in normals), sum(n[1] for n in normals)
    size = math.hypot(x, y) or 1.0
    return (at.x, at.y), (x / size, y / size)


def _spots(label: Label, at: Point, away: Point, longest: float = math.inf) -> Iterator[Spot]:
    """Places for a label on lines off ``at``, those that are no longer than ``longest``, in mm."""
    width, height = label.size
    for turn, distance in _TRIES:
        if distance > longest:
            continue
        direction = _turned(away, turn)
        tip = along(at, direction, distance)
        reach = (abs(direction[0]) * width + abs(direction[1]) * height) / 2 + 1.0
        yield Spot(along(tip, direction, reach), line=(at, tip))


def _turned(direction: Point, degrees: float) -> Point:
    cosine, sine = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return direction[0] * cosine - direction[1] * sine, direction[0] * sine + direction[1] * cosine
