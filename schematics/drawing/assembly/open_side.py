"""One half of the joined garment, folded down the centre front and the centre back and laid flat.

Lengths are centimetres, y points up, the outside is up; the other half lies below and is hidden. The edge
that the arm band is worked onto is level, on top as it is held for that, or below as it is worn.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from shapely import LineString, Point, Polygon
from shapely.affinity import affine_transform

from schematics.drawing.assembly.joined_half import Motion
from schematics.drawing.ink.surface import Strip, has_rim, strip
from schematics.drawing.pieces.body_outline import BODY, PANEL, BodyOutline
from schematics.garment.garment import Garment
from schematics.units import NEAR

_SHARES = (1.0, 0.8, 0.6, 0.4)
"""How much less deep the neck band is tried where it finds no room."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenSide:
    """The wearer's right half, or the left one, which mirrors it.

    ``outer`` is the edge from the centre back's lower end to that of the front edge, ``counted`` the part of
    it whose stitches or row ends are numbered, ``run`` the arm run, both from the back to the front. ``seam``
    is the front edge from the hem up, ``folds`` the centre back and the middle of the panel, ``panel`` the
    half of it that is seen; it is None where it would lie on the body. ``edges`` are those of the panel.
    """

    left: bool
    body: Polygon
    panel: Polygon | None
    outer: LineString
    counted: LineString
    run: LineString
    neck: LineString
    seam: LineString
    folds: tuple[LineString, ...]
    edges: tuple[LineString, ...]
    arm_band: Strip
    neck_band: Strip | None


def open_side(garment: Garment, *, left: bool, neck_up: bool) -> OpenSide | None:
    """None where the half lies over itself, or the run is not on its edge or overlaps the other."""
    arm, body = garment.arm, garment.piece(BODY)
    if arm.path is None or arm.back_count < 0 or not body.outline.is_valid:
        return None
    motion = _level(arm.path, left=left, neck_up=neck_up)

    def moved(path: LineString) -> LineString:
        return affine_transform(path, motion)

    outline = BodyOutline(garment)
    panel = _half_panel(garment, outline)
    if panel and panel.intersection(body.outline).area > NEAR * panel.area:
        panel = None
    neck = outline.path(outline.front_neck, outline.nape)
    folds = [outline.path(outline.nape, outline.length)]
    edges: list[LineString] = []
    if panel:
        _, foot_middle, top_middle, top = panel.exterior.coords[:4]
        foot = panel.exterior.coords[0]
        edges = [LineString([foot, foot_middle]), LineString([top_middle, top])]
        folds.append(LineString([foot_middle, top_middle]))
        neck_base = LineString([top_middle, *neck.coords])
    else:
        neck_base = neck
    placed = affine_transform(body.outline, motion)
    outer, run = moved(outline.path(0.0, outline.front_hem)), moved(arm.path)
    return OpenSide(
        left=left,
        body=placed,
        panel=affine_transform(panel, motion) if panel else None,
        outer=outer,
        counted=moved(outline.path(*outline.outer_span(arm.edge.path))),
        run=run,
        neck=moved(neck),
        seam=moved(outline.path(outline.front_hem, outline.front_neck)),
        folds=tuple(map(moved, folds)),
        edges=tuple(map(moved, edges)),
        arm_band=strip(run, arm.ring.band_depth_cm, on_left=left, starts_folded=False, ends_folded=False),
        neck_band=_neck_band(moved(neck_base), garment.neck.band_depth_cm, placed, left=left),
    )


def _level(run: LineString, *, left: bool, neck_up: bool) -> Motion:
    """The motion that lays the run level on top, its end at the back on the right, or its mirror image.

    With the neck up both are turned upside down.
    """
    (x0, y0), (x1, y1) = run.coords[0][:2], run.coords[-1][:2]
    size = math.dist((x0, y0), (x1, y1)) * (-1 if neck_up else 1)
    cos, sin = (x0 - x1) / size, (y1 - y0) / size
    a, b, d, e = cos, -sin, sin, cos
    x, y = -(a * (x0 + x1) + b * (y0 + y1)) / 2, -(d * (x0 + x1) + e * (y0 + y1)) / 2
    return (-a, -b, d, e, -x, y) if left else (a, b, d, e, x, y)


def _half_panel(garment: Garment, outline: BodyOutline) -> Polygon | None:
    """The panel's half from the front edge to its middle: foot, its middle, the top's middle, top."""
    edge = outline.path(outline.front_hem, outline.front_neck)
    (foot_x, foot_y), (top_x, top_y) = edge.coords[0], edge.coords[-1]
    top, foot = (garment.piece(PANEL).edge(name).length_cm / 2 for name in ("top", "lower"))
    lean = foot - top
    if edge.length <= abs(lean):
        return None
    up = (top_x - foot_x) / edge.length, (top_y - foot_y) / edge.length
    out = up[1], -up[0]
    sine, cosine = lean / edge.length, math.sqrt(1 - (lean / edge.length) ** 2)
    across = out[0] * cosine + up[0] * sine, out[1] * cosine + up[1] * sine
    top_middle = top_x + top * across[0], top_y + top * across[1]
    foot_middle = foot_x + foot * across[0], foot_y + foot * across[1]
    return Polygon([(foot_x, foot_y), foot_middle, top_middle, (top_x, top_y)])


def _neck_band(base: LineString, depth_cm: float, body: Polygon, *, left: bool) -> Strip | None:
    """The band inside the neck edge, less deep where it would lie on the body or hide its edge."""
    base = base if left else base.reverse()
    for depth in (depth_cm * share for share in _SHARES):
        if has_rim(base, depth):
            band = strip(base, depth, on_left=True, starts_folded=True, ends_folded=True)
            outline = band.shape.exterior
            seen = all(outline.distance(Point(point)) < NEAR for point in base.coords)
            if seen and band.shape.intersection(body).area < NEAR * body.area:
                return band
    return None
