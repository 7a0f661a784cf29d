"""Chains: what the counts of one kind cost at least over a run of sizes, by dynamic programming.

Counts that share a measurement make a group, such as the neck's stitches and the panel's. A group by
itself, over the sizes, is a chain: its cost is each size's own and that of uneven steps, which take
three sizes. The best chain is found exactly; it bounds what the whole design costs from below, and the
best chains of all groups together are where the solver starts.

Of each size only the counts near the best are looked at. All others are one state that costs as much
as the best of them would and steps for nothing, so the bound holds whatever they are.

References:
    R. Bellman, Dynamic Programming (1957).
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from schematics.grading.problem import Problem, Term, broken_name
from schematics.grading.rules import Rule
from schematics.linear import Linear

_BUDGET_CM = 6.0
"""How much more than the best of its size a choice may cost to be looked at by itself."""
_MOST_CHOICES = 48
"""Choices of one size; where there are more the budget shrinks."""
_HAIR_CM = 1e-6

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Chain:
    """One group over all sizes: the terms and wishes it pays, its choices, and its least cost.

    ``least_cm`` is by first and last size of a run. ``best`` is the best choice of each size, None
    where that is none of those looked at.
    """

    terms: tuple[tuple[int, tuple[int, ...]], ...]
    prices: tuple[tuple[int, str], ...]
    counts: tuple[str, ...]
    least_cm: Mapping[tuple[int, int], float]
    best: Mapping[str, int] | None


@dataclass(frozen=True, slots=True)
class _Layer:
    """One size's choices: counts by name, their cost, and that of any other choice."""

    choices: list[dict[str, int]]
    costs: list[float]
    other_cm: float


def chains(problem: Problem, rules: Sequence[Rule], sizes: int) -> Iterator[Chain]:
    """The chain of each group of counts that can be enumerated."""
    for group in _groups(problem, sizes):
        chain = _chain(problem, rules, group, sizes)
        if chain is not None:
            yield chain


def _groups(problem: Problem, sizes: int) -> list[set[str]]:
    """Counts without their sizes, those that share a term together."""
    groups: list[set[str]] = []
    for term in problem.terms:
        names = {name.split("/", 1)[1] for name in term.value.terms}
        touched = [group for group in groups if group & names]
        groups = [group for group in groups if not group & names]
        groups.append(names.union(*touched))
    return groups


def _chain(problem: Problem, rules: Sequence[Rule], group: set[str], sizes: int) -> Chain | None:
    names = [{f"{size}/{count}" for count in group} for size in range(sizes)]
    everywhere = set().union(*names)
    if not everywhere <= problem.bounds.keys():
        return None
    inside = [
        (number, term) for number, term in enumerate(problem.terms) if term.value.terms.keys() <= everywhere
    ]
    kept = [rule for rule in rules if not rule.unless and not rule.given and _counts(rule) <= everywhere]
    layers: list[_Layer] = []
    for size in range(sizes):
        own = [term for _, term in inside if term.size == size]
        mine = [rule for rule in kept if rule.sizes == (size,)]
        layer = _layer(problem, own, mine, sorted(names[size]))
        if layer is None:
            return None
        layers.append(layer)
    steps = [_steps(layers, number, [term for _, term in inside if term.size is None]) for number in range(sizes)]
    grows = [
        _grows(layers, number, [rule for rule in kept if rule.sizes == (number, number + 1)])
        for number in range(sizes)
    ]
    least = {}
    for first in range(sizes):
        for last, cost in _runs(layers, steps, grows, first):
            least[first, last] = cost
    return Chain(
        terms=tuple((number, _sizes_of(term)) for number, term in inside),
        prices=tuple(
            dict.fromkeys((rule.sizes[0], broken_name(rule)) for rule in kept if rule.wish)
        ),
        counts=tuple(sorted(everywhere)),
        least_cm=least,
        best=_best(layers, steps, grows),
    )


def _counts(rule: Rule) -> set[str]:
    return {name for clause in rule.clauses for row in clause for name in row.value.terms}


def _sizes_of(term: Term) -> tuple[int, ...]:
    return tuple(sorted({int(name.split("/")[0]) for name in term.value.terms}))


def _layer(
    problem: Problem, terms: Sequence[Term], rules: Sequence[Rule], names: Sequence[str]
) -> _Layer | None:
    """The choices that cost little; None where they cannot be enumerated."""
    reach = _BUDGET_CM
    for _ in range(5):
        found = []
        for choice in itertools.islice(_choices(problem, terms, names, reach), 5000):
            if any(rule.miss(choice) for rule in rules if not rule.wish):
                continue
            broken = {broken_name(rule) for rule in rules if rule.wish and rule.miss(choice)}
            cost = sum(term.cost(choice) for term in terms) + problem.mind_cm * len(broken)
            cost += sum(problem.fewer_cm[name] * value for name, value in choice.items())
            found.append((cost, choice))
        found.sort(key=lambda each: each[0])
        if found and found[0][0] + _BUDGET_CM <= reach:
            limit = found[0][0] + _BUDGET_CM
            if len(found) > _MOST_CHOICES:
                limit = min(limit, found[_MOST_CHOICES][0])
            near = [(cost, choice) for cost, choice in found if cost < limit]
            return _Layer([choice for _, choice in near], [cost for cost, _ in near], limit)
        reach = 2 * reach if not found else found[0][0] + _BUDGET_CM
    return None


def _choices(
    problem: Problem, terms: Sequence[Term], names: Sequence[str], reach_cm: float
) -> Iterator[dict[str, int]]:
    """Every choice none of whose terms costs more than ``reach_cm``."""

    def more(choice: dict[str, int]) -> Iterator[dict[str, int]]:
        if len(choice) == len(names):
            yield choice
            return
        for term in terms:
            unknown = term.value.terms.keys() - choice.keys()
            if len(unknown) == 1 and term.weight > 0:
                (name,) = unknown
                for value in _values(problem, term, name, choice, reach_cm):
                    yield from more({**choice, name: value})
                return

    yield from more({})


def _values(
    problem: Problem, term: Term, name: str, choice: Mapping[str, int], reach_cm: float
) -> range:
    factor = term.value.terms[name]
    rest = term.value.at({**choice, name: 0})
    ends = sorted((term.target_cm - rest + way * reach_cm / term.weight) / factor for way in (-1, 1))
    low, high = problem.bounds[name]
    return range(max(low, math.ceil(ends[0] - 1e-9)), min(high, math.floor(ends[1] + 1e-9)) + 1)


def _parts(layer: _Layer, size: int, value: Linear) -> Floats:
    """What each choice of a size adds to a value."""
    own = {name: each for name, each in value.terms.items() if name.startswith(f"{size}/")}
    return np.array([sum(each * choice[name] for name, each in own.items()) for choice in layer.choices])


def _steps(layers: Sequence[_Layer], first: int, terms: Sequence[Term]) -> Floats | None:
    """Cost of the steps over three sizes from ``first`` on, by their choices; any other steps for nothing."""
    if first + 2 >= len(layers):
        return None
    trio = layers[first : first + 3]
    cost = np.zeros([len(layer.choices) + 1 for layer in trio])
    for term in terms:
        if _sizes_of(term) == (first, first + 1, first + 2):
            one, two, three = (_parts(layer, first + at, term.value) for at, layer in enumerate(trio))
            uneven = one[:, None, None] + two[None, :, None] + three[None, None, :] + term.value.constant
            cost[:-1, :-1, :-1] += term.weight * np.abs(uneven - term.target_cm)
    return cost


def _grows(layers: Sequence[_Layer], first: int, rules: Sequence[Rule]) -> Floats | None:
    """Infinite where two sizes next to each other break a rule, else 0."""
    if first + 1 >= len(layers):
        return None
    pair = layers[first : first + 2]
    barred = np.zeros([len(layer.choices) + 1 for layer in pair])
    for rule in rules:
        for clause in rule.clauses:
            if len(clause) != 1:
                continue
            (row,) = clause
            one, two = (_parts(layer, first + at, row.value) for at, layer in enumerate(pair))
            value = one[:, None] + two[None, :] + row.value.constant
            barred[:-1, :-1][(value < row.low - _HAIR_CM) | (value > row.high + _HAIR_CM)] = np.inf
    return barred


def _runs(
    layers: Sequence[_Layer], steps: Sequence[Floats | None], grows: Sequence[Floats | None], first: int
) -> Iterator[tuple[int, float]]:
    """The least cost of each run that begins with ``first``, by its last size."""
    yield first, float(_costs(layers[first]).min())
    if first + 1 >= len(layers):
        return
    state = _pair(layers, grows, first)
    yield first + 1, float(state.min())
    for last in range(first + 2, len(layers)):
        state = _onward(layers, steps, grows, last, state).min(axis=0)
        yield last, float(state.min())


def _costs(layer: _Layer) -> Floats:
    return np.array([*layer.costs, layer.other_cm])


def _pair(layers: Sequence[_Layer], grows: Sequence[Floats | None], first: int) -> Floats:
    barred = grows[first]
    cost: Floats = _costs(layers[first])[:, None] + _costs(layers[first + 1])[None, :]
    return cost if barred is None else cost + barred


def _onward(
    layers: Sequence[_Layer],
    steps: Sequence[Floats | None],
    grows: Sequence[Floats | None],
    last: int,
    state: Floats,
) -> Floats:
    """Cost by the choices of the last three sizes, given that by those of the two before the last."""
    step, barred = steps[last - 2], grows[last - 1]
    cost: Floats = state[:, :, None] + _costs(layers[last])[None, None, :]
    cost = cost if step is None else cost + step
    return cost if barred is None else cost + barred[None, :, :]


def _best(
    layers: Sequence[_Layer], steps: Sequence[Floats | None], grows: Sequence[Floats | None]
) -> Mapping[str, int] | None:
    """The choices of the least cost over all sizes; None where one is not among those looked at."""
    if len(layers) == 1:
        path = [int(_costs(layers[0]).argmin())]
    else:
        state = _pair(layers, grows, 0)
        back = []
        for last in range(2, len(layers)):
            cost = _onward(layers, steps, grows, last, state)
            back.append(cost.argmin(axis=0))
            state = cost.min(axis=0)
        two, three = (int(each) for each in np.unravel_index(int(state.argmin()), state.shape))
        path = [two, three]
        for before in reversed(back):
            path.insert(0, int(before[path[0], path[1]]))
    best: dict[str, int] = {}
    for layer, at in zip(layers, path, strict=True):
        if at == len(layer.choices):
            return None
        best |= layer.choices[at]
    return best
