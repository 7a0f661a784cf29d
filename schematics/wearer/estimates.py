"""Lengths that no table gives for a wearer, from those that are known; each estimate is one tree."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, reduce
from operator import add

from schematics.wearer.body import Body, BodyValue, Origin
from schematics.wearer.evaluator import Evaluator, Inputs, evaluator_of
from schematics.wearer.expr import End, Expr, OfBody, OfWearer, Term, first, table
from schematics.wearer.survey import SURVEY, place_in_survey
from schematics.wearer.tables import Sex, survey_bins

KNEE_SHARE = 0.285
"""Height of the knee over height of adults: Drillis and Contini 1966, from memory.

A child's knee is relatively lower, so a child's comes out too high: a hem that clears it is safe.
"""

ARMHOLE_SHARE = 0.46
"""Armhole depth over back waist length: the middle of the trade chart's rows for children, 0.43 to 0.50."""

Measures = tuple[tuple[float, str], ...]
"""A sum of the survey's measures: factors and names."""

_SUMS: Mapping[Body, tuple[Measures, str]] = {
    Body.CENTRE_BACK_NECK_TO_WRIST: (
        (
            (0.5, "biacromial_breadth"),
            (1, "shoulder_elbow_length"),
            (1, "elbow_hand_length"),
            (-1, "hand_length"),
        ),
        "half the biacromial breadth + shoulder to elbow + elbow to hand - hand length",
    ),
    Body.FOREARM_LENGTH: (((1, "elbow_hand_length"), (-1, "hand_length")), "elbow to hand - hand length"),
    Body.BACK_WAIST_LENGTH: (
        ((1, "suprasternale_height"), (-1, "waist_height")),
        "suprasternale height - waist height (from the front of the neck; the nape is higher)",
    ),
    Body.WAIST_HEIGHT: (((1, "waist_height"),), "waist height"),
    Body.HIP_HEIGHT: (((1, "hip_height_at_buttocks"),), "hip height at the buttocks"),
}
"""Lengths that follow from the height by the survey, and their sum in words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """What stands in for one missing measurement, in cm, at the end of the spread that is asked for.

    ``source`` may name ``{share}``, the fraction of the height that it is, ``{where}`` in the survey that was
    read, and the origin of another measurement by the measurement's name.
    """

    body: Body
    cm: Expr
    source: str


@cache
def estimates_of(sex: Sex) -> tuple[Estimate, ...]:
    """What stands in for missing measurements, in the order in which they are to be filled in."""
    height, waist, back = map(OfBody, (Body.HEIGHT, Body.WAIST_HEIGHT, Body.BACK_WAIST_LENGTH))
    return (
        Estimate(
            body=Body.KNEE_HEIGHT,
            cm=height * KNEE_SHARE,
            source=f"{KNEE_SHARE:g} x height (Drillis and Contini 1966, from memory; of adults, "
            "a child's knee is lower)",
        ),
        *(
            Estimate(
                body=body,
                cm=height * share_of_stature(measures, sex),
                source=f"{{share:.3f}} x height: {words}, over stature, medians of {SURVEY}, {{where}}",
            )
            for body, (measures, words) in _SUMS.items()
        ),
        Estimate(
            body=Body.NAPE_HEIGHT,
            cm=waist + back,
            source="waist height ({waist_height}) + back waist length ({back_waist_length})",
        ),
        Estimate(
            body=Body.ARMHOLE_DEPTH,
            cm=back * ARMHOLE_SHARE,
            source=f"{ARMHOLE_SHARE:g} x back waist length ({{back_waist_length}}), the middle of the Craft "
            "Yarn Council's rows for children",
        ),
    )


@cache
def age_of_proportions(sex: Sex) -> Term:
    """The wearer's age, else the age at which the height is the survey's median; years."""
    medians = [(each.p50_cm, each.middle_years) for each in survey_bins()["stature", sex]]
    by_height = table(OfBody(Body.HEIGHT, End.TYPICAL), medians)
    return Term("age_of_proportions", first(OfWearer("age_years"), by_height))


@cache
def share_of_stature(measures: Measures, sex: Sex) -> Expr:
    """A sum of the survey's medians as a fraction of its stature, at the age of the wearer's proportions."""
    medians = (_median(measure, sex) * factor for factor, measure in measures)
    return reduce(add, medians) / Term("stature_by_age", _median("stature", sex))


def _median(measure: str, sex: Sex) -> Expr:
    """Straight between the middles of the survey's bins, level beyond its ends."""
    points = [(each.middle_years, each.p50_cm) for each in survey_bins()[measure, sex]]
    return table(age_of_proportions(sex), points)


def estimates(given: Mapping[Body, BodyValue], age_years: float | None, sex: Sex) -> dict[Body, BodyValue]:
    """The measurements that are missing and can be estimated.

    Args:
        given: what is known already; nothing of it is replaced.
        age_years: the wearer's age, None if unknown: then the age at which the wearer's height is
            the survey's median gives the proportions.
        sex: whose proportions.

    Returns:
        Only the added values, all `Origin.ESTIMATE`; their spread is that of what they follow from.
    """
    values = dict(given)
    wearer = Inputs(body=values, age_years=math.nan if age_years is None else age_years)
    ends = [wearer.at_end(end) for end in End]
    where = _where(wearer, sex)
    for estimate, work in _works(sex):
        if estimate.body in given:
            continue
        low, typical, high = (float(work(end)) for end in ends)
        if math.isnan(typical):
            continue
        values[estimate.body] = BodyValue(
            low_cm=low,
            cm=typical,
            high_cm=high,
            origin=Origin.ESTIMATE,
            source=_source(estimate, typical, values, where),
        )
    return {body: value for body, value in values.items() if body not in given}


@cache
def _works(sex: Sex) -> tuple[tuple[Estimate, Evaluator], ...]:
    return tuple((each, evaluator_of(each.cm)) for each in estimates_of(sex))


@cache
def _age_work(sex: Sex) -> Evaluator:
    return evaluator_of(age_of_proportions(sex))


def _where(wearer: Inputs, sex: Sex) -> str:
    """Where the survey is read."""
    age = float(_age_work(sex)(wearer))
    where = "" if math.isnan(age) else place_in_survey(age, sex)
    return f"{where}, taken by height" if math.isnan(wearer.age_years) else where


def _source(estimate: Estimate, typical_cm: float, values: Mapping[Body, BodyValue], where: str) -> str:
    height = values.get(Body.HEIGHT)
    share = math.nan if height is None else typical_cm / height.cm
    origins = {body: value.origin for body, value in values.items()}
    return "estimated as " + estimate.source.format(share=share, where=where, **origins)
