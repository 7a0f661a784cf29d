"""The front as it lies before its seams are worked: both fronts folded over the back, the panel between them.

Lengths are centimetres, y points up. The wearer's right is on the viewer's left. The panel is as long as the
front edges, which it is level with at hem and neck; one that tapers is a trapezoid.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from shapely import LineString, Point, Polygon

from schematics.drawing.assembly.joined import hanging, neck_edge
from schematics.drawing.assembly.joined_half import Half, front_part
from schematics.drawing.ink.surface import Strip, depth_that_fits, has_rim, strip
from schematics.drawing.pieces.body_outline import PANEL, BodyOutline
from schematics.garment.garment import Garment, Seam


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenFront:
    """Both halves of a body that is open at the front, the viewer's left one first, and the panel.

    ``seams`` are every seam that is seen, by its letter, from the hem up. ``neck_band`` is None where it
    cannot lie flat.
    """

    halves: tuple[Half, Half]
    panel: Polygon
    seams: dict[str, LineString]
    neck_band: Strip | None

    @property
    def shapes(self) -> tuple[Polygon, ...]:
        """All that is seen of it before there are bands."""
        return (*(half.shape for half in self.halves), self.panel)


def open_front(garment: Garment) -> OpenFront | None:
    """None where a front lies over itself."""
    outline = BodyOutline(garment)
    edge = outline.path(outline.front_hem, outline.front_neck)
    top, foot = (garment.piece(PANEL).edge(name).length_cm / 2 for name in ("top", "lower"))
    lean = foot - top
    high = math.sqrt(max(edge.length**2 - lean**2, 0.0)) or edge.length
    part = front_part(garment, outline)
    long = math.hypot(lean, high)
    motion = hanging(edge, -top, (lean / long, high / long))
    halves = part.half(motion, left=False), part.half(motion, left=True)
    if not all(half.shape.is_valid for half in halves):
        return None
    sides = {False: LineString([(-foot, -high), (-top, 0.0)]), True: LineString([(foot, -high), (top, 0.0)])}
    seams = {seam.letter: sides[seam.left] for seam in garment.seams if PANEL in _pieces(seam)}
    for half in halves:
        below = [seam for seam in half.seams if seam.letter not in seams]
        seams |= {seam.letter: _from_hem(seam.path, half) for seam in below}
    return OpenFront(
        halves=halves,
        panel=Polygon([(-top, 0.0), (-foot, -high), (foot, -high), (top, 0.0)]),
        seams=seams,
        neck_band=_neck_band(halves, garment.neck.band_depth_cm),
    )


def _pieces(seam: Seam) -> tuple[str, str]:
    return seam.first_piece, seam.second_piece


def _from_hem(path: LineString, half: Half) -> LineString:
    """The seam from its end that is farther from the neck."""
    start, end = (half.neck.distance(Point(path.coords[at])) for at in (0, -1))
    return path if start > end else path.reverse()


def _neck_band(halves: tuple[Half, Half], depth_cm: float) -> Strip | None:
    base = neck_edge(halves)
    depth = depth_that_fits([base], depth_cm)
    if not has_rim(base, depth):
        return None
    return strip(base, depth, on_left=True, starts_folded=True, ends_folded=True)
