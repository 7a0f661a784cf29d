"""Until when a poncho fits a child: the wearer grown month by month along its own place in the age table.

Each measurement that is the wearer's own, or of the row it was chosen by, keeps its ratio to the age table's
typical value; what is estimated from those is estimated anew. The table is that of all verdicts: heads by
WHO 2006, UK 1990 and CDC 2000, everything else by WHO 2006 and the survey of United States children of 1977
(Snyder et al.). No child keeps to its ratio exactly, so what comes out is printed as about so many years.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np

from schematics.checks.rules.judging import judges
from schematics.checks.rules.sentence import Answer
from schematics.checks.rules.size_rules import RULES
from schematics.checks.wording import listed, sentence_case
from schematics.design.limits import Limits
from schematics.fitting.wearer_columns import Column, complete, with_all_at
from schematics.wearer.age_words import age_words
from schematics.wearer.body import Body, Origin, Stage, Wearer
from schematics.wearer.evaluator import Inputs
from schematics.wearer.expr import End
from schematics.wearer.growth import REFERENCES
from schematics.wearer.resolve import ADULT_YEARS

SOURCE = (
    f"by the growth of children of the same age in the tables ({REFERENCES}; survey of United States "
    "children 1977), each keeping to its own place among them"
)

PLACES: Mapping[str, tuple[str, ...]] = {
    "neck": ("neck",),
    "arms": ("arms", "reach", "spread"),
    "hem": ("hang",),
}
"""What it is grown out of by, each with its families of rules; see `schematics.checks.rules.size_rules`."""

_MONTHS = 12

_SOON = 0.5
"""Years from now within which it is printed in months."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FitsWhile:
    """The ages at which every rule of one of `PLACES` is good for a child, to a month.

    ``from_years`` is None where it never is, ``until_years`` None where it still is at the end of the table.
    """

    by: str
    from_years: float | None
    until_years: float | None


def ages_fitted(
    facts: Sequence[Mapping[str, float]], wearer: Wearer, limits: Limits
) -> tuple[tuple[FitsWhile, ...], ...]:
    """For each garment, by its facts, the first ages from now on at which each place is right.

    By the rules that can be judged now; a place without any is left out. Empty for each garment where the
    wearer is grown, or its age and height are not known.
    """
    age = age_of(wearer)
    if age is None or wearer.stage is Stage.ADULT or age >= ADULT_YEARS:
        return tuple(() for _ in facts)
    years = np.arange(math.ceil((ADULT_YEARS - age) * _MONTHS)) / _MONTHS
    bodies = grown(wearer, age, years)
    places = {by: _judged(families, wearer, limits) for by, families in PLACES.items()}
    return tuple(
        tuple(_while(by, codes, bodies.of(each), limits) for by, codes in places.items() if codes)
        for each in facts
    )


def _judged(families: Sequence[str], wearer: Wearer, limits: Limits) -> list[str]:
    """Those rules by their codes that enough is known of the wearer for."""
    codes = (rule(limits).code for family in families for rule in RULES[family])
    return [code for code in codes if judges(limits)[code].needs <= wearer.values.keys()]


def _while(by: str, codes: Sequence[str], months: Inputs, limits: Limits) -> FitsWhile:
    right = np.ones(len(months.age_years), dtype=bool)
    for code in codes:
        right &= judges(limits)[code].answers(months) <= Answer.UNKNOWN
    if not right.any():
        return FitsWhile(by=by, from_years=None, until_years=None)
    start = int(np.argmax(right))
    end = np.flatnonzero(~right[start:])
    return FitsWhile(
        by=by,
        from_years=float(months.age_years[start]),
        until_years=float(months.age_years[start + end[0] - 1]) if len(end) else None,
    )


def age_of(wearer: Wearer) -> float | None:
    """The wearer's age in years; else that at which the table's typical height is its own, or None."""
    height = wearer.get(Body.HEIGHT)
    if wearer.age_years is not None or height is None:
        return wearer.age_years
    table = _by_month()
    reached = np.flatnonzero(table.body[Body.HEIGHT].cm >= height.cm)
    return float(table.age_years[reached[0]]) if len(reached) else None


def grown(wearer: Wearer, age_years: float, years: Column) -> Inputs:
    """The wearer, now of that age, so many years later, in columns."""
    ages = np.concatenate([[age_years], age_years + years])
    table = complete({}, ages).body
    kept = {
        body: value.cm * table[body].cm[1:] / table[body].cm[0]
        for body, value in wearer.values.items()
        if value.origin in (Origin.OWN, Origin.CHART) and body in table
    }
    return with_all_at(complete(kept, ages[1:]), End.TYPICAL)


@cache
def _by_month() -> Inputs:
    """What the age table has for children of each month."""
    return complete({}, np.arange(int(ADULT_YEARS * _MONTHS)) / _MONTHS)


def growth_words(spans: Sequence[FitsWhile], age_years: float, what: str = "it") -> tuple[str, ...]:
    """Until when it fits a child of that age, in sentences; what it is grown out of first comes first.

    A place where it is not right now has a sentence of its own. Empty where nothing is known.
    """
    ending = sorted(spans, key=lambda each: each.until_years or math.inf)
    now = [each for each in ending if each.from_years is not None and each.from_years <= age_years]
    later = [each for each in ending if each.from_years is not None and each.from_years > age_years]
    never = [each.by for each in ending if each.from_years is None]
    named = itertools.chain([what], itertools.repeat("it"))
    words = []
    if now:
        right = "is right" if later or never else "fits"
        words.append(f"{next(named)} {right} {listed([_still(each, age_years) for each in now])}")
    for each in later:
        when = f"{_start(each, age_years)} until {_end(each)}"
        words.append(f"by the {each.by} {next(named)} is not right yet; it will be {when}")
    if never:
        words.append(f"by the {listed(never)} {next(named)} is right neither now nor later")
    return tuple(f"{sentence_case(each)}." for each in words)


def ages_words(spans: Sequence[FitsWhile]) -> str:
    """At what ages it fits children: ``from about 5 years until about 8 years by the arms``."""
    ending = sorted(spans, key=lambda each: each.until_years or math.inf)
    right = [
        f"{f'from about {age_words(each.from_years)} ' if each.from_years else ''}until {_end(each)} "
        f"by the {each.by}"
        for each in ending
        if each.from_years is not None
    ]
    never = [each.by for each in spans if each.from_years is None]
    return listed((*right, *([f"at no age by the {listed(never)}"] if never else ())))


def _end(span: FitsWhile) -> str:
    return "grown up" if span.until_years is None else f"about {age_words(span.until_years)}"


def _still(span: FitsWhile, age_years: float) -> str:
    left = math.inf if span.until_years is None else span.until_years - age_years
    if left >= _SOON:
        how_long = f"until {_end(span)}"
    else:
        how_long = f"for only about {_months(left)} more" if round(left * _MONTHS) else "only just now"
    return f"{how_long} by the {span.by}"


def _start(span: FitsWhile, age_years: float) -> str:
    start = span.from_years or 0.0
    left = start - age_years
    return f"from about {age_words(start)}" if left >= _SOON else f"in about {_months(left)},"


def _months(years: float) -> str:
    months = max(1, round(years * _MONTHS))
    return f"{months} month{'' if months == 1 else 's'}"
