"""Pictures of the steps that are seen from the front: the panel laid in, and the seams."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from shapely import LineString, Polygon
from shapely.affinity import translate

from schematics.drawing.assembly.open_front import OpenFront
from schematics.drawing.assembly.step_canvas import RIGHT_SIDE, Canvas, beside, ends_of
from schematics.drawing.ink.marks import Pen, Point, along, between, opposite, unit
from schematics.drawing.pieces.body_outline import PANEL
from schematics.garment.garment import Garment
from schematics.units import NEAR

LOWERED = 0.42
"""How far below its place the panel is drawn that is about to be laid in, as a share of its length."""

_ARROW_OFF, _LETTER_OFF = 2.0, 5.6

_BESIDE_ARROW, _TIP_ABOVE_ARROW, _LEAST_ARROW = 1.3, 1.6, 3.0
"""Least from the arrow to what points beside it; else it points so far above a shorter arrow, which is at
least so long; in mm.
"""

_WRONG_SIDE = ("wrong side",)


def lay_picture(front: OpenFront, garment: Garment, canvas: Canvas) -> Canvas:
    """The panel half way into the opening, in which the wrong side of the back is seen."""
    opening = front.panel
    _draw_body(canvas, front)
    high = opening.bounds[3] - opening.bounds[1]
    panel = translate(opening, 0, -high * LOWERED)
    for letter, path in front.seams.items():
        canvas.draw("fabric", f"edge {letter}", [path], Pen.OUTLINE)
    seen = opening.difference(panel.buffer(NEAR))
    top, low = (0.0, 0.0), (0.0, -high * LOWERED)
    corners = opening.exterior.coords
    canvas.draw("fabric", "back neck", [LineString([corners[0], corners[3]])], Pen.THIN)
    _draw_panel(canvas, panel, garment, closed=True)
    (x, y0), (_, y1) = canvas.view.point(*low), canvas.view.point(*top)
    tip = canvas.view.point(corners[3][0] * 0.55, -high * LOWERED * 0.3)
    end = y1 + 1.0
    if abs(tip[0] - x) < _BESIDE_ARROW:
        tip = x, y1 + min(_TIP_ABOVE_ARROW, (y0 - y1) / 4)
        end = tip[1] + _TIP_ABOVE_ARROW
    canvas.arrow("lay in", LineString([(x, max(y0 - 0.6, end + _LEAST_ARROW)), (x, end)]))
    canvas.pointed("wrong side", [_WRONG_SIDE], [(tip, (0.6, -0.8)), (tip, (0.0, -1.0))])
    _say_right_side(canvas, front)
    _say_hem(canvas, front)
    if isinstance(seen, Polygon):
        canvas.wrong_side(seen)
    return canvas


def seam_picture(
    front: OpenFront, garment: Garment, canvas: Canvas, letter: str, sewn: Iterable[str], *, banded: bool
) -> Canvas:
    """One seam, worked from the hem up beside those ``sewn``; ``banded`` once the bands are there."""
    done = tuple(sewn)
    _draw_body(canvas, front)
    _draw_panel(canvas, front.panel, garment, closed=False)
    for other, path in front.seams.items():
        if other in done:
            canvas.draw("seam", other, [path], Pen.SEAM)
        elif other != letter:
            canvas.draw("fabric", f"edge {other}", [path], Pen.OUTLINE)
    path = front.seams[letter]
    canvas.draw("seam", letter, [path], Pen.OUTLINE)
    if banded:
        _draw_bands(canvas, front, garment)
    on_paper = canvas.line(path)
    start, end = ends_of(on_paper)
    run = unit(start, end)
    inward = _towards_body(front, path, run)
    aside = beside(on_paper, _ARROW_OFF if _on_right(run, inward) else -_ARROW_OFF, 1.2)
    canvas.arrow(f"seam {letter}", aside)
    foot = canvas.triangle(f"seam {letter}", along(start, opposite(run), 0.6), run)
    spots = (
        along(along(start, run, on_paper.length * share), inward, off)
        for off in (_LETTER_OFF, 6.6, 8.0)
        for share in (0.5, 0.6, 0.4, 0.7)
    )
    canvas.letter(letter, spots, (between(start, end), inward))
    canvas.join_yarn(foot, opposite(run), (1.2, 2.0, 3.0))
    _say_hem(canvas, front)
    return canvas


def _on_right(run: Point, side: Point) -> bool:
    """Whether a direction on paper is on the right of another; offsets to the right are above 0."""
    return run[0] * side[1] - run[1] * side[0] > 0


def _towards_body(front: OpenFront, path: LineString, run: Point) -> Point:
    """Square to a seam on paper, into the half of the body that has it."""
    middle = path.interpolate(0.5, normalized=True)
    half = min(front.halves, key=lambda each: each.shape.centroid.distance(middle))
    normal = run[1], -run[0]
    away = half.shape.centroid.x - middle.x, middle.y - half.shape.centroid.y
    return normal if normal[0] * away[0] + normal[1] * away[1] > 0 else opposite(normal)


def _draw_body(canvas: Canvas, front: OpenFront) -> None:
    seams = list(front.seams.values())
    for half in front.halves:
        name = f"body {'left' if half.left else 'right'}"
        edges = [half.neck, *(edge for edge in half.edges if not _lies_on(edge, seams))]
        canvas.draw("fabric", name, edges, Pen.OUTLINE)
        canvas.draw("fold", name, [half.fold], Pen.FOLD)


def _lies_on(edge: LineString, paths: Iterable[LineString]) -> bool:
    return any(path.buffer(NEAR * 10).contains(edge) for path in paths)


def _draw_panel(canvas: Canvas, panel: Polygon, garment: Garment, *, closed: bool) -> None:
    """The panel's top and lower edge, its sides too where it is ``closed``, and how it looks."""
    top, foot, other_foot, other_top = panel.exterior.coords[:4]
    paths = [LineString([top, other_top]), LineString([foot, other_foot])]
    if closed:
        paths += [LineString([foot, top]), LineString([other_foot, other_top])]
    canvas.draw("fabric", "panel", paths, Pen.OUTLINE)
    canvas.look(garment.piece(PANEL), panel)


def _draw_bands(canvas: Canvas, front: OpenFront, garment: Garment) -> None:
    if front.neck_band:
        canvas.band("neck band", front.neck_band, _ridge(garment.neck.edge_cm, garment.neck.edge_count))
    ring = garment.arm.ring
    for half in front.halves:
        if half.band:
            canvas.band(
                f"arm band {'left' if half.left else 'right'}",
                half.band,
                _ridge(ring.edge_cm, ring.edge_count),
            )


def _ridge(edge_cm: float, count: int) -> float:
    """Two ribbing rows to a ridge."""
    return 2 * edge_cm / count


def _say_right_side(canvas: Canvas, front: OpenFront) -> None:
    spots = (spot for half in front.halves for spot in _inside(canvas.face(half.shape)))
    canvas.words("note", "right side", RIGHT_SIDE, spots, optional=True)


def _inside(shape: Polygon) -> Iterator[Point]:
    """Places over a shape, nearest to its middle first."""
    at = shape.representative_point()
    yield shape.centroid.x, shape.centroid.y
    yield at.x, at.y
    x0, y0, x1, y1 = shape.bounds
    grid = [(x0 + (x1 - x0) * i / 8, y0 + (y1 - y0) * j / 8) for i in range(1, 8) for j in range(1, 8)]
    yield from sorted(grid, key=lambda p: (p[0] - at.x) ** 2 + (p[1] - at.y) ** 2)


def _say_hem(canvas: Canvas, front: OpenFront) -> None:
    """Under the hem, clear of triangle and panel."""
    height = canvas.label("hem").size[1]
    shapes = [canvas.face(half.shape) for half in front.halves]
    places = [
        (x, LineString([(x, y0 - 1), (x, y1 + 1)]).intersection(shape).bounds[3] + height / 2 + gap)
        for gap in (1.4, 2.2, 3.2)
        for share in (0.4, 0.3, 0.5, 0.2)
        for shape, from_side in zip(shapes, (share, 1 - share), strict=True)
        for x0, y0, x1, y1 in [shape.bounds]
        for x in [x0 + (x1 - x0) * from_side]
    ]
    canvas.words("note", "hem", ("hem",), places, optional=True)
