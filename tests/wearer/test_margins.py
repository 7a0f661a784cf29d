"""Truths split into margins say what the trees say."""

from __future__ import annotations

import random
from typing import Any

import numpy as np
import pytest

from schematics.wearer.evaluator import Inputs, evaluator_of, evaluators_of
from schematics.wearer.events import over_nought_event
from schematics.wearer.expr import Const, Expr, Fact, Op, Term, at_most, either, every, least, less, most
from schematics.wearer.margins import Margins

A, B, C = Fact("a"), Fact("b"), Fact("c")
MADE_OF = {"tighter": least(A, B)}


def said(tree: Expr, facts: dict[str, float]) -> tuple[bool, bool]:
    margins = Margins(MADE_OF)
    truth = margins.truth(tree)
    whole = {**facts, "tighter": min(facts["a"], facts["b"])}
    inputs = Inputs(body={}, facts=whole)
    events = [over_nought_event(float(each), np.zeros(1)) for each in evaluators_of(margins.trees)(inputs)]
    assert not any(
        node.word in ("min", "max") for each in margins.trees for node in each.walk() if isinstance(node, Op)
    )
    return truth.event(events).chance > 0.5, bool(evaluator_of(tree)(inputs))


TREES = [
    less(A, B),
    less(Fact("tighter"), C),
    less(C, Fact("tighter")),
    less(0.0, most(least(A - C, A - B * 2.0), least(C - A, B - 3.0))),
    less(0.0, 1.0 - least(A, most(B, C)) * -2.0),
    less(Term("t", least(A, B) / 2.0) + C, 4.0),
    either(less(A, 0.5), every(less(B, C), at_most(most(A, C), 3.0))),
    less(Const(0.0), Fact("tighter") - C),
]


@pytest.mark.parametrize("tree", TREES, ids=range(len(TREES)))
def test_the_parts_say_what_the_whole_says(tree: Expr) -> None:
    rng = random.Random(str(tree))
    seen: set[bool] = set()
    for _ in range(200):
        split, whole = said(tree, {name: rng.uniform(-5, 5) for name in "abc"})
        assert split == whole
        seen.add(whole)
    assert seen == {True, False}


def test_a_margin_that_stands_in_several_truths_is_worked_out_once() -> None:
    margins = Margins(MADE_OF)
    for tree in (less(Fact("tighter"), C), less(A, C), less(B, C)):
        margins.truth(tree)
    assert margins.trees == (C - A, C - B)


@pytest.mark.parametrize("number", [A, A + B])
def test_a_number_is_no_truth(number: Any) -> None:
    with pytest.raises(TypeError, match="no truth"):
        Margins({}).truth(number)
