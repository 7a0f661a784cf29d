"""The edges of a piece that are joined to another: dashed just inside, as seams are in the joined garment."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from shapely import LineString
from shapely.ops import substring

from schematics.checks.seams import meets
from schematics.design.limits import Limits
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Line, Pen, Point, unit
from schematics.drawing.ink.scale import to_mm
from schematics.drawing.pieces.body_outline import PANEL
from schematics.drawing.pieces.view import View, mirrored
from schematics.garment.garment import Garment, Piece
from schematics.units import NEAR

_DOWN_FROM_NECK = "left side"
"""The one edge of those joined to or of the panel that runs from the neck down."""

_INSIDE = 1.0
"""From the edge to its dashes, in mm."""

NARROWEST, NARROWEST_ALONE = 7.0, 4.0
"""A piece that is narrower, in mm, has no room for dashes: beside letters of its seams, or alone."""


@dataclass(frozen=True, slots=True)
class JoinedEdge:
    """An edge by its seam's letter and its points on the sheet; ``inward`` is the direction into the fabric.

    So many mm of it are ``joined_mm``, the first of them or, if not ``from_start``, the last.
    """

    letter: str
    points: tuple[Point, ...]
    inward: Point
    joined_mm: float
    from_start: bool


def joined_edges(piece: Piece, garment: Garment, view: View, limits: Limits) -> Iterator[JoinedEdge]:
    """The edges of the piece that are seamed: whole ones where the two meet by the ``limits``.

    Else, of body and panel, the longer is free at the hem.
    """
    for seam in garment.seams:
        is_free = PANEL in (seam.first_piece, seam.second_piece) and not meets(seam, limits)
        joined = min(seam.first.length_cm, seam.second.length_cm) if is_free else math.inf
        for name, edge in ((seam.first_piece, seam.first), (seam.second_piece, seam.second)):
            on_left = piece.on_fold and seam.left
            if name != piece.name or (on_left and view.half_only):
                continue
            points = view.line(edge.path)
            run = unit(points[0], points[-1])
            inward = run[1], -run[0]
            if on_left:
                points, inward = tuple(map(mirrored, points)), mirrored(inward)
            length = to_mm(min(joined, edge.length_cm), view.scale)
            yield JoinedEdge(seam.letter, points, inward, length, edge.name == _DOWN_FROM_NECK)


def draw_joins(
    block: Block, piece: Piece, garment: Garment, view: View, limits: Limits, narrowest: float = NARROWEST
) -> None:
    """The dashes of every joined edge of a piece that is no narrower, in mm."""
    x0, y0, x1, y1 = piece.outline.bounds
    if to_mm(min(x1 - x0, y1 - y0), view.scale) < narrowest:
        return
    for edge in joined_edges(piece, garment, view, limits):
        dx, dy = edge.inward[0] * _INSIDE, edge.inward[1] * _INSIDE
        line = LineString([(x + dx, y + dy) for x, y in edge.points])
        shown = min(edge.joined_mm, line.length) - 2 * _INSIDE
        if shown <= NEAR:
            continue
        start = _INSIDE if edge.from_start else line.length - _INSIDE - shown
        dashes = substring(line, start, start + shown)
        block.add(
            "joined", f"{piece.name} {edge.letter}", [Line(tuple((x, y) for x, y in dashes.coords), Pen.SEAM)]
        )
