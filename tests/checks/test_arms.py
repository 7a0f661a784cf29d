from dataclasses import replace

import pytest

from schematics.checks.finding import Severity
from schematics.crochet.fabric import Swatch
from schematics.design.limits import Limits
from schematics.garment.garment import ArmsOn
from schematics.wearer.body import Body
from tests.checks.cases import PARTS, fabric, finding, make_case, measured, spread

GOOD, MIND, STOP = Severity.GOOD, Severity.MIND, Severity.STOP


@pytest.mark.parametrize(("hand", "severity"), [(17.9, GOOD), (18.0, GOOD), (18.001, STOP)])
def test_the_largest_hand_passes_up_to_the_very_ring(hand: float, severity: Severity) -> None:
    case = make_case(body={Body.HAND_GIRTH: spread(14, 16, hand)})
    assert finding(case, "ARM-PASS").severity is severity


def test_the_tighter_of_edge_and_ribbing_decides() -> None:
    # run 18 x 1.1 = 19.8, ribbing 18 x 1.5 = 27
    parts = replace(PARTS, body=fabric(stretch_across=0.1), arm_bands=fabric(stretch_along=0.5))
    found = finding(make_case(body={Body.HAND_GIRTH: measured(20)}, parts=parts), "ARM-PASS")
    assert found.sentence == (
        "The hand (20 cm, measured) does not go through: the arm band opens to 19.8 cm, 0.2 cm too little."
    )
    found = finding(make_case(body={Body.HAND_GIRTH: measured(19.8)}, parts=parts), "ARM-PASS")
    assert found.sentence == "The hand (19.8 cm, measured) goes through the arm band, which opens to 19.8 cm."


@pytest.mark.parametrize(
    ("wrist", "severity"),
    [
        (20.0, GOOD),  # 18 / 20 is exactly -10 %
        (20.01, MIND),
        (18 / 1.35, GOOD),  # exactly +35 %
        (13.33, MIND),
        (18.0, GOOD),
    ],
)
def test_the_band_sits_between_10_under_and_35_over_the_typical_wrist(
    wrist: float, severity: Severity
) -> None:
    case = make_case(body={Body.WRIST_GIRTH: spread(5, wrist, 40)})
    assert finding(case, "ARM-REST").severity is severity


@pytest.mark.parametrize(
    ("wrist", "words"),
    [
        (15.0, "At rest the arm band (18 cm) is 20 % wider than the wrist (15 cm, measured), "
               "within -10 % to +35 %: it sits well."),
        (16.37, "At rest the arm band (18 cm) is 10 % wider than the wrist (16.4 cm, measured), "
                "within -10 % to +35 %: it sits well."),
        (19.99, "At rest the arm band (18 cm) is just under 10 % tighter than the wrist (20 cm, measured), "
                "within -10 % to +35 %: it sits well."),
        (24.0, "At rest the arm band (18 cm) is 25 % tighter than the wrist (24 cm, measured), "
               "outside -10 % to +35 %: it grips."),
        (12.0, "At rest the arm band (18 cm) is 50 % wider than the wrist (12 cm, measured), "
               "outside -10 % to +35 %: it hangs loose."),
    ],
)  # fmt: skip
def test_rest_sentences(wrist: float, words: str) -> None:
    assert finding(make_case(body={Body.WRIST_GIRTH: measured(wrist)}), "ARM-REST").sentence == words


def test_an_edge_that_is_tighter_than_its_band_is_told_by_its_own_name() -> None:
    """18 ribbing rows of 1.25 cm on 18 stitches of 1 cm."""
    rib = fabric(swatch=Swatch(stitches=10, rows=8, width_cm=10, height_cm=10))
    case = make_case(body={Body.WRIST_GIRTH: measured(15.0)}, parts=replace(PARTS, arm_bands=rib))
    assert (case.garment.arm.ring.edge_cm, case.garment.arm.ring.band_cm) == (18.0, 22.5)
    assert finding(case, "ARM-REST").sentence.startswith(
        "At rest the edge under the arm band (18 cm) is 20 % wider than the wrist (15 cm, measured)"
    )


def test_rest_limits_are_the_specs_to_change() -> None:
    case = make_case(limits=Limits(arm_rest_high_fraction=0.1))
    assert finding(case, "ARM-REST").severity is MIND


def test_marker_numbers_count_both_ends() -> None:
    # Worked by hand: 34 from the front, 18 long, of 168; the left run mirrors it:
    # 168 - 52 + 1 = 117 to 168 - 35 + 1 = 134, and 116 - 52 = 64 stitches lie between.
    found = finding(make_case(hem=168, from_front=34, stitches=18), "ARM-PLACE")
    assert found.severity is GOOD
    assert found.sentence == (
        "Right arm band on hem stitches 35 to 52, left on 117 to 134 of 168, both counted inclusively; "
        "64 free across the back."
    )


@pytest.mark.parametrize(
    ("from_front", "severity", "words"),
    [
        (61, GOOD, "2 free across the back."),
        (62, STOP, "The arm run, hem stitches 63 to 80 of 160, meets the left one: nothing is left free "
                   "across the back."),
        (63, STOP, "The arm run, hem stitches 64 to 81 of 160, overlaps the left one by 2: start it nearer "
                   "the front or make it shorter."),
        (150, STOP, "The arm run, hem stitches 151 to 168 of 160, does not lie on the hem edge: start it "
                    "nearer the front or make it shorter."),
    ],
)  # fmt: skip
def test_runs_lie_on_the_edge_and_leave_a_back(from_front: int, severity: Severity, words: str) -> None:
    found = finding(make_case(from_front=from_front), "ARM-PLACE")
    assert found.severity is severity
    assert found.sentence.endswith(words)


@pytest.mark.parametrize(("last", "severity"), [(160, GOOD), (161, STOP)])
def test_runs_on_edges_of_their_own_may_take_the_whole_edge(last: int, severity: Severity) -> None:
    arm = make_case().garment.arm
    own = replace(arm, on=ArmsOn.SIDES, last=last)
    found = finding(make_case(garment={"arm": own}), "ARM-PLACE")
    assert found.severity is severity
    assert "back_count" not in found.figures


def test_a_run_before_the_edge_does_not_lie_on_it() -> None:
    arm = replace(make_case().garment.arm, first=0)
    assert finding(make_case(garment={"arm": arm}), "ARM-PLACE").severity is STOP
