"""What a view of the joined garment shows of the body's right or left half, in centimetres."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import compress
from typing import TypeAlias

from shapely import LineString, Polygon, contains_xy
from shapely.affinity import affine_transform

from schematics.drawing.ink.marks import between, unit
from schematics.drawing.ink.surface import Strip, strip
from schematics.drawing.pieces.body_outline import BODY, FRONT, BodyOutline
from schematics.drawing.pieces.view import line_parts
from schematics.garment.garment import Garment, Increase
from schematics.units import NEAR

Vertex: TypeAlias = tuple[float, float]
Motion: TypeAlias = tuple[float, float, float, float, float, float]
"""x to a·x + b·y + x0, y to d·x + e·y + y0, given as a, b, d, e, x0, y0."""


_EDGE_ON = 0.1
"""A view with less of an arm run shows no band: a sliver reads as a stick, and the other view shows it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Marker:
    """An end of an arm run: its number, and the unit directions into the fabric and into the run.

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
    """The wearer's right half of a view, or the left one.

    ``neck`` runs from the middle of the view to ``fold``, which runs from the neck out; ``edges``
    are the other edges, those that no seam takes; ``creases`` are lines inside. ``increases`` lie as they are
    seen, none of them to be mirrored.
    """

    left: bool
    shape: Polygon
    neck: LineString
    fold: LineString
    edges: tuple[LineString, ...]
    creases: tuple[LineString, ...]
    increases: tuple[Increase, ...]
    seams: tuple[SeamLine, ...]
    band: Strip | None
    markers: tuple[Marker, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """The back or the front of the right half as it lies on the body piece.

    Its edges outside the fold go from place ``start`` to ``end`` of the outline, the front edge
    among them; ``shape`` lies between them and the fold, ``neck`` runs to the fold. The panel is drawn
    ``panel_cm`` long at its sides: so much of the front edge is joined to it, from the neck down.
    """

    garment: Garment
    outline: BodyOutline
    start: float
    end: float
    shape: Polygon
    neck: LineString
    panel_cm: float = math.inf

    def half(self, motion: Motion, *, left: bool) -> Half:
        """The part moved into a view, and mirrored there for the wearer's left."""
        a, b, d, e, x, y = motion
        placing = (-a, -b, d, e, -x, y) if left else motion

        def moved(path: LineString) -> LineString:
            return affine_transform(path, placing)

        run = self._run()
        base = moved(self.outline.path(*run)) if run else None
        return Half(
            left=left,
            shape=affine_transform(self.shape, placing),
            neck=moved(self.neck),
            fold=moved(self.outline.fold),
            edges=tuple(moved(path) for path in self._edges()),
            creases=tuple(moved(path) for path in self._creases()),
            increases=tuple(_placed(each, placing) for each in self._increases(left=left)),
            seams=tuple(self._seam_lines(placing, left=left)),
            band=self._band(base, run, left=left) if base and run and not self._is_edge_on(run) else None,
            markers=tuple(self._markers(base, run, left=left)) if base and run else (),
        )

    def _overlap(self, span: tuple[float, float]) -> tuple[float, float] | None:
        """The stretch of the outline that also belongs to this part."""
        start, end = max(span[0], self.start), min(span[1], self.end)
        return (start, end) if end - start > NEAR else None

    def _joins(self) -> Iterator[tuple[str, bool, tuple[float, float]]]:
        """Letter and side of each seam on this part, and the stretch that is joined."""
        for seam in self.garment.seams:
            for name, edge in ((seam.first_piece, seam.first), (seam.second_piece, seam.second)):
                stretch = self._overlap(self.outline.span(edge)) if name == BODY else None
                if stretch:
                    start, end = stretch
                    joined = max(start, end - self.panel_cm) if edge.name == FRONT else start
                    yield seam.letter, seam.left, (joined, end)

    def _seam_lines(self, motion: Motion, *, left: bool) -> Iterator[SeamLine]:
        for letter, on_left, stretch in self._joins():
            if on_left is left:
                yield SeamLine(letter=letter, path=affine_transform(self.outline.path(*stretch), motion))

    def _edges(self) -> Iterator[LineString]:
        """What no seam takes of the edges outside the fold."""
        place = self.start
        for start, end in sorted({stretch for _, _, stretch in self._joins()}):
            if start - place > NEAR:
                yield self.outline.path(place, start)
            place = end
        if self.end - place > NEAR:
            yield self.outline.path(place, self.end)

    def _creases(self) -> Iterator[LineString]:
        """Lines from hem to neck on this part, off its fold, and what of a row lies on it."""
        for crease in self.garment.piece(BODY).creases:
            if crease.along_row:
                yield from line_parts(crease.path.intersection(self.shape))
                continue
            outer, inner = self.outline.across(crease.path)
            on_back = outer < self.outline.side - NEAR and inner > self.outline.shoulder + NEAR
            on_front = outer > self.outline.side + NEAR and inner < self.outline.shoulder - NEAR
            if outer > NEAR and (on_front if self.start else on_back):
                yield crease.path

    def _increases(self, *, left: bool) -> Iterator[Increase]:
        """The increases on this part of that half, as they lie on the body piece."""
        own = [each for each in self.garment.piece(BODY).increases if each.left is left]
        if own:
            xs, ys = zip(*(between(each.foot, each.head) for each in own), strict=True)
            yield from compress(own, contains_xy(self.shape, xs, ys))

    def _run(self) -> tuple[float, float] | None:
        path = self.garment.arm.path
        return self._overlap(self.outline.outer_span(path)) if path is not None else None

    def _is_edge_on(self, run: tuple[float, float]) -> bool:
        path = self.garment.arm.path
        return path is not None and run[1] - run[0] < _EDGE_ON * path.length

    def _goes_on(self, run: tuple[float, float]) -> tuple[bool, bool]:
        """Whether the arm run goes on behind the fold before its stretch on this part, and after."""
        low, high = self.outline.outer_span(self.garment.arm.path) if self.garment.arm.path else run
        return run[0] > low + NEAR, run[1] < high - NEAR

    def _band(self, base: LineString, run: tuple[float, float], *, left: bool) -> Strip:
        before, after = self._goes_on(run)
        depth = self.garment.arm.ring.band_depth_cm
        return strip(base, depth, on_left=left, starts_folded=before, ends_folded=after)

    def _markers(self, base: LineString, run: tuple[float, float], *, left: bool) -> Iterator[Marker]:
        """The ends of the run that are on this part; of overlapping runs the far ends are on neither."""
        arm, points = self.garment.arm, [(x, y) for x, y, *_ in base.coords]
        before, after = self._goes_on(run)
        ends = []
        if not before and arm.back_count >= 0:
            ends.append((arm.last, points[0], points[1], 1.0))
        if not after:
            ends.append((arm.first, points[-1], points[-2], -1.0))
        for number, at, towards, turn in ends:
            own = arm.mirrored(number) if left else number
            along = unit(at, towards)
            turn = -turn if left else turn
            yield Marker(
                number=own,
                at=at,
                inward=(-along[1] * turn, along[0] * turn),
                along=along,
                starts=own == arm.starts[left],
            )


def _placed(increase: Increase, motion: Motion) -> Increase:
    a, b, d, e, x0, y0 = motion
    foot, head = ((a * x + b * y + x0, d * x + e * y + y0) for x, y in (increase.foot, increase.head))
    return Increase(row=increase.row, foot=foot, head=head, left=False)


def front_part(garment: Garment, outline: BodyOutline, panel_cm: float = math.inf) -> Part:
    """The front, from the fold at the side to the front edge."""
    return Part(
        garment=garment,
        outline=outline,
        start=outline.side,
        end=outline.front_neck,
        shape=Polygon(outline.path(outline.side, outline.shoulder).coords),
        neck=outline.path(outline.front_neck, outline.shoulder),
        panel_cm=panel_cm,
    )
