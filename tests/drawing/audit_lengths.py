"""What a sheet says against what it shows: labels against the outline they are read on, areas, scale.

Each function gives one sentence per fault, none for a good sheet. Lengths are measured on the drawn
outline, in mm, times the scale of the title block; the garment says only what ought to be there.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import chain

import numpy as np
import shapely
from shapely import LinearRing, LineString, Polygon
from shapely import Point as ShapelyPoint
from shapely.ops import substring

from schematics.garment.garment import Finished, Garment, Piece, Span
from tests.drawing.readback import Dimension, Page, Point

_NEAR = 0.02
"""Coordinates have three decimals; this is on a line, in mm."""

_IN_LINE = 0.1
"""A tail no farther than this off the line through both arrows, in mm, is on it: an arc is not so flat."""


def length_faults(page: Page, garment: Garment, unplaced: Sequence[str] = ()) -> list[str]:
    """Every fault in what a sheet says of a garment; ``unplaced`` is what it says it has no room for."""
    return list(
        chain(
            _area_faults(page, garment),
            _presence_faults(page, garment, unplaced),
            *(_dimension_faults(page, each, garment) for each in page.dimensions()),
            _leader_faults(page, garment),
        )
    )


def _cm2(page: Page, drawn: Polygon) -> float:
    return drawn.area * page.scale**2 / 100


def _area_faults(page: Page, garment: Garment) -> Iterator[str]:
    """Outlines that have not the piece's area, or half of it where half is drawn."""
    drawn = list(page.outlines.values())
    if len(drawn) != len(garment.pieces):
        yield f"{len(drawn)} outlines drawn of {len(garment.pieces)} pieces"
        return
    for outline, piece in zip(drawn, garment.pieces, strict=True):
        halves = 1 if not piece.on_fold or is_half(garment, piece) else 2
        expected = halves * piece.outline.area
        rounding = 0.0007 * outline.length * page.scale**2 / 100
        if not math.isclose(_cm2(page, outline), expected, rel_tol=1e-3, abs_tol=rounding):
            yield f"{piece.name} is drawn {_cm2(page, outline):.2f} cm2 and is {expected:.2f} cm2"


def is_half(garment: Garment, piece: Piece) -> bool:
    """A body whose halves laid flat would lie over each other is drawn by its right half."""
    over_a_circle = garment.opening_angle is not None and garment.opening_angle > math.tau
    return piece.on_fold and (over_a_circle or piece.outline.bounds[0] < -1e-6)


def group_id(kind: str, key: str) -> str:
    return f"{kind}-" + re.sub(r"[^a-zA-Z0-9.-]+", "-", key)


def _presence_faults(page: Page, garment: Garment, unplaced: Sequence[str]) -> Iterator[str]:
    """Measurements that are to be read on a piece and are not on the sheet."""
    drawn = {*page.groups("dimension"), *page.groups("leader")}
    for piece in garment.pieces:
        for span in piece.spans:
            kinds = ("leader",) if span.whole_edge else ("dimension", "leader")
            if span.key not in unplaced and not drawn & {group_id(kind, span.key) for kind in kinds}:
                yield f"{span.key} is not on the sheet"


def labelled(label: str) -> tuple[float, float, int | None]:
    """Centimetres, centimetres by its inches, and the count of a label."""
    cm = re.search(r"(\d+(?:\.\d{1,2})?) cm", label)
    inches = re.search(r"(?:(\d+) )?(?:(\d+/\d+)|(\d+)) in\b", label)
    count = re.search(r"(\d+) (?:sts?|rows?)\b", label)
    if cm is None or inches is None:
        raise ValueError(f"no length in {label!r}")
    whole, fraction, alone = inches.groups()
    total = Fraction(whole or 0) + Fraction(fraction or alone)
    return float(cm[1]), float(total) * 2.54, int(count[1]) if count else None


def _label_faults(group: str, label: str, drawn_cm: float, item: Finished, *, half: bool) -> Iterator[str]:
    """A label against the length drawn: rounded as it should be, and the exact one within 0.1 %."""
    if ("half of" in label) is not half:
        yield f"{group}: {label!r} is {'not ' * half}said to be half"
    whole = drawn_cm * (2 if half else 1)
    yield from _says(group, label, whole, parts=2 if item.key in NARROW else 1)
    _, _, count = labelled(label)
    if not math.isclose(whole, item.length_cm, rel_tol=1e-3, abs_tol=0.02):
        yield f"{group}: {whole:.3f} cm is drawn where {item.length_cm:.3f} cm is meant"
    if count != item.count:
        yield f"{group}: says {count} where {item.count} {item.counted} are meant"


def overall_faults(page: Page) -> Iterator[str]:
    """Straight dimensions whose extension lines are not as far apart, times the scale, as the label says."""
    for dimension in page.dimensions():
        if any(math.dist(*pair) > _NEAR for pair in zip(dimension.tips, dimension.ends, strict=True)):
            yield f"{dimension.group}: an arrow is not 2 mm from the end of its extension line"
        yield from _says(dimension.group, dimension.label, math.dist(*dimension.ends) * page.scale / 10)


NARROW = {
    "panel.width", "neck_band.depth", "arm_band.depth", "body.slot", "body.neck_front", "body.neck_back",
    "arm.run", "arm.opening", "arm_band.length",
}  # fmt: skip
"""What is printed twice as finely as the rest."""


def _says(group: str, label: str, drawn_cm: float, parts: int = 1) -> Iterator[str]:
    """A label against a length, rounded to 0.5 cm and 1/4 in, or to one of so many parts of them."""
    cm, inches_cm, _ = labelled(label)
    if abs(cm - drawn_cm) > 0.25 / parts + 0.05:
        yield f"{group}: says {cm} cm where {drawn_cm:.2f} cm is drawn"
    if abs(inches_cm - drawn_cm) > 2.54 / 8 / parts + 0.05:
        yield f"{group}: says {inches_cm / 2.54} in where {drawn_cm / 2.54:.2f} in is drawn"


def _dimension_faults(page: Page, dimension: Dimension, garment: Garment) -> Iterator[str]:
    found = _measured(garment, "dimension", dimension.group)
    if found is None:
        yield f"{dimension.group} is no measurement of the garment"
        return
    piece, span, item = found
    drawn = page.outlines.get(group_id("outline", piece.name))
    if drawn is None:
        yield f"{dimension.group}: there is no {piece.name}"
        return
    outline = drawn.exterior
    for foot in dimension.feet:
        if outline.distance(ShapelyPoint(foot)) > _NEAR:
            yield f"{dimension.group}: an extension line does not start 1 mm off the outline, at {foot}"
            return
    yield from _line_faults(dimension, outline)
    drawn_cm = measured_mm(outline, dimension) * page.scale / 10
    half = span.crosses_fold and is_half(garment, piece)
    yield from _label_faults(dimension.group, dimension.label, drawn_cm, item, half=half)


def measured_cm(page: Page, dimension: Dimension, garment: Garment) -> tuple[Finished, float]:
    """The measurement that a dimension of the garment stands for, and how long it is drawn, both halves."""
    found = _measured(garment, "dimension", dimension.group)
    if found is None:
        raise ValueError(f"{dimension.group} is no measurement of the garment")
    piece, span, item = found
    outline = page.outlines[group_id("outline", piece.name)].exterior
    halves = 2 if span.crosses_fold and is_half(garment, piece) else 1
    return item, halves * measured_mm(outline, dimension) * page.scale / 10


def _line_faults(dimension: Dimension, outline: LinearRing) -> Iterator[str]:
    """Arrows that are not where the extension lines say, and lines nearer than ISO 129-1 asks."""
    pairs = zip(dimension.tips, dimension.ends, strict=True)
    if any(math.dist(tip, end) > _NEAR for tip, end in pairs):
        yield f"{dimension.group}: an arrow is not 2 mm from the end of its extension line"
    if len(dimension.lines) == 0:
        yield f"{dimension.group}: has no line"
    elif any(
        math.dist(tip, foot) < 10 - _NEAR for tip, foot in zip(dimension.tips, dimension.feet, strict=True)
    ):
        yield f"{dimension.group}: its line is less than 10 mm off the outline"


def measured_mm(outline: LinearRing, dimension: Dimension) -> float:
    """Straight lines measure from foot to foot, arcs and bent ones along the outline."""
    chord = LineString(dimension.tips)
    inner = [line for line in dimension.lines if not _is_tail(line, dimension)]
    if all(chord.distance(ShapelyPoint(at)) < _NEAR for line in inner for at in line.coords) and (
        inner or _tails_in_line(dimension)
    ):
        return math.dist(*dimension.feet)
    return _stretch(outline, dimension).length


def _tails_in_line(dimension: Dimension) -> bool:
    """Whether the tails of arrows that point in lie on one line; those at the ends of an arc touch it."""
    (x0, y0), (x1, y1) = dimension.tips
    ends = [at for line in dimension.lines for at in line.coords]
    areas = (abs((x1 - x0) * (y - y0) - (x - x0) * (y1 - y0)) for x, y, *_ in ends)
    return all(area < _IN_LINE * math.dist(*dimension.tips) for area in areas)


def _stretch(outline: LinearRing, dimension: Dimension) -> LineString:
    """The part of the outline between the feet that the dimension line is parallel to."""
    lane = math.dist(dimension.feet[0], dimension.tips[0])
    samples = [
        line.interpolate(share, normalized=True)
        for line in dimension.lines
        if not _is_tail(line, dimension)
        for share in (0.1, 0.3, 0.5, 0.7, 0.9)
    ]

    def astray(stretch: LineString) -> float:
        return max((abs(stretch.distance(sample) - lane) for sample in samples), default=0.0)

    first, second = (_positions(outline, foot) for foot in dimension.feet)
    ways = [way for a in first for b in second for way in _both_ways(outline, a, b)]
    most_parallel = min(astray(way) for way in ways)
    return min((way for way in ways if astray(way) < most_parallel + 0.05), key=lambda way: way.length)


def _is_tail(line: LineString, dimension: Dimension) -> bool:
    """Whether it leads away from what is measured, to an arrow that points in from outside."""
    ends = [(x, y) for x, y, *_ in line.coords]
    for tip, other in (dimension.tips, dimension.tips[::-1]):
        inner, outer = sorted((ends[0], ends[-1]), key=lambda end: math.dist(end, tip))
        if (
            len(ends) == 2
            and math.dist(inner, tip) < _NEAR
            and math.dist(outer, other) > math.dist(tip, other)
        ):
            return True
    return False


def _positions(ring: LinearRing, point: Point) -> list[float]:
    """Where along the ring the point lies: twice where the ring touches itself."""
    at = ShapelyPoint(point)
    corners = shapely.get_coordinates(ring)
    sides = np.asarray(shapely.linestrings(np.stack([corners[:-1], corners[1:]], axis=1)))
    starts = np.cumsum([0.0, *shapely.length(sides)])
    found: list[float] = []
    for i in np.flatnonzero(shapely.distance(sides, at) < _NEAR):
        here = (starts[i] + shapely.line_locate_point(sides[i], at)) % ring.length
        if all(abs(math.remainder(here - other, ring.length)) > 2 * _NEAR for other in found):
            found.append(here)
    return found


def _both_ways(ring: LinearRing, a: float, b: float) -> tuple[LineString, LineString]:
    low, high = min(a, b), max(a, b)
    line = LineString(ring.coords)
    before, between, after = (
        [(x, y) for x, y, *_ in substring(line, start, end).coords]
        for start, end in ((0, low), (low, high), (high, line.length))
    )
    return LineString(_at_least_two(between)), LineString(_at_least_two([*after, *before]))


def _at_least_two(points: Sequence[Point]) -> list[Point]:
    """The points of a line, one of no length where there is but one."""
    return [*points, points[-1]] if len(points) == 1 else list(points)


def _leader_faults(page: Page, garment: Garment) -> Iterator[str]:
    """Labels with an arrow against the length of the stretch of outline that the arrow touches."""
    for leader in page.leaders():
        found = _measured(garment, "leader", leader.group)
        if found is None:
            continue
        piece, span, item = found
        drawn = page.outlines.get(group_id("outline", piece.name), Polygon())
        edge = whole_edge(page, drawn, piece, span, half=is_half(garment, piece)) if drawn else None
        if edge is None:
            yield f"{leader.group}: {span.key} is not on the outline of the {piece.name}"
            continue
        if min(edge.distance(ShapelyPoint(tip)) for tip in _both_sides(leader.tip, drawn, piece)) > 0.05:
            yield f"{leader.group}: its arrow ends {leader.tip}, off its edge"
        if item.name not in leader.label.replace("\n", " "):
            yield f"{leader.group}: {leader.label!r} does not name the {item.name}"
        half = span.crosses_fold and is_half(garment, piece)
        drawn_cm = edge.length * page.scale / 10
        yield from _label_faults(leader.group, leader.label, drawn_cm, item, half=half)


def _both_sides(tip: Point, drawn: Polygon, piece: Piece) -> tuple[Point, ...]:
    """The point and, on a piece drawn with both its halves, its mirror image: edges there come twice."""
    return (tip, (drawn.bounds[0] + drawn.bounds[2] - tip[0], tip[1])) if piece.on_fold else (tip,)


def whole_edge(page: Page, drawn: Polygon, piece: Piece, span: Span, *, half: bool) -> LineString | None:
    """The edge as it is drawn, from end to end past its middle; None if it is not on the outline."""
    x_mid = (drawn.bounds[0] + drawn.bounds[2]) / 2 if piece.on_fold and not half else None
    left = x_mid if x_mid is not None else drawn.bounds[0] - piece.outline.bounds[0] * 10 / page.scale
    top = drawn.bounds[1] + piece.outline.bounds[3] * 10 / page.scale

    def sheet(x: float, y: float) -> Point:
        return left + x * 10 / page.scale, top - y * 10 / page.scale

    path = list(span.path.coords)
    ends = [sheet(*path[0]), sheet(*path[-1])]
    middle = sheet(*span.path.interpolate(0.5, normalized=True).coords[0])
    if span.crosses_fold and not half:
        free = path[-1] if abs(path[0][0]) < 1e-6 else path[0]
        ends = [sheet(*free), sheet(-free[0], free[1])]
    ring = drawn.exterior
    ways = [
        way
        for a in _positions(ring, ends[0])
        for b in _positions(ring, ends[1])
        for way in _both_ways(ring, a, b)
        if way.distance(ShapelyPoint(middle)) < _NEAR
    ]
    return min(ways, key=lambda way: way.length, default=None)


def _measured(garment: Garment, kind: str, group: str) -> tuple[Piece, Span, Finished] | None:
    """The piece, the span and the measurement a group's id stands for."""
    finished = {item.key: item for item in garment.finished}
    for piece in garment.pieces:
        for span in piece.spans:
            if re.fullmatch(re.escape(group_id(kind, span.key)) + r"(-\d+)?", group):
                return piece, span, finished[span.key]
    return None
