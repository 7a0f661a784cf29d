"""At one stitch and one row to the cm: a neck of 36 and a panel of 20, growing by 124 over 30 rows."""

import pytest

from schematics.checks.finding import Case, Severity
from schematics.limits import Limits
from schematics.over_arms import girth_over_arms_cm
from schematics.wearer.body import Body, Origin
from tests.checks.cases import finding, make_case, measured, spread

GOOD, MIND, STOP = Severity.GOOD, Severity.MIND, Severity.STOP
CHEST, ARM = 60.0, 20.0
OVER_ARMS = girth_over_arms_cm(CHEST, ARM)


def round_the_body(girth: float, depth: float = 12, limits: Limits | None = None) -> Case:
    body = {
        Body.CHEST_GIRTH: measured(CHEST),
        Body.UPPER_ARM_GIRTH: measured(ARM),
        Body.ARMHOLE_DEPTH: measured(depth),
    }
    return make_case(body=body, garment={"girths": ((0.0, girth), (30.0, girth))}, limits=limits)


@pytest.mark.parametrize(
    ("ease", "severity"),
    [(-0.001, STOP), (0, MIND), (0.001, MIND), (9.999, MIND), (10, GOOD), (40, GOOD)],
)
def test_stops_without_room_and_minds_without_ease(ease: float, severity: Severity) -> None:
    found = finding(round_the_body(OVER_ARMS + ease), "GIRTH-EASE")
    assert found.severity is severity
    assert found.figures["ease_cm"] == pytest.approx(ease)
    assert found.figures["over_arms_cm"] == OVER_ARMS


@pytest.mark.parametrize(
    ("girth", "verdict"),
    [
        (74, "5.9 cm too little"),
        (82, "2.1 cm of ease, less than 10.0 cm, it is close"),
        (90, "10.1 cm of ease"),
    ],
)
def test_what_it_says(girth: float, verdict: str) -> None:
    # 60 round an ellipse 3 deep to 4 broad with two circles of 20: 79.93, see tests/test_over_arms.py
    assert finding(round_the_body(girth), "GIRTH-EASE").sentence == (
        f"At chest depth (12.0 cm below the neck edge, measured), the body is {girth:.1f} cm round; the "
        f"chest (60.0 cm, measured) with both upper arms (20.0 cm, measured) down inside it measures at most "
        f"79.9 cm: {verdict}."
    )


def test_the_limit_is_the_specs_to_change() -> None:
    assert (
        finding(round_the_body(OVER_ARMS + 4, limits=Limits(girth_ease_cm=4)), "GIRTH-EASE").severity is GOOD
    )
    assert (
        finding(round_the_body(OVER_ARMS + 4, limits=Limits(girth_ease_cm=4.01)), "GIRTH-EASE").severity
        is MIND
    )


@pytest.mark.parametrize("depth", [0, 7.5, 12, 30])
def test_the_body_is_read_at_chest_depth_panel_included(depth: float) -> None:
    found = finding(make_case(body={Body.ARMHOLE_DEPTH: measured(depth)}), "GIRTH-EASE")
    assert found.figures["girth_cm"] == pytest.approx(36 + 20 + 124 * depth / 30)
    assert found.figures["depth_cm"] == pytest.approx(depth)


def test_a_body_that_ends_above_the_chest_is_read_at_its_hem() -> None:
    found = finding(make_case(rows=10, body={Body.ARMHOLE_DEPTH: measured(12)}), "GIRTH-EASE")
    assert found.sentence.startswith("At the hem, which lies above chest depth, the body is 180.0 cm round")
    assert found.figures["depth_cm"] == pytest.approx(10)


def test_the_largest_chest_and_arms_of_the_size_and_its_typical_depth_decide() -> None:
    body = {
        Body.CHEST_GIRTH: spread(50, 55, CHEST),
        Body.UPPER_ARM_GIRTH: spread(15, 17, ARM, Origin.AGE_TABLE),
        Body.ARMHOLE_DEPTH: spread(10, 12, 14, Origin.ESTIMATE),
    }
    found = finding(make_case(body=body), "GIRTH-EASE")
    assert found.figures["over_arms_cm"] == OVER_ARMS
    assert found.figures["depth_cm"] == 12
    for words in (
        "(12.0 cm below the neck edge, typical, estimated)",
        "(60.0 cm, high end, from the chart)",
        "(20.0 cm, high end, from the age table)",
    ):
        assert words in found.sentence


def test_open_sides_leave_nothing_to_check() -> None:
    case = make_case(garment={"girths": ()}, body=dict.fromkeys(Body))
    found = finding(case, "GIRTH-EASE")
    assert found.severity is GOOD
    assert found.sentence == "The sides are open, so nothing closes round chest and arms."


def test_all_that_is_missing_is_asked_for_at_once() -> None:
    missing = (Body.CHEST_GIRTH, Body.UPPER_ARM_GIRTH, Body.ARMHOLE_DEPTH)
    found = finding(make_case(body=dict.fromkeys(missing)), "GIRTH-EASE")
    assert found.severity is MIND
    assert found.sentence.startswith(
        "Chest girth, upper arm girth and armhole depth are not known, so whether chest and arms have room "
        "cannot be checked: measure them and give chest_girth, upper_arm_girth and armhole_depth "
    )
