"""What the pictures of the steps are drawn with: fabric and its sides, arrows, triangles, words, a caption.

Shapes are given in cm of a fabric that lies flat, y up; places and lengths on paper are mm, y down.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import product

from shapely import LineString, MultiLineString, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import substring, unary_union

from schematics.document.lettering.text import (
    SMALL,
    Font,
    ascent,
    descent,
    line_pitch,
    text_width,
    wrap,
)
from schematics.drawing.ink.block import CLEAR, Block, mark_shape
from schematics.drawing.ink.labeller import draw_label, draw_leader, letter_seam
from schematics.drawing.ink.leaders import Spot, Tips
from schematics.drawing.ink.marks import (
    Area,
    Circle,
    Label,
    Line,
    Mark,
    Pen,
    Point,
    Text,
    along,
    arrowhead,
    moved_group,
    opposite,
    text_lines,
)
from schematics.drawing.ink.sheet import Paper, Sheet
from schematics.drawing.ink.surface import Strip
from schematics.drawing.pieces.patterned import magnified
from schematics.drawing.pieces.piece_texture import draw_texture_within
from schematics.drawing.pieces.view import View, line_parts
from schematics.garment.garment import Piece

WIDTH, FABRIC_WIDTH, FABRIC_HEIGHT = 50.0, 44.0, 30.0
"""Of a picture, three of which are beside each other on a page, and of the fabric in it, at most, in mm."""

_EDGE = 1.0
"""Paper left round the marks."""

CAPTION_LINES = 2
"""Every caption has room for so many, so that pictures beside each other are level."""

_CAPTION_BELOW, _INDENT = 2.2, 5.0

RING = 0.9
"""Radius of a stitch marker."""

_HATCH, _SHORTEST, _RIB, _ARROWHEAD, _TRIANGLE = 1.2, 0.5, 1.1, 2.6, 2.6

_ROUND_ARROWS = 0.45
_OFF_EDGES = 1.0
"""What a piece looks like keeps so far off its edges, in mm: they may be seams."""

_OVER_HATCHING = ("arrow", "leader")
"""Kinds of groups round which a hatched face is left blank."""

Words = tuple[str, ...]

RIGHT_SIDE = "right", "side"

JOIN_YARN = ("join yarn",), ("join", "yarn")
"""What a triangle means, in one line or in two."""


class Canvas:
    """One picture: fabric to the scale of ``view``, everything else in mm, words in the ``font``."""

    def __init__(self, view: View, font: Font | None) -> None:
        self.view = view
        self.font = font
        self.block = Block(widest=WIDTH - 2 * _EDGE)
        self._hatched: list[BaseGeometry] = []
        self._looks: list[tuple[Piece, Polygon]] = []
        self._foot = -math.inf

    @property
    def room(self) -> float:
        """How wide all that is drawn may be."""
        return self.block.widest

    def label(self, *lines: str) -> Label:
        """Lines to be set as one."""
        return Label(lines, SMALL, font=self.font)

    def line(self, path: LineString) -> LineString:
        """A path of the fabric on paper."""
        return LineString(self.view.line(path))

    def face(self, shape: Polygon) -> Polygon:
        """A shape of the fabric on paper."""
        return Polygon(self.view.line(shape.exterior))

    def draw(self, kind: str, name: str, paths: Iterable[LineString], pen: Pen) -> None:
        """Paths of the fabric with one pen."""
        self.block.add(kind, name, [Line(self.view.line(path), pen) for path in paths])

    def wrong_side(self, shape: Polygon) -> None:
        """Fabric seen from its wrong side: hatched, but under words, when all of them are placed."""
        self.hatch(self.face(shape))

    def hatch(self, face: Polygon) -> None:
        """Hatch a face on paper as the wrong side of fabric, but under words, when all of them are placed."""
        self._hatched.append(face.buffer(-0.4))

    def band(self, name: str, band: Strip, ridge_cm: float) -> None:
        """A ribbed band: its outline, and a line for each ridge or for every so many."""
        points = self.view.line(band.rim)
        folds = [*([points[:2]] if band.ends_folded else []), *([points[-2:]] if band.starts_folded else [])]
        marks: list[Mark] = [Line(points[1:-1], Pen.OUTLINE)]
        marks += [Line(ends, Pen.FOLD) for ends in folds]
        marks += [Line(ends, Pen.OUTLINE) for ends in (points[:2], points[-2:]) if ends not in folds]
        every = max(1, math.ceil(_RIB * self.view.scale / 10 / ridge_cm))
        marks += [Line(self.view.line(rib), Pen.TEXTURE) for rib in band.ribs(ridge_cm * every)]
        self.block.add("band", name, marks)

    def look(self, piece: Piece, shape: Polygon) -> None:
        """An upright shape of the fabric looks like that piece, wherever nothing else is in the end.

        Its stitches are larger than they are where they would run into one. It has no colour: hatching tells
        which side is seen.
        """
        self._looks.append((replace(piece, hatching=0, shades=()), shape))

    def arrow(self, name: str, path: LineString) -> None:
        """An arrow along a path on paper, its head at the end."""
        points = points_of(path)
        head = path.interpolate(max(0.0, path.length - _ARROWHEAD))
        tip, base = points[-1], (head.x, head.y)
        shaft = points_of(stretch(path, 0, max(path.length - _ARROWHEAD * 0.8, path.length * 0.1)))
        towards = tip[0] - base[0], tip[1] - base[1]
        self.block.add(
            "arrow", name, [Line(shaft, Pen.SYMBOL), arrowhead(tip, towards, min(_ARROWHEAD, path.length))]
        )

    def triangle(self, name: str, tip: Point, towards: Point) -> Point:
        """The triangle that points to where yarn is joined; gives the middle of its foot."""
        self.block.add("join", name, [Area(_triangle(tip, towards), Pen.SOLID)])
        return along(tip, opposite(towards), _TRIANGLE)

    def has_room(self, tip: Point, towards: Point) -> bool:
        """Whether such a triangle crosses no line."""
        corners = _triangle(tip, towards)
        return not self.block.crossings(LineString([*corners, corners[0]]))

    def marker(self, name: str, at: Point) -> None:
        """A stitch marker in the edge."""
        self.block.add("marker", name, [Circle(at, RING, Pen.SYMBOL)])

    def words(
        self,
        kind: str,
        name: str,
        lines: Words,
        centres: Iterable[Point],
        *,
        tips: Tips = (),
        optional: bool = False,
    ) -> bool:
        """Words level at the first of the places where they are free, else with an arrow to a tip.

        Returns whether they are at such a place.
        """
        label, spots = self.label(*lines), map(Spot, centres)
        return draw_label(self.block, kind, name, label, spots, tips=tips, optional=optional) is not None

    def join_yarn(self, foot: Point, away: Point, gaps: Sequence[float], edge: Point | None = None) -> None:
        """What a triangle means.

        It is so many mm from the triangle's ``foot``, or beside the ``edge`` it points to, else has an arrow.
        """
        labels = [self.label(*lines) for lines in JOIN_YARN]
        places = [(label, round_about(foot, label.size, gap)) for gap in gaps for label in labels]
        places += [(label, _aside(edge, label.size)) for label in labels if edge]
        for label, centres in places:
            if draw_label(self.block, "note", "join yarn", label, map(Spot, centres), optional=True):
                return
        draw_leader(self.block, "join yarn", [(along(foot, away, 1.1 * CLEAR), away)], labels)

    def pointed(self, name: str, labels: Sequence[Words], tips: Sequence[tuple[Point, Point]]) -> None:
        """Words with an arrow to one of the tips, which come with directions away."""
        draw_leader(self.block, name, tips, [self.label(*lines) for lines in labels])

    def letter(self, letter: str, centres: Iterable[Point], tip: tuple[Point, Point]) -> None:
        """A seam's letter in a ring, or with an arrow to ``tip``, which comes with the direction away."""
        letter_seam(self.block, "seam-letter", letter, map(Spot, centres), tip, self.font)

    @property
    def height(self) -> float:
        """Of what is drawn, in mm."""
        _, y0, _, y1 = self.block.bounds()
        return y1 - y0

    def finish(self) -> None:
        """Draw what pieces look like and hatch wrong sides, wherever nothing else is by now."""
        for piece, shape in self._looks:
            top = self.view.point(shape.centroid.x, shape.bounds[3])
            face, view = self.face(shape), magnified(piece.patterned, self.view)
            draw_texture_within(self.block, "texture", piece.name, piece, view, top, face, _OFF_EDGES)
        self._hatch()

    def add_caption(self, number: int, phrase: str, under: float, rows: int) -> None:
        """Number and caption, so far ``under`` the top of the drawing, in mm, with room for so many rows."""
        x0, y0, x1, _ = self.block.bounds()
        left, base = (x0 + x1 - self.room) / 2, y0 + under + _CAPTION_BELOW + ascent(SMALL, self.font)
        figure = Text((left, base), str(number), SMALL, bold=True, font=self.font)
        lines = caption_lines(number, phrase, self.font)
        caption = text_lines((left + _indent(number, self.font), base), lines, font=self.font)
        foot = base + (rows - 1) * line_pitch(SMALL) + descent(SMALL, self.font)
        self.block.add("caption", "step", [figure, *caption])
        self._foot = foot

    def sheet(self, title: str, description: str) -> Sheet:
        """The picture cropped, as wide as all are."""
        x0, y0, x1, y1 = self.block.bounds()
        left = (x0 + x1) / 2 - WIDTH / 2
        return Sheet(
            paper=Paper(name="step", width=WIDTH, height=max(y1, self._foot) - y0 + 2 * _EDGE),
            scale=None,
            title=title,
            description=description,
            groups=tuple(moved_group(group, -left, _EDGE - y0) for group in self.block.groups),
            unplaced=tuple(self.block.unplaced),
        )

    def _hatch(self) -> None:
        """The wrong sides, clear of all words, rings and arrows."""
        kept_clear = unary_union(
            [
                mark_shape(mark).buffer(_ROUND_ARROWS if group.kind in _OVER_HATCHING else CLEAR)
                for group in self.block.groups
                for mark in group.marks
                if isinstance(mark, Text | Circle) or group.kind in _OVER_HATCHING
            ]
        )
        for shape in (each.difference(kept_clear) for each in self._hatched):
            parts = (part for path in _slanted(shape) for part in line_parts(path))
            marks = [Line(points_of(part), Pen.TEXTURE) for part in parts if part.length > _SHORTEST]
            if marks:
                self.block.add("wrong-side", "hatching", marks)


def caption_lines(number: int, phrase: str, font: Font | None) -> list[str]:
    """The lines that a caption is set in beside its number."""
    return wrap(phrase, WIDTH - 2 * _EDGE - _indent(number, font), font=font)


def _indent(number: int, font: Font | None) -> float:
    """From a caption's number to its words, in mm."""
    return max(_INDENT, text_width(str(number), bold=True, font=font) + _INDENT / 3)


def _triangle(tip: Point, towards: Point) -> tuple[Point, Point, Point]:
    """The corners of a triangle that points to its tip."""
    foot, across, half = along(tip, opposite(towards), _TRIANGLE), (-towards[1], towards[0]), _TRIANGLE / 2
    return tip, along(foot, across, -half), along(foot, across, half)


def _slanted(shape: BaseGeometry) -> Iterator[BaseGeometry]:
    """Lines at 45 degrees over the shape, rising to the right."""
    if shape.is_empty:
        return
    x0, y0, x1, y1 = shape.bounds
    pitch = _HATCH * math.sqrt(2)
    for step in range(math.floor((x0 + y0) / pitch), math.ceil((x1 + y1) / pitch) + 1):
        total = step * pitch
        yield from _parts(shape.intersection(LineString([(total - y1, y1), (total - y0, y0)])))


def _parts(shape: BaseGeometry) -> Iterator[LineString]:
    parts = shape.geoms if isinstance(shape, MultiLineString) else getattr(shape, "geoms", [shape])
    return (part for part in parts if isinstance(part, LineString) and not part.is_empty)


def points_of(path: LineString) -> tuple[Point, ...]:
    """The points of a line on paper."""
    return tuple((x, y) for x, y, *_ in path.coords)


def ends_of(path: LineString) -> tuple[Point, Point]:
    """The first and the last point of a line on paper."""
    points = points_of(path)
    return points[0], points[-1]


def stretch(path: LineString, start: float, end: float) -> LineString:
    """The part of a line between two distances along it."""
    part = substring(path, start, end)
    assert isinstance(part, LineString)
    return part


def beside(path: LineString, distance: float, cut: float = 0.0) -> LineString:
    """The line so many mm beside a path on paper, on its right, without ``cut`` mm at its ends."""
    moved = path.offset_curve(distance, join_style="mitre", mitre_limit=2.0)
    parts = [part for part in _parts(moved) if part.length > _SHORTEST]
    if not parts:
        return path
    longest = max(parts, key=lambda part: part.length)
    cut = min(cut, longest.length * 0.3)
    return stretch(longest, cut, longest.length - cut)


def round_about(at: Point, size: tuple[float, float], gap: float) -> Iterator[Point]:
    """Centres for a label of that size below, above, right and left of a point, so far from it."""
    width, height = size
    down, aside = height / 2 + gap, width / 2 + gap
    for dx, dy in ((0, down), (0, -down), (aside, 0), (-aside, 0)):
        yield at[0] + dx, at[1] + dy
    for dx in (width / 4, -width / 4, width / 2, -width / 2):
        yield at[0] + dx, at[1] + down
        yield at[0] + dx, at[1] - down
    for dx in (width / 2 + 2, -width / 2 - 2):
        yield at[0] + dx, at[1] + down


def _aside(at: Point, size: tuple[float, float]) -> Iterator[Point]:
    """Centres for a label of that size right and left of a point, and above those."""
    for rise, gap in product((0.0, 1.0, 2.0, 3.0, 4.0, 5.0), (1.2, 2.0, 3.0, 4.0)):
        aside = size[0] / 2 + RING + gap
        yield at[0] + aside, at[1] - rise
        yield at[0] - aside, at[1] - rise
