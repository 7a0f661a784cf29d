"""How a piece looks: the motifs of charts, or ridges and rows where there are none, and each increase."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np
from shapely import Polygon, affinity
from shapely.geometry.base import BaseGeometry

from schematics.checks.wording import listed, sentence_case
from schematics.crochet.fabric import Counted
from schematics.drawing.charts.colour_hatching import hatching
from schematics.drawing.charts.over_and_under import points_of
from schematics.drawing.ink.block import Block, mark_shape
from schematics.drawing.ink.marks import Area, Circle, Line, Mark, Pen, Point, moved
from schematics.drawing.ink.scale import to_mm
from schematics.drawing.ink.texture import BESIDE, LEAST_APART, every_nth, fine_lines, nth_words, what_is_read
from schematics.drawing.pieces.patterned import draw_motifs, shaded_parts, shows_motif
from schematics.drawing.pieces.view import View, mirrored
from schematics.garment.garment import Garment, Increase, Piece
from schematics.garment.patterned_area import PatternedArea

RIDGE = 2
"""Rows to a ridge of ribbing worked in the back loop, as far as it shows (common practice, no source)."""


def draw_texture(block: Block, piece: Piece, view: View, up_cm: float = 0.0, stretched: float = 1.0) -> None:
    """How the piece looks wherever nothing else is drawn yet, ``up_cm`` above its place.

    It is ``stretched`` so many times upwards from its foot.
    """
    areas = [area.raised(up_cm, stretched) for area in piece.patterned]
    draw_motifs(block, areas, view)
    if piece.whole and not shows_motif(piece.patterned):
        draw_rows(block, piece, piece.whole.raised(up_cm, stretched), view)
    draw_increases(block, piece.name, piece.increases, view)
    outline = affinity.scale(Polygon(view.outline(piece)), yfact=stretched, origin=(0.0, 0.0))
    face = affinity.translate(outline, 0.0, -to_mm(up_cm, view.scale))
    draw_colour(block, piece, face)
    for area in areas if piece.shades else ():
        for shade, part in shaded_parts(area, piece.shades, view):
            draw_tint(block, area.name, shade, part.intersection(face))


def draw_tint(block: Block, name: str, shade: str, face: BaseGeometry) -> None:
    """A face on the sheet in a yarn's shade, under all lines; nothing where there is no shade."""
    if shade:
        parts = (
            each for each in getattr(face, "geoms", [face]) if isinstance(each, Polygon) and not each.is_empty
        )
        block.underlay(name, (Area(points_of(part.exterior)[:-1], Pen.TINT, shade) for part in parts))


def shade_of(piece: Piece) -> str:
    """Its colour as it looks, of a chart in several the first; empty where the design gives none."""
    chart = piece.fabric.chart
    colour = chart.colours[0][1] if chart and chart.colours else piece.colour
    return dict(piece.shades).get(colour, "")


def draw_colour(block: Block, piece: Piece, face: BaseGeometry) -> None:
    """The piece's colour over its ``face`` on the sheet: its shade, and hatching if that tells it."""
    draw_tint(block, piece.name, shade_of(piece), face)
    if piece.hatching and not piece.ribbed:
        inside = face.buffer(-BESIDE, join_style="mitre")
        block.add("texture", f"{piece.name} colour", hatching(piece.hatching, inside, what_is_read(block)))


def draw_texture_within(
    block: Block, kind: str, name: str, piece: Piece, view: View, top: Point, face: BaseGeometry, off: float
) -> None:
    """How a piece looks whose upper edge has its middle at ``top`` on paper, as far as its ``face`` is seen.

    Lines keep so many mm ``off`` the edges of the face, colours do not.
    """
    flat = Block()
    draw_texture(flat, piece, view)
    down = top[1] - view.point(0.0, piece.outline.bounds[3])[1]
    marks = [moved(mark, top[0], down) for group in flat.groups for mark in group.marks]
    lines = [mark.points for mark in marks if isinstance(mark, Line)]
    for mark in marks:
        if isinstance(mark, Area) and mark.pen is Pen.TINT:
            draw_tint(block, name, mark.shade, Polygon(mark.points).intersection(face))
    seen = face.buffer(-off, join_style="mitre")
    free = seen.difference(what_is_read(block))
    dots = (mark for mark in marks if isinstance(mark, Circle) and free.contains(mark_shape(mark)))
    look: list[Mark] = [*fine_lines(block, lines, seen), *dots]
    if look:
        block.add(kind, name, look)


def draw_rows(block: Block, piece: Piece, area: PatternedArea, view: View) -> None:
    """The ridges of a band, or the rows of a panel, as they run, all of them or every so many."""
    lines = [
        view_line(area, [(0.0, row), (float(area.stitches), row)], view) for row in _rows(piece, area, view)
    ]
    block.add("texture", piece.name, fine_lines(block, lines))


def _rows(piece: Piece, area: PatternedArea, view: View) -> Iterator[float]:
    """Where lines are: along the middle of every ridge or so many, or between every row or so many."""
    nth = drawn_nth(piece, view)
    if piece.ribbed:
        yield from np.arange(nth, area.rows, RIDGE * nth, dtype=float)
    else:
        yield from np.arange(nth, area.rows, nth, dtype=float)


def drawn_nth(piece: Piece, view: View) -> int:
    """Every how many-th ridge or row of a piece is drawn."""
    rows = RIDGE if piece.ribbed else 1
    return every_nth(to_mm(piece.fabric.length_cm(rows, Counted.ROWS), view.scale))


def thinned_words(piece: Piece, view: View) -> str:
    """What is drawn of the ridges or rows where it is not all: ``every 2nd ridge drawn``; else empty."""
    if not piece.whole or shows_motif(piece.patterned):
        return ""
    nth = drawn_nth(piece, view)
    return f"{nth_words(nth)} {'ridge' if piece.ribbed else 'row'} drawn" if nth > 1 else ""


def colour_words(piece: Piece) -> str:
    """How the colours of its chart are told apart: ``sand plain, fog and moss hatched``; else empty."""
    chart = piece.fabric.chart
    if chart is None or len(chart.colours) < 2 or not shows_motif(piece.patterned):
        return ""
    first, *others = (words for _, words in chart.colours)
    return f"{first} plain, {listed(others)} hatched"


def shades_in_words(garment: Garment) -> str:
    """Which piece has which of the colours that are shown, as ``Body in sand; arm bands in moss, hatched.``.

    Empty where none are shown.
    """
    parts: dict[str, list[str]] = {}
    for piece in garment.pieces:
        if shade_of(piece) and (words := piece.in_colour or colour_words(piece)):
            parts.setdefault(words, []).append(f"{piece.name}s" if piece.quantity > 1 else piece.name)
    shades = "; ".join(f"{listed(names)} {words}" for words, names in parts.items())
    return sentence_case(f"{shades}.") if shades else ""


def view_line(area: PatternedArea, places: Sequence[tuple[float, float]], view: View) -> list[Point]:
    """Points of an area on the sheet."""
    return [view.point(float(x), float(y)) for x, y in area.place(np.array(places, dtype=float))]


def draw_increases(block: Block, name: str, increases: Sequence[Increase], view: View) -> None:
    """A stroke for each increase, from its stitch to its row's end; of a full row one in so many."""
    lines = []
    for increase in drawn_increases(increases, view):
        if increase.left and view.half_only:
            continue
        ends = view.point(*increase.foot), view.point(*increase.head)
        lines.append([mirrored(end) for end in ends] if increase.left else list(ends))
    if lines:
        block.add("increases", name, fine_lines(block, lines))


def drawn_increases(increases: Sequence[Increase], view: View) -> Iterator[Increase]:
    """The increases that are drawn at the view's scale."""
    rows: dict[int, list[Increase]] = {}
    for each in increases:
        rows.setdefault(each.row, []).append(each)
    for row in rows.values():
        nth = every_nth(_apart(row, view))
        yield from row[nth // 2 :: nth]


def _apart(row: Sequence[Increase], view: View) -> float:
    """The least distance between neighbours in a row, in mm, on the same half."""
    near = LEAST_APART
    heads = [(each.left, *view.point(*each.head)) for each in row]
    gaps = [
        float(np.hypot(x1 - x0, y1 - y0))
        for (left, x0, y0), (after, x1, y1) in pairwise(heads)
        if left is after
    ]
    return max(min(gaps, default=near), 1e-3)
