"""A finished SVG read back with svgelements, in millimetres, as a printer would see it.

Nothing of `schematics` is used: what is measured here is the file, with boxes round its words from
the font itself.
"""

from __future__ import annotations

import io
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import svgelements
from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint
from shapely.geometry.base import BaseGeometry

from tests.drawing.fonts import face

Point = tuple[float, float]

_SHIFT = {"start": 0.0, "middle": -0.5, "end": -1.0}


@dataclass(frozen=True, slots=True)
class Words:
    """One text element: its words, the box round them, and the way its baseline runs.

    ``astray`` is how far a letter that is placed by itself is from where the font would set it, in mm;
    a font size of three decimals is forgiven.
    """

    group: str
    kind: str
    text: str
    box: Polygon
    along: Point
    astray: float


@dataclass(frozen=True, slots=True)
class Stroke:
    """One path, circle or rectangle; ``shape`` is its line, or its face where it is filled."""

    group: str
    kind: str
    pen: str
    shape: BaseGeometry
    width: float
    points: tuple[Point, ...]

    @property
    def filled(self) -> bool:
        return isinstance(self.shape, Polygon)


@dataclass(frozen=True, slots=True)
class Dimension:
    """A dimension group taken apart; ``feet`` lie on the outline, ``ends`` on the dimension line."""

    group: str
    feet: tuple[Point, Point]
    ends: tuple[Point, Point]
    tips: tuple[Point, ...]
    lines: tuple[LineString, ...]
    label: str


@dataclass(frozen=True, slots=True)
class Leader:
    """A label with an arrow: where its tip is."""

    group: str
    tip: Point
    label: str


@dataclass(frozen=True, slots=True)
class Page:
    """Everything on one sheet."""

    width: float
    height: float
    words: tuple[Words, ...]
    strokes: tuple[Stroke, ...]

    def of_kind(self, kind: str) -> list[Stroke]:
        return [stroke for stroke in self.strokes if stroke.kind == kind]

    def texts(self, kind: str) -> list[str]:
        return [words.text for words in self.words if words.kind == kind]

    def groups(self, kind: str) -> list[str]:
        """Ids of the groups of that kind."""
        names = [(mark.kind, mark.group) for mark in self.strokes]
        names += [(words.kind, words.group) for words in self.words]
        return list(dict.fromkeys(group for each, group in names if each == kind))

    @property
    def outlines(self) -> dict[str, Polygon]:
        """The drawn pieces by the ids of their groups."""
        return {stroke.group: Polygon(stroke.points) for stroke in self.of_kind("outline")}

    @property
    def scale(self) -> int:
        """The denominator in the title block."""
        (scale,) = re.findall(r"Scale 1:(\d+)", "\n".join(self.texts("title")))
        return int(scale)

    def label(self, group: str) -> str:
        return "\n".join(words.text for words in self.words if words.group == group)

    def dimensions(self) -> Iterator[Dimension]:
        for group in self.groups("dimension"):
            marks = [stroke for stroke in self.strokes if stroke.group == group]
            first, second = (mark.points for mark in marks if mark.pen == "extension")
            yield Dimension(
                group=group,
                feet=(along(first[0], first[-1], -1.0), along(second[0], second[-1], -1.0)),
                ends=(along(first[-1], first[0], 2.0), along(second[-1], second[0], 2.0)),
                tips=tuple(mark.points[0] for mark in marks if mark.pen == "solid"),
                lines=tuple(LineString(mark.points) for mark in marks if mark.pen == "dimension"),
                label=self.label(group),
            )

    def leaders(self) -> Iterator[Leader]:
        for group in self.groups("leader"):
            (tip,) = (s.points[0] for s in self.strokes if s.group == group and s.pen == "solid")
            yield Leader(group, tip, self.label(group))


def along(start: Point, end: Point, distance: float) -> Point:
    """The point ``distance`` from ``start`` on the way to ``end``."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    share = distance / (dx * dx + dy * dy) ** 0.5
    return start[0] + dx * share, start[1] + dy * share


def read_page(svg: str) -> Page:
    """The sheet in mm: at 25.4 px to the inch a millimetre is one px, if the view box says so too.

    Tinted faces are left out: they lie under everything.
    """
    document = svgelements.SVG.parse(io.StringIO(svg), ppi=25.4)
    words: list[Words] = []
    strokes: list[Stroke] = []
    for group in _named_groups(document):
        name, kind = group.values["id"], group.values["class"]
        for element in group:
            if isinstance(element, svgelements.Text):
                words.append(_words(name, kind, element))
            elif kind != "tint":
                strokes.append(_stroke(name, kind, element))
    return Page(float(document.width), float(document.height), tuple(words), tuple(strokes))


def _named_groups(group: Any) -> Iterator[Any]:
    for element in group:
        if isinstance(element, svgelements.Group):
            if element.values.get("id"):
                yield element
            else:
                yield from _named_groups(element)


def _words(group: str, kind: str, element: Any) -> Words:
    """The box from where the first letter starts to where the last ends, round the ink of these words."""
    font = face(element.font_weight == "bold")
    size = float(element.font_size)
    width = font.width(element.text) * size
    top, bottom = font.reach(element.text)
    starts = [float(x) for x in element.values["x"].split()]
    left, right, astray = starts[0], starts[0] + width, 0.0
    if len(starts) == 1:
        left, right = (edge + _SHIFT[element.anchor] * width for edge in (left, right))
    else:
        usual = [left + ems * size for ems in font.starts(element.text, len(starts))]
        rounding = [2e-4 * (place - left) for place in usual]
        astray = max(abs(x - u) - r for x, u, r in zip(starts, usual, rounding, strict=True))
        right = starts[-1] + font.width(element.text[len(starts) - 1 :]) * size
        if len(starts) != len(element.text) or element.anchor != "start":
            astray = math.inf
    turn = element.transform

    def turned(x: float, y: float) -> Point:
        return turn.a * x + turn.c * y + turn.e, turn.b * x + turn.d * y + turn.f

    above, below = element.y - top * size, element.y - bottom * size
    box = Polygon([turned(x, y) for x, y in _corners(left, above, right, below)])
    return Words(group, kind, element.text, box, (turn.a, turn.b), astray)


def _corners(x0: float, y0: float, x1: float, y1: float) -> tuple[Point, ...]:
    return (x0, y0), (x1, y0), (x1, y1), (x0, y1)


def _stroke(group: str, kind: str, element: Any) -> Stroke:
    filled = element.fill is not None and element.fill.value is not None
    pen = element.values["class"]
    width = 0.0 if filled else float(element.stroke_width)
    if isinstance(element, svgelements.Circle):
        disc = ShapelyPoint(element.cx, element.cy).buffer(float(element.rx), quad_segs=32)
        ring = tuple((float(x), float(y)) for x, y, *_ in disc.exterior.coords)
        return Stroke(group, kind, pen, disc if filled else disc.exterior, width, ring)
    segments = list(element)
    known = (svgelements.Move, svgelements.Line, svgelements.Close)
    if not all(isinstance(segment, known) for segment in segments):
        raise ValueError(f"{group}: a path of other than straight lines: {element.d()}")
    points = tuple((s.end.x, s.end.y) for s in segments if not isinstance(s, svgelements.Close))
    closed = isinstance(segments[-1], svgelements.Close)
    shape = Polygon(points) if filled else LineString((*points, points[0]) if closed else points)
    return Stroke(group, kind, pen, shape, width, points)
