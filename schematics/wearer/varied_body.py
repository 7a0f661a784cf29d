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
    estimated = {body for body, value in wearer.judged.items() if value.origin is Origin.ESTIMATE}
    known: dict[Body, Spread] = {body: wearer.judged[body] for body in wearer.judged if body not in estimated}
    moved: dict[Body, Spread] = {body: value for body, value in bodies.items() if body not in estimated}
    for body, work in _works().items():
        if body not in estimated:
            continue
        value, own = wearer.judged[body], off.get(body, 0.0)
        before = work(Inputs(body=known, age_years=_age(wearer)))
        after = work(Inputs(body=moved, age_years=_age(wearer)))
        times = 1.0 if math.isnan(before) else after / before
        known[body] = value
        moved[body] = Ends(
            low_cm=value.low_cm * times + own, cm=value.cm * times + own, high_cm=value.high_cm * times + own
        )
    return {**bodies, **moved}


def _age(wearer: Wearer) -> float:
    return math.nan if wearer.age_years is None else wearer.age_years


@cache
def _works() -> Mapping[Body, Evaluator]:
    return {each.body: evaluator_of(each.cm) for each in estimates_of("both")}
