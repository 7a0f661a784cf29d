"""Finding room for a label: at the first of its spots where it touches nothing, else on a leader."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from shapely import LineString

from schematics.drawing.ink.block import Block
from schematics.drawing.ink.dimension import draw_leader
from schematics.drawing.ink.marks import Circle, Label, Line, Mark, Pen, Point

_RING = 2.4
_LINES_APART = 0.6
"""Lines of labels keep so many mm from one another."""


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a label may stand: its middle, its angle, and the ``line`` drawn to it, if any."""

    centre: Point
    angle: float = 0.0
    line: tuple[Point, Point] | None = None


def place(
    block: Block,
    kind: str,
    name: str,
    label: Label,
    spots: Iterable[Spot],
    *,
    ring: bool = False,
    apart: float = 0.0,
    lines: Sequence[LineString] = (),
    tips: Sequence[tuple[Point, Point]] = (),
) -> Spot | None:
    """Draw the label at the first of ``spots`` where it is free.

    Args:
        block: where it is drawn.
        kind: the group's kind.
        name: the group's name.
        label: what is written.
        spots: best first.
        ring: whether a ring goes round it.
        apart: least distance in mm from a label to its left or right.
        lines: what a spot's own line keeps away from.
        tips: where an arrow to it may end, and the way off the fabric there, if it can stand on a leader.

    Returns:
        The spot; None where there is none. Then it is on a leader, or the block is told where there is no
        room for that; without ``tips`` nothing is drawn.
    """
    for spot in spots:
        words: list[Mark] = list(label.texts(spot.centre, spot.angle))
        if ring:
            words.append(Circle((spot.centre[0], spot.centre[1] - 0.3), _RING))
        if block.is_empty(words, apart=apart) and _line_clear(block, spot, lines):
            drawn = [Line(spot.line, Pen.LEADER)] if spot.line else []
            block.add(kind, name, [*drawn, *words])
            return spot
    if tips:
        draw_leader(block, name, tips, (label,))
    return None


def _line_clear(block: Block, spot: Spot, lines: Sequence[LineString]) -> bool:
    if spot.line is None:
        return True
    line = LineString(spot.line)
    return block.clear_of_labels(line) and all(line.distance(each) > _LINES_APART for each in lines)


def beside_point(
    at: Point, inward: Point, run: Point, away: Sequence[float], aside: Sequence[float]
) -> Iterator[Spot]:
    """Spots so far ``inward`` of a point, and so far along the ``run`` there; nearest to it first."""
    for inside in away:
        for along_it in aside:
            yield Spot(along(along(at, inward, inside), run, along_it))


def beside_edge(
    start: Point, end: Point, inward: Point, shares: Sequence[float], away: Sequence[float]
) -> Iterator[tuple[Spot, float]]:
    """Spots beside those shares of a straight edge, so far ``inward`` of it, and how far each is."""
    for share in shares:
        on_edge = start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share
        for distance in away:
            yield Spot(along(on_edge, inward, distance)), distance


def along(at: Point, way: Point, distance: float) -> Point:
    """The point ``distance`` from ``at`` the ``way`` a unit direction points."""
    return at[0] + way[0] * distance, at[1] + way[1] * distance


def turned(way: Point) -> Point:
    """A direction on the fabric, y up, as one on the sheet, y down."""
    return way[0], -way[1]
