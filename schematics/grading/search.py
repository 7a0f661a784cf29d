"""The search: solve, make every size, cut off what the checks refuse, until nothing is refused."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from schematics.checks.finding import Finding, Severity
from schematics.grading.bends import Bend, bends
from schematics.grading.cuts import Plane, box_rule, boxes, plane
from schematics.grading.draft import Draft
from schematics.grading.made import Workshop
from schematics.grading.problem import Floor, Problem, broken_name
from schematics.grading.program import Answer
from schematics.grading.rules import Clause, Rule, SizeCase
from schematics.grading.state import problem_of, size_cases
from schematics.grading.targets import targets

MOST_TURNS = 40
EQUAL_CM = 1e-5
"""Costs this near are equal: what the solver is exact to."""
UNPRICED = frozenset({"FLAT-CIRCLE"})
"""Findings to mind that are the designer's own choice: a body over a full circle is only drawn otherwise."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """Counts for every size, their cost in cm, and the least any counts could cost."""

    counts: tuple[Mapping[str, int], ...]
    cost_cm: float
    bound_cm: float
    turns: int = 0

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
        for case in self.cases:
            if not self._explore(case):
                return None
        best: Found | None = None
        for turn in range(1, MOST_TURNS + 1):
            answer = self.problem.best(self.rules(), self.floors)
            if answer is None:
                return None
            counts = self.counts(answer, self.cases)
            cost = self.cost_cm(counts)
            if cost is not None and (best is None or cost < best.cost_cm):
                best = Found(counts=counts, cost_cm=cost, bound_cm=answer.bound)
            if best is not None:
                best = Found(counts=best.counts, cost_cm=best.cost_cm, bound_cm=answer.bound, turns=turn)
                if not best.gap_cm:
                    return best
            fresh = [self._cut(case, each, answer) for case, each in zip(self.cases, counts, strict=True)]
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
        for _ in range(MOST_TURNS):
            now = [rule for rule in self.hard_rules() if rule.key in kept]
            answer = self.problem.only(*sizes).possible(now)
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
        return None

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

    def _named(self, counts: Sequence[Mapping[str, int]]) -> dict[str, int]:
        return {f"{at}/{count}": value for at, each in enumerate(counts) for count, value in each.items()}

    def cost_cm(self, counts: Sequence[Mapping[str, int]]) -> float | None:
        """What counts cost by the checks themselves; None where a check stops a size."""
        minded = 0
        for case, each in zip(self.cases, counts, strict=True):
            try:
                findings = self.workshop.findings(case.index, each)
            except ValueError:
                return None
            if any(finding.severity is Severity.STOP for finding in findings):
                return None
            minded += len(minds(findings))
        values = self._named(counts)
        cost = sum(self.problem.fewer_cm[name] * value for name, value in values.items())
        known = self.values(counts)
        return cost + sum(term.cost(known) for term in self.problem.terms) + self.problem.mind_cm * minded

    def values(self, counts: Sequence[Mapping[str, int]]) -> dict[str, float]:
        """The counts by their names with their sizes, and what is picked up from them."""
        values: dict[str, float] = dict(self._named(counts))
        for index, each in self.problem.picked_up:
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
