"""What the script says of a rule is what the checks say, for every verdict that there is."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from schematics.checks import check_size
from schematics.checks.finding import Case
from schematics.checks.rules.garment_numbers import facts
from schematics.checks.rules.size_rules import size_rules
from schematics.fitting.page.fit_page import asset
from schematics.units import Unit
from schematics.wearer.body import Origin, Stage
from tests.checks.gallery import gallery
from tests.fitting.page.browser import Browser
from tests.fitting.page.conftest import few_data
from tests.shipped import shipped_design

SAY = """
((inputs) => {
  const known = { ...inputs, age_years: NaN, end: "typical", unknown: false, hair: data.hair };
  known.terms = data.rules.terms;
  const said = data.rules.rules.map((rule) => [rule.code, sentence(rule, answered(rule, known), known)]);
  return Object.fromEntries(said);
})
"""


def of_one_person(case: Case, unit: Unit) -> Case:
    """The case for one person, of whom nothing is from a chart's row, in a design of that unit."""
    values = {
        body: replace(value, origin=Origin.OWN if value.origin is Origin.CHART else value.origin)
        for body, value in case.wearer.values.items()
    }
    wearer = replace(case.wearer, person=True, values=values)
    return replace(case, design=replace(case.design, unit=unit), wearer=wearer)


def inputs(case: Case) -> dict[str, Any]:
    """The garment and the wearer, who is one person, as the page has them."""
    numbers = facts(case.garment, case.freedom)
    return {
        "body": {
            body.value: {
                **dict.fromkeys(("low", "typical", "high"), value.cm),
                "origin": value.origin.value,
                "held": value.held or None,
            }
            for body, value in case.wearer.judged.items()
        },
        "facts": {name: number if math.isfinite(number) else None for name, number in numbers.items()},
        "adult": float(case.wearer.stage is Stage.ADULT),
    }


@pytest.mark.slow
@pytest.mark.parametrize("unit", [Unit.CM, pytest.param(Unit.IN, marks=pytest.mark.thorough)])
def test_every_verdict_of_the_gallery_has_one_sentence(browser: Browser, tmp_path: Path, unit: Unit) -> None:
    design = shipped_design("tidepool")
    data = few_data()
    codes = {rule.code for rule in size_rules(design.limits)}
    empty = tmp_path / "empty.html"
    empty.write_text("<!DOCTYPE html><title>empty</title>", encoding="utf-8")
    tab = browser.open(empty)
    scripts = ("trees.js", "rules.js", "numbers.js", "verdict_words.js")
    given = f"var data = {json.dumps(data)}, unit = '{unit.value}';\n"
    tab.run(given + "\n".join(asset(name) for name in scripts) + "\nnull")
    answers = set()
    for label, each in gallery().items():
        case = of_one_person(each, unit)
        assert replace(case.limits, sure_fraction=design.limits.sure_fraction) == design.limits
        found = [finding for finding in check_size(case) if finding.code in codes]
        said = tab.run(f"{SAY}({json.dumps(inputs(case))})")
        assert said == {finding.code: finding.sentence for finding in found}, label
        answers |= {(finding.code, finding.severity) for finding in found}
    tab.close()
    assert len(answers) > 2 * len(codes)
