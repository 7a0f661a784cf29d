"""What is found of a hang that is given by hand: knee 60 cm, waist 25 cm below the nape, tips 13 cm out."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from schematics.checks.cloth_findings import (
    CLOTH,
    PLANE,
    TOPIC,
    ClothLength,
    DecidedFinding,
    HangLengths,
    TwoModels,
    cloth_findings,
)
from schematics.checks.finding import Case, Severity
from schematics.design.limits import Limits
from schematics.wearer.body import Stage
from tests.checks.cases import make_case

HEM = TwoModels(40.0, ClothLength(38.0, 39.0, 42.0))
LENGTHS = HangLengths(
    back=HEM,
    side=HEM,
    front=HEM,
    lowest=HEM,
    level_back=TwoModels(36.0, ClothLength(27.0, 28.0, 29.0)),
    level_front=TwoModels(36.0, ClothLength(34.0, 35.0, 36.0)),
    neck_back=TwoModels(0.0, ClothLength(2.0, 3.0, 5.0)),
    neck_beside=TwoModels(10.0, ClothLength(8.0, 9.0, 12.0)),
    knee_cm=60.0,
    waist_cm=25.0,
    shoulder_cm=13.0,
)


@pytest.fixture(scope="module")
def case() -> Case:
    return make_case()


def found(case: Case, **changes: Any) -> tuple[DecidedFinding, ...]:
    return cloth_findings(case, replace(LENGTHS, **changes))


def test_all_is_good_with_room_on_every_side_and_the_more_cautious_decides(case: Case) -> None:
    knee, waist, neck = found(case)
    assert [each.finding.code for each in (knee, waist, neck)] == [each.code for each in TOPIC.explanations]
    assert {each.finding.severity for each in (knee, waist, neck)} == {Severity.GOOD}
    assert [each.decides for each in (knee, waist, neck)] == [CLOTH, CLOTH, CLOTH]
    assert [each.finding.figures["room_cm"] for each in (knee, waist, neck)] == [60 - 42, 27 - 25, 13 - 12]
    assert knee.finding.sentence == (
        "Arms down, the hem's lowest place stays 18 cm above the knee at the worst end of the size. On "
        "cloth it is 39 cm (38 to 42 cm) below the nape, by the plane model 40 cm. The cloth "
        "decides, being the more cautious: by it the hem may hang lower."
    )
    assert waist.finding.sentence.startswith("Arms level, the hem at the centre back stays 2 cm below the")
    assert neck.finding.sentence.startswith(
        "The neck edge comes to rest at the back 3 cm (2 to 5 cm) below the nape, and stays on the "
        "shoulders: at its widest it is 1 cm inside the shoulder tips."
    )


FLAT = "2.9 cm laid flat, since it hangs 5 % longer when worn"


@pytest.mark.parametrize(
    ("lowest", "decides", "shorten"),
    [
        (TwoModels(40.0, ClothLength(58.0, 59.0, 63.0)), CLOTH, "3 cm"),
        (TwoModels(63.0, ClothLength(58.0, 59.0, 60.0)), PLANE, FLAT),
        (TwoModels(63.0, None), PLANE, FLAT),
    ],
)
def test_a_hem_that_either_model_brings_below_the_knee_stops(
    case: Case, lowest: TwoModels, decides: str, shorten: str
) -> None:
    """3 cm too long as worn; the plane model's length has grown by its sag of 5 %, and 3 / 1.05 is 2.86."""
    knee, *_ = found(case, lowest=lowest)
    assert (knee.finding.severity, knee.decides) == (Severity.STOP, decides)
    assert "lowest place can come 3 cm below the knee" in knee.finding.sentence
    assert f"where a child trips: shorten the body by at least {shorten}." in knee.finding.sentence
    assert ("decides" in knee.finding.sentence) == (lowest.cloth is not None)


def test_it_is_to_be_minded_by_an_adult_and_the_limit_counts() -> None:
    lowest = TwoModels(40.0, ClothLength(58.0, 59.0, 63.0))
    knee, *_ = found(make_case(stage=Stage.ADULT), lowest=lowest)
    assert knee.finding.severity is Severity.MIND
    assert "trips" not in knee.finding.sentence
    strict = make_case(limits=Limits(knee_clearance_cm=19.0))
    knee, *_ = found(strict)
    assert knee.finding.severity is Severity.STOP
    assert "shorten the body by at least 1 cm" in knee.finding.sentence


@pytest.mark.parametrize(
    ("changes", "where"),
    [
        ({"level_back": TwoModels(36.0, ClothLength(21.0, 22.0, 24.0))}, "back"),
        ({"level_front": TwoModels(36.0, ClothLength(21.0, 30.0, 36.0))}, "front"),
        ({"level_back": TwoModels(21.0, None), "level_front": TwoModels(21.0, None)}, "back"),
    ],
)
def test_a_hem_that_rises_above_the_waist_is_to_be_minded(
    case: Case, changes: dict[str, TwoModels], where: str
) -> None:
    _, waist, _ = found(case, **changes)
    assert waist.finding.severity is Severity.MIND
    assert f"the hem at the centre {where} rises to 4 cm above the waist." in waist.finding.sentence
    limits = Limits(short_above_waist_cm=4.0)
    assert found(make_case(limits=limits), **changes)[1].finding.severity is Severity.GOOD


def test_a_neck_edge_beyond_a_shoulder_tip_is_to_be_minded(case: Case) -> None:
    *_, neck = found(case, neck_beside=TwoModels(10.0, ClothLength(12.0, 12.5, 14.0)))
    assert (neck.finding.severity, neck.finding.place) == (Severity.MIND, "neck")
    assert "can slide off the shoulders: at its widest it is 1 cm beyond" in neck.finding.sentence
    *_, alone = found(case, neck_back=TwoModels(0.0, None), neck_beside=TwoModels(12.0, None))
    assert alone.finding.sentence == (
        "The neck edge stays on the shoulders: at its widest it is 1 cm inside the shoulder tips. By the "
        "plane model it is 12 cm from the middle."
    )
