"""Nape, waist, hip and knee of every row and age: in the order of a body, and as they are published."""

from __future__ import annotations

import csv
import math
from collections.abc import Iterator, Mapping
from functools import cache
from importlib.resources import files
from itertools import pairwise
from typing import TypeAlias

import pytest

from schematics.wearer.body import Body, BodyValue, Origin, WearerSpec
from schematics.wearer.neck_to_wrist import FAR_FRACTION
from schematics.wearer.resolve import resolve
from schematics.wearer.rows import references

Values: TypeAlias = Mapping[Body, BodyValue]

AGES = (2.75, *range(4, 17))
"""The middles of the survey's bins: what it publishes is not read between them."""

ENDS = ("low_cm", "cm", "high_cm")


def bodies() -> Iterator[tuple[str, Values]]:
    """Every row, ages from birth to grown, and heights of their own without an age."""
    for reference in references():
        yield reference, resolve(WearerSpec(chart=reference), reference).values
    for age in (0, 0.5, 1, 1.5, *range(2, 20), 5.7, 30):
        yield f"{age} years", resolve(WearerSpec(age_years=age), "S").values
    for height in (85.0, 100.0, 115.0, 130.0, 145.0, 160.0, 175.0):
        yield f"{height} cm", resolve(WearerSpec(own={Body.HEIGHT: height}), "S").values


@cache
def published() -> dict[tuple[str, float], dict[str, float]]:
    """Snyder et al. 1977, both sexes, by measure and the middle of the bin: read from the table itself."""
    text = files("schematics.wearer").joinpath("data/children_by_age.csv").read_text("utf-8")
    found = {}
    for row in csv.DictReader(text.splitlines()):
        if row["sex"] == "both":
            youngest, oldest = map(float, row["age_years_bin"].split("-"))
            figures = {name: float(row[name]) for name in ("mean", "sd", "p5", "p50", "p95")}
            found[row["measure_cm"], (youngest + oldest) / 2] = figures
    return found


@pytest.mark.parametrize(("name", "values"), [pytest.param(*each, id=each[0]) for each in bodies()])
def test_landmarks_come_in_the_order_of_a_body(name: str, values: Values) -> None:
    """From the floor: knee, hip, waist, armpit, front of the neck, nape, crown.

    The front of the neck is 0.0445 of the height below the nape (ANSUR II 2012), the armpit the armhole's
    depth below it.
    """
    for end in ENDS:
        at = {body: getattr(value, end) for body, value in values.items()}
        nape, height = at[Body.NAPE_HEIGHT], at[Body.HEIGHT]
        below_crown = [
            height,
            nape,
            nape - 0.0445 * height,
            nape - at[Body.ARMHOLE_DEPTH],
            at[Body.WAIST_HEIGHT],
            at[Body.HIP_HEIGHT],
            at[Body.KNEE_HEIGHT],
            0.0,
        ]
        assert all(higher > lower for higher, lower in pairwise(below_crown)), (name, end, below_crown)


@pytest.mark.parametrize("age", AGES)
def test_the_nape_is_above_the_published_front_of_the_neck(age: float) -> None:
    """By 0.0445 of the height: cervicale 1517 and suprasternale 1439 mm at 1756 mm (ANSUR II 2012)."""
    above = (1517 - 1439) / 1756
    front, stature = published()["suprasternale_height", age], published()["stature", age]
    nape = resolve(WearerSpec(chart=f"age/{age:g}"), "S").values[Body.NAPE_HEIGHT]
    assert nape.cm == pytest.approx(front["p50"] + above * stature["p50"], abs=0.05)
    for end, percentile in (("low_cm", "p5"), ("high_cm", "p95")):
        expected = front[percentile] + above * stature[percentile]
        assert getattr(nape, end) == pytest.approx(expected, abs=front["sd"] / 2)


@pytest.mark.parametrize(
    ("stature_m", "factor"),
    [(0.9, 0.872), (1.0, 0.893), (1.1, 0.922), (1.2, 0.953), (1.3, 0.983), (1.4, 1.0)],
)
def test_a_childs_knee_is_as_much_lower_as_its_lower_leg_is_shorter(stature_m: float, factor: float) -> None:
    """Lower leg over stature relative to adults, Snyder et al. 1977; adults' knee 0.280, ANSUR II 2012."""
    knee = resolve(WearerSpec(own={Body.HEIGHT: 100 * stature_m}), "S").values[Body.KNEE_HEIGHT]
    assert knee.cm == pytest.approx(100 * stature_m * 0.280 * factor)


def test_the_knee_of_a_child_and_of_grown_women_is_as_measured() -> None:
    """A child of 1.15 m: 0.263 of the height (Snyder et al. 1977, the knee between tibiale and epicondyle).

    Women: lateral femoral epicondyle 46.6 cm, sd 2.7 (ANSUR II 2012, 1,986 women, mean stature 162.9 cm).
    """
    child = resolve(WearerSpec(own={Body.HEIGHT: 115.0}), "S").values[Body.KNEE_HEIGHT]
    assert child.cm / 115 == pytest.approx(0.263, abs=0.001)
    woman = resolve(WearerSpec(chart="woman/M"), "M").values[Body.KNEE_HEIGHT]
    assert woman.cm == pytest.approx(46.6, abs=2.7)


@pytest.mark.parametrize("age", AGES)
def test_the_reach_of_an_age_is_what_the_published_parts_add_up_to(age: float) -> None:
    """Half the shoulders, upper arm and forearm; a fist, half a hand further, is where the published
    lateral grip reach (5th to 95th percentile) ends.
    """
    parts = {
        name: published()[name, age]
        for name in ("biacromial_breadth", "shoulder_elbow_length", "elbow_hand_length", "hand_length")
    }
    sums = {
        figure: parts["biacromial_breadth"][figure] / 2
        + parts["shoulder_elbow_length"][figure]
        + parts["elbow_hand_length"][figure]
        - parts["hand_length"][figure]
        for figure in ("p5", "p50", "p95")
    }
    reach = resolve(WearerSpec(chart=f"age/{age:g}"), "S").values[Body.CENTRE_BACK_NECK_TO_WRIST]
    assert reach.cm == pytest.approx(sums["p50"], abs=0.05)
    assert reach.low_cm == pytest.approx(sums["p5"], rel=0.04)
    assert reach.high_cm == pytest.approx(sums["p95"], rel=0.04)
    grip = published()["lateral_grip_reach", age]
    assert grip["p5"] < reach.cm + parts["hand_length"]["p50"] / 2 < grip["p95"]


@pytest.mark.parametrize("reference", [each for each in references() if each.startswith("child/")])
def test_where_the_trades_arms_are_far_from_the_surveys_both_are_told(reference: str) -> None:
    chart = resolve(WearerSpec(chart=reference), "S").values[Body.CENTRE_BACK_NECK_TO_WRIST]
    surveyed = resolve(WearerSpec(chart=reference.replace("child", "age")), "S").values[
        Body.CENTRE_BACK_NECK_TO_WRIST
    ]
    assert chart.origin is Origin.CHART
    offered = f"for that length write centre_back_neck_to_wrist: {round(surveyed.cm, 1):g} cm"
    far = abs(chart.cm / surveyed.cm - 1) > FAR_FRACTION
    assert (offered in chart.source) == far
    assert far == (reference != "child/6")


def test_the_trades_longest_arms_are_a_tenth_short() -> None:
    told = {
        size: resolve(WearerSpec(chart=f"child/{size}"), "S").values[Body.CENTRE_BACK_NECK_TO_WRIST].source
        for size in (2, 14, 16)
    }
    assert "12 % over the 40.5 cm" in told[2]
    assert "10 % under the 76.3 cm" in told[14]
    assert "12 % under the 80.6 cm" in told[16]


@pytest.mark.parametrize("age", AGES)
def test_every_estimate_says_how_far_it_may_be_off(age: float) -> None:
    """But for what follows from two others and is off only as they are."""
    values = resolve(WearerSpec(age_years=age), "S").values
    sure = {body for body, value in values.items() if value.origin is Origin.ESTIMATE and not value.sd_cm}
    assert sure == {Body.WAIST_HEIGHT}
    assert not any(value.sd_cm for value in values.values() if value.origin is not Origin.ESTIMATE)
    front = published()["suprasternale_height", age]["sd"]
    assert 0 < values[Body.NAPE_HEIGHT].sd_cm < front, "less than children of an age differ"
    assert 0 < values[Body.CENTRE_BACK_NECK_TO_WRIST].sd_cm < published()["lateral_grip_reach", age]["sd"]


def test_nape_and_knee_are_off_by_all_their_parts() -> None:
    """The neck above its front 0.0056 of the height, a knee 0.0105, a child's lower leg 0.015 of the ratio:
    the standard deviations of landmarks.csv. Of the front of the neck what the height does not explain.
    """
    values = resolve(WearerSpec(age_years=6), "S").values
    knee, nape, height = (values[each] for each in (Body.KNEE_HEIGHT, Body.NAPE_HEIGHT, Body.HEIGHT))
    assert knee.sd_cm / knee.cm == pytest.approx(math.hypot(0.0105 / 0.28, 0.015 / 0.872), rel=1e-6)
    fronts, statures = (
        [figures for (measure, _), figures in published().items() if measure == wanted]
        for wanted in ("suprasternale_height", "stature")
    )
    left = [
        (front["sd"] ** 2 - (front["mean"] / stature["mean"] * stature["sd"]) ** 2) / front["mean"] ** 2
        for front, stature in zip(fronts, statures, strict=True)
    ]
    front_cm = nape.cm - 0.0445 * height.cm
    of_front = math.sqrt(sum(max(each, 0.0) for each in left) / len(left)) * front_cm
    assert nape.sd_cm == pytest.approx(math.hypot(of_front, 0.0056 * height.cm), rel=0.005)
    assert nape.sd_cm > 1.05 * of_front
