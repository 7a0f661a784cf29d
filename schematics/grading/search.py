"""The search: solve, make every size, cut off what the checks refuse, until nothing is refused."""

from __future__ import annotations

import math
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from schematics.grading.boxes import box_rule
from schematics.grading.chains import apart
from schematics.grading.draft import Draft
from schematics.grading.found import EQUAL_CM, Found
from schematics.grading.learnt import Learnt
from schematics.grading.made import Workshop
from schematics.grading.problem import Problem, counts_of, named
from schematics.grading.program import NOTHING_IN_TIME, Answer, SolverError
from schematics.grading.rolling import MANY_WINDOWS, Rolling
from schematics.grading.rules import Rule, SizeCase
from schematics.grading.state import problem_of, size_cases
from schematics.grading.targets import GradingError, targets

MOST_TURNS = 40
_MOST_WINDOWS = 10
"""With more windows of planes in all, the best is looked for a few sizes at a time only."""
_SPARE, _LEAST_SPARE_CM = 0.3, 5.0
"""How much more all sizes may cost together than each by itself, at first."""
_PATIENCE_SECONDS = 90.0
"""After so long the best counts found so far are taken, with the gap they leave."""


@dataclass(slots=True)
class Search:
    """One draft with its rules, and the cuts found so far.

    ``bounded`` is the problem within the bounds that its hard rules leave to each count: counts given by hand
    bound those of other sizes, which never shrink.
    """

    draft: Draft
    cases: tuple[SizeCase, ...]
    targets_cm: list[dict[str, float]]
    problem: Problem
    bounded: Problem
    workshop: Workshop
    learnt: Learnt
    alone: dict[int, Found] = field(default_factory=dict)
    _begun: float = field(default_factory=time.monotonic)

    @classmethod
    def of(cls, draft: Draft) -> Search:
        """The search for a draft.

        Raises:
            GradingError: there is not enough to grade by.
        """
        cases = size_cases(draft)
        wanted = targets(draft, cases)
        problem = problem_of(draft, cases, wanted)
        workshop = Workshop(draft, cases)
        return cls(
            draft=draft,
            cases=cases,
            targets_cm=wanted,
            problem=problem,
            bounded=problem.at_most({}),
            workshop=workshop,
            learnt=Learnt(workshop),
        )

    def rules(self, sizes: Sequence[int] | None = None) -> list[Rule]:
        """Every rule, those that stand for cuts among them; only those of some sizes alone if asked."""
        found = [*self.problem.rules, *self.learnt.rules]
        return [rule for rule in found if sizes is None or set(rule.sizes) <= set(sizes)]

    def given(self) -> Found:
        """The counts of a draft that leaves none out."""
        return Found(counts=tuple(case.size.given for case in self.cases), cost_cm=0.0, bound_cm=0.0)

    def run(self) -> Found | None:
        """The best counts; None where there are none."""
        apart = self.by_groups()
        if apart is not None and not apart.gap_cm:
            return apart
        if not self.may_hold(self.hard_rules()):
            return None
        found = self.by_solver()
        if found is None and self.learnt.forget_stops():
            found = self.by_solver()
        known = [each for each in (found, apart) if each is not None]
        best = min(known, key=lambda each: each.cost_cm, default=None)
        if best is None or best.cost_cm == math.inf:
            return None
        return replace(best, bound_cm=max(each.bound_cm for each in known))

    @property
    def _late(self) -> bool:
        """Whether it is time to be content with what was found."""
        return time.monotonic() - self._begun > _PATIENCE_SECONDS

    def by_groups(self) -> Found | None:
        """The best of groups of counts by themselves; infinitely dear where a check stops it.

        None where the groups are too large. With no gap it is the best there is.
        """
        best = apart(self.bounded)
        if best is None:
            return None
        counts = counts_of(best.counts, range(len(self.cases)))
        cost_cm = self.learnt.cost_cm(self.problem, counts)
        return Found(tuple(counts.values()), math.inf if cost_cm is None else cost_cm, best.least_cm)

    def by_solver(self) -> Found | None:
        """The best counts by the solver, all sizes looked at together where that is not too much.

        None where there are none.
        """
        if not all(self._explore(case) for case in self.cases):
            return None
        windows = sum(self.learnt.windows(case.index) for case in self.cases)
        return (self._rolled() if windows > _MOST_WINDOWS else None) or self._together()

    def _rolled(self) -> Found | None:
        """Good counts for all sizes, found a few at a time; None where none were found."""
        counts = Rolling(self.bounded, self.cases, self.learnt, self.alone, lambda: self._late).run()
        cost_cm = self.learnt.cost_cm(self.problem, counts) if counts else None
        if counts is None or cost_cm is None:
            return None
        return Found(tuple(counts.values()), cost_cm, self._least_cm)

    def _explore(self, case: SizeCase) -> bool:
        """Find what one size costs by itself, and with it most of its cuts; whether it can be made."""
        own = self.bounded.only(case.index)
        narrow = own
        for _ in range(MOST_TURNS):
            answer = narrow.best(self.rules([case.index]))
            if answer is None:
                return False
            (counts,) = self.counts(answer, [case])
            self.alone[case.index] = Found(counts=(counts,), cost_cm=answer.objective, bound_cm=answer.bound)
            cost_cm = self.learnt.cost_cm(own, {case.index: counts})
            if cost_cm is not None:
                narrow = own.at_most({case.index: cost_cm})
            if self._late or not self.learnt.cut(case, counts, answer):
                break
            if self.learnt.windows(case.index) > MANY_WINDOWS:
                break
        return True

    @property
    def _least_cm(self) -> float:
        """What all sizes cost at least."""
        return sum(each.bound_cm for each in self.alone.values())

    def _together(self) -> Found | None:
        """The best counts for all sizes; None where there are none.

        They are looked for where each size costs no more than by itself and a spare: what all together cost
        more than each by itself if the answer is to be the best.
        """
        spare_cm = max(_LEAST_SPARE_CM, _SPARE * self._least_cm)
        while True:
            near = self.bounded.at_most({at: each.bound_cm + spare_cm for at, each in self.alone.items()})
            found = self._solved(near)
            if found is None:
                if spare_cm == math.inf:
                    return None
                spare_cm = math.inf
                continue
            found = replace(found, bound_cm=min(found.bound_cm, self._least_cm + spare_cm))
            needs_cm = found.cost_cm - self._least_cm
            if needs_cm <= spare_cm:
                return found
            spare_cm = needs_cm + EQUAL_CM

    def _solved(self, problem: Problem) -> Found | None:
        """The best counts within a problem's bounds, as the checks have it."""
        best: Found | None = None
        for _ in range(MOST_TURNS):
            answer = problem.best(self.rules())
            if answer is None:
                return None
            counts = self.counts(answer, self.cases)
            cost_cm = self.learnt.cost_cm(self.problem, dict(enumerate(counts)))
            if cost_cm is not None and (best is None or cost_cm < best.cost_cm):
                best = Found(counts, cost_cm, answer.bound)
            if best is not None:
                best = replace(best, bound_cm=answer.bound)
                if self._late or not best.gap_cm:
                    return best
            if self._late:
                raise SolverError(NOTHING_IN_TIME)
            fresh = [
                self.learnt.cut(case, each, answer) for case, each in zip(self.cases, counts, strict=True)
            ]
            if not any(fresh):
                break
        return best

    def hard_rules(self) -> list[Rule]:
        """Every rule that is never broken."""
        return [rule for rule in self.rules() if not (rule.wish or rule.learnt)]

    def may_hold(self, rules: Sequence[Rule]) -> bool:
        """Whether some counts keep these rules, whatever else the checks of the made garment say."""
        sizes = {at for rule in rules for at in rule.sizes}
        return self.problem.only(*sizes).possible(rules) is not None

    def feasible(self, rules: Sequence[Rule]) -> bool:
        """Whether some counts keep these hard rules, as the checks of the made garment have it."""
        return self.solution(rules) is not None

    def solution(self, rules: Sequence[Rule]) -> Answer | None:
        """Some counts that keep these hard rules; None where none do."""
        sizes = sorted({at for rule in rules for at in rule.sizes})
        cases = [self.cases[at] for at in sizes]
        kept = {rule.key for rule in rules}
        problem = self.problem.only(*sizes)
        for _ in range(MOST_TURNS):
            now = [rule for rule in self.hard_rules() if rule.key in kept]
            if problem.possible(now) is None:
                return None
            answer = problem.best(now)
            if answer is None:
                return None
            refused = [
                (case, bend, counts)
                for case, counts in zip(cases, self.counts(answer, cases), strict=True)
                for bend in self.learnt.stops(case, counts)
                if box_rule(case, bend, ()).key in kept
            ]
            if not refused:
                return answer
            for each in refused:
                self.learnt.box(*each)
        raise GradingError(
            f"{self.draft.head.path}:{self.cases[0].size.line}: it is not settled which rules clash; "
            "give more counts by hand"
        )

    def nearest(self, rule: Rule, rest: Sequence[Rule]) -> Answer | None:
        """The counts that come nearest to a rule where the others are kept; how near is the objective."""
        sizes = sorted({at for each in (rule, *rest) for at in each.sizes})
        return self.problem.only(*sizes).possible(rest, rule)

    def counts(self, answer: Answer, cases: Sequence[SizeCase]) -> tuple[dict[str, int], ...]:
        """The counts of some sizes in an answer."""
        return tuple(
            {count: round(answer.values[f"{case.index}/{count}"]) for count in self.draft.counts}
            for case in cases
        )

    def values(self, counts: Mapping[int, Mapping[str, int]]) -> dict[str, float]:
        """The counts by their names with their sizes, and what is picked up from them."""
        return self.problem.values(named(counts))
