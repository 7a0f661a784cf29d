"""A rectangle 160 round and 30 deep, arm run 31 to 49 from the front: its middle is 40 from the fold.

So reach is hypot(40, 30) = 50 and a band of 4; the spread twice 40 and a band at the back, twice 40, half
a panel of 20 and a band at the front.
"""

import pytest

from schematics.checks.finding import Case, Severity
from schematics.design.limits import Limits
from schematics.wearer.body import Body
from tests.checks.cases import finding, make_case, measured, spread

GOOD, MIND = Severity.GOOD, Severity.MIND
REACH = 54


def rectangle(wrist: float, limits: Limits | None = None, forearm: float | None = 14) -> Case:
    body = {
        Body.CENTRE_BACK_NECK_TO_WRIST: measured(wrist),
        Body.FOREARM_LENGTH: None if forearm is None else measured(forearm),
    }
    return make_case(neck=160, hem=160, rows=30, from_front=31, stitches=18, body=body, limits=limits)


@pytest.mark.parametrize(
    ("above", "severity", "place"),
    [
        (-30, MIND, "30 cm over the hand, where it is in the way"),
        (-4.1, MIND, "4.1 cm over the hand, where it is in the way"),
        (-4, GOOD, "4 cm over the hand"),
        (-2.1, GOOD, "2.1 cm over the hand"),
        (-2, GOOD, "at the wrist, 2 cm past it"),
        (0, GOOD, "at the wrist"),
        (2, GOOD, "at the wrist, 2 cm above it"),
        (2.1, GOOD, "2.1 cm above the wrist"),
        (7, GOOD, "7 cm above the wrist"),
        (7.1, MIND, "7.1 cm above the wrist, over 50 % of the forearm (14 cm, measured)"),
    ],
)
def test_where_the_band_comes(above: float, severity: Severity, place: str) -> None:
    found = finding(rectangle(REACH + above), "REACH-BAND")
    assert found.severity is severity
    assert found.sentence == (
        f"Drawn out along the arm, the arm band ends 54 cm from the centre back neck; the wrist is at "
        f"{round(REACH + above, 1):g} cm (measured): the band ends {place}."
    )
    assert found.figures["reach_cm"] == pytest.approx(REACH)
    assert found.figures["above_wrist_cm"] == pytest.approx(above)
    assert found.figures["band_depth_cm"] == pytest.approx(4)


def test_every_limit_is_the_specs_to_change() -> None:
    wide = Limits(reach_wrist_cm=5, reach_forearm_fraction=0.8, reach_hand_cm=9)
    for above, severity, place in (
        (5, GOOD, "at the wrist, 5 cm above it"),
        (11.2, GOOD, "11.2 cm above the wrist"),
        (11.3, MIND, "11.3 cm above the wrist, over 80 % of the forearm (14 cm, measured)"),
        (-9, GOOD, "9 cm over the hand"),
        (-9.1, MIND, "9.1 cm over the hand, where it is in the way"),
    ):
        found = finding(rectangle(REACH + above, wide), "REACH-BAND")
        assert found.severity is severity
        assert found.sentence.endswith(f": the band ends {place}.")


def test_the_typical_wearer_is_asked() -> None:
    wrist = spread(30, REACH, 90)
    case = make_case(neck=160, hem=160, rows=30, from_front=31, body={Body.CENTRE_BACK_NECK_TO_WRIST: wrist})
    found = finding(case, "REACH-BAND")
    assert found.severity is GOOD
    assert "(typical, from the chart)" in found.sentence


def test_the_forearm_is_asked_for_only_where_it_decides() -> None:
    assert finding(rectangle(REACH, forearm=None), "REACH-BAND").severity is GOOD
    assert finding(rectangle(REACH - 3, forearm=None), "REACH-BAND").severity is GOOD
    found = finding(rectangle(REACH + 3, forearm=None), "REACH-BAND")
    assert found.severity is MIND
    assert found.sentence.startswith(
        "Forearm length is not known, so where on the arm the bands come cannot be checked: measure it"
    )


@pytest.mark.parametrize(
    ("code", "what"),
    [("REACH-BAND", "Where on the arm the bands come"), ("SPREAD-ARMS", "How far the arms open")],
)
def test_what_cannot_be_measured_says_why(code: str, what: str) -> None:
    found = finding(make_case(from_front=80), code)
    assert found.severity is MIND
    assert found.sentence == (f"{what} cannot be found, because the arm run does not lie on its edge.")
    found = finding(make_case(hem=700), code)
    assert found.severity is MIND
    assert found.sentence == (f"{what} cannot be found, because the body overlaps itself laid flat.")


SPREAD_BACK, SPREAD_FRONT = 88, 108


@pytest.mark.parametrize(
    ("wrist", "severity", "share", "verdict"),
    [
        (40, GOOD, "110 %", "the arms open freely"),
        (SPREAD_BACK / 1.5, GOOD, "75 %", "the arms open freely"),
        (SPREAD_BACK / 1.5 + 0.01, MIND, "just under 75 %", "less than 75 %, it pulls when the arms open"),
        (88, MIND, "50 %", "less than 75 %, it pulls when the arms open"),
    ],
)
def test_how_far_the_arms_open(wrist: float, severity: Severity, share: str, verdict: str) -> None:
    found = finding(rectangle(wrist), "SPREAD-ARMS")
    assert found.severity is severity
    assert found.sentence == (
        "From band edge to band edge the fabric spans 88 cm across the back and 108 cm across the front; "
        f"the smaller is {share} of "
        f"twice centre back neck to wrist ({round(2 * wrist, 1):g} cm, measured): {verdict}."
    )
    assert found.figures["spread_back_cm"] == pytest.approx(SPREAD_BACK)
    assert found.figures["spread_front_cm"] == pytest.approx(SPREAD_FRONT)
    assert found.figures["spread_fraction"] == pytest.approx(SPREAD_BACK / (2 * wrist))


def test_the_front_decides_where_it_is_the_shorter() -> None:
    # middle of the run 9 from the front: 71 from the fold at the back, 9 and half a panel at the front
    body = {Body.CENTRE_BACK_NECK_TO_WRIST: measured(40)}
    found = finding(make_case(neck=160, hem=160, rows=30, from_front=0, body=body), "SPREAD-ARMS")
    assert found.severity is MIND
    assert found.figures["spread_back_cm"] == pytest.approx(150)
    assert found.figures["spread_front_cm"] == pytest.approx(46)
    assert found.figures["spread_fraction"] == pytest.approx(46 / 80)


def test_the_fraction_is_the_specs_to_change() -> None:
    assert finding(rectangle(88, Limits(spread_fraction=0.5)), "SPREAD-ARMS").severity is GOOD
