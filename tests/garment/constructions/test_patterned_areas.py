"""Where the stitches of borders, panels and bands lie, against closed forms.

At 9.5 stitches and 7 rows to 10 cm, the gauge of the worked examples of the flared body.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.crochet.charts.chart import Chart
from schematics.crochet.charts.chart_text import parse_row
from schematics.design.border import Border, BorderEdge
from schematics.garment.constructions.base import HemArms
from schematics.garment.constructions.flared import FlaredBody
from schematics.garment.constructions.folded.folded_counts import FoldedArms, FoldedBody
from schematics.garment.constructions.mitred.mitred_counts import MitredBody
from schematics.garment.garment import Garment
from schematics.garment.patterned_area import PatternedArea
from tests.examples import examples
from tests.garment.constructions.samples import GUIDE, garment, parts

STITCH, ROW = 10 / 9.5, 10 / 7
NECK, HEM = BorderEdge.NECK, BorderEdge.HEM


def border(at: BorderEdge | int, rows: int) -> Border:
    return Border(name="edging", stitch="lace", at=at, rows=rows)


def with_border(body: object, arms: object, *borders: Border) -> Garment:
    return garment(body, arms, replace(parts(GUIDE), borders=borders))  # type: ignore[arg-type]


def at(area: PatternedArea, *places: tuple[float, float]) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in area.place(np.array(places, dtype=float))]


FLARED = FlaredBody(neck=40, hem=132, rows=20, increase_until=14)
ARMS = HemArms(from_front=26, stitches=16)
INNER, DEPTH, ANGLE = 12.42, 28.57, 3.390
"""Of the worked table of the guide."""


def test_a_border_at_the_hem_of_a_flared_body_is_concentric() -> None:
    (area,) = with_border(FLARED, ARMS, border(HEM, 6)).piece("body").patterned
    assert (area.stitches, area.rows, area.first_row, area.last_row) == (132, 6, 15, 20)
    for row, radius in ((0, INNER + DEPTH * 14 / 20), (3, INNER + DEPTH * 17 / 20), (6, INNER + DEPTH)):
        for stitch in (0, 20, 66, 131.5, 132):
            ((x, y),) = at(area, (stitch, row))
            turn = ANGLE / 2 * (1 - stitch / 66)
            assert math.hypot(x, y - INNER) == pytest.approx(radius, abs=0.02)
            assert (x, y) == pytest.approx(
                (radius * math.sin(turn), INNER - radius * math.cos(turn)), abs=0.03
            )


def test_stitches_at_the_hem_are_as_wide_as_the_gauge_says() -> None:
    """A repeat of 12 stitches on the last row is an arc of 12 stitches: its chord is a little less."""
    (area,) = with_border(FLARED, ARMS, border(HEM, 6)).piece("body").patterned
    first, second = at(area, (24, 6), (36, 6))
    arc = 12 * STITCH
    chord = 2 * (INNER + DEPTH) * math.sin(arc / (INNER + DEPTH) / 2)
    assert math.dist(first, second) == pytest.approx(chord, abs=0.02)


def test_a_border_at_the_neck_begins_on_the_neck_edge() -> None:
    made = with_border(FLARED, ARMS, border(NECK, 1))
    (area,) = made.piece("body").patterned
    assert (area.stitches, area.first_row) == (40, 1)
    ((x, y),) = at(area, (0, 0))
    assert (x, y) == pytest.approx(made.piece("body").edge("neck").path.coords[0], abs=1e-6)


def test_a_border_beyond_the_body_is_not_drawn() -> None:
    for beyond in (border(18, 6), border(HEM, 21)):
        assert with_border(FLARED, ARMS, beyond).piece("body").patterned == ()


@pytest.mark.slow
@examples(25)
@given(lines=st.integers(2, 7), row=st.integers(1, 17), rise=st.floats(0, 3))
def test_rows_of_a_mitred_body_bend_at_its_lines_and_are_shared_out_evenly(
    lines: int, row: int, rise: float
) -> None:
    """A row that far down is as long as neck and hem in that share, and each stitch as long as the next."""
    body = MitredBody(neck=42, lines=lines, increase_rows=8, rows=20, increase_until=9)
    made = with_border(body, HemArms(from_front=4, stitches=8), border(row, 3))
    piece = made.piece("body")
    (area,) = piece.patterned
    down = (row - 1 + rise) / 20
    neck, hem = 42 * STITCH, (42 + 16 * lines) * STITCH
    count = area.stitches
    fine = np.linspace(0, count, 40 * count + 1)
    path = np.array(at(area, *((stitch, rise) for stitch in fine)))
    steps = np.hypot(*np.diff(path, axis=0).T)
    length = neck + (hem - neck) * down
    assert steps.sum() == pytest.approx(length, rel=2e-3)
    straight = np.isclose(steps, length / (40 * count), rtol=1e-6)
    assert straight.sum() >= len(steps) - lines - 1
    assert path[:, 0] == pytest.approx(-path[::-1, 0], abs=1e-6)


def test_a_border_at_the_hem_of_a_folded_body_lies_on_the_back_and_both_fronts() -> None:
    """90 stitches wide, so 47.37 cm to either side; 20 rows down the back and 22 down the front; a slot "
    "of 20."""
    body = FoldedBody(
        width=90, front_rows=22, back_rows=20, neck=24, neck_front_rows=5, neck_back_rows=2, slot=20
    )
    areas = with_border(body, FoldedArms(rows=8), border(HEM, 4)).piece("body").patterned
    assert [(each.stitches, each.first_row) for each in areas] == [(90, 1), (35, 39), (35, 39)]
    back, left, right = areas
    assert at(back, (0, 0), (90, 4)) == [
        pytest.approx((-45 * STITCH, -20 * ROW)),
        pytest.approx((45 * STITCH, -16 * ROW)),
    ]
    assert at(left, (0, 0), (35, 4)) == [
        pytest.approx((-45 * STITCH, 18 * ROW)),
        pytest.approx((-10 * STITCH, 22 * ROW)),
    ]
    assert at(right, (0, 0), (35, 4)) == [
        pytest.approx((10 * STITCH, 18 * ROW)),
        pytest.approx((45 * STITCH, 22 * ROW)),
    ]


def test_rows_beside_the_neck_hole_lie_on_the_shoulders() -> None:
    """A neck hole of 24 leaves 33 on either side of it; row 21 is the first of the front."""
    body = FoldedBody(
        width=90, front_rows=22, back_rows=20, neck=24, neck_front_rows=5, neck_back_rows=2, slot=20
    )
    left, right = with_border(body, FoldedArms(rows=8), border(21, 2)).piece("body").patterned
    assert at(left, (33, 0)) == [pytest.approx((-12 * STITCH, 0), abs=1e-9)]
    assert at(right, (0, 2)) == [pytest.approx((12 * STITCH, 2 * ROW))]


def test_panel_and_bands_with_a_chart() -> None:
    """A panel of 10 by 20, and an arm band of 4 on 16: its chart lies on its side, its left on top."""
    chart = Chart(repeat=(parse_row("hdc across"),))
    charted = replace(GUIDE, name="rib", chart=chart)
    made = garment(FLARED, ARMS, parts(GUIDE, panel=charted, rib=charted))
    (panel,) = made.piece("centre panel").patterned
    assert (panel.stitches, panel.rows) == (10, 20)
    assert at(panel, (0, 0), (10, 20)) == [
        pytest.approx((-5 * STITCH, 0)),
        pytest.approx((5 * STITCH, 20 * ROW)),
    ]
    band = made.piece("arm band")
    (area,) = band.patterned
    assert area.rows == 16
    depth = area.stitches * STITCH
    assert at(area, (0, 0), (area.stitches, 16)) == [
        pytest.approx((-8 * ROW, depth)),
        pytest.approx((8 * ROW, 0), abs=1e-9),
    ]
    assert made.piece("body").patterned == ()


def test_pieces_without_a_chart_have_no_pattern_to_draw() -> None:
    assert [each.patterned for each in with_border(FLARED, ARMS).pieces] == [(), (), (), ()]
