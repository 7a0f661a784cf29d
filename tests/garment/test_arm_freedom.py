"""Reach and spread against closed forms: round a disc for flared bodies, round one corner for folded ones."""

from __future__ import annotations

import itertools
import math
import random
from dataclasses import replace

import pytest
from shapely import LineString

from schematics.design.design import Parts, Size
from schematics.garment.arm_freedom import ArmFreedom, arm_freedom
from schematics.garment.constructions.base import Counts, HemArms
from schematics.garment.constructions.flared import FLARED, FlaredBody
from schematics.garment.constructions.folded.folded import FOLDED
from schematics.garment.constructions.folded.folded_counts import FoldedArms, FoldedBody
from schematics.garment.constructions.mitred.mitred import MITRED
from schematics.garment.constructions.mitred.mitred_counts import MitredBody
from schematics.garment.garment import Garment
from schematics.garment.walks import WalkName
from tests.examples import seeds
from tests.garment.constructions.samples import fabric, size_of

CHORDS = 0.02**2 / 24
"""An arc drawn by chords of 0.02 radians is shorter by this fraction."""


def parts(stitches: float, rows: float) -> Parts:
    """Body and panel at this gauge, bands at ten stitches to 10 cm."""
    body, band = fabric(stitches, rows), fabric(10, 10)
    return Parts(body=body, centre_panel=body, neck_band=band, arm_bands=band)


def size(body: Counts, arms: Counts, panel_stitches: int, panel_rows: int) -> Size:
    """Arm bands are three stitches deep: 3 cm."""
    return size_of(body, arms, panel_stitches=panel_stitches, panel_rows=panel_rows, arm_band_stitches=3)


def freedom(garment: Garment) -> ArmFreedom:
    found = arm_freedom(garment)
    assert found is not None
    for walk in garment.walks:
        path = found.paths[walk.name]
        line = LineString(path.points)
        assert line.length == pytest.approx(path.length_cm)
        assert path.points[0] == walk.start.coords[0]
        assert walk.goal.distance(line) < 1e-6
        assert walk.domain.buffer(1e-5).covers(line)
    return found


def without_bands(found: ArmFreedom) -> tuple[float, float, float]:
    """Reach, spread across the back, spread across the front, each less its one or two bands."""
    band = found.band_depth_cm
    return found.reach_cm - band, found.spread_back_cm - 2 * band, found.spread_front_cm - 2 * band


@pytest.mark.parametrize(
    ("neck", "hem", "rows", "from_front", "stitches", "reach", "spread"),
    [(40, 132, 20, 26, 16, 33.78, 60.04), (44, 168, 26, 34, 18, 42.87, 76.12)],
)
def test_worked_examples(
    neck: int, hem: int, rows: int, from_front: int, stitches: int, reach: float, spread: float
) -> None:
    """Worked out by hand from the closed forms, at 9.5 stitches and 7 rows to 10 cm."""
    body, arms = FlaredBody(neck=neck, hem=hem, rows=rows), HemArms(from_front=from_front, stitches=stitches)
    found = freedom(FLARED.build(size(body, arms, 10, rows), parts(9.5, 7)))
    assert found.reach_cm == pytest.approx(reach + 3, abs=0.005)
    assert found.spread_cm == pytest.approx(spread + 6, abs=0.005)


def flared_by_hand(
    neck_cm: float, hem_cm: float, depth_cm: float, back_share: float, half_panel_cm: float
) -> tuple[float, float, float]:
    """The three lengths of a ring sector, the arm run's middle at ``back_share`` of the half hem.

    From the hem to a radius, the fold or the panel's middle line: at right angles to it if that
    foot lies on the fabric, else along the tangent to the neck's circle and round it.
    """
    if neck_cm == hem_cm:
        across, rest = back_share * hem_cm / 2, (1 - back_share) * hem_cm / 2
        return math.hypot(across, depth_cm), 2 * across, 2 * (rest + half_panel_cm)
    opening = (hem_cm - neck_cm) / depth_cm
    q, r = neck_cm / opening, neck_cm / opening + depth_cm
    tangent, seen = math.sqrt(r**2 - q**2), math.acos(q / r)

    def to_radius(angle: float) -> float:
        return r * math.sin(angle) if angle <= seen else tangent + q * (angle - seen)

    back, front = back_share * opening / 2, (1 - back_share) * opening / 2
    straight = math.sqrt(q**2 + r**2 - 2 * q * r * math.cos(back))
    reach = straight if back <= seen else tangent + q * (back - seen)
    return reach, 2 * to_radius(back), 2 * (to_radius(front) + half_panel_cm)


@pytest.mark.parametrize("seed", seeds(range(30)))
def test_flared(seed: int) -> None:
    rng = random.Random(seed)
    stitches, rows = rng.uniform(7, 25), rng.uniform(6, 25)
    depth = rng.randint(15, 60)
    neck = rng.randint(30, 120)
    depth_cm = depth / rows * 10
    hem = neck + round(rng.uniform(0, 11.5) * depth_cm * stitches / 10)
    run = 2 * rng.randint(1, hem // 8)
    from_front = rng.randint(0, hem // 2 - run)
    made = size(
        FlaredBody(neck=neck, hem=hem, rows=depth), HemArms(from_front=from_front, stitches=run), 8, depth
    )
    expected = flared_by_hand(
        neck / stitches * 10,
        hem / stitches * 10,
        depth_cm,
        1 - (2 * from_front + run) / hem,
        4 / stitches * 10,
    )
    found = freedom(FLARED.build(made, parts(stitches, rows)))
    assert without_bands(found) == pytest.approx(expected, rel=CHORDS, abs=1e-6)
    assert found.spread_cm == min(found.spread_back_cm, found.spread_front_cm)


def test_some_flared_cases_bend_round_the_neck_and_some_do_not() -> None:
    bent = set()
    for hem in (100, 400):
        made = size(FlaredBody(neck=40, hem=hem, rows=30), HemArms(from_front=10, stitches=16), 8, 30)
        bent.add(len(freedom(FLARED.build(made, parts(10, 10))).paths[WalkName.REACH].points) > 2)
    assert bent == {True, False}


def folded_by_hand(
    half_width: float, half_neck: float, neck_front: float, neck_back: float
) -> tuple[float, ...]:
    """From the middle of the side to the neck hole's corner, then along or straight on to the centre."""
    back = math.hypot(half_width - half_neck, neck_back) + half_neck
    front = math.hypot(half_width - half_neck, neck_front) + half_neck
    return back, 2 * back, 2 * front


def folded(width: int, drop: int, neck: int, neck_front: int, neck_back: int, slot: int) -> Size:
    body = FoldedBody(
        width=width,
        front_rows=drop,
        back_rows=drop,
        neck=neck,
        neck_front_rows=neck_front,
        neck_back_rows=neck_back,
        slot=slot,
    )
    return size(body, FoldedArms(rows=2 * (drop // 4)), slot, drop - neck_front)


def test_folded_worked_example() -> None:
    """Width 110, drops 50, neck 18 wide and 6 and 2 deep: reach 55.04, spread 110.09, by hand."""
    found = freedom(FOLDED.build(folded(110, 50, 18, 6, 2, 8), parts(10, 10)))
    assert found.reach_cm == pytest.approx(55.04 + 3, abs=0.005)
    assert found.spread_cm == pytest.approx(110.09 + 6, abs=0.005)


@pytest.mark.parametrize("seed", seeds(range(30)))
def test_folded(seed: int) -> None:
    rng = random.Random(seed)
    stitches, rows = rng.uniform(7, 25), rng.uniform(6, 25)
    width = 2 * rng.randint(30, 120)
    drop = rng.randint(20, 60)
    neck, slot = 2 * rng.randint(8, 14), 2 * rng.randint(2, 8)
    neck_front, neck_back = rng.randint(2, 10), rng.randint(0, 5)
    made = folded(width, drop, neck, neck_front, neck_back, slot)
    expected = folded_by_hand(
        width / 2 / stitches * 10,
        neck / 2 / stitches * 10,
        neck_front / rows * 10,
        neck_back / rows * 10,
    )
    assert without_bands(freedom(FOLDED.build(made, parts(stitches, rows)))) == pytest.approx(expected)


@pytest.mark.parametrize("from_front", [20, 60, 100])
def test_many_lines_of_increases_come_near_a_flared_body(from_front: int) -> None:
    """Flat pieces tend to each other as the lines grow in number, and so do the ways on them."""
    arms = HemArms(from_front=from_front, stitches=16)
    mitred = MitredBody(neck=80, lines=40, increase_rows=3, rows=40)
    around = FLARED.build(size(FlaredBody(neck=80, hem=mitred.hem, rows=40), arms, 8, 40), parts(10, 10))
    lined = MITRED.build(size(mitred, arms, 8, 40), parts(10, 10))
    assert without_bands(freedom(lined)) == pytest.approx(without_bands(freedom(around)), rel=0.01)


def test_a_run_off_its_edge_leaves_nothing_to_measure() -> None:
    made = size(FlaredBody(neck=40, hem=100, rows=30), HemArms(from_front=50, stitches=16), 8, 30)
    assert arm_freedom(FLARED.build(made, parts(10, 10))) is None


def test_a_body_over_two_circles_cannot_be_measured() -> None:
    made = size(FlaredBody(neck=40, hem=600, rows=30), HemArms(from_front=10, stitches=16), 8, 30)
    assert arm_freedom(FLARED.build(made, parts(10, 10))) is None


def test_a_deeper_band_reaches_and_spreads_farther() -> None:
    made = size(FlaredBody(neck=40, hem=120, rows=30), HemArms(from_front=30, stitches=16), 8, 30)
    short, deep = (
        freedom(FLARED.build(replace(made, arm_band_stitches=count), parts(10, 10))) for count in (3, 7)
    )
    assert deep.reach_cm - short.reach_cm == pytest.approx(4)
    assert deep.spread_cm - short.spread_cm == pytest.approx(8)
    assert deep.paths == short.paths


def test_moving_the_run_towards_the_front_reaches_farther() -> None:
    reaches = [
        freedom(
            FLARED.build(
                size(FlaredBody(neck=40, hem=200, rows=30), HemArms(from_front=at, stitches=16), 8, 30),
                parts(10, 10),
            )
        ).reach_cm
        for at in range(80, 0, -20)
    ]
    assert all(nearer > farther for farther, nearer in itertools.pairwise(reaches))
