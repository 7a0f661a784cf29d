"""How the garment on the figure looks: ridges and colour of the bands, and the panel's pattern."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from shapely import LineString, Polygon, unary_union
from shapely.geometry.base import BaseGeometry

from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Point, between
from schematics.drawing.ink.texture import BESIDE, every_nth, fine_lines
from schematics.drawing.pieces.body_outline import BODY, PANEL
from schematics.drawing.pieces.piece_texture import (
    RIDGE,
    draw_colour,
    draw_texture_within,
    draw_tint,
    shade_of,
)
from schematics.drawing.pieces.view import View
from schematics.drawing.worn.drape import Worn
from schematics.drawing.worn.worn_figures import Both, Place, Standing
from schematics.garment.garment import Garment

_SEEN = 0.5
"""Of a ring's ridges."""


def draw_looks(block: Block, both: Both, down: Place, level: Place, names: Sequence[str]) -> None:
    """Draw the rows and ridges of both garments, wherever nothing is written or dimensioned."""
    for standing, place, name in zip((both.down, both.level), (down, level), names, strict=True):
        _draw_look(block, standing, both.hanging.garment, place, name)


def _draw_look(block: Block, standing: Standing, garment: Garment, place: Place, name: str) -> None:
    worn = standing.worn
    if worn is None:
        return
    ridges = [*_round_neck(worn, garment, place), *_along_arms(worn, garment, place)]
    block.add("texture", f"bands, {name}", fine_lines(block, ridges))
    body = garment.piece(BODY)
    draw_tint(block, f"body, {name}", shade_of(body), Polygon(place.points(worn.cloth.exterior)))
    view = View(scale=place.scale)
    top = place.middle, view.point(0.0, worn.neck_band.bounds[1])[1]
    front = _front(worn, place)
    draw_tint(block, f"panel, {name}", shade_of(garment.piece(PANEL)), front)
    draw_texture_within(block, "motif", f"panel, {name}", garment.piece(PANEL), view, top, front, BESIDE)
    named = (("neck band", (worn.neck_band,)), ("arm band", worn.arm_bands))
    for piece, band in ((garment.piece(each), band) for each, bands in named for band in bands):
        draw_colour(block, piece, Polygon(place.points(band.exterior)))


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


def _front(worn: Worn, place: Place) -> BaseGeometry:
    """The panel as it is seen, on paper."""
    if len(worn.panel_seams) < 2:
        return Polygon()
    left, right = (list(seam.coords) for seam in worn.panel_seams)
    between_seams = Polygon([*left, *reversed(right)]).convex_hull
    seen = between_seams.intersection(worn.cloth).difference(unary_union([worn.neck_band, *worn.arm_bands]))
    parts = [part for part in getattr(seen, "geoms", [seen]) if isinstance(part, Polygon)]
    if not parts:
        return Polygon()
    largest = max(parts, key=lambda part: part.area)
    return Polygon(place.points(largest.exterior))
