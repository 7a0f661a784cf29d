"""The measurements a figure needs, with what is missing filled in from proportions."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import cache

from schematics.wearer.body import Body, Wearer
from schematics.wearer.body_figure import FigureSize
from schematics.wearer.estimates import estimates, share_of_stature
from schematics.wearer.evaluator import Evaluator, Inputs, evaluator_of
from schematics.wearer.expr import End, Expr, OfBody, first
from schematics.wearer.survey import MEASURES

_FIELDS = {Body(each.name.removesuffix("_cm")): each.name for each in fields(FigureSize)}
"""The measurements a figure needs, with their names in `FigureSize`."""

_FROM_SURVEY: Mapping[Body, tuple[float, str]] = {
    Body.HEAD_GIRTH: (1.0, "head_circumference"),
    **{body: (factor, measure) for body, (measure, factor, _) in MEASURES.items()},
}
"""Measures of the survey whose share of the stature stands in for a missing measurement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Proportioned:
    """A figure's measurements; ``filled`` are those from proportions, ``borrowed`` those of other tables."""

    size: FigureSize
    filled: tuple[Body, ...]
    borrowed: tuple[Body, ...]


def proportioned(wearer: Wearer) -> Proportioned | None:
    """The typical figure of a wearer.

    What is missing is taken as a share of the height: girths and the shoulder breadth as in the
    survey of 1977 at the wearer's age, or at the age whose median is the wearer's height; lengths as
    in `schematics.wearer.estimates`.

    Returns:
        None where the height is not known.
    """
    height = wearer.get(Body.HEIGHT)
    if height is None:
        return None
    age = math.nan if wearer.age_years is None else wearer.age_years
    here = Inputs(body=wearer.values, age_years=age)
    measured = {body: value.cm for body, value in wearer.values.items() if body in _FIELDS}
    from_height = {
        body: value.cm
        for body, value in estimates(wearer.values, wearer.age_years, "both").items()
        if body in _FIELDS
    }
    from_survey = {body: height.cm * float(share(here)) for body, share in _shares().items()}
    lengths = from_survey | from_height | measured
    return Proportioned(
        size=FigureSize(**{name: lengths[body] for body, name in _FIELDS.items()}),
        filled=tuple(body for body in _FIELDS if body not in measured),
        borrowed=tuple(body for body in _FIELDS if body in measured and wearer.values[body].borrowed),
    )


def proportions() -> dict[Body, Expr]:
    """Each measurement of a figure as a tree: what is known of it, else its share of the height.

    Lengths that `schematics.wearer.estimates` fills in are taken to be filled in.
    """
    height = OfBody(Body.HEIGHT, End.TYPICAL)
    shares = {body: share_of_stature((part,), "both") for body, part in _FROM_SURVEY.items()}
    given = {body: OfBody(body, End.TYPICAL) for body in _FIELDS}
    return {
        body: first(each, height * shares[body]) if body in shares else each for body, each in given.items()
    }


@cache
def _shares() -> Mapping[Body, Evaluator]:
    return {body: evaluator_of(share_of_stature((part,), "both")) for body, part in _FROM_SURVEY.items()}
