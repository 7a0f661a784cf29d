"""A maker's own gauge: the pattern's counts, other lengths."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.checks.rules.garment_numbers import facts
from schematics.design.design import Design
from schematics.fitting.gauge import Gauge, parts_at_gauge, size_at_gauge
from schematics.fitting.gauge_table import all_facts, facts_by_gauge, gauge_table_json, steps
from schematics.garment.arm_freedom import arm_freedom
from schematics.garment.constructions import CONSTRUCTIONS
from tests.examples import examples
from tests.fitting.reader import through_json
from tests.shipped import EACH_CONSTRUCTION, shipped_design

designs = st.sampled_from(EACH_CONSTRUCTION).map(shipped_design)


def gauge(design: Design, across: float, along: float) -> Gauge:
    """So many times as many stitches and rows to the centimetre."""
    body = design.parts.body
    return Gauge(stitches_per_cm=body.stitches_per_cm * across, rows_per_cm=body.rows_per_cm * along)


@given(design=designs, times=st.floats(0.7, 1.4), at=st.integers(0, 6))
@examples(30)
def test_a_maker_as_much_tighter_both_ways_makes_a_smaller_one_of_the_same_shape(
    design: Design, times: float, at: int
) -> None:
    size = design.sizes[at]
    pattern = all_facts(size_at_gauge(design, size))
    small = all_facts(size_at_gauge(design, size, parts_at_gauge(design.parts, gauge(design, times, times))))
    counted = {"arms.measured", "arms.on_edge", "girth.closed"}
    for name, length in pattern.items():
        assert small[name] == pytest.approx(length if name in counted else length / times, rel=1e-6), name


def test_stitches_change_widths_and_rows_change_depths() -> None:
    """Tidepool, size 2: 34 stitches at 19 to 20 cm, 21 rows at 14 to 20 cm; 20 % and 35 % stretch.

    At 20 stitches and 15 rows to 20 cm the body's are 34.00 and 28.00 cm; a panel of 10 stitches at
    22 to 20 cm grows by 19/20 likewise, the ribbing's 44 rows at 22 to 20 cm by 14/15.
    """
    design = shipped_design("tidepool")
    parts = parts_at_gauge(design.parts, Gauge(stitches_per_cm=1.0, rows_per_cm=0.75))
    found = all_facts(size_at_gauge(design, design.sizes[0], parts))
    assert found["finished.body.neck"] == pytest.approx(34.0)
    assert found["finished.body.depth"] == pytest.approx(28.0)
    panel = 10 * 20 / 22 * 19 / 20
    assert found["neck.edge_cm"] == pytest.approx(34 + panel)
    assert found["neck.edge_full_cm"] == pytest.approx(34 * 1.2 + panel * 1.12)
    assert found["neck.band_full_cm"] == pytest.approx(44 * 20 / 22 * 14 / 15 * 1.35)


def test_a_fabric_the_maker_swatched_too_has_her_gauge() -> None:
    design = shipped_design("tidepool")
    own = Gauge(stitches_per_cm=1.5, rows_per_cm=1.2)
    parts = parts_at_gauge(design.parts, gauge(design, 1.1, 1.1), {"rib": own})
    assert Gauge.of(parts.neck_band) == own
    assert Gauge.of(parts.arm_bands) == own
    assert parts.centre_panel.stitches_per_cm == pytest.approx(
        1.1 * design.parts.centre_panel.stitches_per_cm
    )


def test_stitches_picked_up_stay_those_of_the_pattern() -> None:
    """Along a folded body's row ends the program reckons how many to pick up; the maker reads a number."""
    design = shipped_design("driftwood")
    size = design.sizes[2]
    pattern = size_at_gauge(design, size)
    parts = parts_at_gauge(design.parts, gauge(design, 1.15, 1.0))
    mine = size_at_gauge(design, size, parts)
    fresh = CONSTRUCTIONS["folded"].build(size, parts)
    assert fresh.arm.ring.edge_count != pattern.garment.arm.ring.edge_count
    assert mine.garment.arm.ring.edge_count == pattern.garment.arm.ring.edge_count
    assert mine.garment.neck.band_rows == pattern.garment.neck.band_rows
    lengths = {each.key: each.length_cm for each in mine.garment.finished}
    rows = pattern.garment.arm.ring.band_rows
    assert lengths["arm_band.length"] == pytest.approx(rows / parts.arm_bands.rows_per_cm)
    assert mine.garment.piece("arm band").edge("joined edge").count == rows


def test_yarn_of_the_same_stitches_stays_the_same() -> None:
    """A tighter swatch of as many stitches is smaller and weighs as much."""
    design = shipped_design("tidepool")
    parts = parts_at_gauge(design.parts, gauge(design, 1.2, 1.1))
    swatch, pattern = parts.body.swatch, design.parts.body.swatch
    assert (swatch.stitches, swatch.rows, swatch.mass_g) == (pattern.stitches, pattern.rows, pattern.mass_g)
    assert swatch.width_cm == pytest.approx(pattern.width_cm / 1.2)


@pytest.mark.parametrize(
    ("across", "first", "last", "step"),
    [(9.5, 8.25, 10.75, 0.25), (13.0, 11.25, 14.75, 0.25), (20.0, 17.0, 23.0, 0.5), (40.0, 34.0, 46.0, 1.0)],
)
def test_steps_are_round_and_few(across: float, first: float, last: float, step: float) -> None:
    found = steps(across)
    assert (found[0], found[-1]) == (first, last)
    assert len(found) <= 15
    assert {round(b - a, 9) for a, b in itertools.pairwise(found)} == {step}


def test_the_table_has_the_facts_of_a_garment_made_at_each_gauge() -> None:
    design = shipped_design("saltmarsh")
    table = facts_by_gauge(design, (10.25, 11.0), (7.5, 8.0, 8.5))
    document = through_json(gauge_table_json(table))
    for size in design.sizes:
        for i, across in enumerate(table.stitches):
            for j, along in enumerate(table.rows):
                parts = parts_at_gauge(
                    design.parts, Gauge(stitches_per_cm=across / 10, rows_per_cm=along / 10)
                )
                garment = CONSTRUCTIONS["mitred"].build(size, parts)
                for name, exact in facts(garment, arm_freedom(garment)).items():
                    said = looked_up(document["sizes"][size.name][name], i, j)
                    assert said == pytest.approx(exact, abs=5.1e-5), name


def looked_up(fact: float | dict[str, list[float] | list[list[float]]], i: int, j: int) -> float:
    if not isinstance(fact, dict):
        return fact
    ((how, numbers),) = fact.items()
    found = numbers[{"stitches": i, "rows": j, "both": i}[how]]
    number = found[j] if isinstance(found, list) else found
    assert isinstance(number, float | int)
    return number


def test_what_is_no_number_is_null_in_the_table() -> None:
    design = shipped_design("driftwood")
    size = design.sizes[0]
    open_sides = type(size.body).model_validate(size.body.model_dump() | {"side_seam": False})
    one = replace(design, sizes=(replace(size, body=open_sides),))
    document = through_json(gauge_table_json(facts_by_gauge(one, (13.0,), (10.0,))))
    assert document["sizes"][size.name]["girth.closed"] == 0
    assert document["sizes"][size.name]["girth.0.girth_cm"] is None
    assert math.isnan(facts_by_gauge(one, (13.0,), (10.0,)).sizes[size.name]["girth.0.girth_cm"][0][0])
