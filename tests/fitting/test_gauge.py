"""A maker's own gauge: the pattern's counts, other lengths."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.analysis.yarn.need import yarn_need
from schematics.checks.intent import MEANT
from schematics.crochet.varied_fabric import FabricError, error_fraction
from schematics.design.design import Design, Parts
from schematics.fitting.gauge import Gauge, SizeAtGauge, parts_at_gauge, size_at_gauge
from schematics.fitting.gauge_text import read_gauge
from schematics.fitting.sizing import size_fit
from schematics.wearer.body import Body, WearerSpec
from schematics.wearer.resolve import resolve
from tests.examples import examples
from tests.shipped import EACH_CONSTRUCTION, shipped_design

designs = st.sampled_from(EACH_CONSTRUCTION).map(shipped_design)


def gauge(design: Design, across: float, along: float) -> Gauge:
    """So many times as many stitches and rows to the centimetre."""
    body = design.parts.body
    return Gauge(stitches_per_cm=body.stitches_per_cm * across, rows_per_cm=body.rows_per_cm * along)


def all_facts(each: SizeAtGauge) -> dict[str, float]:
    """The facts of a size and its finished lengths."""
    return each.facts | {f"finished.{item.key}": item.length_cm for item in each.garment.finished}


@pytest.mark.slow
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


def test_stitches_picked_up_are_as_many_as_her_gauge_asks_for() -> None:
    """Along a folded body's row ends the program reckons how many: an even number, nearest to the length."""
    design = shipped_design("driftwood")
    size = design.sizes[2]
    pattern = size_at_gauge(design, size).garment.arm.ring
    parts = parts_at_gauge(design.parts, gauge(design, 1.15, 1.0))
    mine = size_at_gauge(design, size, parts)
    rows = mine.garment.arm.ring.band_rows
    assert rows != pattern.band_rows
    assert rows == mine.garment.arm.ring.edge_count
    along = mine.garment.arm.ring.edge_cm * parts.body.stitches_per_cm
    assert rows % 2 == 0
    assert abs(rows - along) <= 1
    lengths = {each.key: each.length_cm for each in mine.garment.finished}
    assert lengths["arm_band.length"] == pytest.approx(rows / parts.arm_bands.rows_per_cm)
    assert mine.garment.piece("arm band").edge("joined edge").count == rows


@pytest.mark.parametrize(
    ("text", "read", "over_cm"),
    [
        ("20 sts 15 rows over 20 cm", (0.5 / 20, 0.5 / 15), (20, 20)),
        ("40 sts 30 rows over 40 cm", (0.5 / 40, 0.5 / 30), (40, 40)),
        ("12 sts 15 rows over 12 x 20 cm", (0.5 / 12, 0.5 / 15), (12, 20)),
        ("10 sts 8 rows to 4 in", (0.5 / 10, 0.5 / 8), (10.16, 10.16)),
        ("1 st 0.75 rows to 1 cm", (0.5 / 10, 0.5 / 7.5), (10, 10)),
        ("2.5 sts 2 rows to 1 in", (0.5 / (25 / 2.54), 0.5 / (20 / 2.54)), (10, 10)),
        ("20 sts over 20 cm", (0.5 / 20, 0.5 / 14), (20, 20)),
    ],
)
def test_her_gauge_is_known_as_well_as_she_read_it(
    text: str, read: tuple[float, float], over_cm: tuple[float, float]
) -> None:
    """Half of one in what she counted; a gauge to the cm or inch is of 10 cm, rows not counted of 20."""
    design = shipped_design("tidepool")
    parts = read_gauge([text], design).parts
    errors = [error_fraction(parts.body, error) for error in (FabricError.STITCHES, FabricError.ROWS)]
    assert errors == pytest.approx(read)
    assert (parts.body.swatch.width_cm, parts.body.swatch.height_cm) == pytest.approx(over_cm)
    for mine, pattern in ((parts.neck_band, design.parts.neck_band), (parts.body, design.parts.body)):
        assert mine.weighed == pattern.swatch
    assert error_fraction(parts.neck_band, FabricError.ROWS) == pytest.approx(0.5 / 66)


def test_her_yarn_is_told_by_the_swatch_that_was_weighed() -> None:
    """A swatch of her own is not: her stitches weigh what the pattern's weigh, give or take as much."""
    design = shipped_design("tidepool")
    size = design.sizes[0]
    mine = read_gauge(["12 sts 9 rows over 12 cm"], design).parts
    pattern, own = (yarn_need(design, size_at_gauge(design, size, parts).garment) for parts in (None, mine))
    assert [each.mass_g for each in own.parts] == pytest.approx([each.mass_g for each in pattern.parts])
    assert own.error_g == pytest.approx(pattern.error_g)


def test_rows_read_over_three_times_as_much_are_a_third_as_far_off() -> None:
    """The part they have in the variance of how far the hem is above the knee is a ninth."""
    design = shipped_design("tidepool")
    size = design.sizes[2]
    wearer = resolve(WearerSpec(age_years=6, own={Body.HEAD_GIRTH: 52.0}), "child")
    variances = []
    for text in ("10 sts 7 rows over 10 cm", "30 sts 21 rows over 30 cm"):
        fit = size_fit(design, size_at_gauge(design, size, read_gauge([text], design).parts), wearer)
        (sure,) = (each.certainty for each in fit.findings if each.code == "HANG-KNEE")
        assert sure is not None
        variances.append(dict(sure.shares)["main: rows"] * sure.sd_cm**2)
    assert variances[0] == pytest.approx(9 * variances[1], rel=0.01)


@pytest.mark.slow
def test_lengths_meant_are_not_asked_about_at_a_makers_gauge() -> None:
    """Sandpiper says how long it is meant; a tenth tighter every length is another, on purpose."""
    design = shipped_design("sandpiper")
    size, wearer = design.sizes[0], resolve(WearerSpec(age_years=4), "a test")
    assert size.meant

    def codes(parts: Parts) -> set[str]:
        return {found.code for found in size_fit(design, size_at_gauge(design, size, parts), wearer).findings}

    assert codes(design.parts) - codes(parts_at_gauge(design.parts, gauge(design, 1.1, 1.1))) == {MEANT}
