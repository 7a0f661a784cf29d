"""How far past its limit to mind each rule is: by plain sums, as verdicts say, over arrays."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given

from schematics.checks.rules.garment_numbers import facts
from schematics.checks.rules.judging import inputs_of, judges
from schematics.checks.rules.sentence import Answer
from schematics.design.limits import Limits
from schematics.garment.arm_freedom import arm_freedom
from schematics.garment.garment import Garment
from schematics.wearer.body import Body, Stage, Wearer
from tests.checks.cases import make_case, measured
from tests.checks.rules.test_size_rules import garments, limits
from tests.examples import examples
from tests.fitting.wearers import wearers

FACTS = {
    "neck.full_cm": 60.0, "neck.rest_cm": 50.0, "arm.full_cm": 20.0, "arm.rest_cm": 18.0, "drop_cm": 40.0,
    "longest_drop_cm": 50.0, "arms.measured": 1.0, "reach_cm": 35.0, "spread_back_cm": 70.0,
    "spread_front_cm": 64.0, "spread_cm": 64.0, "girth.closed": 1.0, "girth.0.depth_cm": 0.0,
    "girth.0.girth_cm": 50.0, "girth.1.depth_cm": 20.0, "girth.1.girth_cm": 110.0,
    "girth.2.depth_cm": 40.0, "girth.2.girth_cm": 110.0,
}  # fmt: skip
"""The plain case's child: shoulders 32, wrist 15, nape to wrist 39, forearm 14, chest 58 and armhole 12."""

NINE_IN_TEN = 1.162 + 1.2815516 * 0.047
"""Of ten bodies nine measure no more than this times the chest; 1.28 is the normal distribution's."""


@pytest.mark.parametrize(
    ("code", "changed", "past"),
    [
        ("NECK-PASS", {}, 0.0),  # stops, is never minded
        ("NECK-SLIP", {}, 25 - 0.9 * 32),
        ("NECK-SLIP", {"neck.rest_cm": 60.0}, 30 - 0.9 * 32),
        ("ARM-REST", {}, 18 - 1.35 * 15),
        ("ARM-REST", {"arm.rest_cm": 12.0}, 0.9 * 15 - 12),
        ("REACH-BAND", {}, (39 - 35) - 0.5 * 14),
        ("REACH-BAND", {"reach_cm": 30.0}, (39 - 30) - 0.5 * 14),
        ("REACH-BAND", {"reach_cm": 45.0}, (45 - 39) - 4),
        ("REACH-BAND", {"arms.measured": 0.0, "reach_cm": math.nan}, math.nan),
        ("SPREAD-ARMS", {}, 0.75 * 78 - 64),
        ("SPREAD-ARMS", {"spread_cm": 50.0}, 0.75 * 78 - 50),
        ("GIRTH-EASE", {}, NINE_IN_TEN * 58 + 10 - (50 + 60 * 12 / 20)),
        (
            "GIRTH-EASE",
            {"girth.1.girth_cm": 90.0},
            NINE_IN_TEN * 58 + 10 - (50 + 40 * 12 / 20),
        ),
        ("GIRTH-EASE", {"girth.closed": 0.0, "girth.0.girth_cm": math.nan}, 0.0),
        ("HANG-KNEE", {"longest_drop_cm": 90.0}, 0.0),  # of a child it stops
        ("HANG-WHERE", {}, 23 - 1.05 * 40),
        ("HANG-WHERE", {"drop_cm": 20.0}, 23 - 1.05 * 20),
    ],
)
def test_by_plain_sums(code: str, changed: dict[str, float], past: float) -> None:
    found = judges(Limits())[code].past_cm(inputs_of(make_case().wearer, FACTS | changed))
    assert found == pytest.approx(past, abs=1e-6, nan_ok=True)


@pytest.mark.parametrize(("drop", "past"), [(50.0, 1.05 * 50 - (95 - 30)), (90.0, 1.05 * 90 - (95 - 30))])
def test_an_adults_knee(drop: float, past: float) -> None:
    adult = make_case(stage=Stage.ADULT).wearer
    found = judges(Limits())["HANG-KNEE"].past_cm(inputs_of(adult, FACTS | {"longest_drop_cm": drop}))
    assert found == pytest.approx(past)


@pytest.mark.slow
@given(garment=garments, wearer=wearers(), given_limits=limits)
@examples(60)
def test_it_is_over_nought_where_the_verdict_is_to_mind(
    garment: Garment, wearer: Wearer, given_limits: Limits
) -> None:
    known = inputs_of(wearer, facts(garment, arm_freedom(garment)))
    for code, judge in judges(given_limits).items():
        past, answer = float(judge.past_cm(known)), judge.answer(known)
        if answer is Answer.GOOD:
            assert not past > 1e-9, code
        elif answer is Answer.MIND:
            assert past > 1e-9 or math.isnan(past), code


def test_what_is_unknown_stays_unknown() -> None:
    nobody = replace(make_case().wearer, values={})
    for code, judge in judges(Limits()).items():
        past = float(judge.past_cm(inputs_of(nobody, FACTS)))
        minds = judge.rule.mind_past is not None and code != "HANG-KNEE"
        assert math.isnan(past) is minds, code


def test_many_garments_at_once_say_what_each_says_alone() -> None:
    random = np.random.default_rng(8)
    many: dict[str, Any] = {name: random.uniform(0.4, 1.6, 50) * fact for name, fact in FACTS.items()}
    many |= {"arms.measured": np.ones(50), "girth.0.depth_cm": np.zeros(50)}
    many["girth.2.depth_cm"] = many["girth.1.depth_cm"] + 20.0  # depths rise
    many["girth.closed"] = (random.random(50) < 0.8) * 1.0
    child = make_case().wearer
    adult = replace(child, stage=Stage.ADULT, values={**child.values, Body.CHEST_GIRTH: measured(80)})
    for wearer in (child, adult):
        known = inputs_of(wearer, many)
        alone = [
            inputs_of(wearer, {name: float(column[row]) for name, column in many.items()})
            for row in range(50)
        ]
        for judge in judges(Limits()).values():
            answers = np.broadcast_to(judge.answers(known), 50)
            assert answers.tolist() == [judge.answer(each) for each in alone]
            past = np.broadcast_to(judge.past_cm(known), 50)
            assert past == pytest.approx([float(judge.past_cm(each)) for each in alone], abs=1e-9)
