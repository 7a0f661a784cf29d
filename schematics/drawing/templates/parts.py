"""What each page shows of a template: its lines, cut at the edges, and words where they are in nobody's way.

Everything is in the template's own millimetres.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product

import shapely
from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint
from shapely.geometry.base import BaseGeometry

from schematics.document.lettering.text import LARGE, SMALL
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.labeller import draw_label, upright
from schematics.drawing.ink.leaders import Spot
from schematics.drawing.ink.marks import (
    Group,
    Label,
    Line,
    Mark,
    Point,
    along,
    arrowhead,
    between,
    opposite,
    unit,
)
from schematics.drawing.ink.page import Box
from schematics.drawing.pieces.view import line_parts
from schematics.drawing.templates.template import EdgeMarker, Template, Worded
from schematics.units import NEAR

_NAMES = (7.0, 5.0, LARGE)
"""Heights of the capitals of a piece's name, in mm, best first."""

GUIDE = "for blocking: finished measurements, no pattern for cutting"
"""What a template is."""

_ARROW, _HEAD, _ROUND = (40.0, 25.0, 15.0), 6.0, 3.0
"""Lengths of the arrow of work, best first, that of its head, and free space round it, in mm."""

_ASIDE = (0.0, 15.0, -15.0, 30.0, -30.0)
"""How far beside its place the arrow of work is tried, in mm."""

_ALONG = (0.5, 0.35, 0.65, 0.2, 0.8)
_BESIDE = (3.6, 4.6, 6.0, 8.0, 11.0, -3.6, -4.6, -6.0)
"""Where along a line its words are tried, and how far into the fabric, in mm."""

_TURNS = (0, 20, -20, 40, -40, 60, -60)
_OFF = (3.0, 6.0, 10.0, 15.0, 22.0, 30.0, 40.0, 55.0, 70.0)
_NEAR, _STARTS = 3.0, (1.5, 7.5)
"""How words are tried round a point: degrees from straight into the fabric, and mm from the point.

Farther off than the nearest they have a line, which starts so far from the point: a cross may be there.
"""

_GRID = 8.0
"""In mm, of the places that are tried for the piece's name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TileWindow:
    """A part of a template: what is cut out, where words may be in it, and what else is drawn there."""

    cut: Box
    words: Box
    marks: tuple[Group, ...] = ()

    def holds(self, label: Label, spot: Spot) -> bool:
        """Whether the label is where words may be."""
        corners = label.corners(spot.centre, spot.angle)
        return all(
            self.words.x0 <= x <= self.words.x1 and self.words.y0 <= y <= self.words.y1 for x, y in corners
        )


def draw_parts(template: Template, size: str, windows: Sequence[TileWindow]) -> list[Block]:
    """The template of that size as the windows show it, a block each, in the template's millimetres."""
    places = [(window, _cut_out(template, window)) for window in windows]
    _draw_arrow(template, places)
    for marker in template.markers:
        _name_marker(marker, places)
    for stretch in template.named:
        _name_stretch(stretch, places)
    _name_piece(template, size, places)
    return [block for _, block in places]


_Place = tuple[TileWindow, Block]
_Places = Sequence[_Place]
_Room = tuple[BaseGeometry, _Place]


def _shape(box: Box) -> Polygon:
    return shapely.box(box.x0, box.y0, box.x1, box.y1)


def _points(line: LineString) -> tuple[Point, ...]:
    return tuple((x, y) for x, y, *_ in line.coords)


def _cut_out(template: Template, window: TileWindow) -> Block:
    block = Block()
    for kind, line in template.lines:
        marks = [Line(_points(part), line.pen) for part in _within(LineString(line.points), window.cut)]
        if marks:
            block.add(kind, template.name, marks)
    for group in window.marks:
        block.add(group.kind, group.name, group.marks)
    return block


def _draw_arrow(template: Template, places: _Places) -> None:
    """The arrow of work, with its words, on or beside the first of its places where it is whole on a page."""
    label = Label(("direction of work",), LARGE)
    for length, (start, end), aside, share in product(_ARROW, template.arrow_places, _ASIDE, _ALONG):
        distance = math.dist(start, end)
        if distance < length:
            continue
        run = unit(start, end)
        across = run[1], -run[0]
        tail = along(along(start, run, (distance - length) * share), across, aside)
        tip = along(tail, run, length)
        marks: list[Mark] = [Line((tail, tip)), arrowhead(tip, run, _HEAD)]
        middle = between(tail, tip)
        beside = [
            Spot(along(middle, across, side * away), upright(run))
            for away, side in product((4.0, 5.0), (1, -1))
        ]
        for place in places:
            if not _shape(place[0].words).intersection(template.fabric).contains(LineString((tail, tip))):
                continue
            if place[1].is_empty(marks, clear=_ROUND):
                spots = _held(place, label, beside)
                if draw_label(place[1], "work", template.name, label, spots, beside=marks, optional=True):
                    return
    places[0][1].unplaced.append("direction of work")


def _name_marker(marker: EdgeMarker, places: _Places) -> None:
    """What a marker says, on the page on which most is round it."""
    label, at = Label(marker.words, LARGE), ShapelyPoint(marker.at)
    showing = [place for place in places if _shape(place[0].cut).contains(at)]
    showing.sort(key=lambda place: -round(_depth(place[0], at), 6))
    for place in showing:
        inside = [*_round_point(marker.at, marker.inward, label)]
        outside = _round_point(marker.at, opposite(marker.inward), label)
        spots = sorted((*inside, *outside), key=lambda spot: spot.line is not None)
        if _write(place, "marker-number", label, spots):
            return
    places[0][1].unplaced.append(marker.words[0])


def _depth(window: TileWindow, at: ShapelyPoint) -> float:
    """How far in mm the point is within where words may be, negative outside."""
    inside = _shape(window.words)
    distance: float = inside.exterior.distance(at)
    return distance if inside.contains(at) else -distance


def _write(place: _Place, kind: str, label: Label, spots: Iterable[Spot]) -> bool:
    """Write words at the first of the spots that is free, if one is."""
    spot = draw_label(place[1], kind, label.lines[0], label, _held(place, label, spots), optional=True)
    return spot is not None


def _round_point(at: Point, ahead: Point, label: Label) -> Iterator[Spot]:
    """Upright words off a point, nearest first."""
    width, height = label.size
    for off, turn in product(_OFF, _TURNS):
        cosine, sine = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        direction = ahead[0] * cosine - ahead[1] * sine, ahead[0] * sine + ahead[1] * cosine
        tip = along(at, direction, off)
        sides = [(width, abs(direction[0])), (height, abs(direction[1]))]
        reach = min((size / 2 + 1.0) / share for size, share in sides if share > NEAR)
        centre = along(tip, direction, reach)
        if off <= _NEAR:
            yield Spot(centre)
        else:
            yield from (
                Spot(centre, line=(along(at, direction, start), tip)) for start in _STARTS if start < off
            )


def _name_stretch(stretch: Worded, places: _Places) -> None:
    """The words along a line, on every page that shows enough of it, and on one at least.

    Where there is room its length is written too.
    """
    label, line = Label((stretch.words,), LARGE), LineString(stretch.points)
    with_length = Label((f"{stretch.words}, {stretch.length}",), LARGE)
    labels = (with_length, label) if stretch.length else (label,)
    parts = [(part, place) for place in places for part in _within(line, place[0].words)]
    written = [_write_along(part, place, labels) for part, place in parts]
    if True in written:
        return
    shown = [(part, place) for place in places for part in _within(line, place[0].cut)]
    for part, place in sorted(shown, key=lambda each: -round(each[0].length, 6)):
        off = (spot for tip in _sides(part) for spot in _round_point(*tip, label))
        if _write(place, "edge-name", label, (*_beside(part), *off)):
            return
    places[0][1].unplaced.append(stretch.words)


def _write_along(line: LineString, place: _Place, labels: Iterable[Label]) -> bool:
    """Write the first of the labels that is no longer than the line and has room along it."""
    return any(
        line.length >= label.size[0] and _write(place, "edge-name", label, _beside(line)) for label in labels
    )


def _within(line: LineString, box: Box) -> list[LineString]:
    """The parts of a line within a box."""
    return [part for part in line_parts(line.intersection(_shape(box))) if part.length > NEAR]


def _at(line: LineString, share: float) -> tuple[Point, Point]:
    """The point at that share of a line and its direction there."""
    middle, reach = line.length * share, min(1.0, line.length / 4)
    before, at, after = (line.interpolate(middle + step) for step in (-reach, 0.0, reach))
    return (at.x, at.y), unit((before.x, before.y), (after.x, after.y))


def _beside(line: LineString) -> Iterator[Spot]:
    """Words along the line, inside the fabric first."""
    for share, away in product(_ALONG, _BESIDE):
        at, run = _at(line, share)
        yield Spot(along(at, (run[1], -run[0]), away), upright(run))


def _sides(line: LineString) -> Iterator[tuple[Point, Point]]:
    """Points of the line with the directions off it."""
    for share in _ALONG:
        at, run = _at(line, share)
        inward = run[1], -run[0]
        yield from ((at, inward), (at, opposite(inward)))


def _name_piece(template: Template, size: str, places: _Places) -> None:
    """Name and size, as large as may be, where there is most fabric; what it is for, if that has room."""
    paper = [(_shape(place[0].words), place) for place in places]
    fabric = [(template.fabric.intersection(shape), place) for shape, place in paper]
    fabric.sort(key=lambda each: -round(each[0].area, 3))
    name, (first, _, rest) = (template.heading, f"size {size}"), GUIDE.partition(": ")
    names = [Label(each, height, bold=True) for height in _NAMES for each in (name, (", ".join(name),))]
    guide = (GUIDE,), (f"{first}:", *rest.split(", "))
    guides = [Label(each, height) for height in (LARGE, SMALL) for each in guide]
    if not _write_anywhere((fabric, paper), "name", names):
        places[0][1].unplaced.append(template.name)
    _write_anywhere((fabric, paper), "guide", guides)


def _write_anywhere(rooms: Iterable[Sequence[_Room]], kind: str, labels: Sequence[Label]) -> bool:
    """Write one of the labels in the first room that takes it, level if it can be."""
    return any(
        _write_within(room, place, kind, label, angle)
        for each in rooms
        for room, place in each
        for angle in (0.0, -90.0)
        for label in labels
    )


def _write_within(room: BaseGeometry, place: _Place, kind: str, label: Label, angle: float) -> bool:
    """Write words where there is room, as near to its middle as can be."""
    if room.is_empty:
        return False
    x0, y0, x1, y1 = room.bounds
    middle = (x0 + x1) / 2, (y0 + y1) / 2
    columns, rows = (math.floor((high - low) / _GRID / 2) for low, high in ((x0, x1), (y0, y1)))
    centres = [
        (middle[0] + column * _GRID, middle[1] + row * _GRID)
        for row in range(-rows, rows + 1)
        for column in range(-columns, columns + 1)
    ]
    centres.sort(key=lambda centre: (round(math.dist(centre, middle), 3), centre))
    inside = (Spot(centre, angle) for centre in centres if room.contains(label.box(centre, angle)))
    return _write(place, kind, label, inside)


def _held(place: _Place, label: Label, spots: Iterable[Spot]) -> Iterator[Spot]:
    """Those of the spots that are free where words may be; no line runs between those of the label."""
    window, block = place
    return (
        spot for spot in spots if window.holds(label, spot) and block.free(label, spot.centre, spot.angle)
    )
