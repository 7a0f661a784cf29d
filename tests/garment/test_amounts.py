"""Trees over counts, read as numbers, as columns and as slopes."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from schematics.garment.amounts import Count, Formula, Laid, Measure, PickedUp, arc_cosine, slope, value_of
from schematics.wearer.expr import Expr, Fact
from tests.garment.constructions.samples import fabric
from tests.garment.trees import BODY_ROWS, COUNTS, NECK, formulas, trees


@pytest.mark.slow
@given(tree=trees(), several=st.lists(COUNTS, min_size=1, max_size=4))
def test_a_column_is_the_numbers_one_below_the_other(tree: Expr, several: list[Mapping[str, int]]) -> None:
    columns = {name: np.array([counts[name] for counts in several]) for name in several[0]}
    expected = [float(value_of(tree, counts)) for counts in several]
    assert np.broadcast_to(value_of(tree, columns), (len(several),)) == pytest.approx(expected)


@pytest.mark.slow
@given(formula=formulas(), counts=COUNTS, name=st.sampled_from(["body.neck", "body.rows"]))
def test_a_slope_is_what_one_count_more_makes(formula: Formula, counts: Mapping[str, int], name: str) -> None:
    grown = formula.at({**counts, name: counts[name] + 1}) - formula.at(counts)
    assert formula.slopes.get(name, 0.0) == pytest.approx(grown, abs=1e-6)
    assert formula.slopes.keys() <= formula.needs


@pytest.mark.slow
@given(formula=formulas(), counts=COUNTS, low=st.floats(-50, 50), room=st.floats(0, 50))
def test_a_count_is_solved_for(formula: Formula, counts: Mapping[str, int], low: float, room: float) -> None:
    assume(abs(formula.slopes.get("body.neck", 0.0)) > 1e-3)
    ends = formula.solved("body.neck", counts, low, low + room)
    assert ends[0] <= ends[1]
    values = sorted(float(formula.at({**counts, "body.neck": end})) for end in ends)
    assert values == pytest.approx([low, low + room], abs=1e-6)


def test_lengths_follow_the_swatch() -> None:
    """30 stitches at 14 to 10 cm; stretched by a quarter."""
    cloth = fabric(14, 10, across=0.25)
    laid = Laid(NECK, NECK.counted, cloth)
    assert value_of(laid, {"body.neck": 30}) == pytest.approx(300 / 14)
    assert value_of(laid.at_full_stretch, {"body.neck": 30}) == pytest.approx(375 / 14)


def test_what_is_picked_up_does_not_run_straight() -> None:
    cloth = fabric(10, 10)
    picked = PickedUp(Laid(BODY_ROWS, BODY_ROWS.counted, cloth), cloth, NECK)
    edge = Formula(NECK + picked + Count("panel.stitches"), "sts")
    assert edge.needs == {"body.rows", "body.neck", "panel.stitches"}
    assert edge.at({"body.neck": 7, "body.rows": 12, "panel.stitches": 10}) == 7 + 13 + 10
    assert [edge.runs_straight(name) for name in ("panel.stitches", "body.neck", "body.rows")] == [
        True, False, False,
    ]  # fmt: skip
    assert sorted(edge.slopes.values()) == [1, 1, 1]


def test_angles_are_in_degrees_and_a_slope_is_the_hypotenuse() -> None:
    counts = {"body.neck": 3, "body.rows": 4}
    assert value_of(slope(NECK, BODY_ROWS), counts) == 5
    assert value_of(arc_cosine(NECK / 6), counts) == pytest.approx(60)


def test_what_is_no_sum_has_no_slopes_and_what_is_no_count_no_value() -> None:
    with pytest.raises(ValueError, match="is no sum of counts"):
        _ = Formula(slope(NECK, BODY_ROWS)).slopes
    with pytest.raises(KeyError, match="Fact"):
        value_of(NECK + Fact("drop_cm"), {"body.neck": 1})
    with pytest.raises(KeyError):
        Measure(NECK, key="neck").at({})
