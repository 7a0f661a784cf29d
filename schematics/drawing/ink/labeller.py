"""The one labeller: where a label may go, which place is chosen, and what is reported unplaced.

A label goes to the first of its spots where it touches nothing, else on a leader, a line with an arrow
to what is named. What fits nowhere is not drawn; the block then lists its name in ``unplaced``.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import product

from shapely import LineString

from schematics.document.lettering.text import SMALL, Font
from schematics.drawing.ink.block import CLEAR, Block
from schematics.drawing.ink.leaders import ANY, Spot, Tips, leader_spots
from schematics.drawing.ink.marks import (
    Circle,
    Label,
    Line,
    Mark,
    Point,
    Text,
    along,
    arrowhead,
    between,
    opposite,
)
from schematics.drawing.ink.taken import line_of, shapes_of
from schematics.units import HAIR

ARROW = 2.5
"""Length of an arrowhead in mm."""

_RING = 2.4
_LINES_APART = 0.6
"""Lines of labels keep so many mm from one another."""

_SHORT = 24.0
"""A leader up to this length in mm is easily followed; another tip or label is tried before a longer one."""


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
    return not block.on_labels(shapes_of(lines)).any()


def draw_first(
    block: Block,
    kind: str,
    name: str,
    choices: Iterable[Sequence[Mark]],
    *,
    clear: float = CLEAR,
    apart: float = 0.0,
    optional: bool = False,
) -> bool:
    """Draw the first of ``choices`` that nothing is within ``clear`` mm of, else report it if not optional.

    The choices are what may be drawn, best first; ``apart`` is as in `draw_label`. Returns whether one was.
    """
    marks = next(block.empty(((each, each) for each in choices), clear, apart), None)
    if marks is not None:
        block.add(kind, name, marks)
    elif not optional:
        block.unplaced.append(name)
    return marks is not None


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
    clear: float = CLEAR,
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
        clear: least distance in mm from the words to anything.
        apart: as in `draw_label`.
        optional: whether it may be left out and not reported.

    Returns:
        Whether there was room; if not, nothing is drawn.
    """
    for label, spot in leader_spots(block, tips, labels, crossings, (_SHORT, math.inf)):
        (tip, elbow), (line, *words) = spot.line[:2], spot.marks(label)
        if (apart or clear > CLEAR) and not block.is_empty(words, clear, apart):
            continue
        head = arrowhead(tip, (tip[0] - elbow[0], tip[1] - elbow[1]), ARROW)
        block.add("leader", name, [line, head, *words])
        return True
    if not optional:
        block.unplaced.append(name)
    return False


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
    block: Block,
    kind: str,
    letter: str,
    spots: Iterable[Spot],
    tip: tuple[Point, Point],
    font: Font | None = None,
) -> None:
    """Write a seam's letter in a ring at the first free spot, else on a leader to ``tip``."""
    label = Label((letter,), SMALL, bold=True, font=font)
    draw_label(block, kind, letter, label, spots, ring=True, tips=(tip,))


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
