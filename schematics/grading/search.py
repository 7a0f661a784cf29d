"""The search: solve, make every size, cut off what the checks refuse, until nothing is refused."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from schematics.checks.finding import Finding, Severity
from schematics.grading.bends import Bend, bends
from schematics.grading.cuts import Plane, box_rule, boxes, plane
from schematics.grading.draft import Draft
from schematics.grading.made import Workshop
from schematics.grading.problem import Floor, Problem, broken_name
from schematics.grading.program import Answer
from schematics.grading.rules import Clause, Rule, SizeCase, pin_rules
from schematics.grading.state import problem_of, size_cases
from schematics.grading.targets import GradingError, targets

MOST_TURNS = 40
_TOGETHER = 8
"""So many sizes at most are graded in one go."""
_BLOCK = 5
"""Sizes in a block where there are more."""
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
    """One draft with its rules, and the cuts found so far."""

    draft: Draft
    cases: tuple[SizeCase, ...]
    targets_cm: list[dict[str, float]]
    problem: Problem
    workshop: Workshop
    clauses: dict[str, list[Clause]] = field(default_factory=dict)
    bends: dict[str, tuple[SizeCase, Bend]] = field(default_factory=dict)
    planes: dict[int, list[Plane]] = field(default_factory=dict)
    floors: list[Floor] = field(default_factory=list)

    @classmethod
    def of(cls, draft: Draft) -> Search:
        """The search for a draft.

        Raises:
            GradingError: there is not enough to grade by.
        """
        cases = size_cases(draft)
        wanted = targets(draft, cases)
        return cls(
            draft=draft,
            cases=cases,
            targets_cm=wanted,
            problem=problem_of(draft, cases, wanted),
            workshop=Workshop(draft, cases),
        )

    def rules(self, sizes: Sequence[int] | None = None) -> list[Rule]:
        """Every rule, those that stand for cuts among them; only those of some sizes alone if asked."""
        found = [*self.problem.rules]
        found += [box_rule(*self.bends[key], clauses) for key, clauses in self.clauses.items()]
        found += [rule for planes in self.planes.values() for each in planes for rule in each.rules]
        return [rule for rule in found if sizes is None or set(rule.sizes) <= set(sizes)]

    def given(self) -> Found:
        """The counts of a draft that leaves none out."""
        return Found(counts=tuple(case.size.given for case in self.cases), cost_cm=0.0, bound_cm=0.0)

    def run(self) -> Found | None:
        """The best counts; None where there are none."""
        if not all(self._explore(case) for case in self.cases):
            return None
        sizes = range(len(self.cases))
        return self._together(sizes) if len(sizes) <= _TOGETHER else self._in_blocks(sizes)

    def _in_blocks(self, sizes: range) -> Found | None:
        """Good counts for many sizes: block after block, each with what was found for the two before it.

        Blocks by themselves, steps between them left out, cost no more than all sizes together.
        """
        bound_cm, counts = 0.0, dict[int, Mapping[str, int]]()
        for first in sizes[::_BLOCK]:
            block = sizes[first : first + _BLOCK]
            alone = self._together(block)
            pinned = {at: counts[at] for at in (first - 2, first - 1) if at >= 0}
            found = alone if not pinned or alone is None else self._together(block, pinned)
            if alone is None or found is None:
                return self._together(sizes)
            bound_cm += alone.bound_cm
            counts |= dict(zip([*pinned, *block], found.counts, strict=True))
        cost_cm = self.cost_cm(self.problem, counts)
        return None if cost_cm is None else Found(tuple(counts.values()), cost_cm, bound_cm)

    def _together(
        self, sizes: Iterable[int], pinned: Mapping[int, Mapping[str, int]] | None = None
    ) -> Found | None:
        """The best counts for some sizes, after ``pinned`` ones as they are; None where there are none."""
        pinned = pinned or {}
        cases = [self.cases[at] for at in (*pinned, *sizes)]
        problem = self.problem.only(*(case.index for case in cases))
        fixed = [rule for at, counts in pinned.items() for rule in pin_rules(self.cases[at], counts)]
        best: Found | None = None
        for _ in range(MOST_TURNS):
            floors = [each for each in self.floors if each.size in {case.index for case in cases}]
            answer = problem.best([*self.rules([case.index for case in cases]), *fixed], floors)
            if answer is None:
                return None
            counts = self.counts(answer, cases)
            cost = self.cost_cm(problem, {case.index: each for case, each in zip(cases, counts, strict=True)})
            if cost is not None and (best is None or cost < best.cost_cm):
                best = Found(counts, cost, answer.bound)
            if best is not None:
                best = Found(best.counts, best.cost_cm, answer.bound)
                if not best.gap_cm:
                    return best
            fresh = [self._cut(case, each, answer) for case, each in zip(cases, counts, strict=True)]
            if not any(fresh):
                break
        return best

    def _explore(self, case: SizeCase) -> bool:
        """Find what one size costs by itself, and with it most of its cuts; whether it can be made."""
        own = self.problem.only(case.index)
        for _ in range(MOST_TURNS):
            answer = own.best(self.rules([case.index]), self._floors(case))
            if answer is None:
                return False
            (counts,) = self.counts(answer, [case])
            if not self._cut(case, counts, answer):
                break
        return True

    def _floors(self, case: SizeCase) -> Iterator[Floor]:
        return (floor for floor in self.floors if floor.size == case.index)

    def hard_rules(self) -> list[Rule]:
        """Every rule that is never broken."""
        return [rule for rule in self.rules() if not (rule.wish or rule.unless or rule.given)]

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
            known = self.planes.setdefault(case.index, [])
            found = plane(case, self.workshop, bend, counts, len(known))
            if found is not None:
                self._add(case, found)
                continue
            self._box(case, bend, counts)
        return fresh

    def _box(self, case: SizeCase, bend: Bend, counts: Mapping[str, int]) -> None:
        """Cut off a box of counts that fail in this way."""
        key = box_rule(case, bend, ()).key
        self.bends.setdefault(key, (case, bend))
        clauses = self.clauses.setdefault(key, [])
        clauses += [each for each in boxes(case, self.workshop, bend, counts) if each not in clauses]

    def _add(self, case: SizeCase, found: Plane) -> None:
        """Keep a plane, with what the size costs inside its window and outside."""
        self.planes[case.index].append(found)
        if not found.window:
            return
        own, floors, rules = self.problem.only(case.index), list(self._floors(case)), self.rules([case.index])
        near, far = (own.best(rules, floors, far={found.window: left}) for left in (False, True))
        bounds = [each.bound for each in (near, far) if each is not None]
        if bounds:
            near_cm, far_cm = (max(bounds) if each is None else each.bound for each in (near, far))
            self.floors.append(Floor(size=case.index, near_cm=near_cm, window=found.window, far_cm=far_cm))


def minds(findings: Sequence[Finding]) -> list[Finding]:
    """Findings to mind that cost: not the designer's own choices, nor what is not known of the wearer."""
    return [
        each
        for each in findings
        if each.severity is Severity.MIND and each.code not in UNPRICED and each.figures
    ]
