"""The flared body against closed forms: a ring sector, its table of worked examples, the rectangle."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point

from schematics.garment.constructions.base import HemArms
from schematics.garment.constructions.flared import FlaredBody, increase_plan
from schematics.garment.garment import Garment
from schematics.garment.walks import WalkName
from tests.examples import examples
from tests.garment.constructions.samples import GUIDE, fabric, finished_cm, flared, garment, parts, walked_cm

PLAIN = parts(fabric())


def around_a_disc(q: float, r1: float, r2: float, turn: float) -> float:
    """Shortest way round a disc of radius ``q`` from (r1, 0) to (r2, turn) in polar coordinates."""
    seen = math.acos(q / r1) + math.acos(q / r2)
    if turn <= seen:
        return math.sqrt(r1**2 + r2**2 - 2 * r1 * r2 * math.cos(turn))
    return math.sqrt(r1**2 - q**2) + math.sqrt(r2**2 - q**2) + q * (turn - seen)


@pytest.mark.parametrize(
    ("counts", "arms", "table"),
    [
        ((40, 132, 20), (26, 16), (42.11, 138.95, 28.57, 3.390, 12.42, 40.99, 2586.5, 33.78, 60.04)),
        ((44, 168, 26), (34, 18), (46.32, 176.84, 37.14, 3.514, 13.18, 50.32, 4144.4, 42.87, 76.12)),
    ],
)
def test_worked_table(counts: tuple[int, int, int], arms: tuple[int, int], table: tuple[float, ...]) -> None:
    """Worked by hand from the closed forms at 9.5 stitches and 7 rows to 10 cm."""
    neck_cm, hem_cm, depth_cm, angle, inner_cm, outer_cm, area_cm2, reach_cm, spread_cm = table
    neck, hem, rows = counts
    made = garment(
        FlaredBody(neck=neck, hem=hem, rows=rows),
        HemArms(from_front=arms[0], stitches=arms[1]),
        parts(GUIDE),
    )
    body = made.piece("body")
    assert 2 * body.edge("neck").path.length == pytest.approx(neck_cm, abs=0.05, rel=0.001)
    assert 2 * body.edge("hem").path.length == pytest.approx(hem_cm, abs=0.05, rel=0.001)
    assert body.edge("front").path.length == pytest.approx(depth_cm, abs=0.005)
    assert made.drop_cm == pytest.approx(depth_cm, abs=0.005)
    assert made.opening_angle == pytest.approx(angle, rel=0.001)
    centre = Point(0, inner_cm)
    assert centre.distance(Point(body.edge("neck").path.coords[0])) == pytest.approx(inner_cm, abs=0.01)
    assert centre.distance(Point(body.edge("hem").path.coords[0])) == pytest.approx(outer_cm, abs=0.01)
    assert body.area_cm2 == pytest.approx(area_cm2, rel=0.001)
    assert walked_cm(made, WalkName.REACH) == pytest.approx(reach_cm, abs=0.01)
    assert 2 * walked_cm(made, WalkName.ACROSS_BACK) == pytest.approx(spread_cm, abs=0.01)


def test_reach_of_the_table_is_the_way_round_the_neck() -> None:
    """The same figure from the closed form of section 4 of the model: round a disc as large as the neck."""
    a, b, depth = 40 / 0.95, 132 / 0.95, 20 / 0.7
    opening = (b - a) / depth
    inner = a / opening
    turn = opening / 2 * (1 - 2 * (26 + 8) / 132)
    assert around_a_disc(inner, inner, inner + depth, turn) == pytest.approx(33.78, abs=0.005)


def test_a_reach_that_bends_round_the_neck() -> None:
    # Neck 20 cm, hem 140 cm, depth 30 cm: 4 rad, radii 5 and 35. The run's middle is 15 stitches from
    # the front: 4/2 x (1 - 30/140) = 1.571 rad from the fold, beyond acos(5/35) = 1.427.
    made = garment(FlaredBody(neck=20, hem=140, rows=30), HemArms(from_front=10, stitches=10), PLAIN)
    turn = 2 * (1 - 30 / 140)
    assert turn > math.acos(5 / 35)
    assert walked_cm(made, WalkName.REACH) == pytest.approx(around_a_disc(5, 5, 35, turn), abs=0.005)


def test_across_the_front_goes_square_onto_the_panel() -> None:
    """Closed form: square to the panel, the outer radius times the sine of the angle, and half the panel."""
    made = garment(
        FlaredBody(neck=40, hem=132, rows=20),
        HemArms(from_front=26, stitches=16),
        parts(GUIDE, fabric(11, 7)),
        panel_stitches=10,
    )
    a, b, depth = 40 / 0.95, 132 / 0.95, 20 / 0.7
    opening = (b - a) / depth
    outer, turn = a / opening + depth, opening * 34 / 132
    assert walked_cm(made, WalkName.ACROSS_FRONT) == pytest.approx(
        outer * math.sin(turn) + 5 / 1.1, abs=0.005
    )


def test_a_panel_shorter_than_the_front_edge_is_gone_round() -> None:
    # A rectangle 60 wide and 30 deep, run in the middle of the right half: (15, -30). Half a panel of
    # 10 stitches on 10 rows: its lower end is at y = -10, x from 30 to 35.
    made = garment(
        FlaredBody(neck=60, hem=60, rows=30),
        HemArms(from_front=10, stitches=10),
        PLAIN,
        panel_stitches=10,
        panel_rows=10,
    )
    assert walked_cm(made, WalkName.ACROSS_FRONT) == pytest.approx(math.hypot(15, 20) + 5)


def test_equal_neck_and_hem_make_a_rectangle() -> None:
    made = garment(FlaredBody(neck=60, hem=60, rows=30), HemArms(from_front=10, stitches=10), PLAIN)
    body = made.piece("body")
    assert body.outline.normalize().equals_exact(body.outline.envelope.normalize(), 1e-9) or (
        body.outline.symmetric_difference(body.outline.envelope).area < 1e-9
    )
    assert body.outline.bounds == pytest.approx((0, -30, 30, 0))
    assert made.opening_angle == 0
    assert all(span.centre is None for span in body.spans)
    assert walked_cm(made, WalkName.REACH) == pytest.approx(math.hypot(15, 30))
    assert walked_cm(made, WalkName.ACROSS_BACK) == pytest.approx(15)


@pytest.mark.slow
@pytest.mark.parametrize(("neck", "hem", "rows"), [(40, 132, 20), (30, 31, 9), (44, 168, 26)])
def test_area_is_the_integral_of_the_arcs(neck: int, hem: int, rows: int) -> None:
    """The arc at radius r, angle times r, integrated from the neck's radius to the hem's."""
    opening = Fraction(hem - neck, rows)
    inner = neck / opening
    area = opening * ((inner + rows) ** 2 - inner**2) / 2
    made = garment(FlaredBody(neck=neck, hem=hem, rows=rows), HemArms(from_front=0, stitches=2), PLAIN)
    assert made.piece("body").area_cm2 == pytest.approx(float(area), rel=0.001)


@pytest.mark.slow
@given(flared())
@examples(60)
def test_drop_and_front_edge_are_the_depth(made: Garment) -> None:
    depth = finished_cm(made)["body.depth"]
    assert made.drop_cm == pytest.approx(depth)
    assert made.piece("body").edge("front").path.length == pytest.approx(depth)


@pytest.mark.slow
@given(neck=st.integers(2, 90), more=st.integers(0, 400), rows=st.integers(2, 90), every=st.integers(1, 9))
def test_increases_add_up_and_are_even(neck: int, more: int, rows: int, every: int) -> None:
    plan = increase_plan(neck, neck + more, rows, every)
    added = [each for _, each in plan.rows]
    assert sum(added) == (more if rows >= 2 else 0)
    assert max(added, default=0) - min(added, default=0) <= 1
    assert [row for row, _ in plan.rows] == list(range(2, rows + 1, every))
    assert plan.sections == (neck,)


def test_a_wide_arc_is_nowhere_a_tenth_of_a_millimetre_off() -> None:
    """Neck 95 cm, hem 97 cm, depth 61 cm: the centre is 95/2 x 61 cm over the neck's centre back."""
    made = garment(FlaredBody(neck=95, hem=97, rows=61), HemArms(from_front=0, stitches=2), PLAIN)
    inner = 95 / 2 * 61
    body = made.piece("body")
    for edge, radius in (("neck", inner), ("hem", inner + 61)):
        chords = body.edge(edge).path.segmentize(0.2).coords
        assert max(abs(math.dist(at, (0, inner)) - radius) for at in chords) <= 0.01


def test_one_row_has_no_row_to_increase_on() -> None:
    assert increase_plan(10, 30, 1, 1).rows == ()


def test_an_arm_run_off_the_half_gives_no_walks() -> None:
    body = FlaredBody(neck=40, hem=120, rows=20)
    assert garment(body, HemArms(from_front=55, stitches=20), PLAIN).walks == ()
    made = garment(body, HemArms(from_front=70, stitches=20), PLAIN)
    assert (made.arm.path, made.arm.middle, made.walks) == (None, None, ())


def test_fabric_over_two_circles_gives_no_walks_through_itself() -> None:
    # 20 cm to 200 cm over 10 cm is 18 rad: half of it is 9, more than a full circle.
    made = garment(FlaredBody(neck=20, hem=200, rows=10), HemArms(from_front=10, stitches=10), PLAIN)
    assert made.arm.middle is not None
    assert made.walks == ()
