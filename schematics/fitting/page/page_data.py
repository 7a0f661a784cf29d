"""What the page computes from: the rules of fit, the facts of every size, and all its words.

The page holds no limit, no formula and no figure of its own; whatever it says follows from this.
"""

from __future__ import annotations

import math
from collections.abc import Sequence, Set
from dataclasses import replace
from typing import Any

from schematics.analysis.yarn.accuracy import ALIKE
from schematics.checks import check_making, check_size
from schematics.checks.evaluation import Result, case_of
from schematics.checks.finding import Severity
from schematics.checks.rules.rule import Rule, rules_json
from schematics.checks.rules.sentence import Answer, sentence_json
from schematics.checks.rules.size_rules import asked_bodies, size_rules
from schematics.checks.wording import PERCENT_DECIMALS
from schematics.crochet.fabric import LOOSEST_GAUGE, MOST_PULLS, MOST_STRETCH, TIGHTEST_GAUGE
from schematics.design.design import Design, Parts
from schematics.fitting.completion import completion_json
from schematics.fitting.flaws import FLAW_DECIMALS, STOP_FLAWS, TOO_MANY_FLAWS
from schematics.fitting.gauge import USUAL_SWATCH_CM
from schematics.fitting.gauge_text import LOOSEST, TIGHTEST
from schematics.fitting.page.chances import chances_json
from schematics.fitting.page.counts_data import count_rows, own_counts
from schematics.fitting.page.figure_data import figure_json, worn_json
from schematics.fitting.page.guide_words import NUMBERS, VIEWS, GuideView
from schematics.fitting.page.halfway_data import halfway_json, worked_rows
from schematics.fitting.page.making_data import AT_GAUGE, making_json, making_words
from schematics.fitting.page.page_words import REASON_WORDS, WORDS
from schematics.fitting.page.size_trees import fabrics_json, facts_json, size_trees, traced_parts
from schematics.fitting.sizing import HEM, HOW, REACH, TIE, far_off, meant_cm, meant_fact, score_of
from schematics.fitting.stretch_text import STRETCH_EXAMPLE, STRETCH_PATTERN
from schematics.fitting.under_three import UNDER_THREE
from schematics.reading.spellings import (
    AGE_PATTERN,
    GAUGE_PATTERN,
    LENGTH_PATTERN,
    MONTHS_PER,
    NUMBER_PATTERN,
    SMALLER,
    UNIT_WORDS,
    VULGAR,
)
from schematics.units import (
    CM_PER,
    CM_PER_INCH,
    GAUGE_STEP,
    HAIR,
    NEAR,
    Grain,
    ShortGrain,
    Unit,
    decimals_of,
    step_of,
)
from schematics.wearer.asking import asking_json
from schematics.wearer.body import Body
from schematics.wearer.expr import Expr, Fact, expr_json
from schematics.wearer.plausible import plausible_cm
from schematics.wearer.standard_deviations import READING_COUNT, stretch_fraction
from schematics.wearer.traced import Traced, tree_of

STORE = "schematics-fit"
"""Where the browser keeps what it is asked to keep."""


def _unit(unit: Unit, typed_step: float) -> dict[str, Any]:
    span_cm, span = unit.gauge_span
    steps: dict[str, dict[str, float]] = {}
    for grain in (*Grain, *ShortGrain):
        steps[grain.value] = {"step": step_of(unit, grain), "decimals": decimals_of(grain)}
    return {
        "name": unit.words,
        "cm": unit.to_cm(1.0),
        "typed": True,
        "typed_step": typed_step,
        "steps": steps,
        "in_fractions": unit is Unit.IN,
        "span_cm": span_cm,
        "span": span,
        "gauge_step": GAUGE_STEP,
    }


SPELLINGS: dict[str, Any] = {
    "number": NUMBER_PATTERN,
    "length": LENGTH_PATTERN,
    "gauge": GAUGE_PATTERN,
    "age": AGE_PATTERN,
    "stretch": rf"^{STRETCH_PATTERN}$",
    "months": MONTHS_PER,
    "units": UNIT_WORDS,
    "smaller": SMALLER,
    "vulgar": VULGAR,
}
"""How entries are read, as `schematics.reading.spellings` does."""

UNITS: dict[str, Any] = {
    "cm": _unit(Unit.CM, 0.1),
    "in": _unit(Unit.IN, 0.01),
    **{
        unit: {"name": unit, "cm": cm, "typed": False}
        for unit, cm in CM_PER.items()
        if unit not in list(Unit)
    },
}
"""The units an entry may be in; those that are ``typed`` can be chosen for all of them.

``steps`` are what lengths are rounded to, by their grain, and with how many decimals; all but the finest are
written as fractions where there are ``parts``. A gauge is counted over ``span_cm``.
"""


def page_data(design: Design, results: Sequence[Result]) -> dict[str, Any]:
    """The data as plain JSON values; the same design gives the same.

    - ``hair``: the float error that never decides a comparison;
    - ``answers``: the answers in rising order of weight; a size's verdict is the worst of its rules',
      with ``unknown`` counted as ``mind``;
    - ``rules``: see `rules_json`, trees as in `schematics.wearer.expr`;
    - ``chances``: see `chances_json`;
    - ``wearer``: how to fill in what is missing of a wearer, see `schematics.fitting.completion`;
    - ``fabrics``: see `fabrics_json`;
    - ``sizes``: in the spec's order, each with ``name``, ``facts`` as trees over the fabrics, see
      `facts_json`, and what is wrong with how it is made, and with ties at the neck of those it is for;
    - ``gauge``: the pattern's gauge of the body fabric to 10 cm, its name, the times the pattern's and the
      counts to 10 cm between which a maker's is taken for no slip of the pen, and how it is counted: over
      ``usual_cm`` where she says it to ``short_cm`` or less, give or take ``reading_count``.
    """
    rules = size_rules(design.limits)
    body, parts = design.parts.body, traced_parts(design.parts)
    return {
        "hair": HAIR,
        "near": NEAR,
        "answers": [answer.name.lower() for answer in Answer],
        "rules": rules_json(rules),
        "chances": chances_json(rules, design.limits),
        "wearer": completion_json(),
        "sizes": [_size(design, result, {rule.code for rule in rules}, parts) for result in results],
        "gauge": {
            "fabric": body.name,
            "stitches": 10 * body.stitches_per_cm,
            "rows": 10 * body.rows_per_cm,
            "span_cm": Unit.CM.gauge_span[0],
            "loosest": LOOSEST,
            "tightest": TIGHTEST,
            "fewest": LOOSEST_GAUGE,
            "most": TIGHTEST_GAUGE,
            "usual_cm": USUAL_SWATCH_CM,
            "short_cm": CM_PER_INCH,
            "reading_count": READING_COUNT,
        },
        "fabrics": fabrics_json(design),
        "store": f"{STORE}/{design.slug}",
        "unit": design.unit.value,
        "units": UNITS,
        "spellings": SPELLINGS,
        "asking": asking_json([body for view in asked(design) for body in view.bodies]),
        "names": {body.value: body.words for body in Body},
        "bodies": {body.value: _body(body) for view in asked(design) for body in view.bodies},
        "reasons": {rule.code: sentence_json(rule.sentence) for rule in rules},
        "what": {rule.code: rule.sentence.subject for rule in rules},
        "asks": {rule.code: [body.value for body in rule.asks or rule.needs] for rule in rules},
        "percents": [{"step": 10**-decimals, "decimals": decimals} for decimals in PERCENT_DECIMALS],
        "tie": TIE,
        "how": [[word, expr_json(tree)] for word, tree in HOW.items()],
        "score": expr_json(score_tree(rules)),
        "flaws": {"stop": STOP_FLAWS, "too_many": TOO_MANY_FLAWS, "decimals": FLAW_DECIMALS},
        "far_off": expr_json(far_off(_ease(rules))),
        "reason_rules": list(REASON_WORDS),
        "figure": figure_json() | {"sag": 1 + design.limits.hem_sag_fraction},
        "alike": ALIKE,
        "counts": count_rows(design, results),
        "halfway": halfway_json(results[0].garment),
        "stretch": {
            "most": MOST_STRETCH,
            "most_pulls": MOST_PULLS,
            "example": STRETCH_EXAMPLE.strip("'"),
            "error": expr_json(tree_of(stretch_fraction(Traced(Fact("pulls"))))),
        },
        "young": expr_json(UNDER_THREE),
        "making": making_words(design),
        "words": WORDS,
    }


def _size(design: Design, result: Result, ruled: Set[str], parts: Parts) -> dict[str, Any]:
    others = ruled | AT_GAUGE
    of_the_pattern = [each for each in result.findings if each.code not in others]
    making = {each.code for each in check_making(case_of(design, result))}
    return {
        "name": result.size.name,
        **facts_json(size_trees(design, result, parts)),
        "meant": {
            meant_fact(code): None if math.isnan(cm) else cm
            for code, cm in meant_cm(design, result.size).items()
        },
        "worn": worn_json(result.garment),
        "own_counts": own_counts(design, result, parts),
        "worked": worked_rows(design, result),
        "made": making_json(design, result, parts),
        "pattern": [
            {
                "code": each.code,
                "severity": each.severity.value,
                "sentences": sentences,
                "weighs": each.code in making,
            }
            for each, sentences in zip(result.findings, _in_every_unit(design, result), strict=True)
            if each in of_the_pattern and each.severity is not Severity.GOOD
        ],
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
    return score_of(_ease(rules))


def _ease(rules: Sequence[Rule]) -> dict[str, Expr]:
    return {rule.code: rule.figures["ease_cm"] for rule in rules if rule.code in (REACH, HEM)}


def _body(body: Body) -> dict[str, Any]:
    low, high = plausible_cm(body)
    return {"name": body.words, "number": NUMBERS[body], "low_cm": low, "high_cm": high}
