"""From what a size says of its wearer to a body: every value, and where each comes from."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from schematics.wearer.age_words import exact_age_words
from schematics.wearer.body import Body, BodyValue, Origin, Stage, Wearer, WearerSpec
from schematics.wearer.estimates import estimates
from schematics.wearer.evaluator import Inputs, evaluator_of
from schematics.wearer.expr import OfBody, OfWearer, at_most, first
from schematics.wearer.growth import head_girth, womans_head_girth
from schematics.wearer.neck_to_wrist import ARM, beside_the_survey
from schematics.wearer.rows import WearerError, WearerRow, find_row, row_values
from schematics.wearer.survey import OLDEST_YEARS, survey_values
from schematics.wearer.tables import Sex

ADULT_YEARS = 18.0
BABY_YEARS = 2.0
OLDEST_AGE_YEARS = 120.0

BABY_HEIGHT_CM = 90.0
"""Shorter is a baby where the age is unknown: the median at two years is 87 cm (WHO 2006)."""

ADULT_HEIGHT_CM = 150.0
"""Taller is an adult where the age is unknown: girls reach it at 12, boys at 12 1/2 (UK 1990 medians)."""

ADULT = at_most(0.0, first(OfWearer("age_years") - ADULT_YEARS, OfBody(Body.HEIGHT) - ADULT_HEIGHT_CM))
"""Whether a wearer is an adult: by the age, or by the measured height where the age is not a number."""

_is_adult = evaluator_of(ADULT)


SCALED_TO_HEIGHT = (Body.HIP_HEIGHT,)
"""Measurements that the age table does not give for a wearer whose own height is known."""


def resolve(spec: WearerSpec, size_name: str) -> Wearer:
    """The body a size is for.

    Own measurements win over the chart row, the row over the tables by age, those over estimates.
    Missing values are borrowed for the row's age (``child/6``: six years, ``baby/18 mo``: one and
    a half, a woman: the oldest surveyed girls), which ``age_years`` overrides. Where the height is
    the wearer's own, the hip height is scaled to it. Without a row and an age nothing is
    borrowed; a height alone still gives the estimates.

    Args:
        spec: chart row, age in years, own measurements in cm; each may be missing.
        size_name: the size, for messages.

    Returns:
        The wearer, values in the order of `Body`.

    Raises:
        UnknownWearerError: the chart row does not exist.
        WearerError: the age is impossible, or contradicts an age row.
    """
    row = None if spec.chart is None else find_row(spec.chart, size_name)
    age = _age(spec, row, size_name)
    sex = "both" if row is None else row.sex
    own = {body: _own(length_cm) for body, length_cm in spec.own.items()}
    table_age = OLDEST_YEARS if row is not None and age is None else age
    values = {} if table_age is None else tabled_values(table_age, sex)
    if Body.HEIGHT in own:
        for body in SCALED_TO_HEIGHT:
            values.pop(body, None)
    if row is not None:
        values |= row_values(row)
        if row.age_years is not None and row.stage is not None:
            values[ARM] = beside_the_survey(values[ARM], row.age_years)
    values |= own
    values |= estimates(values, table_age, sex)
    stage = _stage(spec, row, age, own)
    return Wearer(
        label=_label(row, age, own),
        whose=_whose(row, age, stage),
        stage=stage,
        age_years=age,
        person=spec.chart is None,
        values={body: values[body] for body in Body if body in values},
    )


def tabled_values(age_years: float, sex: Sex) -> dict[Body, BodyValue]:
    """What the tables by age have for an age, in years."""
    values = survey_values(age_years, sex)
    grown_woman = sex == "F" and age_years >= ADULT_YEARS
    return {**values, Body.HEAD_GIRTH: womans_head_girth() if grown_woman else head_girth(age_years)}


def _age(spec: WearerSpec, row: WearerRow | None, size_name: str) -> float | None:
    """The age values are borrowed for, None for a grown woman or where nothing is borrowed."""
    age = spec.age_years
    if age is None:
        return None if row is None else row.age_years
    if not 0 <= age <= OLDEST_AGE_YEARS:
        raise WearerError(
            f"size {size_name!r}: expected an age of 0 to {OLDEST_AGE_YEARS:g} years, got {age:g}"
        )
    if row is not None and row.stage is None and row.age_years != age:
        raise WearerError(
            f"size {size_name!r}: {row.reference!r} and an age of {age:g} years contradict each other; "
            "keep one of them"
        )
    return age


def _own(length_cm: float) -> BodyValue:
    return BodyValue(
        low_cm=length_cm,
        cm=length_cm,
        high_cm=length_cm,
        origin=Origin.OWN,
        source="the size's own measurement",
    )


def _stage(
    spec: WearerSpec, row: WearerRow | None, age: float | None, own: Mapping[Body, BodyValue]
) -> Stage:
    """A given age decides, else the chart row, else the height; a child where nothing is known."""
    if row is not None and row.stage is not None and spec.age_years is None:
        return row.stage
    if _is_adult(Inputs(body=own, age_years=math.nan if age is None else age)):
        return Stage.ADULT
    height_cm = own[Body.HEIGHT].cm if Body.HEIGHT in own else math.nan
    return Stage.BABY if (height_cm < BABY_HEIGHT_CM if age is None else age < BABY_YEARS) else Stage.CHILD


def _whose(row: WearerRow | None, age: float | None, stage: Stage) -> str:
    """The bodies that a table's row or an age is one of, as a pattern's sizes have it."""
    if row is None and age is None:
        return ""
    adults = "women's" if row and row.sex == "F" else "adults'"
    return {Stage.BABY: "babies'", Stage.CHILD: "children's", Stage.ADULT: adults}[stage]


def _label(row: WearerRow | None, age: float | None, own: Mapping[Body, BodyValue]) -> str:
    if row is not None and row.stage is not None:
        base = f"chart row {row.reference}"
    elif age is not None:
        base = f"age {exact_age_words(age)}"
    else:
        return "own measurements" if own else "no measurements"
    return f"{base}, own measurements" if own else base


def resolve_all(sizes: Iterable[tuple[str, int, WearerSpec]], path: object) -> tuple[Wearer, ...]:
    """The wearers of the sizes of the spec at ``path``, each given by its name, its line and its wearer.

    Raises:
        WearerError: some cannot be resolved; one line a size, with file and line.
    """
    wearers: list[Wearer] = []
    problems: list[str] = []
    for name, line, spec in sizes:
        try:
            wearers.append(resolve(spec, name))
        except WearerError as error:
            problems.append(f"{path}:{line}: {error}")
    if problems:
        raise WearerError(*problems)
    return tuple(wearers)
