"""The stitch patterns on a piece, at their true place and size: strips of borders, and motifs."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import takewhile

import numpy as np
import shapely
from shapely import LineString, MultiLineString, Polygon
from shapely.geometry.base import BaseGeometry

from schematics.crochet.charts.chart import Chart, ChartRow, Side
from schematics.crochet.charts.chart_fault import ChartFaultError
from schematics.crochet.charts.worked_rows import row_counts, work_rows
from schematics.crochet.fabric import Counted, Fabric
from schematics.drawing.charts.colour_hatching import hatching
from schematics.drawing.ink.block import Block, mark_shape
from schematics.drawing.ink.marks import Circle, Line, Mark, Pen, Point
from schematics.drawing.ink.scale import to_mm
from schematics.drawing.ink.taken import lines_of, shapes_of
from schematics.drawing.ink.texture import LEAST_APART, clear, fine_lines
from schematics.drawing.pieces.motif import Motif, Patch, Place, motif
from schematics.drawing.pieces.view import View, line_parts
from schematics.garment.garment import Piece
from schematics.garment.patterned_area import PatternedArea
from schematics.units import HAIR

_OUTLINES_APART = 2.0
"""Least distance between outlines of repeats, in mm."""

_MOST_LEFT_OUT = 3
"""Of no more strokes than this, at their nearest, one is drawn."""

_DOT = 0.3
"""Radius of a dot, as a share of a stitch or row, whichever is less."""

_SMOOTH = 0.01
"""How far a line may be off where points are left out, in mm."""

_ON_EDGE_CM = 1e-3


def draw_strips(block: Block, piece: Piece, view: View) -> None:
    """The first and last row of each border, where they do not lie on the piece's edge."""
    for area in _borders(piece):
        left, right = _shown(area, view)
        every = np.linspace(left, right, max(2, math.ceil(right - left) + 1))
        lines = []
        for row in (0, area.rows):
            placed = area.place(np.column_stack([every, np.full(len(every), float(row))]))
            inside = shapely.points(placed[len(placed) // 3])
            outlines = [piece.outline, piece.mirrored] if piece.on_fold else [piece.outline]
            if all(each.exterior.distance(inside) > _ON_EDGE_CM for each in outlines):
                lines.append(Line(_smooth(view.line(LineString(placed)))))
        block.add("border", area.name, lines)


def strip_words(piece: Piece) -> tuple[str, ...]:
    """Each border with its rows and stitches: ``edging on rows 25 to 30 (176 sts)``."""
    return tuple(dict.fromkeys(map(_strip_words, _borders(piece))))


def _strip_words(area: PatternedArea) -> str:
    rows = f"row {area.first_row}" if area.rows == 1 else f"rows {area.first_row} to {area.last_row}"
    return f"{area.name}{',' if ',' in area.name else ''} on {rows} ({area.stitches} sts)"


def _borders(piece: Piece) -> Iterator[PatternedArea]:
    return (area for area in piece.patterned if area.name != piece.name)


def draw_motifs(block: Block, areas: Sequence[PatternedArea], view: View) -> None:
    """The motifs of areas that are worked from a chart, wherever nothing else is drawn yet.

    Where strokes would run into one, as many of them as stay apart; where those would be too few, the
    outlines of repeats instead.
    """
    for area in areas:
        if area.fabric.chart and (drawn := motif_of(area)):
            if _nearest_mm(area, drawn, view) * _MOST_LEFT_OUT >= LEAST_APART:
                least = LEAST_APART / _pitch_mm(area, Counted.STITCHES, view)
                drawn = drawn.thinned(least) or drawn
            clogs = _nearest_mm(area, drawn, view) < LEAST_APART - HAIR
            marks = _repeats(area, area.fabric.chart, view) if clogs else _in_full(area, drawn, view)
            block.add("motif", area.name, _beside_words(block, list(marks)))


def magnified(areas: Iterable[PatternedArea], view: View) -> View:
    """The view, so many times larger that no strokes of these motifs run into one."""
    apart = (_nearest_mm(area, drawn, view) for area in areas if (drawn := motif_of(area)))
    return replace(view, scale=view.scale / max(1, math.ceil(LEAST_APART / min(apart, default=math.inf))))


def _nearest_mm(area: PatternedArea, drawn: Motif, view: View) -> float:
    return drawn.nearest * _pitch_mm(area, Counted.STITCHES, view)


def shows_motif(areas: Iterable[PatternedArea]) -> bool:
    """Whether anything is drawn of one of their charts."""
    return any(drawn.strokes or drawn.dots or drawn.patches for drawn in map(motif_of, areas) if drawn)


def motif_of(area: PatternedArea) -> Motif | None:
    """What the area's chart looks like; None where it has none, or its counts do not fit it."""
    return _motif_of(area.fabric, area.stitches, area.rows)


@lru_cache(maxsize=256)
def _motif_of(fabric: Fabric, stitches: int, rows: int) -> Motif | None:
    chart, rule = fabric.chart, fabric.row_rule
    if chart is None or not rule.rule.allows(rows):
        return None
    try:
        return motif(chart, work_rows(chart, stitches, rule.repeats(rows)), stitches)
    except ChartFaultError:
        return None


def _pitch_mm(area: PatternedArea, counted: Counted, view: View) -> float:
    return to_mm(area.fabric.length_cm(1, counted), view.scale)


def _shown(area: PatternedArea, view: View) -> tuple[float, float]:
    """The stitches that are drawn, from and to."""
    return area.on_right if view.half_only and area.on_right else (0.0, float(area.stitches))


def _in_full(area: PatternedArea, drawn: Motif, view: View) -> Iterator[Mark]:
    """Strokes, and dots that are filled unless they are rings."""
    left, right = _shown(area, view)

    def inside(*places: Place) -> bool:
        return all(left <= stitch <= right for stitch, _ in places)

    patches = [each for each in drawn.patches if inside((each.left, 0), (each.right, 0))]
    yield from _hatched(area, patches, view)
    strokes = [each for each in drawn.strokes if inside(each.foot, each.head)]
    feet, heads = (
        _on_sheet(area, [getattr(each, end) for each in strokes], view) for end in ("foot", "head")
    )
    yield from (Line((foot, head), Pen.TEXTURE) for foot, head in zip(feet, heads, strict=True))
    dots = [each for each in drawn.dots if inside(each.at)]
    radius = _DOT * min(_pitch_mm(area, each, view) for each in Counted)
    for dot, at in zip(dots, _on_sheet(area, [each.at for each in dots], view), strict=True):
        yield Circle(at, radius, Pen.TEXTURE if dot.ring else Pen.SOLID)


def _hatched(area: PatternedArea, patches: Sequence[Patch], view: View) -> Iterator[Mark]:
    """The lines of each colour but the first, over all its stitches at once."""
    for colour, cells in _cells(area, patches, view):
        yield from hatching(colour, cells, Polygon())


def _cells(area: PatternedArea, patches: Sequence[Patch], view: View) -> Iterator[tuple[int, BaseGeometry]]:
    """All stitches of each colour on the sheet."""
    cells: dict[int, list[Polygon]] = {}
    for each in patches:
        across = np.linspace(each.left, each.right, math.ceil(each.right - each.left) + 1)
        round_it = [*((x, each.row) for x in across), *((x, each.row + 1) for x in across[::-1])]
        cells.setdefault(each.colour, []).append(Polygon(_on_sheet(area, round_it, view)))
    for colour, polygons in sorted(cells.items()):
        yield colour, shapely.union_all(polygons)


def shaded_parts(
    area: PatternedArea, shades: Sequence[tuple[str, str]], view: View
) -> Iterator[tuple[str, BaseGeometry]]:
    """The shade of each colour of the area's chart, if it has several, and where on the sheet it is.

    Nothing of colours that have none among the ``shades``, by name.
    """
    chart, drawn = area.fabric.chart, motif_of(area)
    if chart is None or drawn is None or not chart.colours:
        return
    of = dict(shades)
    for number, part in _cells(area, drawn.patches, view):
        if shade := of.get(chart.colours[number][1]):
            yield shade, part


def _on_sheet(area: PatternedArea, places: Sequence[Place], view: View) -> list[Point]:
    if not places:
        return []
    return [view.point(float(x), float(y)) for x, y in area.place(np.array(places, dtype=float))]


def _repeats(area: PatternedArea, chart: Chart, view: View) -> Iterator[Mark]:
    """The outlines of repeats, or of every so many, up and across; of a piece that tapers only across."""
    left, right = _shown(area, view)
    rule, rows = area.fabric.stitch_rule, area.fabric.row_rule
    tapers, widths = any(chart.adds), [area.stitches] * (area.rows + 1)
    if tapers:
        widths[1:] = row_counts(chart, area.stitches, rows.repeats(area.rows))
    across = rule.step or area.stitches
    first = _before_repeat(chart) if rule.step else 0
    lines = [
        [(stitch, float(row)) for row in range(area.rows + 1)]
        for stitch in _every(first, across, area.stitches, _pitch_mm(area, Counted.STITCHES, view))
        if left <= stitch <= right and not tapers
    ]
    for row in _every(rows.setup, rows.repeat, area.rows, _pitch_mm(area, Counted.ROWS, view)):
        inside = (area.stitches - widths[round(row)]) / 2
        ends = left + inside, right - inside
        lines.append([(stitch, row) for stitch in np.linspace(*ends, math.ceil(ends[1] - ends[0]) + 1)])
    yield from (Line(tuple(_on_sheet(area, line, view)), Pen.TEXTURE) for line in lines)


def _before_repeat(chart: Chart) -> int:
    """Stitches on the left of the widest repeat of a row, as the right side is seen."""
    widest = max(range(len(chart.repeat)), key=lambda index: chart.repeat[index].across.uses)
    parts, side = chart.repeat[widest].parts, chart.side(len(chart.setup) + 1 + widest)
    from_left = parts if side is Side.WRONG else parts[::-1]
    return ChartRow(parts=tuple(takewhile(lambda part: not part.across, from_left))).once.uses


def _every(first: float, step: int, end: int, pitch_mm: float) -> list[float]:
    """Where repeats begin, or every so many of them, strictly inside."""
    apart = step * max(1, math.ceil(_OUTLINES_APART / (step * pitch_mm)))
    return [float(at) for at in np.arange(first, end, apart) if 0 < at < end]


def _beside_words(block: Block, marks: Sequence[Mark]) -> Iterator[Mark]:
    """The marks clear of all that is read, strokes that go on in each other as one line."""
    lines = lines_of([mark.points for mark in marks if isinstance(mark, Line)])
    joined = line_parts(MultiLineString(list(lines))) if len(lines) else []
    smooth = shapely.simplify(joined, _SMOOTH)
    yield from fine_lines(block, [[(x, y) for x, y in line.coords] for line in smooth])
    dots = [mark for mark in marks if isinstance(mark, Circle)]
    if dots:
        free = clear(block, shapes_of([mark_shape(dot) for dot in dots]))
        yield from (dot for dot, is_free in zip(dots, free, strict=True) if is_free)


def _smooth(points: Sequence[Point]) -> tuple[Point, ...]:
    return tuple((x, y) for x, y in LineString(points).simplify(_SMOOTH).coords)
