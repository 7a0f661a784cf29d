"""One piece as it is drawn: its fold, its lines of increases, the arrow of work, labels inside the page."""

from __future__ import annotations

import math
import re

import pytest
from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint
from shapely import box as rectangle

from schematics.checks.evaluation import evaluate
from schematics.drawing.assembly.joined_block import view_block
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Area, Circle, Group, Line, Pen, Point, Text
from schematics.drawing.ink.page import block_size, drawing_area
from schematics.drawing.ink.sheet import A4
from schematics.drawing.pieces.piece_block import labelled_block, overlaps_itself, view_of, with_texture
from schematics.garment.garment import Garment
from schematics.units import Unit
from tests.drawing.designs import as_text as spec_text
from tests.drawing.designs import random_spec, read_spec
from tests.drawing.joined_views import joined_views
from tests.examples import thorough
from tests.shipped import demos, shipped_results

SCALE = 10


def garment_of(construction: str, seed: int, **body: int) -> Garment:
    """A made-up garment of one size, some counts of its body set."""
    spec = random_spec(construction, seed, most_sizes=1)
    (size,) = spec["sizes"].values()
    size["body"] |= body
    return evaluate(read_spec(spec_text(spec), "made-up"))[0].garment


def group(block: Block, kind: str) -> Group:
    return next(each for each in block.groups if each.kind == kind)


def lines(block: Block, kind: str) -> list[Line]:
    return [
        mark for each in block.groups if each.kind == kind for mark in each.marks if isinstance(mark, Line)
    ]


def half_body() -> tuple[Garment, Block]:
    """A flared body over a full circle: hem - neck is more than a full turn of its depth."""
    garment = garment_of("flared", 1, neck=40, hem=500, rows=20)
    body = garment.piece("body")
    assert overlaps_itself(body, garment)
    return garment, labelled_block(body, garment, 8)


@pytest.mark.slow
def test_half_a_body_is_open_along_its_fold_which_is_a_fold_line_and_says_so() -> None:
    garment, block = half_body()
    (outline,) = lines(block, "outline")
    (fold,) = lines(block, "fold")
    assert outline.pen is Pen.OUTLINE
    assert fold.pen is Pen.FOLD
    assert {outline.points[0], outline.points[-1]} == set(fold.points)
    assert not LineString(outline.points).covers(ShapelyPoint(LineString(fold.points).centroid))
    area_cm2 = Polygon(outline.points).area * 8**2 / 100
    assert area_cm2 == pytest.approx(garment.piece("body").area_cm2 / 2, rel=1e-9)
    names = [each.marks for each in block.groups if each.name == "centre back"]
    words = [mark.words for marks in names for mark in marks if isinstance(mark, Text)]
    assert re.sub(",? ", " ", " ".join(words)) == "centre back on the fold"


@pytest.mark.slow
@pytest.mark.parametrize("lines_of_increases", [2, 3, 4])
def test_the_arrow_of_work_keeps_off_the_lines_of_increases(lines_of_increases: int) -> None:
    """It runs from neck to hem between them; increase lines are dotted, the caption says so."""
    garment = garment_of("mitred", 3, lines=lines_of_increases, neck=48, rows=40, increase_rows=15)
    body = garment.piece("body")
    block = labelled_block(body, garment, SCALE)
    (arrow,) = lines(block, "work")
    increases = [line for line in lines(block, "crease") if line.pen is Pen.INCREASE]
    assert len(increases) == len(lines(block, "crease")) == lines_of_increases + lines_of_increases % 2
    assert all(LineString(arrow.points).distance(LineString(each.points)) > 0.4 for each in increases)
    (face,) = group(block, "outline").marks
    assert isinstance(face, Area)
    outline = Polygon(face.points)
    assert outline.contains(LineString(arrow.points))
    neck, hem = (LineString(_sheet(body.edge(name).path)) for name in ("neck", "hem"))
    start, end = (ShapelyPoint(at) for at in arrow.points)
    assert start.distance(neck) < end.distance(neck)
    assert end.distance(hem) < start.distance(hem)
    caption = " ".join(mark.words for mark in group(block, "caption").marks if isinstance(mark, Text))
    assert "increase lines dotted" in caption


def test_the_last_increase_row_is_dotted_where_a_tube_hangs_below_it() -> None:
    """On row 30 of 40; the arrow of work stays above it, and the caption names both kinds of lines."""
    counts = {"neck": 48, "rows": 40, "increase_rows": 15, "increase_every": 2, "increase_until": 30}
    garment = garment_of("mitred", 3, lines=4, **counts)
    block = labelled_block(garment.piece("body"), garment, SCALE)
    assert len(lines(block, "crease")) == 4 + 2
    (arrow,) = lines(block, "work")
    assert not any(
        LineString(arrow.points).intersects(LineString(each.points)) for each in lines(block, "crease")
    )
    caption = " ".join(mark.words for mark in group(block, "caption").marks if isinstance(mark, Text))
    assert "increase lines and last increase row dotted" in caption


def _sheet(path: LineString) -> list[Point]:
    return [(x * 10 / SCALE, -y * 10 / SCALE) for x, y in path.coords]


@pytest.mark.slow
def test_a_folded_body_is_worked_from_its_back_hem() -> None:
    garment = garment_of("folded", 5)
    (arrow,) = lines(labelled_block(garment.piece("body"), garment, 20), "work")
    (x0, y0), (x1, y1) = arrow.points
    assert x0 == x1
    assert y0 > y1 > 0  # y points down and the fold over the shoulders is at 0
    creases = lines(labelled_block(garment.piece("body"), garment, 20), "crease")
    assert {line.pen for line in creases} == {Pen.FOLD}


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize("scale", [10, 20])
def test_a_seams_letter_in_a_slot_is_by_far_nearest_to_its_own_edge(scale: int) -> None:
    """At 1:20 both letters would go into the slot of a folded body, one above the other."""
    for result in shipped_results("driftwood")[:: 1 if thorough() else 6]:
        body = result.garment.piece("body")
        edges = [
            (
                seam.letter,
                LineString([((-x if seam.left else x) * 10 / scale, -y * 10 / scale) for x, y in at]),
            )
            for seam in result.garment.seams
            for piece, edge in ((seam.first_piece, seam.first), (seam.second_piece, seam.second))
            if piece == "body"
            for at in (edge.path.coords,)
        ]
        block = labelled_block(body, result.garment, scale)
        for each in (each for each in block.groups if each.kind == "seam"):
            (ring,) = (mark for mark in each.marks if isinstance(mark, Circle))
            middle = ShapelyPoint(ring.centre)
            own = min(middle.distance(edge) for letter, edge in edges if letter == each.name)
            other = min(middle.distance(edge) for letter, edge in edges if letter != each.name)
            assert other > own + 1, (result.size.name, each.name)


@pytest.mark.slow
@pytest.mark.parametrize("spec", demos())
def test_a_markers_number_does_not_read_as_one_with_a_label_beside_it(spec: str) -> None:
    """Three millimetres off it at least, nearly four spaces, where both run level."""
    for result in shipped_results(spec)[:: 1 if thorough() else 3]:
        block = labelled_block(result.garment.piece("body"), result.garment, SCALE)
        texts = [mark for each in block.groups for mark in each.marks if isinstance(mark, Text)]
        for number in [mark for mark in texts if mark.words.isdigit()]:
            x0, y0, x1, y1 = number.box().bounds
            beside = rectangle(x0 - 2.99, y0, x1 + 2.99, y1)
            level = [mark for mark in texts if mark is not number and mark.angle == 0]
            others = [mark.words for mark in level if mark.box().intersects(beside)]
            assert others == [], (result.size.name, number.words)


def test_labels_go_where_the_block_stays_as_narrow_as_it_may_be() -> None:
    """The back of a wide folded body, its labels at its sides or, on an A4 sheet, below it."""
    garment = next(each.garment for each in shipped_results("driftwood") if each.size.name == "L")
    views = joined_views(garment)
    area = drawing_area(A4)
    free, tight = (
        view_block(views[1], garment, SCALE, tuple(Unit), girth=True, widest=widest)
        for widest in (math.inf, area.x1 - area.x0)
    )
    assert block_size(tight)[0] <= area.x1 - area.x0 < block_size(free)[0]
    assert tight.unplaced == free.unplaced == []
    drawn = [{each.name for each in block.groups if each.kind != "note"} for block in (free, tight)]
    assert drawn[0] == drawn[1]


@pytest.mark.slow
def test_the_way_of_every_arrow_is_as_long_as_it_is_on_the_fabric() -> None:
    garment = garment_of("flared", 7)
    for piece in garment.pieces:
        for line in lines(labelled_block(piece, garment, SCALE), "work"):
            lengths = [math.dist(*way) * 10 / SCALE for way in piece.work.arrow_places]
            assert any(math.isclose(math.dist(*line.points), each) for each in lengths)


@pytest.mark.slow
@pytest.mark.parametrize("scale", [10, 14, 22])
def test_the_arrow_of_work_is_beside_the_cable_not_on_it(scale: int) -> None:
    """Of 22 stitches the six in the middle are the cable: 8 are plain on either side of it."""
    garment = next(each for each in shipped_results("kelp") if each.size.name == "12").garment
    panel = garment.piece("centre panel")
    block = labelled_block(panel, garment, scale)
    (arrow,) = lines(block, "work")
    left, _, right, _ = panel.outline.bounds
    cable = (right - left) * 10 / scale * 6 / 22 / 2
    assert abs(arrow.points[0][0]) > cable + 0.5
    cables = lines(with_texture(block, panel, view_of(panel, garment, scale)), "motif")
    assert cables
    assert all(abs(x) < cable for line in cables for x, _ in line.points)
