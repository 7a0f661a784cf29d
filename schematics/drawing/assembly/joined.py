"""The joined garment laid flat, outside up, folded at the sides: its front and its back view.

Lengths are centimetres, x runs to the viewer's right from the middle, y points up. The wearer's
right is on the viewer's right in the back view and on the viewer's left in the front view. The back
is where the body piece has it; the front is turned so that its front edges hang straight down from
y = 0, half the panel's width from the middle.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from shapely import LineString, Point, Polygon

from schematics.drawing.assembly.joined_half import Half, Motion, Part, front_part, joined_cm
from schematics.drawing.ink.surface import Strip, depth_that_fits, has_rim, strip
from schematics.drawing.pieces.body_outline import BODY, FRONT, PANEL, BodyOutline
from schematics.garment.garment import Garment, Piece
from schematics.units import NEAR

_STILL: Motion = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinedPanel:
    """The centre panel in its place.

    ``edges`` are its top, where the neck band is worked on, and what is not joined to anything: the
    lower edge and what hangs over. It is drawn ``eased`` times as long as it is.
    """

    piece: Piece
    eased: float
    shape: Polygon
    edges: tuple[LineString, LineString]

    @property
    def tapers(self) -> bool:
        """Whether its sides slope."""
        return len({x for x, _ in self.shape.exterior.coords}) > 2


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinedView:
    """One side of the joined garment, the half on the viewer's left first.

    ``middle`` runs straight down from neck edge to hem. The neck band is drawn less deep than it is
    where the neck is too tight to lay it flat.
    """

    name: str
    halves: tuple[Half, Half]
    panel: JoinedPanel | None
    neck_band: Strip
    middle: LineString

    @property
    def shapes(self) -> tuple[Polygon, ...]:
        """The fabric shown, without bands."""
        return (*(half.shape for half in self.halves), *([self.panel.shape] if self.panel else []))


def joined_views(garment: Garment) -> tuple[JoinedView, JoinedView] | None:
    """Front and back view; None where they would lie over themselves.

    A quarter of the body does from four circles on, a neck edge that winds round a small neck sooner.
    """
    outline = BodyOutline(garment)
    panel = _panel(garment)
    front, back = _front(garment, outline, panel), _back(garment, outline)
    if not all(half.shape.is_valid for half in (*front, *back)):
        return None
    bases = [neck_edge(halves) for halves in (front, back)]
    depth = depth_that_fits(bases, garment.neck.band_depth_cm)
    if not all(has_rim(base, depth) for base in bases):
        return None
    bands = [strip(base, depth, on_left=True, starts_folded=True, ends_folded=True) for base in bases]
    centre_back = back[0].neck.coords[0]
    return (
        JoinedView(
            name="front view",
            halves=front,
            panel=panel,
            neck_band=bands[0],
            middle=LineString([(0, 0), (0, panel.shape.bounds[1])]),
        ),
        JoinedView(
            name="back view",
            halves=back,
            panel=None,
            neck_band=bands[1],
            middle=LineString([centre_back, (0, centre_back[1] - garment.drop_cm)]),
        ),
    )


def _front(garment: Garment, outline: BodyOutline, panel: JoinedPanel) -> tuple[Half, Half]:
    """The halves of the front, level with the panel at the neck."""
    part = front_part(garment, outline)
    side = panel.piece.edge("left side").path.coords
    (top_x, top_y), (foot_x, foot_y) = side[0], side[-1]
    high = math.dist(side[0], side[-1])
    up = (top_x - foot_x) / high, (top_y - foot_y) / high
    motion = hanging(outline.path(outline.front_hem, outline.front_neck), top_x, up)
    return part.half(motion, left=False), part.half(motion, left=True)


def _back(garment: Garment, outline: BodyOutline) -> tuple[Half, Half]:
    """The halves of the back, where the body piece has them."""
    outer, inner = outline.path(0, outline.side), outline.path(outline.shoulder, outline.length)
    part = Part(
        garment=garment,
        outline=outline,
        start=0.0,
        end=outline.side,
        shape=Polygon([*outer.coords, *inner.coords]),
        neck=outline.path(outline.shoulder, outline.nape).reverse(),
    )
    return part.half(_STILL, left=True), part.half(_STILL, left=False)


def _panel(garment: Garment) -> JoinedPanel:
    piece, front = garment.piece(PANEL), garment.piece(BODY).edge(FRONT).length_cm
    length = piece.edge("left side").length_cm
    eased = front / length if joined_cm(front, length) > min(front, length) + NEAR else 1.0
    outline = [(x, (y - piece.outline.bounds[3]) * eased) for x, y in piece.edge("left side").path.coords]
    left = LineString(outline)
    length = left.length
    free = outline[-1:]
    if eased == 1.0 and front < length - NEAR:
        end = left.interpolate(front)
        free = [(end.x, end.y), *(each for each in outline if left.project(Point(each)) > front)]
    return JoinedPanel(
        piece=piece,
        eased=eased,
        shape=Polygon([*outline, *_mirrored(outline)]),
        edges=(
            LineString([outline[0], *_mirrored(outline[:1])]),
            LineString([*free, *_mirrored(free)]),
        ),
    )


def _mirrored(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """The points on the other side of the middle, last first."""
    return [(-x, y) for x, y in reversed(points)]


def neck_edge(halves: tuple[Half, Half]) -> LineString:
    """The whole neck edge of a view, the panel's top included, from the viewer's left to the right."""
    points = [*halves[0].neck.reverse().coords, *halves[1].neck.coords]
    apart = [after for before, after in itertools.pairwise(points) if math.dist(before, after) > NEAR]
    return LineString([points[0], *apart])


def hanging(front: LineString, x: float, up: tuple[float, float]) -> Motion:
    """The motion that hangs the front edge, given from hem to neck, from ``x``, 0 along a side.

    That side runs ``up`` so far across and up, 1 in all.
    """
    (foot_x, foot_y), (top_x, top_y) = front.coords[0][:2], front.coords[-1][:2]
    length = math.dist((foot_x, foot_y), (top_x, top_y))
    across, high = top_x - foot_x, top_y - foot_y
    cos, sin = (high * up[1] + across * up[0]) / length, (across * up[1] - high * up[0]) / length
    return cos, -sin, sin, cos, x - (cos * top_x - sin * top_y), -(sin * top_x + cos * top_y)
