"""Dimension lines after ISO 129-1: extension lines, line, arrowheads, and a label that fits.

The label is tried in the line, then beyond it, then at its ends, then on a leader; then the whole
dimension moves one lane further out. What fits nowhere is not drawn, and the caller told.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LineString, Polygon
from shapely.ops import substring

from schematics.drawing.ink.block import CLEAR, Block
from schematics.drawing.ink.marks import Area, Label, Line, Mark, Pen, Point, arrowhead
from schematics.drawing.ink.taken import Shapes
from schematics.drawing.ink.track import Track

FIRST_LANE = 10.0
NEXT_LANE = 11.0
"""Distance of the first dimension line from the outline, and from each to the next, in mm.

ISO 129-1 asks for 10 mm and for less between lines; a label here has two units, one above the other.
"""

ARROW = 2.5
_GAP, _PAST = 1.0, 2.0
_TAIL = 4.0
_SHORT = 24.0
"""A leader up to this length in mm is easily followed; another tip or label is tried before a longer one."""
_LANES = 3


@dataclass(frozen=True, slots=True)
class _Placed:
    label: Label
    centre: Point
    angle: float
    arrows_inside: bool
    leader: tuple[Point, ...] = ()

    @property
    def reach(self) -> float:
        """How far the leader goes from its tip, in mm; 0 without one."""
        return math.dist(*self.leader[:2]) if self.leader else 0.0


def draw_dimension(block: Block, name: str, track: Track, labels: Sequence[Label]) -> bool:
    """Dimension ``track``, which lies on the outline, with the first of ``labels`` that fits.

    Args:
        block: where it is drawn.
        name: what is measured; the group's name.
        track: the measured stretch of outline, with the free side on its right.
        labels: the same figures set in several shapes, best first.

    Returns:
        Whether there was room; if not, nothing is drawn.
    """
    for leaders in (False, True):
        for lane in range(_LANES):
            line = track.offset(FIRST_LANE + lane * NEXT_LANE)
            if line is None or not _line_free(block, track, line):
                continue
            for placed in _placements(block, line, labels, leaders=leaders):
                if _clear_of_own_lines(track, line, placed):
                    block.add("dimension", name, _dimension_marks(track, line, placed))
                    return True
    return False


def draw_leader(
    block: Block, name: str, tips: Sequence[tuple[Point, Point]], labels: Sequence[Label]
) -> None:
    """A label with an arrow to the first of ``tips`` where there is room; if nowhere, the block is told.

    Each tip comes with the direction away from the fabric there.
    """
    if not try_leader(block, name, tips, labels, (0, 2, 4, 16)):
        block.unplaced.append(name)


def try_leader(
    block: Block,
    name: str,
    tips: Sequence[tuple[Point, Point]],
    labels: Sequence[Label],
    crossings: Sequence[int],
) -> bool:
    """`draw_leader` with at most so many lines crossed, each of ``crossings`` tried in turn.

    Returns:
        Whether there was room; if not, nothing is drawn.
    """
    ways = [_Spots(_leader_spots(block, tip, away, label)) for tip, away in tips for label in labels]
    for most, reach, way in product(crossings, (_SHORT, math.inf), ways):
        placed = next(way.crossing(most, reach), None)
        if placed is not None:
            block.add("leader", name, _leader_marks(placed))
            return True
    return False


def _leader_marks(placed: _Placed) -> Iterator[Mark]:
    tip, elbow = placed.leader[:2]
    yield Line(placed.leader, Pen.LEADER)
    yield arrowhead(tip, (tip[0] - elbow[0], tip[1] - elbow[1]), ARROW)
    yield from placed.label.texts(placed.centre, placed.angle)


def upright(tangent: Point) -> float:
    """The angle in degrees at which text along ``tangent`` reads from the bottom or the right edge."""
    angle = math.degrees(math.atan2(tangent[1], tangent[0]))
    while angle >= 90 - 1e-9:
        angle -= 180
    while angle < -90 - 1e-9:
        angle += 180
    return angle


def _line_free(block: Block, track: Track, line: Track) -> bool:
    whole = LineString(line.points())
    inner = substring(whole, 0.5, -0.5)
    if block.crosses_outline(whole) or not block.clear_of_labels(inner) or block.crossings(inner):
        return False
    extensions = [LineString(ends) for ends in _extensions(track, line)]
    return all(block.clear_of_labels(each) and not block.crosses_outline(each) for each in extensions)


def _extensions(track: Track, line: Track) -> Iterator[tuple[Point, Point]]:
    for on_outline, on_line in ((0.0, 0.0), (track.length, line.length)):
        foot, head, normal = track.at(on_outline), line.at(on_line), line.normal(on_line)
        yield (
            (foot[0] + normal[0] * _GAP, foot[1] + normal[1] * _GAP),
            (head[0] + normal[0] * _PAST, head[1] + normal[1] * _PAST),
        )


def _placements(block: Block, line: Track, labels: Sequence[Label], *, leaders: bool) -> Iterator[_Placed]:
    """Placements that touch nothing, best first."""
    if leaders:
        middle = line.at(line.length / 2)
        arrows = line.length >= 3 * ARROW
        if arrows or _tails_free(block, line):
            normal = line.normal(line.length / 2)
            ways = [_Spots(_leader_spots(block, middle, normal, label)) for label in labels]
            for crossings, way in product((0, 2, 4), ways):
                for spot in way.crossing(crossings):
                    yield replace(spot, arrows_inside=arrows)
        return
    for label in labels:
        yield from _in_line(block, line, label)
    for label in labels:
        yield from _beside(block, line, label)


def _in_line(block: Block, line: Track, label: Label) -> Iterator[_Placed]:
    """In a gap of the line, arrows inside or outside; then beyond the line, centred."""
    width, _height = label.size
    middle, tangent = line.length / 2, line.tangent(line.length / 2)
    centre, angle = line.at(middle), upright(tangent)
    left = (line.length - width) / 2 - CLEAR
    if left >= ARROW + 1 and block.free(label, centre, angle):
        yield _Placed(label, centre, angle, arrows_inside=True)
    if left >= 0.5 and block.free(label, centre, angle) and _tails_free(block, line):
        yield _Placed(label, centre, angle, arrows_inside=False)
    inside = line.length >= 3 * ARROW
    normal = line.normal(middle)
    for turned in (angle,) if width <= line.length else (0.0, angle):
        away = _reach(line, label, turned)
        beyond = centre[0] + normal[0] * away, centre[1] + normal[1] * away
        if block.free(label, beyond, turned) and (inside or _tails_free(block, line)):
            yield _Placed(label, beyond, turned, arrows_inside=inside)


def _reach(line: Track, label: Label, angle: float) -> float:
    """Distance from the line's middle to the middle of a label clear of it and its extension lines."""
    _, height = label.size
    shape = LineString(line.points())
    middle, normal = line.at(line.length / 2), line.normal(line.length / 2)
    away = height / 2
    while away < 100:
        centre = middle[0] + normal[0] * away, middle[1] + normal[1] * away
        if label.box(centre, angle, CLEAR).distance(shape) > _PAST:
            break
        away += 0.5
    return away


def _beside(block: Block, line: Track, label: Label) -> Iterator[_Placed]:
    """On the line's extension past either end, arrows pointing in from outside."""
    width, height = label.size
    if not _tails_free(block, line):
        return
    for end, way in ((line.length, 1.0), (0.0, -1.0)):
        tangent = line.tangent(end)
        for angle, along in ((upright(tangent), width), (0.0, _extent(tangent, width, height))):
            centre = line.at(end + way * (ARROW + _TAIL + CLEAR + along / 2))
            if block.free(label, centre, angle):
                yield _Placed(label, centre, angle, arrows_inside=False)


def _extent(direction: Point, width: float, height: float) -> float:
    """How far an upright box of that size reaches along ``direction``, both ways together."""
    dx, dy = abs(direction[0]), abs(direction[1])
    return min(width / dx if dx > 1e-9 else math.inf, height / dy if dy > 1e-9 else math.inf)


class _Spots:
    """Spots for a label on a leader, each looked at when first asked for and remembered."""

    def __init__(self, spots: Iterator[tuple[int, _Placed]]) -> None:
        self._coming = spots
        self._seen: list[tuple[int, _Placed]] = []

    def crossing(self, most: int, reach: float = math.inf) -> Iterator[_Placed]:
        """Those whose leader crosses at most so many lines and goes no farther than ``reach`` mm."""
        yield from (placed for lines, placed in self._seen if lines <= most and placed.reach <= reach)
        if self._seen and self._seen[-1][1].reach > reach:
            return
        for spot in self._coming:
            self._seen.append(spot)
            if spot[1].reach > reach:
                return
            if spot[0] <= most:
                yield spot[1]


def _leader_spots(block: Block, tip: Point, normal: Point, label: Label) -> Iterator[tuple[int, _Placed]]:
    """Upright labels round ``tip``, nearest first, on the free side if possible, never grazing.

    Each comes with the number of lines its leader crosses; it crosses no label.
    """
    ahead = math.atan2(normal[1], normal[0])
    turns = [
        ahead + math.radians(way + 15 * i) for way in (0, 180) for i in (0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5)
    ]
    ways = np.array([(math.cos(turn), math.sin(turn)) for turn in turns])
    width, height = label.size
    for near in range(6, 60, 8):
        leaders = np.concatenate([_leaders(tip, ways, distance) for distance in (near, near + 4)])
        sides = np.sign(leaders[:, 2, 0] - leaders[:, 1, 0])
        centres = leaders[:, 1] + np.outer(sides * (width / 2 + 1.5 + CLEAR), (1.0, 0.0))
        free = block.free_boxes(_boxes(centres, width, height, CLEAR))
        leaders, centres = leaders[free], centres[free]
        lines = _lines(leaders)
        clear = block.all_clear_of_labels(lines)
        clear &= ~shapely.intersects(lines, _boxes(centres, width, height, CLEAR / 2))
        leaders, centres = leaders[clear], centres[clear]
        past_tips = leaders.copy()
        past_tips[:, 0] += np.tile(ways, (2, 1))[free][clear] * 0.5
        crossings = block.all_crossings(_lines(past_tips))
        for crossed, (x, y), leader in zip(crossings, centres.tolist(), leaders.tolist(), strict=True):
            points = tuple((x, y) for x, y in leader)
            yield int(crossed), _Placed(label, (x, y), 0.0, arrows_inside=True, leader=points)


def _leaders(tip: Point, ways: NDArray[np.float64], distance: float) -> NDArray[np.float64]:
    """Tip, elbow and end of the leaders of that length going those ways."""
    elbows = np.array(tip) + ways * distance
    ends = elbows + np.outer(np.where(ways[:, 0] >= 0, 1.5, -1.5), (1.0, 0.0))
    return np.stack([np.broadcast_to(tip, elbows.shape), elbows, ends], axis=1)


def _lines(points: NDArray[np.float64]) -> Shapes:
    return np.asarray(shapely.linestrings(points))


def _boxes(centres: NDArray[np.float64], width: float, height: float, margin: float) -> Shapes:
    """Upright boxes of that size about ``centres``, with a margin."""
    x, y = centres[:, 0], centres[:, 1]
    left, top = -width / 2 - margin, -height / 2 - margin
    return np.asarray(shapely.box(x + left, y + top, x - left, y - top))


def _clear_of_own_lines(track: Track, line: Track, placed: _Placed) -> bool:
    """Whether the label keeps clear of the dimension's own extension lines and arrowheads."""
    box = placed.label.box(placed.centre, placed.angle, CLEAR * 0.9)
    if any(box.intersects(LineString(ends)) for ends in _extensions(track, line)):
        return False
    heads = _arrowheads(line, inside=placed.arrows_inside)
    tails = () if placed.arrows_inside else _tails(line)
    return not any(box.intersects(Polygon(head.points)) for head in heads) and not any(
        box.intersects(LineString(tail)) for tail in tails
    )


def _arrowheads(line: Track, *, inside: bool) -> tuple[Area, Area]:
    first, last = line.tangent(0), line.tangent(line.length)
    way = -1.0 if inside else 1.0
    return (
        arrowhead(line.at(0), (first[0] * way, first[1] * way), ARROW),
        arrowhead(line.at(line.length), (-last[0] * way, -last[1] * way), ARROW),
    )


def _tails(line: Track) -> tuple[tuple[Point, Point], tuple[Point, Point]]:
    return (
        (line.at(-ARROW - _TAIL), line.at(0)),
        (line.at(line.length), line.at(line.length + ARROW + _TAIL)),
    )


def _tails_free(block: Block, line: Track) -> bool:
    shortened = (
        (line.at(-ARROW - _TAIL), line.at(-0.5)),
        (line.at(line.length + 0.5), line.at(line.length + ARROW + _TAIL)),
    )
    if any(block.crosses_outline(LineString(tail)) for tail in _tails(line)):
        return False
    return all(
        block.clear_of_labels(LineString(tail)) and not block.crossings(LineString(tail))
        for tail in shortened
    )


def _dimension_marks(track: Track, line: Track, placed: _Placed) -> Iterator[Mark]:
    for ends in _extensions(track, line):
        yield Line(ends, Pen.EXTENSION)
    box = placed.label.box(placed.centre, placed.angle, CLEAR)
    rest = LineString(line.points()).difference(box)
    for part in getattr(rest, "geoms", [rest]):
        if part.length > 0.05:
            yield Line(tuple((x, y) for x, y, *_ in part.coords), Pen.DIMENSION)
    yield from _arrowheads(line, inside=placed.arrows_inside)
    if not placed.arrows_inside:
        for tail in _tails(line):
            yield Line(tail, Pen.DIMENSION)
    if placed.leader:
        yield Line(placed.leader, Pen.LEADER)
    yield from placed.label.texts(placed.centre, placed.angle)
