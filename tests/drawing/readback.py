"""A finished SVG read back, in millimetres, as a printer would see it.

Nothing of `schematics` is used: what is measured here is the file, with boxes round its words from
the font itself. What `audit_svg` allows is little, so little is read; `test_readback` holds it to
svgelements, which reads all of SVG and takes ten times as long.
"""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint
from shapely.geometry.base import BaseGeometry

from tests.drawing.fonts import face

Point = tuple[float, float]

Ink = Mapping[str, str]
"""The attributes of an element, of its own or of groups round it."""

SVG = "{http://www.w3.org/2000/svg}"

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
    """The sheet in mm, as `read_tree` reads it."""
    return read_tree(ET.fromstring(svg))


def read_tree(root: ET.Element) -> Page:
    """The sheet in mm: its units, if its view box says so.

    Tinted faces are left out: they lie under everything. What it cannot read it refuses.
    """
    width, height = (float(root.get(side, "").removesuffix("mm")) for side in ("width", "height"))
    if [float(each) for each in root.get("viewBox", "").split()] != [0.0, 0.0, width, height]:
        raise ValueError(f"the view box {root.get('viewBox')} is not the paper in mm")
    words: list[Words] = []
    drawn: list[_Drawn] = []
    for group, inherited in _named_groups(root, {}):
        name, kind = group.get("id", ""), group.get("class", "")
        for element in group:
            if element.tag == f"{SVG}text":
                words.append(_words(name, kind, element))
            elif kind != "tint":
                drawn.append(_drawn(name, kind, element, {**inherited, **element.attrib}))
    return Page(width, height, tuple(words), _strokes(drawn))


def _named_groups(group: ET.Element, inherited: Mapping[str, str]) -> Iterator[tuple[ET.Element, Ink]]:
    """The outermost groups with an id, and the attributes they have of their own or of groups round them."""
    for element in group:
        if element.tag == f"{SVG}g":
            if "transform" in element.attrib:
                raise ValueError(f"a group is moved: {element.attrib}")
            ink = {**inherited, **element.attrib}
            if element.get("id"):
                yield element, ink
            else:
                yield from _named_groups(element, ink)


def _words(group: str, kind: str, element: ET.Element) -> Words:
    """The box from where the first letter starts to where the last ends, round the ink of these words."""
    if len(element):
        raise ValueError(f"{group}: words in parts")
    text, anchor = element.text or "", element.get("text-anchor", "start")
    font = face(element.get("font-weight") == "bold")
    size = float(element.get("font-size", ""))
    width = font.width(text) * size
    top, bottom = font.reach(text)
    starts, baseline = [float(x) for x in element.get("x", "").split()], float(element.get("y", ""))
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
    angle, about_x, about_y = _turn(element.get("transform"))
    cos, sin = math.cos(angle), math.sin(angle)

    def turned(x: float, y: float) -> Point:
        dx, dy = x - about_x, y - about_y
        return about_x + cos * dx - sin * dy, about_y + sin * dx + cos * dy

    above, below = baseline - top * size, baseline - bottom * size
    box = Polygon([turned(x, y) for x, y in _corners(left, above, right, below)])
    return Words(group, kind, text, box, (cos, sin), astray)


def _turn(transform: str | None) -> tuple[float, float, float]:
    """By what angle words are turned, clockwise, and round which point."""
    if transform is None:
        return 0.0, 0.0, 0.0
    turn = re.fullmatch(r"rotate\(([-\d.]+) ([-\d.]+) ([-\d.]+)\)", transform)
    if turn is None:
        raise ValueError(f"words are moved otherwise than turned: {transform}")
    return math.radians(float(turn[1])), float(turn[2]), float(turn[3])


def _corners(x0: float, y0: float, x1: float, y1: float) -> tuple[Point, ...]:
    return (x0, y0), (x1, y0), (x1, y1), (x0, y1)


@dataclass(frozen=True, slots=True)
class _Drawn:
    """A stroke before its shape is made."""

    group: str
    kind: str
    ink: Ink
    points: tuple[Point, ...]
    closed: bool

    @property
    def filled(self) -> bool:
        return self.ink.get("fill", "black") != "none"

    def stroke(self, shape: BaseGeometry) -> Stroke:
        width = 0.0 if self.filled else float(self.ink.get("stroke-width", "1"))
        return Stroke(self.group, self.kind, self.ink.get("class", ""), shape, width, self.points)


_PATH = re.compile(r"M[-\d.]+,[-\d.]+(?: L[-\d.]+,[-\d.]+)*(?: Z)?")
_NUMBER = re.compile(r"[-\d.]+")


def _drawn(group: str, kind: str, element: ET.Element, ink: Ink) -> _Drawn:
    if element.tag == f"{SVG}circle":
        x, y, radius = (float(element.get(key, "")) for key in ("cx", "cy", "r"))
        ring = shapely.get_coordinates(ShapelyPoint(x, y).buffer(radius, quad_segs=32)).tolist()
        return _Drawn(group, kind, ink, tuple((x, y) for x, y in ring[:-1]), closed=True)
    path = element.get("d", "")
    if element.tag != f"{SVG}path" or not _PATH.fullmatch(path):
        raise ValueError(f"{group}: {element.tag} is no path of straight lines alone: {path}")
    numbers = [float(each) for each in _NUMBER.findall(path)]
    return _Drawn(group, kind, ink, tuple(zip(numbers[::2], numbers[1::2], strict=True)), path[-1] == "Z")


def _strokes(drawn: Sequence[_Drawn]) -> tuple[Stroke, ...]:
    """Their shapes are made all at once, which is ten times as fast."""
    if not drawn:
        return ()
    rings = [(*each.points, each.points[0]) if each.closed or each.filled else each.points for each in drawn]
    points = [point for ring in rings for point in ring]
    owners = [index for index, ring in enumerate(rings) for _ in ring]
    lines = np.asarray(shapely.linestrings(points, indices=owners))
    return tuple(
        each.stroke(Polygon(each.points) if each.filled else line)
        for each, line in zip(drawn, lines, strict=True)
    )
