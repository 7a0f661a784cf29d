"""What is missing of a measured wearer, as data for a page: age table and `schematics.wearer.estimates`."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from schematics.wearer.ages import AgeSeries
from schematics.wearer.body import Body
from schematics.wearer.estimates import estimates_of
from schematics.wearer.expr import expr_json, terms
from schematics.wearer.growth import head_series
from schematics.wearer.resolve import ADULT, OLDEST_AGE_YEARS, SCALED_TO_HEIGHT
from schematics.wearer.standard_deviations import OWN_CM, spread_sds
from schematics.wearer.survey import surveyed_ages, surveyed_series

DECIMALS = 9
"""Fewer than could tell two lengths apart that a comparison does."""


def completion_json() -> dict[str, Any]:
    """What is missing of a measured wearer: estimates and age table as plain JSON values.

    From what is known to a whole wearer, in this order:

    1. where the age is known, the typical values of the age table;
    2. without those of ``not_with_own_height`` where the height was measured;
    3. the wearer's own measurements in their place;
    4. whatever is still missing from the estimates, in their order: the first derivation that comes to a
       number; where none does the measurement stays unknown.

    It is one person (see `schematics.wearer.body.Wearer`), so that each value stands for its low and its high
    end, too.

    ``by_age`` has the readings of each body measurement: series of ``low``, ``typical`` and ``high`` at
    ``years``, each from and until an age or null, straight between them in the age or its square ``root``,
    level beyond them; of ages below ``from_years`` there is none. Of several series the lowest low end, the
    mean and the highest high end count, of one that has ended its last high end only. ``spread_sds`` is how
    many standard deviations the ends are apart, ``held`` the ages beyond which the table's end answers, and
    which, in words. ``adult`` is the tree of `schematics.wearer.resolve.ADULT`. ``terms`` are trees the
    estimates may name, ``sd`` of one is how much of itself it may be off, ``own_sd_cm`` how far a length
    that was measured may be.
    """
    estimates = estimates_of("both")
    surveyed = {body: ((each,), False) for body, each in surveyed_series("both").items()}
    tables = {**surveyed, Body.HEAD_GIRTH: (tuple(head_series().values()), True)}
    return {
        "terms": {name: expr_json(expr) for name, expr in terms(each.cm for each in estimates).items()},
        "estimates": [
            {
                "body": each.body.value,
                "ways": [
                    {"value": expr_json(derivation.cm), "sd": derivation.sd_fraction}
                    for derivation in each.derivations
                ],
            }
            for each in estimates
        ],
        "adult": expr_json(ADULT),
        "not_with_own_height": [body.value for body in SCALED_TO_HEIGHT],
        "own_sd_cm": OWN_CM,
        "oldest_years": OLDEST_AGE_YEARS,
        "by_age": {body.value: _table(body, *tables[body]) for body in Body if body in tables},
    }


def _table(body: Body, series: Sequence[AgeSeries], root: bool) -> dict[str, Any]:
    held = surveyed_ages(body, "both")
    (first, *others) = series
    return {
        "from_years": 0.0 if others or first.from_years is None else first.from_years,
        "series": [_series(each) for each in series],
        "root": root,
        "spread_sds": spread_sds(body),
        "held": held and dict(zip(("from_years", "to_years", "youngest", "oldest"), held, strict=True)),
    }


def _series(series: AgeSeries) -> dict[str, Any]:
    readings = series.readings
    return {
        "from_years": series.from_years,
        "until_years": series.until_years,
        "years": [each.age_years for each in readings],
        "low": [round(each.low_cm, DECIMALS) for each in readings],
        "typical": [round(each.cm, DECIMALS) for each in readings],
        "high": [round(each.high_cm, DECIMALS) for each in readings],
    }
