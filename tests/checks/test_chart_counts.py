from dataclasses import replace

import pytest

from schematics.checks.finding import Severity
from schematics.crochet.fabric import CountRule, Fabric
from tests.checks.cases import PARTS, charted, fabric, finding, findings, make_case

CODE = "COUNT-CHART"
GOOD, STOP = Severity.GOOD, Severity.STOP


def on_panel(panel: Fabric, stitches: int, rows: int) -> tuple[Severity, str]:
    case = make_case(panel_stitches=stitches, panel_rows=rows, parts=replace(PARTS, centre_panel=panel))
    found = finding(case, CODE)
    return found.severity, found.sentence


def test_a_design_without_charts_has_nothing_to_count() -> None:
    assert finding(make_case(), CODE).sentence == "No panel and no band is worked from a chart."


@pytest.mark.parametrize(
    ("stitches", "severity", "words"),
    [
        (12, GOOD, "Centre panel: every row of its chart comes out even (12 stitches)."),
        (8, GOOD, "Centre panel: every row of its chart comes out even (8 stitches)."),
        (6, STOP, "Centre panel, on 6 stitches its chart cannot be worked: row 1: the row uses 8 stitches "
                  "besides those worked across, but the row below has 6 stitches; expected at most 6."),
        (9, STOP, "Centre panel, on 9 stitches its chart cannot be worked: row 1: the row below has 9 "
                  "stitches, of which 1 stitch is left for what is worked across, 2 at a time; expected a "
                  "number that 2 goes into."),
    ],
)  # fmt: skip
def test_too_narrow_a_panel_is_stopped_with_its_row(stitches: int, severity: Severity, words: str) -> None:
    assert on_panel(charted("4 sc, (2 sc) across, 4 sc", "sc across"), stitches, 30) == (
        severity,
        words,
    )


def test_a_panel_that_loses_two_in_each_repeat_is_followed_to_its_top() -> None:
    # 20 stitches, ten repeats of three rows, two fewer each: none is left for the tenth, 2 of the 9th.
    panel = charted("sc2tog, sc across, sc2tog", "sc across", "sc across", adds=(0, -2, 0))
    assert on_panel(panel, 24, 30) == (
        GOOD,
        "Centre panel: every row of its chart comes out even (24 stitches at the foot, 4 at the top).",
    )
    severity, sentence = on_panel(panel, 20, 30)
    assert severity is STOP
    assert (
        "row 1: the row uses 4 stitches besides those worked across, but the row below has 2 stitches"
        in sentence
    )


def test_a_row_of_shells_is_wider_than_foot_and_top() -> None:
    # A group of 4 makes 6 in the first row, 4 again in the second: 8 groups and 1, so 33, 49 and 33.
    panel = charted("(sk, 5-dc sh, sk, sc) across, sc", "(sc2tog, 2 sc, sc2tog) across, sc")
    assert on_panel(panel, 33, 30) == (
        GOOD,
        "Centre panel: every row of its chart comes out even (33 stitches, 33 to 49 in between).",
    )


def test_a_band_may_have_a_chart_of_its_own() -> None:
    case = make_case(parts=replace(PARTS, arm_bands=charted("2 sc, 4 sl st")))
    (found,) = findings(case, CODE)
    assert (found.place, found.severity) == ("arm band", STOP)
    assert "row 1: the row uses 6 stitches, but the row below has 4 stitches; expected 4" in found.sentence


@pytest.mark.parametrize(
    ("stitches", "severity", "words"),
    [
        (24, GOOD, "24 stitches fit a pattern of exactly 24."),
        (26, STOP, "26 stitches do not fit a pattern of exactly 24; make it 24."),
    ],
)
def test_a_pattern_of_one_count_alone_is_told_as_that(stitches: int, severity: Severity, words: str) -> None:
    parts = replace(PARTS, centre_panel=fabric(stitch_rule=CountRule.exactly(24)))
    found = findings(make_case(panel_stitches=stitches, parts=parts), "COUNT-MULTIPLE")
    told = [(each.severity, each.sentence) for each in found if each.place.startswith("centre panel")]
    assert told == [(severity, f"Centre panel, lower and top: {words}")]
