"""The page and Python say the same of the same child: every size, every check, and the size advised."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from schematics.checks.evaluation import evaluate
from schematics.checks.rules.sentence import Answer
from schematics.fitting.advice_words import advised_sentence, amiss_sentences, left_open
from schematics.fitting.fitting import other_sizes
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.measured import at_end
from schematics.fitting.page.fit_page import asset
from schematics.fitting.sizing import SizeFit, best, size_fit
from schematics.wearer.body import Origin, WearerSpec
from schematics.wearer.expr import End
from tests.examples import thorough
from tests.fitting.page.browser import Browser
from tests.fitting.page.children import (
    FILL_IN,
    Child,
    Sizes,
    answers_of,
    at_the_limit,
    of_long_arms,
    random_children,
    ruled,
)
from tests.fitting.page.conftest import few_sizes, few_written
from tests.shipped import SPECS

DEMOS = [path.stem for path in SPECS if path.stem != "first-draft"]


def said_by_the_page(
    browser: Browser, page: Path, children: list[Child], reckoned: str = "() => []"
) -> tuple[list[dict[str, Any]], list[Any]]:
    """What it says of each, and what a script reckons of each in the parts of its own."""
    tab = browser.open(page)
    said: list[dict[str, Any]] = tab.run(f"({FILL_IN})({json.dumps([each.typed for each in children])})")
    tab.collect()
    assert tab.complaints == []
    tab.run("\n".join(asset(f"{name}.js") for name in PARTS) + "\nnull")
    known = [{"own": each.own, "age": each.age, "gauge": each.gauge} for each in children]
    found: list[Any] = tab.run(f"({reckoned})({json.dumps(known)})")
    tab.close()
    return said, found


SURENESS = """
(children) => {
  const data = JSON.parse(document.getElementById("data").textContent);
  return children.map(({ own, age, gauge }) => {
    const inputs = completed(own, age ?? NaN, data);
    const kinds = ["stitches", "rows"].filter(() => gauge !== null);
    const counted = kinds.map((kind, at) => [kind, readGauge(gauge[at], "cm", kind, data)]);
    const doubt = inDoubt(inputs, fabricsAt(Object.fromEntries(counted), data), data);
    const chances = data.sizes.map((size) => {
      const sure = Object.entries(surenessOf(size, inputs, doubt, data));
      return [size.name, Object.fromEntries(sure.map(([code, { chance }]) => [code, chance]))];
    });
    const sds = Object.keys(ENDS).map((end) => {
      const bodies = Object.entries(completed(own, age ?? NaN, data, end).body);
      return bodies.filter(([, { origin }]) => origin === "estimate").map(([name, { sd }]) => [name, sd]);
    });
    return { chances: Object.fromEntries(chances), sds: sds.map(Object.fromEntries) };
  });
}
""".replace("Object.keys(ENDS)", f"{[end.value for end in End]}")
"""The chance the page gives every rule in every size; how far off estimates may be at each end of a child."""

PARTS = ("trees", "garment", "numbers", "ages", "wearer", "normal", "events", "sureness")
"""The parts of the script that know nothing of the form."""


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.parametrize("name", DEMOS if thorough() else ["tidepool"])
def test_the_page_and_fit_agree(browser: Browser, tmp_path: Path, name: str) -> None:
    """Verdict, chance, size advised and every sentence in both units, at odd gauges; of an age alone."""
    design, page = few_sizes(name), few_written(name, tmp_path)
    seed, count = 20 + DEMOS.index(name), 50 if thorough() else 2
    children = random_children(design, count, seed) + random_children(design, count, seed + 9, odd_gauge=True)
    ages = (0.25, 1.0, 2.0, 4.5, 9.0, 18.0) if thorough() else (0.25, 18.0)
    children += [Child(unit=design.unit, texts={}, age_text=f"{age:g}") for age in ages]
    children += [*at_the_limit(design), *of_long_arms()]
    said, chances = said_by_the_page(browser, page, children, SURENESS)
    sizes, seen, hows, at_limit = Sizes(design), set(), set(), False
    for child, found, sure in zip(children, said, chances, strict=True):
        assert found["problems"] == [], child
        fits = sizes.fits(child)
        answers = in_rules(found["answers"], fits)
        assert {"answers": answers, "advised": found["advised"]} == answers_of(fits), child
        assert found["summary"] == advised_words(best(fits)), child
        assert found["amiss"] == amiss_sentences(best(fits).reported), child
        hows.add(best(fits).how)
        for end, sds in zip(End, sure["sds"], strict=True):
            values = at_end(fits[0].case.wearer, end).values
            estimates = {body: each.sd_cm for body, each in values.items() if each.origin is Origin.ESTIMATE}
            assert sds == pytest.approx(estimates), (child, end)
        others = other_sizes(design, fits, fits[0].case.wearer)
        assert found["open"] == (left_open(others) if others else ""), child
        assert_told(found["sentences"], fits, child)
        for fit in fits:
            for point, finding in ruled(fit):
                seen.add(point.answer.name)
                at_limit |= "It is right at its limit" in finding.full_sentence
                if point.answer is not Answer.UNKNOWN and finding.certainty is not None:
                    chance = finding.certainty.holds_fraction
                    assert sure["chances"][fit.name][point.code] == pytest.approx(chance, abs=0.005), (
                        child,
                        fit.name,
                    )
    assert seen == {"GOOD", "UNKNOWN", "MIND", "STOP"}, "the children do not try every answer"
    assert at_limit, "no child is at a limit"
    assert hows >= {"right", "unsure", "mind"}, "the children are not advised in every way"


def advised_words(fit: SizeFit) -> str:
    """What is advised in a sentence."""
    how = "stop" if fit.is_not_hers else fit.how
    return advised_sentence(fit.name, how, unknown=bool(fit.unknown))


def assert_told(said: dict[str, dict[str, str]], fits: Sequence[SizeFit], child: Child) -> None:
    """Every sentence of a rule, with how sure it is where nothing that the rule may need is missing."""
    for fit in fits:
        for point, finding in ruled(fit):
            whole = fit.case.inputs.gaps.isdisjoint(fit.case.judges[point.code].needs)
            words = said[fit.name][point.code]
            assert words == finding.full_sentence if whole else words.startswith(finding.sentence), (
                child,
                fit.name,
            )


def in_rules(by_size: dict[str, dict[str, str]], fits: Sequence[SizeFit]) -> dict[str, dict[str, str]]:
    """What is said of rules on the wearer, without what is said of how a size is made."""
    codes = {point.code for point in fits[0].points}
    return {size: {code: by[code] for code in by if code in codes} for size, by in by_size.items()}


FIGURES = """
(children) => {
  const data = JSON.parse(document.getElementById("data").textContent);
  return children.map(({ own, age }) => data.sizes.map((size) => {
    const facts = factsOf(size, lengthsOf(data.fabrics));
    const known = { ...completed(own, age ?? NaN, data), facts, unknown: false };
    const figure = (tree) => [worked(tree, known)].map((cm) => (Number.isFinite(cm) ? cm : null))[0];
    return data.rules.rules.map(({ figures }) => [figure(figures.body_cm), figure(figures.garment_cm)]);
  }));
}
"""
"""What the page reckons with for every size and rule: what is asked for and what there is, in cm."""


@pytest.mark.thorough
def test_the_page_says_what_check_says_of_that_child_in_a_spec(browser: Browser, few: Path) -> None:
    """Every code has the same severity, and the page has the figures of `fit`, which has those of `check`."""
    design = few_sizes()
    children = random_children(design, 40 if thorough() else 3, 9)
    said, figures = said_by_the_page(browser, few, children, FIGURES)
    for child, page, reckoned in zip(children, said, figures, strict=True):
        spec = WearerSpec(age_years=child.age, own=child.own)
        for_her = replace(design, sizes=tuple(replace(size, wearer=spec) for size in design.sizes))
        for result, by_rule in zip(evaluate(for_her), reckoned, strict=True):
            severities = {
                each.code: "mind" if each.unsure else each.severity.value for each in result.findings
            }
            answers = page["answers"][result.size.name]
            assert answers
            for code, answer in answers.items():
                assert severities[code] == answer.replace("unknown", "mind"), (child, result.size.name, code)
            fit = size_fit(design, size_at_gauge(design, result.size), result.wearer)
            expected = [number for point in fit.points for number in (point.body_cm, point.garment_cm)]
            found = [number for pair in by_rule for number in pair]
            assert [each is None for each in found] == [each is None for each in expected]
            assert [each or 0 for each in found] == pytest.approx([each or 0 for each in expected], abs=1e-6)
