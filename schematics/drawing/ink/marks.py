"""The drawing vocabulary: four kinds of mark in sheet millimetres, x to the right, y down.

Everything a sheet shows is settled as marks first; one file turns them into SVG.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

import shapely
from shapely import Polygon

from schematics.document.lettering.text import (
    SMALL,
    Font,
    Lettering,
    ascent,
    descent,
    letter_positions,
    line_pitch,
    printable,
    text_width,
)

Point = tuple[float, float]


def along(at: Point, direction: Point, distance: float) -> Point:
    """The point ``distance`` from ``at`` in a unit ``direction``."""
    return at[0] + direction[0] * distance, at[1] + direction[1] * distance


def unit(start: Point, end: Point) -> Point:
    """The unit direction from one point to another."""
    size = math.dist(start, end)
    return (end[0] - start[0]) / size, (end[1] - start[1]) / size


def opposite(direction: Point) -> Point:
    """The opposite direction."""
    return -direction[0], -direction[1]


def between(start: Point, end: Point, share: float = 0.5) -> Point:
    """The point at that share of the straight line from ``start`` to ``end``."""
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


TICK = 1.25
"""Half the length of a marker's tick, in mm."""


class Pen(StrEnum):
    """Line kinds after ISO 128-2, named by use."""

    OUTLINE = "outline"
    THIN = "thin"
    EXTENSION = "extension"
    DIMENSION = "dimension"
    LEADER = "leader"
    FOLD = "fold"
    SEAM = "seam"
    INCREASE = "increase"
    FRAME = "frame"
    TEXTURE = "texture"
    SYMBOL = "symbol"
    GRID = "grid"
    SOLID = "solid"
    TINT = "tint"
    FINE = "fine"
    FINE_DASHED = "fine-dashed"
    FINE_DOTTED = "fine-dotted"
    MEDIUM = "medium"
    MEDIUM_DASHED = "medium-dashed"
    MEDIUM_DOTTED = "medium-dotted"
    BOLD = "bold"
    BOLD_DASHED = "bold-dashed"
    BOLD_DOTTED = "bold-dotted"


@dataclass(frozen=True, slots=True)
class LineStyle:
    """How wide a pen is, and its dashes and gaps in turn, in mm."""

    width: float
    dashes: tuple[float, ...] = ()


STROKES: Mapping[Pen, LineStyle] = {
    Pen.OUTLINE: LineStyle(0.5),
    Pen.THIN: LineStyle(0.25),
    Pen.EXTENSION: LineStyle(0.25),
    Pen.DIMENSION: LineStyle(0.25),
    Pen.LEADER: LineStyle(0.25),
    Pen.FOLD: LineStyle(0.25, (6, 1.5, 0.5, 1.5)),
    Pen.SEAM: LineStyle(0.25, (3, 1.5)),
    Pen.INCREASE: LineStyle(0.25, (0.5, 1)),
    Pen.FRAME: LineStyle(0.35),
    Pen.TEXTURE: LineStyle(0.13),
    Pen.SYMBOL: LineStyle(0.35),
    Pen.GRID: LineStyle(0.13),
    Pen.FINE: LineStyle(0.18),
    Pen.FINE_DASHED: LineStyle(0.18, (4, 1.2)),
    Pen.FINE_DOTTED: LineStyle(0.18, (1, 0.8)),
    Pen.MEDIUM: LineStyle(0.35),
    Pen.MEDIUM_DASHED: LineStyle(0.35, (4, 1.2)),
    Pen.MEDIUM_DOTTED: LineStyle(0.35, (1, 0.8)),
    Pen.BOLD: LineStyle(0.6),
    Pen.BOLD_DASHED: LineStyle(0.6, (4, 1.2)),
    Pen.BOLD_DOTTED: LineStyle(0.6, (1, 0.8)),
}
"""Widths and dashes after ISO 128-2. The solid pen fills and draws no line; so does that
of tints, in a colour under all lines."""


FILLING = frozenset({Pen.SOLID, Pen.TINT})
"""Pens that fill what they go round."""


@dataclass(frozen=True, slots=True)
class Line:
    """An open polyline."""

    points: tuple[Point, ...]
    pen: Pen = Pen.THIN


@dataclass(frozen=True, slots=True)
class Area:
    """A closed polygon; the solid pen fills it, that of tints in a ``shade``, any other draws its outline.

    The shade, ``#rrggbb``, is a yarn's or one of several in order; it is inked so light that what lies over
    it is read.
    """

    points: tuple[Point, ...]
    pen: Pen = Pen.OUTLINE
    shade: str = ""


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle."""

    centre: Point
    radius: float
    pen: Pen = Pen.THIN


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text: ``at`` is the start, middle or end of its baseline.

    ``angle`` turns it clockwise in degrees; ``height`` is that of its capitals. ``font`` is None for the
    program's own.
    """

    at: Point
    words: str
    height: float = SMALL
    anchor: str = "start"
    angle: float = 0.0
    bold: bool = False
    font: Font | None = None

    @property
    def width(self) -> float:
        """Width of the words in mm."""
        return text_width(self.words, self.height, bold=self.bold, font=self.font)

    @property
    def letters(self) -> tuple[str, list[float]]:
        """What can be written of the words, and where each letter starts along a level baseline."""
        words, (*places, end) = _lettered(self.words, self.height, self.bold, self.font)
        first = self.at[0] - {"start": 0.0, "middle": end / 2, "end": end}[self.anchor]
        return words, [first + place for place in places]

    def corners(self) -> list[Point]:
        """Those of the rectangle from below the deepest character to the top of the capitals."""
        width = self.width
        before = 0.0 if self.anchor == "start" else width / 2 if self.anchor == "middle" else width
        over, under = ascent(self.height, self.font), descent(self.height, self.font)
        return turned_corners(self.at, (-before, -over, width - before, under), self.angle)

    def box(self) -> Polygon:
        """The rectangle of `corners`."""
        return _rectangle(self.corners(), self.angle)


@lru_cache(maxsize=4096)
def _lettered(words: str, height: float, bold: bool, font: Font | None) -> tuple[str, list[float]]:
    """What can be written of words, and how far from the first each letter starts and the last one ends."""
    written = printable(words)
    return written, letter_positions(written, height, bold=bold, font=font)


Mark = Line | Area | Circle | Text


@dataclass(frozen=True, slots=True)
class Group:
    """Marks that belong together; ``kind`` becomes the SVG class and ``name`` the id's stem."""

    kind: str
    name: str
    marks: tuple[Mark, ...]


def turned_corners(origin: Point, bounds: tuple[float, float, float, float], angle: float) -> list[Point]:
    """The corners of the rectangle ``bounds`` (x0, y0, x1, y1 from ``origin``) turned clockwise about it."""
    (x, y), (x0, y0, x1, y1) = origin, bounds
    if not angle:
        return [(x + x0, y + y0), (x + x1, y + y0), (x + x1, y + y1), (x + x0, y + y1)]
    cos, sin = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    return [
        (x + across * cos - down * sin, y + across * sin + down * cos)
        for across, down in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    ]


def _rectangle(corners: Sequence[Point], angle: float) -> Polygon:
    """Through these corners: that of a level one is made soonest."""
    if angle:
        turned: Polygon = shapely.polygons(corners)
        return turned
    (x0, y0), _, (x1, y1), _ = corners
    return shapely.box(x0, y0, x1, y1)


def moved(mark: Mark, dx: float, dy: float) -> Mark:
    """The mark shifted by ``dx``, ``dy``."""
    if isinstance(mark, Text):
        (x, y), words = mark.at, mark.words
        return Text((x + dx, y + dy), words, mark.height, mark.anchor, mark.angle, mark.bold, mark.font)
    if isinstance(mark, Circle):
        (x, y), radius = mark.centre, mark.radius
        return Circle((x + dx, y + dy), radius, mark.pen)
    points = tuple([(x + dx, y + dy) for x, y in mark.points])
    return Area(points, mark.pen, mark.shade) if isinstance(mark, Area) else Line(points, mark.pen)


def moved_group(group: Group, dx: float, dy: float) -> Group:
    """The group with every mark shifted."""
    return Group(group.kind, group.name, tuple([moved(mark, dx, dy) for mark in group.marks]))


def mark_points(mark: Mark) -> Iterable[Point]:
    """Points whose bounding box is the mark's."""
    if isinstance(mark, Text):
        return mark.corners()
    if isinstance(mark, Circle):
        (x, y), r = mark.centre, mark.radius
        return [(x - r, y - r), (x + r, y + r)]
    return mark.points


def bounds(groups: Iterable[Group]) -> tuple[float, float, float, float]:
    """The box round all marks: x0, y0, x1, y1."""
    return box_round(point for group in groups for mark in group.marks for point in mark_points(mark))


def box_round(points: Iterable[Point]) -> tuple[float, float, float, float]:
    """The box round points: x0, y0, x1, y1."""
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def arrowhead(tip: Point, towards: Point, length: float = 2.5) -> Area:
    """A filled arrowhead at ``tip`` pointing in the direction ``towards`` (any length)."""
    ux, uy = unit((0.0, 0.0), towards)
    back, across = along(tip, (ux, uy), -length), (-uy, ux)
    return Area((tip, along(back, across, length / 6), along(back, across, -length / 6)), Pen.SOLID)


def marker_tick(at: Point, inward: Point) -> Line:
    """A marker's short line across the edge of the fabric."""
    return Line((along(at, inward, -TICK), along(at, inward, TICK)), Pen.OUTLINE)


def text_lines(
    at: Point, lines: Iterable[str], height: float = SMALL, *, bold: bool = False, font: Font | None = None
) -> Iterator[Text]:
    """Lines of text under one another; ``at`` is where the first one's baseline starts."""
    for number, line in enumerate(lines):
        yield Text((at[0], at[1] + number * line_pitch(height)), line, height, bold=bold, font=font)


@lru_cache(maxsize=4096)
def _label_size(lines: tuple[str, ...], height: float, bold: bool, font: Font | None) -> tuple[float, float]:
    """Width and height of lines set as one, in mm."""
    width = max(text_width(line, height, bold=bold, font=font) for line in lines)
    return width, (len(lines) - 1) * line_pitch(height) + ascent(height, font) + descent(height, font)


@dataclass(frozen=True, slots=True)
class Label:
    """A block of lines set as one: measured first, placed later."""

    lines: tuple[str, ...]
    height: float = SMALL
    bold: bool = False
    font: Font | None = None

    @classmethod
    def lettered(cls, lines: Iterable[str], lettering: Lettering, *, bold: bool = False) -> Label:
        """The lines in that lettering."""
        return cls(tuple(lines), lettering.height, bold, lettering.font)

    @property
    def is_letter(self) -> bool:
        """Whether it is a letter, or two, that a table or a list explains."""
        return len(self.lines) == 1 and len(self.lines[0]) <= 2

    @property
    def size(self) -> tuple[float, float]:
        """Width and height in mm."""
        return _label_size(self.lines, self.height, self.bold, self.font)

    def corners(self, centre: Point, angle: float, margin: float = 0.0) -> list[Point]:
        """Those of the rectangle the block fills, ``margin`` included, when its middle is at ``centre``."""
        width, height = self.size
        return turned_corners(
            centre,
            (-width / 2 - margin, -height / 2 - margin, width / 2 + margin, height / 2 + margin),
            angle,
        )

    def box(self, centre: Point, angle: float, margin: float = 0.0) -> Polygon:
        """The rectangle of `corners`."""
        return _rectangle(self.corners(centre, angle, margin), angle)

    def texts(self, centre: Point, angle: float) -> Iterator[Text]:
        """The block's lines as marks, the block's middle at ``centre``."""
        _, height = self.size
        cos, sin = math.cos(math.radians(angle)), math.sin(math.radians(angle))
        for number, line in enumerate(self.lines):
            down = -height / 2 + ascent(self.height, self.font) + number * line_pitch(self.height)
            at = centre[0] - down * sin, centre[1] + down * cos
            yield Text(at, line, self.height, "middle", angle, self.bold, self.font)
