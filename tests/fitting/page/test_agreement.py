"""The page and Python say the same of the same child: every size, every check, and the size advised."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from schematics.checks.evaluation import evaluate
from schematics.design.design import Design
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.page.fit_page import asset
from schematics.fitting.sizing import size_fit
from schematics.units import Unit
from schematics.wearer.body import WearerSpec
from tests.examples import share
from tests.fitting.page.browser import Browser
from tests.fitting.page.children import FILL_IN, Child, Sizes, random_children
from tests.shipped import shipped_design


def said_by_the_page(browser: Browser, page: Path, children: list[Child]) -> list[dict[str, Any]]:
    tab = browser.open(page)
    said: list[dict[str, Any]] = tab.run(f"({FILL_IN})({json.dumps([each.typed for each in children])})")
    tab.collect()
    tab.close()
    assert tab.complaints == []
    return said


def assert_agreement(browser: Browser, page: Path, design: Design, children: list[Child]) -> None:
    sizes = Sizes(design)
    seen = set()
    for each, said in zip(children, said_by_the_page(browser, page, children), strict=True):
        assert said["problems"] == [], each
        expected = sizes.judged(each)
        assert {key: said[key] for key in expected} == expected, each
        seen |= {answer for answers in said["answers"].values() for answer in answers.values()}
    assert seen == {"good", "unknown", "mind", "stop"}, "the children do not try every answer"


@pytest.mark.slow
@pytest.mark.seeds
def test_random_children_get_the_same_verdicts(browser: Browser, tidepool: Path) -> None:
    design = shipped_design("tidepool")
    assert_agreement(browser, tidepool, design, random_children(design, share(300), 6))


@pytest.mark.slow
def test_so_do_children_whose_maker_has_another_gauge(browser: Browser, tidepool: Path) -> None:
    design = shipped_design("tidepool")
    assert_agreement(browser, tidepool, design, random_children(design, 60, 7, odd_gauge=True))


@pytest.mark.slow
def test_and_those_of_a_folded_poncho(browser: Browser, driftwood: Path) -> None:
    design = shipped_design("driftwood")
    assert_agreement(browser, driftwood, design, random_children(design, 60, 8))


@pytest.mark.slow
@pytest.mark.parametrize("age", [0.25, 1.0, 2.0, 4.5, 9.0, 17.0, 18.0])
def test_an_age_alone_is_enough(browser: Browser, tidepool: Path, age: float) -> None:
    design = shipped_design("tidepool")
    alone = Child(unit=design.unit, texts={}, age_text=f"{age:g}")
    (said,) = said_by_the_page(browser, tidepool, [alone])
    expected = Sizes(design).judged(alone)
    assert {key: said[key] for key in expected} == expected


@pytest.mark.slow
@pytest.mark.parametrize("spec", ["tidepool", "driftwood"])
def test_a_verdict_has_one_sentence(browser: Browser, spec: str, request: pytest.FixtureRequest) -> None:
    """Word for word and to the last decimal, in centimetres and in inches."""
    design = shipped_design(spec)
    sizes, page = Sizes(design), request.getfixturevalue(spec)
    children = random_children(design, 120, 12)
    assert {each.unit for each in children} == set(Unit)
    for child, said in zip(children, said_by_the_page(browser, page, children), strict=True):
        for name, sentences in sizes.sentences(child).items():
            found = {code: words for code, words in said["sentences"][name].items() if code in sentences}
            assert found == sentences, (child, name)


FIGURES = """
(children) => {
  const data = JSON.parse(document.getElementById("data").textContent);
  return children.map(({ own, age }) => data.sizes.map((size) => {
    const facts = factsOf(size, fabricFacts(PATTERNS_GAUGE, data));
    const known = { ...completed(own, age ?? NaN, data), facts, unknown: false };
    const figure = (tree) => [worked(tree, known)].map((cm) => (Number.isFinite(cm) ? cm : null))[0];
    return data.rules.rules.map(({ figures }) => [figure(figures.body_cm), figure(figures.garment_cm)]);
  }));
}
"""
"""What the page reckons with for every size and rule: what is asked for and what there is, in cm."""


@pytest.mark.slow
def test_the_page_says_what_check_says_of_that_child_in_a_spec(browser: Browser, tidepool: Path) -> None:
    """Every code has the same severity, and the page has the figures of `fit`, which has those of `check`."""
    design = shipped_design("tidepool")
    children = random_children(design, 40, 9)
    tab = browser.open(tidepool)
    typed = [{"own": each.own, "age": each.age} for each in children]
    tab.run(asset("trees.js") + asset("garment.js") + asset("ages.js") + asset("wearer.js") + "\nnull")
    figures = tab.run(f"({FIGURES})({json.dumps(typed)})")
    tab.close()
    said = said_by_the_page(browser, tidepool, children)
    for child, page, reckoned in zip(children, said, figures, strict=True):
        spec = WearerSpec(age_years=child.age, own=child.own)
        for_her = replace(design, sizes=tuple(replace(size, wearer=spec) for size in design.sizes))
        for result, by_rule in zip(evaluate(for_her), reckoned, strict=True):
            severities = {each.code: each.severity.value for each in result.findings}
            answers = page["answers"][result.size.name]
            assert answers
            for code, answer in answers.items():
                assert severities[code] == answer.replace("unknown", "mind"), (child, result.size.name, code)
            fit = size_fit(design, size_at_gauge(design, result.size), result.wearer)
            expected = [number for point in fit.points for number in (point.body_cm, point.garment_cm)]
            found = [number for pair in by_rule for number in pair]
            assert [each is None for each in found] == [each is None for each in expected]
            assert [each or 0 for each in found] == pytest.approx([each or 0 for each in expected], abs=1e-6)
