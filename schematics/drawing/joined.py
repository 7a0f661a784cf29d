"""The joined garment laid flat, outside up, folded at the sides: its front and its back view.

Lengths are centimetres, x runs to the viewer's right from the middle, y points up. The wearer's
right is on the viewer's right in the back view and on the viewer's left in the front view. The back
is where the body piece has it; the front is turned so that its front edges hang straight down from
y = 0, half the panel's width from the middle.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint
from shapely.affinity import affine_transform, scale
from shapely.ops import substring

from schematics.drawing.surface import Strip, depth_that_fits, strip
from schematics.garment import Edge, Garment, Piece

Vertex: TypeAlias = tuple[float, float]

BODY, PANEL = "body", "centre panel"

_HAIR = 1e-7
"""Places along an outline this near to each other are one, in cm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Marker:
    """An end of an arm run: its number, and the unit ways into the fabric and into the run.

    ``starts`` where the run starts, counting from the wearer's right front edge.
    """

    number: int
    at: Vertex
    inward: Vertex
    along: Vertex
    starts: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamLine:
    """A seam as far as its edges are joined."""

    letter: str
    path: LineString


@dataclass(frozen=True, slots=True, kw_only=True)
class Half:
    """What one view shows of the body's right or left half.

    ``neck`` runs from the middle of the view to ``fold``, which runs from the neck out; ``edges``
    are the other edges, where nothing is joined on but bands; ``creases`` are lines inside.
    """

    left: bool
    shape: Polygon
    neck: LineString
    fold: LineString
    edges: tuple[LineString, ...]
    creases: tuple[LineString, ...]
    seams: tuple[SeamLine, ...]
    band: Strip | None
    markers: tuple[Marker, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinedPanel:
    """The centre panel in its place; ``edges`` are those not joined to anything."""

    piece: Piece
    shape: Polygon
    edges: tuple[LineString, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinedView:
    """One side of the joined garment; ``middle`` runs from neck edge to hem, straight down.

    The neck band is drawn less deep than it is where the neck is too tight to lay it flat.
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


def back_view(garment: Garment) -> JoinedView:
    """The back, with the centre back straight down from where the body piece has its neck."""
    ring = _Ring(garment)
    still = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
    part = _Part(
        garment=garment,
        ring=ring,
        start=0.0,
        end=ring.hem_fold,
        shape=Polygon([*ring.path(0, ring.hem_fold).coords, *ring.path(ring.neck_fold, ring.length).coords]),
        neck=ring.path(ring.neck_fold, ring.top).reverse(),
    )
    right, left = part.half(still, left=False), part.half(still, left=True)
    base = LineString([*left.neck.reverse().coords, *right.neck.coords[1:]])
    return JoinedView(
        name="back view",
        halves=(left, right),
        panel=None,
        neck_band=_neck_band(base, garment),
        middle=LineString([right.neck.coords[0], right.shape.exterior.coords[0]]),
    )


def front_view(garment: Garment) -> JoinedView:
    """The front, with the panel between the front edges, level with them at the neck."""
    ring = _Ring(garment)
    part = _Part(
        garment=garment,
        ring=ring,
        start=ring.hem_fold,
        end=ring.front_hem,
        shape=Polygon(ring.path(ring.hem_fold, ring.neck_fold).coords),
        neck=ring.path(ring.front_neck, ring.neck_fold),
    )
    panel = garment.piece(PANEL)
    width, length = panel.edge("top").length_cm, panel.edge("left side").length_cm
    hang = _hanging(ring.path(ring.front_hem, ring.front_neck), -width / 2)
    right, left = part.half(hang, left=False), part.half(hang, left=True)
    return JoinedView(
        name="front view",
        halves=(right, left),
        panel=_joined_panel(panel, width, length, _joined_cm(garment, panel)),
        neck_band=_neck_band(LineString([*right.neck.reverse().coords, *left.neck.coords]), garment),
        middle=LineString([(0, 0), (0, -length)]),
    )


def _joined_panel(piece: Piece, width: float, length: float, joined: float) -> JoinedPanel:
    half = width / 2
    lower = [(-half, -length), (half, -length)]
    bare = ([(-half, -joined)], [(half, -joined)]) if joined < length - _HAIR else ([], [])
    return JoinedPanel(
        piece=piece,
        shape=Polygon([(-half, 0), *lower, (half, 0)]),
        edges=(LineString([*bare[0], *lower, *bare[1]]),),
    )


def _joined_cm(garment: Garment, panel: Piece) -> float:
    """How far down body and panel meet."""
    seam = next(seam for seam in garment.seams if panel.name in (seam.first_piece, seam.second_piece))
    return min(seam.first.length_cm, seam.second.length_cm)


def _neck_band(base: LineString, garment: Garment) -> Strip:
    depth = depth_that_fits(back_neck(garment), garment.neck.band_depth_cm)
    return strip(base, depth, on_left=True, starts_folded=True, ends_folded=True)


def back_neck(garment: Garment) -> LineString:
    """The whole neck edge of the back, from the viewer's left to the right."""
    ring = _Ring(garment)
    right = ring.path(ring.neck_fold, ring.top).reverse()
    return LineString([*scale(right, xfact=-1, origin=(0, 0)).reverse().coords, *right.coords[1:]])


def _hanging(front: LineString, x: float) -> tuple[float, ...]:
    """The motion that hangs the front edge, given from hem to neck, straight down from ``x``, 0."""
    (foot_x, foot_y), (top_x, top_y) = front.coords[0][:2], front.coords[-1][:2]
    length = math.dist((foot_x, foot_y), (top_x, top_y))
    cos, sin = (top_y - foot_y) / length, (top_x - foot_x) / length
    return cos, -sin, sin, cos, x - (cos * top_x - sin * top_y), -(sin * top_x + cos * top_y)


class _Ring:
    """The outline of the body's right half, counter-clockwise from centre back at the hem.

    Places on it are distances along it; in their order come the side fold's outer end, the front
    edge from hem to neck, the side fold's end at the neck, and centre back at the neck.
    """

    def __init__(self, garment: Garment) -> None:
        body = garment.piece(BODY)
        points = [(x, y) for x, y, *_ in body.outline.exterior.coords[:-1]]
        on_fold = [i for i, (x, _) in enumerate(points) if abs(x) < _HAIR]
        foot = min(on_fold, key=lambda i: points[i][1])
        self._line = LineString([*points[foot:], *points[: foot + 1]])
        self.length: float = self._line.length
        self.top = self.at(points[max(on_fold, key=lambda i: points[i][1])])
        front = body.edge("front").path.coords
        self.front_hem, self.front_neck = sorted(self.at(front[i]) for i in (0, -1))
        self.neck_fold, self.hem_fold = (self.at(garment.side_fold.coords[i]) for i in (0, -1))

    def at(self, point: Sequence[float]) -> float:
        """Where on the outline the point is."""
        place: float = self._line.project(ShapelyPoint(point[0], point[1]))
        return place

    def path(self, start: float, end: float) -> LineString:
        """The outline from one place on to another that comes after it."""
        stretch = substring(self._line, start, end)
        points = [(x, y) for x, y, *_ in stretch.coords]
        kept = [points[0], *(b for a, b in zip(points, points[1:], strict=False) if math.dist(a, b) > _HAIR)]
        return LineString([*kept[: max(1, len(kept) - 1)], points[-1]])

    def span(self, path: LineString) -> tuple[float, float]:
        """Where a stretch of the outline starts and ends."""
        low, high = sorted(self.at(path.coords[i]) for i in (0, -1))
        return low, high


@dataclass(frozen=True, slots=True, kw_only=True)
class _Part:
    """The front or the back of the right half on the body piece; ``start`` to ``end`` are its outer edges."""

    garment: Garment
    ring: _Ring
    start: float
    end: float
    shape: Polygon
    neck: LineString

    def half(self, motion: tuple[float, ...], *, left: bool) -> Half:
        """The part moved into a view, and mirrored there for the wearer's left."""
        a, b, d, e, x, y = motion
        motion = (-a, -b, d, e, -x, y) if left else motion

        def moved(path: LineString) -> LineString:
            return affine_transform(path, motion)

        run = self._run()
        base = moved(self.ring.path(*run)) if run else None
        return Half(
            left=left,
            shape=affine_transform(self.shape, motion),
            neck=moved(self.neck),
            fold=moved(self.garment.side_fold),
            edges=tuple(moved(path) for path in self._edges()),
            creases=tuple(moved(path) for path in self._creases()),
            seams=tuple(
                SeamLine(letter=letter, path=moved(path)) for letter, path in self._seams(left=left)
            ),
            band=self._band(base, run, left=left) if base and run else None,
            markers=tuple(self._markers(base, run, left=left)) if base and run else (),
        )

    def _overlap(self, low: float, high: float) -> tuple[float, float] | None:
        """The stretch of the outline that also belongs to this part."""
        start, end = max(low, self.start), min(high, self._last)
        return (start, end) if end - start > _HAIR else None

    @property
    def _last(self) -> float:
        """Where the edges outside the fold end, the front edge among them."""
        return self.ring.front_neck if self.start else self.end

    def _joins(self) -> Iterator[tuple[str, bool, tuple[float, float]]]:
        """Letter and side of each seam on this part, and the stretch that is joined, up from the hem."""
        for seam in self.garment.seams:
            joined = min(seam.first.length_cm, seam.second.length_cm)
            for name, edge in ((seam.first_piece, seam.first), (seam.second_piece, seam.second)):
                stretch = self._overlap(*self.ring.span(edge.path)) if name == BODY else None
                if stretch:
                    yield seam.letter, seam.left, self._joined(stretch, edge, joined)

    def _joined(self, stretch: tuple[float, float], edge: Edge, joined: float) -> tuple[float, float]:
        """A front edge meets the panel from the neck down; others meet all along."""
        if edge.name == "front":
            return stretch[1] - min(joined, stretch[1] - stretch[0]), stretch[1]
        return stretch

    def _seams(self, *, left: bool) -> Iterator[tuple[str, LineString]]:
        for letter, on_left, stretch in self._joins():
            if on_left is left:
                yield letter, self.ring.path(*stretch)

    def _edges(self) -> Iterator[LineString]:
        """What no seam takes of the edges outside the fold."""
        place = self.start
        for start, end in sorted({stretch for _, _, stretch in self._joins()}):
            if start - place > _HAIR:
                yield self.ring.path(place, start)
            place = end
        if self._last - place > _HAIR:
            yield self.ring.path(place, self._last)

    def _creases(self) -> Iterator[LineString]:
        """Lines that lie wholly inside this part, off its fold."""
        for crease in self.garment.piece(BODY).creases:
            ends = [self.ring.at(crease.path.coords[i]) for i in (0, -1)]
            outer, inner = min(ends), max(ends)
            back = self.start == 0.0
            beyond = inner > self.ring.neck_fold + _HAIR if back else inner < self.ring.neck_fold - _HAIR
            if self.start + _HAIR < outer < self.end - _HAIR and beyond:
                yield crease.path

    def _run(self) -> tuple[float, float] | None:
        path = self.garment.arm.path
        return self._overlap(*self.ring.span(path)) if path is not None else None

    def _band(self, base: LineString, run: tuple[float, float], *, left: bool) -> Strip:
        low, high = self.ring.span(self.garment.arm.path) if self.garment.arm.path else run
        return strip(
            base,
            self.garment.arm.ring.band_depth_cm,
            on_left=left,
            starts_folded=run[0] > low + _HAIR,
            ends_folded=run[1] < high - _HAIR,
        )

    def _markers(self, base: LineString, run: tuple[float, float], *, left: bool) -> Iterator[Marker]:
        """The ends of the run that are on this part; of overlapping runs the far ends are on neither."""
        arm = self.garment.arm
        low, high = self.ring.span(arm.path) if arm.path else run
        points = [(x, y) for x, y, *_ in base.coords]
        ends = []
        if run[0] <= low + _HAIR and arm.back_count >= 0:
            ends.append((arm.last, points[0], points[1], 1))
        if run[1] >= high - _HAIR:
            ends.append((arm.first, points[-1], points[-2], -1))
        for number, at, towards, way in ends:
            own = arm.mirrored(number) if left else number
            size = math.dist(at, towards)
            along = (towards[0] - at[0]) / size, (towards[1] - at[1]) / size
            turn = -way if left else way
            yield Marker(
                number=own,
                at=at,
                inward=(-along[1] * turn, along[0] * turn),
                along=along,
                starts=own == (arm.left[0] if left else arm.first),
            )
