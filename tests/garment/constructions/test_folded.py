"""The folded body against closed forms: neck edge, area, ways round the neck hole, picked-up stitches."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.crochet.fabric import Counted, Fabric
from schematics.garment.amounts import ROWS, Given, Laid, PickedUp, value_of
from schematics.garment.constructions.folded.folded_counts import FoldedArms, FoldedBody
from schematics.garment.garment import Garment
from schematics.garment.walks import WalkName
from tests.examples import examples
from tests.garment.constructions.samples import fabric, finished_cm, folded, garment, parts, walked_cm

PLAIN = parts(fabric())
COUNTS: dict[str, Any] = {
    "width": 110, "front_rows": 50, "back_rows": 50, "neck": 18, "neck_front_rows": 6, "neck_back_rows": 2,
    "slot": 18,
}  # fmt: skip
ARMS = FoldedArms(rows=18)


def worked(panel_rows: int = 44, panel_stitches: int = 18, rows: int = 18, **changes: Any) -> Garment:
    """The guide's worked example at one stitch and one row to the centimetre, changed as given."""
    return garment(
        FoldedBody(**{**COUNTS, **changes}),
        FoldedArms(rows=rows),
        PLAIN,
        panel_stitches=panel_stitches,
        panel_rows=panel_rows,
    )


@pytest.mark.parametrize("slot", [18, 14, 10])
def test_worked_example(slot: int) -> None:
    """Worked by hand: W 110, F = B = 50, n 18, f 6, b 2; a panel as wide as the slot."""
    made = worked(slot=slot, panel_stitches=slot)
    assert made.neck.edge_cm == pytest.approx(52)
    assert made.piece("body").area_cm2 + made.piece("centre panel").area_cm2 == pytest.approx(10856)
    assert walked_cm(made, WalkName.REACH) == pytest.approx(55.04, abs=0.005)
    assert 2 * walked_cm(made, WalkName.ACROSS_BACK) == pytest.approx(110.09, abs=0.005)
    assert made.drop_cm == 48
    assert made.opening_angle is None
    assert made.increases is None


def test_across_the_front_goes_round_the_neck_holes_corner() -> None:
    """By hand: from (55, 0) straight to the corner (9, 6), then square to the panel's centre line."""
    made = worked()
    assert walked_cm(made, WalkName.ACROSS_FRONT) == pytest.approx(math.hypot(46, 6) + 9)
    wider = worked(panel_stitches=24)
    assert walked_cm(wider, WalkName.ACROSS_FRONT) == pytest.approx(math.hypot(46, 6) + 12)


def test_outline_by_hand() -> None:
    body = worked(slot=14).piece("body")
    assert list(body.outline.exterior.coords) == [
        (0, -50), (55, -50), (55, -9), (55, 0), (55, 9), (55, 50), (7, 50), (7, 6), (9, 6), (9, -2), (0, -2),
        (0, -50),
    ]  # fmt: skip
    assert {edge.name: (edge.count, edge.counted, edge.partial) for edge in body.edges} == {
        "back hem": (110, Counted.STITCHES, False),
        "side": (100, Counted.ROWS, False),
        "front hem": (48, Counted.STITCHES, True),
        "front": (44, Counted.ROWS, True),
        "front neck": (2, Counted.STITCHES, True),
        "neck side": (8, Counted.ROWS, True),
        "back neck": (18, Counted.STITCHES, True),
        "front side": (41, Counted.ROWS, True),
        "back side": (41, Counted.ROWS, True),
    }
    (crease,) = body.creases
    assert crease.name == "shoulder fold"
    assert list(crease.path.coords) == [(9, 0), (55, 0)]


def test_a_slot_as_wide_as_the_neck_leaves_no_ledge() -> None:
    assert "front neck" not in {edge.name for edge in worked().piece("body").edges}


def test_side_seams_join_front_to_back_below_the_openings() -> None:
    made = worked(back_rows=52)
    assert [(seam.letter, seam.left) for seam in made.seams] == [
        ("A", False), ("B", True), ("C", False), ("D", True),
    ]  # fmt: skip
    for seam in made.seams[2:]:
        assert (seam.first_piece, seam.second_piece) == ("body", "body")
        assert (seam.first.count, seam.second.count) == (41, 43)
    assert made.girths == ((0, 220), (50, 220))


@pytest.mark.parametrize("changes", [{"side_seam": False}, {"rows": 100}])
def test_open_sides_have_no_seams_and_no_girth(changes: dict[str, Any]) -> None:
    made = worked(**changes)
    assert [seam.letter for seam in made.seams] == ["A", "B"]
    assert made.girths == ()


def test_girth_counts_the_panel_in_the_slot() -> None:
    # Back 110, fronts 110 - 14, panel 16.
    assert worked(slot=14, panel_stitches=16).girths[0] == (0, 222)


def test_the_arm_run_is_counted_from_the_front_hem_on_either_side() -> None:
    arm = worked(front_rows=48, back_rows=52).arm
    assert arm.edge.name == "side"
    assert (arm.edge.count, arm.first, arm.last, arm.count) == (100, 40, 57, 18)
    assert arm.left == (40, 57)
    assert arm.mirrored(40) == 40
    assert arm.back_count == 43
    assert arm.path is not None
    assert list(arm.path.coords) == [(55, -9), (55, 0), (55, 9)]
    assert arm.middle == (55, 0)


def test_an_opening_longer_than_front_or_back_gives_no_walks() -> None:
    for changes in ({"rows": 102}, {"rows": 82, "front_rows": 40}, {"rows": 82, "back_rows": 40}):
        made = worked(**changes)
        assert made.walks == ()
        assert made.arm.first < 1 or made.arm.last > made.arm.edge.count
    assert worked(rows=100).walks


def pick_up(rows: int, besides: int, cloth: Fabric) -> int:
    """Stitches picked up along so many row ends, beside others."""
    along = Laid(Given(rows, "rows"), ROWS, cloth)
    return int(value_of(PickedUp(along, cloth, Given(besides, "sts")), {}))


# 12 rows at 14 to 20 cm are 17.14 cm, 16.29 stitches at 19 to 20 cm; 13 rows 17.64, 14 rows 19.
@pytest.mark.parametrize(
    ("rows", "besides", "stitches"), [(12, 0, 16), (12, 7, 17), (13, 0, 18), (13, 1, 17), (14, 1, 19)]
)
def test_stitches_are_picked_up_at_the_stitch_gauge_to_an_even_whole(
    rows: int, besides: int, stitches: int
) -> None:
    assert pick_up(rows, besides, fabric(9.5, 7)) == stitches


@pytest.mark.parametrize(
    ("cloth", "per_row"),
    [(fabric(16, 18), 1), (fabric(14, 9.5), 1.5), (fabric(13, 7), 2)],
    ids=["single", "half double", "double"],
)
def test_the_trades_rules_of_thumb_are_near(cloth: Any, per_row: float) -> None:
    """Stitches to a row end by the trade's rule (common practice, no source), at gauges usual for it."""
    assert pick_up(40, 0, cloth) == pytest.approx(40 * per_row, rel=0.12)


@pytest.mark.slow
@given(rows=st.integers(1, 200), besides=st.integers(0, 200), s=st.floats(5, 40), r=st.floats(5, 40))
def test_picking_up_is_at_most_a_stitch_off_and_makes_the_whole_even(
    rows: int, besides: int, s: float, r: float
) -> None:
    stitches = pick_up(rows, besides, fabric(s, r))
    assert stitches >= 1
    assert (stitches + besides) % 2 == 0
    assert abs(stitches - rows * s / r) <= 1 + 1e-9 or stitches <= 2


def test_rings_stretch_with_the_stitches_or_along_the_rows() -> None:
    # 30 cm of stitches round the neck hole and panel top stretch by 10 %, 16 cm of row ends by 30 %; the
    # opening of 18 rows by 30 %.
    cloth = fabric(10, 10, across=0.1, along=0.3)
    made = garment(FoldedBody(**COUNTS), ARMS, parts(cloth), panel_stitches=18, panel_rows=44)
    assert made.neck.edge_full_cm == pytest.approx(36 * 1.1 + 16 * 1.3)
    assert made.neck.edge_count == made.neck.band_rows == 52
    assert made.arm.ring.edge_cm == 18
    assert made.arm.ring.edge_full_cm == pytest.approx(18 * 1.3)
    assert made.arm.ring.edge_count == 18


@pytest.mark.slow
@given(folded())
@examples(100)
def test_closed_forms(made: Garment) -> None:
    """Neck edge 2n + 2(f + b), area W(F + B) - n(f + b), both with a panel as wide and long as the slot."""
    cm = finished_cm(made)
    width, front, back, neck, slot = (
        cm[f"body.{name}"] for name in ("width", "front", "back", "neck_width", "slot")
    )
    hole = cm["body.neck_front"] + cm["body.neck_back"]
    assert made.neck.edge_cm - cm["panel.width"] == pytest.approx(2 * neck + 2 * hole - slot)
    in_slot = slot * cm["body.front_edge"]
    assert made.piece("body").area_cm2 + in_slot == pytest.approx(width * (front + back) - neck * hole)
    assert made.neck.edge_count % 2 == made.arm.ring.edge_count % 2 == 0
    assert made.drop_cm == pytest.approx(back - cm["body.neck_back"])


def test_area_is_the_integral_of_the_widths() -> None:
    """Of a width that is 104 stitches over the back, 18 fewer at the neck hole, and 14 fewer at the slot."""
    s, r = Fraction(19, 20), Fraction(7, 10)
    area = ((33 - 2) * 104 + (2 + 6) * (104 - 18) + (35 - 6) * (104 - 14)) / s / r
    body = FoldedBody(
        width=104, front_rows=35, back_rows=33, neck=18, neck_front_rows=6, neck_back_rows=2, slot=14
    )
    made = garment(body, ARMS, parts(fabric(9.5, 7)))
    assert made.piece("body").area_cm2 == pytest.approx(float(area), rel=1e-9)
