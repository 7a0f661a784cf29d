"""A finished SVG read back in millimetres, as a printer would see it.

Nothing of `schematics` is used: what is measured here is the file, with boxes round its words from
the font itself. `test_readback.py` holds it against what svgelements reads, which takes long.
"""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from dataclasses import dataclass

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
            tips = tuple(mark.points[0] for mark in marks if mark.pen == "solid")
            extensions = [mark.points for mark in marks if mark.pen == "extension"]
            first, second = extensions if len(extensions) == 2 else self._with_fold(extensions[0], tips)
            yield Dimension(
                group=group,
                feet=(along(first[0], first[-1], -1.0), along(second[0], second[-1], -1.0)),
                ends=(along(first[-1], first[0], 2.0), along(second[-1], second[0], 2.0)),
                tips=tips,
                lines=tuple(LineString(mark.points) for mark in marks if mark.pen == "dimension"),
                label=self.label(group),
            )

    def _with_fold(
        self, extension: tuple[Point, ...], tips: tuple[Point, ...]
    ) -> tuple[tuple[Point, ...], tuple[Point, ...]]:
        """Both extension lines of a dimension, one of them as long as the other on the fold it ends at."""
        near = along(extension[-1], extension[0], 2.0)
        place, other = max(enumerate(tips), key=lambda tip: math.dist(tip[1], near))
        (tip,) = (each for each in tips if each != other)
        folds = [stroke.shape for stroke in self.strokes if stroke.pen == "fold"]
        on_fold = tuple((x + other[0] - tip[0], y + other[1] - tip[1]) for x, y in extension)
        assert any(all(fold.distance(ShapelyPoint(end)) < 0.01 for end in on_fold) for fold in folds)
        return (on_fold, extension) if place == 0 else (extension, on_fold)

    def leaders(self) -> Iterator[Leader]:
        for group in self.groups("leader"):
            (tip,) = (s.points[0] for s in self.strokes if s.group == group and s.pen == "solid")
            yield Leader(group, tip, self.label(group))


def along(start: Point, end: Point, distance: float) -> Point:
    """The point ``distance`` from ``start`` on the way to ``end``."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    share = distance / (dx * dx + dy * dy) ** 0.5
    return start[0] + dx * share, start[1] + dy * share


_SVG = "{http://www.w3.org/2000/svg}"
_NUMBER = r"-?\d+(?:\.\d+)?"
_POINT = re.compile(rf"({_NUMBER}),({_NUMBER})")
_STRAIGHT = re.compile(rf"M{_NUMBER},{_NUMBER}(?: L{_NUMBER},{_NUMBER})*( Z)?")
_TURN = re.compile(rf"rotate\(({_NUMBER}) ({_NUMBER}) ({_NUMBER})\)")


def read_page(svg: str) -> Page:
    """The sheet in mm, as `read_tree` reads it."""
    return read_tree(ET.fromstring(svg))


def read_tree(root: ET.Element) -> Page:
    """The sheet in mm, which a unit of its view box has to be; of markup that `svg_faults` finds no fault in.

    Tinted faces are left out: they lie under everything.
    """
    width, height = (root.get(side, "").removesuffix("mm") for side in ("width", "height"))
    if root.get("viewBox") != f"0 0 {width} {height}":
        raise ValueError("the view box is not in millimetres")
    words: list[Words] = []
    strokes: list[Stroke] = []
    for group in _named_groups(root):
        name, kind = group.attrib["id"], group.attrib["class"]
        for element in group:
            if element.tag == f"{_SVG}text":
                words.append(_words(name, kind, element))
            elif kind != "tint":
                strokes.append(_stroke(name, kind, element))
    return Page(float(width), float(height), tuple(words), tuple(strokes))


def _named_groups(parent: ET.Element) -> Iterator[ET.Element]:
    for group in parent.findall(f"{_SVG}g"):
        if group.get("id") and group.get("class") != "layer":
            yield group
        else:
            yield from _named_groups(group)


def _words(group: str, kind: str, element: ET.Element) -> Words:
    """The words of a text whose letters are placed each by itself, or the first alone."""
    starts = [float(x) for x in element.attrib["x"].split()]
    anchor, bold = element.get("text-anchor", "start"), element.get("font-weight") == "bold"
    angle, x, y = 0.0, 0.0, 0.0
    if transform := element.get("transform"):
        turn = _TURN.fullmatch(transform)
        if not turn:
            raise ValueError(f"{group}: {transform}")
        angle, x, y = (float(each) for each in turn.groups())
    cos, sin = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    matrix = (cos, sin, -sin, cos, x - cos * x + sin * y, y - sin * x - cos * y)
    at = (starts, float(element.attrib["y"]))
    return boxed(
        group, kind, element.text or "", at, float(element.attrib["font-size"]), anchor, bold, matrix
    )


def boxed(
    group: str,
    kind: str,
    text: str,
    at: tuple[list[float], float],
    size: float,
    anchor: str,
    bold: bool,
    matrix: tuple[float, float, float, float, float, float],
) -> Words:
    """The box from where the first letter starts to where the last ends, round the ink of these words.

    The matrix is a to f of SVG 1.1, 7.4.
    """
    font = face(bold)
    starts, y = at
    width = font.width(text) * size
    top, bottom = font.reach(text)
    left, right, astray = starts[0], starts[0] + width, 0.0
    if len(starts) == 1:
        left, right = (edge + _SHIFT[anchor] * width for edge in (left, right))
    else:
        usual = [left + ems * size for ems in font.starts(text, len(starts))]
        rounding = [2e-4 * (place - left) for place in usual]
        astray = max(abs(x - u) - r for x, u, r in zip(starts, usual, rounding, strict=True))
        right = starts[-1] + font.width(text[len(starts) - 1 :]) * size
        if len(starts) != len(text) or anchor != "start":
            astray = math.inf
    a, b, c, d, e, f = matrix
    above, below = y - top * size, y - bottom * size
    corners = ((left, above), (right, above), (right, below), (left, below))
    box = Polygon([(a * x + c * y + e, b * x + d * y + f) for x, y in corners])
    return Words(group, kind, text, box, (a, b), astray)


def _stroke(group: str, kind: str, element: ET.Element) -> Stroke:
    filled = element.get("fill", "none") != "none"
    pen = element.attrib["class"]
    width = 0.0 if filled else float(element.attrib["stroke-width"])
    if element.tag == f"{_SVG}circle":
        x, y, radius = (float(element.attrib[key]) for key in ("cx", "cy", "r"))
        disc = ShapelyPoint(x, y).buffer(radius, quad_segs=32)
        ring = tuple((x, y) for x, y, *_ in disc.exterior.coords)
        return Stroke(group, kind, pen, disc if filled else disc.exterior, width, ring)
    path = element.get("d", "")
    straight = _STRAIGHT.fullmatch(path)
    if not straight:
        raise ValueError(f"{group}: a path of other than straight lines: {path}")
    points = tuple((float(x), float(y)) for x, y in _POINT.findall(path))
    shape = Polygon(points) if filled else LineString((*points, points[0]) if straight[1] else points)
    return Stroke(group, kind, pen, shape, width, points)
