"""What the page works out from how sure each rule is: margins of failure, and the numbers of chances."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from schematics.checks.certainty import LEAST_SD_CM
from schematics.checks.rules.garment_numbers import SMALLER_OF_TWO
from schematics.checks.rules.rule import Rule
from schematics.design.limits import Limits
from schematics.wearer.events import events_json
from schematics.wearer.expr import expr_json
from schematics.wearer.margins import Margins


def chances_json(rules: Sequence[Rule], limits: Limits) -> dict[str, Any]:
    """Plain JSON values.

    ``margins`` are trees of numbers that are over nought where a comparison is true; ``fails`` says for each
    rule by its code when it does not hold: the place of a margin, or ``["and", ...]``, ``["or", ...]`` of
    such. What holds with a smaller chance than ``sure_fraction`` is to be minded; a margin in doubt by less
    than ``least_sd_cm`` is left out. The rest is `schematics.wearer.events.events_json`.
    """
    margins = Margins(SMALLER_OF_TWO)
    truths = {rule.code: margins.truth(rule.fails) for rule in rules}
    return {
        "margins": [expr_json(tree) for tree in margins.trees],
        "fails": {code: truth.json() for code, truth in truths.items()},
        "sure_fraction": limits.sure_fraction,
        "least_sd_cm": LEAST_SD_CM,
        **events_json(),
    }
