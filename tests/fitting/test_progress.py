"""Half-way: sums by hand, and what becomes of the garment at the gauge that was measured."""

from __future__ import annotations

from dataclasses import replace

import pytest

from schematics.analysis.yarn.need import yarn_need
from schematics.errors import UsageError
from schematics.fitting.gauge import Gauge, parts_at_gauge, size_at_gauge
from schematics.fitting.progress import YarnLeft, outcome, piece_progress, row_stitches, yarn_left
from tests.fitting.children import DEMOS, demo

PIECES = ("body", "centre panel", "neck band", "arm band")


def test_a_flared_body_half_way() -> None:
    """Size 4: 36 stitches at the neck, 10 more on each of the even rows to row 22 of 24."""
    design = demo("tidepool")
    size = design.sizes[1]
    rows = row_stitches(size, size_at_gauge(design, size).garment, "body")
    assert rows == [36 + 10 * min(row // 2, 11) for row in range(1, 25)]
    now = piece_progress(design, size, "body", 12)
    assert now.stitches == rows[11]
    assert now.width_cm == pytest.approx(rows[11] * 20 / 19)
    assert now.height_cm == pytest.approx(12 * 20 / 14)
    assert now.share == pytest.approx(sum(rows[:12]) / sum(rows))


def test_a_folded_body_is_parted_at_the_neck_and_the_slot() -> None:
    """Size 2: 94 across, 26 rows to the fold and 26 after; neck of 22 from 2 before to 4 after, slot 12."""
    design = demo("driftwood")
    size = design.sizes[0]
    rows = row_stitches(size, size_at_gauge(design, size).garment, "body")
    assert rows == [94] * 24 + [72] * 6 + [82] * 22
    parted = [piece_progress(design, size, "body", number).parted for number in (1, 24, 25, 30, 31, 52)]
    assert parted == [False, False, True, True, True, True]
    assert not piece_progress(design, size, "centre panel", 20).parted


@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("piece", PIECES)
def test_a_finished_piece_weighs_what_the_yarn_says(name: str, piece: str) -> None:
    design = demo(name)
    size = design.sizes[3]
    garment = size_at_gauge(design, size).garment
    all_rows = len(row_stitches(size, garment, piece))
    now = piece_progress(design, size, piece, all_rows)
    (part,) = (each for each in yarn_need(design, garment).parts if each.part == piece)
    assert now.share == 1
    assert part.mass_g is not None
    assert now.mass_g == pytest.approx(part.mass_g / part.quantity)
    half = piece_progress(design, size, piece, all_rows // 2)
    assert half.mass_g is not None
    assert 0 < half.mass_g < part.mass_g / part.quantity
    lengths = {each.key: each.length_cm for each in garment.finished}
    key = {"body": "body.depth", "centre panel": "panel.length"}.get(piece)
    if key in lengths:
        assert now.height_cm == pytest.approx(lengths[key])


def test_the_stitches_of_a_body_are_its_area() -> None:
    """Every stitch takes as much area; the ring sector's is the mean of neck and hem times the depth."""
    design = demo("tidepool")
    size = design.sizes[2]
    garment = size_at_gauge(design, size).garment
    fabric = garment.piece("body").fabric
    stitches = sum(row_stitches(size, garment, "body"))
    area = stitches / fabric.stitches_per_cm / fabric.rows_per_cm
    assert area == pytest.approx(garment.piece("body").area_cm2, rel=0.03)


def test_measured_as_the_pattern_has_it_it_comes_out_as_the_pattern_has_it() -> None:
    design = demo("saltmarsh")
    size = design.sizes[2]
    now = piece_progress(design, size, "body", 10)
    found = outcome(design, size, None, now, now.width_cm, now.height_cm)
    assert found.gauge.stitches_per_cm == pytest.approx(design.parts.body.stitches_per_cm)
    assert found.rows_instead == now.all_rows
    pattern = {each.key: each.length_cm for each in size_at_gauge(design, size).garment.finished}
    assert {each.key: each.length_cm for each in found.fit.at_gauge.garment.finished} == pytest.approx(
        pattern
    )


def test_a_tenth_short_comes_out_a_tenth_short() -> None:
    """9 cm where 10 are due: the whole depth is 0.9 of the pattern's, and 10 rows for 9 make up for it."""
    design = demo("tidepool")
    size = design.sizes[4]
    now = piece_progress(design, size, "body", 11)
    found = outcome(design, size, None, now, now.width_cm, now.height_cm * 0.9)
    lengths = {each.key: each.length_cm for each in found.fit.at_gauge.garment.finished}
    pattern = {each.key: each.length_cm for each in size_at_gauge(design, size).garment.finished}
    assert lengths["body.depth"] == pytest.approx(0.9 * pattern["body.depth"])
    assert lengths["body.hem"] == pytest.approx(pattern["body.hem"])
    assert lengths["panel.length"] == pytest.approx(0.9 * pattern["panel.length"])
    assert found.rows_instead == round(33 / 0.9)
    assert found.alike


def test_a_panel_says_nothing_of_the_body() -> None:
    design = demo("tidepool")
    size = design.sizes[1]
    now = piece_progress(design, size, "centre panel", 16)
    found = outcome(design, size, None, now, now.width_cm, now.height_cm * 1.1)
    lengths = {each.key: each.length_cm for each in found.fit.at_gauge.garment.finished}
    pattern = {each.key: each.length_cm for each in size_at_gauge(design, size).garment.finished}
    assert lengths["panel.length"] == pytest.approx(1.1 * pattern["panel.length"])
    assert lengths["body.depth"] == pytest.approx(pattern["body.depth"])
    assert not found.alike
    assert "SEAM-LENGTH" in {each.code for each in found.fit.reported}


def test_yarn_still_to_come_is_all_that_is_not_worked() -> None:
    design = demo("tidepool")
    size = design.sizes[1]
    net = yarn_need(design, size_at_gauge(design, size).garment).net_g
    assert net is not None
    now = piece_progress(design, size, "body", 12)
    assert now.mass_g is not None
    (left,) = yarn_left(design, size, now, None, {})
    assert left.rest_g == pytest.approx(net - now.mass_g)
    (heavy,) = yarn_left(design, size, now, now.mass_g * 1.2, {"": 500.0})
    assert heavy.rest_g == pytest.approx(1.2 * left.rest_g)
    assert heavy.have_g == 500.0
    last = piece_progress(design, size, "arm band", 16)
    (end,) = yarn_left(design, size, last, None, {})
    parts = {part.part: part for part in yarn_need(design, size_at_gauge(design, size).garment).parts}
    threads = net - sum(part.mass_g or 0 for part in parts.values())
    assert end.rest_g == pytest.approx((parts["arm band"].mass_g or 0) / 2 + threads)


@pytest.mark.parametrize(
    ("have", "lasts"),
    [(None, "unknown"), (99.0, "no"), (100.0, "only just"), (104.9, "only just"), (105.1, "yes")],
)
def test_whether_it_lasts(have: float | None, lasts: str) -> None:
    assert YarnLeft(colour="", rest_g=100.0, have_g=have).lasts == lasts


def test_slips_of_the_pen() -> None:
    design = demo("tidepool")
    size = design.sizes[1]
    with pytest.raises(UsageError, match=r"--rows: expected 1 to 24, the rows of the body of size 4, got 25"):
        piece_progress(design, size, "body", 25)
    with pytest.raises(UsageError, match=r"--rows: .* got 0"):
        piece_progress(design, size, "body", 0)
    now = piece_progress(design, size, "body", 12)
    with pytest.raises(UsageError, match=r"--measured: by the pattern the width is about"):
        outcome(design, size, None, now, now.width_cm * 2.54, now.height_cm)
    with pytest.raises(UsageError, match=r"--measured: by the pattern the height is about"):
        outcome(design, size, None, now, now.width_cm, now.height_cm / 2.54)
    with pytest.raises(UsageError) as both:
        outcome(design, size, None, now, now.width_cm * 3, now.height_cm * 3)
    assert len(both.value.problems) == 2
    with pytest.raises(UsageError, match=r"--weighed: by the pattern it is about"):
        yarn_left(design, size, now, 1.0, {})


def test_a_gauge_no_yarn_has_is_a_slip_of_the_pen_however_near_the_pattern() -> None:
    design = demo("tidepool")
    loose = replace(design, parts=parts_at_gauge(design.parts, Gauge(stitches_per_cm=0.06, rows_per_cm=0.06)))
    now = piece_progress(loose, loose.sizes[1], "body", 12)
    assert outcome(loose, loose.sizes[1], None, now, now.width_cm * 1.15, now.height_cm).gauge
    with pytest.raises(UsageError, match=r"--measured: by the pattern the width is about"):
        outcome(loose, loose.sizes[1], None, now, now.width_cm * 1.25, now.height_cm)
