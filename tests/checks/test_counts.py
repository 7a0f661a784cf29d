from dataclasses import replace
from typing import Any

import pytest

from schematics.checks.finding import Case, Finding, Severity
from schematics.crochet.fabric import CountRule, RowRule
from tests.checks.cases import PARTS, PLAIN, fabric, finding, findings, make_case

GOOD, STOP = Severity.GOOD, Severity.STOP


def at(case: Case, code: str, place: str) -> Finding:
    """The one finding of that code whose place starts so."""
    (only,) = [each for each in findings(case, code) if each.place.startswith(place)]
    return only


@pytest.mark.parametrize(
    ("stitches", "severity", "words"),
    [
        (20, GOOD, "20 stitches fit a multiple of 6 plus 2."),
        (21, STOP, "21 stitches do not fit a multiple of 6 plus 2; the nearest that do are 20 and 26."),
        (25, STOP, "25 stitches do not fit a multiple of 6 plus 2; the nearest that do are 20 and 26."),
        (26, GOOD, "26 stitches fit a multiple of 6 plus 2."),
        (1, STOP, "1 stitch does not fit a multiple of 6 plus 2; the fewest that do are 2."),
    ],
)
def test_panel_stitches_fit_the_multiple(stitches: int, severity: Severity, words: str) -> None:
    parts = replace(PARTS, centre_panel=fabric(stitch_rule=CountRule(multiple=6, plus=2)))
    found = at(make_case(panel_stitches=stitches, parts=parts), "COUNT-MULTIPLE", "centre panel")
    assert found.severity is severity
    assert found.sentence == f"Centre panel, lower and top: {words}"


@pytest.mark.parametrize(
    ("rows", "severity", "words"),
    [
        (31, GOOD, "31 rows fit whole repeats of 4 with 2 set-up rows and 1 closing row."),
        (32, STOP, "32 rows do not fit whole repeats of 4 with 2 set-up rows and 1 closing row; "
                   "the nearest that do are 31 and 35."),
        (35, GOOD, "35 rows fit whole repeats of 4 with 2 set-up rows and 1 closing row."),
    ],
)  # fmt: skip
def test_panel_rows_fit_the_repeat(rows: int, severity: Severity, words: str) -> None:
    parts = replace(PARTS, centre_panel=fabric(row_rule=RowRule(setup=2, repeat=4, closing=1)))
    found = at(make_case(panel_rows=rows, parts=parts), "COUNT-REPEAT", "centre panel")
    assert found.severity is severity
    assert found.sentence.endswith(f": {words}")


def test_body_neck_and_hem_both_fit_the_bodys_multiple() -> None:
    parts = replace(PARTS, body=fabric(stitch_rule=CountRule(multiple=8)))
    case = make_case(neck=40, hem=161, parts=parts)
    assert at(case, "COUNT-MULTIPLE", "body, neck").severity is GOOD
    assert at(case, "COUNT-MULTIPLE", "body, hem").severity is STOP


@pytest.mark.parametrize(
    ("part", "count", "place"),
    [("neck_band", "neck_band_stitches", "neck band"), ("arm_bands", "arm_band_stitches", "arm band")],
)
def test_rib_depth_and_rows_fit_the_ribs_rules(part: str, count: str, place: str) -> None:
    rib = fabric(stitch_rule=CountRule(multiple=5), row_rule=RowRule(repeat=4))
    changed: dict[str, Any] = {part: rib}
    parts = replace(PARTS, **changed)
    # 36 + 20 = 56 ribbing rows at the neck, 20 at each arm: both whole fours.
    whole: dict[str, Any] = {"stitches": 20, count: 5}
    broken: dict[str, Any] = {"neck": 38, "stitches": 18, count: 6}
    good, stop = make_case(parts=parts, **whole), make_case(parts=parts, **broken)
    for code in ("COUNT-MULTIPLE", "COUNT-REPEAT"):
        assert at(good, code, place).severity is GOOD
        assert at(stop, code, place).severity is STOP


def test_patterns_that_take_any_number_are_told_once() -> None:
    assert finding(make_case(), "COUNT-MULTIPLE").sentence == "No stitch pattern asks for a multiple."
    assert finding(make_case(), "COUNT-REPEAT").sentence == "No stitch pattern asks for a row repeat."


def test_a_pattern_may_ask_for_edges_only() -> None:
    parts = replace(PARTS, body=fabric(stitch_rule=CountRule(plus=50), row_rule=RowRule(setup=3)))
    case = make_case(parts=parts)
    assert at(case, "COUNT-MULTIPLE", "body, hem").sentence.endswith(
        "160 stitches fit a pattern of at least 50."
    )
    assert at(case, "COUNT-REPEAT", "body").sentence.endswith(
        "30 rows fit any number of rows with 3 set-up rows."
    )


def test_ribbing_wants_an_even_edge() -> None:
    even = at(make_case(), "COUNT-EVEN", "neck band")
    assert (even.severity, even.sentence) == (
        GOOD,
        "The neck band is worked onto 56 edge stitches: an even number, for 56 ribbing rows.",
    )
    odd = at(make_case(neck=37), "COUNT-EVEN", "neck band")
    assert (odd.severity, odd.sentence) == (
        STOP,
        "The neck band is worked onto 57 edge stitches: ribbing takes them in pairs, so make it 56 or 58.",
    )
    assert at(make_case(stitches=17), "COUNT-EVEN", "arm band").severity is STOP


def test_every_edge_stitch_takes_one_ribbing_row() -> None:
    garment = make_case().garment
    short = make_case(garment={"neck": replace(garment.neck, band_rows=54)})
    assert at(short, "COUNT-EVEN", "neck band").sentence == (
        "The neck band is worked onto 56 edge stitches: its 54 ribbing rows do not match them one to one."
    )


@pytest.mark.parametrize(
    ("neck", "hem", "rows", "severity", "sentence"),
    [
        (40, 168, 26, GOOD, "From 40 stitches at the neck to 168 at the hem: "
                            "25 increase rows with 5 to 6 increases, evenly spread."),
        (10, 20, 2, GOOD, "From 10 stitches at the neck to 20 at the hem: "
                          "1 increase row with 10 increases, evenly spread."),
        (10, 21, 2, STOP, "Row 2 would take 11 increases into 10 stitches, more than one in each: "
                          "spread them over more increase rows."),
        (10, 12, 1, STOP, "The increase rows add 0 stitches, but from 10 at the neck to 12 at the hem "
                          "takes 2: work more rows, or increase more often."),
        (10, 10, 9, GOOD, "The body has 10 stitches throughout, no increases."),
    ],
)  # fmt: skip
def test_increases_reach_the_hem_without_more_than_doubling(
    neck: int, hem: int, rows: int, severity: Severity, sentence: str
) -> None:
    found = finding(make_case(neck=neck, hem=hem, rows=rows), "COUNT-INCREASE")
    assert (found.severity, found.sentence) == (severity, sentence)


def test_regular_increases_are_told_by_their_rule() -> None:
    """Eight rows of ten: 2, 4 and so on to 16."""
    case = make_case(neck=40, hem=120, rows=20, increase_every=2, increase_until=16)
    assert finding(case, "COUNT-INCREASE").sentence == (
        "From 40 stitches at the neck to 120 at the hem: 10 more in row 2 and every 2nd row to row 16, "
        "evenly spread."
    )


def test_a_body_without_an_increase_plan_is_good() -> None:
    assert finding(make_case(garment={"increases": None}), "COUNT-INCREASE").severity is GOOD


def test_chains_are_stitches_and_the_turn() -> None:
    # Turning chains: single crochet 1, half double 2 (common practice, no source).
    parts = replace(PARTS, body=fabric(turning_chains=2))
    assert PLAIN.turning_chains == 1
    found = finding(make_case(parts=parts), "COUNT-CHAIN")
    assert found.sentence == (
        "Foundation chains, stitches + chains skipped at the turn: body 38 for 36 + 2; "
        "centre panel 21 for 20 + 1; neck band 7 for 6 + 1; arm band 5 (2 times) for 4 + 1."
    )
    assert found.figures == {
        "body_count": 38, "centre_panel_count": 21, "neck_band_count": 7, "arm_band_count": 5,
    }  # fmt: skip
