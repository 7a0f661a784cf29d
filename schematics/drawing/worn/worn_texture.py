"""How the garment on the figure looks: ridges of the bands, and the panel's pattern down its front."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import shapely
from shapely import LineString, Polygon, unary_union
from shapely.geometry.base import BaseGeometry

from schematics.drawing.ink.block import Block, mark_shape
from schematics.drawing.ink.marks import Circle, Line, Mark, Point, between, moved
from schematics.drawing.ink.taken import shapes_of
from schematics.drawing.ink.texture import BESIDE, every_nth, fine_lines, what_is_read
from schematics.drawing.pieces.body_outline import PANEL
from schematics.drawing.pieces.piece_texture import RIDGE, draw_texture
from schematics.drawing.pieces.view import View, line_parts
from schematics.drawing.worn.drape import Worn
from schematics.drawing.worn.worn_figures import Both, Place, Standing
from schematics.garment.garment import Garment

_SEEN = 0.5
"""Of a ring's ridges."""


def draw_looks(block: Block, both: Both, down: Place, level: Place, names: Sequence[str]) -> None:
    """Both garments, wherever nothing is written or dimensioned."""
    for standing, place, name in zip((both.down, both.level), (down, level), names, strict=True):
        _draw_look(block, standing, both.hanging.garment, place, name)


def _draw_look(block: Block, standing: Standing, garment: Garment, place: Place, name: str) -> None:
    worn = standing.worn
    if worn is None:
        return
    ridges = [*_round_neck(worn, garment, place), *_along_arms(worn, garment, place)]
    block.add("texture", f"bands, {name}", fine_lines(block, ridges))
    look = list(_panel_look(block, worn, garment, place))
    if look:
        block.add("motif", f"panel, {name}", look)


def _round_neck(worn: Worn, garment: Garment, place: Place) -> Iterator[list[Point]]:
    """Ridges of the half that is seen, evenly along the neck edge."""
    corners = list(worn.neck_band.exterior.coords)[:-1]
    lower = LineString(corners[: len(corners) // 2])
    depth = garment.neck.band_depth_cm
    for share in _shares(garment.neck.band_rows, lower.length, place):
        foot = lower.interpolate(share, normalized=True)
        yield [place.point(foot.x, foot.y), place.point(foot.x, foot.y + depth)]


def _along_arms(worn: Worn, garment: Garment, place: Place) -> Iterator[list[Point]]:
    """Ridges along the arm, evenly across the half of each band that is seen."""
    for band in worn.arm_bands:
        outer, outer_end, inner_end, inner = (place.point(x, y) for x, y in band.exterior.coords[:4])
        across = math.dist(outer, inner) * place.scale / 10
        for share in _shares(garment.arm.ring.band_rows, across, place):
            yield [between(outer, inner, share), between(outer_end, inner_end, share)]


def _shares(rows: int, length_cm: float, place: Place) -> Iterator[float]:
    """Where ridges are drawn along what is so long, all or every so many."""
    ridges = math.floor(rows / RIDGE * _SEEN)
    if ridges:
        nth = every_nth(length_cm * 10 / place.scale / ridges)
        yield from ((at + nth / 2) / ridges for at in range(0, ridges - nth + 1, nth))


def _panel_look(block: Block, worn: Worn, garment: Garment, place: Place) -> Iterator[Mark]:
    """The panel's pattern between its seams, its top where the neck edge is lowest."""
    piece = garment.piece(PANEL)
    flat = Block()
    draw_texture(flat, piece, View(scale=place.scale), worn.neck_band.bounds[1] - piece.outline.bounds[3])
    marks = [moved(mark, place.middle, 0.0) for group in flat.groups for mark in group.marks]
    front = _front(worn, place)
    lines = [mark for mark in marks if isinstance(mark, Line)]
    if not lines or front.is_empty:
        return
    inside = shapely.intersection(shapes_of([mark_shape(line) for line in lines]), front)
    paths = [[(x, y) for x, y in part.coords] for shape in inside for part in line_parts(shape)]
    yield from fine_lines(block, paths)
    free = front.difference(what_is_read(block))
    yield from (mark for mark in marks if isinstance(mark, Circle) and free.contains(mark_shape(mark)))


def _front(worn: Worn, place: Place) -> BaseGeometry:
    """The panel as it is seen, on paper, clear of its edges."""
    if len(worn.panel_seams) < 2:
        return Polygon()
    left, right = (list(seam.coords) for seam in worn.panel_seams)
    between_seams = Polygon([*left, *reversed(right)]).convex_hull
    seen = between_seams.intersection(worn.cloth).difference(unary_union([worn.neck_band, *worn.arm_bands]))
    parts = [part for part in getattr(seen, "geoms", [seen]) if isinstance(part, Polygon)]
    if not parts:
        return Polygon()
    largest = max(parts, key=lambda part: part.area)
    return Polygon(place.points(largest.exterior)).buffer(-BESIDE, join_style="mitre")
