"""What the page computes from: the rules of fit, the facts of every size, and all its words.

The page holds no limit, no formula and no figure of its own; whatever it says follows from this.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from schematics.checks import check_size
from schematics.checks.evaluation import Result, case_of
from schematics.checks.finding import Severity
from schematics.checks.rules.rule import Rule
from schematics.checks.rules.sentence import sentence_json
from schematics.checks.rules.size_rules import asked_bodies, size_rules
from schematics.checks.tape import GAP_ERRORS
from schematics.checks.wording import PERCENT_DECIMALS
from schematics.design.design import Design
from schematics.fitting.judging_data import fit_data
from schematics.fitting.page.guide_words import NUMBERS, VIEWS, GuideView
from schematics.fitting.page.page_words import WORDS
from schematics.fitting.plausible import plausible_cm
from schematics.fitting.sizing import REACH, making_score, score_of
from schematics.units import Grain, Unit, decimals_of, step_of
from schematics.wearer.body import Body
from schematics.wearer.expr import Expr, expr_json

STORE = "schematics-fit"
"""Where the browser keeps what it is asked to keep."""


def _unit(unit: Unit, typed_step: float) -> dict[str, Any]:
    span_cm, span = unit.gauge_span
    steps = {grain.value: step_of(unit, grain) for grain in Grain}
    return {
        "name": unit.words,
        "cm": unit.to_cm(1.0),
        "typed": True,
        "typed_step": typed_step,
        "steps": {name: {"step": step, "decimals": decimals_of(step)} for name, step in steps.items()},
        "parts": round(1 / steps["usual"]) if unit is Unit.IN else None,
        "span_cm": span_cm,
        "span": span,
        "gap_error": GAP_ERRORS[unit],
        "gauge_step": 0.01,
    }


UNITS: dict[str, Any] = {
    "cm": _unit(Unit.CM, 0.1),
    "in": _unit(Unit.IN, 0.01),
    "mm": {"name": "mm", "cm": 0.1, "typed": False},
}
"""The units an entry may be in; those that are ``typed`` can be chosen for all of them.

``steps`` are what lengths are rounded to; all but the finest are written as fractions where there are
``parts``. A gap printed is no farther than ``gap_error`` from the exact one.
A gauge is counted over ``span_cm``.
"""


def page_data(design: Design, results: Sequence[Result]) -> dict[str, Any]:
    """The data as plain JSON values; the same design gives the same."""
    rules = size_rules(design.limits)
    data = fit_data(design, results)
    data["gauge"]["span_cm"] = Unit.CM.gauge_span[0]
    codes = {rule.code for rule in rules}
    for size, result in zip(data["sizes"], results, strict=True):
        of_the_pattern = [each for each in result.findings if each.code not in codes]
        size["making"] = making_score(of_the_pattern)
        size["pattern"] = [
            {"code": each.code, "severity": each.severity.value, "sentences": sentences}
            for each, sentences in zip(result.findings, _in_every_unit(design, result), strict=True)
            if each in of_the_pattern and each.severity is not Severity.GOOD
        ]
    return data | {
        "store": f"{STORE}/{design.slug}",
        "unit": design.unit.value,
        "units": UNITS,
        "names": {body.value: body.words for body in Body},
        "bodies": {body.value: _body(body) for view in asked(design) for body in view.bodies},
        "reasons": {rule.code: sentence_json(rule.sentence) for rule in rules},
        "what": {rule.code: rule.sentence.subject for rule in rules},
        "asks": {rule.code: [body.value for body in rule.asks or rule.needs] for rule in rules},
        "percents": [{"step": 10**-decimals, "decimals": decimals} for decimals in PERCENT_DECIMALS],
        "score": expr_json(score_tree(rules)),
        "words": WORDS,
    }


def _in_every_unit(design: Design, result: Result) -> list[dict[str, str]]:
    """The sentences of a result's findings by unit."""
    by_unit = [
        [each.sentence for each in check_size(case_of(replace(design, unit=unit), result))] for unit in Unit
    ]
    return [dict(zip(Unit, sentences, strict=True)) for sentences in zip(*by_unit, strict=True)]


def asked(design: Design) -> tuple[GuideView, ...]:
    """The drawings of the guide with the measurements that the rules need, and the height for estimates."""
    needed = asked_bodies(design.limits)
    views = (replace(view, bodies=tuple(body for body in view.bodies if body in needed)) for view in VIEWS)
    return tuple(view for view in views if view.bodies)


def score_tree(rules: Sequence[Rule]) -> Expr:
    """The score of a size by these rules, see `schematics.fitting.sizing.score_of`."""
    return score_of(next(rule for rule in rules if rule.code == REACH).figures["ease_cm"])


def _body(body: Body) -> dict[str, Any]:
    low, high = plausible_cm(body)
    return {"name": body.words, "number": NUMBERS[body], "low_cm": low, "high_cm": high}
