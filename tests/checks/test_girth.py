"""At one stitch and one row to the cm: a neck of 36 and a panel of 20, growing by 124 over 30 rows."""

from statistics import NormalDist

import pytest

from schematics.checks.finding import Case, Severity
from schematics.design.limits import Limits
from schematics.wearer.body import Body, Origin
from tests.checks.cases import finding, make_case, measured, spread
from tests.wearer.tape_over_arms import girth_over_arms_cm

GOOD, MIND, STOP = Severity.GOOD, Severity.MIND, Severity.STOP
CHEST, ARM, THIN_ARM = 60.0, 20.0, 10.0
OVER_ARMS, OVER_THIN_ARMS = girth_over_arms_cm(CHEST, ARM), girth_over_arms_cm(CHEST, THIN_ARM)

MEASURED = 69.72
"""1.162 times the chest."""

NINE_IN_TEN = 83.334
"""1.162 + 1.28155 x 0.047 times the chest, and 10 of ease; 1.28155 is the normal distribution's for 0.9."""


def round_the_body(girth: float, depth: float = 12, arm: float = ARM, limits: Limits | None = None) -> Case:
    body = {
        Body.CHEST_GIRTH: measured(CHEST),
        Body.UPPER_ARM_GIRTH: measured(arm),
        Body.ARMHOLE_DEPTH: measured(depth),
    }
    return make_case(body=body, garment={"girths": ((0.0, girth), (30.0, girth))}, limits=limits)


@pytest.mark.parametrize(
    ("girth", "severity"),
    [
        (60, STOP),
        (MEASURED - 0.001, STOP),
        (MEASURED, MIND),
        (MEASURED + 10, MIND),
        (NINE_IN_TEN - 0.001, MIND),
        (NINE_IN_TEN + 0.001, GOOD),
        (120, GOOD),
    ],
)
def test_stops_where_narrower_than_bodies_measure_and_minds_by_chance(
    girth: float, severity: Severity
) -> None:
    found = finding(round_the_body(girth), "GIRTH-EASE")
    assert found.severity is severity
    assert found.figures["measured_cm"] == pytest.approx(MEASURED)
    assert found.figures["ease_cm"] == pytest.approx(girth - MEASURED)
    assert found.figures["over_arms_cm"] == OVER_ARMS
    chance = 1 - NormalDist(1.162, 0.047).cdf((girth - 10) / CHEST)
    assert found.figures["tight_fraction"] == pytest.approx(chance, abs=1e-4)


@pytest.mark.parametrize(("over", "severity"), [(-0.001, MIND), (0.001, GOOD)])
def test_nothing_is_minded_beyond_what_chest_and_arms_measure_at_most(
    over: float, severity: Severity
) -> None:
    girth = OVER_THIN_ARMS + 10 + over
    assert MEASURED < girth < NINE_IN_TEN
    assert finding(round_the_body(girth, arm=THIN_ARM), "GIRTH-EASE").severity is severity


@pytest.mark.parametrize(
    ("girth", "verdict"),
    [
        (66, "3.7 cm too little"),
        (72, "2.3 cm of ease; nearly all such bodies would find it tight, with less than 10 cm"),
        (78, "8.3 cm of ease; about seven in ten such bodies would find it tight, with less than 10 cm"),
        (82, "12.3 cm of ease; about two in ten such bodies would find it tight, with less than 10 cm"),
        (90, "20.3 cm of ease"),
    ],
)
def test_what_it_says(girth: float, verdict: str) -> None:
    """At 78: (68 / 60 - 1.162) / 0.047 is -0.61, which 0.729 exceed; at 82 it is 0.809, and 0.209."""
    assert finding(round_the_body(girth), "GIRTH-EASE").sentence == (
        f"At chest depth (12 cm below the neck edge, measured), the body is {girth:g} cm round; the "
        f"chest (60 cm, measured) with both upper arms down inside it measures about 69.7 cm: {verdict}."
    )


@pytest.mark.parametrize(
    ("limits", "stops_below", "minds_below"),
    [
        (Limits(girth_ease_cm=0), MEASURED, NINE_IN_TEN - 10),
        (Limits(girth_tight_fraction=0.5), MEASURED, MEASURED + 10),
        (Limits(girth_body_fraction=1.1), 66, NINE_IN_TEN - 3.72),
        (Limits(girth_body_sd_fraction=0.001), MEASURED, MEASURED + 10 + 0.0769),
    ],
)
def test_the_limits_are_the_specs_to_change(limits: Limits, stops_below: float, minds_below: float) -> None:
    for girth, severity in (
        (stops_below - 0.001, STOP),
        (stops_below + 0.001, MIND),
        (minds_below - 0.001, MIND),
        (minds_below + 0.001, GOOD),
    ):
        assert finding(round_the_body(girth, limits=limits), "GIRTH-EASE").severity is severity, girth


@pytest.mark.parametrize("depth", [0, 7.5, 12, 30])
def test_the_body_is_read_at_chest_depth_panel_included(depth: float) -> None:
    found = finding(make_case(body={Body.ARMHOLE_DEPTH: measured(depth)}), "GIRTH-EASE")
    assert found.figures["girth_cm"] == pytest.approx(36 + 20 + 124 * depth / 30)
    assert found.figures["depth_cm"] == pytest.approx(depth)


def test_a_body_that_ends_above_the_chest_is_read_at_its_hem() -> None:
    found = finding(make_case(rows=10, body={Body.ARMHOLE_DEPTH: measured(12)}), "GIRTH-EASE")
    assert found.sentence.startswith("At the hem, which lies above chest depth, the body is 180 cm round")
    assert found.figures["depth_cm"] == pytest.approx(10)


def test_the_largest_chest_and_arms_of_the_size_and_its_typical_depth_decide() -> None:
    body = {
        Body.CHEST_GIRTH: spread(50, 55, CHEST),
        Body.UPPER_ARM_GIRTH: spread(15, 17, ARM, Origin.AGE_TABLE),
        Body.ARMHOLE_DEPTH: spread(10, 12, 14, Origin.ESTIMATE),
    }
    found = finding(make_case(body=body), "GIRTH-EASE")
    assert found.figures["measured_cm"] == pytest.approx(MEASURED)
    assert found.figures["over_arms_cm"] == OVER_ARMS
    assert found.figures["depth_cm"] == 12
    for words in ("(12 cm below the neck edge, typical, estimated)", "(60 cm, high end, from the chart)"):
        assert words in found.sentence
    of_one = finding(make_case(body=body, person=True), "GIRTH-EASE")
    assert of_one.figures["measured_cm"] == pytest.approx(1.162 * 55)
    assert of_one.figures["over_arms_cm"] == girth_over_arms_cm(55, 17)


@pytest.mark.parametrize(("chest", "severity"), [(60, GOOD), (82, MIND), (95, STOP)])
def test_the_arms_are_asked_for_only_where_they_decide(chest: float, severity: Severity) -> None:
    """The body is 105.6 cm round at chest depth; without arms nothing is known but what the chest tells."""
    found = finding(
        make_case(body={Body.CHEST_GIRTH: measured(chest), Body.UPPER_ARM_GIRTH: None}), "GIRTH-EASE"
    )
    assert found.severity is severity
    assert found.sentence.startswith("Upper arm girth is not known") is (severity is MIND)


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
        "cannot be checked: measure them, or give a child's age."
    )
