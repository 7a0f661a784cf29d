"""The neck band's picture: the neck seen from above, the wearer's front below, the band inside its edge."""

from __future__ import annotations

import math

from shapely import LinearRing, LineString, Polygon
from shapely.affinity import translate
from shapely.ops import nearest_points

from schematics.document.lettering.text import Font
from schematics.drawing.assembly.step_canvas import Canvas, beside, stretch
from schematics.drawing.ink.marks import Line, Pen, Point, unit
from schematics.drawing.ink.scale import to_mm
from schematics.drawing.pieces.body_outline import PANEL, BodyOutline
from schematics.drawing.pieces.view import View
from schematics.garment.garment import Garment

_ACROSS = 19.0
"""Width of the neck on paper, in mm."""

_DEEPEST = 0.6
"""Of half the neck's width: how deep the band is drawn at most, for it stands up."""

_FABRIC = 9.5
"""So much fabric is shown round the neck, in mm."""

_FLAT = 0.1
"""How much wider or narrower than the panel a neck hole's gap may be that is drawn in its own shape."""

_SHORT_OF = 0.6
"""The line to the triangle that shows where yarn is joined ends so far from it, in mm."""

_WORK_OFF, _RIB, _WAVE, _SWING, _STEPS = 2.4, 1.1, 4.0, 0.5, 180
_LETTERED = (0.5, 0.6, 0.4, 0.3, 0.7)
_WORK_ALONG = tuple(0.04 + 0.005 * step for step in range(41))


def neck_ring(garment: Garment) -> LineString:
    """The neck edge from the centre back round by the wearer's left, y up, its front below.

    A hole that closes where the panel lies in it has its own shape; any other is a circle. Its length is that
    of the edge in cm.
    """
    outline, top = BodyOutline(garment), garment.piece(PANEL).edge("top").length_cm
    right = [(x, y) for x, y, *_ in outline.path(outline.front_neck, outline.nape).coords]
    if abs(2 * right[0][0] - top) <= _FLAT * top and all(x > 0 for x, _ in right[:-1]):
        left = [(-x, y) for x, y in reversed(right)]
        ring = LineString([(-x, -y) for x, y in (*left, *right)])
        if ring.is_simple:
            return translate(ring, 0, -(ring.bounds[1] + ring.bounds[3]) / 2)
    radius = garment.neck.edge_cm / math.tau
    turns = (math.tau * step / _STEPS for step in range(_STEPS + 1))
    return LineString([(radius * math.sin(turn), radius * math.cos(turn)) for turn in turns])


def neck_picture(garment: Garment, font: Font | None) -> Canvas:
    """Where yarn is joined, which way the edge is worked round, and where the panel and its seams are."""
    ring = neck_ring(garment)
    canvas = Canvas(View(scale=(ring.bounds[2] - ring.bounds[0]) * 10 / _ACROSS), font)
    top = garment.piece(PANEL).edge("top").length_cm / ring.length
    at_b, at_a = (ring.interpolate(0.5 + side * top / 2, normalized=True) for side in (-1, 1))
    parts = stretch(ring, 0, at := ring.project(at_b)), stretch(ring, ring.project(at_a), ring.length)
    canvas.draw("fabric", "neck edge", parts, Pen.OUTLINE)
    canvas.draw("fabric", "panel", [stretch(ring, at, ring.project(at_a))], Pen.OUTLINE)
    _draw_band(canvas, ring, garment)
    edge = canvas.line(ring)
    around = Polygon(edge).buffer(_FABRIC)
    for letter, place in (("A", at_a), ("B", at_b)):
        x, y = canvas.view.point(place.x, place.y)
        canvas.block.add("seam", letter, [Line(((x, y), (x, _foot(around, x))), Pen.SEAM)])
    canvas.block.add("break", "fabric", [Line(_waved(around.exterior))])
    work = [edge.interpolate(share, normalized=True) for share in _WORK_ALONG]
    canvas.arrow("work", beside(LineString(work), -_WORK_OFF))
    foot = canvas.triangle("neck", (0.0, edge.coords[0][1] - 0.5), (0.0, 1.0))
    low = around.bounds[3]
    for letter, place, side in (("A", at_a, -1), ("B", at_b, 1)):
        x, y = canvas.view.point(place.x, place.y)
        spots = ((x + side * off, y + (low - y) * share) for off in (3.4, 4.4) for share in _LETTERED)
        canvas.letter(letter, spots, ((x, y + (low - y) / 2), (side, 0.6)))
    bottom = canvas.view.point(at_a.x, at_a.y)[1]
    centres = [(0.0, bottom + (low - bottom) * share) for share in _LETTERED]
    below = 0.0, low + canvas.label("panel").size[1] / 2 + 1.4
    canvas.words("note", "panel", ("panel",), (*centres, below))
    label, above = canvas.label("join yarn at", "the centre back"), around.bounds[1] - 1.2
    height = label.size[1]
    canvas.block.add("pointer", "join yarn", [Line(((0.0, above), (0.0, foot[1] - _SHORT_OF)), Pen.LEADER)])
    canvas.words("note", "join yarn", label.lines, [(0.0, above - height / 2 - 1.0)])
    return canvas


def _foot(around: Polygon, x: float) -> float:
    """How far down a shape on paper goes there."""
    x0, y0, x1, y1 = around.bounds
    bottom: float = around.intersection(LineString([(x, (y0 + y1) / 2), (x, y1 + 1)])).bounds[3]
    return bottom if x0 < x < x1 else y1


def _draw_band(canvas: Canvas, ring: LineString, garment: Garment) -> None:
    """The band inside the edge, as deep as it is if there is room."""
    x0, y0, x1, y1 = ring.bounds
    depth = min(garment.neck.band_depth_cm, _DEEPEST * min(x1 - x0, y1 - y0) / 2)
    rim = Polygon(ring).buffer(-depth, join_style="mitre").exterior
    canvas.draw("band", "neck band", [LineString(rim)], Pen.OUTLINE)
    ridges = max(1, garment.neck.edge_count // 2)
    every = max(1, math.ceil(ridges / (to_mm(ring.length, canvas.view.scale) / _RIB)))
    ribs = []
    for place in range(0, ridges, every):
        at = ring.interpolate(place / ridges, normalized=True)
        ribs.append(LineString([at, nearest_points(rim, at)[0]]))
    canvas.draw("band", "ribs", ribs, Pen.TEXTURE)


def _waved(outline: LinearRing) -> tuple[Point, ...]:
    """A line that breaks fabric off, round an outline on paper."""
    waves = round(outline.length / _WAVE)
    count = waves * 8
    points = []
    for step in range(count + 1):
        at = outline.interpolate(step / count, normalized=True)
        near = outline.interpolate((step + 0.5) / count % 1.0, normalized=True)
        across = unit((at.x, at.y), (near.x, near.y))
        swing = _SWING * math.sin(math.tau * step / 8)
        points.append((at.x - across[1] * swing, at.y + across[0] * swing))
    return (*points[:-1], points[0])
