"""Dimension lines after ISO 129-1: extension lines, line, arrowheads, and a label that fits.

The label is tried in the line, then beyond it, then at its ends, then on a leader; then the whole
dimension moves one lane further out. What fits nowhere is not drawn; the caller decides what follows.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache, cached_property, partial

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import substring

from schematics.drawing.ink.block import CLEAR, Block
from schematics.drawing.ink.labeller import ARROW, upright
from schematics.drawing.ink.leaders import FEW, FROM_OWN, Spot, leader_spots
from schematics.drawing.ink.marks import Area, Label, Line, Mark, Pen, Point, along, arrowhead
from schematics.drawing.ink.taken import Shapes, line_of, lines_of, shapes_of, touches_any
from schematics.drawing.ink.track import Straight, Track
from schematics.units import HAIR

FIRST_LANE = 10.0
NEXT_LANE = 11.0
"""Distance of the first dimension line from the outline, and from each to the next, in mm.

ISO 129-1 asks for 10 mm and for less between lines; a label here has two units, one above the other.
"""

_GAP, PAST = 1.0, 2.0
"""From the outline to an extension line, and from the dimension line to its far end, in mm."""

_TAIL = 4.0
"""Length in mm of the line behind an arrow that points in from outside."""

_STEP, _AT_ONCE, _FARTHEST = 0.5, 8, 100.0
"""A label beyond a line is tried so much farther each time, so many times at once, up to that far, in mm."""

_END = 0.02
"""Of a line or an arrow's tail: so much of it in mm, where it begins, may touch the next in a chain."""

_LANES = 3


@dataclass(frozen=True, slots=True)
class _Placed:
    label: Label
    spot: Spot
    arrows_inside: bool

    def box(self, margin: float) -> Polygon:
        return self.label.box(self.spot.centre, self.spot.angle, margin)


@dataclass(frozen=True)
class _Lane:
    """A dimension's ``line`` beside its ``track``, and the shapes of what is drawn with it.

    One ``inside`` a piece may cross its fold.
    """

    track: Track
    line: Track
    inside: bool

    @cached_property
    def whole(self) -> LineString:
        """The line."""
        return line_of(self.line.points())

    @cached_property
    def extensions(self) -> Shapes:
        """Both extension lines."""
        return lines_of(list(_extensions(self.track, self.line)))

    @cached_property
    def _pointing_out(self) -> Shapes:
        return self._with_arrows(inside=True)

    @cached_property
    def _pointing_in(self) -> Shapes:
        return self._with_arrows(inside=False)

    def own(self, *, inside: bool) -> Shapes:
        """What no label touches: extension lines and arrowheads, with their tails if they point in."""
        return self._pointing_out if inside else self._pointing_in

    def _with_arrows(self, *, inside: bool) -> Shapes:
        heads = shapely.polygons([head.points for head in _arrowheads(self.line, inside=inside)])
        tails = () if inside else _tails(self.line)
        return np.concatenate([self.extensions, np.asarray(heads), lines_of(tails)])


def draw_dimension(
    block: Block, name: str, track: Track, labels: Sequence[Label], *, inside: bool = False
) -> bool:
    """Dimension ``track``, which lies on the outline, with the first of ``labels`` that fits.

    A fold that runs where an extension line would is one itself: over it, its dashes would look solid.

    Args:
        block: where it is drawn.
        name: what is measured; the group's name.
        track: the measured stretch of outline, with the side it is drawn on on its right.
        labels: the same figures set in several shapes, best first.
        inside: whether it is drawn on the fabric, where it may cross a fold, as dimensions may.

    Returns:
        Whether there was room; if not, nothing is drawn.
    """
    lane_of = cache(partial(_free_lane, block, track, inside))
    for placements in (_placements, _on_leaders):
        for lane in filter(None, map(lane_of, range(_LANES))):
            placed = next(placements(block, lane, labels), None)
            if placed:
                marks = _dimension_marks(track, lane.line, placed)
                block.add("dimension", name, (mark for mark in marks if not block.on_a_fold(mark)))
                return True
    return False


def _free_lane(block: Block, track: Track, inside: bool, number: int) -> _Lane | None:
    """None where its line would meet something."""
    line = track.offset(FIRST_LANE + number * NEXT_LANE)
    lane = _Lane(track, line, inside) if line else None
    return lane if lane and _line_free(block, lane) else None


def _line_free(block: Block, lane: _Lane) -> bool:
    if block.crosses_outline(lane.whole):
        return False
    inner = _inner(lane.line, lane.whole)
    return (
        not block.on_labels(shapes_of([inner, *lane.extensions])).any()
        and block.crossings(inner) <= lane.inside
        and not (lane.inside and block.misleads(shapes_of([inner])).any())
        and not block.near_outline(lane.extensions).any()
        and not block.on_leaders(lane.extensions).any()
    )


def _inner(line: Track, whole: LineString) -> BaseGeometry:
    """The line, which is ``whole`` as a shape, without its ends."""
    if isinstance(line, Straight) and line.length > 2 * _END:
        return line_of((line.at(_END), line.at(line.length - _END)))
    return substring(whole, _END, -_END)


def _extensions(track: Track, line: Track) -> Iterator[tuple[Point, Point]]:
    for on_outline, on_line in ((0.0, 0.0), (track.length, line.length)):
        foot, head, normal = track.at(on_outline), line.at(on_line), line.normal(on_line)
        yield along(foot, normal, _GAP), along(head, normal, PAST)


def _placements(block: Block, lane: _Lane, labels: Sequence[Label]) -> Iterator[_Placed]:
    """Placements at the line that touch nothing, best first."""
    line = lane.line
    tails_free = cache(partial(_tails_free, block, line))
    beside = (_past_end, _past_start) if lane.inside else (_beside,)
    for spots in (_in_line, *beside):
        for label in labels:
            for spot, inside in spots(lane, label):
                if (inside or tails_free()) and block.free(label, spot.centre, spot.angle):
                    placed = _Placed(label, spot, arrows_inside=inside)
                    if not shapely.intersects(lane.own(inside=inside), placed.box(FROM_OWN)).any():
                        yield placed


def _on_leaders(block: Block, lane: _Lane, labels: Sequence[Label]) -> Iterator[_Placed]:
    """Those on a leader to the line's middle."""
    line = lane.line
    inside, middle = _arrows_fit(line), line.length / 2
    if inside or _tails_free(block, line):

        def keeps_clear(leaders: Shapes, boxes: Shapes) -> NDArray[np.bool_]:
            touching = touches_any(boxes, lane.own(inside=inside)) | touches_any(leaders, lane.extensions)
            return ~(touching | block.near_outline(leaders, CLEAR))

        tip = line.at(middle), line.normal(middle)
        for label, spot in leader_spots(block, [tip], labels, FEW, keeps_clear=keeps_clear):
            yield _Placed(label, spot, arrows_inside=inside)


def _in_line(lane: _Lane, label: Label) -> Iterator[tuple[Spot, bool]]:
    """In a gap of the line; then beyond the line, centred; then in a gap with the arrows outside.

    Each spot comes with whether the arrows are inside.
    """
    width, height = label.size
    line, middle = lane.line, lane.line.length / 2
    gap = max(label.size) + 2 * (CLEAR + ARROW)
    in_gap = line.off_corners(gap)
    tangent = line.tangent(in_gap)
    spot = Spot(line.at(in_gap), _angle(label, tangent))
    along_line = _extent(tangent, width, height) if label.is_letter else width
    left = min(in_gap, line.length - in_gap) - along_line / 2 - CLEAR
    has_gap = label.is_letter or line.has_no_corner(in_gap, gap)
    if has_gap and left >= ARROW + 1:
        yield spot, True
    centre, angle = line.at(middle), _angle(label, line.tangent(middle))
    for turned in (angle,) if width <= line.length else dict.fromkeys((0.0, angle)):
        beyond = along(centre, line.normal(middle), _reach(lane, label, turned))
        yield Spot(beyond, turned), _arrows_fit(line)
    if has_gap and left >= 0.5:
        yield spot, False


def _angle(label: Label, tangent: Point) -> float:
    """Figures run along the line; a letter is upright, for H on its side is read as I, and N as Z."""
    return 0.0 if label.is_letter else upright(tangent)


def _reach(lane: _Lane, label: Label, angle: float) -> float:
    """Distance from the line's middle to the middle of a label clear of it and its extension lines."""
    _, height = label.size
    line, half = lane.line, lane.line.length / 2
    if isinstance(line, Straight) and angle == upright(line.tangent(half)):
        return height / 2 + (math.floor((CLEAR + PAST) / _STEP) + 1) * _STEP
    middle, normal = line.at(half), line.normal(half)
    corners = np.array(label.corners(middle, angle, CLEAR))
    away = height / 2
    while away < _FARTHEST:
        tries = away + np.arange(_AT_ONCE) * _STEP
        boxes = shapely.polygons(corners + tries[:, None, None] * np.array(normal))
        clear = shapely.distance(boxes, lane.whole) > PAST
        if clear.any():
            return float(tries[clear.argmax()])
        away += _AT_ONCE * _STEP
    return away


def _beside(lane: _Lane, label: Label) -> Iterator[tuple[Spot, bool]]:
    """On the extension of a short line past either end, arrows pointing in from outside."""
    if lane.line.length <= label.size[0] + 2 * (ARROW + CLEAR):
        yield from _past_end(lane, label)
        yield from _past_start(lane, label)


def _past_end(lane: _Lane, label: Label) -> Iterator[tuple[Spot, bool]]:
    """Past the end of the line, however long it is: a fold may cross it where its label would be."""
    return _past(lane.line, label, lane.line.length, 1.0)


def _past_start(lane: _Lane, label: Label) -> Iterator[tuple[Spot, bool]]:
    """Past where it begins."""
    return _past(lane.line, label, 0.0, -1.0)


def _past(line: Track, label: Label, end: float, outward: float) -> Iterator[tuple[Spot, bool]]:
    (width, height), tangent = label.size, line.tangent(end)
    extents = {_angle(label, tangent): width, 0.0: _extent(tangent, width, height)}
    for angle, extent in extents.items():
        yield Spot(line.at(end + outward * (ARROW + _TAIL + CLEAR + extent / 2)), angle), False


def _extent(direction: Point, width: float, height: float) -> float:
    """How far an upright box of that size reaches along ``direction``, from side to side."""
    dx, dy = abs(direction[0]), abs(direction[1])
    return min(width / dx if dx > HAIR else math.inf, height / dy if dy > HAIR else math.inf)


def _arrows_fit(line: Track) -> bool:
    """Whether the line has room for arrows that point out from between its ends."""
    return line.length >= 3 * ARROW


def _arrowheads(line: Track, *, inside: bool) -> tuple[Area, Area]:
    first, last = line.tangent(0), line.tangent(line.length)
    sign = -1.0 if inside else 1.0
    return (
        arrowhead(line.at(0), (first[0] * sign, first[1] * sign), ARROW),
        arrowhead(line.at(line.length), (-last[0] * sign, -last[1] * sign), ARROW),
    )


def _tails(line: Track) -> tuple[tuple[Point, Point], tuple[Point, Point]]:
    return (
        (line.at(-ARROW - _TAIL), line.at(0)),
        (line.at(line.length), line.at(line.length + ARROW + _TAIL)),
    )


def _tails_free(block: Block, line: Track) -> bool:
    shortened = (
        (line.at(-ARROW - _TAIL), line.at(-_END)),
        (line.at(line.length + _END), line.at(line.length + ARROW + _TAIL)),
    )
    if any(block.crosses_outline(line_of(tail)) for tail in _tails(line)):
        return False
    tails = lines_of(shortened)
    return not (
        block.on_labels(tails).any() or block.all_crossings(tails).any() or block.misleads(tails).any()
    )


def _dimension_marks(track: Track, line: Track, placed: _Placed) -> Iterator[Mark]:
    yield from dimension_lines(track, line, placed.box(CLEAR), inside=placed.arrows_inside)
    yield from placed.spot.marks(placed.label)


def dimension_lines(
    track: Track, line: Track, gap: Polygon | None = None, *, inside: bool | None = None
) -> Iterator[Mark]:
    """Extension lines, the ``line`` but for its ``gap``, and arrowheads; pointing out if ``inside``.

    Unless that is given, they point in from outside where the line is short.
    """
    inside = _arrows_fit(line) if inside is None else inside
    for ends in _extensions(track, line):
        yield Line(ends, Pen.EXTENSION)
    rest = LineString(line.points()).difference(gap or Polygon())
    for part in getattr(rest, "geoms", [rest]):
        if part.length > 0.05:
            yield Line(tuple((x, y) for x, y, *_ in part.coords), Pen.DIMENSION)
    yield from _arrowheads(line, inside=inside)
    if not inside:
        for tail in _tails(line):
            yield Line(tail, Pen.DIMENSION)
