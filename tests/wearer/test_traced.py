"""Formulas of columns written down as trees: what they come to is what NumPy makes of the columns."""

from __future__ import annotations

import math
import random
from typing import Any

import numpy as np
import pytest

from schematics.wearer.expr import Fact, expr_json, terms, with_names
from schematics.wearer.traced import UFUNCS, Traced, tree_of
from tests.fitting.reader import Reader


def formula(a: Any, b: Any) -> Any:
    """Of everything that formulas of garments are made of."""
    turn = np.arctan2(a, b)
    straight = np.hypot(a - b, 2 * a) + np.sqrt(a**2 + 1) / -b
    hidden = (turn < 0.7) | ~(np.sin(turn) >= b / 10) & (np.abs(a - b) > 1)
    clipped = np.clip(a / b, 0.2, 1.5) - np.cos(np.minimum(a, b)) * np.arccos(b / (a + b))
    return np.where(hidden, straight, np.maximum(clipped, np.zeros_like(a))) + (1.0 if a is b else 2.0)


def test_a_tree_is_the_formula() -> None:
    dice = random.Random(5)
    tree = expr_json(tree_of(formula(Traced(Fact("a")), Traced(Fact("b")))))
    chosen = set()
    for _ in range(200):
        a, b = dice.uniform(0.1, 6), dice.uniform(0.1, 6)
        found = Reader({}, {}, {"a": a, "b": b}).number(tree)
        assert found == pytest.approx(float(formula(np.float64(a), np.float64(b))), rel=1e-12)
        chosen.add(found > 4)
    assert chosen == {True, False}


def test_whole_parts_are_rounded_down() -> None:
    tree = expr_json(tree_of(Traced(Fact("a")) // 4))
    for a, whole in ((52.0, 13.0), (51.0, 12.0), (-1.0, -1.0)):
        assert Reader({}, {}, {"a": a}).number(tree) == whole


def test_a_number_is_a_tree_and_none_is_null() -> None:
    assert expr_json(tree_of(np.float64(2.5))) == 2.5
    assert expr_json(tree_of(math.nan)) is None
    assert math.isnan(Reader({}, {}).number(None))


@pytest.mark.parametrize(
    "work",
    [
        lambda column: 1 if column > 2 else 0,
        lambda column: np.minimum.reduce(column),
        lambda column: np.interp(column, [0, 1], [0, 1]),
        lambda column: np.cbrt(column),
        lambda column: np.add(column, 1, where=False),
    ],
)
def test_what_cannot_be_written_down_is_refused(work: Any) -> None:
    with pytest.raises(TypeError):
        work(Traced(Fact("a")))


@pytest.mark.parametrize("args", [(1.0,), (1.0, 2.0)])
def test_a_word_that_nobody_knows_is_no_number(args: tuple[float, ...]) -> None:
    with pytest.raises(ValueError, match="arcsinh"):
        Reader({}, {}).number(["arcsinh", *args])


def test_every_word_is_a_function_of_numpy() -> None:
    assert all(callable(getattr(np, name)) for name in UFUNCS)


def test_what_comes_more_than_once_has_a_name() -> None:
    """a + b is in both trees and in the product twice; a alone is short enough as it is."""
    a, b = Fact("a"), Fact("b")
    both = a + b
    first, second = with_names([both * both, both - a])
    assert {name: expr_json(expr) for name, expr in terms([first, second]).items()} == {
        "2": ["+", {"fact": "a"}, {"fact": "b"}]
    }
    assert expr_json(first) == ["*", {"term": "2"}, {"term": "2"}]
    assert expr_json(second) == ["-", {"term": "2"}, {"fact": "a"}]
