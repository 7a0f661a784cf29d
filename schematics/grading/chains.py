"""Counts that have little to do with one another within a size: each group by itself, for all sizes at once.

Most counts have an intent of their own, and what the rules ask of several together is seldom near. So the
counts are grouped by the lengths they make together, and the best of each group for all sizes is found by
dynamic programming: what the sizes up to one cost at least, for all that it and the one before may be.
The groups cost no more by themselves than all counts together. Where they break a rule together, its groups
are joined; where they break none, they are the best there are.

References:
    R. Bellman, Dynamic Programming, Princeton University Press (1957).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from schematics.grading.problem import Problem, size_of
from schematics.grading.rules import Rule
from schematics.linear import HAIR, Linear, Row

_Array = npt.NDArray[np.float64]
_Columns = Mapping[str, _Array]
"""What each count comes to in every state."""
_Group = frozenset[str]
"""Counts by their names without a size."""

_FIRST_CM, _MORE, _MOST_CM = 2.0, 4.0, 1000.0
"""States are looked for that cost so much at most; more where there is none, up to a most."""
_MOST_STATES, _MOST_TRIOS = 5_000, 3_000_000
"""Groups with more states of a size, or more of three sizes in a row, are not looked at."""


@dataclass(frozen=True, slots=True)
class Apart:
    """The best counts of groups, by their names with their sizes, and what any counts cost at least."""

    counts: Mapping[str, int]
    least_cm: float


class _GivenUpError(Exception):
    """A group has too many states to look at, or none."""


def apart(problem: Problem) -> Apart | None:
    """The best counts of each group; None where there are too many to look at, or none.

    Together they keep every rule but wishes and those that are silent at times.
    """
    singles = {frozenset({_plain(name)}) for name in problem.bounds}
    groups = _joined(problem, singles, (term.value.terms.keys() for term in problem.terms))
    known: dict[_Group, Apart] = {}
    while True:
        try:
            for group in groups - known.keys():
                known[group] = _best(problem.among(group))
        except _GivenUpError:
            return None
        counts = {name: count for group in groups for name, count in known[group].counts.items()}
        values = problem.values(counts)
        ties = [_names(rule) for rule in problem.rules if rule.always and rule.miss(values)]
        if not ties:
            counts = {name: counts[name] for name in problem.bounds}
            return Apart(counts, sum(known[group].least_cm for group in groups))
        groups = _joined(problem, groups, ties)


def _plain(name: str) -> str:
    """A count's name without its size."""
    return name.split("/")[1]


def _joined(problem: Problem, groups: Set[_Group], ties: Iterable[Set[str]]) -> set[_Group]:
    """Groups, those that have counts of a tie made one: what a length or a rule takes together."""
    made_of = {
        f"{index}/{each.name}": (each.exact + each.besides).of_size(index)
        for index, each in problem.picked_up
    }
    joined = set(groups)
    for tie in ties:
        counts = {
            _plain(count) for name in tie for count in (made_of[name].terms if name in made_of else (name,))
        }
        together = {group for group in joined if group & counts}
        joined = joined - together | {frozenset[str]().union(*together)}
    return joined


def _best(problem: Problem) -> Apart:
    """The best counts of one group.

    Only states are looked at that cost a size little more than its best. Any other costs more than what all
    sizes need together; where that is not so, more states are let in.

    Raises:
        _GivenUpError: there are too many states, or no counts at all.
    """
    own = [problem.only(size) for size in sorted({size_of(name) for name in problem.bounds})]
    least_cm = [_least_cm(each) for each in own]
    spare_cm = _FIRST_CM
    while spare_cm < _MOST_CM:
        states = [_states(each, cm + spare_cm) for each, cm in zip(own, least_cm, strict=True)]
        found = _Chain(problem, states).best()
        needs_cm = found.least_cm - sum(least_cm)
        if needs_cm <= spare_cm:
            return found
        spare_cm = needs_cm + HAIR if needs_cm < math.inf else spare_cm * _MORE
    raise _GivenUpError


@dataclass(frozen=True, slots=True)
class _States:
    """All that the counts of a group may be in one size, and what that costs."""

    columns: _Columns
    cost_cm: _Array


def _least_cm(own: Problem) -> float:
    """What a size of a group costs at least."""
    most_cm = _FIRST_CM
    while most_cm < _MOST_CM:
        costs_cm = _states(own, most_cm).cost_cm
        if costs_cm.size:
            return float(costs_cm.min())
        most_cm *= _MORE
    raise _GivenUpError


def _states(own: Problem, most_cm: float) -> _States:
    """The states of one size that keep its rules and cost so much at most.

    The problem is the size's own. A wish broken costs by itself: those that share a price stand for cuts,
    which are none of a problem's rules.
    """
    (size,) = {size_of(name) for name in own.bounds}
    axes = {
        name: np.arange(low, high + 1, dtype=float)
        for name, (low, high) in own.at_most({size: most_cm}).bounds.items()
    }
    always = [rule for rule in own.rules if rule.always]
    for name, axis in axes.items():
        kept = _kept([rule for rule in always if _names(rule) == {name}], {name: axis})
        axes[name] = axis[np.broadcast_to(kept, axis.shape)]
    if math.prod(len(axis) for axis in axes.values()) > _MOST_STATES:
        raise _GivenUpError
    grid = np.meshgrid(*axes.values(), indexing="ij")
    columns = {name: each.ravel() for name, each in zip(axes, grid, strict=True)}
    states = [
        dict(zip(map(_plain, columns), each, strict=True)) for each in zip(*columns.values(), strict=True)
    ]
    for index, each in own.picked_up:
        columns[f"{index}/{each.name}"] = np.array([each.count(state) for state in states], dtype=float)
    cost_cm = np.zeros(len(states))
    for name in own.bounds:
        cost_cm += own.fewer_cm[name] * columns[name]
    for term in own.terms:
        cost_cm += term.weight * abs(_at(term.value, columns) - term.target_cm)
    for rule in own.rules:
        if rule.wish:
            cost_cm += own.mind_cm * ~_kept([rule], columns)
    good = _kept(always, columns) & (cost_cm <= most_cm)
    return _States({name: each[good] for name, each in columns.items()}, cost_cm[good])


_NOTHING = _States({}, np.zeros(1))
"""What stands before the first size."""


@dataclass(frozen=True, slots=True)
class _Chain:
    """The states of every size, one after the other."""

    problem: Problem
    sizes: Sequence[_States]

    def best(self) -> Apart:
        """The best states of all sizes; an infinite cost where none go together."""
        least_cm = np.zeros((1, 1))
        backs: list[npt.NDArray[np.intp]] = []
        first, second = _NOTHING, _NOTHING
        for at, third in enumerate(self.sizes):
            cost_cm = least_cm[:, :, None] + self._steps_cm(at, (first, second, third))
            backs.append(cost_cm.argmin(axis=0))
            least_cm = cost_cm.min(axis=0)
            first, second = second, third
        before, here = (int(each) for each in np.unravel_index(least_cm.argmin(), least_cm.shape))
        found_cm, picks = float(least_cm[before, here]), []
        for back in reversed(backs):
            picks.append(here)
            before, here = int(back[before, here]), before
        counts = {
            name: round(float(states.columns[name][pick]))
            for states, pick in zip(self.sizes, reversed(picks), strict=True)
            for name in states.columns
            if name in self.problem.bounds
        }
        return Apart(counts, found_cm)

    def _steps_cm(self, at: int, trio: Sequence[_States]) -> _Array:
        """What the last of three sizes costs and what all that ends with it does, for all their states."""
        shape = [len(each.cost_cm) for each in trio]
        if math.prod(shape) > _MOST_TRIOS:
            raise _GivenUpError
        columns: dict[str, _Array] = {}
        for axis, each in enumerate(trio):
            along = [-1 if other == axis else 1 for other in range(len(trio))]
            columns |= {name: column.reshape(along) for name, column in each.columns.items()}
        cost_cm = np.broadcast_to(trio[-1].cost_cm, shape)
        for term in self.problem.terms:
            if term.size is None and max(term.sizes) == at:
                cost_cm = cost_cm + term.weight * abs(_at(term.value, columns) - term.target_cm)
        rules = [
            rule
            for rule in self.problem.rules
            if rule.always and len(rule.sizes) > 1 and max(rule.sizes) == at
        ]
        return np.where(_kept(rules, columns), cost_cm, math.inf)


def _names(rule: Rule) -> set[str]:
    return {name for clause in rule.clauses for row in clause for name in row.value.terms}


def _kept(rules: Iterable[Rule], columns: _Columns) -> npt.NDArray[np.bool_]:
    """Where all rules are kept."""
    kept: npt.NDArray[np.bool_] = np.ones(1, dtype=bool)
    for rule in rules:
        for clause in rule.clauses:
            some = np.zeros(1, dtype=bool)
            for row in clause:
                some = some | _holds(row, columns)
            kept = kept & some
    return kept


def _holds(row: Row, columns: _Columns) -> npt.NDArray[np.bool_]:
    """Where a row holds."""
    value = _at(row.value, columns)
    holds: npt.NDArray[np.bool_] = (value >= row.low - HAIR) & (value <= row.high + HAIR)
    if row.multiple is not None:
        rest = (value - row.plus) % row.multiple
        holds = holds & (np.minimum(rest, row.multiple - rest) <= HAIR)
    return holds


def _at(value: Linear, columns: _Columns) -> _Array:
    """What a sum comes to in every state."""
    total = np.full(1, value.constant)
    for name, factor in value.terms.items():
        total = total + factor * columns[name]
    return total
