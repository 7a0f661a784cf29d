"""Trees in the script: NumPy's words, numbers and columns of them."""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest

from schematics.fitting.page.fit_page import asset
from schematics.wearer.traced import UFUNCS
from tests.fitting.page.browser import Browser, Tab

OF = {
    "where": lambda truth, one, other: np.where(truth > 0, one, other),
    **{word: getattr(np, name) for name, word in UFUNCS.items()},
}
"""What NumPy makes of columns, by the word in a tree."""
ANGLES = {"arcsin", "arccos"}
TRUTHS = {"less", "less_equal", "greater", "greater_equal", "isnan", "not", "and", "or"}


@pytest.fixture(scope="module")
def tab(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Tab]:
    empty = tmp_path_factory.mktemp("trees") / "empty.html"
    empty.write_text("<!DOCTYPE html><title>empty</title>", encoding="utf-8")
    opened = browser.open(empty)
    opened.run(asset("trees.js") + "\nnull")
    yield opened
    opened.close()


def columns(word: str, rows: int) -> list[list[float]]:
    """As many columns as the function takes numbers; every tenth row of them is alike."""
    dice = random.Random(word)
    low, high = (-1.0, 1.0) if word in ANGLES else (0.1, 6.0) if word in ("sqrt", "power") else (-6.0, 6.0)
    count = 3 if word == "where" else OF[word].nin
    found = [[dice.uniform(low, high) for _ in range(rows)] for _ in range(count)]
    for row in range(0, rows, 10):
        for column in found:
            column[row] = found[0][row]
    return found


@pytest.mark.parametrize("word", sorted(set(OF) - {"and", "or", "not"}))
def test_a_word_means_what_it_means_in_numpy(tab: Tab, word: str) -> None:
    """Of columns, and of each row of them by itself."""
    given = columns(word, 50)
    facts = {str(place): column for place, column in enumerate(given)}
    nodes: list[Any] = [{"fact": name} for name in facts]
    if word == "where":
        nodes[0] = ["greater", nodes[0], 0]
    expected = np.asarray(OF[word](*map(np.array, given))).tolist()
    tree = json.dumps([word, *nodes])
    found = tab.run(f"worked({tree}, {{ facts: {json.dumps(facts)} }})")
    alone = [{name: column[row] for name, column in facts.items()} for row in range(50)]
    one_by_one = tab.run(f"{json.dumps(alone)}.map((facts) => worked({tree}, {{ facts }}))")
    assert found == one_by_one
    assert found == (expected if word in TRUTHS else pytest.approx(expected, rel=1e-12, abs=1e-12))


def test_truths_are_put_together_row_by_row(tab: Tab) -> None:
    inputs = json.dumps({"facts": {"a": [1, 2, 3, 4], "b": [4, 3, 2, 1]}})
    low, high = ["less", {"fact": "a"}, 3], ["greater", {"fact": "b"}, 3]
    tree = ["where", ["or", ["and", low, high], ["not", low]], 10, {"fact": "a"}]
    assert tab.run(f"worked({json.dumps(tree)}, {inputs})") == [10, 2, 10, 10]


def test_a_table_of_columns_is_read_row_by_row(tab: Tab) -> None:
    inputs = json.dumps({"facts": {"x": [-1, 0.5, 9], "y": [1, 2, 3]}})
    tree = ["table", {"fact": "x"}, [[0, {"fact": "y"}], [1, 10]]]
    assert tab.run(f"worked({json.dumps(tree)}, {inputs})") == [1, 6, 10]


def test_what_has_a_name_is_worked_out_once(tab: Tab) -> None:
    script = """
    (() => {
      const inputs = { terms: { t: ["+", 1, 2] }, made: new Map() };
      const first = worked(["*", { term: "t" }, { term: "t" }], inputs);
      inputs.terms.t = 100;
      return [first, worked({ term: "t" }, inputs), worked({ term: "t" }, { terms: inputs.terms })];
    })()
    """
    assert tab.run(script) == [9, 3, 100]
