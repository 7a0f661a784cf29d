"""A figure's measurements: the wearer's own, and shares of the height where there are none."""

from __future__ import annotations

import csv
import math
from importlib.resources import files

import pytest

from schematics.wearer.body import Body, BodyValue, Origin, Stage, Wearer, WearerSpec
from schematics.wearer.proportions import Proportioned, proportioned
from schematics.wearer.resolve import resolve


def of(**spec: object) -> Proportioned:
    body = proportioned(resolve(WearerSpec(**spec), "4"))  # type: ignore[arg-type]
    assert body is not None
    return body


def bare(height_cm: float, age_years: float | None, **others: float) -> Wearer:
    """A wearer of whom the height is known and what is given, and nothing else."""
    own = {"height": height_cm, **others}
    return Wearer(
        label="made up",
        stage=Stage.CHILD,
        age_years=age_years,
        person=True,
        values={
            Body(name): BodyValue(cm=cm, low_cm=cm, high_cm=cm, origin=Origin.OWN, source="made up")
            for name, cm in own.items()
        },
    )


def survey_median(measure: str, bin_: str) -> float:
    """The survey's median, read from the table itself."""
    text = files("schematics.wearer").joinpath("data/children_by_age.csv").read_text("utf-8")
    (row,) = (
        row
        for row in csv.DictReader(text.splitlines())
        if (row["measure_cm"], row["sex"], row["age_years_bin"]) == (measure, "both", bin_)
    )
    return float(row["p50"])


def test_what_is_known_is_taken_as_it_is() -> None:
    wearer = resolve(WearerSpec(chart="child/4", own={Body.NECK_GIRTH: 25.0}), "4")
    body = proportioned(wearer)
    assert body is not None
    assert body.filled == ()
    assert body.size.neck_girth_cm == 25.0
    for each in (Body.HEIGHT, Body.CHEST_GIRTH, Body.NAPE_HEIGHT, Body.KNEE_HEIGHT):
        assert getattr(body.size, f"{each.value}_cm") == wearer.values[each].cm


def test_borrowed_are_those_of_another_table_than_the_row() -> None:
    body = of(chart="child/4")
    assert {Body.HEIGHT, Body.NECK_GIRTH, Body.NAPE_HEIGHT} <= set(body.borrowed)
    assert not {Body.CHEST_GIRTH, Body.UPPER_ARM_GIRTH, Body.SHOULDER_BREADTH} & set(body.borrowed)


@pytest.mark.parametrize(
    ("field", "measure", "factor"),
    [
        ("head_girth_cm", "head_circumference", 1),
        ("neck_girth_cm", "neck_circumference", 1),
        ("chest_girth_cm", "chest_circumference", 1),
        ("upper_arm_girth_cm", "upper_arm_circumference", 1),
        ("wrist_girth_cm", "wrist_circumference", 1),
        ("hand_girth_cm", "min_hand_clearance_diameter", math.pi),
        ("shoulder_breadth_cm", "biacromial_breadth", 1),
    ],
)
def test_girths_missing_are_the_surveys_share_of_the_height(field: str, measure: str, factor: float) -> None:
    """Snyder et al. 1977: medians of the bin 3.5 to 4.5, whose middle is four years."""
    body = proportioned(bare(100, 4.0))
    assert body is not None
    share = factor * survey_median(measure, "3.5-4.5") / survey_median("stature", "3.5-4.5")
    assert getattr(body.size, field) == pytest.approx(100 * share)


def test_without_an_age_the_height_tells_it() -> None:
    stature = survey_median("stature", "3.5-4.5")
    by_age, by_height = proportioned(bare(stature, 4.0)), proportioned(bare(stature, None))
    assert by_age is not None
    assert by_age == by_height


def test_lengths_missing_are_estimated_and_named() -> None:
    """The knee at 0.280 of the height (ANSUR II 2012) times 0.893 at a metre (Snyder et al. 1977)."""
    body = proportioned(bare(100, 4.0, waist_height=60, neck_girth=24))
    assert body is not None
    assert body.size.knee_height_cm == pytest.approx(28.0 * 0.893)
    assert body.size.waist_height_cm == 60
    assert body.size.nape_height_cm > 60
    assert Body.NECK_GIRTH not in body.filled
    assert {Body.KNEE_HEIGHT, Body.NAPE_HEIGHT, Body.CHEST_GIRTH} <= set(body.filled)
    assert body.borrowed == ()


def test_without_a_height_there_is_no_figure() -> None:
    wearer = resolve(WearerSpec(own={Body.CHEST_GIRTH: 60.0}), "4")
    assert wearer.get(Body.HEIGHT) is None
    assert proportioned(wearer) is None
