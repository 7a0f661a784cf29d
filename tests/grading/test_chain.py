"""The best choice for every size against every choice there is, one after the other."""

from __future__ import annotations

import itertools
import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.grading.chain import Offers, shortest
from schematics.grading.price import GrowthStep

PLENTY = 10_000


def stepped(before_cm: float, after_cm: float, step: GrowthStep) -> float:
    """What one step costs, as the prices are stated in words."""
    grown = after_cm - before_cm
    uneven = 0.25 * step.weight * abs(grown - step.wanted_cm)
    if step.wanted_cm < 0:
        return uneven
    if grown < -1e-9:
        return uneven + 20 - 10 * grown
    return uneven + (2 * min(1.0, step.wanted_cm / step.unit_cm * 2) if abs(grown) <= 1e-9 else 0.0)


@st.composite
def problems(draw: st.DrawFn, most: int) -> tuple[list[Offers], list[list[GrowthStep]]]:
    """Two to four sizes, each with choices of one or two lengths on a grid of half centimetres."""
    sizes = draw(st.integers(2, 4))
    keys = ["depth", "hem"][: draw(st.integers(1, 2))]
    layers = []
    for _ in range(sizes):
        number = draw(st.integers(1, most))
        costs = sorted(draw(st.lists(st.integers(0, 40), min_size=number, max_size=number)))
        lengths = {
            key: np.array(draw(st.lists(st.integers(0, 8), min_size=number, max_size=number))) / 2
            for key in keys
        }
        layers.append(Offers(costs=np.array(costs) / 8, lengths=lengths, cutoff=math.inf))
    steps = [
        [
            GrowthStep(
                key=key,
                wanted_cm=draw(st.integers(-2, 4)) / 2,
                unit_cm=draw(st.sampled_from((0.5, 1.0))),
                weight=draw(st.sampled_from((0.0, 0.2, 3.0))),
            )
            for key in keys
        ]
        for _ in range(sizes - 1)
    ]
    return layers, steps


def cost_of(rows: tuple[int, ...], layers: list[Offers], steps: list[list[GrowthStep]]) -> float:
    own = sum(float(layer.costs[row]) for layer, row in zip(layers, rows, strict=True))
    pairs = itertools.pairwise(zip(layers, rows, strict=True))
    between = (
        stepped(one.lengths[step.key][row], other.lengths[step.key][next_row], step)
        for ((one, row), (other, next_row)), several in zip(pairs, steps, strict=True)
        for step in several
    )
    return own + sum(between)


@pytest.mark.slow
@given(problems(most=6))
def test_no_other_choices_cost_less(problem: Any) -> None:
    layers, steps = problem
    way = shortest(layers, steps, PLENTY)
    every = itertools.product(*(range(len(layer.costs)) for layer in layers))
    least = min(cost_of(rows, layers, steps) for rows in every)
    assert cost_of(way.rows, layers, steps) == pytest.approx(least, abs=1e-9)
    assert way.cost == pytest.approx(least, abs=1e-9)
    assert way.bound <= least + 1e-9


def many(seed: int, number: int) -> tuple[list[Offers], list[list[GrowthStep]]]:
    """Three sizes of many choices, which are looked at in groups."""
    dice = np.random.default_rng(seed)
    layers = [
        Offers(
            costs=np.sort(dice.uniform(0, 3, number)),
            lengths={
                "depth": dice.integers(20, 40, number) / 2.0,
                "hem": dice.integers(90, 130, number) / 1.0,
            },
            cutoff=math.inf,
        )
        for _ in range(3)
    ]
    step = [GrowthStep(key="depth", wanted_cm=1.0, unit_cm=0.5, weight=1.0)]
    return layers, [[*step, GrowthStep(key="hem", wanted_cm=4.0, unit_cm=1.0, weight=0.5)]] * 2


@pytest.mark.parametrize("seed", range(8))
def test_choices_in_groups_lose_nothing(seed: int) -> None:
    """Bellman's recursion over single choices, all 300 of each size at once."""
    layers, steps = many(seed, 300)
    way = shortest(layers, steps, PLENTY)
    best = layers[0].costs
    for (one, other), several in zip(itertools.pairwise(layers), steps, strict=True):
        between = np.zeros((len(one.costs), len(other.costs)))
        for step in several:
            grown = other.lengths[step.key][None, :] - one.lengths[step.key][:, None]
            between += 0.25 * step.weight * np.abs(grown - step.wanted_cm)
            between += np.where(grown < -1e-9, 20 - 10 * grown, 0)
            between += np.where(np.abs(grown) <= 1e-9, 2 * min(1, step.wanted_cm / step.unit_cm * 2), 0)
        best = (best[:, None] + between).min(axis=0) + other.costs
    least = float(best.min())
    assert cost_of(way.rows, layers, steps) == pytest.approx(way.cost)
    assert way.bound - 1e-9 <= least <= way.cost + 1e-9
    assert way.cost <= least * 1.01 + 1e-9


@pytest.mark.parametrize(
    ("more", "rows", "cost", "bound"),
    [
        (None, (0, 0), 5.0, 1.0),
        (
            Offers(costs=np.array([1.6, 2.0]), lengths={"depth": np.array([9.5, 9.0])}, cutoff=6.0),
            (2, 0),
            2.0,
            2.0,
        ),
    ],
)
def test_what_is_not_listed_is_asked_for(
    more: Offers | None, rows: tuple[int, ...], cost: float, bound: float
) -> None:
    """Whatever else there is costs 1 at least, what is listed 5; half a centimetre less growth costs 0.5."""
    dear = Offers(costs=np.array([5.0]), lengths={"depth": np.array([9.0])}, cutoff=1.0)
    cheap = Offers(costs=np.array([0.0]), lengths={"depth": np.array([10.0])}, cutoff=math.inf)
    step = GrowthStep(key="depth", wanted_cm=1.0, unit_cm=1.0, weight=4.0)
    way = shortest([dear, cheap], [[step]], PLENTY, more=lambda _: more)
    assert way.rows == rows
    assert way.cost == pytest.approx(cost)
    assert way.bound == pytest.approx(bound)
