"""Bodies by age from the survey of United States children of 1977."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import cache

from schematics.wearer.ages import AgeReading, AgeSeries, read_at
from schematics.wearer.body import Body, BodyValue, Origin
from schematics.wearer.growth import lengths_to_two
from schematics.wearer.tables import Sex, SurveyBin, survey_bins

SURVEY = "US survey of children 1977 (Snyder et al.)"
OLDEST_YEARS = 19.0
"""The end of the survey's oldest bin."""

MEASURES: dict[Body, tuple[str, float, str]] = {
    Body.NECK_GIRTH: ("neck_circumference", 1.0, "neck circumference"),
    Body.CHEST_GIRTH: ("chest_circumference", 1.0, "chest circumference"),
    Body.UPPER_ARM_GIRTH: ("upper_arm_circumference", 1.0, "upper arm circumference"),
    Body.WRIST_GIRTH: ("wrist_circumference", 1.0, "wrist circumference"),
    Body.HAND_GIRTH: (
        "min_hand_clearance_diameter",
        math.pi,
        "computed as pi x minimum hand clearance diameter",
    ),
    Body.SHOULDER_BREADTH: ("biacromial_breadth", 1.0, "biacromial breadth"),
    Body.HIP_HEIGHT: ("hip_height_at_buttocks", 1.0, "hip height at the buttocks"),
}
"""The survey's measure that a body measurement is so many times, and words for it."""


_PERCENTILES = "5th/50th/95th percentile"


def survey_values(age_years: float, sex: Sex) -> dict[Body, BodyValue]:
    """Every body measurement the survey gives at an age, and the height.

    A bin stands for its middle age; between middles values are read straight, beyond the first and
    last they are held level. Heights are the exception, see `height`; the hip height is left out below the
    first bin's middle, where it would not fit the height. The survey's waist height is not used: its waist
    is lower than the one that back waist lengths end at.

    Args:
        age_years: the age; below 2 the youngest bin answers and the source says so.
        sex: ``both`` together, or one.

    Returns:
        Values with `Origin.AGE_TABLE`: 5th, 50th and 95th percentile.
    """
    values = {Body.HEIGHT: height(age_years, sex)}
    for body, (measure, factor, words) in MEASURES.items():
        reading = _read(measure, sex, age_years)
        source = f"{SURVEY}, {words}, {reading.where}, {_PERCENTILES}"
        values[body] = _value(reading, source, factor, _held(survey_bins()[measure, sex], age_years))
    if age_years < _readings("stature", sex)[0].age_years:
        del values[Body.HIP_HEIGHT]
    return values


def surveyed_series(sex: Sex) -> dict[Body, AgeSeries]:
    """What `survey_values` reads at an age, by body measurement."""
    stature = _readings("stature", sex)
    series = {Body.HEIGHT: AgeSeries(readings=(*lengths_to_two(), *stature))}
    for body, (measure, factor, _) in MEASURES.items():
        series[body] = AgeSeries(readings=tuple(each.times(factor) for each in _readings(measure, sex)))
    series[Body.HIP_HEIGHT] = replace(series[Body.HIP_HEIGHT], from_years=stature[0].age_years)
    return series


def surveyed_ages(body: Body, sex: Sex) -> tuple[float, float, str, str] | None:
    """The ages between which the survey is not held level for a measurement, and what it is held at beyond.

    None of the height, which other references carry on.
    """
    if body not in MEASURES:
        return None
    bins = survey_bins()[MEASURES[body][0], sex]
    first, last = bins[0].from_years, bins[-1].to_years
    return first, last, _held(bins, first - 1), _held(bins, last)


def height(age_years: float, sex: Sex) -> BodyValue:
    """Height at an age: WHO 2006 to two years, the survey's stature from its first bin's middle on.

    Between the two it is read straight; the two meet within half a centimetre of the WHO curve.
    """
    first = _readings("stature", sex)[0]
    if age_years < first.age_years:
        first = replace(first, where=f"{SURVEY}, stature, {first.where}")
        reading = read_at([*lengths_to_two(), first], age_years)
        source = reading.where
    else:
        reading = _read("stature", sex, age_years)
        source = f"{SURVEY}, stature, {reading.where}, {_PERCENTILES}"
    return _value(reading, source)


def _value(reading: AgeReading, source: str, factor: float = 1.0, held: str = "") -> BodyValue:
    return BodyValue(
        low_cm=factor * reading.low_cm,
        cm=factor * reading.cm,
        high_cm=factor * reading.high_cm,
        origin=Origin.AGE_TABLE,
        source=source,
        held=held,
    )


@cache
def residual_fraction(measure: str) -> float:
    """How far a measure may be off that is taken as its share of the stature, as a fraction of itself.

    The standard deviation of what is left in a bin when a constant share of the stature is taken away, as
    if that and the stature were independent: ``sd**2 - (share * sd of the stature)**2``; its root mean square
    over the bins.
    """
    variances = []
    for each, stature in zip(survey_bins()[measure, "both"], survey_bins()["stature", "both"], strict=True):
        left = each.sd_cm**2 - (each.mean_cm / stature.mean_cm * stature.sd_cm) ** 2
        variances.append(max(left, 0.0) / each.mean_cm**2)
    return math.sqrt(sum(variances) / len(variances))


def place_in_survey(age_years: float, sex: Sex) -> str:
    """Where in the survey a stature of that age is read, in words."""
    return _read("stature", sex, age_years).where


def _read(measure: str, sex: Sex, age_years: float) -> AgeReading:
    readings = _readings(measure, sex)
    reading = read_at(readings, age_years)
    bins = survey_bins()[measure, sex]
    if age_years < bins[0].from_years:
        return replace(reading, where=f"{reading.where} (the youngest surveyed)")
    if age_years > bins[-1].to_years:
        return replace(reading, where=f"{reading.where} (the oldest surveyed)")
    return reading


def _held(bins: Sequence[SurveyBin], age_years: float) -> str:
    """The end of the survey that answers for an age beyond it, see `BodyValue.held`."""
    if bins[0].from_years <= age_years < bins[-1].to_years:
        return ""
    word, end = ("youngest", bins[0]) if age_years < bins[0].from_years else ("oldest", bins[-1])
    who = {"both": "", "F": " girls", "M": " boys"}[end.sex]
    return f"{word}{who}, {end.from_years:g} to {end.to_years:g} years"


@cache
def _readings(measure: str, sex: Sex) -> tuple[AgeReading, ...]:
    return tuple(_reading(item) for item in survey_bins()[measure, sex])


def _reading(item: SurveyBin) -> AgeReading:
    who = {"both": "", "F": "girls, ", "M": "boys, "}[item.sex]
    return AgeReading(
        age_years=item.middle_years,
        low_cm=item.p5_cm,
        cm=item.p50_cm,
        high_cm=item.p95_cm,
        where=f"{who}ages {item.from_years:g} to {item.to_years:g}",
    )
