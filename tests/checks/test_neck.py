from dataclasses import replace

import pytest

from schematics.checks.finding import Severity
from schematics.design.design import Parts
from schematics.design.limits import Limits
from schematics.wearer.body import Body, Origin, Stage
from tests.checks.cases import PARTS, fabric, finding, make_case, measured, spread

GOOD, MIND, STOP = Severity.GOOD, Severity.MIND, Severity.STOP


def stretchy(body: float, panel: float, band: float) -> Parts:
    """Edge: 36 body and 20 panel stitches; band: 56 rows; all 1 cm unstretched."""
    return replace(
        PARTS,
        body=fabric(stretch_across=body),
        centre_panel=fabric(stretch_across=panel),
        neck_band=fabric(stretch_along=band),
    )


@pytest.mark.parametrize(("head", "severity"), [(55.9, GOOD), (56.0, GOOD), (56.001, STOP), (60.0, STOP)])
def test_head_passes_up_to_the_very_opening(head: float, severity: Severity) -> None:
    assert finding(make_case(body={Body.HEAD_GIRTH: measured(head)}), "NECK-PASS").severity is severity


def test_the_largest_head_of_the_size_decides() -> None:
    assert finding(make_case(body={Body.HEAD_GIRTH: spread(50, 52, 57)}), "NECK-PASS").severity is STOP
    assert finding(make_case(body={Body.HEAD_GIRTH: spread(50, 52, 56)}), "NECK-PASS").severity is GOOD


@pytest.mark.parametrize("stage", Stage)
def test_a_head_that_sticks_stops_at_every_age(stage: Stage) -> None:
    case = make_case(body={Body.HEAD_GIRTH: measured(57)}, stage=stage)
    assert finding(case, "NECK-PASS").severity is STOP


def test_the_edge_limits_a_stretchier_band() -> None:
    # 36 x 1.25 + 20 x 1.0 = 65 against 56 x 1.5 = 84
    case = make_case(body={Body.HEAD_GIRTH: measured(65.5)}, parts=stretchy(0.25, 0.0, 0.5))
    found = finding(case, "NECK-PASS")
    assert found.severity is STOP
    assert found.figures["opens_cm"] == pytest.approx(65)
    assert found.sentence == (
        "The head (65.5 cm, measured) does not go through: the neck opens to 65 cm, 0.5 cm too little; "
        "the edge is tighter than the band."
    )


def test_the_band_limits_a_stretchier_edge() -> None:
    # 56 x 1.25 = 70 against 36 x 1.5 + 20 x 1.5 = 84
    case = make_case(
        body={Body.HEAD_GIRTH: spread(66, 68, 70, Origin.AGE_TABLE)}, parts=stretchy(0.5, 0.5, 0.25)
    )
    assert finding(case, "NECK-PASS").sentence == (
        "The head (70 cm, high end, from the age table) goes through the neck, which opens to 70 cm; "
        "the band is tighter than the edge."
    )


def test_the_words_never_round_a_stop_away() -> None:
    sentence = finding(make_case(body={Body.HEAD_GIRTH: measured(56.04)}), "NECK-PASS").sentence
    assert "56.04 cm" in sentence
    assert "56.00 cm, 0.04 cm too little" in sentence


@pytest.mark.parametrize(("neck", "severity"), [(53.0, GOOD), (54.0, GOOD), (54.001, STOP), (56.0, STOP)])
def test_the_neck_at_rest_clears_the_largest_neck_by_2_cm(neck: float, severity: Severity) -> None:
    case = make_case(body={Body.NECK_GIRTH: spread(20, 22, neck)})
    assert finding(case, "NECK-TIGHT").severity is severity


def test_tight_sentences() -> None:
    assert finding(make_case(), "NECK-TIGHT").sentence == (
        "At rest the neck opening (56 cm) clears the neck (30 cm, high end, from the chart) by 26 cm."
    )
    assert finding(make_case(body={Body.NECK_GIRTH: measured(55)}), "NECK-TIGHT").sentence == (
        "At rest the neck opening (56 cm) is tight on the neck (55 cm, measured): it needs 57 cm, 1 cm more."
    )


def test_the_clearance_is_the_specs_to_change() -> None:
    case = make_case(limits=Limits(neck_clearance_cm=26.0))
    assert finding(case, "NECK-TIGHT").severity is GOOD
    case = make_case(limits=Limits(neck_clearance_cm=26.1))
    assert finding(case, "NECK-TIGHT").severity is STOP


@pytest.mark.parametrize(
    ("neck", "severity"),
    [(34, GOOD), (36, MIND)],  # laid flat 27 and 28 cm; 90 % of 30 cm is 27 cm
)
def test_a_neck_over_nine_tenths_of_the_typical_shoulders_slips(neck: int, severity: Severity) -> None:
    case = make_case(neck=neck, body={Body.SHOULDER_BREADTH: spread(20, 30, 60)})
    assert finding(case, "NECK-SLIP").severity is severity


def test_slip_sentences() -> None:
    assert finding(make_case(neck=34, body={Body.SHOULDER_BREADTH: measured(30)}), "NECK-SLIP").sentence == (
        "Laid flat at rest the neck opening is 27 cm wide, 90 % of the shoulder breadth "
        "(30 cm, measured), and stays on."
    )
    assert finding(make_case(body={Body.SHOULDER_BREADTH: measured(31)}), "NECK-SLIP").sentence == (
        "Laid flat at rest the neck opening is 28 cm wide, 90.3 % of the shoulder breadth "
        "(31 cm, measured), more than 90 %: it slips off."
    )
