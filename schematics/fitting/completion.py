"""What is missing of a measured wearer, as data for a page: age table and `schematics.wearer.estimates`."""

from __future__ import annotations

from typing import Any

from schematics.wearer.body import Body, BodyValue, Origin, WearerSpec
from schematics.wearer.estimates import estimates_of
from schematics.wearer.expr import expr_json, terms
from schematics.wearer.resolve import ADULT, SCALED_TO_HEIGHT, resolve

AGE_STEP_YEARS = 0.25
OLDEST_YEARS = 18.0
AGES = tuple(number * AGE_STEP_YEARS for number in range(int(OLDEST_YEARS / AGE_STEP_YEARS) + 1))
DECIMALS = 9
"""Fewer than could tell two lengths apart that a comparison does."""


def completion_json() -> dict[str, Any]:
    """What is missing of a measured wearer: estimates and age table as plain JSON values.

    From what is known to a whole wearer, in this order:

    1. where the age is known, the typical values of the age table;
    2. without those of ``not_with_own_height`` where the height was measured;
    3. the wearer's own measurements in their place;
    4. whatever is still missing from the estimates, in their order; a tree that comes to no number leaves its
       measurement unknown.

    It is one person (see `schematics.wearer.body.Wearer`), so that each value stands for its low and its high
    end, too.

    ``ages`` are years; ``by_age`` has for each body measurement its ``typical`` value at each of them, null
    where the table has none, and as ``held`` the end of the table that answers for an age beyond it, in
    words, else null. ``adult`` is the tree of `schematics.wearer.resolve.ADULT`. ``terms`` are trees the
    estimates may name.
    """
    estimates = estimates_of("both")
    wearers = [resolve(WearerSpec(age_years=age), "page") for age in AGES]
    by_age = {
        body.value: _at_each_age([wearer.get(body) for wearer in wearers])
        for body in Body
        if any(_tabled(wearer.get(body)) for wearer in wearers)
    }
    return {
        "terms": {name: expr_json(expr) for name, expr in terms(each.cm for each in estimates).items()},
        "estimates": [{"body": each.body.value, "value": expr_json(each.cm)} for each in estimates],
        "adult": expr_json(ADULT),
        "not_with_own_height": [body.value for body in SCALED_TO_HEIGHT],
        "ages": list(AGES),
        "by_age": by_age,
    }


def _tabled(value: BodyValue | None) -> bool:
    return value is not None and value.origin is Origin.AGE_TABLE


def _at_each_age(values: list[BodyValue | None]) -> dict[str, list[Any]]:
    return {
        "typical": [
            None if value is None or not _tabled(value) else round(value.cm, DECIMALS) for value in values
        ],
        "held": [None if value is None else value.held or None for value in values],
    }
