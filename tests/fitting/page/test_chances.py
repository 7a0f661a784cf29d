"""Chances in the script: the normal distribution, and events put together, as Python has them."""

from __future__ import annotations

import json
import math
import random
from collections.abc import Iterator
from statistics import NormalDist
from typing import Any

import numpy as np
import pytest

from schematics.fitting.page.fit_page import asset
from schematics.units import HAIR
from schematics.wearer.events import Event, all_of, any_of, events_json, over_nought_event
from schematics.wearer.normal import both_below
from tests.fitting.page.browser import Browser, Tab

ERRORS = 6


@pytest.fixture(scope="module")
def tab(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Tab]:
    empty = tmp_path_factory.mktemp("chances") / "empty.html"
    empty.write_text("<!DOCTYPE html><title>empty</title>", encoding="utf-8")
    opened = browser.open(empty)
    data = json.dumps({"chances": events_json(), "hair": HAIR})
    parts = "\n".join(asset(f"{name}.js") for name in ("normal", "events"))
    opened.run(f"{parts}\nvar DATA = {data}; null")
    yield opened
    opened.close()


def test_the_normal_distribution_is_that_of_the_standard_library(tab: Tab) -> None:
    at = [each / 10 for each in range(-80, 81)]
    found = tab.run(f"{json.dumps(at)}.map(below)")
    assert found == pytest.approx([NormalDist().cdf(each) for each in at], abs=1e-14)
    chances = [each / 200 for each in range(1, 200)]
    deviates = tab.run(f"{json.dumps(chances)}.map((each) => deviateOf(each, DATA.chances.normal))")
    assert deviates == pytest.approx([NormalDist().inv_cdf(each) for each in chances], abs=5e-4)


def test_two_that_go_together(tab: Tab) -> None:
    """At nought the chance is 1/4 + asin(correlation) / 2 pi (Sheppard 1899); elsewhere it is Python's."""
    correlations = [-1.0, -0.99, -0.5, 0.0, 0.3, 0.9, 0.999, 1.0]
    at_nought = tab.run(
        f"{json.dumps(correlations)}.map((each) => bothBelow(0, 0, each, DATA.chances.normal))"
    )
    assert at_nought == pytest.approx([0.25 + math.asin(each) / math.tau for each in correlations], abs=1e-4)
    dice = random.Random(7)
    cases = [(dice.uniform(-3, 3), dice.uniform(-3, 3), dice.uniform(-1, 1)) for _ in range(200)]
    found = tab.run(f"{json.dumps(cases)}.map((each) => bothBelow(...each, DATA.chances.normal))")
    assert found == pytest.approx([float(both_below(*each)) for each in cases], abs=1e-9)


def margins(dice: random.Random) -> list[tuple[float, list[float]]]:
    """Some margins and how much each error moves them; now and then one that is certain, or like another."""
    found: list[tuple[float, list[float]]] = []
    for _ in range(dice.randrange(1, 5)):
        sure = dice.random() < 0.15
        slopes = [0.0 if sure else dice.gauss(0, 1) for _ in range(ERRORS)]
        if found and dice.random() < 0.15:
            slopes = [2 * each for each in found[0][1]]
        found.append((dice.gauss(0, 2), slopes))
    return found


def told(event: Event) -> list[Any]:
    return [float(event.deviates), float(event.margin_cm), float(event.sd_cm), *map(float, event.shares)]


TOLD = "({ deviates, margin, sd, shares }) => [deviates, margin, sd, ...shares]"


@pytest.mark.parametrize(("word", "together"), [("allOf", all_of), ("anyOf", any_of)])
def test_events_are_put_together_as_python_does(tab: Tab, word: str, together: Any) -> None:
    dice = random.Random(8)
    cases = [margins(dice) for _ in range(300)]
    event = f"(margins) => {word}(margins.map(([margin, slopes]) => overNought(margin, slopes, DATA)), DATA)"
    found = tab.run(f"{json.dumps(cases)}.map({event}).map({TOLD})")
    for case, said in zip(cases, found, strict=True):
        expected = together([over_nought_event(margin, np.array(slopes)) for margin, slopes in case])
        assert said == pytest.approx(told(expected), abs=1e-6), case


def test_what_is_not_known_is_not_over_nought(tab: Tab) -> None:
    assert tab.run("overNought(NaN, [NaN, NaN], DATA).deviates") == -events_json()["certain"]
