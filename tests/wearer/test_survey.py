"""Bodies by age; figures named "survey" are typed in from the survey's own table of percentiles."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.wearer.body import Body, BodyValue, Origin
from schematics.wearer.estimates import age_of_proportions, share_of_stature
from schematics.wearer.evaluator import Inputs, evaluator_of
from schematics.wearer.survey import height, residual_fraction, survey_values


def test_a_whole_age_is_its_bin() -> None:
    """Survey, 3.5 to 4.5 years: neck 21.97, 24.25, 26.33; stature 94.3, 101.45, 109.09."""
    neck = survey_values(4.0, "both")[Body.NECK_GIRTH]
    assert (neck.low_cm, neck.cm, neck.high_cm) == (21.97, 24.25, 26.33)
    tall = height(4.0, "both")
    assert (tall.low_cm, tall.cm, tall.high_cm) == (94.3, 101.45, 109.09)
    assert tall.source == (
        "US survey of children 1977 (Snyder et al.), stature, ages 3.5 to 4.5, 5th/50th/95th percentile"
    )


def test_every_body_measurement_is_read_from_its_own_column() -> None:
    """Survey, 3.5 to 4.5 years, medians: biacromial (not bideltoid, 25.7) 22.9, chest 52.8, and so on."""
    medians = {body: value.cm for body, value in survey_values(4.0, "both").items()}
    assert medians == {
        Body.HEIGHT: 101.45,
        Body.NECK_GIRTH: 24.25,
        Body.CHEST_GIRTH: 52.8,
        Body.UPPER_ARM_GIRTH: 16.0,
        Body.WRIST_GIRTH: 11.5,
        Body.HAND_GIRTH: pytest.approx(math.pi * 4.45),
        Body.SHOULDER_BREADTH: 22.9,
        Body.HIP_HEIGHT: 45.4,
    }


def test_between_bins_values_are_read_straight_from_middle_to_middle() -> None:
    """Survey: neck at 4 and 5 years 24.25 and 24.85; a quarter of the way is 24.40."""
    neck = survey_values(4.25, "both")[Body.NECK_GIRTH]
    assert neck.cm == pytest.approx(24.40)
    assert "between ages 3.5 to 4.5 and ages 4.5 to 5.5" in neck.source


def test_a_hand_is_pi_times_the_hole_it_passes() -> None:
    """Six years: 95th percentile 17.0 cm, from a minimum hand clearance of 5.41 cm."""
    hand = survey_values(6.0, "both")[Body.HAND_GIRTH]
    assert hand.high_cm == pytest.approx(17.0, abs=0.05)
    assert hand.cm == pytest.approx(math.pi * 4.76)
    assert "computed as pi x minimum hand clearance diameter" in hand.source


@pytest.mark.parametrize("age_years", [2.75, 4, 6, 8, 10, 12, 14, 16, 18])
def test_the_hand_needs_more_than_the_wrist_and_less_than_one_and_a_half(age_years: float) -> None:
    """A closed measure: the hand is wider than the wrist it hangs on (common sense, no source)."""
    values = survey_values(age_years, "both")
    assert 1.1 < values[Body.HAND_GIRTH].cm / values[Body.WRIST_GIRTH].cm < 1.5


def test_a_baby_borrows_the_youngest_bin_and_says_so() -> None:
    values = survey_values(0.5, "both")
    assert values[Body.NECK_GIRTH].cm == 23.95
    assert "ages 2 to 3.5 (the youngest surveyed)" in values[Body.NECK_GIRTH].source
    assert values[Body.NECK_GIRTH].held == "youngest, 2 to 3.5 years"
    assert values[Body.HEIGHT].held == "", "heights go down to birth"
    assert not any(value.held for age in (2.0, 6.0, 18.9) for value in survey_values(age, "both").values())
    assert survey_values(40, "F")[Body.NECK_GIRTH].held == "oldest girls, 16.5 to 19 years"


def test_a_grown_wearer_borrows_the_oldest_bin_and_says_so() -> None:
    values = survey_values(40, "F")
    assert "girls, ages 16.5 to 19 (the oldest surveyed)" in values[Body.NECK_GIRTH].source
    assert survey_values(18, "F")[Body.NECK_GIRTH].source.count("oldest") == 0


def test_below_the_first_middle_the_hip_is_left_to_the_height() -> None:
    young, old = survey_values(2.74, "both"), survey_values(2.75, "both")
    assert set(old) - set(young) == {Body.HIP_HEIGHT}


def test_heights_between_the_who_and_the_survey_name_both() -> None:
    assert height(2.4, "both").source == (
        "between WHO 2006 growth standards at 2 years (3rd/50th/97th percentile) and "
        "US survey of children 1977 (Snyder et al.), stature, ages 2 to 3.5"
    )


@given(age_years=st.floats(0, 100), sex=st.sampled_from(("both", "F")))
def test_everything_surveyed_is_ordered_and_borrowed(age_years: float, sex: str) -> None:
    for value in survey_values(age_years, "F" if sex == "F" else "both").values():
        assert 0 < value.low_cm < value.cm < value.high_cm
        assert value.origin is Origin.AGE_TABLE
        assert value.borrowed


def test_what_a_share_of_the_height_leaves_over() -> None:
    """The least and most of the bins: neck-high measures go with the height closely, seats and hands less.

    At six years, typed in from the survey: waist height 65.35 (sd 3.77) of stature 114.62 (5.14) leaves
    ``sqrt(3.77**2 - (65.35 / 114.62 * 5.14)**2)``, 2.4 cm.
    """
    assert 0.015 < residual_fraction("suprasternale_height") < 0.025
    assert 0.02 < residual_fraction("waist_height") < 0.04
    assert 0.03 < residual_fraction("hip_height_at_buttocks") < residual_fraction("hand_length") * 1.1 < 0.06
    assert residual_fraction("stature") == 0


def age_of_stature(height_cm: float) -> float:
    tall = BodyValue(cm=height_cm, low_cm=height_cm, high_cm=height_cm, origin=Origin.OWN, source="made up")
    return float(evaluator_of(age_of_proportions("both"))(Inputs(body={Body.HEIGHT: tall})))


def test_the_front_of_the_neck_is_at_about_four_fifths_of_the_height() -> None:
    """Adults: suprasternale 0.818 of stature (Drillis and Contini 1966, from memory)."""
    for age_years in range(3, 19):
        share = evaluator_of(share_of_stature(((1, "suprasternale_height"),), "both"))(
            Inputs(body={}, age_years=float(age_years))
        )
        assert 0.765 <= share <= 0.82


@given(age_years=st.floats(2.75, 17.75))
def test_the_age_of_a_median_height_is_that_age(age_years: float) -> None:
    assert age_of_stature(height(age_years, "both").cm) == pytest.approx(age_years)


@pytest.mark.parametrize(("height_cm", "age_years"), [(50.0, 2.75), (210.0, 17.75)])
def test_heights_beyond_the_survey_take_its_nearest_end(height_cm: float, age_years: float) -> None:
    assert age_of_stature(height_cm) == age_years
