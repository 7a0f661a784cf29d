"""Ages in words, here and in a page."""

from __future__ import annotations

import math
from typing import Any

_MONTHS = 12

MONTHS_UNDER_YEARS = 2.0
"""Ages below so many years are printed in months."""

_HAIR = 1e-6
_MONTH_WORDS = "{count} month", "{count} months"
_YEAR_WORDS = "{count} years", "{count} 1/2 years"


def age_words(years: float) -> str:
    """Such as ``18 months`` or ``8 1/2 years``, rounded down; to two years in months, then in halves."""
    if years < MONTHS_UNDER_YEARS:
        months = math.floor(years * _MONTHS + _HAIR)
        return _MONTH_WORDS[months != 1].format(count=months)
    halves = math.floor(2 * years + _HAIR)
    return _YEAR_WORDS[halves % 2].format(count=halves // 2)


def exact_age_words(years: float) -> str:
    """An age as people say it: ``6 years``, ``20 months``, ``6 years 5 months``, ``6.4 years``.

    >>> [exact_age_words(each) for each in (20 / 12, 26 / 12, 6.5)]
    ['20 months', '2 years 2 months', '6.5 years']
    """
    months = round(years * _MONTHS)
    in_months = abs(years * _MONTHS - months) < _HAIR
    if in_months and years < MONTHS_UNDER_YEARS:
        return age_words(months / _MONTHS)
    if not in_months or abs(years - round(years, 1)) < _HAIR:
        return f"{round(years, 2):g} years"
    whole, rest = divmod(months, _MONTHS)
    return f"{whole} years {_MONTH_WORDS[rest != 1].format(count=rest)}"


def age_words_json() -> dict[str, Any]:
    """What a page says ages by; each second words are of many months, or of half a year more."""
    return {
        "months_a_year": _MONTHS,
        "months_under_years": MONTHS_UNDER_YEARS,
        "hair": _HAIR,
        "months": list(_MONTH_WORDS),
        "years": list(_YEAR_WORDS),
    }
