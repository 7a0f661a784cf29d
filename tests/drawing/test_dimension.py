"""Dimension lines on made-up pieces: wherever a label finds room it can be read, and the figure holds."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint

from schematics.drawing.ink.block import CLEAR, Block
from schematics.drawing.ink.dimension import FIRST_LANE, draw_dimension
from schematics.drawing.ink.labeller import draw_leader, upright
from schematics.drawing.ink.marks import Area, Label, Line, Pen, Point, Text, arrowhead, moved_group
from schematics.drawing.ink.sheet import Paper
from schematics.drawing.ink.track import Arc, Bent, Straight, Track
from tests.drawing.audit_layout import layout_faults
from tests.drawing.pages import made_up_page, title_block
from tests.drawing.readback import Dimension, Page
from tests.examples import examples

_PAPER = Paper(name="large", width=600, height=600)
_LABELS = (Label(("42 cm (40 sts)", "16 1/2 in")), Label(("42 cm", "16 1/2 in", "40 sts")))


def page_of(block: Block) -> Page:
    """The block in the middle of a large sheet, read back."""
    return made_up_page([moved_group(group, 300, 250) for group in block.groups], _PAPER, title_block())


def piece(*corners: Point) -> Block:
    block = Block()
    block.add("outline", "piece", [Area(corners)])
    return block


def only_dimension(block: Block) -> Dimension:
    page = page_of(block)
    assert layout_faults(page) == []
    (dimension,) = page.dimensions()
    return dimension


_turns = st.integers(-180, 180).map(math.radians)


def _turned(points: list[Point], turn: float) -> list[Point]:
    cos, sin = math.cos(turn), math.sin(turn)
    return [(x * cos - y * sin, x * sin + y * cos) for x, y in points]


@pytest.mark.slow
@examples(40)
@given(st.floats(0.5, 150), _turns)
def test_a_straight_edge_of_any_length_and_direction_is_dimensioned(length: float, turn: float) -> None:
    """The four corners run with the fabric on the left as printed: y is down, so the piece lies above."""
    corners = _turned([(0, 0), (length, 0), (length, -40), (0, -40)], turn)
    block = piece(*corners)
    assert draw_dimension(block, "edge", Straight(corners[0], corners[1]), _LABELS)
    dimension = only_dimension(block)
    assert math.dist(*dimension.feet) == pytest.approx(length, abs=0.01)
    assert math.dist(*dimension.tips) == pytest.approx(length, abs=0.01)
    lanes = [math.dist(tip, foot) for tip, foot in zip(dimension.tips, dimension.feet, strict=True)]
    assert min(lanes) >= FIRST_LANE - 0.01
    assert dimension.label in {"\n".join(label.lines) for label in _LABELS}


@pytest.mark.slow
@examples(40)
@given(st.floats(8, 120), st.floats(0.1, 6.0), _turns)
def test_an_outer_arc_of_any_sweep_is_dimensioned(radius: float, sweep: float, turn: float) -> None:
    """A pie slice; its rim runs against the clock as printed, the middle on its left."""
    rim = Arc((0.0, 0.0), radius, turn, -sweep)
    block = piece((0.0, 0.0), *rim.points())
    assert draw_dimension(block, "rim", rim, _LABELS)
    dimension = only_dimension(block)
    centre = (300.0, 250.0)
    for tip, foot in zip(dimension.tips, dimension.feet, strict=True):
        assert math.dist(foot, centre) == pytest.approx(radius, abs=0.01)
        assert math.dist(tip, foot) == pytest.approx(math.dist(tip, centre) - radius, abs=0.01)


@pytest.mark.slow
@examples(40)
@given(st.lists(st.tuples(st.floats(12, 60), st.floats(-0.5, 0.0)), min_size=2, max_size=4), _turns)
def test_a_bent_edge_is_dimensioned_in_parallel(steps: list[tuple[float, float]], turn: float) -> None:
    x = y = 0.0
    heading = turn
    corners = [(x, y)]
    for length, bend in steps:
        heading += bend
        x, y = x + length * math.cos(heading), y + length * math.sin(heading)
        corners.append((x, y))
    track = Bent(tuple(corners))
    normals = [track.normal(0), track.normal(track.length)]
    inner = [
        (c[0] - n[0] * 5, c[1] - n[1] * 5) for c, n in zip((corners[0], corners[-1]), normals, strict=True)
    ]
    block = piece(*corners, inner[1], inner[0])
    assert draw_dimension(block, "hem", track, _LABELS)
    dimension = only_dimension(block)
    lane = math.dist(dimension.tips[0], dimension.feet[0])
    on_page = LineString([(px + 300, py + 250) for px, py in corners])
    parallel = on_page.offset_curve(lane, join_style="mitre", mitre_limit=20)
    inner_parts = [line for line in dimension.lines if line.length > 7]
    assert all(parallel.distance(ShapelyPoint(at)) < 0.01 for line in inner_parts for at in line.coords)


@examples(100)
@given(st.floats(-math.pi, math.pi))
def test_text_reads_from_the_bottom_or_the_right_edge(way: float) -> None:
    """ISO 129-1: never upside down; straight up and straight down both read from the right."""
    angle = upright((math.cos(way), math.sin(way)))
    assert -90 - 1e-6 <= angle < 90
    assert math.sin(math.radians(angle) - way) == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("tangent", [(0.0, 1.0), (0.0, -1.0)])
def test_upright_lettering_reads_from_the_right(tangent: Point) -> None:
    assert upright(tangent) == pytest.approx(-90)


@pytest.mark.slow
@examples(20)
@given(st.floats(2.0, 60.0), _turns)
def test_a_letter_stands_upright_at_a_line_of_any_direction(length: float, turn: float) -> None:
    corners = _turned([(0, 0), (length, 0), (length, -40), (0, -40)], turn)
    block = piece(*corners)
    assert draw_dimension(block, "edge", Straight(corners[0], corners[1]), (Label(("H",), bold=True),))
    only_dimension(block)
    (text,) = (mark for group in block.groups for mark in group.marks if isinstance(mark, Text))
    assert text.angle == 0.0


def test_short_lines_have_their_arrows_outside_and_long_ones_inside() -> None:
    for length, inside in ((4.0, False), (60.0, True)):
        block = piece((0, 0), (length, 0), (length, -40), (0, -40))
        assert draw_dimension(block, "edge", Straight((0, 0), (length, 0)), _LABELS)
        page = page_of(block)
        heads = [stroke for stroke in page.of_kind("dimension") if stroke.pen == "solid"]
        (left, right) = sorted(heads, key=lambda head: head.points[0][0])
        assert (left.points[1][0] > left.points[0][0]) is inside
        assert (right.points[1][0] < right.points[0][0]) is inside


def test_the_next_dimension_of_an_edge_goes_further_out() -> None:
    block = piece((0, 0), (90, 0), (90, -40), (0, -40))
    for name, end in (("part", 45.0), ("other", 90.0), ("whole", 90.0)):
        start = 45.0 if name == "other" else 0.0
        assert draw_dimension(block, name, Straight((start, 0), (end, 0)), _LABELS)
    page = page_of(block)
    assert layout_faults(page) == []
    lanes = {each.group: each.tips[0][1] - each.feet[0][1] for each in page.dimensions()}
    assert lanes["dimension-part"] == pytest.approx(lanes["dimension-other"])
    assert lanes["dimension-whole"] > lanes["dimension-part"] + 5


@pytest.mark.parametrize("inside", [True, False])
def test_only_a_dimension_inside_a_piece_crosses_its_fold_and_stands_past_its_line(inside: bool) -> None:
    """The foot of a notch read downwards, over a fold in the middle where its label would be."""
    notch = (0, -20), (0, 0), (20, 0), (20, -20)
    block = piece((-30, -20), *notch, (50, -20), (50, 60), (-30, 60))
    block.add("fold", "fold", [Line(((10, 0), (10, 60)), Pen.FOLD)])
    letter = (Label(("D",), bold=True),)
    assert draw_dimension(block, "neck", Straight((0, 0), (20, 0)), letter, inside=inside) is inside
    texts = [mark.box().centroid for group in block.groups for mark in group.marks if isinstance(mark, Text)]
    assert [(at.x > 20 + 4, round(at.y, 1)) for at in texts] == [(True, FIRST_LANE)] * inside


def test_a_dimension_without_room_is_refused_and_leaves_nothing_behind() -> None:
    """Boxed in on all sides by lines nearer than the first lane."""
    block = piece((0, 0), (30, 0), (30, -40), (0, -40))
    block.add("wall", "wall", [Line(((-200, y), (200, y)), Pen.THIN) for y in range(1, 90)])
    before = len(block.groups)
    assert not draw_dimension(block, "edge", Straight((0, 0), (30, 0)), _LABELS)
    assert len(block.groups) == before


def test_a_leader_without_room_names_what_is_missing() -> None:
    block = piece((0, 0), (30, 0), (30, -40), (0, -40))
    walls = [Line(((-200, y), (200, y)), Pen.THIN) for y in range(-120, 121, 2)]
    block.add("wall", "wall", walls)
    draw_leader(block, "hem", [((15, 0), (0, 1))], _LABELS)
    assert block.unplaced == ["hem"]
    assert not any(group.kind == "leader" for group in block.groups)


@pytest.mark.slow
@examples(40)
@given(_turns)
def test_a_leaders_arrow_ends_on_its_point_and_its_line_at_its_label(turn: float) -> None:
    corners = _turned([(0, 0), (60, 0), (60, -40), (0, -40)], turn)
    block = piece(*corners)
    middle = ((corners[0][0] + corners[1][0]) / 2, (corners[0][1] + corners[1][1]) / 2)
    away = _turned([(0.0, 1.0)], turn)[0]
    draw_leader(block, "hem", [(middle, away)], _LABELS)
    page = page_of(block)
    assert layout_faults(page) == []
    (leader,) = page.leaders()
    assert leader.tip == pytest.approx((middle[0] + 300, middle[1] + 250), abs=0.01)
    line = next(stroke for stroke in page.of_kind("leader") if stroke.pen == "leader")
    boxes = [words.box for words in page.words if words.kind == "leader"]
    assert 0 < min(LineString(line.points).distance(box) for box in boxes) < 3 * CLEAR


def _tracks() -> list[Track]:
    return [Straight((0, 0), (50, 0)), Arc((0, 0), 40, 0.3, -2.0), Bent(((0, 0), (30, 0), (55, -12)))]


@pytest.mark.parametrize("track", _tracks(), ids=lambda track: type(track).__name__)
def test_the_line_is_cut_under_its_label_and_nowhere_else(track: Track) -> None:
    block = Block()
    assert draw_dimension(block, "it", track, _LABELS)
    (group,) = block.groups
    lines = [mark for mark in group.marks if isinstance(mark, Line) and mark.pen is Pen.DIMENSION]
    texts = [mark.box() for mark in group.marks if isinstance(mark, Text)]
    drawn = [LineString(line.points) for line in lines]
    assert all(line.distance(text) > CLEAR / 2 for line in drawn for text in texts)
    width, height = _LABELS[0].size
    gaps = [math.dist(a.coords[-1], b.coords[0]) for a, b in pairwise(drawn)]
    assert len(gaps) <= 1
    if isinstance(track, Bent):
        line = track.offset(FIRST_LANE)
        assert line is not None
        for corner in line.points()[1:-1]:
            assert min(each.distance(ShapelyPoint(corner)) for each in drawn) < 1e-6
    assert all(gap < math.hypot(width, height) + 2 * CLEAR for gap in gaps)


def test_a_leader_from_a_dimension_line_keeps_off_the_corners_of_the_piece() -> None:
    """No room beside the line, and a leader at 45 degrees from its middle would run through the corner."""
    block = piece((0, 0), (80, 0), (80, 20), (0, 20))
    block.widest = 80.0 + FIRST_LANE + 2.1
    assert not draw_dimension(block, "depth", Straight((0, 0), (0, 20)), _LABELS[:1])


@pytest.mark.parametrize("apart", [5.2, 6.2, 6.5])
def test_a_line_does_not_run_into_the_tail_of_another(apart: float) -> None:
    """The arrows of a short line have tails of 6.5 mm, the next line begins so far beside it, a hair off."""
    block = piece((0, 0), (100, 0), (100, -40), (0, -40))
    assert draw_dimension(block, "short", Straight((20, 0), (23, 0)), (Label(("F",)),))
    assert draw_dimension(block, "long", Straight((23 + apart, 1e-12), (100, 0)), (Label(("D",)),))
    assert layout_faults(page_of(block)) == []


@pytest.mark.parametrize("apart", [0.1, 0.5, 0.7])
def test_the_tail_of_a_short_line_keeps_off_an_arrow_beside_it(apart: float) -> None:
    """An arrow to the right whose head comes so many mm under the left tail in the first lane.

    Its line is at y = 10, its left tail from x = 13.5 to 20; a head of 2.5 mm is 0.83 wide.
    """
    block = piece((0, 0), (60, 0), (60, -40), (0, -40))
    head = arrowhead((17.0, 10.0 + apart + 2.5 / 6), (1.0, 0.0))
    block.add("work", "beside", [head])
    assert draw_dimension(block, "short", Straight((20, 0), (23, 0)), (Label(("F",)),))
    lines = [LineString(mark.points) for mark in block.groups[-1].marks if isinstance(mark, Line | Area)]
    assert min(line.distance(Polygon(head.points)) for line in lines) > CLEAR


def test_an_extension_line_keeps_off_a_leader_that_is_there() -> None:
    """A leader 5 mm below an edge runs across where the lines of its dimension would."""
    leader = Line(((80.0, 5.0), (140.0, 5.0)), Pen.LEADER)
    edge = Straight((0.0, 0.0), (100.0, 0.0))
    block = piece((0, 0), (100, 0), (100, -40), (0, -40))
    block.add("leader", "other", [leader])
    assert not draw_dimension(block, "edge", edge, _LABELS)
    block = piece((0, 0), (100, 0), (100, -40), (0, -40))
    block.add("leader", "other", [Line(((110.0, 5.0), (140.0, 5.0)), Pen.LEADER)])
    assert draw_dimension(block, "edge", edge, _LABELS)


def test_a_fold_is_itself_the_extension_line_where_it_runs_on_from_an_edge() -> None:
    """A fold runs right from a corner; the edge below it is 30 mm long, its dimension on the fabric."""
    block = piece((-50, -50), (50, -50), (50, 60), (0, 60), (0, 0), (-50, 0))
    block.add("crease", "fold", [Line(((0.0, 0.0), (50.0, 0.0)), Pen.FOLD)])
    assert draw_dimension(block, "edge", Straight((0.0, 30.0), (0.0, 0.0)), (Label(("J",)),), inside=True)
    (group,) = (each for each in block.groups if each.kind == "dimension")
    extensions = [mark for mark in group.marks if isinstance(mark, Line) and mark.pen is Pen.EXTENSION]
    assert [line.points[0][1] for line in extensions] == [30.0]
    (dimension,) = page_of(block).dimensions()
    for foot, expected in zip(sorted(dimension.feet), [(300.0, 250.0), (300.0, 280.0)], strict=True):
        assert foot == pytest.approx(expected)
    assert math.dist(*dimension.ends) == pytest.approx(30.0)
