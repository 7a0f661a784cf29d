"""Bodies whose increases end above the hem: what is true of the schedule, and what of the taper drawn."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString

from schematics.garment.constructions.base import Counts, HemArms
from schematics.garment.constructions.flared import FlaredBody
from schematics.garment.constructions.mitred.mitred_counts import MitredBody
from schematics.garment.garment import Garment
from schematics.garment.increases import IncreasePlan
from schematics.garment.walks import WalkName
from tests.examples import examples
from tests.garment.constructions.samples import GUIDE, fabric, finished_cm, garment, parts, walked_cm

PLAIN = parts(fabric())
ARMS = HemArms(from_front=24, stitches=12)
FLARED = FlaredBody(neck=40, hem=120, rows=20, increase_every=2, increase_until=16)
"""Ten increases on rows 2, 4, ... 16 of 20; a stitch and a row are 1 cm, so it widens to 15 + 1 = 16 cm."""

MITRED = MitredBody(neck=48, lines=4, increase_rows=8, rows=20, increase_every=2, increase_until=16)


def stitches_in_all(plan: IncreasePlan, rows: int) -> int:
    """Row by row with a pencil."""
    now, all_of_them = plan.start, 0
    for row in range(1, rows + 1):
        now += sum(added for number, added in plan.rows if number == row)
        all_of_them += now
    return all_of_them


@pytest.mark.parametrize(("body", "hem"), [(FLARED, 120), (MITRED, 112)])
def test_the_girth_grows_down_to_the_last_increase_row_and_no_further(body: Counts, hem: int) -> None:
    """Panel 10 cm wide."""
    neck = 40 if body is FLARED else 48
    made = garment(body, ARMS, PLAIN)
    depths, girths = zip(*made.girths, strict=True)
    assert depths == pytest.approx((0, 16, 20))
    assert girths == pytest.approx((neck + 10, hem + 10, hem + 10))


def test_at_a_line_at_centre_back_depths_are_along_it() -> None:
    """Three lines: it is hypot(20, 8) long, and four fifths of it widen."""
    body = MitredBody(neck=48, lines=3, increase_rows=8, rows=20, increase_every=2, increase_until=16)
    made = garment(body, ARMS, PLAIN)
    assert [depth for depth, _ in made.girths] == pytest.approx([0, 0.8 * math.hypot(20, 8), made.drop_cm])


def test_an_ending_at_the_hem_has_no_tube() -> None:
    """From row 20 of 21 on it would widen to 19 + 1 cm; from every 4th row on, 18 of 19, to the hem."""
    body = FlaredBody(neck=40, hem=120, rows=21, increase_every=2, increase_until=20)
    assert len(garment(body, ARMS, PLAIN).girths) == 3
    body = FlaredBody(neck=40, hem=120, rows=19, increase_every=4, increase_until=18)
    made = garment(body, ARMS, PLAIN)
    assert [depth for depth, _ in made.girths] == pytest.approx([0, 19])
    assert made.piece("body").creases == ()


@pytest.mark.parametrize(
    ("body", "arms", "gone_on", "arms_there"),
    [
        (FLARED, (24, 12), FlaredBody(neck=40, hem=140, rows=20), (28, 14)),
        (MITRED, (21, 14), MitredBody(neck=48, lines=4, increase_rows=10, rows=20), (24, 16)),
    ],
)
def test_ways_are_those_on_the_body_that_goes_on_widening(
    body: Counts, arms: tuple[int, int], gone_on: Counts, arms_there: tuple[int, int]
) -> None:
    """16 cm give 80 (64) stitches, 20 cm would give 100 (80): the run lies at the same share of that hem."""
    made = garment(body, HemArms(from_front=arms[0], stitches=arms[1]), PLAIN)
    wider = garment(gone_on, HemArms(from_front=arms_there[0], stitches=arms_there[1]), PLAIN)
    for name in WalkName:
        assert walked_cm(made, name) == pytest.approx(walked_cm(wider, name), rel=1e-9)
    assert made.opening_angle == pytest.approx(wider.opening_angle)


@pytest.mark.slow
@given(
    neck=st.integers(10, 90),
    more=st.integers(0, 300),
    every=st.integers(1, 4),
    times=st.integers(0, 20),
    below=st.integers(0, 9),
    lines=st.integers(0, 5),
)
@examples(80)
def test_neck_hem_front_and_area_are_those_of_the_counts(
    neck: int, more: int, every: int, times: int, below: int, lines: int
) -> None:
    until = 2 + every * times
    rows = until + below
    how: dict[str, Any] = {
        "neck": 2 * neck, "rows": rows, "increase_every": every, "increase_until": until,
    }  # fmt: skip
    body: FlaredBody | MitredBody
    if lines:
        body = MitredBody(**how, lines=lines, increase_rows=times + 1)
    else:
        body = FlaredBody(**how, hem=2 * neck + more)
    made = garment(body, ARMS, parts(GUIDE))
    piece, lengths = made.piece("body"), finished_cm(made)
    assert made.increases is not None
    assert made.increases.rows[-1][0] == until
    assert 2 * piece.edge("neck").path.length == pytest.approx(2 * neck / 0.95, rel=2e-4)
    assert 2 * piece.edge("hem").path.length == pytest.approx(body.hem / 0.95, rel=2e-4)
    assert piece.edge("front").path.length == pytest.approx(rows / 0.7)
    assert lengths["body.depth"] == pytest.approx(rows / 0.7)
    assert piece.outline.is_valid or (made.opening_angle or 0) > 2 * math.pi
    assert piece.area_cm2 == pytest.approx(stitches_in_all(made.increases, rows) / 0.95 / 0.7)


@pytest.mark.parametrize(("body", "hem"), [(FLARED, 120), (MITRED, 112)])
def test_the_last_increase_row_is_drawn_where_it_lies_on_the_taper(body: Counts, hem: int) -> None:
    """16 rows of 20 down, so as wide as the neck and four fifths of what the hem has more."""
    made = garment(body, ARMS, PLAIN)
    (crease,) = [each for each in made.piece("body").creases if each.along_row]
    assert crease.name == "last increase row"
    neck = 40 if body is FLARED else 48
    assert 2 * crease.path.length == pytest.approx(neck + 0.8 * (hem - neck), rel=2e-4)
    inner, outer = made.piece("body").edge("front").path.coords[::-1]
    front = LineString([inner, outer])
    assert front.distance(LineString(crease.path.coords[-2:])) < 1e-9
    assert front.project(crease.path.boundary.geoms[1]) == pytest.approx(16)
    assert crease.path.coords[0] == pytest.approx((0, -16))


@pytest.mark.parametrize(("hem", "shown"), [(44, False), (46, False), (47, True), (120, True)])
def test_it_is_drawn_from_three_per_cent_on(hem: int, shown: bool) -> None:
    """At 16 cm of 20 the taper has 44.8 stitches where there are 46, 2.7 % more, and 45.6 for 47, 3.1 %."""
    body = FlaredBody(neck=40, hem=hem, rows=20, increase_every=2, increase_until=16)
    assert bool(garment(body, ARMS, PLAIN).piece("body").creases) is shown


def arrows(made: Garment) -> list[LineString]:
    return [LineString(way) for way in made.piece("body").work.arrow_places]


@pytest.mark.parametrize("until", [4, 8, 16, 18])
def test_the_arrow_of_work_crosses_no_row(until: int) -> None:
    body = FlaredBody(neck=40, hem=120, rows=20, increase_every=2, increase_until=until)
    made = garment(body, ARMS, PLAIN)
    (row,) = made.piece("body").creases
    assert not any(way.intersects(row.path) for way in arrows(made))
    assert all(way.length > 5 for way in arrows(made))


@pytest.mark.parametrize(
    ("rows", "each", "interval"),
    [
        (((2, 9), (4, 9), (6, 9)), 9, 2),
        (((2, 9), (4, 8), (6, 9)), None, 2),
        (((2, 9), (4, 9), (7, 9)), 9, None),
        (((2, 0), (3, 1), (4, 0), (5, 1)), 1, 2),
        (((2, 9),), 9, None),
        ((), None, None),
    ],
)
def test_what_is_regular(rows: tuple[tuple[int, int], ...], each: int | None, interval: int | None) -> None:
    plan = IncreasePlan(start=40, rows=rows)
    assert (plan.each, plan.interval) == (each, interval)
    stitches = plan.row_stitches(8)
    assert stitches[0] == 40
    assert [b - a for a, b in pairwise(stitches)] == [dict(rows).get(row, 0) for row in range(2, 9)]
