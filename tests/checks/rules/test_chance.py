"""Chances read from a table, against scipy's normal distribution."""

from __future__ import annotations

from statistics import NormalDist

import numpy as np
import pytest

from schematics.checks.rules.girth import chance_over, exceeded_by
from schematics.checks.rules.sentence import IN_WORDS
from schematics.wearer.evaluator import Inputs, evaluator_of
from schematics.wearer.expr import Fact


def test_the_table_is_the_normal_distribution() -> None:
    deviations = np.linspace(-6, 6, 2401)
    work = evaluator_of(chance_over(Fact("deviations")))
    assert work(Inputs(body={}, facts={"deviations": deviations})) == pytest.approx(  # type: ignore[dict-item]
        [NormalDist().cdf(-each) for each in deviations], abs=1e-4
    )


@pytest.mark.parametrize("chance", [0.001, 0.1, 0.25, 0.5])
def test_a_chance_lies_so_many_deviations_out(chance: float) -> None:
    assert exceeded_by(chance) == pytest.approx(-NormalDist().inv_cdf(chance))


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (0.0, "fewer than one in ten"),
        (0.049, "fewer than one in ten"),
        (0.1, "about one in ten"),
        (0.34, "about three in ten"),
        (0.849, "about eight in ten"),
        (0.851, "not quite nine in ten"),
        (0.899, "not quite nine in ten"),
        (0.9, "about nine in ten"),
        (0.949, "about nine in ten"),
        (0.96, "nearly all"),
        (1.0, "nearly all"),
    ],
)
def test_chances_in_words(chance: float, words: str) -> None:
    assert next(each for below, each in IN_WORDS if chance < below) == words
