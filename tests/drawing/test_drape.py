"""The plain model of a worn poncho: where hem and bands come, against the figures they follow from."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import ellipe
from shapely import Point
from shapely.affinity import scale

from schematics.drawing.worn.drape import Hanging, Worn, chain_sag, wear
from schematics.garment.arm_freedom import ArmFreedom, arm_freedom
from schematics.garment.constructions.base import HemArms
from schematics.garment.constructions.flared import FlaredBody
from schematics.garment.constructions.folded.folded_counts import FoldedArms, FoldedBody
from schematics.garment.garment import Garment
from schematics.wearer.body_figure import Pose
from tests.examples import examples
from tests.garment.constructions.samples import fabric, garment, parts
from tests.wearer.test_body_figure import CHILD

PLAIN = parts(fabric())
"""One stitch and one row to the centimetre."""


def flared(neck: int = 40, hem: int = 150, rows: int = 30, from_front: int = 30, run: int = 16) -> Garment:
    return garment(
        FlaredBody(neck=neck, hem=hem, rows=rows),
        HemArms(from_front=from_front, stitches=run),
        PLAIN,
        panel_stitches=10,
        panel_rows=rows,
    )


def folded(width: int = 80, front: int = 34, back: int = 34, opening: int = 14) -> Garment:
    body = FoldedBody(
        width=width, front_rows=front, back_rows=back, neck=14, neck_front_rows=5, neck_back_rows=2, slot=10
    )
    return garment(body, FoldedArms(rows=opening), PLAIN, panel_stitches=10, panel_rows=front - 5)


def hung(made: Garment, sag: float = 1.05) -> Hanging:
    return Hanging(garment=made, freedom=arm_freedom(made), worn_drop_cm=made.drop_cm * sag)


def worn(made: Garment, pose: Pose) -> Worn:
    found = wear(CHILD, hung(made), pose)
    assert found is not None
    return found


def freedom_of(made: Garment) -> ArmFreedom:
    freedom = arm_freedom(made)
    assert freedom is not None
    return freedom


@pytest.mark.slow
@given(st.floats(1, 80), st.floats(1.001, 3))
def test_a_chain_hangs_as_low_as_its_length_lets_it(half_span: float, share: float) -> None:
    """The arc length of y = sag (x / half span)^2, integrated numerically."""
    from scipy.integrate import quad

    sag = chain_sag(half_span, half_span * share)
    length, _ = quad(lambda x: math.hypot(1, 2 * sag * x / half_span**2), 0, half_span)
    assert length == pytest.approx(half_span * share, rel=1e-6)


@pytest.mark.parametrize("half_length", [20.0, 19.0, 0.0])
def test_a_taut_chain_does_not_hang(half_length: float) -> None:
    assert chain_sag(20, half_length) == 0


@pytest.mark.parametrize("made", [flared(), folded()], ids=["flared", "folded"])
def test_arms_down_the_hem_hangs_the_worn_drop_below_the_nape(made: Garment) -> None:
    down = worn(made, Pose.DOWN)
    middle = down.hem.interpolate(0.5, normalized=True)
    assert down.hem_height_cm == pytest.approx(80 - 1.05 * made.drop_cm)
    assert (middle.x, middle.y) == pytest.approx((0, down.hem_height_cm), abs=1e-9)


@pytest.mark.parametrize("made", [flared(), folded()], ids=["flared", "folded"])
@pytest.mark.parametrize("pose", Pose)
def test_the_garment_is_valid_and_the_same_on_both_sides(made: Garment, pose: Pose) -> None:
    shown = worn(made, pose)
    for shape in (shown.cloth, shown.neck_band, *shown.arm_bands):
        assert shape.is_valid
    whole = shown.cloth.union(shown.neck_band)
    assert whole.symmetric_difference(scale(whole, xfact=-1, origin=(0, 0))).area < 1e-6
    assert shown.cloth.exterior.hausdorff_distance(shown.cloth.exterior.union(shown.hem)) < 1e-9


@pytest.mark.slow
@given(st.integers(34, 60), st.integers(0, 160), st.integers(18, 45), st.integers(5, 40), st.integers(4, 12))
@examples(40)
def test_any_flared_poncho_hangs(neck: int, more: int, rows: int, from_front: int, half_run: int) -> None:
    made = flared(neck, neck + more, rows, from_front, 2 * half_run)
    for pose in Pose:
        shown = worn(made, pose)
        assert shown.cloth.is_valid
        assert shown.hem_height_cm >= worn(made, Pose.DOWN).hem_height_cm - 1e-9


def test_arms_down_the_band_ends_where_the_reach_says() -> None:
    """From the nape half a shoulder breadth out, then down the arm."""
    made = flared()
    down = worn(made, Pose.DOWN)
    arm = down.figure.arm
    along = freedom_of(made).reach_cm - 12.5
    end = arm.at(along)
    right, left = down.arm_bands
    assert right.exterior.distance(Point(end)) < 1e-9
    far = max(math.dist(arm.at(0), corner) for corner in right.exterior.coords)
    assert far == pytest.approx(math.hypot(along, made.arm.ring.rest_cm / math.tau), rel=1e-3)
    assert left.equals_exact(scale(right, xfact=-1, origin=(0, 0)), 1e-9)


def test_arms_level_the_bands_come_no_farther_apart_than_the_spread() -> None:
    made = flared()
    spread = freedom_of(made).spread_cm
    assert spread / 2 < freedom_of(made).reach_cm
    right, left = worn(made, Pose.LEVEL).arm_bands
    assert right.bounds[2] - left.bounds[0] == pytest.approx(spread)
    path = worn(made, Pose.LEVEL).path
    assert path is not None
    assert path.length == pytest.approx(spread)


def test_arms_level_a_wide_poncho_comes_as_far_as_the_reach() -> None:
    made = folded(width=100)
    reach = freedom_of(made).reach_cm
    assert reach < freedom_of(made).spread_cm / 2 + 1
    right, _ = worn(made, Pose.LEVEL).arm_bands
    assert right.bounds[2] == pytest.approx(min(reach, freedom_of(made).spread_cm / 2))


@pytest.mark.parametrize("from_front", [20, 30, 40])
def test_arms_level_the_hem_is_no_longer_than_it_is_worked(from_front: int) -> None:
    """From the middle of the run over the front to the middle of the panel, 1 cm to the stitch."""
    made = flared(from_front=from_front)
    level = worn(made, Pose.LEVEL)
    flat = from_front + 16 / 2 + 10 / 2
    assert level.hem.length / 2 <= flat + 1e-6
    if level.hem_height_cm > worn(made, Pose.DOWN).hem_height_cm + 0.01:
        assert level.hem.length / 2 == pytest.approx(flat, rel=1e-3)


def test_a_hem_drawn_up_by_the_arms_is_among_the_cases() -> None:
    made = flared(from_front=20)
    assert worn(made, Pose.LEVEL).hem_height_cm > worn(made, Pose.DOWN).hem_height_cm + 1


def test_bands_on_the_sides_leave_these_to_hang_straight_down() -> None:
    """34 rows from fold to front hem, 7 of them in the opening: 27 cm hang below the band."""
    level = worn(folded(), Pose.LEVEL)
    x, y = level.hem.coords[-1]
    under = level.figure.arm.at(x - 12.5, -folded().arm.ring.edge_cm / math.tau)
    assert (x, y) == pytest.approx((under[0], under[1] - 27))


def test_arms_down_the_corner_hangs_no_lower_than_the_fabric_reaches() -> None:
    """On the fabric the corner is so far from the shoulder tip: along the fold, then down the side."""
    made = folded()
    down = worn(made, Pose.DOWN)
    along = freedom_of(made).reach_cm - made.arm.ring.band_depth_cm - 12.5
    assert down.hem.coords[-1][1] >= CHILD.shoulder_height_cm - math.hypot(along, 34) - 1e-9


@pytest.mark.parametrize("hem", [80, 100, 115, 150])
def test_over_hanging_arms_it_is_no_broader_than_its_girth_allows(hem: int) -> None:
    """Half the girth as the breadth of an ellipse 0.69 deep, unless the arms have no room at all."""
    made = flared(hem=hem)
    down = worn(made, Pose.DOWN)
    broadest = (hem + 10) / float(2 * ellipe(1 - 0.69**2))
    angle = math.degrees(down.figure.arm.angle)
    assert 6 - 1e-9 <= angle <= 20 + 1e-9
    if angle > 6 + 1e-9:
        assert down.cloth.bounds[2] - down.cloth.bounds[0] <= broadest + 1e-6
    assert (angle < 20 - 1e-9) is (hem < 110)


def test_the_neck_band_stands_on_the_shoulders() -> None:
    """A circle of the neck's girth at rest, 50 cm; at its sides on the slope of the shoulders."""
    shown = worn(flared(), Pose.DOWN)
    half = 50 / math.tau
    side = 80 - (half - 24 / math.tau) * math.tan(math.radians(20))
    depth = flared().neck.band_depth_cm
    x0, y0, x1, y1 = shown.neck_band.bounds
    assert (x0, x1, y1) == pytest.approx((-half, half, side + depth))
    assert y0 == pytest.approx(2 * side - 80)


def test_without_reach_no_bands_are_drawn() -> None:
    made = replace(flared(), walks=())
    for pose in Pose:
        shown = worn(made, pose)
        assert shown.arm_bands == ()
        assert shown.path is None


def test_what_is_too_short_is_not_drawn() -> None:
    assert wear(CHILD, hung(flared(rows=2, hem=44)), Pose.DOWN) is None
