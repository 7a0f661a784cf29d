"""Chances against a hundred thousand draws, and what they hang on."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from schematics.checks.evaluation import case_of, evaluate
from schematics.checks.finding import Case
from schematics.design.design import Design
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.wearer.body import Body, WearerSpec
from tests.checks.rules.draws import drawn_chances
from tests.checks.rules.test_varied_facts import stretchy
from tests.drawing.designs import random_design
from tests.examples import seeds
from tests.shipped import shipped_design

POINTS = 0.02
"""The most a chance may be off."""


def case(design: Design, wearer: WearerSpec | None = None, size: int = 0) -> Case:
    one = design.sizes[size]
    design = replace(design, sizes=(replace(one, wearer=wearer or one.wearer),))
    (result,) = evaluate(design)
    return case_of(design, result)


def wearer_of(seed: int, own: WearerSpec) -> WearerSpec:
    """In turn whom the size is for, somebody known by age alone, and somebody half measured."""
    rng = random.Random(f"wearer {seed}")
    age = rng.uniform(2, 16)
    taken = {Body.HEAD_GIRTH: rng.uniform(50, 57), Body.HEIGHT: 80 + 6 * age, Body.HAND_GIRTH: 12 + 0.5 * age}
    return (own, WearerSpec(age_years=age), WearerSpec(age_years=age, own=taken))[seed % 3]


def assert_drawn(given: Case, seed: int) -> None:
    drawn = drawn_chances(given, seed)
    assert set(drawn) == set(given.judges)
    for code, chance in drawn.items():
        sure = given.chances.sureness(code)
        assert sure.holds_fraction == pytest.approx(chance, abs=POINTS), (code, sure)


@pytest.mark.slow
@pytest.mark.parametrize("seed", seeds(range(40)))
def test_random_designs_against_draws(seed: int) -> None:
    word = list(CONSTRUCTIONS)[seed % len(CONSTRUCTIONS)]
    design = random_design(word, seed, most_sizes=1)
    design = replace(design, parts=stretchy(design))
    assert_drawn(case(design, wearer_of(seed, design.sizes[0].wearer)), seed)


@pytest.mark.slow
def test_a_shipped_size_against_draws() -> None:
    assert_drawn(case(shipped_design("driftwood"), size=2), 7)


def test_a_larger_swatch_and_more_pulls_make_it_surer() -> None:
    design = shipped_design("tidepool")
    before = case(design, size=2)
    larger = design.parts.with_fabrics(
        lambda fabric: replace(
            fabric,
            stretch_pulls=4,
            swatch=replace(
                fabric.swatch,
                stitches=2 * fabric.swatch.stitches,
                rows=2 * fabric.swatch.rows,
                width_cm=2 * fabric.swatch.width_cm,
                height_cm=2 * fabric.swatch.height_cm,
            ),
        )
    )
    after = case(replace(design, parts=larger), size=2)
    for code in before.judges:
        sure, surer = before.chances.sureness(code), after.chances.sureness(code)
        assert surer.margin_cm == pytest.approx(sure.margin_cm)
        assert surer.sd_cm < sure.sd_cm
    passes = [each.chances.sureness("NECK-PASS").holds_fraction for each in (before, after)]
    assert passes[1] > passes[0] > 0.5


def test_a_ring_in_closed_form() -> None:
    """The band decides: so many rows, each with its reading, the hand's drift and the pull; head 55 cm."""
    design = shipped_design("tidepool")
    firm = design.parts.with_fabrics(
        lambda fabric: replace(fabric, stretch_across=2.0) if fabric.name != "rib" else fabric
    )
    given = case(replace(design, parts=firm), size=1)
    ring, rib = given.garment.neck, design.parts.neck_band
    length = ring.band_rows * 60 / 66
    spread = (1.35 * length * 0.5 / 66, 1.35 * length * 0.02, 0.35 / 3 / 4**0.5 * length)
    sure = given.chances.sureness("NECK-PASS")
    assert (rib.swatch.rows, rib.stretch_pulls) == (66, 4)
    assert sure.sd_cm == pytest.approx(sum(each**2 for each in spread) ** 0.5, rel=1e-4)
    assert sure.margin_cm == pytest.approx(1.35 * length - given.inputs.body[Body.HEAD_GIRTH].high_cm)
    share = sure.shares[0][1]
    assert share == pytest.approx(spread[2] ** 2 / sum(each**2 for each in spread), abs=0.01)


def test_nobody_known_is_not_judged() -> None:
    given = case(shipped_design("tidepool"), WearerSpec(own={Body.HAND_GIRTH: 17.0}))
    findings = {each.code: each for each in evaluate(given.design)[0].findings}
    assert findings["NECK-PASS"].certainty is None
    assert findings["ARM-PASS"].certainty is not None
