"""A few sizes at a time: good counts where all sizes together are too much to solve.

The sizes are settled in their order, each looked at together with the next one. Then more neighbours at a
time are taken up again beside the others as they stand, none leaving the windows it stands in, until none
gets better.

References:
    Y. Pochet, L. A. Wolsey, Production Planning by Mixed Integer Programming, Springer (2006), chapter 3:
    relax and fix, and improving by exchange (from memory).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from schematics.grading.found import EQUAL_CM, Found
from schematics.grading.learnt import Learnt, Several
from schematics.grading.problem import Problem, counts_of, named
from schematics.grading.rules import Rule, SizeCase

_AT_ONCE, _NEXT = 2, 1
"""So many sizes are looked at together to settle them, and so many farther on the next ones."""
_AGAIN, _NEXT_AGAIN = 5, 2
MANY_WINDOWS = 20
"""A size with more windows is not looked at to its end by itself, and settled near what was found."""
_TURNS = 20
_SPAN = 3
"""No length and no rule takes more sizes, all in a row."""
_SPARE_CM = 25.0
"""A size costs no more above what it costs by itself while sizes are settled."""


@dataclass(slots=True)
class Rolling:
    """Counts as they stand; ``alone`` is what is best for each size by itself, ``late`` when to stop."""

    problem: Problem
    cases: Sequence[SizeCase]
    learnt: Learnt
    alone: Mapping[int, Found]
    late: Callable[[], bool]
    counts: dict[int, Mapping[str, int]] = field(default_factory=dict)

    def run(self) -> Several | None:
        """Good counts for all sizes; None where none were found."""
        at_once = _AT_ONCE
        while not self._settled(at_once):
            if at_once >= len(self.cases) or self.late():
                return None
            at_once *= 2
        self._improve()
        return dict(sorted(self.counts.items()))

    def _settled(self, at_once: int) -> bool:
        """Settle the sizes in their order; whether there were counts for all."""
        self.counts = {}
        for few in self._fews(at_once, _NEXT):
            found = _Few.of(self, few).settled()
            if found is None:
                return False
            self.counts |= found
        return True

    def _improve(self) -> None:
        """Take up a few sizes again, as long as any get better."""
        stood: dict[range, Several] = {}
        fews = self._fews(_AGAIN, _NEXT_AGAIN)
        while not self.late() and any(stood.get(few) != self.around(few) for few in fews):
            for few in fews:
                if stood.get(few) != self.around(few):
                    self.counts |= _Few.of(self, few).better()
                    stood[few] = self.around(few)

    def _fews(self, at_once: int, step: int) -> list[range]:
        """Neighbours, so many at once; the next few begin a step farther on."""
        last = max(0, len(self.cases) - at_once)
        return [range(at, min(len(self.cases), at + at_once)) for at in [*range(0, last, step), last]]

    def around(self, few: range) -> dict[int, Mapping[str, int]]:
        """A few sizes and those that a length or rule takes together with them, as they stand."""
        near = range(few.start - _SPAN + 1, few.stop + _SPAN - 1)
        return {at: self.counts[at] for at in near if at in self.counts}


@dataclass(frozen=True, slots=True)
class _Few:
    """A few sizes to be found beside others as they stand; the problem is theirs alone."""

    rolling: Rolling
    few: range
    beside: Several
    problem: Problem

    @classmethod
    def of(cls, rolling: Rolling, few: range) -> _Few:
        """A few sizes of all."""
        beside = {at: counts for at, counts in rolling.around(few).items() if at not in few}
        part = rolling.problem.only(*few, *beside)
        free = set(few)
        return cls(
            rolling,
            few,
            beside,
            replace(
                part,
                bounds={**part.bounds, **{name: (each, each) for name, each in named(beside).items()}},
                rules=tuple(rule for rule in part.rules if not free.isdisjoint(rule.sizes)),
                terms=tuple(term for term in part.terms if not free.isdisjoint(term.sizes)),
            ),
        )

    def settled(self) -> Several | None:
        """The best counts found; None where there are none."""
        alone, learnt = self.rolling.alone, self.rolling.learnt
        near = {at: alone[at].counts[0] for at in self.few if learnt.windows(at) > MANY_WINDOWS}
        return self._best(self._within(_SPARE_CM), near) or self._best(self.problem, {})

    def better(self) -> Several:
        """Counts that cost less than those that stand, if any are found near them; else these."""
        standing = {at: self.rolling.counts[at] for at in self.few}
        spare_cm = self._cost_cm(standing) - sum(self.rolling.alone[at].bound_cm for at in self.few)
        return self._best(self._within(spare_cm), standing, standing) or standing

    def _best(self, problem: Problem, near: Several, best: Several | None = None) -> Several | None:
        """The best counts found, those of sizes with counts near these; ``best`` if none are better."""
        best_cm = self._cost_cm(best) if best else math.inf
        for _ in range(_TURNS):
            solved = self._solved(problem, self.rolling.learnt.near(near))
            if solved is None:
                break
            counts, fresh = solved
            cost_cm = self._cost_cm(counts)
            better = best is None or cost_cm < best_cm - EQUAL_CM
            if better:
                best, best_cm = counts, cost_cm
            if self.rolling.late() or not (fresh or (better and near)):
                break
            near = {at: counts[at] for at in near}
        return best

    def _within(self, spare_cm: float) -> Problem:
        """The problem where no size costs so much more than by itself."""
        alone = self.rolling.alone
        return self.problem.at_most({at: alone[at].bound_cm + spare_cm + EQUAL_CM for at in self.few})

    def _cost_cm(self, counts: Several) -> float:
        """What counts cost by the checks; infinite where a check stops one of them."""
        cost_cm = self.rolling.learnt.cost_cm(self.problem, counts, self.beside)
        return math.inf if cost_cm is None else cost_cm

    def _solved(self, problem: Problem, cuts: Sequence[Rule]) -> tuple[Several, bool] | None:
        """The best counts by the rules and cuts, and whether the checks then told of more cuts."""
        answer = problem.best([*problem.rules, *(rule for rule in cuts if rule.sizes[0] in self.few)])
        if answer is None:
            return None
        counts = counts_of({name: round(answer.values[name]) for name in problem.bounds}, self.few)
        fresh = [self.rolling.learnt.cut(self.rolling.cases[at], counts[at], answer) for at in self.few]
        return counts, any(fresh)
