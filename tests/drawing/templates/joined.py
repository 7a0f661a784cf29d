"""Pages joined as a maker joins them: by their names and their crosses, and by nothing else that we know."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import shapely
from shapely import LineString, MultiLineString, Polygon
from shapely.affinity import rotate, translate
from shapely.geometry.base import BaseGeometry

from schematics.drawing.ink.marks import Circle, Line, Pen, mark_points
from schematics.drawing.ink.sheet import Sheet
from schematics.garment.garment import Garment, Piece
from tests.drawing.templates.pdf_strokes import PdfPage, Stroke

Point = tuple[float, float]

AGREE = 0.01
"""In mm: PDF numbers have as many decimals as that takes."""

TICK = 2.5
"""A marker's line across the edge, in mm."""


@dataclass(frozen=True, slots=True)
class TilePage:
    """What is seen of a page: its name, heavy lines, the frame round them and the crosses."""

    name: str
    heavy: tuple[LineString, ...]
    frame: tuple[float, float, float, float]
    crosses: tuple[Point, ...]

    @property
    def place(self) -> tuple[int, int]:
        """Row and column, from 0."""
        found = re.fullmatch(r"([A-Z]+)([1-9][0-9]*)", self.name)
        assert found, self.name
        row = 0
        for letter in found[1]:
            row = row * 26 + ord(letter) - ord("A") + 1
        return row - 1, int(found[2]) - 1


def of_pdf(page: PdfPage) -> TilePage:
    """Pens are told by their width: 0.5 mm the outline, 0.25 mm the crosses, the frame thinner or dashed."""
    return _seen(page.text.split()[0], page.strokes)


def of_sheet(name: str, sheet: Sheet) -> TilePage:
    """The same of a sheet before it is a PDF."""
    widths = {
        Pen.OUTLINE: (0.5, False),
        Pen.THIN: (0.25, False),
        Pen.GRID: (0.13, False),
        Pen.SEAM: (0.25, True),
    }
    strokes = [
        Stroke(tuple(mark_points(mark)), *widths[mark.pen], isinstance(mark, Circle))
        for group in sheet.groups
        for mark in group.marks
        if isinstance(mark, Line | Circle) and mark.pen in widths
    ]
    return _seen(name, strokes)


def _seen(name: str, strokes: Iterable[Stroke]) -> TilePage:
    strokes = list(strokes)
    rings = {_middle(each.points) for each in strokes if each.curved}
    straight = [each for each in strokes if not each.curved and abs(each.width - 0.25) < 0.01]
    crosses = tuple(sorted(at for at in rings if _crossed(at, straight)))
    assert len(crosses) == len(rings), "a ring without its cross"
    edges = [
        each.line for each in strokes if not each.curved and (abs(each.width - 0.13) < 0.01 or each.dashed)
    ]
    level = [line for line in edges if _is_straight(line, 1)]
    upright = [line for line in edges if _is_straight(line, 0)]
    widest = max(level, key=lambda line: line.length)
    highest = max(upright, key=lambda line: line.length)
    x0, _, x1, _ = widest.bounds
    _, y0, _, y1 = highest.bounds
    heavy = tuple(each.line for each in strokes if abs(each.width - 0.5) < 0.01)
    return TilePage(name, heavy, (x0, y0, x1, y1), crosses)


def _middle(points: Sequence[Point]) -> Point:
    xs, ys = zip(*points, strict=True)
    return round((min(xs) + max(xs)) / 2, 2), round((min(ys) + max(ys)) / 2, 2)


def _is_straight(line: LineString, axis: int) -> bool:
    return len(line.coords) == 2 and abs(line.coords[0][axis] - line.coords[1][axis]) < AGREE


def _crossed(at: Point, lines: Iterable[Stroke]) -> bool:
    """Whether a level and an upright line meet there."""
    near = [each.line for each in lines if each.line.distance(shapely.Point(at)) < 2 * AGREE]
    return any(_is_straight(each, 0) for each in near) and any(_is_straight(each, 1) for each in near)


def shifts(pages: Sequence[TilePage]) -> dict[str, Point]:
    """How far each page is moved so that crosses meet, going from page to page; every cross must agree."""
    places = {page.place: page for page in pages}
    first = pages[0]
    moved: dict[str, Point] = {first.name: (0.0, 0.0)}
    ways = [(down, right) for down in (-1, 0, 1) for right in (-1, 0, 1) if (down, right) != (0, 0)]
    to_do = [first]
    while to_do:
        page = to_do.pop()
        for down, right in ways:
            other = places.get((page.place[0] + down, page.place[1] + right))
            if other is None:
                continue
            mine, others = _corners(page, down, right), _corners(other, -down, -right)
            assert len(mine) == len(others) == (1 if down and right else 2), (page.name, other.name)
            found = {
                (round(a[0] - b[0] + moved[page.name][0], 1), round(a[1] - b[1] + moved[page.name][1], 1))
                for a, b in zip(mine, others, strict=True)
            }
            a, b = mine[0], others[0]
            shift = a[0] - b[0] + moved[page.name][0], a[1] - b[1] + moved[page.name][1]
            assert all(math.dist(each, shift) < 0.11 for each in found), (page.name, other.name)
            if other.name in moved:
                assert math.dist(moved[other.name], shift) < 0.1, (page.name, other.name)
            else:
                moved[other.name] = shift
                to_do.append(other)
    assert len(moved) == len(pages), "a page that meets no other"
    return moved


def _corners(page: TilePage, down: int, right: int) -> list[Point]:
    """The crosses at that side or corner of a page."""
    x0, y0, x1, y1 = page.frame
    middle = (x0 + x1) / 2, (y0 + y1) / 2
    return [(x, y) for x, y in page.crosses if (x - middle[0]) * right >= 0 and (y - middle[1]) * down >= 0]


def by_piece(pages: Mapping[str, TilePage], bookmarks: Mapping[str, str]) -> dict[str, list[TilePage]]:
    """The pages of each piece by its name, which is the end of their bookmarks."""
    pieces: dict[str, list[TilePage]] = {}
    for name, page in pages.items():
        pieces.setdefault(bookmarks[name].rpartition(", ")[2], []).append(page)
    return pieces


def expected(piece: Piece, garment: Garment) -> MultiLineString:
    """What is drawn heavily of a piece, in mm, y down: the outline but for the fold, and markers' ticks."""
    lines = [LineString(piece.corners if piece.on_fold else [*piece.corners, piece.corners[0]])]
    arm = garment.arm
    if any(edge is arm.edge for edge in piece.edges) and arm.path is not None:
        first, *_, last = (shapely.Point(at) for at in arm.path.coords)
        for at in (first, last):
            near = arm.path.segmentize(0.1).intersection(at.buffer(1e-3))
            (x0, y0), *_, (x1, y1) = near.coords
            size = math.hypot(x1 - x0, y1 - y0)
            dx, dy = -(y1 - y0) / size * TICK / 20, (x1 - x0) / size * TICK / 20
            lines.append(LineString([(at.x - dx, at.y - dy), (at.x + dx, at.y + dy)]))
    return MultiLineString([[(10 * x, -10 * y) for x, y, *_ in line.coords] for line in lines])


def joined(pages: Sequence[TilePage]) -> tuple[BaseGeometry, BaseGeometry]:
    """The heavy lines of the pages joined, and the paper within their frames."""
    moved = shifts(pages)
    lines = [translate(line, *moved[page.name]) for page in pages for line in page.heavy]
    papers = [translate(shapely.box(*page.frame), *moved[page.name]) for page in pages]
    return shapely.union_all(lines), shapely.union_all(papers)


def off_by(pages: Sequence[TilePage], piece: Piece, garment: Garment) -> float:
    """How far the joined lines are from the garment's at most, in mm (Hausdorff distance).

    The piece may be turned, but not turned over. The fabric lies on the pages all of it.
    """
    lines, paper = joined(pages)
    wanted = expected(piece, garment)
    offs = {}
    for angle in (0, 90, 180, 270):
        turned = rotate(wanted, angle, origin=(0, 0))
        move = lines.bounds[0] - turned.bounds[0], lines.bounds[1] - turned.bounds[1]
        put = translate(turned, *move)
        offs[angle] = (shapely.hausdorff_distance(lines.segmentize(3), put.segmentize(3)), move)
    angle = min(offs, key=lambda each: offs[each][0])
    face = Polygon([(10 * x, -10 * y) for x, y in piece.corners])
    if face.is_valid:
        put_face = translate(rotate(face, angle, origin=(0, 0)), *offs[angle][1])
        assert put_face.difference(paper.buffer(AGREE)).area < 1, "fabric beside the pages"
    return float(offs[angle][0])


def cut_ends(page: TilePage) -> list[float]:
    """How far from the frame each end of a heavy line is, in mm."""
    edge = shapely.box(*page.frame).exterior
    return [
        edge.distance(shapely.Point(at)) for line in page.heavy for at in (line.coords[0], line.coords[-1])
    ]
