"""The one labeller: where a label may go, which place is chosen, and what is reported unplaced.

A label goes to the first of its spots where it touches nothing, else on a leader, a line with an arrow
to what is named. What fits nowhere is not drawn; the block then lists its name in ``unplaced``.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import product

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LineString

from schematics.document.lettering.text import SMALL
from schematics.drawing.ink.block import CLEAR, Block, Sides
from schematics.drawing.ink.marks import (
    Circle,
    Label,
    Line,
    Mark,
    Pen,
    Point,
    Text,
    along,
    arrowhead,
    between,
    opposite,
)
from schematics.drawing.ink.taken import Shapes, line_of, shapes_of
from schematics.units import HAIR

ARROW = 2.5
"""Length of an arrowhead in mm."""

_RING = 2.4
_LINES_APART = 0.6
"""Lines of labels keep so many mm from one another."""

_REACH, _HURRIED_REACH = 60, 46
"""Leaders are shorter than this, in mm."""

_NEAREST, _NEXT, _AT_ONCE = 6, 4, 5
"""The shortest leader, from each to the next longer one, in mm, and how many lengths are tried at once."""

_SEARCHES = 8
"""Places are looked for alone for the first of several tips and labels, for so many others at once."""

_LANDING = 1.5
"""Length in mm of the level end of a leader, next to the label."""

_STEEP = math.cos(math.radians(50))
"""Leaders steeper than that may land to either side."""

_ON_PIECE, _OUTLINE = 6, 30
"""What a label on the piece, if hurried, and a leader across an outline are as bad as, in lines crossed."""

FEW, MANY, ANY = (0, 2, 4), (0, 2, 4, 16), (0, 2, 4, 16, 50)
"""How many lines a leader may cross, each tried in turn."""

_SHORT = 24.0
"""A leader up to this length in mm is easily followed; another tip or label is tried before a longer one."""

_TURNS = tuple(
    math.radians(back + 15 * step) for back in (0, 180) for step in (0, 1, -1, 2, -2, 3, -3, 4, -4)
)
"""Directions of a leader, from straight off the fabric, best first."""

Tips = Sequence[tuple[Point, Point]]
"""Points where an arrow may end, best first, each with the direction away from the fabric there."""


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a label may go: its middle, its angle in degrees, and the ``line`` drawn to it, if any."""

    centre: Point
    angle: float = 0.0
    line: tuple[Point, ...] = ()

    @property
    def reach(self) -> float:
        """How far the line goes from its first point, in mm; 0 without one."""
        return math.dist(*self.line[:2]) if self.line else 0.0

    def marks(self, label: Label) -> list[Mark]:
        """The line to the label, and its words."""
        line = [Line(self.line, Pen.LEADER)] if self.line else []
        return [*line, *label.texts(self.centre, self.angle)]


def is_free(block: Block, marks: Sequence[Mark], apart: float = 0.0) -> bool:
    """Whether the words and rings among ``marks`` touch nothing and its lines run over no other words.

    No label is within ``apart`` mm to the left or right of the words.
    """
    return block.is_empty(_words(marks), apart=apart) and _lines_clear(block, marks)


def _words(marks: Iterable[Mark]) -> list[Mark]:
    """The words and rings."""
    return [mark for mark in marks if isinstance(mark, (Text, Circle))]


def _lines_clear(block: Block, marks: Iterable[Mark]) -> bool:
    """Whether lines among the marks run over no words that are there."""
    lines = [line_of(mark.points) for mark in marks if isinstance(mark, Line)]
    return bool(block.all_clear_of_labels(shapes_of(lines)).all())


def draw_first(
    block: Block,
    kind: str,
    name: str,
    choices: Iterable[Sequence[Mark]],
    *,
    clear: float = CLEAR,
    apart: float = 0.0,
    optional: bool = False,
) -> None:
    """Draw the first of ``choices`` that nothing is within ``clear`` mm of, else report it if not optional.

    The choices are what may be drawn, best first; ``apart`` is as in `draw_label`.
    """
    marks = next(block.empty(((each, each) for each in choices), clear, apart), None)
    if marks is not None:
        block.add(kind, name, marks)
    elif not optional:
        block.unplaced.append(name)


def draw_label(
    block: Block,
    kind: str,
    name: str,
    label: Label,
    spots: Iterable[Spot],
    *,
    ring: bool = False,
    beside: Sequence[Mark] = (),
    apart: float = 0.0,
    lines: Sequence[LineString] = (),
    tips: Tips = (),
    optional: bool = False,
) -> Spot | None:
    """Draw the label at the first of ``spots`` where it is free, else on a leader, else report it.

    Args:
        block: where it is drawn.
        kind: the group's kind.
        name: the group's name.
        label: what is written.
        spots: best first.
        ring: whether a ring goes round it.
        beside: marks of the same group, drawn with the label wherever it goes.
        apart: least distance in mm from a label to its left or right.
        lines: what a spot's own line keeps away from.
        tips: where the arrow of a leader may end; without them there is no leader.
        optional: whether it may be left out and not reported.

    Returns:
        The spot; None where the label is on a leader or unplaced.
    """

    def choices() -> Iterator[tuple[tuple[Spot, list[Mark]], list[Mark]]]:
        for spot in spots:
            marks = [*beside, *spot.marks(label)]
            if ring:
                marks.append(Circle((spot.centre[0], spot.centre[1] - 0.3), _RING))
            meets = spot.line and any(line_of(spot.line).distance(line) <= _LINES_APART for line in lines)
            if not meets:
                yield (spot, marks), _words(marks)

    for spot, marks in block.empty(choices(), apart=apart):
        if _lines_clear(block, marks):
            block.add(kind, name, marks)
            return spot
    on_leader = bool(tips) and draw_leader(block, name, tips, (label,), apart=apart, optional=True)
    if not on_leader and not optional:
        block.unplaced.append(name)
    return None


def draw_leader(
    block: Block,
    name: str,
    tips: Tips,
    labels: Sequence[Label],
    *,
    crossings: Sequence[int] = ANY,
    apart: float = 0.0,
    optional: bool = False,
) -> bool:
    """Draw the first of ``labels`` that has room with an arrow to one of ``tips``, else report it.

    Args:
        block: where it is drawn.
        name: the group's name.
        tips: where the arrow may end.
        labels: the same words set in several shapes, best first.
        crossings: how many lines the leader may cross, each tried in turn.
        apart: as in `draw_label`.
        optional: whether it may be left out and not reported.

    Returns:
        Whether there was room; if not, nothing is drawn.
    """
    for label, spot in leader_spots(block, tips, labels, crossings, (_SHORT, math.inf)):
        (tip, elbow), (line, *words) = spot.line[:2], spot.marks(label)
        if apart and not block.is_empty(words, apart=apart):
            continue
        head = arrowhead(tip, (tip[0] - elbow[0], tip[1] - elbow[1]), ARROW)
        block.add("leader", name, [line, head, *words])
        return True
    if not optional:
        block.unplaced.append(name)
    return False


def leader_spots(
    block: Block,
    tips: Tips,
    labels: Sequence[Label],
    crossings: Sequence[int],
    reaches: Sequence[float] = (math.inf,),
) -> Iterator[tuple[Label, Spot]]:
    """Free spots on leaders: those that cross few lines first, then the short ones, then as listed."""
    searches = _Searches(block, [(*tip, label) for tip in tips for label in labels])
    for most, reach, (number, (_, _, label)) in product(crossings, reaches, enumerate(searches.asked)):
        for spot in searches.crossing(number, most, reach):
            yield label, spot


_Asked = tuple[Point, Point, Label]
"""A tip, the direction away from the fabric there, and what is to be written."""

_Found = list[tuple[int, Spot]]
"""Spots on leaders to a tip, each with the lines that its leader crosses."""


class _Searches:
    """Spots for each of what is ``asked``, looked for when first asked for."""

    def __init__(self, block: Block, asked: Sequence[_Asked]) -> None:
        self.asked = asked
        self._block = block
        self._lengths = range(_NEAREST, _HURRIED_REACH if block.hurried else _REACH, _NEXT)
        self._found: dict[tuple[int, int], _Found] = {}

    def crossing(self, number: int, most: int, reach: float) -> Iterator[Spot]:
        """Those whose leader crosses at most so many lines and goes no farther than ``reach`` mm."""
        for first in range(0, len(self._lengths), _AT_ONCE):
            band = self._lengths[first : first + _AT_ONCE]
            if band[0] > reach:
                return
            if (number, first) not in self._found:
                numbers = range(number, min(number + _SEARCHES if number else 1, len(self.asked)))
                found = _round_tips(self._block, [self.asked[each] for each in numbers], tuple(band))
                self._found.update(((each, first), spots) for each, spots in zip(numbers, found, strict=True))
            spots = self._found[number, first]
            yield from (spot for lines, spot in spots if lines <= most and spot.reach <= reach)


def _round_tips(block: Block, asked: Sequence[_Asked], lengths: tuple[int, ...]) -> list[_Found]:
    """Upright labels on leaders of those lengths, on the free side of a tip if possible, never grazing.

    Their leaders cross no label, and no line that they could be taken to belong to.
    """
    round_each = [_leaders(tip, math.atan2(away[1], away[0]), lengths) for tip, away, _ in asked]
    directions, leaders = (np.concatenate(each) for each in zip(*round_each, strict=True))
    owner = np.repeat(np.arange(len(asked)), [len(each) for _, each in round_each])
    width, height = np.array([label.size for _, _, label in asked])[owner].T
    sides = np.sign(leaders[:, 2, 0] - leaders[:, 1, 0])
    centres = leaders[:, 1].copy()
    centres[:, 0] += sides * (width / 2 + _LANDING + CLEAR)
    free = block.free_places(_box_sides(centres, width, height, CLEAR))
    if len(free):
        lines = _lines(leaders[free])
        clear = block.all_clear_of_labels(lines)
        free, lines = free[clear], lines[clear]
        own = shapely.box(*_box_sides(centres[free], width[free], height[free], CLEAR / 2))
        clear = ~shapely.intersects(lines, own)
        free, lines = free[clear], lines[clear]
        free = free[~block.misleads(lines)]
    found: list[_Found] = [[] for _ in asked]
    if len(free):
        leaders = leaders[free]
        past_tips = leaders.copy()
        past_tips[:, 0] += directions[free] * 0.5
        beyond = _lines(past_tips)
        crossed = block.all_crossings(beyond) + _OUTLINE * block.outlines_crossed(beyond)
        crossings = (crossed + _ON_PIECE * block.on_pieces(centres[free]) * block.hurried).tolist()
        for number, crossed, (x, y), leader in zip(
            owner[free].tolist(), crossings, centres[free].tolist(), leaders.tolist(), strict=True
        ):
            found[number].append((crossed, Spot((x, y), line=tuple((x, y) for x, y in leader))))
    return found


@lru_cache(maxsize=16)
def _leaders(
    tip: Point, ahead: float, lengths: tuple[int, ...]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Direction, then tip, elbow and end of leaders of those lengths; steep ones land to both sides."""
    turns = np.array([(math.cos(ahead + turn), math.sin(ahead + turn)) for turn in _TURNS])
    onward = np.where(turns[:, 0] >= 0, _LANDING, -_LANDING)
    is_steep = np.abs(turns[:, 0]) < _STEEP
    turns, landings = np.concatenate([turns, turns[is_steep]]), np.concatenate([onward, -onward[is_steep]])
    directions = np.tile(turns, (len(lengths), 1))
    points = np.empty((len(directions), 3, 2))
    points[:, 0] = tip
    points[:, 1] = tip + directions * np.repeat(lengths, len(turns))[:, None]
    points[:, 2] = points[:, 1]
    points[:, 2, 0] += np.tile(landings, len(lengths))
    return directions, points


def _lines(points: NDArray[np.float64]) -> Shapes:
    return np.asarray(shapely.linestrings(points))


def _box_sides(
    centres: NDArray[np.float64], width: NDArray[np.float64], height: NDArray[np.float64], margin: float
) -> Sides:
    """Left, top, right and bottom of upright boxes of those sizes about ``centres``, with a margin."""
    x, y = centres[:, 0], centres[:, 1]
    left, top = -width / 2 - margin, -height / 2 - margin
    return x + left, y + top, x - left, y - top


def off_lines(block: Block, tips: Tips, distance: float) -> Tips:
    """The tips within ``distance`` mm of which is no line an arrow could be meant for; if none, all."""
    beside = block.beside_a_line([at for at, _ in tips], distance)
    return [tip for tip, line in zip(tips, beside, strict=True) if not line] or tips


def number_marker(
    block: Block,
    number: str,
    at: Point,
    inward: Point,
    run: Point,
    away: Sequence[float],
    aside: Sequence[float],
    apart: float = 0.0,
) -> None:
    """Write a marker's number inside the fabric, near the marker.

    Args:
        block: where it is drawn.
        number: the number.
        at: the marker.
        inward: unit direction into the fabric there.
        run: unit direction along the run of stitches there.
        away: distances to try, in mm, ``inward`` of the marker.
        aside: distances to try, in mm, along the ``run``.
        apart: as in `draw_label`.
    """
    spots = (
        Spot(along(along(at, inward, inside), run, sideways)) for inside, sideways in product(away, aside)
    )
    tips = ((at, opposite(inward)),)
    draw_label(block, "marker-number", number, Label((number,)), spots, tips=tips, apart=apart)


def letter_seam(
    block: Block, kind: str, letter: str, spots: Iterable[Spot], tip: tuple[Point, Point]
) -> None:
    """Write a seam's letter in a ring at the first free spot, else on a leader to ``tip``."""
    draw_label(block, kind, letter, Label((letter,), SMALL, bold=True), spots, ring=True, tips=(tip,))


def beside_edge(
    start: Point, end: Point, inward: Point, shares: Sequence[float], away: Sequence[float]
) -> Iterator[tuple[Spot, float]]:
    """Spots beside those shares of a straight edge, so far ``inward`` of it, and how far each is."""
    for share in shares:
        for distance in away:
            yield Spot(along(between(start, end, share), inward, distance)), distance


def turned(direction: Point) -> Point:
    """A direction on the fabric, y up, as one on the sheet, y down."""
    return direction[0], -direction[1]


def upright(tangent: Point) -> float:
    """The angle in degrees at which text along ``tangent`` reads from the bottom or the right edge."""
    angle = math.degrees(math.atan2(tangent[1], tangent[0]))
    while angle >= 90 - HAIR:
        angle -= 180
    while angle < -90 - HAIR:
        angle += 180
    return angle
