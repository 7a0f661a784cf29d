"""What lies over what: strokes behind are broken where others pass in front of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import shapely
from shapely import LineString, MultiLineString, STRtree
from shapely.geometry.base import BaseGeometry

from schematics.drawing.ink.marks import STROKES, Area, Circle, Line, Mark, Pen, Point, Text

GAP = 0.3
"""White between a broken stroke and the one that passes over it, in mm."""

_SHORTEST = 0.7
"""A piece of a stroke that is left between gaps, in mm; a shorter one would look like dirt."""


@dataclass(frozen=True, slots=True)
class Layer:
    """The marks of one stitch of a ``row``. A higher ``level`` lies over a lower one that it meets.

    One that ``reaches`` down to another row, or passes others in a crossing, is broken by others that reach,
    and by the stitches of the rows between. The others keep to their cells and stay whole.
    """

    marks: tuple[Mark, ...]
    level: float
    row: int
    reaches: int | None = None

    def is_broken_by(self, other: Layer) -> bool:
        """Whether this one is broken where the two cross."""
        if self.reaches is None or self.level >= other.level:
            return False
        if self.row == other.row:
            return other.reaches is not None
        over_all = int(other.level) > int(self.level)
        return over_all and self.reaches < other.row and (other.reaches is not None or other.row < self.row)


def broken(layers: Sequence[Layer]) -> list[tuple[Mark, ...]]:
    """The marks of each layer with what others cover taken out of them."""
    far = [number for number, layer in enumerate(layers) if layer.reaches is not None]
    if not far:
        return [layer.marks for layer in layers]
    shapes = [_lines(layer.marks) for layer in layers]
    tree = STRtree(shapes)
    result = [layer.marks for layer in layers]
    for number in far:
        near = sorted(int(each) for each in tree.query(shapes[number], predicate="intersects"))
        over = [shapes[other] for other in near if layers[number].is_broken_by(layers[other])]
        if over:
            result[number] = tuple(_cut_all(layers[number].marks, shapely.union_all(over)))
    return result


def halo(marks: Sequence[Mark]) -> BaseGeometry:
    """What a layer of hatching leaves white about the marks."""
    return _lines(marks).buffer(GAP + STROKES[Pen.SYMBOL].width / 2, quad_segs=3)


def without(lines: BaseGeometry, cover: BaseGeometry, shortest: float = 0.0) -> Iterator[LineString]:
    """What is left of lines outside the cover, but nothing as short as ``shortest``."""
    left = lines.difference(cover)
    for part in shapely.get_parts(shapely.get_parts(left)):
        if isinstance(part, LineString) and part.length > shortest:
            yield part


def points_of(line: LineString) -> tuple[Point, ...]:
    """The vertices of a line."""
    return tuple((float(x), float(y)) for x, y in line.coords)


def _lines(marks: Sequence[Mark]) -> BaseGeometry:
    """The middles of the strokes; of letters the box, of a filled area its outline."""
    parts: list[LineString] = []
    for mark in marks:
        if isinstance(mark, Text):
            parts.append(mark.box().exterior)
        elif isinstance(mark, Circle):
            parts.append(shapely.Point(mark.centre).buffer(mark.radius, quad_segs=4).exterior)
        else:
            parts.append(_line(mark))
    return MultiLineString(parts)


def _line(mark: Line | Area) -> LineString:
    return LineString((*mark.points, mark.points[0]) if isinstance(mark, Area) else mark.points)


def _cut_all(marks: Sequence[Mark], over: BaseGeometry) -> Iterator[Mark]:
    """The marks outside what passes over them; letters and filled areas are never cut."""
    width = STROKES[Pen.SYMBOL].width
    cover = over.buffer(GAP + width, quad_segs=3)
    for mark in marks:
        if isinstance(mark, Text | Circle) or mark.pen is Pen.SOLID or not _line(mark).intersects(cover):
            yield mark
        else:
            for part in without(_line(mark), cover, _SHORTEST):
                yield Line(points_of(part), mark.pen)
