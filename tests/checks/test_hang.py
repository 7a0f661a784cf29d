import math
from dataclasses import replace

import pytest

from schematics.checks.finding import Severity
from schematics.design.limits import Limits
from schematics.garment.constructions.folded.folded import FOLDED
from schematics.garment.constructions.mitred.mitred import MITRED
from schematics.garment.constructions.mitred.mitred_counts import MitredBody
from schematics.wearer.body import Body, BodyValue, Origin, Stage
from tests.checks.cases import finding, make_case, measured, spread
from tests.checks.folded_cases import folded_case

GOOD, MIND, STOP = Severity.GOOD, Severity.MIND, Severity.STOP

# 30 rows of 1 cm and 5 % of sag: the worn hem is 31.5 cm below the nape.


@pytest.mark.parametrize("stage", [Stage.BABY, Stage.CHILD])
@pytest.mark.parametrize(("knee", "severity"), [(63.4, GOOD), (63.5, GOOD), (63.501, STOP)])
def test_a_childs_hem_stays_above_the_knee(stage: Stage, knee: float, severity: Severity) -> None:
    body = {Body.NAPE_HEIGHT: measured(95), Body.KNEE_HEIGHT: measured(knee)}
    assert finding(make_case(body=body, stage=stage), "HANG-KNEE").severity is severity


@pytest.mark.parametrize(("knee", "severity"), [(63.5, GOOD), (63.501, MIND)])
def test_an_adults_long_hem_is_a_matter_of_looks(knee: float, severity: Severity) -> None:
    body = {Body.NAPE_HEIGHT: measured(95), Body.KNEE_HEIGHT: measured(knee)}
    assert finding(make_case(body=body, stage=Stage.ADULT), "HANG-KNEE").severity is severity


def test_low_goes_with_low_and_high_with_high() -> None:
    # 90 - 31.5 = 58.5 clears the small child's knee at 57, not the large child's at 63.
    body = {Body.NAPE_HEIGHT: spread(90, 95, 100), Body.KNEE_HEIGHT: spread(57, 60, 63)}
    found = finding(make_case(body=body), "HANG-KNEE")
    assert found.severity is GOOD
    assert found.figures["clearance_cm"] == pytest.approx(1.5)
    assert found.sentence == "Worn, the hem stays 1.5 cm above the knee at the worst end of the size."


@pytest.mark.parametrize(
    "nape",
    [spread(84, 95, 106), spread(95, 95, 95)],
    ids=["small child", "large child"],
)
def test_the_worst_end_of_the_size_stops_a_child(nape: BodyValue) -> None:
    knee = spread(53, 60, 64)  # small: 84 - 31.5 - 53 = -0.5; large with nape 95: 95 - 31.5 - 64 = -0.5
    found = finding(make_case(body={Body.NAPE_HEIGHT: nape, Body.KNEE_HEIGHT: knee}), "HANG-KNEE")
    assert found.severity is STOP
    assert found.figures["clearance_cm"] == pytest.approx(-0.5)
    assert found.sentence == (
        "Worn, the hem can come 0.5 cm below the knee at the worst end of the size, where a child trips: "
        "shorten the body by at least 0.5 cm laid flat, since it hangs 5 % longer when worn."
    )


def test_an_adult_is_judged_on_the_typical_body() -> None:
    body = {Body.NAPE_HEIGHT: spread(84, 95, 106), Body.KNEE_HEIGHT: spread(53, 60, 64)}
    found = finding(make_case(body=body, stage=Stage.ADULT), "HANG-KNEE")
    assert found.severity is GOOD
    assert found.figures["clearance_cm"] == pytest.approx(3.5)


def test_sag_and_clearance_are_the_specs_to_change() -> None:
    body = {Body.NAPE_HEIGHT: measured(95), Body.KNEE_HEIGHT: measured(62)}
    dry = Limits(hem_sag_fraction=0.0, knee_clearance_cm=3.0)
    found = finding(make_case(body=body, limits=dry), "HANG-KNEE")
    assert found.severity is GOOD
    assert found.sentence == "Worn, the hem stays 3 cm above the knee."
    found = finding(make_case(body=body, limits=Limits(knee_clearance_cm=3.6)), "HANG-KNEE")
    assert found.severity is STOP
    assert found.sentence == (  # 1.5 cm above, 2.1 cm short of 3.6 cm: 2.1 / 1.05 = 2 cm unworn
        "Worn, the hem can come 1.5 cm above the knee, where a child trips: "
        "shorten the body by at least 2 cm laid flat, since it hangs 5 % longer when worn."
    )
    found = finding(make_case(body=body, limits=replace(dry, knee_clearance_cm=4.0)), "HANG-KNEE")
    assert found.sentence.endswith(" where a child trips: shorten the body by at least 1 cm.")


def test_borrowed_values_are_marked_by_where_they_come_from() -> None:
    lent = {body: spread(90, 95, 100, Origin.AGE_TABLE) for body in (Body.NAPE_HEIGHT,)}
    lent[Body.KNEE_HEIGHT] = spread(28, 30, 32, Origin.ESTIMATE)
    assert finding(make_case(body=lent), "HANG-KNEE").sentence.endswith(
        "(from the age table: nape height; estimated: knee height)."
    )


def test_an_estimated_knee_is_marked() -> None:
    found = finding(make_case(body={Body.KNEE_HEIGHT: spread(28, 30, 32, Origin.ESTIMATE)}), "HANG-KNEE")
    assert found.sentence.endswith("(estimated: knee height).")


@pytest.mark.parametrize(
    ("rows", "severity", "sentence"),
    [
        (20, MIND, "On the typical wearer the hem comes 2 cm above the waist; is a short cape meant?"),
        (30, GOOD, "On the typical wearer the hem comes 8.5 cm below the waist and 3.5 cm above the hip."),
        (40, GOOD, "On the typical wearer the hem comes 7 cm below the hip and 23 cm above the knee."),
        (80, GOOD, "On the typical wearer the hem comes 19 cm below the knee."),
    ],
)
def test_where_the_hem_comes(rows: int, severity: Severity, sentence: str) -> None:
    # Below the nape: waist 23 (back waist length), hip 95 - 60 = 35, knee 95 - 30 = 65; worn 1.05 x rows.
    found = finding(make_case(rows=rows), "HANG-WHERE")
    assert (found.severity, found.sentence) == (severity, sentence)


@pytest.mark.parametrize(("back", "severity"), [(31.5, GOOD), (31.501, MIND)])
def test_a_hem_at_the_waist_is_not_short(back: float, severity: Severity) -> None:
    case = make_case(body={Body.BACK_WAIST_LENGTH: measured(back)})
    assert finding(case, "HANG-WHERE").severity is severity


def test_at_the_waist_the_hem_is_told_from_the_waist() -> None:
    case = make_case(body={Body.BACK_WAIST_LENGTH: measured(31.5)})
    assert " comes 0 cm below the waist and 3.5 cm above the hip" in finding(case, "HANG-WHERE").sentence


def test_an_estimated_nape_is_marked_where_it_counts() -> None:
    nape = {Body.NAPE_HEIGHT: spread(90, 95, 100, Origin.ESTIMATE)}
    assert finding(make_case(body=nape), "HANG-WHERE").sentence.endswith("(estimated: nape height).")
    heights = dict.fromkeys((Body.HIP_HEIGHT, Body.KNEE_HEIGHT))
    alone = finding(make_case(body={**nape, **heights}), "HANG-WHERE")  # the back waist length tells alone
    assert alone.sentence.endswith("below the waist.")


@pytest.mark.slow
def test_a_short_cape_may_be_meant() -> None:
    case = make_case(rows=20, limits=Limits(short_above_waist_cm=2.0))
    assert finding(case, "HANG-WHERE").severity is GOOD


def test_without_a_back_waist_length_the_heights_tell_the_waist() -> None:
    # 95 - 72 = 23, the same depth
    case = make_case(body={Body.BACK_WAIST_LENGTH: None})
    assert finding(case, "HANG-WHERE").figures["waist_cm"] == pytest.approx(23)


def test_a_back_waist_length_goes_before_the_waist_height() -> None:
    case = make_case(body={Body.WAIST_HEIGHT: measured(65)})  # 30 cm below the nape, against 23 cm
    found = finding(case, "HANG-WHERE")
    assert found.figures["waist_cm"] == pytest.approx(23)
    assert found.sentence.startswith("On the typical wearer the hem comes 8.5 cm below the waist and")


def test_without_heights_the_back_waist_length_still_tells() -> None:
    heights = (Body.NAPE_HEIGHT, Body.WAIST_HEIGHT, Body.HIP_HEIGHT, Body.KNEE_HEIGHT)
    case = make_case(body=dict.fromkeys(heights))
    assert (
        finding(case, "HANG-WHERE").sentence == "On the typical wearer the hem comes 8.5 cm below the waist."
    )


def test_without_any_of_them_the_back_waist_length_is_asked_for() -> None:
    case = make_case(body={Body.BACK_WAIST_LENGTH: None, Body.NAPE_HEIGHT: None})
    found = finding(case, "HANG-WHERE")
    assert found.severity is MIND
    assert found.sentence == (
        "Back waist length is not known, so where the hem comes cannot be checked: measure it, or the height "
        "to estimate from, or give a child's age."
    )


def test_a_corner_that_hangs_lower_than_the_centre_back_counts() -> None:
    """45 cm wide each way, 40 cm deep, neck corner 12 cm out: the corner is hypot(33, 40) from the neck."""
    made = folded_case()
    lowest = math.hypot(33, 40) * 1.05
    nape = measured(lowest + 30)
    for knee, severity in ((29.99, GOOD), (30.01, STOP)):
        body = {Body.NAPE_HEIGHT: nape, Body.KNEE_HEIGHT: measured(knee)}
        wearer = replace(made.wearer, values={**made.wearer.values, **body})
        found = finding(replace(made, wearer=wearer), "HANG-KNEE")
        assert found.severity is severity
        assert "lowest corner" in found.sentence
        assert found.figures["drop_cm"] == pytest.approx(math.hypot(33, 40))


def test_a_front_longer_than_the_back_is_not_overlooked() -> None:
    made = folded_case()
    size = replace(made.size, body=made.size.body.model_copy(update={"front_rows": 60}))
    garment = FOLDED.build(size, made.design.parts)
    assert garment.drop_cm == pytest.approx(38)
    assert garment.longest_drop_cm == pytest.approx(math.hypot(33, 60))


@pytest.mark.parametrize("lines", [2, 3, 4, 6])
def test_a_mitred_corner_lies_its_slanted_side_from_the_neck(lines: int) -> None:
    """Depth 30 cm, 12 increases of 1 cm on a side: the slanted side is hypot(30, 12) long."""
    body = MitredBody(neck=48, lines=lines, increase_rows=12, rows=30)
    plain = make_case()
    made = MITRED.build(replace(plain.size, body=body), plain.design.parts)
    assert made.longest_drop_cm == pytest.approx(math.hypot(30, 12), rel=1e-3)
