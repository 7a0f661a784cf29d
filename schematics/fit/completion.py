"""What is missing of a measured wearer, as data: the same estimates as `schematics.wearer.estimates`.

From what is known to a whole wearer, in this order:

1. where the age is known, the typical values of the age table;
2. without its waist and hip height where the height was measured;
3. the wearer's own measurements in their place;
4. whatever is still missing from `estimate_rules`, in their order; a tree that comes to no number leaves its
   measurement unknown.

It is one person (see `schematics.wearer.body.Wearer`), so that each value stands for its low and its high
end, too.
"""

from __future__ import annotations

from functools import cache
from typing import Any

from schematics.rules.expr import (
    End,
    Expr,
    OfBody,
    OfWearer,
    Operand,
    Term,
    expr_json,
    first,
    node,
    table,
    terms,
)
from schematics.wearer.body import Body, Origin, Value, WearerSpec
from schematics.wearer.estimates import ARMHOLE_SHARE, KNEE_SHARE, SHARES
from schematics.wearer.resolve import ADULT_HEIGHT_CM, ADULT_YEARS, resolve
from schematics.wearer.tables import survey_bins

AGE_STEP_YEARS = 0.25
OLDEST_YEARS = 18.0
DECIMALS = 9
"""Fewer than could tell two lengths apart that a comparison does."""


@cache
def estimate_rules() -> tuple[tuple[Body, Expr], ...]:
    """What stands in for a missing measurement, in the order in which they are to be filled in.

    The end of the spread is the one asked for, but where a node names it.
    """
    height = OfBody(Body.HEIGHT)
    shares = {
        Body.KNEE_HEIGHT: node(KNEE_SHARE),
        **{body: _share(list(parts)) for body, (parts, _) in SHARES.items()},
    }
    return (
        *((body, height * share) for body, share in shares.items()),
        (Body.NAPE_HEIGHT, OfBody(Body.WAIST_HEIGHT) + OfBody(Body.BACK_WAIST_LENGTH)),
        (Body.ARMHOLE_DEPTH, OfBody(Body.BACK_WAIST_LENGTH) * ARMHOLE_SHARE),
    )


@cache
def _age() -> Term:
    """The wearer's age, else the age at which the height is the survey's median."""
    medians = [(each.p50_cm, each.middle_years) for each in survey_bins()["stature", "both"]]
    by_height = table(OfBody(Body.HEIGHT, End.TYPICAL), medians)
    return Term("age_of_proportions", first(OfWearer("age_years"), by_height))


def _share(parts: list[tuple[float, str]]) -> Expr:
    total: Expr | None = None
    for factor, measure in parts:
        each = _median(measure) * factor
        total = each if total is None else total + each
    if total is None:
        raise ValueError("a share is of at least one measure")
    return total / Term("stature_by_age", _median("stature"))


def _median(measure: str) -> Expr:
    points: list[tuple[Operand, Operand]] = [
        (each.middle_years, each.p50_cm) for each in survey_bins()[measure, "both"]
    ]
    return table(_age(), points)


def completion_json() -> dict[str, Any]:
    """Estimates and age table as plain JSON values.

    ``ages`` are years; ``by_age`` has for each body measurement its ``typical`` value at each of them, null
    where the table has none, and as ``held`` the end of the table that answers for an age beyond it, in
    words, else null. ``adult`` says who counts as grown up: from that age, or
    where no age is known from that measured height. ``terms`` are trees the estimates may name.
    """
    rules = estimate_rules()
    ages = [number * AGE_STEP_YEARS for number in range(int(OLDEST_YEARS / AGE_STEP_YEARS) + 1)]
    wearers = [resolve(WearerSpec(age_years=age), "page") for age in ages]
    by_age = {
        body.value: _at_each_age([wearer.get(body) for wearer in wearers])
        for body in Body
        if any(_tabled(wearer.get(body)) for wearer in wearers)
    }
    return {
        "terms": {name: expr_json(expr) for name, expr in terms(expr for _, expr in rules).items()},
        "estimates": [{"body": body.value, "value": expr_json(expr)} for body, expr in rules],
        "adult": {"from_age_years": ADULT_YEARS, "from_height_cm": ADULT_HEIGHT_CM},
        "ages": ages,
        "by_age": by_age,
    }


def _tabled(value: Value | None) -> bool:
    return value is not None and value.origin is Origin.AGE_TABLE


def _at_each_age(values: list[Value | None]) -> dict[str, list[Any]]:
    return {
        "typical": [
            None if value is None or not _tabled(value) else round(value.cm, DECIMALS) for value in values
        ],
        "held": [None if value is None else value.held or None for value in values],
    }
