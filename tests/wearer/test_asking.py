"""Slips of the tape are asked about; bodies of any table are not, and nothing is refused."""

from __future__ import annotations

import itertools
import json
from pathlib import Path

import numpy as np
import pytest

from schematics.units import Unit
from schematics.wearer.age_words import age_words
from schematics.wearer.asking import distinct_questions, group_questions, questions
from schematics.wearer.body import Body, WearerSpec
from schematics.wearer.growth import head_girth
from schematics.wearer.resolve import resolve
from schematics.wearer.rows import references
from schematics.wearer.tables import growth_series, survey_bins
from tests.program import call

TIDEPOOL = "specs/tidepool.yaml"


@pytest.mark.parametrize(
    ("own", "age", "body", "begins", "guess"),
    [
        ({Body.HEIGHT: 46}, 6, Body.HEIGHT, "46 cm is far below any height at the age of 6", "Inches?"),
        ({Body.HEAD_GIRTH: 28}, 6, Body.HEAD_GIRTH, "28 cm is far below any head girth", "Is that right?"),
        (
            {Body.NAPE_HEIGHT: 130},
            6,
            Body.NAPE_HEIGHT,
            "130 cm is far above any nape height",
            "Is that right?",
        ),
        ({Body.KNEE_HEIGHT: 12}, 6, Body.KNEE_HEIGHT, "12 cm is far below any knee height", "Inches?"),
        (
            {Body.HEIGHT: 30},
            1.5,
            Body.HEIGHT,
            "30 cm is far below any height at the age of 18 months",
            "Inches?",
        ),
        ({Body.NECK_GIRTH: 66}, 6, Body.NECK_GIRTH, "66 cm is far above any neck girth", "Is that right?"),
        (
            {Body.HEIGHT: 46, Body.HEAD_GIRTH: 52, Body.NECK_GIRTH: 26, Body.WRIST_GIRTH: 12},
            None,
            Body.HEIGHT,
            "46 cm is far below any height beside a head girth of 52 cm",
            "Inches?",
        ),
    ],
)
def test_a_slip_is_asked_about_once(
    own: dict[Body, float], age: float | None, body: Body, begins: str, guess: str
) -> None:
    """46 in are 116.8 cm, a six-year-old's height; 28 in are no head of six; what is said in cm is in cm."""
    ((asked, sentence),) = questions(own, age, Unit.CM).items()
    assert asked == body
    assert sentence.startswith(f"{begins} ")
    assert sentence.endswith(f"). {guess}")


@pytest.mark.parametrize("age", [2.5, 6, 10, 16])
def test_upright_heights_are_asked_about_beside_an_age_alone(age: float) -> None:
    """A nape as high as a tall child's crown is, a waist as a nape, a hip as a waist, a knee as a hip."""
    values = resolve(WearerSpec(age_years=age), "a child").values
    heights = [Body.HEIGHT, Body.NAPE_HEIGHT, Body.WAIST_HEIGHT, Body.HIP_HEIGHT, Body.KNEE_HEIGHT]
    for upper, lower in itertools.pairwise(heights):
        far_cm = values[upper].high_cm + (values[upper].cm - values[lower].cm)
        (sentence,) = questions({lower: far_cm}, age, Unit.CM).values()
        assert f"far above any {lower.words} at the age of {age_words(age)} (usually " in sentence
        assert questions({lower: values[lower].high_cm}, age, Unit.CM) == {}


@pytest.mark.parametrize(
    ("own", "named", "guess"),
    [
        ({Body.HAND_GIRTH: 12, Body.WRIST_GIRTH: 22}, "hand girth 12 cm or wrist girth 22 cm",
         "Is the hand girth in inches?"),
        ({Body.NAPE_HEIGHT: 120, Body.HEIGHT: 116}, "nape height 120 cm or height 116 cm",
         "Which is it?"),
    ],
)  # fmt: skip
def test_of_two_that_do_not_go_together_both_are_asked_about(
    own: dict[Body, float], named: str, guess: str
) -> None:
    """12 in are 30.5 cm, a hand beside that wrist; a nape is below the crown."""
    asked = questions(own, None, Unit.CM)
    assert asked.keys() == own.keys()
    (sentence,) = distinct_questions(asked)
    assert sentence.startswith(f"One of two is hardly right, {named}: ")
    assert sentence.endswith(f". {guess}")


def test_the_one_that_goes_with_fewer_others_is_asked_about_alone() -> None:
    """A wrist of 20 goes with a grown man's arm and chest, a hand of 12 with neither wrist nor height."""
    own = {Body.HEIGHT: 178, Body.CHEST_GIRTH: 110, Body.UPPER_ARM_GIRTH: 36, Body.WRIST_GIRTH: 20}
    assert questions(own, None, Unit.CM) == {}
    assert list(questions({**own, Body.HAND_GIRTH: 12}, None, Unit.CM)) == [Body.HAND_GIRTH]


def test_what_the_age_settles_is_not_asked_about_beside_another() -> None:
    """At six a wrist is 11 to 13 cm: 22 is the one that is wrong, whatever the hand."""
    assert list(questions({Body.HAND_GIRTH: 15, Body.WRIST_GIRTH: 22}, 6, Unit.CM)) == [Body.WRIST_GIRTH]


@pytest.mark.parametrize(("typed", "guess"), [(26.0, "Centimetres?"), (14.0, "Is that right?")])
def test_a_number_in_a_field_of_inches_may_be_in_centimetres(typed: float, guess: str) -> None:
    """A neck of 26 cm is a six-year-old's, one of 14 cm nobody's of that age."""
    (sentence,) = questions({Body.NECK_GIRTH: typed * 2.54}, 6, Unit.IN).values()
    assert sentence.endswith(f"). {guess}")


def test_what_is_usual_at_six_is_of_the_growth_references() -> None:
    """From the lowest 3rd to the highest 97th percentile of heads at six."""
    at_six = [row for rows in growth_series("head_by_age").values() for row in rows if row.age_years == 6]
    low, high = min(row.p3_cm for row in at_six), max(row.p97_cm for row in at_six)
    (sentence,) = questions({Body.HEAD_GIRTH: 28}, 6, Unit.CM).values()
    assert f"(usually {round(low, 1):g} cm to " in sentence
    assert 49 < low < high < 57


@pytest.mark.parametrize("reference", references())
def test_nothing_is_asked_about_a_body_of_any_table(reference: str) -> None:
    """At its middle beside its other measurements, and at every end for its age."""
    wearer = resolve(WearerSpec(chart=reference), reference)
    typical = {body: value.cm for body, value in wearer.values.items()}
    assert questions(typical, None, Unit.CM) == {}
    age = wearer.age_years
    if reference.startswith("age/"):
        for body, value in wearer.values.items():
            for cm in (value.low_cm, value.cm, value.high_cm):
                assert questions({body: cm}, age, Unit.CM) == {}, body


@pytest.mark.parametrize("age", [0.5, 2, 6, 12, 17])
def test_nor_about_a_head_or_height_of_one_child_in_ten_thousand(age: float) -> None:
    """3.72 standard deviations; the growth references' 3rd and 97th percentile are 1.881 from the middle."""
    head = head_girth(age)
    for end in (head.low_cm, head.high_cm):
        assert questions({Body.HEAD_GIRTH: head.cm + 3.72 / 1.881 * (end - head.cm)}, age, Unit.CM) == {}


@pytest.mark.parametrize("sex", ["F", "M"])
def test_a_height_in_the_other_unit_is_always_asked_about(sex: str) -> None:
    for each in survey_bins()["stature", sex]:  # type: ignore[index]
        (sentence,) = questions({Body.HEIGHT: each.p50_cm / 2.54}, each.middle_years, Unit.CM).values()
        assert sentence.endswith("Inches?")


def test_nobody_is_asked_by_an_age_that_the_table_does_not_reach() -> None:
    assert questions({Body.CHEST_GIRTH: 150, Body.HEIGHT: 165}, 45, Unit.CM) == {}


def test_each_of_a_group_is_asked_what_one_is() -> None:
    dice = np.random.default_rng(4)
    ages = np.where(dice.random(200) < 0.2, np.nan, dice.integers(1, 72, 200) / 4)
    own = {
        body: np.where(dice.random(200) < 0.3, np.nan, dice.uniform(low, high, 200).round(1))
        for body, low, high in ((Body.HEAD_GIRTH, 40, 62), (Body.HEIGHT, 70, 190), (Body.WRIST_GIRTH, 8, 20))
    }
    expected = {}
    for place in range(200):
        known = {body: float(column[place]) for body, column in own.items() if not np.isnan(column[place])}
        asked = questions(known, None if np.isnan(ages[place]) else float(ages[place]), Unit.IN)
        if asked:
            expected[place] = distinct_questions(asked)
    assert 20 < len(expected) < 180
    assert group_questions(own, ages, Unit.IN) == expected


@pytest.mark.slow
def test_a_question_changes_neither_verdict_nor_exit_code(tmp_path: Path) -> None:
    result = call("fit", TIDEPOOL, "--age", "6", "--head-girth", "28", "--sizes", "6")
    assert result.exit_code == 0
    assert "Is this right?" in result.output
    group = tmp_path / "class.csv"
    group.write_text("name,age,head_girth\nAnn,6,28\nBo,6,52\n", encoding="utf-8")
    result = call("fit", TIDEPOOL, "--group", group, "--sizes", "6", "--json")
    assert result.exit_code == 0
    first, second = json.loads(result.stdout)["wearers"]
    assert first["questions"] == list(questions({Body.HEAD_GIRTH: 28}, 6, Unit.CM).values())
    assert second["questions"] == []
