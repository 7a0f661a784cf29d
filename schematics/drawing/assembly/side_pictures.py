"""Pictures of the steps that are seen from one side: the markers, and the arm bands."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

from shapely import LineString, Polygon

from schematics.document.lettering.text import wrap
from schematics.drawing.assembly.open_side import OpenSide
from schematics.drawing.assembly.step_canvas import RING, Canvas, Words, beside, ends_of
from schematics.drawing.ink.marks import Pen, Point, along, between, opposite, unit
from schematics.garment.garment import ArmsOn, Garment

_COUNT_OFF, _WORK_OFF = 2.6, 2.2

_OFF_MARKER = RING + 0.5
"""From the middle of a marker to the tip of the triangle that points to it, in mm."""

_APART = 3.0
"""Half of what is between the numbers of both markers, in mm: else they read as one line."""

_NUMBERS_WIDE = (22.0, 20.0, 18.0, 16.0)
"""Widths in mm that numbers are set in, the first that leaves room beside each other."""


def marks_picture(
    side: OpenSide, garment: Garment, canvas: Canvas, counted: str, numbers: tuple[str, str], letter: str
) -> Canvas:
    """The markers of one run, and the direction in which stitches or row ends are counted.

    Args:
        side: with the neck up.
        garment: the garment.
        canvas: at its scale, with nothing on it.
        counted: what the numbers are of, such as ``st``.
        numbers: of the marker in front and of that at the back.
        letter: of the seam to the panel on this side.
    """
    for count_first in (False, True):
        drawn = Canvas(canvas.view, canvas.font)
        if _draw_marks(drawn, side, garment, counted, numbers, letter, count_first=count_first):
            break
    return drawn


def _draw_marks(
    canvas: Canvas,
    side: OpenSide,
    garment: Garment,
    counted: str,
    numbers: tuple[str, str],
    letter: str,
    *,
    count_first: bool,
) -> bool:
    """All of it, the words on counting before the letter or after it; whether they found room."""
    _draw_half(canvas, side)
    run = canvas.line(side.run)
    back, front = ends_of(run)
    canvas.marker("marker front", front)
    canvas.marker("marker back", back)
    path = beside(canvas.line(side.counted), _COUNT_OFF if side.left else -_COUNT_OFF, 2.0)
    on_hem = garment.arm.on is ArmsOn.HEM
    start: tuple[Words, ...]
    canvas.arrow("count", path if side.left and on_hem else path.reverse())
    _number(canvas, counted, {"front": (front, numbers[0]), "back": (back, numbers[1])})
    if not on_hem:
        start = ("count from", "the front hem"), ("count from", "front hem")
    elif side.left:
        start = ("count on", f"to seam {letter}"), ("count", "on to", f"seam {letter}")
    else:
        start = ("count from", f"seam {letter}"), ("count", "from", f"seam {letter}")
    said = count_first and _say_count(canvas, start, path)
    _letter(canvas, side, letter)
    _say_sides(canvas, side)
    return said or _say_count(canvas, start, path)


def _say_count(canvas: Canvas, shapes: Iterable[Words], path: LineString) -> bool:
    """In which direction is counted, above the arrow, in the first shape that has room; whether one has."""
    middle = path.interpolate(0.5, normalized=True)
    places = [
        (lines, (middle.x + aside, middle.y - canvas.label(*lines).size[1] / 2 - gap))
        for lines in shapes
        for gap in (1.2, 2.2, 3.5, 5.0)
        for aside in (0.0, -1.5, 1.5, -3.0, 3.0, -4.5, 4.5, -6.0, 6.0, -8.0, 8.0)
    ]
    return any(canvas.words("note", "count", lines, [at], optional=True) for lines, at in places)


def arm_picture(side: OpenSide, garment: Garment, canvas: Canvas, letter: str) -> Canvas:
    """One arm band on its edge: where yarn is joined, and which way its rows follow each other."""
    _draw_half(canvas, side)
    ring = garment.arm.ring
    canvas.band("arm band", side.arm_band, 2 * ring.edge_cm / ring.edge_count)
    if side.neck_band:
        canvas.band("neck band", side.neck_band, 2 * garment.neck.edge_cm / garment.neck.edge_count)
    run = canvas.line(side.run)
    ends = ends_of(run)
    start, end = (ends[1], ends[0]) if side.left else ends
    for name, at in (("start", start), ("end", end)):
        canvas.marker(f"marker {name}", at)
    outline = canvas.face(side.arm_band.shape)
    top = outline.bounds[1] - _WORK_OFF
    canvas.arrow("work", LineString([(start[0], top), (end[0], top)]))
    towards = _free_direction(canvas, start, outwards=math.copysign(1.0, start[0] - end[0]))
    foot = canvas.triangle("arm", along(start, towards, -_OFF_MARKER), towards)
    _letter(canvas, side, letter)
    canvas.join_yarn(foot, opposite(towards), (1.2, 2.0, 3.0), start)
    _say_sides(canvas, side)
    return canvas


def _free_direction(canvas: Canvas, marker: Point, outwards: float) -> Point:
    """How a triangle points to the marker: through the fabric, or past the band if only that is free.

    ``outwards`` is 1 where the band ends on the right, -1 on the left.
    """
    through, beyond = (0.0, -1.0), (-outwards * math.sqrt(0.5), math.sqrt(0.5))
    free = (each for each in (through, beyond) if canvas.has_room(along(marker, each, -_OFF_MARKER), each))
    return next(free, through)


def _number(canvas: Canvas, counted: str, ends: dict[str, tuple[Point, str]]) -> None:
    """The numbers of both markers below the edge, each on its marker's side."""
    x0, _, x1, _ = canvas.block.bounds()
    names = sorted(ends, key=lambda name: ends[name][0])
    middle = sum(at[0] for at, _ in ends.values()) / 2
    for wide in _NUMBERS_WIDE:
        labels = [tuple(wrap(f"{counted} {ends[name][1]}", wide, font=canvas.font)) for name in names]
        sizes = [canvas.label(*lines).size for lines in labels]
        left, right = (width for width, _ in sizes)
        if left + right <= canvas.room - 2 * _APART:
            break
    middle = max(min(middle, (x0 + x1 + canvas.room) / 2 - right - _APART),
                 (x0 + x1 - canvas.room) / 2 + left + _APART)  # fmt: skip
    for name, lines, (width, height), side in zip(names, labels, sizes, (-1, 1), strict=True):
        y = ends[name][0][1]
        at = middle + side * (width / 2 + _APART)
        places = ((at, y + RING + gap + height / 2) for gap in (1.2, 2.0, 3.0, 4.5, 6.0, 8.0, 11.0, 14.0))
        canvas.words("marker-number", name, lines, places)


def _draw_half(canvas: Canvas, side: OpenSide) -> None:
    canvas.draw("fabric", "outer edge", [side.outer], Pen.OUTLINE)
    canvas.draw("fabric", "neck edge", [side.neck], Pen.OUTLINE)
    canvas.draw("fabric", "panel", side.edges, Pen.OUTLINE)
    canvas.draw("seam", "panel", [side.seam], Pen.SEAM if side.panel else Pen.OUTLINE)
    canvas.draw("fold", "centre", side.folds, Pen.FOLD)


def _letter(canvas: Canvas, side: OpenSide, letter: str) -> None:
    """The letter of the seam, on the body beside it."""
    seam, inner = canvas.line(side.seam), canvas.face(side.body)
    start, end = ends_of(seam)
    run = unit(start, end)
    out = (-run[1], run[0]) if side.left else (run[1], -run[0])
    places = _near(seam, inner, (0.5, 0.6, 0.4, 0.7, 0.3), (3.4, 4.2, 5.0))
    canvas.letter(letter, places, (between(start, end), out))


def _near(
    path: LineString, shape: Polygon, shares: Iterable[float], away: Sequence[float]
) -> Iterator[Point]:
    """Places beside a path, in the shape, then on its other side."""
    for off in away:
        for side in (off, -off):
            parallel = path.offset_curve(side)
            for share in shares:
                at = parallel.interpolate(share, normalized=True)
                if shape.contains(at):
                    yield at.x, at.y


def _say_sides(canvas: Canvas, side: OpenSide) -> None:
    """Which end of the half is the front, and which the back: off its folds, or on the fabric."""
    for name, fold in (("front", side.folds[-1] if side.panel else side.seam), ("back", side.folds[0])):
        edge = canvas.line(fold)
        label = canvas.label(name)
        wide = label.size[0] / 2
        canvas.words("note", name, label.lines, _off(edge, canvas.face(side.body), wide), optional=True)


def _off(edge: LineString, body: Polygon, wide: float) -> Iterator[Point]:
    """Places outside an edge, then inside it."""
    shares = (0.5, 0.4, 0.6, 0.3, 0.7)
    for away in ((3.0, 4.0, 5.0, wide + 1.0, wide + 2.0), (wide + 1.5, wide + 3.0, wide + 5.0, wide + 8.0)):
        for off in away:
            for parallel in (edge.offset_curve(off), edge.offset_curve(-off)):
                for share in shares:
                    at = parallel.interpolate(share, normalized=True)
                    if body.contains(at) is (away[0] != 3.0):
                        yield at.x, at.y
