"""A body as it is known, and as it would be if one of its measurements were off."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

import numpy as np

from schematics.wearer.body import Body, Origin, Wearer
from schematics.wearer.estimates import estimates_of
from schematics.wearer.evaluator import Evaluator, Inputs, Numbers, Spread, evaluator_of
from schematics.wearer.standard_deviations import body_sd_cm


@dataclass(frozen=True, slots=True, kw_only=True)
class Ends:
    """The ends of a measurement, in columns."""

    low_cm: Numbers
    cm: Numbers
    high_cm: Numbers


def body_errors(wearer: Wearer) -> dict[Body, float]:
    """The measurements that may be off by themselves, and their standard deviations in cm."""
    errors = {body: body_sd_cm(body, value, person=wearer.person) for body, value in wearer.values.items()}
    return {body: sd_cm for body, sd_cm in errors.items() if sd_cm > 0}


def varied_body(
    wearer: Wearer, errors_cm: Mapping[Body, float], first: int, errors: int
) -> Mapping[Body, Spread]:
    """The measurements that verdicts go by, in columns where anything moves them.

    Args:
        wearer: the body.
        errors_cm: see `body_errors`.
        first: the place of the first of them among all errors.
        errors: how many errors there are in all; the columns are as of
            `schematics.crochet.varied_fabric.VariedFabric`.
    """
    bodies: dict[Body, Spread] = dict(wearer.judged)
    off = {}
    for place, (body, sd_cm) in enumerate(errors_cm.items(), start=1 + first):
        off[body] = column = np.zeros(1 + 2 * errors)
        column[place], column[place + errors] = sd_cm, -sd_cm
        if wearer.values[body].origin is not Origin.ESTIMATE:
            value = wearer.judged[body]
            bodies[body] = Ends(
                low_cm=value.low_cm + column, cm=value.cm + column, high_cm=value.high_cm + column
            )
    known = Inputs(body=wearer.judged, age_years=_age(wearer))
    for body, work in _works().items():
        if body in off and wearer.judged[body].origin is Origin.ESTIMATE:
            value = wearer.judged[body]
            before = work(known)
            moved = work(Inputs(body=bodies, age_years=known.age_years))
            times = 1.0 if math.isnan(before) else moved / before
            bodies[body] = Ends(
                low_cm=value.low_cm * times + off[body],
                cm=value.cm * times + off[body],
                high_cm=value.high_cm * times + off[body],
            )
    return bodies


def _age(wearer: Wearer) -> float:
    return math.nan if wearer.age_years is None else wearer.age_years


@cache
def _works() -> Mapping[Body, Evaluator]:
    return {each.body: evaluator_of(each.cm) for each in estimates_of("both")}
