"""A draped garment on its body as lines on paper: what is seen of it from one side."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from schematics.drawing.draped.hidden_lines import STEP, Scene, stepped
from schematics.drawing.draped.lifted import lifted
from schematics.drawing.draped.surfaces import Surface, smoothed
from schematics.drawing.draped.views import LookedFrom
from schematics.drawing.ink.marks import Pen
from schematics.drawing.worn.worn_figures import FACE
from schematics.garment.cloth.arrays import Floats
from schematics.garment.cloth.body_surface import body_surface
from schematics.garment.cloth.draped import PART_NAMES, Draped
from schematics.garment.cloth.solid_body import SolidBody

_TIMES = 2
"""Steps of smoothing: triangles of some 4 cm come to 1 cm."""

_ON_CLOTH = 0.5
"""Lines on cloth may be so far behind it, in cm: between its points it is a little off its place."""

_BESIDE = 0.3
"""Outlines are looked at so far outside what they are those of, in cm."""

_OFF_BODY = 0.05
"""Smoothed cloth keeps so far from the body, in cm: between its points coarse cloth cuts through."""

_PUSHES = 3

_CREASES = frozenset({"panel seam", "neck edge", "arm band edge"})
"""Lines along which fabric is joined to fabric."""

_PENS = {
    "hem": Pen.MEDIUM,
    "neck band end": Pen.MEDIUM,
    "arm band end": Pen.MEDIUM,
    "panel seam": Pen.SEAM,
    "neck edge": Pen.THIN,
    "arm band edge": Pen.THIN,
}
"""What each line of a draped garment is drawn with; any other is not drawn."""

_EVENED = 2.0
"""Outlines are evened out over so much of their length, in cm."""

_SHORTEST = 4.0
"""Outlines shorter than this are crumbs, in cm."""


@dataclass(frozen=True, slots=True)
class SeenLine:
    """A line on the paper, (k, 2) in cm, up and to the right, and the pen it is drawn with."""

    points: Floats
    pen: Pen
    kind: str


@dataclass(frozen=True, eq=False)
class HungPicture:
    """A draped garment made ready to be seen from any side."""

    draped: Draped
    ribs_cm: Mapping[str, float]

    @cached_property
    def cloth(self) -> Surface:
        """The garment, smooth."""
        lines = self.draped.lines
        coarse = Surface(
            vertices=self.draped.vertices,
            triangles=self.draped.triangles,
            lines=lines,
            creases=frozenset(name for name in lines if _on_both_sides(name) in _CREASES),
            part=self.draped.part,
            flat=self.draped.flat,
        )
        smooth = smoothed(coarse, _TIMES)
        return replace(smooth, vertices=_off_body(smooth.vertices, self.draped.body))

    @cached_property
    def body(self) -> Surface:
        """The wearer."""
        vertices, triangles = body_surface(self.draped.body)
        return Surface(vertices=vertices, triangles=triangles, lines={})

    @cached_property
    def _ribs(self) -> list[Floats]:
        return [
            rib
            for number, name in enumerate(PART_NAMES)
            if (apart := self.ribs_cm.get(name))
            for rib in lifted(self.cloth, number, _upright(self.cloth, number, apart))
        ]

    def seen(self, view: LookedFrom) -> Iterator[SeenLine]:
        """Everything that is seen from there, the heaviest lines first."""
        scene = Scene([self.cloth, self.body], view)
        for outline in scene.seen_outlines(self.cloth, _BESIDE):
            if _length(outline) >= _SHORTEST:
                yield SeenLine(view.seen(_evened(outline))[:, :2], Pen.MEDIUM, "garment")
        for name in self.cloth.lines:
            if pen := _PENS.get(_on_both_sides(name)):
                yield from _strokes(scene, self.cloth.path(name), pen, "garment")
        for outline in scene.seen_outlines(self.body, _BESIDE):
            yield SeenLine(view.seen(outline)[:, :2], Pen.THIN, "figure")
        for line in _face(self.draped.body):
            yield from _strokes(scene, line, Pen.THIN, "figure")
        for rib in self._ribs:
            yield from _strokes(scene, rib, Pen.TEXTURE, "texture")


def _on_both_sides(name: str) -> str:
    """A line's name without the side it is on."""
    return name.removesuffix(" right").removesuffix(" left")


def _strokes(scene: Scene, path: Floats, pen: Pen, kind: str) -> Iterator[SeenLine]:
    for part in scene.seen_parts(path, _ON_CLOTH):
        yield SeenLine(scene.view.seen(part)[:, :2], pen, kind)


def _upright(surface: Surface, part: int, apart_cm: float) -> Iterator[Floats]:
    """Straight lines across a part, from its foot to its top, so far apart."""
    assert surface.part is not None
    assert surface.flat is not None
    corners = surface.flat[surface.part == part].reshape(-1, 2)
    (left, low), (right, high) = corners.min(axis=0), corners.max(axis=0)
    for x in np.arange(left + apart_cm / 2, right, apart_cm):
        yield np.array([(x, low), (x, high)])


def _face(body: SolidBody) -> Iterator[Floats]:
    """Its lines on the front of the head."""
    middle, half = body.ellipsoids.centre[0], body.ellipsoids.half[0]
    for stroke in FACE:
        flat = np.array(stroke)
        forward = np.sqrt(np.maximum(1.0 - (flat**2).sum(axis=1), 0.0))
        yield middle + half * np.column_stack([flat, forward])


def _off_body(points: Floats, body: SolidBody) -> Floats:
    """Points that are too near to the body moved away from it."""
    for _ in range(_PUSHES):
        distance, away = body.distance(points)
        points = points + np.maximum(_OFF_BODY - distance, 0.0)[:, None] * away
    return points


def _evened(path: Floats) -> Floats:
    """A path without the small corners that triangles give it; a ring stays closed."""
    points = stepped(path)
    reach = max(round(_EVENED / STEP / 2), 1)
    ring = bool(np.allclose(points[0], points[-1]))
    around = np.pad(
        points[:-1] if ring else points, ((reach, reach), (0, 0)), mode="wrap" if ring else "edge"
    )
    window = np.hanning(2 * reach + 3)[1:-1]
    window /= window.sum()
    even = np.stack([np.convolve(each, window, mode="valid") for each in around.T], axis=1)
    return np.concatenate([even, even[:1]]) if ring else even


def _length(path: Floats) -> float:
    return float(np.linalg.norm(np.diff(path, axis=0), axis=1).sum())
