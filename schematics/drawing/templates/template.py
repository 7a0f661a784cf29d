"""One piece at full size: its lines and what is to be named on them, in millimetres, y down."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property

import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from schematics.drawing.ink.marks import Line, Pen, Point, marker_tick, unit
from schematics.drawing.pieces.figures_look import FiguresLook
from schematics.drawing.pieces.piece_block import overlaps_itself
from schematics.drawing.pieces.view import View, line_parts, mirrored
from schematics.garment.garment import ArmRun, ArmsOn, Edge, Garment, Piece
from schematics.units import NEAR, Unit

_FULL_SIZE = 1

_SIDES = ("edge", "row", "side", "hem", "neck", "line", "fold")
"""How names end that need no ``edge`` after them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Worded:
    """A line of a template with the words written along it, inside the fabric if it is an edge.

    An edge runs with the fabric on its left; its finished ``length`` is written after its words if there is
    room.
    """

    words: str
    points: tuple[Point, ...]
    length: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeMarker:
    """A marker on an edge: where, the direction into the fabric, and its words."""

    at: Point
    inward: Point
    words: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Template:
    """A piece, or its right half on the fold, as it is drawn at full size.

    ``lines`` are its marks by the kind of their group, that of the outline, through ``corners``, ``piece``.
    ``arrow_places`` are those for the arrow of work, best first; ``notes`` are written beside it, and
    under them ``figures``, its finished measurements.
    """

    name: str
    heading: str
    notes: tuple[str, ...]
    figures: tuple[str, ...]
    corners: tuple[Point, ...]
    lines: tuple[tuple[str, Line], ...]
    named: tuple[Worded, ...]
    markers: tuple[EdgeMarker, ...]
    arrow_places: tuple[tuple[Point, Point], ...]

    @cached_property
    def fabric(self) -> BaseGeometry:
        """The face of the fabric; of one that lies over itself its outline alone."""
        face = Polygon(self.corners)
        return face if face.is_valid else LineString([*self.corners, self.corners[0]])

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """The box round everything that is drawn: x0, y0, x1, y1."""
        x0, y0, x1, y1 = shapely.total_bounds([LineString(line.points) for _, line in self.lines])
        return float(x0), float(y0), float(x1), float(y1)

    def quarter_turned(self) -> Template:
        """The template turned by 90 degrees clockwise."""
        return self._changed(lambda point: (-point[1], point[0]))

    def moved(self, dx: float, dy: float) -> Template:
        """The template shifted; directions stay."""
        return self._changed(lambda point: (point[0] + dx, point[1] + dy), lambda direction: direction)

    def _changed(
        self, change: Callable[[Point], Point], turn: Callable[[Point], Point] | None = None
    ) -> Template:
        turn = turn or change
        return replace(
            self,
            corners=tuple(map(change, self.corners)),
            lines=tuple(
                (kind, replace(line, points=tuple(map(change, line.points)))) for kind, line in self.lines
            ),
            named=tuple(replace(each, points=tuple(map(change, each.points))) for each in self.named),
            markers=tuple(
                replace(each, at=change(each.at), inward=turn(each.inward)) for each in self.markers
            ),
            arrow_places=tuple((change(start), change(end)) for start, end in self.arrow_places),
        )


def templates_of(garment: Garment, units: tuple[Unit, ...], *, halved: bool) -> tuple[Template, ...]:
    """Every piece once; those on the fold by their right half if ``halved``, or where they must be."""
    return tuple(_template(piece, garment, units, halved=halved) for piece in garment.pieces)


def _template(piece: Piece, garment: Garment, units: tuple[Unit, ...], *, halved: bool) -> Template:
    half = piece.on_fold and (halved or overlaps_itself(piece, garment))
    view = View(scale=_FULL_SIZE, half_only=half)
    corners = view.outline(piece)
    markers = tuple(_markers(garment.arm, view)) if garment.arm.edge in piece.edges else ()
    outline = Line(corners if half else (*corners, corners[0]), Pen.OUTLINE)
    return Template(
        name=piece.name,
        heading=replace(piece, hatching=0).heading,
        notes=tuple(_notes(piece, garment.arm, half=half)),
        figures=tuple(_figures(piece, garment, units)),
        corners=corners,
        lines=(
            ("piece", outline),
            *_inner_lines(piece, view),
            *(("marker", marker_tick(each.at, each.inward)) for each in markers),
        ),
        named=(*_edges(piece, garment, view, units), *_inner_names(piece, view)),
        markers=markers,
        arrow_places=tuple(_arrow_places(piece, view)),
    )


def _arrow_places(piece: Piece, view: View) -> Iterator[tuple[Point, Point]]:
    """Those of the piece; on a fold each on the other side as well, which may be the one that is drawn."""
    places = [(view.point(*start), view.point(*end)) for start, end in piece.work.arrow_places]
    yield from places
    if piece.on_fold:
        yield from ((mirrored(start), mirrored(end)) for start, end in places)


def _notes(piece: Piece, arm: ArmRun, *, half: bool) -> Iterator[str]:
    if half:
        yield "the right half; for the left half cut the paper out and turn it over"
    yield piece.work.words
    if arm.edge in piece.edges:
        yield f"markers count from {'seam A' if arm.on is ArmsOn.HEM else 'the front hem'}"


def _figures(piece: Piece, garment: Garment, units: tuple[Unit, ...]) -> Iterator[str]:
    """``width 9 cm (3 5/8 in)``, each of the whole piece, by which what is taped together is checked."""
    keys = {span.key for span in piece.spans}
    for item in garment.finished:
        if item.key in keys:
            first, *others = FiguresLook(units).lengths(item)
            name = item.name.removeprefix(f"{piece.name} ").removeprefix(f"{piece.name.split()[-1]} ")
            yield f"{name} {first}{''.join(f' ({each})' for each in others)}"


def _both(points: tuple[Point, ...], view: View) -> tuple[tuple[Point, ...], ...]:
    """A line of a piece on the fold on each side that is drawn, the fabric on the same hand."""
    return (points,) if view.half_only else (points, tuple(mirrored(point) for point in reversed(points)))


def _inner_lines(piece: Piece, view: View) -> Iterator[tuple[str, Line]]:
    if piece.on_fold:
        yield "fold", Line(view.fold(piece), Pen.FOLD)
    for crease in piece.creases:
        pen = Pen.FOLD if crease.folded else Pen.INCREASE
        yield from (("crease", Line(points, pen)) for points in _both(view.line(crease.path), view))


def _inner_names(piece: Piece, view: View) -> Iterator[Worded]:
    if piece.on_fold:
        yield Worded(words=view.fold_words, points=view.fold(piece))
    for crease in piece.creases:
        yield from (Worded(words=crease.name, points=each) for each in _both(view.line(crease.path), view))


def _edges(piece: Piece, garment: Garment, view: View, units: tuple[Unit, ...]) -> Iterator[Worded]:
    for edge in piece.edges:
        whole = _length(edge, piece, garment, units)
        length = f"{whole} with the left half" if whole and view.half_only and edge.crosses_fold else whole
        yield from (replace(each, length=length) for each in _edge(edge, piece, garment, view))


def _length(edge: Edge, piece: Piece, garment: Garment, units: tuple[Unit, ...]) -> str:
    """``38 cm (15 in)``, as the finished measurement along it is printed, or else one of its length.

    Empty where there is none, or a part of the edge goes by another name.
    """
    if not math.isclose(_own(edge, piece).length, edge.path.length):
        return ""
    items = {item.key: item for item in garment.finished}
    spans = sorted(piece.spans, key=lambda span: span.path != edge.path)
    for item in (items[span.key] for span in spans):
        if math.isclose(item.length_cm, edge.length_cm, rel_tol=1e-9):
            first, *others = FiguresLook(units).lengths(item)
            return f"{first}{''.join(f' ({each})' for each in others)}"
    return ""


def _edge(edge: Edge, piece: Piece, garment: Garment, view: View) -> Iterator[Worded]:
    """Its names, one for each side of the fold that is drawn."""
    right, left = (_seam_letters(piece, edge, garment, left=left) for left in (False, True))
    points = view.line(_own(edge, piece))
    name = _edge_name(edge, garment.arm)
    if not piece.on_fold:
        yield Worded(words=_edge_words(name, right + left), points=points)
    elif view.half_only:
        words = _edge_words(name, right)
        yield Worded(words=f"{words} (left half: {_seams(left)})" if left else words, points=points)
    elif edge.crosses_fold:
        yield Worded(words=_edge_words(name, right), points=_across_the_fold(points))
    else:
        for letters, side in zip((right, left or right), _both(points, view), strict=True):
            yield Worded(words=_edge_words(name, letters), points=side)


def _own(edge: Edge, piece: Piece) -> LineString:
    """The edge, or what is left of it where shorter ones with names of their own lie on it."""
    ends = [each for each in piece.edges if each.path.length < edge.path.length - NEAR]
    others = [each.path.buffer(NEAR) for each in ends if edge.path.distance(each.path.centroid) < NEAR]
    left: list[LineString] = line_parts(edge.path.difference(shapely.union_all(others))) if others else []
    return max(left, key=lambda part: part.length, default=edge.path)


def _across_the_fold(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """The whole of an edge of which the right half is given, which starts or ends on the fold."""
    other = tuple(mirrored(point) for point in reversed(points))
    return (*other, *points[1:]) if abs(points[0][0]) < abs(points[-1][0]) else (*points, *other[1:])


def _seam_letters(piece: Piece, edge: Edge, garment: Garment, *, left: bool) -> list[str]:
    return [
        seam.letter
        for seam in garment.seams
        if seam.left is left
        and (piece.name, edge.name)
        in ((seam.first_piece, seam.first.name), (seam.second_piece, seam.second.name))
    ]


def _edge_name(edge: Edge, arm: ArmRun) -> str:
    if arm.on is ArmsOn.SIDES and edge == arm.edge:
        return f"{edge.name}, arm opening"
    return edge.name if edge.name.endswith(_SIDES) else f"{edge.name} edge"


def _edge_words(name: str, letters: list[str]) -> str:
    return f"{name}, {_seams(letters)}" if letters else name


def _seams(letters: list[str]) -> str:
    return f"seam{'s' if len(letters) > 1 else ''} {' and '.join(letters)}"


def _markers(arm: ArmRun, view: View) -> Iterator[EdgeMarker]:
    """Both ends of the arm run, with what it says on the other half where only one is drawn."""
    if arm.path is None:
        return
    points = view.line(arm.path)
    one = "stitch" if arm.on is ArmsOn.HEM else "row"
    for at, towards, number in ((points[0], points[1], arm.last), (points[-1], points[-2], arm.first)):
        run = unit(at, towards)
        inward = (run[1], -run[0]) if at == points[0] else (-run[1], run[0])
        words, other = f"marker: {one} {number}", arm.mirrored(number)
        if view.half_only:
            more = () if other == number else (f"left half: {one} {other}",)
            yield EdgeMarker(at=at, inward=inward, words=(words, *more))
        else:
            yield EdgeMarker(at=at, inward=inward, words=(words,))
            yield EdgeMarker(at=mirrored(at), inward=mirrored(inward), words=(f"marker: {one} {other}",))
