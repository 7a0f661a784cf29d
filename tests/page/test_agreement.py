"""The page and Python say the same of the same child: every size, every check, and the size advised."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from schematics.design import Design
from schematics.fit.gauge_table import steps
from schematics.spec import read_design
from tests.page.browser import Browser
from tests.page.children import FILL_IN, Child, Sizes, random_children
from tests.page.conftest import SPECS

AGES = [1.25, 2.0, 3.5, 4.0, 5.5, 6.0, 7.0, 8.5, 10.0, 12.0, 15.5, 18.0]


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


def test_three_hundred_random_children_get_the_same_verdicts(browser: Browser, tidepool: Path) -> None:
    design = read_design(SPECS / "tidepool.yaml")
    assert_agreement(browser, tidepool, design, random_children(design, 300, 6, AGES, None))


def test_so_do_children_whose_maker_has_another_gauge(browser: Browser, tidepool: Path) -> None:
    design = read_design(SPECS / "tidepool.yaml")
    body = design.parts.body
    gauges = steps(10 * body.stitches_per_cm)[::4], steps(10 * body.rows_per_cm)[::3]
    assert_agreement(browser, tidepool, design, random_children(design, 60, 7, AGES, gauges))


def test_and_those_of_a_folded_poncho(browser: Browser, driftwood: Path) -> None:
    design = read_design(SPECS / "driftwood.yaml")
    assert_agreement(browser, driftwood, design, random_children(design, 60, 8, AGES, None))


@pytest.mark.parametrize("age", [0.25, 1.0, 2.0, 4.5, 9.0, 17.0, 18.0])
def test_an_age_alone_is_enough(browser: Browser, tidepool: Path, age: float) -> None:
    design = read_design(SPECS / "tidepool.yaml")
    alone = Child(unit=design.unit, texts={}, age=age)
    (said,) = said_by_the_page(browser, tidepool, [alone])
    expected = Sizes(design).judged(alone)
    assert {key: said[key] for key in expected} == expected
