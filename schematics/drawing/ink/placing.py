"""Placing a label at the first of several spots where it touches nothing."""

from __future__ import annotations

from collections.abc import Iterable

from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Circle, Label, Mark, Point

_RING = 2.4


def place(
    block: Block,
    kind: str,
    name: str,
    label: Label,
    spots: Iterable[tuple[Point, float]],
    *,
    ring: bool = False,
) -> bool:
    """The label at the first of ``spots``, each a middle and an angle, where it is free.

    Returns:
        Whether there was one; if not, nothing is drawn.
    """
    for centre, angle in spots:
        marks: list[Mark] = list(label.texts(centre, angle))
        if ring:
            marks.append(Circle((centre[0], centre[1] - 0.3), _RING))
        if block.is_empty(marks):
            block.add(kind, name, marks)
            return True
    return False


def along(at: Point, way: Point, distance: float) -> Point:
    """The point ``distance`` from ``at`` the ``way`` a unit direction points."""
    return at[0] + way[0] * distance, at[1] + way[1] * distance


def turned(way: Point) -> Point:
    """A direction on the fabric, y up, as one on the sheet, y down."""
    return way[0], -way[1]
