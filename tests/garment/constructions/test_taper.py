"""A panel that tapers: its trapezoids by hand, and everything that follows from its two widths."""

import math
from dataclasses import replace

import pytest
from shapely import Polygon

from schematics.crochet.fabric import RowRule
from schematics.design.design import Parts
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.base import Counts, HemArms, counts_of
from schematics.garment.constructions.flared import FlaredBody
from schematics.garment.constructions.folded.folded_counts import FoldedArms, FoldedBody
from schematics.garment.constructions.levers import panel_rows
from schematics.garment.garment import Garment
from tests.checks.cases import charted
from tests.garment.constructions.counted import tapering
from tests.garment.constructions.samples import fabric, size_of
from tests.garment.constructions.samples import garment as garment_of

SQUARE = fabric(10, 10)
"""A stitch and a row are 1 cm each."""
RULE = RowRule(setup=2, repeat=4, closing=3)
PANEL = tapering(SQUARE, RULE, (-2, -6, 4))
"""40 stitches at the foot are 38 after the set-up, 8 after 5 repeats and 12 after the closing."""
PARTS = Parts(body=SQUARE, centre_panel=PANEL, neck_band=SQUARE, arm_bands=SQUARE)
FLARED = FlaredBody(neck=60, hem=150, rows=28, increase_every=2), HemArms(from_front=20, stitches=16)
FOLDED = (
    FoldedBody(width=80, front_rows=30, back_rows=30, neck=24, neck_front_rows=4, neck_back_rows=2, slot=20),
    FoldedArms(rows=16),
)


def made(body: Counts, arms: Counts) -> Garment:
    return garment_of(body, arms, PARTS, panel_stitches=40, panel_rows=25)


def test_the_panel_is_three_trapezoids_one_above_the_other() -> None:
    """Heights 2, 20 and 3; widths 40, 38, 8 and 12: areas 39 x 2, 23 x 20, 10 x 3: 568 square cm."""
    panel = made(*FLARED).piece("centre panel")
    corners = [(20, 0), (19, 2), (4, 22), (6, 25), (-6, 25), (-4, 22), (-19, 2), (-20, 0)]
    assert panel.outline.equals(Polygon(corners))
    assert panel.outline.exterior.is_ccw
    assert panel.outline.area == pytest.approx(568)
    assert [(edge.name, edge.count) for edge in panel.edges] == [
        ("lower", 40),
        ("right side", 25),
        ("top", 12),
        ("left side", 25),
    ]
    # Slopes of 1 in 2, 15 in 20 and 2 in 3: the second is the triangle 3, 4, 5 times five.
    side = math.sqrt(5) + 25 + math.sqrt(13)
    lengths = [edge.length_cm for edge in panel.edges]
    assert lengths == pytest.approx([40, side, 12, side])
    for edge in panel.edges:
        assert edge.path.length == pytest.approx(edge.length_cm), edge.name


def test_measurements_tell_both_widths_and_the_slope() -> None:
    finished = {each.key: each for each in made(*FLARED).finished}
    expected = [
        ("panel.width", "panel width at the foot", 40, 40),
        ("panel.top", "panel width at the top", 12, 12),
        ("panel.length", "panel length", 25, 25),
        ("panel.side", "panel side, along its slope", math.sqrt(5) + 25 + math.sqrt(13), None),
    ]
    for key, name, length_cm, count in expected:
        assert (finished[key].name, finished[key].count) == (name, count)
        assert finished[key].length_cm == pytest.approx(length_cm)


def test_the_top_is_in_the_neck_edge_and_the_foot_in_the_hem() -> None:
    garment = made(*FLARED)
    assert [garment.neck.edge_count, garment.neck.edge_cm] == pytest.approx([72, 72])
    assert garment.girths[0] == pytest.approx((0, 60 + 12))
    assert garment.girths[-1][1] == pytest.approx(150 + 40)
    assert {seam.second.length_cm for seam in garment.seams} == {
        garment.piece("centre panel").edge("left side").length_cm
    }


def test_of_a_folded_body_the_front_is_as_much_narrower_at_the_top() -> None:
    garment = made(*FOLDED)
    # 80 at the back; at the front 80 less the slot of 20, and the panel's 12 at the top and 40 at the hem.
    assert [girth for _, girth in garment.girths] == pytest.approx([152, 180])
    # Hole: 24 across the back, 4 of its front, 6 row ends at either side to an even ring with the 12.
    assert garment.neck.edge_count == 24 + 4 + 12 + 12


def test_panel_rows_are_chosen_by_the_slope_of_its_sides() -> None:
    """A repeat of 4 rows lies along sqrt(16 + 9) = 5 cm; both ends sqrt(5) + sqrt(13) = 5.84 cm."""
    for front, repeats in ((26, 4), (31, 5), (33, 5), (34, 6)):
        assert panel_rows(front, PARTS) == 5 + 4 * repeats, front


@pytest.mark.parametrize("word", ["flared", "folded"])
def test_no_lever_leaves_a_panel_without_a_top(word: str) -> None:
    size = size_of(*(FLARED if word == "flared" else FOLDED), panel_stitches=29, panel_rows=25)
    # 29 - 2 - 30 + 4 is a single stitch at the top.
    assert CONSTRUCTIONS[word].build(size, PARTS).piece("centre panel").edge("top").count == 1
    for lever in CONSTRUCTIONS[word].levers:
        for step in range(-6, 7):
            moved = lever.moved(size, step, PARTS)
            if moved is not None:
                foot, rows = moved.panel_stitches, moved.panel_rows
                assert foot - 2 - 6 * ((rows - 5) // 4) + 4 >= 1


def test_grading_asks_for_a_stitch_at_the_top() -> None:
    formulas = CONSTRUCTIONS["flared"].formulas(PARTS, {})
    (demand,) = [each for each in formulas.demands if "at its top" in each.words]
    assert demand.kept.miss(counts_of(size_of(*FLARED, panel_stitches=29, panel_rows=25))) == 0
    assert demand.kept.miss(counts_of(size_of(*FLARED, panel_stitches=26, panel_rows=25))) == 3


def test_rows_of_a_length_are_found_in_a_span_that_holds_them() -> None:
    """The top is 42 less 6 in each repeat: from 10 to 20 after 4 and 5 of them, which are 21 and 25 rows."""
    formulas = CONSTRUCTIONS["flared"].formulas(PARTS, {})
    (top,) = [each for each in formulas.measures if each.key == "panel.top"]
    assert top.runs_straight("panel.rows")
    assert top.slopes == {"panel.stitches": 1.0, "panel.rows": pytest.approx(-6 / 4)}
    fits = [
        rows for rows in range(9, 50, 4) if 10 <= top.at({"panel.stitches": 40, "panel.rows": rows}) <= 20
    ]
    first, last = top.solved("panel.rows", {"panel.stitches": 40}, 10, 20)
    assert fits == [21, 25]
    # From 20 to 10 are the repeats 3.67 to 5.33, so the rows 19.67 to 26.33, and 4 more at either end.
    assert (first, last) == (pytest.approx(5 + 4 * 22 / 6 - 4), pytest.approx(5 + 4 * 32 / 6 + 4))


def test_the_stitches_of_its_rows_are_those_of_its_chart() -> None:
    """From 32 stitches four times a row with 4 fewer, one with 2 fewer and two as wide: the top has 8."""
    panel = charted(
        "sc3tog, sc across, sc3tog", "sc2tog, sc across, sc2tog", "sc across", "sc across", adds=(0, -6, 0)
    )
    parts = replace(PARTS, centre_panel=panel)
    garment = garment_of(*FLARED, parts, panel_stitches=32, panel_rows=16)
    wide, rows = 32, []
    for fewer in (4, 2, 0, 0) * 4:
        wide -= fewer
        rows.append(wide)
    assert wide == garment.piece("centre panel").edge("top").count == 8
    assert garment.piece("centre panel").row_stitches == tuple(rows)
