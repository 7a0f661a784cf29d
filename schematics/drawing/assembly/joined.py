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
from functools import lru_cache

from shapely import LineString, MultiPolygon, Point, Polygon

from schematics.checks.seams import meets
from schematics.design.limits import Limits
from schematics.drawing.assembly.joined_half import Half, Motion, Part, Vertex, front_part
from schematics.drawing.ink.surface import Strip, depth_that_fits, has_rim, strip
from schematics.drawing.pieces.body_outline import BODY, FRONT, PANEL, BodyOutline
from schematics.garment.garment import Garment, Piece
from schematics.units import NEAR

_HALVINGS = 50
"""How the height is found at which a bent side is as long as the edge it is joined to."""

FRONT_VIEW, BACK_VIEW = "front view", "back view"

_STILL: Motion = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinedPanel:
    """The centre panel in its place.

    ``edges`` are its top, where the neck band is worked on, and what is not joined to anything: the
    lower edge and what hangs over. It is drawn ``eased`` times as high as it is; its ``side`` runs from the
    neck down.
    """

    piece: Piece
    eased: float
    side: LineString
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
    def other(self) -> str:
        """The name of the other side's view."""
        return BACK_VIEW if self.name == FRONT_VIEW else FRONT_VIEW

    @property
    def shapes(self) -> tuple[Polygon, ...]:
        """The fabric shown, without bands."""
        return (*(half.shape for half in self.halves), *([self.panel.shape] if self.panel else []))

    @property
    def width_cm(self) -> float:
        """The widest the fabric lies, arm bands left out."""
        x0, _, x1, _ = MultiPolygon(self.shapes).bounds
        return float(x1 - x0)


@lru_cache(maxsize=32)
def joined_views(garment: Garment, limits: Limits) -> tuple[JoinedView, JoinedView] | None:
    """Front and back view; None where they would lie over themselves.

    A quarter of the body does from four circles on, a neck edge that winds round a small neck sooner.
    Where panel and front edges can be seamed by the ``limits`` they end level at the hem: the panel is drawn
    as long as they are.
    """
    panel = _panel(garment, limits)
    views = _views(garment, panel, BodyOutline(garment, panel.side))
    if views and equally_wide(views):
        return views
    return _views(garment, panel, BodyOutline(garment, panel.side, halfway=True))


def equally_wide(views: tuple[JoinedView, JoinedView]) -> bool:
    """Whether front and back are, to a millionth."""
    return math.isclose(*(view.width_cm for view in views), rel_tol=NEAR)


def _views(
    garment: Garment, panel: JoinedPanel, outline: BodyOutline
) -> tuple[JoinedView, JoinedView] | None:
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
            name=FRONT_VIEW,
            halves=front,
            panel=panel,
            neck_band=bands[0],
            middle=LineString([(0, 0), (0, panel.shape.bounds[1])]),
        ),
        JoinedView(
            name=BACK_VIEW,
            halves=back,
            panel=None,
            neck_band=bands[1],
            middle=LineString([centre_back, (0, centre_back[1] - garment.drop_cm)]),
        ),
    )


def _front(garment: Garment, outline: BodyOutline, panel: JoinedPanel) -> tuple[Half, Half]:
    """The halves of the front, level with the panel at the neck."""
    part = front_part(garment, outline, panel.side.length)
    side = panel.side.coords
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


def _panel(garment: Garment, limits: Limits) -> JoinedPanel:
    piece, front = garment.piece(PANEL), garment.piece(BODY).edge(FRONT).length_cm
    flat = [(x, y - piece.outline.bounds[3]) for x, y in piece.edge("left side").path.coords]
    seams = (seam for seam in garment.seams if PANEL in (seam.first_piece, seam.second_piece))
    eased = _eased(flat, front) if all(meets(seam, limits) for seam in seams) else 1.0
    outline = _raised(flat, eased)
    left = LineString(outline)
    free = outline[-1:]
    if front < left.length - NEAR:
        end = left.interpolate(front)
        free = [(end.x, end.y), *(each for each in outline if left.project(Point(each)) > front)]
    return JoinedPanel(
        piece=piece,
        eased=eased,
        side=left,
        shape=Polygon([*outline, *_mirrored(outline)]),
        edges=(
            LineString([outline[0], *_mirrored(outline[:1])]),
            LineString([*free, *_mirrored(free)]),
        ),
    )


def _eased(side: Sequence[Vertex], length_cm: float) -> float:
    """How many times as high a side is to be that it is so long; 1 if it slopes too much for that."""
    low, high = 0.0, length_cm / sum(abs(y1 - y0) for (_, y0), (_, y1) in itertools.pairwise(side))
    if LineString(_raised(side, low)).length >= length_cm:
        return 1.0
    if len({x for x, _ in side}) == 1:
        return high
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if LineString(_raised(side, middle)).length < length_cm else (low, middle)
    return high


def _raised(side: Sequence[Vertex], times: float) -> list[Vertex]:
    return [(x, y * times) for x, y in side]


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
