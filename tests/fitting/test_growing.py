"""Until when a poncho fits: against the age table read by itself and the limits worked out by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest

from schematics.checks.rules.judging import inputs_of, judges
from schematics.checks.rules.sentence import Answer
from schematics.design.limits import Limits
from schematics.fitting.fitting import fitting
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.growing import PLACES, FitsWhile, age_of, ages_fitted, grown, growth_words
from schematics.fitting.growth_report import growth_sections
from schematics.wearer.age_words import age_words
from schematics.wearer.body import Body, WearerSpec
from schematics.wearer.growth import head_girth
from schematics.wearer.resolve import resolve
from schematics.wearer.survey import height
from tests.examples import seeds
from tests.fitting.children import demo

TIDEPOOL = demo("tidepool")


def child(age: float, **own: float) -> WearerSpec:
    return WearerSpec(age_years=age, own={Body(body): cm for body, cm in own.items()})


def test_a_measurement_keeps_its_ratio_to_the_table() -> None:
    now = resolve(child(6.0, head_girth=53.0, height=120.0), "a child")
    later = grown(now, 6.0, np.array([2.0]))
    heads, heights = head_girth(8.0).cm / head_girth(6.0).cm, height(8.0, "both").cm / height(6.0, "both").cm
    assert later.body[Body.HEAD_GIRTH].cm == pytest.approx(53.0 * heads)
    assert later.body[Body.HEIGHT].cm == pytest.approx(120.0 * heights)
    assert later.age_years.tolist() == [8.0]


def test_a_typical_child_stays_one() -> None:
    now = resolve(child(5.0), "a child")
    later, typical = grown(now, 5.0, np.array([3.5])), resolve(child(8.5), "a child").values
    assert {body: each.cm for body, each in later.body.items()} == pytest.approx(
        {body: each.cm for body, each in typical.items()}
    )


def test_a_child_of_no_age_has_that_of_its_height() -> None:
    tall = resolve(WearerSpec(own={Body.HEIGHT: height(7.0, "both").cm}), "a child")
    assert age_of(tall) == pytest.approx(7.0, abs=1 / 12)
    assert age_of(resolve(WearerSpec(own={Body.HEAD_GIRTH: 52.0}), "a child")) is None


@pytest.mark.slow
@pytest.mark.parametrize("age", seeds([6.0, 2.5, 9.0]))
def test_the_arms_outgrow_the_band_where_the_rules_say_so(age: float) -> None:
    """Month by month from the table itself: a typical child needs no ratio."""
    fit = fitting(TIDEPOOL, TIDEPOOL.sizes, resolve(child(age), "a child")).advised
    ((head, arms, hem),) = ages_fitted([fit.at_gauge.facts], resolve(child(age), "a child"), TIDEPOOL.limits)
    assert [each.by for each in (head, arms, hem)] == list(PLACES)
    codes = ("ARM-PASS", "ARM-REST", "REACH-BAND", "SPREAD-ARMS")

    def right(years: float) -> bool:
        inputs = inputs_of(resolve(child(years), "a child"), fit.at_gauge.facts)
        return all(judges(TIDEPOOL.limits)[code].answer(inputs) <= Answer.UNKNOWN for code in codes)

    months = [age + month / 12 for month in range(math.ceil((18 - age) * 12))]
    good = [right(years) for years in months]
    assert arms.from_years == months[good.index(True)]
    ends = [months[at] for at in range(len(months) - 1) if good[at] and not good[at + 1]]
    assert arms.until_years == (ends[0] if ends else None)


@pytest.mark.slow
def test_a_shorter_reach_is_outgrown_sooner() -> None:
    wearer = resolve(child(6.0), "a child")
    facts = fitting(TIDEPOOL, TIDEPOOL.sizes, wearer).advised.at_gauge.facts
    shorter = {**facts, "reach_cm": facts["reach_cm"] - 2.0}
    (_, arms, _), (_, sooner, _) = ages_fitted([facts, shorter], wearer, Limits())
    assert (sooner.until_years or 99) < (arms.until_years or 99)


def test_nothing_is_said_of_what_cannot_be_judged() -> None:
    """A height gives wrist and hem, not head, shoulders and hand; a neck of 90 cm slips off any of them."""
    facts = size_at_gauge(TIDEPOOL, TIDEPOOL.sizes[2]).facts
    loose = {**facts, "neck.rest_cm": 90.0}
    own = {Body.HEIGHT: 116.0}
    (by_height,) = ages_fitted([loose], resolve(WearerSpec(own=own), "a child"), TIDEPOOL.limits)
    assert [each.by for each in by_height] == ["arms", "hem"]
    headed = resolve(WearerSpec(own=own | {Body.HEAD_GIRTH: 52.0}), "a child")
    ((neck, arms, hem),) = ages_fitted([loose], headed, TIDEPOOL.limits)
    assert neck.from_years is not None
    assert (arms, hem) == by_height
    ((neck, *_),) = ages_fitted([loose], resolve(child(6.0), "a child"), TIDEPOOL.limits)
    assert neck.from_years is None


def test_nothing_is_said_of_the_grown() -> None:
    wearer = resolve(WearerSpec(chart="woman/S"), "a woman")
    facts = fitting(TIDEPOOL, TIDEPOOL.sizes, wearer).advised.at_gauge.facts
    assert ages_fitted([facts, facts], wearer, Limits()) == ((), ())


@pytest.mark.parametrize(
    ("years", "words"),
    [(1.5, "18 months"), (1.99, "23 months"), (2.0, "2 years"), (8.49, "8 years"), (8.5, "8 1/2 years")],
)
def test_ages_in_words(years: float, words: str) -> None:
    assert age_words(years) == words


def test_what_is_outgrown_first_comes_first() -> None:
    spans = (
        FitsWhile(by="neck", from_years=6.0, until_years=9.2),
        FitsWhile(by="arms", from_years=7.0, until_years=8.0),
        FitsWhile(by="hem", from_years=6.0, until_years=None),
    )
    assert growth_words(spans, 6.0) == (
        "It is right until about 9 years by the neck and until grown up by the hem.",
        "By the arms it is not right yet; it will be from about 7 years until about 8 years.",
    )
    assert growth_words(spans, 7.0, "size 8")[0].startswith("Size 8 fits until about 8 years by the arms, ")
    soon = (
        FitsWhile(by="arms", from_years=6.0, until_years=6.25),
        FitsWhile(by="neck", from_years=6.1, until_years=None),
        FitsWhile(by="hem", from_years=None, until_years=None),
    )
    assert growth_words(soon, 6.0) == (
        "It is right for only about 3 months more by the arms.",
        "By the neck it is not right yet; it will be in about 1 month, until grown up.",
        "By the hem it is right neither now nor later.",
    )


def test_how_long_it_fits_never_says_that_it_does_where_it_does_not() -> None:
    """A head that does not pass, of a child whose arms and hem are right: it has a sentence of its own."""
    big = resolve(child(6.0, head_girth=62.0), "a child")
    (six,) = fitting(TIDEPOOL, TIDEPOOL.sizes[2:3], big).fits
    assert next(each for each in six.points if each.code == "NECK-PASS").answer is Answer.STOP
    (section,) = growth_sections([six], big, TIDEPOOL.limits)
    told = str(section.blocks[0])
    assert told.startswith("It is right until about 7 1/2 years by the arms")
    assert told.endswith("By the neck it is right neither now nor later.")
    assert "It fits" not in told
