"""The symbols of a chart: inside their cells, each unlike every other, drawn as the trade draws them."""

from __future__ import annotations

from itertools import combinations

import pytest
from shapely import LineString, MultiLineString, Point, box, unary_union
from shapely.affinity import scale
from shapely.geometry.base import BaseGeometry

from schematics.crochet.charts.chart import Worked
from schematics.crochet.stitches import STITCHES, Loop
from schematics.drawing.charts.panel_chart import LARGEST_CELL, SMALLEST_CELL
from schematics.drawing.charts.stitch_symbols import Cell, symbol
from schematics.drawing.ink.block import mark_shape
from schematics.drawing.ink.marks import Area, Line, Mark, Pen

DRAWN = [Worked(stitch=stitch) for stitch in STITCHES if stitch.makes] + [
    Worked(stitch=stitch, loop=loop) for stitch in STITCHES if stitch.loops for loop in Loop
]
BY_NAME = {worked.abbreviation: worked for worked in DRAWN}
PEN = 0.5


def lines(name: str, cell: Cell) -> list[Mark]:
    return list(symbol(BY_NAME[name], cell))


def shape(name: str) -> MultiLineString:
    """The strokes in a cell of 1 mm."""
    parts = [mark_shape(mark).boundary if mark.pen is Pen.SOLID else mark_shape(mark)
             for mark in lines(name, Cell(0, 0, 1)) if isinstance(mark, Line | Area)]  # fmt: skip
    return MultiLineString([LineString(part.coords) for part in parts])


def ink(name: str) -> BaseGeometry:
    """What is black in the smallest cell."""
    marks = lines(name, Cell(0, 0, SMALLEST_CELL))
    return unary_union([mark_shape(mark).buffer(PEN / 2, cap_style="flat") for mark in marks])


@pytest.mark.parametrize("side", [SMALLEST_CELL, LARGEST_CELL])
@pytest.mark.parametrize("name", list(BY_NAME))
def test_a_symbol_stays_inside_its_cell(name: str, side: float) -> None:
    """With half a stroke's width, and a quarter of a millimetre of white to the grid's line."""
    inside = box(10, 20, 10 + side, 20 + side).buffer(-0.125 - 0.25 - PEN / 2, join_style="mitre")
    for mark in lines(name, Cell(10, 20, side)):
        assert inside.contains(mark_shape(mark)), mark


@pytest.mark.parametrize(("first", "second"), list(combinations(BY_NAME, 2)))
def test_no_two_symbols_look_alike(first: str, second: str) -> None:
    """In the smallest cell one has ink the other has not: at least a bar of 0.8 mm by the pen's width."""
    one, other = ink(first), ink(second)
    assert one.symmetric_difference(other).area > 0.8 * PEN


@pytest.mark.parametrize("name", list(BY_NAME))
def test_bars_do_not_run_together_in_the_smallest_cell(name: str) -> None:
    """Between parallel strokes there is at least 0.2 mm of white."""
    strokes = [line for line in shape(name).geoms if len(line.coords) == 2]
    for first, second in combinations(strokes, 2):
        if slope(first) == pytest.approx(slope(second)):
            assert first.distance(second) * SMALLEST_CELL >= PEN + 0.2


def slope(line: LineString) -> float:
    (x0, y0), (x1, y1) = line.coords
    return (y1 - y0) / (x1 - x0) if x1 != x0 else 1e9


def test_what_makes_no_stitch_has_no_symbol() -> None:
    (skip,) = [stitch for stitch in STITCHES if not stitch.makes]
    with pytest.raises(KeyError):
        symbol(Worked(stitch=skip), Cell(0, 0, 5))


@pytest.mark.parametrize(
    ("name", "bars"),
    [("hdc", 0), ("dc", 1), ("tr", 2), ("dtr", 3), ("FPhdc", 0), ("FPdc", 1), ("BPdc", 1), ("BPtr", 2)],
)
def test_a_bar_for_every_yarn_over_but_none_for_a_half_double(name: str, bars: int) -> None:
    """Yarn overs before the hook goes in: double 1, treble 2, double treble 3 (common practice)."""
    slanting = [
        line for line in shape(name).geoms
        if len(line.coords) == 2 and line.coords[0][0] != line.coords[1][0]
        and line.coords[0][1] != line.coords[1][1]
    ]  # fmt: skip
    assert len(slanting) == bars
    stem = LineString([(0.5, 0.1), (0.5, 0.9)])
    assert all(bar.crosses(stem) for bar in slanting)


@pytest.mark.parametrize("name", ["hdc", "dc", "tr"])
def test_front_and_back_posts_are_mirror_images_hooked_to_the_right_and_to_the_left(name: str) -> None:
    def hook(side: str) -> LineString:
        return max(shape(f"{side}{name}").geoms, key=lambda line: len(line.coords))

    front, back = hook("FP"), hook("BP")
    assert front.coords[-1][0] > 0.6
    assert back.coords[-1][0] < 0.4
    assert scale(back, xfact=-1, origin=(0.5, 0.5)).hausdorff_distance(front) < 1e-9
    assert front.coords[-1][1] < max(y for _, y in front.coords)


@pytest.mark.parametrize("name", ["sl st", "sc", "hdc", "dc", "tr", "dtr"])
def test_the_arc_under_a_single_loop(name: str) -> None:
    """It opens to the top for the front loop, to the bottom for the back loop; the stitch is above it."""
    for loop, opens_up in ((Loop.FRONT, True), (Loop.BACK, False)):
        *stitch, arc = shape(f"{name} {loop}").geoms
        ends, middle = arc.coords[0][1], arc.coords[len(arc.coords) // 2][1]
        assert (ends < middle) == opens_up
        assert MultiLineString(stitch).bounds[3] < min(y for _, y in arc.coords)


def test_a_chain_is_an_open_oval_and_a_slip_stitch_a_filled_one() -> None:
    (chain,), (slip,) = lines("ch", Cell(0, 0, 1)), lines("sl st", Cell(0, 0, 1))
    assert isinstance(chain, Area)
    assert isinstance(slip, Area)
    assert (chain.pen, slip.pen) == (Pen.OUTLINE, Pen.SOLID)
    for oval in (chain, slip):
        (x0, y0, x1, y1) = mark_shape(oval).bounds
        assert x1 - x0 > 1.3 * (y1 - y0)
        assert Point((x0 + x1) / 2, (y0 + y1) / 2).distance(Point(0.5, 0.5)) < 1e-9
