"""Cords and ties at the neck. EN 14682:2014: none under 7 years or up to 134 cm."""

from __future__ import annotations

import pytest

from schematics.checks.finding import Severity
from schematics.wearer.body import Body, WearerSpec
from tests.checks.cases import finding, make_case
from tests.checks.gallery import of_spec

SIX_YEARS_TALL = WearerSpec(age_years=6.9, own={Body.HEIGHT: 140.0})


@pytest.mark.parametrize(
    ("wearer", "severity"),
    [
        (WearerSpec(chart="baby/12 mo"), Severity.STOP),
        (WearerSpec(chart="child/6"), Severity.STOP),
        (SIX_YEARS_TALL, Severity.STOP),
        (WearerSpec(age_years=9.0, own={Body.HEIGHT: 134.0}), Severity.STOP),
        (WearerSpec(age_years=7.0, own={Body.HEIGHT: 134.5}), Severity.MIND),
        (WearerSpec(own={Body.HEIGHT: 120.0}), Severity.STOP),
        (WearerSpec(own={Body.HEAD_GIRTH: 52.0}), Severity.STOP),
        (WearerSpec(chart="child/8"), Severity.STOP),
        (WearerSpec(chart="child/12"), Severity.MIND),
        (WearerSpec(chart="woman/M"), Severity.GOOD),
        (WearerSpec(age_years=30.0, own={Body.HEIGHT: 130.0}), Severity.GOOD),
    ],
)
def test_ties_stop_a_young_childs_size(wearer: WearerSpec, severity: Severity) -> None:
    found = finding(of_spec(wearer, neck_ties=True), "TIES-NECK")
    assert found.severity is severity
    assert ("up to 7 years or 134 cm there may be none" in found.sentence) == (severity is Severity.STOP)


def test_without_ties_there_is_nothing_to_say() -> None:
    assert finding(make_case(), "TIES-NECK").severity is Severity.GOOD
    assert finding(of_spec(WearerSpec(chart="child/6")), "TIES-NECK").severity is Severity.GOOD


@pytest.mark.parametrize(
    ("notion", "asked"),
    [
        ("1 m of cotton cord", True),
        ("two tassels", True),
        ("4 removable stitch markers", False),
        ("blunt-tipped yarn needle", False),
        ("according to taste, a button", False),
    ],
)
def test_notions_that_sound_like_one_are_asked_about(notion: str, asked: bool) -> None:
    found = finding(of_spec(WearerSpec(chart="child/4"), notions=(notion,)), "TIES-NECK")
    assert found.severity is (Severity.MIND if asked else Severity.GOOD)
    assert (f"“{notion}”" in found.sentence) == asked
    grown = finding(of_spec(WearerSpec(chart="woman/M"), notions=(notion,)), "TIES-NECK")
    assert grown.severity is Severity.GOOD


def test_the_sentence_says_for_whom() -> None:
    """Six years: median height 114.6 cm, Snyder et al. 1977."""
    found = finding(of_spec(WearerSpec(chart="child/6"), neck_ties=True), "TIES-NECK")
    assert "the size is for a child of 6 years, typically 114.6 cm tall" in found.sentence
    unknown = finding(of_spec(WearerSpec(), neck_ties=True), "TIES-NECK")
    assert "a child of unknown age" in unknown.sentence
