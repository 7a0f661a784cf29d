"""Where a label goes: the first free spot, else a leader, else the list of what is unplaced."""

from __future__ import annotations

import math

import pytest
from shapely import LineString

from schematics.drawing.ink.block import CLEAR, Block
from schematics.drawing.ink.labeller import beside_edge, draw_label, draw_leader
from schematics.drawing.ink.leaders import Spot, leader_spots
from schematics.drawing.ink.marks import Area, Circle, Label, Line, Pen, Point, Text

_LABEL = Label(("12",))
_TIP = ((0.0, 0.0), (0.0, -1.0))
"""On the upper edge of `_fabric`, y down; away from it is up."""


def _fabric() -> Block:
    block = Block()
    block.add("outline", "piece", [Area(((-30, 0), (30, 0), (30, 40), (-30, 40)))])
    return block


def _wall(block: Block, *levels: float) -> None:
    block.add("thin", "walls", [Line(((-200, y), (200, y))) for y in levels])


def _kinds(block: Block) -> list[str]:
    return [group.kind for group in block.groups[1:]]


def test_the_first_free_spot_is_taken() -> None:
    block = _fabric()
    on_the_outline, free, also_free = Spot((0, 0)), Spot((0, 20)), Spot((10, 20))
    assert draw_label(block, "note", "n", _LABEL, [on_the_outline, free, also_free]) == free
    assert _kinds(block) == ["note"]
    assert block.unplaced == []


def test_a_spot_taken_by_a_label_is_free_for_no_other() -> None:
    block, spots = _fabric(), [Spot((0, 20)), Spot((15, 20))]
    assert [draw_label(block, "note", name, _LABEL, spots) for name in "ab"] == spots
    assert draw_label(block, "note", "c", _LABEL, spots) is None
    assert block.unplaced == ["c"]


def test_labels_stay_apart_sideways_only_as_asked() -> None:
    block, beside = _fabric(), Spot((_LABEL.size[0] + 2, 20))
    draw_label(block, "note", "a", _LABEL, [Spot((0, 20))])
    assert draw_label(block, "note", "b", _LABEL, [beside], apart=3.0, optional=True) is None
    assert draw_label(block, "note", "b", _LABEL, [beside], apart=1.0) == beside


def test_what_is_optional_is_left_out_unreported() -> None:
    block = _fabric()
    assert draw_label(block, "note", "n", _LABEL, [Spot((0, 0))], optional=True) is None
    assert not draw_leader(block, "n", [], (_LABEL,), optional=True)
    assert (_kinds(block), block.unplaced) == ([], [])


def test_without_a_free_spot_the_label_is_on_a_leader_with_its_arrow_at_the_tip() -> None:
    block = _fabric()
    assert draw_label(block, "note", "n", _LABEL, [Spot((0, 0))], tips=[_TIP]) is None
    (group,) = block.groups[1:]
    assert (group.kind, group.name, block.unplaced) == ("leader", "n", [])
    line, head, text = group.marks
    assert isinstance(line, Line)
    assert isinstance(head, Area)
    assert isinstance(text, Text)
    assert (line.pen, head.pen) == (Pen.LEADER, Pen.SOLID)
    assert line.points[0] == head.points[0] == _TIP[0]
    assert all(y < 0 for _, y in line.points[1:]), "it leaves the fabric"
    assert text.box().distance(LineString(line.points)) >= CLEAR / 2


def test_a_ring_and_what_is_drawn_beside_belong_to_the_label() -> None:
    block = _fabric()
    near_outline, free = Spot((0, 2.5)), Spot((0, 20))
    assert draw_label(block, "seam", "A", _LABEL, [near_outline], optional=True) == near_outline
    tick = Line(((5, 20), (8, 20)))
    block = _fabric()
    assert draw_label(block, "seam", "A", _LABEL, [near_outline, free], ring=True, beside=[tick]) == free
    first, *_, last = block.groups[-1].marks
    assert first == tick
    assert isinstance(last, Circle)


def test_a_line_to_a_label_keeps_from_the_lines_of_others() -> None:
    def spot(x: float) -> Spot:
        return Spot((x, -14), line=((x, -1), (x, -10)))

    block, other = _fabric(), LineString([(0.5, -1), (0.5, -10)])
    assert draw_label(block, "size", "M", _LABEL, [spot(0), spot(3)], lines=[other]) == spot(3)


def test_a_leader_crosses_no_line_while_another_tip_needs_none() -> None:
    block = _fabric()
    _wall(block, -1.5, 1.5, 41.5)
    beneath: tuple[Point, Point] = ((0.0, 60.0), (0.0, 1.0))
    draw_leader(block, "n", [_TIP, beneath], (_LABEL,))
    line = block.groups[-1].marks[0]
    assert isinstance(line, Line)
    assert line.points[0] == beneath[0]


@pytest.mark.parametrize("pen", [Pen.DIMENSION, Pen.LEADER, Pen.SOLID])
def test_a_leader_never_crosses_what_it_could_be_taken_to_belong_to(pen: Pen) -> None:
    """However many lines it may cross, a ring of those round its tip leaves it no way out."""
    block = _fabric()
    x, y = _TIP[0]
    ring = ((x - 5, y - 5), (x + 5, y - 5), (x + 5, y + 5), (x - 5, y + 5))
    block.add("dimension", "other", [Area(ring, pen)])
    assert not draw_leader(block, "n", [_TIP], (_LABEL,))
    block = _fabric()
    block.add("dimension", "other", [Area(ring, Pen.EXTENSION)])
    assert draw_leader(block, "n", [_TIP], (_LABEL,))


def test_a_leader_that_must_cross_more_than_allowed_is_unplaced() -> None:
    block = _fabric()
    _wall(block, *(-1.2 - 0.5 * i for i in range(8)), *(0.7 + 0.5 * i for i in range(8)))
    assert not draw_leader(block, "n", [_TIP], (_LABEL,), crossings=(0, 2, 4))
    assert block.unplaced == ["n"]
    assert draw_leader(block, "n", [_TIP], (_LABEL,), crossings=(16,))


def test_leader_spots_come_by_crossings_then_from_near_to_far() -> None:
    spots = [spot for _, spot in leader_spots(_fabric(), [_TIP], (_LABEL,), (0,))]
    assert len(spots) > 20
    rings = [int((math.dist(*spot.line[:2]) - 6 + 1e-6) // 8) for spot in spots]
    assert rings == sorted(rings)
    assert all(LineString(spot.line[1:]).distance(LineString([(-30, 0), (30, 0)])) > 0 for spot in spots)


def test_spots_beside_an_edge_lie_square_to_it_at_their_distance() -> None:
    turn = math.radians(30)
    run, inward = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
    end = 20 * run[0], 20 * run[1]
    spots = list(beside_edge((0, 0), end, inward, (0.5, 0.25), (3.0, -4.0)))
    assert [away for _, away in spots] == [3.0, -4.0, 3.0, -4.0]
    for (spot, away), at in zip(spots, (10, 10, 5, 5), strict=True):
        x, y = spot.centre
        assert math.isclose(x * run[0] + y * run[1], at)
        assert math.isclose(x * inward[0] + y * inward[1], away)


def test_a_leader_does_not_run_beside_an_extension_line_where_another_way_is_free() -> None:
    """Straight up, as it would go else, it would be 1.5 mm from that line all its way."""
    straight, beside = _fabric(), _fabric()
    beside.add("dimension", "d", [Line(((1.5, -1.0), (1.5, -60.0)), Pen.EXTENSION)])
    for block in (straight, beside):
        assert draw_leader(block, "n", [_TIP], (_LABEL,))
    ways = [
        mark.points
        for block in (straight, beside)
        for mark in block.groups[-1].marks
        if isinstance(mark, Line)
    ]
    assert ways[0][1][0] == pytest.approx(0.0)
    assert ways[1][1][0] < -1.0
