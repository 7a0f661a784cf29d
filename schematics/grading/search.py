"""The search: solve, make every size, cut off what the checks refuse, until nothing is refused."""

from __future__ import annotations

import itertools
import math
import time
from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, field, replace

from schematics.checks.finding import Finding, Severity
from schematics.grading.bends import Bend, bends
from schematics.grading.boxes import box_rule, boxes
from schematics.grading.draft import Draft
from schematics.grading.made import Workshop
from schematics.grading.planes import SAME_FOR_ALL, Plane, Region, lent, plane, region
from schematics.grading.problem import Problem, broken_name
from schematics.grading.program import NOTHING_IN_TIME, Answer, SolverError
from schematics.grading.rules import Clause, Rule, SizeCase
from schematics.grading.state import problem_of, size_cases
from schematics.grading.targets import GradingError, targets

MOST_TURNS = 40
_NEAR_TURNS = 8
_MOST_WINDOWS, _FREE_WINDOWS = 10, 4
"""With more windows of planes than the first, all but the sizes that have the second at most are looked at
near their best only."""
_SPARE, _LEAST_SPARE_CM = 0.3, 5.0
"""How much more all sizes may cost together than each by itself, at first."""
_PATIENCE_SECONDS = 90.0
"""After so long the best counts found so far are taken, with the gap they leave."""
EQUAL_CM = 1e-5
"""Costs this near are equal: what the solver is exact to."""
UNPRICED = frozenset({"FLAT-CIRCLE"})
"""Findings to mind that are the designer's own choice: a body over a full circle is only drawn otherwise."""


@dataclass(frozen=True, slots=True)
class Found:
    """Counts for every size, their cost in cm, and the least any counts could cost."""

    counts: tuple[Mapping[str, int], ...]
    cost_cm: float
    bound_cm: float

    @property
    def gap_cm(self) -> float:
        """How much better an answer could be at most."""
        gap = self.cost_cm - self.bound_cm
        return gap if gap > EQUAL_CM else 0.0


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
    clauses: dict[str, list[Clause]] = field(default_factory=dict)
    bends: dict[str, tuple[SizeCase, Bend]] = field(default_factory=dict)
    regions: dict[int, list[Region]] = field(default_factory=dict)
    stop_planes: bool = True
    _begun: float = 0.0
    _numbers: Iterator[int] = field(default_factory=itertools.count)
    alone: dict[int, Found] = field(default_factory=dict)

    @classmethod
    def of(cls, draft: Draft) -> Search:
        """The search for a draft.

        Raises:
            GradingError: there is not enough to grade by.
        """
        cases = size_cases(draft)
        wanted = targets(draft, cases)
        problem = problem_of(draft, cases, wanted)
        return cls(
            draft=draft,
            cases=cases,
            targets_cm=wanted,
            problem=problem,
            bounded=problem.at_most({}),
            workshop=Workshop(draft, cases),
        )

    def rules(self, sizes: Sequence[int] | None = None) -> list[Rule]:
        """Every rule, those that stand for cuts among them; only those of some sizes alone if asked."""
        found = [*self.problem.rules]
        found += [box_rule(*self.bends[key], clauses) for key, clauses in self.clauses.items()]
        found += [rule for regions in self.regions.values() for each in regions for rule in each.rules]
        return [rule for rule in found if sizes is None or set(rule.sizes) <= set(sizes)]

    def given(self) -> Found:
        """The counts of a draft that leaves none out."""
        return Found(counts=tuple(case.size.given for case in self.cases), cost_cm=0.0, bound_cm=0.0)

    def run(self) -> Found | None:
        """The best counts; None where there are none."""
        self._begun = time.monotonic()
        if not self.may_hold(self.hard_rules()):
            return None
        found = self._found()
        if found is None and self._forget_stops():
            found = self._found()
        return found

    @property
    def _late(self) -> bool:
        """Whether it is time to be content with what was found."""
        return time.monotonic() - self._begun > _PATIENCE_SECONDS

    def _forget_stops(self) -> bool:
        """Do without planes for what stops, which samples may have laid too low; whether there were any."""
        kept = {
            index: [each for each in regions if each.plane.bend.severity is not Severity.STOP]
            for index, regions in self.regions.items()
        }
        some, self.stop_planes, self.regions = kept != self.regions, False, kept
        return some

    def _found(self) -> Found | None:
        if not all(self._explore(case) for case in self.cases):
            return None
        fewest = sorted(range(len(self.cases)), key=self._windows)
        totals = list(itertools.accumulate(self._windows(index) for index in fewest))
        if totals[-1] <= _MOST_WINDOWS:
            return self._together()
        return self._near({at for at, total in zip(fewest, totals, strict=True) if total > _FREE_WINDOWS})

    def _windows(self, index: int) -> int:
        """How many planes with a window a size has."""
        return sum(bool(each.window) for each in self.regions.get(index, []))

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
            cost_cm = self.cost_cm(own, {case.index: counts})
            if cost_cm is not None:
                narrow = own.at_most({case.index: cost_cm})
            if self._late or not self._cut(case, counts, answer):
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
            cost_cm = self.cost_cm(self.problem, dict(enumerate(counts)))
            if cost_cm is not None and (best is None or cost_cm < best.cost_cm):
                best = Found(counts, cost_cm, answer.bound)
            if best is not None:
                best = replace(best, bound_cm=answer.bound)
                if self._late or not best.gap_cm:
                    return best
            if self._late:
                raise SolverError(NOTHING_IN_TIME)
            fresh = [self._cut(case, each, answer) for case, each in zip(self.cases, counts, strict=True)]
            if not any(fresh):
                break
        return best

    def _near(self, tied: Set[int]) -> Found | None:
        """Good counts where much is curved: ``tied`` sizes stay near what was best for each.

        Where sizes would shrink there, they stay near what is best for all but for what is curved.
        """
        alone = {at: self.alone[at].counts[0] for at in tied}
        found = self._near_to(alone)
        if found is None:
            answer = self.bounded.best([rule for rule in self.rules() if not (rule.unless or rule.given)])
            if answer is not None:
                counts = self.counts(answer, self.cases)
                found = self._near_to({at: counts[at] for at in tied})
        return found or self._together()

    def _near_to(self, centres: Mapping[int, Mapping[str, int]]) -> Found | None:
        """Good counts where the sizes with centres stay near them; None where none were found."""
        best: Found | None = None
        for _ in range(_NEAR_TURNS):
            answer = self.bounded.best(self._rules_near(centres))
            if answer is None:
                break
            counts = self.counts(answer, self.cases)
            cost_cm = self.cost_cm(self.problem, dict(enumerate(counts)))
            better = cost_cm is not None and (best is None or cost_cm < best.cost_cm - EQUAL_CM)
            if cost_cm is not None and better:
                best = Found(counts, cost_cm, self._least_cm)
            fresh = [self._cut(case, each, answer) for case, each in zip(self.cases, counts, strict=True)]
            if self._late or (not better and not any(fresh)):
                break
            centres = {at: counts[at] for at in centres}
        return best

    def _rules_near(self, centres: Mapping[int, Mapping[str, int]]) -> list[Rule]:
        """All rules; windows with a centre in them are not to be left, others of its size left out."""
        found = [
            rule for rule in self.rules() if not (rule.unless or rule.given) or rule.sizes[0] not in centres
        ]
        for index, centre in centres.items():
            for each in self.regions.get(index, ()):
                if each.window and each.plane.holds(centre):
                    found += [replace(rule, unless="") for rule in each.rules if not rule.given]
        return found

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
                for bend in self._stops(case, counts)
                if box_rule(case, bend, ()).key in kept
            ]
            if not refused:
                return answer
            for each in refused:
                self._box(*each)
        raise GradingError(
            f"{self.draft.head.path}:{self.cases[0].size.line}: it is not settled which rules clash; "
            "give more counts by hand"
        )

    def nearest(self, rule: Rule, rest: Sequence[Rule]) -> Answer | None:
        """The counts that come nearest to a rule where the others are kept; how near is the objective."""
        sizes = sorted({at for each in (rule, *rest) for at in each.sizes})
        return self.problem.only(*sizes).possible(rest, rule)

    def _stops(self, case: SizeCase, counts: Mapping[str, int]) -> Iterator[Bend]:
        try:
            findings = self.workshop.findings(case.index, counts)
        except ValueError:
            return
        yield from (bend for bend in bends(case, findings) if bend.severity is Severity.STOP)

    def counts(self, answer: Answer, cases: Sequence[SizeCase]) -> tuple[dict[str, int], ...]:
        """The counts of some sizes in an answer."""
        return tuple(
            {count: round(answer.values[f"{case.index}/{count}"]) for count in self.draft.counts}
            for case in cases
        )

    def cost_cm(self, problem: Problem, counts: Mapping[int, Mapping[str, int]]) -> float | None:
        """What some sizes' counts cost by the checks themselves; None where a check stops one of them."""
        minded = 0
        for index, each in counts.items():
            try:
                findings = self.workshop.findings(index, each)
            except ValueError:
                return None
            if any(finding.severity is Severity.STOP for finding in findings):
                return None
            minded += len(minds(findings))
        known = self.values(counts)
        cost = sum(fewer * known[name] for name, fewer in problem.fewer_cm.items() if name in known)
        return cost + sum(term.cost(known) for term in problem.terms) + problem.mind_cm * minded

    def values(self, counts: Mapping[int, Mapping[str, int]]) -> dict[str, float]:
        """The counts by their names with their sizes, and what is picked up from them."""
        values: dict[str, float] = {
            f"{index}/{count}": value for index, each in counts.items() for count, value in each.items()
        }
        for index, each in self.problem.picked_up:
            if index in counts:
                values[f"{index}/{each.name}"] = each.count(counts[index])
        return values

    def _cut(self, case: SizeCase, counts: Mapping[str, int], answer: Answer) -> bool:
        """Cut off counts the checks refuse and the answer has not paid for; whether there were any."""
        fresh = False
        for bend in bends(case, self.workshop.findings(case.index, counts)):
            rule = box_rule(case, bend, ())
            if rule.wish and answer.values.get(broken_name(rule), 0.0) > 0.5:
                continue
            fresh = True
            found = self._plane(case, bend, counts)
            if found is None:
                self._box(case, bend, counts)
                continue
            self.regions.setdefault(case.index, []).append(region(case, found, next(self._numbers)))
        return fresh

    def _plane(self, case: SizeCase, bend: Bend, counts: Mapping[str, int]) -> Plane | None:
        """A plane that refuses these counts, another size's if one does."""
        if bend.severity is Severity.STOP and not self.stop_planes:
            return None
        return self._lent(case, bend, counts) or plane(case, self.workshop, bend, counts)

    def _lent(self, case: SizeCase, bend: Bend, counts: Mapping[str, int]) -> Plane | None:
        """A plane found for another size that refuses these counts too."""
        if bend.quantity not in SAME_FOR_ALL:
            return None
        for index, regions in self.regions.items():
            if index == case.index or not self.workshop.alike(index, case.index):
                continue
            for each in (its.plane for its in regions):
                same = (each.bend.code, each.bend.quantity, each.bend.sense)
                if same == (bend.code, bend.quantity, bend.sense):
                    found = lent(each, case, self.workshop, bend)
                    if found is not None and found.refuses(counts):
                        return found
        return None

    def _box(self, case: SizeCase, bend: Bend, counts: Mapping[str, int]) -> None:
        """Cut off a box of counts that fail in this way."""
        key = box_rule(case, bend, ()).key
        self.bends.setdefault(key, (case, bend))
        clauses = self.clauses.setdefault(key, [])
        clauses += [each for each in boxes(case, self.workshop, bend, counts) if each not in clauses]


def minds(findings: Sequence[Finding]) -> list[Finding]:
    """Findings to mind that cost: not the designer's own choices, nor what is not known of the wearer."""
    return [
        each
        for each in findings
        if each.severity is Severity.MIND and each.code not in UNPRICED and each.figures
    ]
