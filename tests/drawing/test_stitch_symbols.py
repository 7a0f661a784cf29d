"""The symbols of a chart: in their cells, unlike each other in print at 60 %, as the trade draws them."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image, ImageDraw
from shapely import LineString, MultiLineString, Point, box
from shapely.affinity import scale

from schematics.crochet.charts.chart import Side
from schematics.crochet.stitch_list import STITCHES, TRADE
from schematics.crochet.stitches import Height, Loop, Stitch
from schematics.crochet.symbols import StrokeKind, read_symbol
from schematics.drawing.charts.chart_layout import seen_loop, seen_symbol
from schematics.drawing.charts.panel_chart import LARGEST_CELL, SMALLEST_CELL
from schematics.drawing.charts.stance import Stance, cell_stance
from schematics.drawing.charts.stitch_symbols import symbol_marks
from schematics.drawing.ink.block import mark_shape
from schematics.drawing.ink.marks import STROKES, Area, Circle, Line, Mark, Pen, Text

SHORT_NAMES = {"cl": "3-dc cl", "bo": "5-dc bo", "pc": "5-dc pc", "sh": "5-dc sh", "puff": "3-loop puff"}
DRAWN = [each for each in STITCHES if each.abbreviation != "sk" and each.abbreviation not in SHORT_NAMES]
IN_LOOPS = [(each, loop) for each in DRAWN if each.loops for loop in Loop]
HEIGHT = 1.2
PEN = STROKES[Pen.SYMBOL].width


def stance_of(stitch: Stitch, width: float) -> Stance:
    """In as many cells as it needs, the first with its upper left corner at nought."""
    cells = max(stitch.makes, stitch.uses, 1)
    whole = cell_stance(0, 0, width * cells, width * HEIGHT, cells=cells)
    return replace(
        whole,
        tops=whole.tops if stitch.makes > 1 else (whole.top,),
        feet=whole.feet if stitch.uses > 1 else (whole.foot,),
    )


def marks(stitch: Stitch, loop: Loop | None = None, width: float = SMALLEST_CELL) -> tuple[Mark, ...]:
    return symbol_marks(stitch.symbol, loop, stance_of(stitch, width), stitch.abbreviation)


def called(name: str) -> Stitch:
    stitch = TRADE.find(name)
    assert stitch
    return stitch


def strokes(name: str, loop: Loop | None = None) -> MultiLineString:
    return MultiLineString(
        [mark.points if isinstance(mark, Line) else (*mark.points, mark.points[0])
         for mark in marks(called(name), loop) if isinstance(mark, Line | Area)]
    )  # fmt: skip


def printed(stitch: Stitch, loop: Loop | None = None) -> NDArray[np.bool_]:
    """Black and white dots, 300 to the inch, of the smallest cells printed at 60 %: nine wide for all."""
    fine = 4
    dots = 300 / 25.4 * 0.6 * fine
    width, height = (round(SMALLEST_CELL * each * dots) for each in (9, HEIGHT))
    canvas = Image.new("L", (width, height), 255)
    pen = ImageDraw.Draw(canvas)
    for mark in marks(stitch, loop):
        assert isinstance(mark, Line | Area)
        points = [(x * dots, y * dots) for x, y in mark.points]
        if mark.pen is Pen.SOLID:
            pen.polygon(points, fill=0)
        else:
            pen.line(
                [*points, *points[:1]] if isinstance(mark, Area) else points, fill=0, width=round(PEN * dots)
            )
    small = canvas.resize((canvas.width // fine, canvas.height // fine), Image.Resampling.BOX)
    return np.asarray(small) < 128


@pytest.mark.slow
@pytest.mark.parametrize("width", [SMALLEST_CELL, LARGEST_CELL])
def test_every_symbol_stays_inside_its_cells(width: float) -> None:
    def leaves(stitch: Stitch, loop: Loop | None) -> bool:
        cells = max(stitch.makes, stitch.uses, 1)
        inside = box(0, 0, cells * width, width * HEIGHT).buffer(-PEN / 2 + 0.001)
        return not all(inside.contains(mark_shape(mark)) for mark in marks(stitch, loop, width))

    drawn = [(each, loop) for each in DRAWN for loop in (None, *(Loop if each.loops else ()))]
    assert [(each.abbreviation, loop) for each, loop in drawn if leaves(each, loop)] == []


@pytest.fixture(scope="module")
def prints() -> dict[str, NDArray[np.bool_]]:
    plain = {each.abbreviation: printed(each) for each in DRAWN}
    return plain | {f"{each.abbreviation} {loop}": printed(each, loop) for each, loop in IN_LOOPS}


@pytest.mark.slow
def test_no_two_symbols_look_alike_in_print(prints: dict[str, NDArray[np.bool_]]) -> None:
    """The least in which two differ is a bar: 0.75 mm by the pen's width, at 60 %."""
    least = 0.75 * PEN * (300 / 25.4 * 0.6) ** 2
    names = list(prints)
    flat = np.array([prints[name].ravel() for name in names], dtype=np.float32)
    ink = flat.sum(axis=1)
    apart = ink[:, None] + ink[None, :] - 2 * flat @ flat.T
    np.fill_diagonal(apart, np.inf)
    close = [
        (names[i], names[j], apart[i, j]) for i, j in zip(*np.nonzero(apart < least), strict=True) if i < j
    ]
    assert close == []


@pytest.mark.slow
@pytest.mark.parametrize(
    ("first", "second"), list(combinations(["5-dc pc", "5-dc cl", "5-loop puff", "5-dc bo", "5-dc sh"], 2))
)
def test_what_is_many_in_one_differs_at_a_glance(
    prints: dict[str, NDArray[np.bool_]], first: str, second: str
) -> None:
    """More than a third of what is black in one or the other is not black in both."""
    one, other = prints[first], prints[second]
    assert (one ^ other).sum() > (one | other).sum() / 3


@pytest.mark.slow
@pytest.mark.parametrize("number", range(2, 10))
@pytest.mark.parametrize("height", ["hdc", "dc", "tr"])
def test_a_bobble_is_bold_where_a_cluster_is_not(
    prints: dict[str, NDArray[np.bool_]], height: str, number: int
) -> None:
    """As much as between bobble and popcorn, however many legs: over two fifths are not common to both."""
    one, other = prints[f"{number}-{height} bo"], prints[f"{number}-{height} cl"]
    assert (one ^ other).sum() > 0.4 * (one | other).sum()


@pytest.mark.parametrize(("short", "name"), SHORT_NAMES.items())
def test_a_short_name_has_the_symbol_of_the_usual_number(short: str, name: str) -> None:
    assert called(short).symbol == called(name).symbol


@pytest.mark.slow
def test_bars_do_not_run_together_in_the_smallest_cell() -> None:
    """Between parallel strokes is 0.28 mm of white at least: at 60 % 0.17 mm, two dots of 300 to the inch."""

    def apart(stitch: Stitch) -> bool:
        strokes = [mark for mark in marks(stitch) if isinstance(mark, Line) and len(mark.points) == 2]
        pairs = combinations([LineString(mark.points) for mark in strokes], 2)
        return all(
            one.distance(other) >= PEN + 0.28 for one, other in pairs if abs(slope(one) - slope(other)) < 1e-6
        )

    assert [each.abbreviation for each in DRAWN if not apart(each)] == []


def slope(line: LineString) -> float:
    (x0, y0), (x1, y1) = line.coords
    return (y1 - y0) / (x1 - x0) if abs(x1 - x0) > 1e-9 else 1e9


@pytest.mark.parametrize(
    ("name", "bars"),
    [("hdc", 0), ("dc", 1), ("tr", 2), ("dtr", 3), ("trtr", 4), ("FPhdc", 0), ("FPdc", 1), ("BPdtr", 3)],
)
def test_a_bar_for_every_yarn_over_but_none_for_a_half_double(name: str, bars: int) -> None:
    """Yarn overs before the hook goes in: double 1, treble 2, double treble 3 (common practice)."""
    middle = SMALLEST_CELL / 2
    stem = LineString([(middle, 1.0), (middle, SMALLEST_CELL)])
    slanting = [line for line in strokes(name).geoms if len(line.coords) == 2 and 0 < abs(slope(line)) < 1e6]
    assert len(slanting) == bars
    assert all(bar.crosses(stem) for bar in slanting)


@pytest.mark.parametrize("name", ["sc", "hdc", "dc", "tr", "dtr"])
def test_front_and_back_posts_are_mirror_images_hooked_to_the_right_and_to_the_left(name: str) -> None:
    def hook(side: str) -> LineString:
        return max(strokes(f"{side}{name}").geoms, key=lambda line: len(line.coords))

    front, back, middle = hook("FP"), hook("BP"), SMALLEST_CELL / 2
    assert back.coords[-1][0] < middle < front.coords[-1][0]
    assert scale(back, xfact=-1, origin=(middle, 0)).hausdorff_distance(front) < 1e-9
    assert front.coords[-1][1] < max(y for _, y in front.coords)
    assert seen_symbol(called(f"FP{name}").symbol, Side.WRONG) == called(f"BP{name}").symbol


@pytest.mark.parametrize("name", ["sl st", "sc", "hdc", "dc", "tr", "dtr"])
def test_the_arc_under_a_single_loop(name: str) -> None:
    """It opens to the top for the front loop, to the bottom for the back loop; the stitch is above it."""
    opens = {Loop.FRONT: 1, Loop.BACK: -1, Loop.THIRD: 0}
    for loop, way in opens.items():
        *stitch, arc = strokes(name, loop).geoms
        ends, middle = arc.coords[0][1], arc.coords[len(arc.coords) // 2][1]
        assert np.sign(round(middle - ends, 6)) == way
        assert MultiLineString(stitch).bounds[3] <= min(y for _, y in arc.coords) - 0.1
    assert [seen_loop(loop, Side.WRONG) for loop in Loop] == [Loop.FRONT, Loop.BACK, Loop.THIRD]


def test_a_chain_is_an_open_oval_and_a_slip_stitch_a_filled_one() -> None:
    (chain,), (slip,) = marks(called("ch")), marks(called("sl st"))
    assert isinstance(chain, Area)
    assert isinstance(slip, Area)
    assert (chain.pen, slip.pen) == (Pen.SYMBOL, Pen.SOLID)
    for oval in (chain, slip):
        (x0, y0, x1, y1) = mark_shape(oval).bounds
        assert x1 - x0 > 1.3 * (y1 - y0)
        assert (x0 + x1) / 2 == pytest.approx(SMALLEST_CELL / 2)


@pytest.mark.parametrize("number", range(2, 10))
def test_together_has_a_leg_to_every_stitch_and_one_top(number: int) -> None:
    legs = [line for line in strokes(f"hdc{number}tog").geoms if abs(slope(line)) > 1e-6]
    (top,) = {line.coords[0] for line in legs}
    assert top[0] == pytest.approx(number * SMALLEST_CELL / 2)
    feet = sorted(line.coords[1][0] for line in legs)
    assert feet == pytest.approx([SMALLEST_CELL * (each + 0.5) for each in range(number)])


@pytest.mark.parametrize("number", range(2, 10))
def test_a_shell_has_a_top_for_every_stitch_and_one_foot(number: int) -> None:
    stems = [line for line in strokes(f"{number}-hdc sh").geoms if abs(slope(line)) > 1e-6]
    (foot,) = {line.coords[1] for line in stems}
    assert foot[0] == pytest.approx(number * SMALLEST_CELL / 2)
    tops = sorted(line.coords[0][0] for line in stems)
    assert tops == pytest.approx([SMALLEST_CELL * (each + 0.5) for each in range(number)])


@pytest.mark.parametrize("name", ["dc cl", "dc bo", "dc pc", "loop puff"])
@pytest.mark.parametrize("number", range(2, 10))
def test_as_many_strands_as_legs_or_a_figure_for_more_than_five(name: str, number: int) -> None:
    """A figure is of strokes well inside the symbol, whose outer strands alone are drawn."""
    stitch = called(f"{number}-{name}")
    stance = stance_of(stitch, SMALLEST_CELL)
    foot = Point(stance.foot)
    lines = [LineString(mark.points) for mark in marks(stitch) if isinstance(mark, Line)]
    bold = [
        LineString(mark.points) for mark in marks(stitch) if isinstance(mark, Area) and mark.pen is Pen.SOLID
    ]
    strands = [line for line in (*lines, *bold) if line.distance(foot) < 1e-9]
    assert len(bold) == (2 if name == "dc bo" else 0)
    inner = [line for line in lines if line.bounds[3] < foot.y - 1 and len(line.coords) > 2]
    assert len(strands) == (number if number <= 5 else 2)
    assert bool(inner) == (number > 5)


def test_what_is_skipped_has_no_symbol() -> None:
    assert called("sk").symbol == ()


@pytest.mark.parametrize("kind", list(StrokeKind))
def test_every_stroke_a_spec_may_name_is_drawn(kind: StrokeKind) -> None:
    """With a stem beside it, the symbol has a mark that the stem alone has not."""
    text = (
        f"3 {kind}"
        if kind in (StrokeKind.BARS, StrokeKind.LEGS, StrokeKind.FAN, StrokeKind.LEAF, StrokeKind.LOOPS)
        else f"{kind}"
    )
    stance = cell_stance(0, 0, SMALLEST_CELL, SMALLEST_CELL * HEIGHT)
    stem = symbol_marks(read_symbol("stem"), None, stance, "own")
    both = symbol_marks(
        read_symbol(f"stem, {text}" if kind is not StrokeKind.STEM else "stem"), None, stance, "own"
    )
    assert both
    assert (set(both) == set(stem)) == (kind is StrokeKind.STEM)


@pytest.mark.parametrize("letters", ["k", "str", "knot", "crest", "picot5", "sealoops"])
def test_an_own_stitch_of_letters_shows_all_of_them_in_a_circle(letters: str) -> None:
    own = Stitch(abbreviation=letters, words="own", symbol=read_symbol("letter"), height=Height.NONE)
    circle, *texts = marks(own)
    assert isinstance(circle, Circle)
    words = [text for text in texts if isinstance(text, Text)]
    assert "".join(text.words for text in words) == letters
    inside = Point(circle.centre).buffer(circle.radius - PEN / 2)
    assert all(inside.contains(text.box()) for text in words)
    assert words[0].height >= {1: 1.2, 3: 1.2, 4: 1.0}.get(len(letters), 0.8)


@pytest.mark.parametrize("reach", [1.0, 3.0, 7.0])
@pytest.mark.parametrize("name", ["sc", "FPdc", "BPtr", "dtr", "FPsc", "sl st"])
def test_a_foot_further_off_is_reached(name: str, reach: float) -> None:
    """Two cells to the side and some rows down, with bars that stay in its own cell."""
    own = stance_of(called(name), SMALLEST_CELL)
    foot = own.foot[0] + 2 * SMALLEST_CELL, own.foot[1] + reach * SMALLEST_CELL * HEIGHT
    drawn = symbol_marks(called(name).symbol, None, replace(own, feet=(foot,), beside=0.3 * SMALLEST_CELL))
    lines = [LineString(mark.points) for mark in drawn if isinstance(mark, Line)]
    assert min(line.distance(Point(foot)) for line in lines) < 0.2 * SMALLEST_CELL
    longest = max(lines, key=lambda line: line.length)
    assert all(line.bounds[3] < SMALLEST_CELL * HEIGHT for line in lines if line is not longest)
