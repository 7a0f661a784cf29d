"""Who is served: against the normal distribution's own figures, and a chart whose words keep apart."""

from __future__ import annotations

import itertools
from dataclasses import replace
from functools import cache
from statistics import NormalDist

import pytest

from schematics.design.design import Design
from schematics.drawing.ink.marks import Area, Text
from schematics.drawing.ink.svg import to_svg
from schematics.fitting.coverage import CRITERIA, AgeShares, coverage
from schematics.fitting.coverage_chart import coverage_chart
from schematics.fitting.coverage_doubts import coverage_doubts
from schematics.fitting.coverage_report import gaps
from schematics.fitting.gauge import size_at_gauge
from schematics.wearer.body import Body, BodyValue, WearerSpec
from schematics.wearer.resolve import resolve
from tests.examples import thorough
from tests.fitting.children import DEMOS, demo

MEASURED = 0.001
"""A chance that everything has that holds as measured."""


def as_measured(name: str) -> Design:
    """The demo, what is measured taken for sure."""
    design = demo(name)
    return replace(design, limits=replace(design.limits, sure_fraction=MEASURED))


AGES = (2, 4, 6, 8, 10, 13) if thorough() else (2, 6, 13)


def below(value: BodyValue, length: float, percentile: float) -> float:
    """The share below a length, with the table's low and high percentile on either side of the median."""
    z = NormalDist().inv_cdf(percentile)
    half = value.high_cm - value.cm if length > value.cm else value.cm - value.low_cm
    return NormalDist(value.cm, half / z).cdf(length)


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize("name", DEMOS if thorough() else ["tidepool"])
def test_heads_and_hands_follow_the_normal_curve(name: str) -> None:
    design = as_measured(name)
    sizes = design.sizes if thorough() else design.sizes[::3]
    for each in coverage(design, sizes, AGES):
        table = resolve(WearerSpec(age_years=each.age_years), "a test").values
        for size in sizes:
            garment, by = size_at_gauge(design, size).garment, each.sizes[size.name].by
            assert by["head"] == pytest.approx(
                below(table[Body.HEAD_GIRTH], garment.neck.full_cm, 0.97), abs=6e-4
            )
            hands = below(table[Body.HAND_GIRTH], garment.arm.ring.full_cm, 0.95)
            assert by["hand"] == pytest.approx(hands, abs=6e-4)


@pytest.mark.slow
def test_a_head_is_served_where_nine_in_ten_of_its_necks_would_pass() -> None:
    """The band decides: its rows, their reading, the drift and the pull, and the tape round the head."""
    design = demo("tidepool")
    firm = design.parts.with_fabrics(
        lambda fabric: fabric if fabric is design.parts.neck_band else replace(fabric, stretch_across=2.0)
    )
    design, age = replace(design, parts=firm), 6.0
    (each,) = coverage(design, design.sizes, [age])
    head, rib = resolve(WearerSpec(age_years=age), "a test").values[Body.HEAD_GIRTH], firm.neck_band
    for size in design.sizes:
        full = size_at_gauge(design, size).garment.neck.band_full_cm
        drift, read = 0.02 * full, 0.5 / rib.swatch.rows * full
        pulled = full / (1 + rib.stretch_along) * rib.stretch_along / 3 / rib.stretch_pulls**0.5
        sd_cm = (drift**2 + read**2 + pulled**2 + 0.5**2) ** 0.5
        share = below(head, full - NormalDist().inv_cdf(0.9) * sd_cm, 0.97)
        found = each.sizes[size.name]
        assert found.by["head"] == pytest.approx(share, abs=2e-3)
        if share > 0.1:
            more = (below(head, full, 0.97) - share) * found.all / share
            assert found.unsure["head"].fraction == pytest.approx(more, abs=2e-3)


@pytest.mark.slow
def test_what_to_measure_is_what_is_most_in_doubt() -> None:
    """Whether a head passes hangs on how far the band gives most of all; never, once it has been pulled ten
    thousand times.
    """
    design = demo("tidepool")
    firm = design.parts.with_fabrics(
        lambda fabric: fabric if fabric is design.parts.neck_band else replace(fabric, stretch_across=2.0)
    )
    sizes = design.sizes[:2]
    pulled = firm.with_fabrics(lambda fabric: replace(fabric, stretch_pulls=10_000))
    told = []
    for parts in (firm, pulled):
        design = replace(design, parts=parts, sizes=sizes)
        doubts = coverage_doubts(design, coverage(design, sizes, [3.0, 4.0]), 0.01)
        told.append([each.measure.startswith("pull ") for each in doubts if each.criterion == "head"])
    assert told[0]
    assert all(told[0])
    assert not any(told[1])


@pytest.mark.slow
def test_reach_follows_from_the_height() -> None:
    """Heights between which the band ends at most 4 cm over the hand and not above half the forearm.

    Wrist and forearm are shares of the height at an age; the limits are the usual ones.
    """
    design, age = as_measured("tidepool"), 7.0
    (each,) = coverage(design, design.sizes, [age])
    wearer = resolve(WearerSpec(age_years=age), "a test").values
    height = wearer[Body.HEIGHT]
    wrist = wearer[Body.CENTRE_BACK_NECK_TO_WRIST].cm / height.cm
    forearm = wearer[Body.FOREARM_LENGTH].cm / height.cm
    for size in design.sizes:
        freedom = size_at_gauge(design, size).freedom
        assert freedom is not None
        shortest = (freedom.reach_cm - design.limits.reach_hand_cm) / wrist
        tallest = freedom.reach_cm / (wrist - design.limits.reach_forearm_fraction * forearm)
        share = below(height, tallest, 0.95) - below(height, shortest, 0.95)
        assert each.sizes[size.name].by["reach"] == pytest.approx(share, abs=1.1e-3), size.name


@pytest.mark.slow
@pytest.mark.seeds
def test_all_together_lies_between_its_bounds_and_below_each() -> None:
    for name in DEMOS:
        design = demo(name)
        for each in coverage(design, design.sizes if thorough() else design.sizes[::3], AGES):
            for size in each.sizes.values():
                assert 0 <= size.all_low <= size.all + 1e-12
                assert size.all <= size.all_high + 1e-12
                assert size.all_high <= min(size.by.values()) + 1e-12
                assert set(size.by) == set(CRITERIA)


@pytest.mark.slow
def test_gaps_and_overlaps_add_up() -> None:
    """With one size, whom it does not suit has none; with the same size twice, whom it suits has two."""
    design = demo("tidepool")
    (one,) = coverage(design, design.sizes[2:3], [6])
    assert one.none == pytest.approx(1 - one.sizes["6"].all, abs=1e-9)
    assert one.several == 0
    (every,) = coverage(design, design.sizes, [6])
    assert every.none <= one.none
    total = sum(each.all for each in every.sizes.values())
    assert 1 - every.none <= total
    assert every.several <= total / 2


@pytest.mark.slow
def test_gaps_are_told() -> None:
    design = as_measured("tidepool")
    told = list(gaps(coverage(design, design.sizes[:2], (3, 12))))
    assert told[0] == "Gaps, children whom no size suits: at 12 years (100 %)."
    assert "at 3 (" in told[1]
    assert next(gaps(coverage(design, design.sizes, (6,)))).startswith("No gaps")


@cache
def two_ages() -> tuple[AgeShares, ...]:
    return coverage(demo("driftwood"), demo("driftwood").sizes, (2, 7))


@pytest.mark.slow
@pytest.mark.parametrize("ages", [(6,), (2, 3), tuple(range(19))])
def test_no_words_of_the_chart_overlap(ages: tuple[int, ...]) -> None:
    design = demo("driftwood")
    low, high = two_ages()
    shares = [replace(high if age % 3 else low, age_years=age) for age in ages]
    sheet = coverage_chart(design, shares)
    marks = [mark for group in sheet.groups for mark in group.marks]
    boxes = [mark.box() for mark in marks if isinstance(mark, Text)]
    for one, other in itertools.combinations(boxes, 2):
        assert one.intersection(other).area < 1e-6
    for box in boxes:
        x0, y0, x1, y1 = box.bounds
        assert x0 >= 0
        assert y0 >= 0
        assert x1 <= sheet.paper.width
        assert y1 <= sheet.paper.height
    assert to_svg(sheet).startswith("<?xml")


@pytest.mark.slow
def test_the_strips_are_as_high_as_the_shares() -> None:
    design = demo("tidepool")
    shares = coverage(design, design.sizes[1:2], (2, 4, 6))
    sheet = coverage_chart(design, shares)
    (strip,) = (group for group in sheet.groups if group.name == "4")
    (area,) = (mark for mark in strip.marks if isinstance(mark, Area))
    *top, (_, foot), _ = area.points
    heights = [(foot - y) / 12 for _, y in top]
    assert heights == pytest.approx([each.sizes["4"].all for each in shares])
