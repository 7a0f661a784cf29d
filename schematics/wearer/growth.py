"""Heads from the growth references WHO 2006, UK 1990 and CDC 2000."""

from __future__ import annotations

import math
from functools import cache

from schematics.wearer.ages import AgeReading, AgeSeries, read_at
from schematics.wearer.body import BodyValue, Origin
from schematics.wearer.tables import GrowthRow, Sex, growth_series, head_ranges

REFERENCES = "WHO 2006, UK 1990, CDC 2000"
"""The references, as they are named to readers."""

OLDEST_REFERENCE = "UK 1990"
"""The only head reference beyond five years; past its last age it is held level."""


def head_girth(age_years: float) -> BodyValue:
    """Head girth of children of an age, wide enough for every reference that covers it.

    Low is the lowest 3rd, high the highest 97th percentile over both sexes and all references at
    that age, cm the mean of their medians: WHO to 5 years, CDC to 3, UK 1990 from 4 (girls to 17,
    boys to 18, then level). A reference that has ended keeps its last 97th percentile as a floor,
    heads do not shrink. Between its ages a reference is read straight in the square root of age,
    which follows the first months closely: read straight in age, the CDC 97th percentile at three
    months is 0.3 cm too low.
    """
    readings: list[AgeReading] = []
    floors: list[float] = []
    names: list[str] = []
    for (name, _), series in head_series().items():
        if series.from_years is not None and age_years < series.from_years:
            continue
        reading = read_at(series.readings, age_years, math.sqrt)
        floors.append(reading.high_cm)
        if series.until_years is None or age_years <= series.until_years:
            readings.append(reading)
            names.append(name)
    return BodyValue(
        low_cm=min(reading.low_cm for reading in readings),
        cm=sum(reading.cm for reading in readings) / len(readings),
        high_cm=max(floors),
        origin=Origin.AGE_TABLE,
        source=(
            f"growth references {', '.join(dict.fromkeys(names))} at {_years(age_years, readings)}, "
            "lowest 3rd, mean 50th and highest 97th percentile of both sexes; "
            "the trade's own head table runs lower and is not used"
        ),
    )


def womans_head_girth() -> BodyValue:
    """An adult woman's head: the trade's range, widened where UK 1990 at 17 years goes beyond it."""
    trade = head_ranges()["adult woman"]
    girls = growth_series("head_by_age")[OLDEST_REFERENCE, "F"][-1]
    return BodyValue(
        low_cm=min(trade.low_cm, girls.p3_cm),
        cm=(trade.low_cm + trade.high_cm) / 2,
        high_cm=max(trade.high_cm, girls.p97_cm),
        origin=Origin.CHART,
        source=(
            "Craft Yarn Council standards, head sizes, adult woman, "
            f"widened to UK 1990 girls of {girls.age_years:g} years, 3rd and 97th percentile"
        ),
    )


@cache
def lengths_to_two() -> tuple[AgeReading, ...]:
    """Body length from birth to two years: WHO 2006, lowest 3rd, mean 50th, highest 97th percentile."""
    series = growth_series("height_by_age")
    return tuple(
        AgeReading(
            age_years=boy.age_years,
            low_cm=min(boy.p3_cm, girl.p3_cm),
            cm=(boy.p50_cm + girl.p50_cm) / 2,
            high_cm=max(boy.p97_cm, girl.p97_cm),
            where=f"WHO 2006 growth standards at {boy.age_years:g} years (3rd/50th/97th percentile)",
        )
        for boy, girl in zip(series["WHO 2006", "M"], series["WHO 2006", "F"], strict=True)
        if boy.age_years <= 2
    )


@cache
def head_series() -> dict[tuple[str, Sex], AgeSeries]:
    """The head references from youngest to oldest, by reference and sex."""
    return {
        (name, sex): AgeSeries(
            readings=tuple(map(_reading, rows)),
            from_years=rows[0].age_years,
            until_years=None if name == OLDEST_REFERENCE else rows[-1].age_years,
        )
        for (name, sex), rows in growth_series("head_by_age").items()
    }


def _reading(row: GrowthRow) -> AgeReading:
    return AgeReading(
        age_years=row.age_years, low_cm=row.p3_cm, cm=row.p50_cm, high_cm=row.p97_cm, where=row.reference
    )


def _years(age_years: float, readings: list[AgeReading]) -> str:
    oldest = max(reading.age_years for reading in readings)
    return f"{age_years:g} years" if age_years <= oldest else f"{oldest:g} years (the oldest)"
