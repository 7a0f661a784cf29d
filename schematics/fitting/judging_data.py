"""Everything a page needs to judge a wearer by the same rules: written by Python, only read there."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

from schematics.checks.evaluation import Result
from schematics.checks.rules.garment_numbers import facts
from schematics.checks.rules.rule import rules_json
from schematics.checks.rules.sentence import Answer
from schematics.checks.rules.size_rules import size_rules
from schematics.design.design import Design
from schematics.fitting.completion import completion_json
from schematics.fitting.gauge_table import facts_by_gauge, gauge_table_json
from schematics.units import HAIR


def fit_data(design: Design, results: Sequence[Result]) -> dict[str, Any]:
    """The data as plain JSON values.

    - ``hair``: the float error that never decides a comparison;
    - ``answers``: the answers in rising order of weight; a size's verdict is the worst of its rules',
      with ``unknown`` counted as ``mind``;
    - ``rules``: see `rules_json`, trees as in `schematics.wearer.expr`;
    - ``wearer``: how to fill in what is missing of a wearer, see `schematics.fitting.completion`;
    - ``sizes``: in the spec's order, each with ``name`` and ``facts`` at the pattern's gauge, exact;
    - ``gauge``: the pattern's gauge of the body fabric to 10 cm, its name, and the facts of every size at
      other gauges, see `gauge_table_json`.
    """
    body = design.parts.body
    return {
        "hair": HAIR,
        "answers": [answer.name.lower() for answer in Answer],
        "rules": rules_json(size_rules(design.limits)),
        "wearer": completion_json(),
        "sizes": [
            {"name": each.size.name, "facts": _finite(facts(each.garment, each.freedom))} for each in results
        ],
        "gauge": {
            "fabric": body.name,
            "stitches": 10 * body.stitches_per_cm,
            "rows": 10 * body.rows_per_cm,
            "other": gauge_table_json(facts_by_gauge(design)),
        },
    }


def _finite(numbers: Mapping[str, float]) -> dict[str, float | None]:
    return {name: number if math.isfinite(number) else None for name, number in numbers.items()}
