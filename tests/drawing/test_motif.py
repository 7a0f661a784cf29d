"""What is seen of a chart from a distance: each stroke and dot by hand, in stitches and rows."""

from __future__ import annotations

import pytest

from schematics.crochet.charts.chart import Chart
from schematics.crochet.charts.chart_text import parse_row
from schematics.crochet.charts.worked_rows import work_rows
from schematics.crochet.stitch_list import TRADE
from schematics.drawing.pieces.motif import Dot, Motif, Patch, StitchStroke, motif
from tests.crochet.panels import PANELS
from tests.crochet.panels.panel import Panel


def seen(*rows: str, stitches: int, **fields: object) -> Motif:
    """The motif of a chart of those rows, worked once."""
    colours = frozenset(letter for letter, _ in fields.get("colours", ()))  # type: ignore[attr-defined]
    chart = Chart(repeat=tuple(parse_row(row, TRADE, colours) for row in rows), **fields)  # type: ignore[arg-type]
    return motif(chart, work_rows(chart, stitches, 1), stitches)


def test_posts_are_strands_from_the_stitch_they_go_round_to_their_own_head() -> None:
    """Row 3 is worked from right to left like row 1; its third stitch is the third from the right."""
    found = seen("hdc across", "hdc across", "2 hdc, FPdc, 3 hdc", stitches=6)
    assert found.strokes == (StitchStroke((3.5, 1.5), (3.5, 2.5)),)
    assert not found.dots
    assert not found.patches


def test_posts_are_raised_where_they_come_to_the_front_of_the_right_side() -> None:
    """On a wrong side row, worked from left to right, a back post shows at the front of the fabric."""
    found = seen("hdc across", "FPdc, BPdc, 2 hdc", stitches=4)
    assert found.strokes == (StitchStroke((1.5, 0.5), (1.5, 1.5)),)


def test_where_no_post_is_raised_those_that_lie_deeper_are_strands() -> None:
    """A front post on a wrong side row lies behind, the first of four from the left."""
    found = seen("hdc across", "FPdc, 3 hdc", stitches=4)
    assert found.strokes == (StitchStroke((0.5, 0.5), (0.5, 1.5)),)


def test_stitches_into_tops_that_cross_are_strokes() -> None:
    """On a wrong side row, from left to right: first into the second stitch, and back for the first."""
    found = seen("sc across", "(dc in st 2, dc in st 1 behind), 2 sc", stitches=4)
    assert found.strokes == (StitchStroke((1.5, 1.0), (0.5, 2.0)), StitchStroke((0.5, 1.0), (1.5, 2.0)))


def test_a_puff_is_a_dot() -> None:
    assert seen("hdc across", "hdc, 3-loop puff, hdc", stitches=3).dots == (Dot((1.5, 1.5)),)


@pytest.mark.parametrize("panel", PANELS, ids=lambda panel: panel.name.replace(" ", "-"))
def test_what_is_seen_of_a_panel_lies_between_its_foot_and_its_top(panel: Panel) -> None:
    """Rows are as wide as the foot, or by what was added on either side; stitches in their row or below."""
    width = max(panel.counts)
    rows = work_rows(panel.chart, width, 1)
    found = motif(panel.chart, rows, width)
    beyond = max(0, max(row.stitch_count for row in rows) - width) / 2 if any(panel.adds) else 0
    places = [
        *(place for each in found.strokes for place in (each.foot, each.head)),
        *(each.at for each in found.dots),
        *((x, each.row) for each in found.patches for x in (each.left, each.right)),
    ]
    assert all(-beyond <= stitch <= width + beyond for stitch, _ in places)
    assert all(0 <= row <= len(rows) for _, row in places)
    assert all(each.foot[1] < each.head[1] for each in found.strokes)


def test_a_crossing_is_strokes_that_cross() -> None:
    """On the right side, posts 3 and 4 from the right first: they come to lie at 1 and 2."""
    found = seen(
        "hdc across",
        "hdc across",
        "(2 FPdc round posts 3 and 4, 2 FPdc round posts 1 and 2 in front)",
        stitches=4,
    )
    assert set(found.strokes) == {
        StitchStroke((1.5, 1.5), (3.5, 2.5)),
        StitchStroke((0.5, 1.5), (2.5, 2.5)),
        StitchStroke((3.5, 1.5), (1.5, 2.5)),
        StitchStroke((2.5, 1.5), (0.5, 2.5)),
    }


def test_a_spike_is_a_stroke_from_the_row_it_goes_down_to() -> None:
    """Two rows below row 3 is row 1: the foot is on its top."""
    found = seen("sc across", "sc across", "sc, sc 2 rows below, sc", stitches=3)
    assert found.strokes == (StitchStroke((1.5, 1.0), (1.5, 3.0)),)


def test_a_shell_is_a_fan_and_rows_that_have_more_stitches_are_no_wider() -> None:
    """Five in the middle of five: the feet are at 2.5 of 5, the heads on each of five."""
    found = seen("sk 2, 5 dc in next st, sk 2", stitches=5)
    assert set(found.strokes) == {StitchStroke((2.5, 0.0), (each + 0.5, 1.0)) for each in range(5)}


def test_more_stitches_in_a_row_lie_closer() -> None:
    """An increase in two stitches makes three: each is two thirds of a stitch wide."""
    found = seen("sc, 2 sc in next st", "sc2tog, sc", stitches=2)
    third = 2 / 3
    assert set(found.strokes[:2]) == {
        StitchStroke((0.5, 0.0), (0.5 * third, 1.0)),
        StitchStroke((0.5, 0.0), (1.5 * third, 1.0)),
    }
    assert set(found.strokes[2:]) == {
        StitchStroke((0.5 * third, 1.0), (0.5, 2.0)),
        StitchStroke((1.5 * third, 1.0), (0.5, 2.0)),
    }


def test_a_piece_that_tapers_is_narrower_by_what_it_loses() -> None:
    """Two of six are lost: the row of four stands in the middle, a stitch from either side."""
    found = seen("sc2tog, 2 sc, sc2tog", "bo, 3 sc", stitches=6, adds=(0, -2, 0))
    assert found.dots == (Dot((1.5, 1.5)),)
    assert not found.strokes, "the outline shows what is lost at its edges"
    inside = seen("3 sc, sc2tog, 3 sc", stitches=8, adds=(0, -1, 0))
    assert set(inside.strokes) == {StitchStroke((3.5, 0.0), (4.0, 1.0)), StitchStroke((4.5, 0.0), (4.0, 1.0))}


def test_bobbles_are_dots_and_chains_over_skipped_stitches_rings() -> None:
    found = seen("sc across", "sc, bo, ch, sk, sc", stitches=4)
    assert found.dots == (Dot((1.5, 1.5)), Dot((2.5, 1.5), ring=True))
    assert not found.strokes


def test_the_second_colour_is_a_patch() -> None:
    """Right side rows run from right to left: the second three of six are on the left."""
    found = seen("with A, 3 sc, with B, 3 sc", stitches=6, colours=(("A", "sand"), ("B", "fog")))
    assert found.patches == (Patch(0.0, 3.0, 0, 1),)


def test_how_near_strands_and_dots_stand_to_each_other() -> None:
    assert seen("hdc across", "hdc across", "FPdc, 2 hdc, FPdc, hdc, FPdc", stitches=6).nearest == 2
    assert seen("hdc across", stitches=6).nearest == float("inf")


ROPE = (
    "sc across",
    "sc across",
    "4 FPdc 2 rows below",
    "sc across",
    "(2 FPdc 2 rows below round posts 3 and 4, 2 FPdc 2 rows below round posts 1 and 2 behind)",
)


def test_a_crossing_of_four_strands_is_drawn_as_one_of_two() -> None:
    """Where strands are to be 2.5 stitches apart the outer two stay, straight up and from side to side."""
    thinned = seen(*ROPE, stitches=4).thinned(2.5)
    assert thinned
    assert {(each.foot, each.head) for each in thinned.strokes} == {
        ((0.5, 0.5), (0.5, 2.5)),
        ((3.5, 0.5), (3.5, 2.5)),
        ((0.5, 2.5), (3.5, 4.5)),
        ((3.5, 2.5), (0.5, 4.5)),
    }


def test_a_crossing_of_which_one_side_alone_has_room_is_not_drawn_thinned() -> None:
    assert seen(*ROPE, stitches=4).thinned(3.5) is None


def test_strands_that_sway_from_row_to_row_stay_upright_when_one_of_two_is_drawn() -> None:
    """Two raised stitches a place further right on each row: the strand they go on from is lost."""
    sway = "2 hdc, 2 FPdc", "hdc, 2 BPdc, hdc", "2 FPdc, 2 hdc"
    thinned = seen("hdc across", "hdc across", *sway, stitches=4).thinned(1.5)
    assert thinned
    assert {(each.foot, each.head) for each in thinned.strokes} == {
        ((0.5, 1.5), (0.5, 2.5)),
        ((1.5, 2.5), (1.5, 3.5)),
        ((2.5, 3.5), (2.5, 4.5)),
    }
