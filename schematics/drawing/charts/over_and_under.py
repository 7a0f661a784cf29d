"""What lies over what: strokes behind are broken where others pass in front of them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import shapely
from shapely import LineString, MultiLineString, STRtree
from shapely.geometry.base import BaseGeometry

from schematics.crochet.charts.placed_stitches import Target
from schematics.drawing.ink.marks import STROKES, Area, Circle, Line, Mark, Pen, Point, Text
from schematics.drawing.ink.taken import Shapes

GAP = 0.3
"""White between a broken stroke and the one that passes over it, in mm."""

_CLEAR, _CLEAR_OF_DOTS = 0.7, 0.45
"""Between the middles of a bar and of another's stem, and from a bar's middle to a dot or oval, in mm."""

_SHORTEST = 0.7
"""A piece of a stroke that is left between gaps, in mm; a shorter one would look like dirt."""


@dataclass(frozen=True, slots=True)
class Layer:
    """The marks of one stitch.

    A higher ``level`` lies over a lower one of the same row that it meets, a whole level over all rows.

    The stem of one that ``reaches`` down to another stitch, or passes others in a crossing, is broken by the
    stems of others that do so, unless one goes round the other: ``place`` and ``target`` say which.
    """

    marks: tuple[Mark, ...]
    level: float
    place: Target
    target: Target | None
    reaches: bool

    def is_broken_by(self, other: Layer) -> bool:
        """Whether this one is broken where the two cross."""
        if not (self.reaches and other.reaches) or self.target == other.place or other.target == self.place:
            return False
        if self.place.row == other.place.row:
            return self.level < other.level
        return round(self.level) < round(other.level)


def broken(layers: Sequence[Layer]) -> list[tuple[Mark, ...]]:
    """The marks of each layer with what others cover taken out of them."""
    result = [layer.marks for layer in layers]
    far = [
        (number, layer, stem)
        for number, layer in enumerate(layers) if layer.reaches and (stem := _stem(layer.marks))
    ]  # fmt: skip
    stems = [LineString(stem.points) for *_, stem in far]
    tree = STRtree(stems)
    for (number, layer, stem), line in zip(far, stems, strict=True):
        near = sorted(int(each) for each in tree.query(line, predicate="intersects"))
        if over := [stems[other] for other in near if layer.is_broken_by(far[other][1])]:
            cut = _cut(stem, line, shapely.union_all(over))
            result[number] = (*cut, *(mark for mark in layer.marks if mark is not stem))
    return result


class Stems:
    """Where stems run that reach further down, or pass others, and where dots and ovals stand."""

    def __init__(self, layers: Sequence[Layer]) -> None:
        stems = [(layer, stem) for layer in layers if layer.reaches and (stem := _stem(layer.marks))]
        self._places = [layer.place for layer, _ in stems]
        self._tree = STRtree([LineString(stem.points) for _, stem in stems])
        self._dots = STRtree(
            [
                shapely.Polygon(mark.points)
                for layer in layers if not layer.reaches
                for mark in layer.marks if isinstance(mark, Area)
            ]
        )  # fmt: skip

    def clear(self, layer: Layer, options: Iterable[tuple[Mark, ...]]) -> tuple[Mark, ...]:
        """The first of the ``options`` for a layer whose bars keep clear of other strokes, or clearest."""
        best, most = layer.marks, -1.0
        for marks in options:
            stem = _stem(marks)
            rest = _lines([mark for mark in marks if mark is not stem])
            clear = self._from_stems(rest, layer)
            if clear > most:
                clear = min(clear, self._from_dots(rest))
            if clear > most:
                best, most = marks, clear
            if clear >= 1:
                break
        return best

    def _from_stems(self, bars: BaseGeometry, layer: Layer) -> float:
        """How far from the stems of others, over what is clear."""
        near = self._tree.query(bars, predicate="dwithin", distance=_CLEAR)
        others = [each for each in near if self._places[each] != layer.place]
        return float(shapely.distance(bars, self._tree.geometries[others]).min(initial=_CLEAR)) / _CLEAR

    def _from_dots(self, bars: BaseGeometry) -> float:
        near = self._dots.query(bars, predicate="dwithin", distance=_CLEAR_OF_DOTS)
        distances = shapely.distance(bars, self._dots.geometries[near])
        return float(distances.min(initial=_CLEAR_OF_DOTS)) / _CLEAR_OF_DOTS


def _stem(marks: Sequence[Mark]) -> Line | None:
    """The longest of the lines."""
    lines = [mark for mark in marks if isinstance(mark, Line)]
    return max(lines, key=_length, default=None)


def _length(line: Line) -> float:
    return sum(map(math.dist, line.points, line.points[1:]))


def halo(marks: Sequence[Mark]) -> BaseGeometry:
    """What a layer of hatching leaves white about the marks."""
    return _lines(marks).buffer(GAP + STROKES[Pen.SYMBOL].width / 2, quad_segs=3)


def without(lines: BaseGeometry | Shapes, cover: BaseGeometry, shortest: float = 0.0) -> Iterator[LineString]:
    """What is left of lines outside the cover, but nothing as short as ``shortest``."""
    left = shapely.difference(lines, cover)
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


def _cut(stem: Line, line: LineString, over: BaseGeometry) -> Iterator[Line]:
    """What is left of a stem beside those that pass over it."""
    cover = over.buffer(GAP + STROKES[Pen.SYMBOL].width, quad_segs=3)
    for part in without(line, cover, _SHORTEST):
        yield Line(points_of(part), stem.pen)
