"""Heads and heights against pygrowup2 (WHO 2006) and rcpchgrowth (UK 1990, CDC 2000)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.wearer.body import Body, Origin, WearerSpec
from schematics.wearer.growth import head_girth, lengths_to_two, womans_head_girth
from schematics.wearer.resolve import resolve
from schematics.wearer.survey import height
from schematics.wearer.tables import GrowthRow, growth_series, head_ranges, survey_bins
from tests.wearer.references import Z_97, Measure, cdc_2000, uk_1990, who_2006, who_2006_head_deviate

PRINTED_CM = 0.051
"""The tables are rounded to a millimetre; rounding may cost half of one."""

BABY_ROWS = ["baby/3 mo", "baby/6 mo", "baby/12 mo", "baby/18 mo", "baby/24 mo"]
SEXES = ("M", "F")


def _rows(table: str, reference: str) -> list[GrowthRow]:
    series = growth_series(table)
    return [row for sex in ("M", "F") for row in series[reference, sex]]


def _exact(age_years: float) -> float:
    """The youngest ages are printed as months rounded to 0.01 years."""
    return round(age_years * 12) / 12


@pytest.mark.parametrize(("table", "measure"), [("head_by_age", "head"), ("height_by_age", "height")])
def test_who_rows_equal_pygrowup2(table: str, measure: Measure) -> None:
    rows = _rows(table, "WHO 2006")
    assert len(rows) == 34
    for row in rows:
        for z, printed in ((-Z_97, row.p3_cm), (0, row.p50_cm), (Z_97, row.p97_cm)):
            expected = who_2006(measure, row.sex, _exact(row.age_years), z)
            assert printed == pytest.approx(expected, abs=0.1), row


@pytest.mark.parametrize(("table", "measure"), [("head_by_age", "head"), ("height_by_age", "height")])
def test_uk_rows_equal_rcpchgrowth(table: str, measure: Measure) -> None:
    for row in _rows(table, "UK 1990"):
        for z, printed in ((-Z_97, row.p3_cm), (0, row.p50_cm), (Z_97, row.p97_cm)):
            assert printed == pytest.approx(uk_1990(measure, row.sex, row.age_years, z), abs=PRINTED_CM), row


def test_cdc_heads_equal_rcpchgrowth() -> None:
    for row in _rows("head_by_age", "CDC 2000"):
        for z, printed in ((-Z_97, row.p3_cm), (0, row.p50_cm), (Z_97, row.p97_cm)):
            expected = cdc_2000("head", row.sex, row.age_years, z)
            assert printed == pytest.approx(expected, abs=0.06), row


def test_cdc_heights_stand_half_a_month_beside_their_age() -> None:
    """The oddity the tables' README names; nothing is computed from these rows."""
    for row in _rows("height_by_age", "CDC 2000"):
        shift = {2.0: 0.0, 8.0: 1 / 24}.get(row.age_years, -1 / 24)
        for z, printed in ((-Z_97, row.p3_cm), (0, row.p50_cm), (Z_97, row.p97_cm)):
            expected = cdc_2000("height", row.sex, row.age_years + shift, z)
            assert printed == pytest.approx(expected, abs=0.1), row


@pytest.mark.parametrize("reference", [*BABY_ROWS, "child/2", "child/4"])
@pytest.mark.parametrize("sex", SEXES)
def test_the_high_head_is_no_lower_than_the_97th_percentile_of_who(reference: str, sex: str) -> None:
    """WHO 2006 by pygrowup2, asked for the percentile of our own high end."""
    wearer = resolve(WearerSpec(chart=reference), reference)
    assert wearer.age_years is not None
    high_cm = wearer.values[Body.HEAD_GIRTH].high_cm
    assert who_2006_head_deviate(sex, wearer.age_years, high_cm) >= 1.88


@pytest.mark.parametrize("reference", ["child/4", "child/6", "child/8", "child/10", "child/16"])
@pytest.mark.parametrize("sex", SEXES)
def test_the_high_head_is_no_lower_than_the_97th_percentile_of_uk(reference: str, sex: str) -> None:
    wearer = resolve(WearerSpec(chart=reference), reference)
    assert wearer.age_years is not None
    expected = uk_1990("head", sex, wearer.age_years, Z_97)
    assert wearer.values[Body.HEAD_GIRTH].high_cm >= expected - PRINTED_CM


@pytest.mark.parametrize("reference", [*BABY_ROWS, "child/2"])
@pytest.mark.parametrize("sex", SEXES)
def test_the_high_head_is_no_lower_than_the_97th_percentile_of_cdc(reference: str, sex: str) -> None:
    wearer = resolve(WearerSpec(chart=reference), reference)
    assert wearer.age_years is not None
    expected = cdc_2000("head", sex, wearer.age_years, Z_97)
    assert wearer.values[Body.HEAD_GIRTH].high_cm >= expected - PRINTED_CM


@given(age_years=st.floats(0.25, 17.0), sex=st.sampled_from(SEXES))
def test_the_range_of_a_head_holds_every_reference_at_any_age(age_years: float, sex: str) -> None:
    """All three references, read by the packages' own interpolation between their ages."""
    head = head_girth(age_years)
    for covers, reference in (
        (age_years <= 5, who_2006),
        (age_years >= 4, uk_1990),
        (age_years <= 3, cdc_2000),
    ):
        if covers:
            assert head.high_cm >= reference("head", sex, age_years, Z_97) - 0.1
            assert head.low_cm <= reference("head", sex, age_years, -Z_97) + 0.1


@given(first=st.floats(0, 30), second=st.floats(0, 30))
def test_the_high_head_never_shrinks_with_age(first: float, second: float) -> None:
    younger, older = sorted((first, second))
    assert head_girth(younger).high_cm <= head_girth(older).high_cm + 1e-9


def test_a_reference_that_has_ended_keeps_its_last_high_end() -> None:
    """CDC 2000 ends at three years with boys' 52.6 cm, WHO 2006 then has 52.1 (both by the packages)."""
    floor = cdc_2000("head", "M", 3, Z_97)
    assert who_2006("head", "M", 3.1, Z_97) < floor - 0.3
    assert head_girth(3.1).high_cm >= floor - PRINTED_CM


def test_the_median_head_is_the_mean_of_the_medians_that_cover_the_age() -> None:
    """At three years boys and girls of WHO and CDC, at ten of UK 1990, by the packages."""
    three = [reference("head", sex, 3, 0) for reference in (who_2006, cdc_2000) for sex in SEXES]
    ten = [uk_1990("head", sex, 10, 0) for sex in SEXES]
    assert head_girth(3).cm == pytest.approx(sum(three) / 4, abs=0.06)
    assert head_girth(10).cm == pytest.approx(sum(ten) / 2, abs=0.06)


def test_the_trades_head_table_is_too_low_for_passing() -> None:
    """Ages of the trade's categories: common practice, no source."""
    for category, age_years in (("baby", 0.5), ("toddler", 2.0), ("child", 6.0), ("tween", 12.0)):
        assert head_ranges()[category].high_cm < head_girth(age_years).high_cm - 2


def test_the_survey_alone_would_be_too_low_for_passing() -> None:
    """The survey's 95th percentile at six years is 53.7 cm, below UK 1990's 97th."""
    (six,) = (item for item in survey_bins()["head_circumference", "both"] if item.middle_years == 6)
    assert six.p95_cm == 53.7
    assert head_girth(6).high_cm > six.p95_cm + 2


def test_a_womans_head_is_the_trades_range_widened_to_the_uk_reference() -> None:
    """21 to 23 in by the trade; UK 1990 girls of 17 years from rcpchgrowth."""
    head = womans_head_girth()
    assert head.low_cm == pytest.approx(min(53.0, uk_1990("head", "F", 17, -Z_97)), abs=PRINTED_CM)
    assert head.high_cm == pytest.approx(max(58.5, uk_1990("head", "F", 17, Z_97)), abs=PRINTED_CM)
    assert head.cm == 55.75
    assert head.origin is Origin.CHART


def test_lengths_to_two_years_hold_both_sexes() -> None:
    for reading in lengths_to_two():
        age = _exact(reading.age_years)
        low = min(who_2006("height", sex, age, -Z_97) for sex in SEXES)
        middle = sum(who_2006("height", sex, age, 0) for sex in SEXES) / 2
        high = max(who_2006("height", sex, age, Z_97) for sex in SEXES)
        assert (reading.low_cm, reading.cm, reading.high_cm) == pytest.approx((low, middle, high), abs=0.11)
    assert lengths_to_two()[-1].age_years == 2


@given(age_years=st.floats(2.01, 4.9))
def test_heights_join_the_who_curve(age_years: float) -> None:
    """From two to five years the survey's medians stay by WHO 2006 (pygrowup2), both sexes' mean."""
    expected = sum(who_2006("height", sex, age_years, 0) for sex in SEXES) / 2
    assert height(age_years, "both").cm == pytest.approx(expected, abs=0.8 if age_years < 2.75 else 2.0)


@pytest.mark.parametrize("age_years", range(3, 17))
def test_the_surveys_heights_against_cdc(age_years: int) -> None:
    """CDC 2000 (rcpchgrowth) rests on United States surveys of about the same years."""
    found = height(age_years, "both")
    middle = sum(cdc_2000("height", sex, age_years, 0) for sex in SEXES) / 2
    assert found.cm == pytest.approx(middle, rel=0.02)
    spread = [cdc_2000("height", sex, age_years, z) for sex in SEXES for z in (-1.645, 1.645)]
    assert found.low_cm == pytest.approx(min(spread), rel=0.03)
    assert found.high_cm == pytest.approx(max(spread), rel=0.03)


@given(first=st.floats(0, 30), second=st.floats(0, 30), sex=st.sampled_from(("both", "M")))
def test_heights_grow_with_age(first: float, second: float, sex: str) -> None:
    younger, older = (height(age, "M" if sex == "M" else "both") for age in sorted((first, second)))
    assert younger.cm <= older.cm + 1e-9
    assert younger.low_cm <= older.low_cm + 1e-9
    assert younger.high_cm <= older.high_cm + 1e-9
