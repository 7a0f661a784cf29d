"""A maker's own gauge: the pattern's counts, other lengths."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from schematics.design.design import Design
from schematics.fitting.gauge import Gauge, SizeAtGauge, parts_at_gauge, size_at_gauge
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.reading.design_file import read_design

SPECS = Path(__file__).parents[2] / "specs"
DESIGNS = {name: read_design(SPECS / f"{name}.yaml") for name in ("tidepool", "saltmarsh", "driftwood")}
designs = st.sampled_from(sorted(DESIGNS)).map(DESIGNS.__getitem__)


def gauge(design: Design, across: float, along: float) -> Gauge:
    """So many times as many stitches and rows to the centimetre."""
    body = design.parts.body
    return Gauge(stitches_per_cm=body.stitches_per_cm * across, rows_per_cm=body.rows_per_cm * along)


def all_facts(each: SizeAtGauge) -> dict[str, float]:
    """The facts of a size and its finished lengths."""
    return each.facts | {f"finished.{item.key}": item.length_cm for item in each.garment.finished}


@given(design=designs, times=st.floats(0.7, 1.4), at=st.integers(0, 6))
@settings(max_examples=30, deadline=None)
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
    design = DESIGNS["tidepool"]
    parts = parts_at_gauge(design.parts, Gauge(stitches_per_cm=1.0, rows_per_cm=0.75))
    found = all_facts(size_at_gauge(design, design.sizes[0], parts))
    assert found["finished.body.neck"] == pytest.approx(34.0)
    assert found["finished.body.depth"] == pytest.approx(28.0)
    panel = 10 * 20 / 22 * 19 / 20
    assert found["neck.edge_cm"] == pytest.approx(34 + panel)
    assert found["neck.edge_full_cm"] == pytest.approx(34 * 1.2 + panel * 1.12)
    assert found["neck.band_full_cm"] == pytest.approx(44 * 20 / 22 * 14 / 15 * 1.35)


def test_a_fabric_the_maker_swatched_too_has_her_gauge() -> None:
    design = DESIGNS["tidepool"]
    own = Gauge(stitches_per_cm=1.5, rows_per_cm=1.2)
    parts = parts_at_gauge(design.parts, gauge(design, 1.1, 1.1), {"rib": own})
    assert Gauge.of(parts.neck_band) == own
    assert Gauge.of(parts.arm_bands) == own
    assert parts.centre_panel.stitches_per_cm == pytest.approx(
        1.1 * design.parts.centre_panel.stitches_per_cm
    )


def test_stitches_picked_up_stay_those_of_the_pattern() -> None:
    """Along a folded body's row ends the program reckons how many to pick up; the maker reads a number."""
    design = DESIGNS["driftwood"]
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
    design = DESIGNS["tidepool"]
    parts = parts_at_gauge(design.parts, gauge(design, 1.2, 1.1))
    swatch, pattern = parts.body.swatch, design.parts.body.swatch
    assert (swatch.stitches, swatch.rows, swatch.mass_g) == (pattern.stitches, pattern.rows, pattern.mass_g)
    assert swatch.width_cm == pytest.approx(pattern.width_cm / 1.2)
