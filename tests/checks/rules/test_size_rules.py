"""One set of rules: asked one by one, by columns, and as JSON by a reader that knows only its description.

That the rules themselves are right is held by `tests/checks`: the checks go by them, and are tested there
verdict by verdict against plain sums.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.checks import EXPLANATIONS, check_size
from schematics.checks.finding import Case, Severity
from schematics.checks.rules.garment_numbers import facts
from schematics.checks.rules.judging import inputs_of, judges
from schematics.checks.rules.rule import rules_json
from schematics.checks.rules.sentence import Answer
from schematics.checks.rules.size_rules import size_rules
from schematics.design.limits import Limits
from schematics.fitting.wearer_columns import Columns, gaps_of
from schematics.garment.arm_freedom import arm_freedom
from schematics.garment.garment import Garment
from schematics.wearer.body import Body, BodyValue, Stage, Wearer
from schematics.wearer.evaluator import Inputs
from schematics.wearer.expr import OfBody
from tests.checks.cases import make_case
from tests.checks.gallery import gallery
from tests.examples import examples
from tests.fitting.reader import Reader, through_json
from tests.fitting.wearers import values, wearers
from tests.garment.constructions.samples import flared, folded, mitred
from tests.wearer.tape_over_arms import girth_over_arms_cm

CODES = (
    "NECK-PASS", "NECK-TIGHT", "NECK-SLIP", "ARM-PASS", "ARM-REST", "REACH-BAND", "SPREAD-ARMS",
    "GIRTH-EASE", "HANG-KNEE", "HANG-WHERE",
)  # fmt: skip
SEVERITIES = {
    "stop": Severity.STOP, "mind": Severity.MIND, "unknown": Severity.MIND, "good": Severity.GOOD,
}  # fmt: skip

garments = st.one_of(flared(), mitred(), folded())
limits = st.builds(
    Limits,
    neck_clearance_cm=st.floats(0, 5),
    neck_slip_fraction=st.floats(0.5, 1.5),
    arm_rest_low_fraction=st.floats(-0.5, 0),
    arm_rest_high_fraction=st.floats(0, 1),
    hem_sag_fraction=st.floats(0, 0.2),
    knee_clearance_cm=st.floats(0, 20),
    short_above_waist_cm=st.floats(0, 20),
    reach_wrist_cm=st.floats(0, 10),
    reach_forearm_fraction=st.floats(0, 1),
    reach_hand_cm=st.floats(0, 20),
    spread_fraction=st.floats(0.3, 1.2),
    girth_body_fraction=st.floats(1, 1.3),
    girth_body_sd_fraction=st.floats(0.01, 0.1),
    girth_ease_cm=st.floats(0, 20),
    girth_tight_fraction=st.floats(0.01, 0.5),
)


def null(number: float) -> float | None:
    return number if math.isfinite(number) else None


def ends(wearer: Wearer, value: BodyValue) -> dict[str, float]:
    """Of one person the typical value at either end, of many their spread."""
    if wearer.person:
        return dict.fromkeys(("low", "typical", "high"), value.cm)
    return {"low": value.low_cm, "typical": value.cm, "high": value.high_cm}


def by_json(given_limits: Limits, garment: Garment, wearer: Wearer) -> dict[str, str]:
    document = through_json(rules_json(size_rules(given_limits)))
    found = facts(garment, arm_freedom(garment))
    reader = Reader(
        document["terms"],
        {body.value: ends(wearer, value) for body, value in wearer.values.items()},
        through_json({name: null(each) for name, each in found.items()}),
        adult=wearer.stage is Stage.ADULT,
        age_years=wearer.age_years,
    )
    return {rule["code"]: reader.answer(rule) for rule in document["rules"]}


def as_measured(case: Case) -> dict[str, Severity]:
    """What the checks say but for how sure it is."""
    return {
        each.code: Severity.GOOD if each.unsure else each.severity
        for each in check_size(case)
        if each.code in CODES
    }


def test_every_verdict_that_depends_on_the_wearer_has_a_rule() -> None:
    assert tuple(rule.code for rule in size_rules(Limits())) == CODES
    assert set(CODES) <= set(EXPLANATIONS)


@pytest.mark.slow
@given(garment=garments, wearer=wearers(), given_limits=limits)
@examples(150, part=12)
def test_the_json_says_what_the_checks_say(garment: Garment, wearer: Wearer, given_limits: Limits) -> None:
    case = make_case(limits=given_limits)
    case = replace(case, garment=garment, freedom=arm_freedom(garment), wearer=wearer)
    said = as_measured(case)
    assert {
        code: SEVERITIES[answer] for code, answer in by_json(given_limits, garment, wearer).items()
    } == said


@pytest.mark.slow
@given(garment=garments, many=st.lists(wearers(), min_size=1, max_size=12), given_limits=limits)
@examples(60, part=12)
def test_columns_say_what_one_by_one_is_said(
    garment: Garment, many: list[Wearer], given_limits: Limits
) -> None:
    def column(body: Body, name: str) -> Any:
        ends = ("cm" if each.person else name for each in many)
        return np.array(
            [getattr(each.values.get(body), end, math.nan) for each, end in zip(many, ends, strict=True)]
        )

    columns = {
        body: Columns(**{name: column(body, name) for name in ("low_cm", "cm", "high_cm")}) for body in Body
    }
    found = facts(garment, arm_freedom(garment))
    together = Inputs(
        body=columns,
        gaps=gaps_of(columns),
        adult=np.array([each.stage is Stage.ADULT for each in many]),
        age_years=np.array([each.age_years or math.nan for each in many]),
        facts=found,
    )
    for judge in judges(given_limits).values():
        one_by_one = [judge.answer(inputs_of(each, found)) for each in many]
        assert judge.answers(together).tolist() == one_by_one


@pytest.mark.slow
def test_the_gallery_by_json() -> None:
    for label, case in gallery().items():
        said = as_measured(case)
        answers = by_json(case.limits, case.garment, case.wearer)
        assert {code: SEVERITIES[answer] for code, answer in answers.items()} == said, label


@pytest.mark.parametrize(("over", "answer"), [(0.0, "good"), (5e-10, "good"), (2e-9, "stop"), (0.1, "stop")])
def test_at_the_limit_a_hair_of_float_error_is_forgiven(over: float, answer: str) -> None:
    """The neck of the plain case opens to 56 cm: 36 body and 20 panel stitches of 1 cm, unstretched."""
    case = make_case()
    value = replace(case.wearer.values[Body.HEAD_GIRTH], high_cm=56 + over)
    wearer = replace(case.wearer, values={**case.wearer.values, Body.HEAD_GIRTH: value})
    assert by_json(case.limits, case.garment, wearer)["NECK-PASS"] == answer
    judge = judges(case.limits)["NECK-PASS"]
    assert judge.answer(inputs_of(wearer, facts(case.garment, None))).name.lower() == answer


def test_a_rule_needs_what_it_names() -> None:
    for rule in size_rules(Limits()):
        trees = [each for each in (rule.stop, rule.mind) if each is not None]
        named = {each.body for tree in trees for each in tree.walk() if isinstance(each, OfBody)}
        assert named == set(rule.needs), rule.code


def test_what_is_unknown_is_never_taken_for_good() -> None:
    case = make_case()
    nobody = replace(case.wearer, values={})
    answers = by_json(case.limits, case.garment, nobody)
    assert set(answers.values()) == {"unknown"}


def test_a_missing_forearm_matters_only_above_the_wrist() -> None:
    case = make_case()
    assert case.freedom is not None
    reach = case.freedom.reach_cm
    for wrist, answer in ((reach, "good"), (reach - 3, "good"), (reach - 30, "mind"), (reach + 3, "unknown")):
        value = replace(case.wearer.values[Body.CENTRE_BACK_NECK_TO_WRIST], cm=wrist)
        body = {**case.wearer.values, Body.CENTRE_BACK_NECK_TO_WRIST: value}
        del body[Body.FOREARM_LENGTH]
        assert by_json(case.limits, case.garment, replace(case.wearer, values=body))["REACH-BAND"] == answer


@pytest.mark.slow
@examples(100)
@given(chest=values(Body.CHEST_GIRTH), arm=values(Body.UPPER_ARM_GIRTH))
def test_the_table_of_girths_in_the_json_is_the_function(chest: Any, arm: Any) -> None:
    document = through_json(rules_json(size_rules(Limits())))
    body = {
        "chest_girth": {"high": chest.high_cm},
        "upper_arm_girth": {"high": arm.high_cm},
    }
    found = Reader(document["terms"], body).number({"term": "over_arms_cm"})
    assert found == pytest.approx(girth_over_arms_cm(chest.high_cm, arm.high_cm), rel=1e-12)


def test_answers_rise_with_their_weight() -> None:
    assert Answer.GOOD < Answer.UNKNOWN < Answer.MIND < Answer.STOP
