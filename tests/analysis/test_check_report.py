"""What `check` prints of what is good but not sure, and `sensitivity` of what it rests on."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from schematics.analysis.check_report import check_document
from schematics.analysis.measurements import measurements
from schematics.analysis.sensitivity.sure_table import sure_section
from schematics.analysis.surer import surer_in_counts
from schematics.analysis.workbook import findings_document
from schematics.checks.evaluation import evaluate
from schematics.checks.finding import Severity
from schematics.document.document import plain
from schematics.document.writers import written
from schematics.pattern import figures
from schematics.units import Unit
from schematics.wearer.asking import questions
from schematics.wearer.body import Body
from tests.shipped import shipped_design, shipped_results


def test_what_is_not_sure_is_to_be_minded_with_what_to_measure() -> None:
    design, (_, result, *_rest) = shipped_design("tidepool"), shipped_results("tidepool")
    unsure = [each for each in result.findings if each.unsure]
    assert [(each.code, each.severity) for each in unsure] == [("NECK-PASS", Severity.MIND)]
    (section, *_) = check_document(design, [result], show_all=False).sections
    assert f"(1 mind, {len(result.findings) - 1} good)" in plain(section.heading)
    ((word, code, told),) = section.tables[0].rows
    assert (str(word), code) == ("mind", "NECK-PASS")
    assert "goes through the neck" in str(told)
    assert "give or take" in str(told)
    assert "To be sure, " in str(told)


def test_a_wearers_own_odd_measurement_is_asked_about_and_taken() -> None:
    """A spec that says 28 cm for a head of six, which are no inches either, and a wrist for the hand."""
    design = shipped_design("tidepool")
    size = design.sizes[2]
    odd = replace(size.wearer, own={Body.HEAD_GIRTH: 28.0})
    design = replace(design, sizes=(replace(size, wearer=odd),))
    results = evaluate(design)
    assert results[0].verdict is Severity.GOOD
    asked = questions({Body.HEAD_GIRTH: 28.0}, 6, design.unit)[Body.HEAD_GIRTH]
    checked = check_document(design, results, show_all=False)
    assert checked.sections[0].tables[0].rows == (("ask", "", asked),)
    assert asked in "".join(written([checked], "csv")).replace('""', '"')
    assert measurements(design, results)["sizes"][0]["questions"] == [
        {"measurement": "head_girth", "sentence": asked}
    ]
    for document in (figures(design, results), findings_document(design, results)):
        assert asked in "".join(written([document], "json"))


def test_what_is_minded_stands_before_what_is_good() -> None:
    design, (_, result, *_rest) = shipped_design("tidepool"), shipped_results("tidepool")
    (section, *_) = check_document(design, [result], show_all=True).sections
    words = [str(row[0]) for row in section.tables[0].rows]
    assert words == sorted(words, key=["mind", "good"].index)
    assert len(words) == len(result.findings)


def test_sensitivity_has_a_row_for_each_that_rests_on_what_was_measured() -> None:
    result = shipped_results("tidepool")[1]
    doubtful = [each for each in result.findings if each.certainty]
    (table,) = sure_section(result, Unit.IN).tables
    for finding, (_, margin, sd, hundred, doubts) in zip(doubtful, table.rows, strict=True):
        sure = finding.certainty
        assert sure is not None
        assert [each.value for each in (margin, sd, hundred)] == [  # type: ignore[union-attr]
            sure.margin_cm / 2.54,
            sure.sd_cm / 2.54,
            sure.holds_fraction,
        ]
        assert str(doubts).startswith(sure.shares[0][0])


@pytest.mark.slow
def test_the_workbook_says_what_is_to_be_minded_with_how_sure_it_is() -> None:
    design, results = shipped_design("tidepool"), shipped_results("tidepool")
    sections = {plain(each.heading): each for each in findings_document(design, results).sections}
    assert list(sections)[:2] == ["Sizes", "What is to be minded"]
    (table,) = sections["What is to be minded"].tables
    minded = [(result.size.name, each) for result in results for each in result.findings]
    assert list(table.rows) == [
        (name, each.code, each.full_sentence) for name, each in minded if each.severity is Severity.MIND
    ]
    assert any(each.unsure for _, each in minded)


@pytest.mark.slow
def test_what_is_not_sure_is_told_with_counts_that_would_be_and_at_what_price() -> None:
    """Size 4's neck: as many stitches more as are told make it surely wide enough, fewer do not."""
    design, result = shipped_design("tidepool"), shipped_results("tidepool")[1]
    (finding,) = (each for each in result.findings if each.unsure)
    told = re.fullmatch(
        r"Or in the counts: (\d+) more stitches at the neck \((\d+) in all\); "
        r"then NECK-SLIP would be to mind\.",
        surer_in_counts(design, result, finding),
    )
    assert told is not None
    assert int(told[2]) - int(told[1]) == result.size.body.neck
    for neck, severity in ((int(told[2]), "good"), (int(told[2]) - 2, "mind")):
        body = result.size.body.model_copy(update={"neck": neck})
        (changed,) = evaluate(replace(design, sizes=(replace(result.size, body=body),)))
        severities = {each.code: each.severity.value for each in changed.findings}
        assert severities["NECK-PASS"] == severity
        assert severities["NECK-SLIP"] == ("mind" if severity == "good" else severities["NECK-SLIP"])
    (section, *_) = check_document(design, [result], show_all=False).sections
    assert str(section.tables[0].rows[0][2]).endswith(told[0])


@pytest.mark.slow
def test_a_change_of_counts_that_costs_nothing_is_told_alone() -> None:
    design = shipped_design("sandpiper")
    result = shipped_results("sandpiper")[0]
    (finding,) = (each for each in result.findings if each.unsure)
    assert surer_in_counts(design, result, finding) == (
        "Or in the counts: 1 more stitch of arm band depth (10 in all)."
    )
    (changed,) = evaluate(replace(design, sizes=(replace(result.size, arm_band_stitches=10),)))
    assert not any(each.unsure for each in changed.findings)


@pytest.mark.slow
def test_where_a_worry_hangs_on_the_trades_long_arm_the_surveys_is_told() -> None:
    """Size 2: the chart prints 18 in (45.7 cm), the survey's medians of two-year-olds add up to 40.5 cm."""
    design, result = shipped_design("sandpiper"), shipped_results("sandpiper")[0]
    told = (
        "The chart's centre back neck to wrist is 12 % over the 40.5 cm of measured children; "
        "to go by that, write centre_back_neck_to_wrist: 40.5 cm."
    )
    (section, *_) = check_document(design, [result], show_all=True).sections
    assert [str(row[1]) for row in section.tables[0].rows if str(row[2]).endswith(told)] == ["REACH-BAND"]
