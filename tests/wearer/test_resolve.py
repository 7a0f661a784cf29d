from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from statistics import median, stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.wearer.body import Body, Origin, Stage, WearerSpec
from schematics.wearer.estimates import ARMHOLE_SHARE, BACK_WAIST_SHARE
from schematics.wearer.growth import head_girth
from schematics.wearer.resolve import resolve
from schematics.wearer.rows import WearerError, references

LENGTHS = st.floats(1, 250)
OWN = st.dictionaries(st.sampled_from(Body), LENGTHS)
CHARTS = st.none() | st.sampled_from(references())
MEASURED = (Body.CHEST_GIRTH, Body.CENTRE_BACK_NECK_TO_WRIST, Body.BACK_WAIST_LENGTH, Body.SHOULDER_BREADTH)


@given(chart=CHARTS, own=OWN)
def test_own_measurements_win_and_have_no_spread(chart: str | None, own: dict[Body, float]) -> None:
    wearer = resolve(WearerSpec(chart=chart, own=own), "S")
    for body, length_cm in own.items():
        value = wearer.values[body]
        assert (value.low_cm, value.cm, value.high_cm) == (length_cm, length_cm, length_cm)
        assert value.origin is Origin.OWN
        assert not value.borrowed
    assert {body for body, value in wearer.values.items() if value.origin is Origin.OWN} == set(own)


@given(chart=CHARTS, age_years=st.none() | st.floats(0, 120))
def test_every_value_is_ordered_and_says_where_it_is_from(chart: str | None, age_years: float | None) -> None:
    if chart is not None and chart.startswith("age/"):
        age_years = None
    wearer = resolve(WearerSpec(chart=chart, age_years=age_years), "S")
    assert list(wearer.values) == [body for body in Body if body in wearer.values]
    for value in wearer.values.values():
        assert 0 < value.low_cm <= value.cm <= value.high_cm
        assert value.source
        assert "\n" not in value.source


@pytest.mark.parametrize("reference", references())
def test_a_row_knows_every_measurement(reference: str) -> None:
    wearer = resolve(WearerSpec(chart=reference), reference)
    assert set(wearer.values) == set(Body)
    for body in MEASURED:
        assert wearer.values[body].borrowed == reference.startswith("age/")
    for body in (Body.NECK_GIRTH, Body.HAND_GIRTH, Body.HEIGHT, Body.KNEE_HEIGHT):
        assert wearer.values[body].borrowed


@pytest.mark.parametrize("group", ["baby", "child", "age"])
@pytest.mark.parametrize("body", Body)
def test_children_grow_from_row_to_row(group: str, body: Body) -> None:
    rows = [item for item in references() if item.startswith(f"{group}/")]
    values = [resolve(WearerSpec(chart=item), item).values[body].cm for item in rows]
    # The difference of two of the survey's medians goes back a little now and then.
    back = {Body.FOREARM_LENGTH: 0.1}
    slack = back.get(body, 1e-9) if group == "age" else 1e-9
    assert all(larger >= smaller - slack for smaller, larger in pairwise(values))


@pytest.mark.parametrize("reference", references())
def test_heights_above_the_floor_come_in_the_order_of_the_body(reference: str) -> None:
    values = resolve(WearerSpec(chart=reference), reference).values
    order = (Body.KNEE_HEIGHT, Body.HIP_HEIGHT, Body.WAIST_HEIGHT, Body.NAPE_HEIGHT, Body.HEIGHT)
    for end in ("low_cm", "cm", "high_cm"):
        heights = [getattr(values[body], end) for body in order]
        assert heights == sorted(heights)


def test_values_are_borrowed_for_the_rows_age_unless_another_is_given() -> None:
    """Survey: neck at 4, 6 and, between bins, 6.5 years 24.25, 25.7 and 25.9 cm."""
    necks = [
        resolve(WearerSpec(chart="child/4", age_years=age), "4").values[Body.NECK_GIRTH].cm
        for age in (None, 6.0, 6.5)
    ]
    assert necks == pytest.approx([24.25, 25.7, 25.9])


def test_a_given_age_leaves_the_charts_own_values_alone() -> None:
    plain = resolve(WearerSpec(chart="child/4"), "4")
    older = resolve(WearerSpec(chart="child/4", age_years=9), "4")
    assert older.values[Body.CHEST_GIRTH] == plain.values[Body.CHEST_GIRTH]
    assert older.values[Body.HEAD_GIRTH] == head_girth(9)
    assert older.age_years == 9


def test_an_age_alone_is_the_same_body_as_the_row_of_that_age() -> None:
    alone, row = resolve(WearerSpec(age_years=6), "6"), resolve(WearerSpec(chart="age/6"), "6")
    assert replace(alone, person=False) == row
    assert alone.label == "age 6 years"


def test_one_person_is_judged_by_what_is_typical_and_a_row_by_its_ends() -> None:
    """Heads at six years are 49.5 to 56 cm, 52.5 typically; their tables are tested in test_growth."""
    own = {Body.CHEST_GIRTH: 61.0}
    for spec, person in (
        (WearerSpec(age_years=6, own=own), True),
        (WearerSpec(own=own), True),
        (WearerSpec(chart="child/6", own=own), False),
        (WearerSpec(chart="age/6", own=own), False),
    ):
        wearer = resolve(spec, "6")
        assert wearer.person is person
        chest = wearer.get(Body.CHEST_GIRTH)
        assert chest is not None
        assert (chest.low_cm, chest.cm, chest.high_cm) == (61.0, 61.0, 61.0)
        if spec.age_years or spec.chart:
            head, whole = wearer.get(Body.HEAD_GIRTH), wearer.values[Body.HEAD_GIRTH]
            assert head is not None
            assert whole.low_cm < 50 < 51 < whole.cm < 53 < 55 < whole.high_cm
            ends = (whole.cm, whole.cm) if person else (whole.low_cm, whole.high_cm)
            assert (head.low_cm, head.cm, head.high_cm) == (ends[0], whole.cm, ends[1])


def test_without_row_and_age_nothing_is_borrowed() -> None:
    wearer = resolve(WearerSpec(own={Body.HEAD_GIRTH: 52.0}), "mine")
    assert set(wearer.values) == {Body.HEAD_GIRTH}
    assert (wearer.label, wearer.age_years, wearer.stage) == ("own measurements", None, Stage.CHILD)


def test_own_waist_height_and_back_give_the_nape_without_any_height() -> None:
    wearer = resolve(WearerSpec(own={Body.WAIST_HEIGHT: 60.0, Body.BACK_WAIST_LENGTH: 25.0}), "mine")
    assert wearer.values[Body.NAPE_HEIGHT].cm == 85.0
    assert wearer.values[Body.NAPE_HEIGHT].sd_cm == 0
    assert wearer.values[Body.NAPE_HEIGHT].source == (
        "estimated as waist height (own) + back waist length (own)"
    )


def test_a_height_alone_gives_the_estimates() -> None:
    """Survey medians at six years: stature 114.6, suprasternale 90.2. Nape 0.0445 of the height higher and
    knee 0.280 of it: ANSUR II 2012; the knee times 0.922 at 1.1 m, 0.953 at 1.2 m: Snyder et al. 1977.
    """
    values = resolve(WearerSpec(own={Body.HEIGHT: 114.6}), "mine").values
    assert {body for body, value in values.items() if value.origin is Origin.ESTIMATE} == {
        Body.CENTRE_BACK_NECK_TO_WRIST,
        Body.FOREARM_LENGTH,
        Body.ARMHOLE_DEPTH,
        Body.BACK_WAIST_LENGTH,
        Body.NAPE_HEIGHT,
        Body.WAIST_HEIGHT,
        Body.HIP_HEIGHT,
        Body.KNEE_HEIGHT,
    }
    nape, back = 90.2 + 0.0445 * 114.6, 0.247 * 114.6
    assert values[Body.NAPE_HEIGHT].cm == pytest.approx(nape)
    assert values[Body.BACK_WAIST_LENGTH].cm == pytest.approx(back)
    assert values[Body.WAIST_HEIGHT].cm == pytest.approx(nape - back)
    assert values[Body.KNEE_HEIGHT].cm == pytest.approx(0.280 * 114.6 * (0.54 * 0.922 + 0.46 * 0.953))
    assert values[Body.ARMHOLE_DEPTH].cm == pytest.approx(0.46 * back)


def test_a_forearm_of_an_age_is_added_up_from_the_survey() -> None:
    """Survey, six years: elbow-hand 30.1, hand 12.7; adults' forearms are 0.146 of the height (Drillis and
    Contini 1966, from memory), and a child's is within a centimetre of that share.
    """
    forearm = resolve(WearerSpec(age_years=6), "6").values[Body.FOREARM_LENGTH]
    assert forearm.cm == pytest.approx(30.1 - 12.7)
    assert forearm.origin is Origin.ESTIMATE
    assert forearm.cm == pytest.approx(0.146 * 114.6, abs=1)


def test_armhole_and_back_waist_shares_are_the_middle_of_the_charts_children() -> None:
    rows = [item for item in references() if item.startswith("child/")]
    values = [resolve(WearerSpec(chart=item), item).values for item in rows]
    for body, of, middle, ends, off in (
        (Body.ARMHOLE_DEPTH, Body.BACK_WAIST_LENGTH, ARMHOLE_SHARE, (0.43, 0.50), 0.055),
        (Body.BACK_WAIST_LENGTH, Body.HEIGHT, BACK_WAIST_SHARE, (0.231, 0.258), 0.037),
    ):
        shares = [each[body].cm / each[of].cm for each in values]
        assert all(each[body].origin is Origin.CHART for each in values)
        assert median(shares) == pytest.approx(middle, abs=0.005)
        assert (min(shares), max(shares)) == pytest.approx(ends, abs=0.005)
        assert stdev(shares) / median(shares) == pytest.approx(off, abs=0.001)
        estimate = resolve(WearerSpec(age_years=6), "6").values[body]
        assert estimate.sd_cm == pytest.approx(off * estimate.cm)


def test_centre_back_neck_to_wrist_of_an_age_is_added_up_from_the_survey() -> None:
    """Survey, six years: biacromial 25.6, shoulder-elbow 23.2, elbow-hand 30.1, hand 12.7; chart 52 cm."""
    values = resolve(WearerSpec(age_years=6), "6").values
    found = values[Body.CENTRE_BACK_NECK_TO_WRIST]
    assert found.cm == pytest.approx(25.6 / 2 + 23.2 + 30.1 - 12.7)
    assert found.origin is Origin.ESTIMATE
    chart = resolve(WearerSpec(chart="child/6"), "6").values[Body.CENTRE_BACK_NECK_TO_WRIST]
    assert found.low_cm < chart.cm < found.high_cm


def test_lengths_follow_the_wearers_own_height() -> None:
    """Survey, six years: suprasternale height 90.2 and hip height 54.45 of stature 114.6; the chart's back
    waist length is 26.5 cm.
    """
    small = resolve(WearerSpec(chart="child/6", own={Body.HEIGHT: 105.0}), "6").values
    nape = 105.0 * (90.2 / 114.6 + 0.0445)
    assert small[Body.NAPE_HEIGHT].cm == pytest.approx(nape)
    assert small[Body.WAIST_HEIGHT].cm == pytest.approx(nape - 26.5)
    assert small[Body.HIP_HEIGHT].cm == pytest.approx(105.0 * 54.45 / 114.6)
    assert small[Body.HIP_HEIGHT].origin is Origin.ESTIMATE


def test_the_low_ends_of_the_hem_check_belong_to_one_small_child() -> None:
    """Snyder et al. 1977: the 5th percentile is 94.3 cm, the knee's factor 0.872 at 0.9 m, 0.893 at 1 m."""
    values = resolve(WearerSpec(chart="child/4"), "4").values
    assert values[Body.KNEE_HEIGHT].low_cm == pytest.approx(0.280 * 94.3 * (0.57 * 0.872 + 0.43 * 0.893))


def test_a_woman_has_the_bodies_of_the_oldest_girls() -> None:
    """Survey, girls of 16.5 to 19: neck 29.16, 31.05, 34.12."""
    wearer = resolve(WearerSpec(chart="woman/L"), "L")
    neck = wearer.values[Body.NECK_GIRTH]
    assert (neck.low_cm, neck.cm, neck.high_cm) == (29.16, 31.05, 34.12)
    assert "girls, ages 16.5 to 19" in neck.source
    assert (wearer.stage, wearer.age_years, wearer.label) == (Stage.ADULT, None, "chart row woman/L")


def test_a_girl_in_a_womans_size_keeps_a_childs_head_and_stage() -> None:
    wearer = resolve(WearerSpec(chart="woman/XS", age_years=12), "XS")
    assert wearer.stage is Stage.CHILD
    assert wearer.values[Body.HEAD_GIRTH] == head_girth(12)


@pytest.mark.parametrize(
    ("spec", "stage"),
    [
        (WearerSpec(chart="baby/24 mo"), Stage.BABY),
        (WearerSpec(chart="child/2"), Stage.CHILD),
        (WearerSpec(chart="child/16"), Stage.CHILD),
        (WearerSpec(chart="child/16", age_years=35), Stage.ADULT),
        (WearerSpec(age_years=1.9), Stage.BABY),
        (WearerSpec(age_years=2), Stage.CHILD),
        (WearerSpec(age_years=18), Stage.ADULT),
        (WearerSpec(own={Body.HEIGHT: 89.0}), Stage.BABY),
        (WearerSpec(own={Body.HEIGHT: 90.0}), Stage.CHILD),
        (WearerSpec(own={Body.HEIGHT: 150.0}), Stage.ADULT),
        (WearerSpec(age_years=11, own={Body.HEIGHT: 155.0}), Stage.CHILD),
        (WearerSpec(), Stage.CHILD),
    ],
)
def test_age_then_row_then_height_tell_the_stage(spec: WearerSpec, stage: Stage) -> None:
    assert resolve(spec, "S").stage is stage


def test_the_label_says_what_the_wearer_rests_on() -> None:
    own = {Body.HEIGHT: 110.0}
    assert resolve(WearerSpec(chart="child/4", own=own), "4").label == "chart row child/4, own measurements"
    assert resolve(WearerSpec(chart="age/6.5"), "6").label == "age 6.5 years"
    assert resolve(WearerSpec(), "none").label == "no measurements"
    assert resolve(WearerSpec(), "none").values == {}


@pytest.mark.parametrize("age_years", [-1.0, 121.0, float("nan"), float("inf")])
def test_an_impossible_age_is_refused(age_years: float) -> None:
    with pytest.raises(WearerError, match=r"^size 'S': expected an age of 0 to 120 years, got "):
        resolve(WearerSpec(age_years=age_years), "S")


def test_an_age_row_and_another_age_contradict_each_other() -> None:
    with pytest.raises(WearerError) as caught:
        resolve(WearerSpec(chart="age/6", age_years=7), "S")
    assert str(caught.value) == (
        "size 'S': 'age/6' and an age of 7 years contradict each other; keep one of them"
    )
    assert resolve(WearerSpec(chart="age/6", age_years=6), "S").age_years == 6
