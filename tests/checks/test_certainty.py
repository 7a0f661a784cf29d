"""How sure a finding is, in words."""

from __future__ import annotations

import re
from dataclasses import replace
from statistics import NormalDist

import pytest

from schematics.checks import check_size
from schematics.checks.certainty import chance_words, so_words
from schematics.checks.finding import Case, Certainty, Finding, Severity
from schematics.checks.rules.sureness import Sureness
from schematics.design.limits import Limits
from schematics.units import Unit
from schematics.wearer.body import Body
from tests.checks.cases import PARTS, make_case, measured


def found(case: Case, code: str) -> Finding:
    return next(each for each in check_size(case) if each.code == code)


def certainty(finding: Finding) -> Certainty:
    assert finding.certainty is not None
    return finding.certainty


def test_a_finding_says_by_how_much_and_in_how_many_cases() -> None:
    finding = found(make_case(), "NECK-PASS")
    sure = certainty(finding)
    assert sure.margin_cm == pytest.approx(finding.figures["opens_cm"] - finding.figures["head_cm"])
    assert sure.sentence.startswith(
        f"It holds by {round(sure.margin_cm, 1):g} cm, give or take {round(sure.sd_cm, 1):g} cm"
    )
    assert finding.full_sentence.startswith(f"{finding.sentence} {sure.sentence}")


def test_several_that_must_hold_at_once_are_named_beside_a_chance_that_is_not_the_margins() -> None:
    """The edge and the band that is as wide: 2 cm in 3.0 are seven in ten of either, fewer of both."""
    sure = certainty(found(make_case(), "NECK-PASS"))
    assert chance_words(NormalDist(0, sure.sd_cm).cdf(sure.margin_cm)) == "about seven in ten"
    assert sure.sentence.endswith(
        " cm, where it is tightest; but several things must hold at once: about six in ten do."
    )


@pytest.mark.parametrize(("chance", "word"), [(0.84, ""), (0.6, "at once"), (0.97, "is enough")])
def test_what_leads_to_the_chance(chance: float, word: str) -> None:
    """One standard deviation over nought are 84 of 100, all of two fewer, any of two more."""
    words = so_words(Sureness(margin_cm=2.0, sd_cm=2.0, holds_fraction=chance, shares=()))
    assert words.endswith(":")
    assert word in words
    assert (words == ":") is (word == "")


def test_it_is_said_in_the_designs_unit() -> None:
    case = make_case()
    finding = found(replace(case, design=replace(case.design, unit=Unit.IN)), "NECK-PASS")
    assert " in, give or take " in certainty(finding).sentence


def head(cm: float) -> Case:
    return make_case(body={Body.HEAD_GIRTH: measured(cm)}, sure_fraction=0.9)


@pytest.mark.parametrize(("deviates", "unsure"), [(1.0, True), (1.27, True), (1.7, False), (3.0, False)])
def test_what_one_in_ten_would_fail_is_not_sure(deviates: float, unsure: bool) -> None:
    """1.2816 standard deviations leave one in ten of one limit, 1.645 of two that have nothing in common."""
    sure = certainty(found(head(30.0), "NECK-PASS"))
    opens = 30.0 + sure.margin_cm
    finding = found(head(opens - deviates * sure.sd_cm), "NECK-PASS")
    assert finding.unsure is unsure
    assert finding.severity is (Severity.MIND if unsure else Severity.GOOD)
    assert "goes through the neck" in finding.sentence
    assert (certainty(finding).holds_fraction < 0.9) is unsure
    assert ("To be sure, " in finding.full_sentence) is unsure


@pytest.mark.parametrize(("deviates", "told"), [(-0.3, True), (-1.3, False), (-3.0, False)])
def test_what_fails_but_may_hold_says_what_to_measure(deviates: float, told: bool) -> None:
    """Of one limit 0.38 hold 0.3 standard deviations below nought, of two apart the square of it; 1.3 below
    nought fewer than one in ten.
    """
    sure = certainty(found(head(30.0), "NECK-PASS"))
    opens = 30.0 + sure.margin_cm
    finding = found(head(opens - deviates * sure.sd_cm), "NECK-PASS")
    assert finding.severity is Severity.STOP
    assert (certainty(finding).holds_fraction > 0.1) is told
    assert ("To be sure, " in finding.full_sentence) is told


def test_the_spec_says_what_is_sure_enough() -> None:
    sure = certainty(found(head(30.0), "NECK-PASS"))
    near = {Body.HEAD_GIRTH: measured(30.0 + sure.margin_cm - sure.sd_cm)}
    for asked, unsure in ((0.6, False), (0.95, True)):
        finding = found(make_case(body=near, sure_fraction=asked), "NECK-PASS")
        assert finding.unsure is unsure


def test_what_stops_fails_by_so_much() -> None:
    finding = found(head(80.0), "NECK-PASS")
    assert finding.severity is Severity.STOP
    assert not finding.unsure
    assert certainty(finding).sentence.startswith("It fails by ")
    assert certainty(finding).sentence.endswith(": fewer than one in ten hold.")


@pytest.mark.parametrize("unit", Unit)
@pytest.mark.parametrize("less_cm", [-0.04, 0.0, 0.04])
def test_nothing_holds_or_fails_by_nought(unit: Unit, less_cm: float) -> None:
    """A head as large as the neck opens, or 0.04 cm less or more, which prints as nought in either unit."""
    opens_cm = 30.0 + certainty(found(head(30.0), "NECK-PASS")).margin_cm
    case = head(opens_cm - less_cm)
    sure = certainty(found(replace(case, design=replace(case.design, unit=unit)), "NECK-PASS"))
    assert sure.margin_cm == pytest.approx(less_cm, abs=1e-9)
    assert sure.sentence.startswith("It is right at its limit, give or take ")
    assert not re.search(r" 0(\.0)? (cm|in)", sure.sentence)


def test_a_seam_as_far_apart_as_it_may_be_is_at_a_stop() -> None:
    """A row eases in, and the edges are a row apart; at this gauge a row is a centimetre."""
    parts = replace(PARTS, centre_panel=replace(PARTS.centre_panel, name="panel"))
    finding = found(make_case(parts=parts, panel_rows=31), "SEAM-LENGTH")
    assert finding.severity is Severity.MIND
    assert certainty(finding).margin_cm == pytest.approx(0.0, abs=1e-9)
    assert certainty(finding).sentence.startswith("It is right at a stop, give or take ")
    assert certainty(finding).sentence.endswith(" stay short of it.")


@pytest.mark.slow
def test_what_is_minded_as_measured_does_not_hold_but_is_short_of_a_stop() -> None:
    finding = next(
        each
        for chest in range(50, 120)
        for each in check_size(make_case(body={Body.CHEST_GIRTH: measured(chest)}, sure_fraction=0.9))
        if each.code == "GIRTH-EASE" and each.severity is Severity.MIND and not each.unsure
    )
    sure = certainty(finding)
    assert sure.margin_cm > 0
    assert sure.sentence.startswith(
        f"It is short of a stop by {round(sure.margin_cm, 1):g} cm, give or take "
    )
    assert sure.sentence.endswith(" stay short of it.")
    assert "holds" not in finding.full_sentence


def test_counts_are_certain() -> None:
    assert found(make_case(), "COUNT-EVEN").certainty is None
    assert found(make_case(), "COUNT-EVEN").full_sentence == found(make_case(), "COUNT-EVEN").sentence


def test_what_to_measure_is_what_has_the_largest_share() -> None:
    sure = certainty(found(make_case(), "NECK-PASS"))
    shares = [share for _, share in sure.shares]
    assert shares == sorted(shares, reverse=True)
    assert sum(shares) == pytest.approx(1.0, abs=0.05)
    assert sure.shares[0][0] == "plain: stitches"
    parts = "body, centre panel, neck band and arm bands"
    assert sure.measure == f"count the stitches of a larger swatch for the {parts}, over 20 cm"


def test_a_fabric_that_gives_is_pulled_again() -> None:
    parts = PARTS.with_fabrics(lambda fabric: replace(fabric, stretch_across=1.0, stretch_along=0.5))
    sure = certainty(found(make_case(parts=parts), "NECK-PASS"))
    assert sure.shares[0][0] == "plain: stretch along"
    assert sure.measure.startswith(
        "pull the swatch of the body, centre panel, neck band and arm bands again "
    )


def test_seam_edges_in_closed_form() -> None:
    """Row ends of two fabrics, each off by its reading and its drift; 1 cm eases in, and a row does."""
    parts = replace(PARTS, centre_panel=replace(PARTS.centre_panel, name="panel"))
    case = make_case(parts=parts, limits=Limits(seam_stop_fraction=0.0), panel_rows=31)
    body, panel = parts.body, parts.centre_panel
    row_cm = body.swatch.height_cm / body.swatch.rows
    off = ((0.5 / body.swatch.rows) ** 2 + 0.02**2) ** 0.5
    first, second = 30 * row_cm, 31 * row_cm
    sd_cm = off * (first**2 + second**2) ** 0.5
    eases_in = max(1.0, row_cm)
    normal = NormalDist()
    chance = normal.cdf((eases_in + row_cm) / sd_cm) - normal.cdf((row_cm - eases_in) / sd_cm)
    finding = found(case, "SEAM-LENGTH")
    sure = certainty(finding)
    assert panel.swatch == body.swatch
    assert sure.margin_cm == pytest.approx(eases_in - row_cm, abs=1e-9)
    assert sure.sd_cm == pytest.approx(sd_cm, rel=1e-3)
    assert sure.holds_fraction == pytest.approx(chance, abs=1e-3)
    assert sure.measure.startswith("lay the edges side by side before the centre panel's last rows")


def test_a_measured_child_is_measured_again() -> None:
    case = make_case(person=True)
    shoulders = certainty(found(case, "HANG-WHERE"))
    assert any(name in {body.words for body in Body} for name, _ in shoulders.shares)


def test_what_never_stops_is_right_at_its_limit() -> None:
    """An arm band of 18 cm is 35.03 % wider than a wrist of 13.33 cm: past 35 % by nought as printed."""
    finding = found(make_case(body={Body.WRIST_GIRTH: measured(13.33)}), "ARM-REST")
    assert finding.severity is Severity.MIND
    assert "hangs loose" in finding.sentence
    assert certainty(finding).sentence.startswith("It is right at its limit, give or take ")
