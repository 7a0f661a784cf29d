"""Two figures side by side with the garment on them, drawn as one block."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shapely import LineString, MultiLineString, Polygon, unary_union
from shapely.geometry.base import BaseGeometry

from schematics.document.lettering.text import LARGE
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Area, Line, Mark, Pen, Point, Text
from schematics.drawing.ink.scale import to_mm
from schematics.drawing.pieces.view import line_parts
from schematics.drawing.worn.drape import Hanging, Worn
from schematics.units import NEAR, Unit
from schematics.wearer.body_figure import BodyFigure, FigureSize

DOWN, LEVEL = "arms down", "arms level"

CAPTION_HEIGHT = 7.0
"""Room under the floor, in mm."""

OVERHANG = 3.0

_EYE = (0.3, 0.0), (0.38, 0.05), (0.46, 0.0)

FACE: Sequence[Sequence[tuple[float, float]]] = (
    ((-0.95, 0.28), (-0.6, 0.4), (-0.15, 0.62), (0.05, 0.7), (0.2, 0.6), (0.6, 0.42), (0.95, 0.28)),
    *(tuple((side * x, y) for x, y in _EYE) for side in (-1, 1)),
    ((-0.25, -0.5), (-0.1, -0.56), (0.1, -0.56), (0.25, -0.5)),
)
"""Hair over the forehead, eyes and mouth, in halves of the head's breadth and height from its middle."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """One figure; ``worn`` is None where the garment cannot be drawn on it."""

    figure: BodyFigure
    worn: Worn | None

    @property
    def parts(self) -> tuple[Polygon, ...]:
        """Figure and garment."""
        worn = self.worn
        garment = () if worn is None else (worn.cloth, worn.neck_band, *worn.arm_bands)
        return self.figure.outline, *garment

    @property
    def half_cm(self) -> float:
        """Half the breadth of everything."""
        return max(part.bounds[2] for part in self.parts)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Both:
    """The size's two figures, arms down and arms level, and the garment's lengths.

    Lengths are written in these ``units``, the first one first.
    Compared by identity, so that what is laid out of them can be remembered.
    """

    size: FigureSize
    hanging: Hanging
    down: Standing
    level: Standing
    units: tuple[Unit, ...]

    @property
    def low_cm(self) -> float:
        """Height of the lowest point: the floor, or fabric that would lie on it."""
        return min(part.bounds[1] for part in (*self.down.parts, *self.level.parts))

    @property
    def height_cm(self) -> float:
        """The height from the lowest to the highest point of both figures."""
        return max(part.bounds[3] for part in (*self.down.parts, *self.level.parts)) - self.low_cm


@dataclass(frozen=True, slots=True)
class Place:
    """Where a figure stands in the block: its midline in mm from that of the first, the floor at nought."""

    scale: int
    middle: float

    def point(self, x_cm: float, y_cm: float) -> Point:
        """Where in the block a point of the figure is, in mm."""
        return self.middle + to_mm(x_cm, self.scale), -to_mm(y_cm, self.scale)

    def points(self, line: LineString) -> tuple[Point, ...]:
        """Where in the block the points of a line of the figure are, in mm."""
        return tuple(self.point(x, y) for x, y, *_ in line.coords)


def draw_figures(block: Block, both: Both, down: Place, level: Place) -> None:
    """Both figures with what they wear, the floor they stand on, and their captions under it."""
    for standing, place, name in ((both.down, down, DOWN), (both.level, level, LEVEL)):
        _draw_standing(block, standing, place, name, both.size)
    left = down.point(-both.down.half_cm, 0)[0] - OVERHANG
    right = level.point(both.level.half_cm, 0)[0]
    block.add("floor", "floor", [Line(((left, 0.0), (right, 0.0)))])
    baseline = down.point(0, both.low_cm)[1] + CAPTION_HEIGHT - 2.0
    for place, name in ((down, DOWN), (level, LEVEL)):
        block.add("caption", name, [Text((place.middle, baseline), name, LARGE, "middle", bold=True)])


def _draw_standing(block: Block, standing: Standing, place: Place, name: str, size: FigureSize) -> None:
    """The garment hides what is behind it, its bands also the rest of the garment."""
    worn = standing.worn
    body = standing.figure.outline.boundary
    if worn is None:
        block.add("figure", name, _lines(unary_union([body, _face(size)]), place, Pen.THIN))
        return
    bands = unary_union([worn.neck_band, *worn.arm_bands])
    block.add("face", name, _lines(_face(size).difference(bands.union(worn.cloth)), place, Pen.THIN))
    block.add("figure", name, _lines(body.difference(bands.union(worn.cloth)), place, Pen.THIN))
    rims = [Area(place.points(band.exterior)[:-1]) for band in (worn.neck_band, *worn.arm_bands)]
    cloth = _lines(worn.cloth.boundary.difference(bands), place, Pen.OUTLINE)
    block.add("garment", name, [*cloth, *rims])
    seams = unary_union(worn.panel_seams).difference(bands)
    block.add("panel", name, _lines(seams, place, Pen.SEAM))
    if worn.path is not None:
        block.add("way", name, [Line(place.points(worn.path), Pen.FOLD)])


def _face(size: FigureSize) -> MultiLineString:
    """The front of the figure, and that it is a person's."""
    half, middle = size.head_breadth_cm / 2, size.height_cm - size.head_height_cm / 2
    high = size.head_height_cm / 2
    return MultiLineString([[(x * half, middle + y * high) for x, y in stroke] for stroke in FACE])


def _lines(shape: BaseGeometry, place: Place, pen: Pen) -> list[Mark]:
    return [Line(place.points(part), pen) for part in line_parts(shape) if part.length > NEAR]
