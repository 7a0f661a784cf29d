"""The search: solve, make every size, cut off what the checks refuse, until nothing is refused."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from schematics.checks.finding import Finding, Severity
from schematics.errors import SchematicsError
from schematics.grading.bends import Bend, bends, cut_rule, cuts
from schematics.grading.draft import DEFAULT_MIND_CM, Draft
from schematics.grading.made import Workshop
from schematics.grading.problem import FEWER, Problem, broken_name, count_bounds, terms_of
from schematics.grading.program import Answer
from schematics.grading.rules import Clause, Rule, SizeCase, growth_rules, size_rules
from schematics.grading.targets import GradingError, targets
from schematics.linear import Linear
from schematics.wearer.body import Wearer
from schematics.wearer.resolve import resolve

MOST_TURNS = 60
UNPRICED = frozenset({"FLAT-CIRCLE"})
"""Findings to mind that are the designer's own choice: a body over a full circle is only drawn otherwise."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """Counts for every size, their cost in cm, and the least any counts could cost.

    ``wishes`` are the rules that would only be minded, the cuts among them.
    """

    counts: tuple[Mapping[str, int], ...]
    cost: float
    bound: float
    turns: int

    @property
    def gap(self) -> float:
        """How much better an answer could be at most, in cm."""
        return max(0.0, self.cost - self.bound)


@dataclass(slots=True)
class Search:
    """One draft with its rules, and the cuts found so far."""

    draft: Draft
    cases: tuple[SizeCase, ...]
    targets: list[dict[str, float]]
    problem: Problem
    workshop: Workshop
    clauses: dict[str, list[Clause]] = field(default_factory=dict)
    bends: dict[str, tuple[SizeCase, Bend]] = field(default_factory=dict)

    @classmethod
    def of(cls, draft: Draft) -> Search:
        """The search for a draft.

        Raises:
            GradingError: there is not enough to grade by.
            SchematicsError: a wearer cannot be resolved.
        """
        cases = size_cases(draft)
        wanted = targets(draft, cases)
        rules = [rule for case in cases for rule in size_rules(case)]
        rules += growth_rules(list(cases), wanted)
        problem = Problem(
            bounds=dict(bound for case in cases for bound in count_bounds(draft, case)),
            picked_up=tuple((case.index, each) for case in cases for each in case.facts.picked_up),
            rules=tuple(rules),
            terms=tuple(terms_of(draft, cases, wanted)),
            mind_cm=draft.wishes.mind_cm if draft.wishes else DEFAULT_MIND_CM,
        )
        workshop = Workshop(draft, cases)
        return cls(draft=draft, cases=cases, targets=wanted, problem=problem, workshop=workshop)

    @property
    def rules(self) -> list[Rule]:
        """Every rule, those that stand for cuts among them."""
        found = [cut_rule(case, bend, self.clauses[key]) for key, (case, bend) in self.bends.items()]
        return [*self.problem.rules, *found]

    def run(self) -> Found | None:
        """The best counts; None where there are none."""
        best: Found | None = None
        for turn in range(1, MOST_TURNS + 1):
            answer = self.problem.solve(self.rules, self.problem.terms)
            if answer is None:
                return None
            counts = self.counts(answer)
            found = self.judge(counts, answer.bound, turn)
            if found is not None and (best is None or found.cost < best.cost):
                best = found
            if best is not None:
                best = Found(counts=best.counts, cost=best.cost, bound=answer.bound, turns=turn)
                if best.gap <= HAIR_OF_COST:
                    return best
            if not self.cut(counts, answer):
                break
        return best

    def counts(self, answer: Answer) -> tuple[dict[str, int], ...]:
        """The counts of each size in an answer."""
        return tuple(
            {count: round(answer.values[f"{case.index}/{count}"]) for count in self.draft.counts}
            for case in self.cases
        )

    def judge(self, counts: Sequence[Mapping[str, int]], bound: float, turn: int) -> Found | None:
        """The counts with their true cost; None where a check stops a size."""
        minded = 0
        for case, each in zip(self.cases, counts, strict=True):
            try:
                findings = self.workshop.findings(case.index, each)
            except ValueError:
                return None
            if any(finding.severity is Severity.STOP for finding in findings):
                return None
            minded += len(minds(findings))
        values = named(counts)
        cost = sum(term.cost(self.values(values)) for term in self.problem.terms)
        order = list(self.problem.bounds)
        cost += sum(
            FEWER * (1 + order.index(name) / len(order) / 10) * value for name, value in values.items()
        )
        return Found(counts=tuple(counts), cost=cost + self.problem.mind_cm * minded, bound=bound, turns=turn)

    def values(self, counts: Mapping[str, int]) -> dict[str, float]:
        """The counts and those picked up from them."""
        values: dict[str, float] = dict(counts)
        for index, each in self.problem.picked_up:
            own = {
                name.removeprefix(f"{index}/"): value
                for name, value in counts.items()
                if name.startswith(f"{index}/")
            }
            values[f"{index}/{each.name}"] = each.count(own)
        return values

    def cut(self, counts: Sequence[Mapping[str, int]], answer: Answer) -> bool:
        """Cut off counts the checks refuse and the answer has not paid for; whether there were any."""
        fresh = False
        for case, each in zip(self.cases, counts, strict=True):
            for bend in bends(case, self.workshop.findings(case.index, each)):
                rule = cut_rule(case, bend, ())
                if rule.wish and answer.values.get(broken_name(rule), 0.0) > 0.5:
                    continue
                self.bends.setdefault(rule.key, (case, bend))
                known = self.clauses.setdefault(rule.key, [])
                known += [clause for clause in cuts(case, self.workshop, bend, each) if clause not in known]
                fresh = True
        return fresh


HAIR_OF_COST = 1e-5
"""Costs this near are equal, in cm: what the solver is exact to."""


def named(counts: Sequence[Mapping[str, int]]) -> dict[str, int]:
    """The counts of all sizes, each by its name with its size."""
    return {f"{index}/{count}": value for index, each in enumerate(counts) for count, value in each.items()}


def minds(findings: Sequence[Finding]) -> list[Finding]:
    """Findings to mind that cost: not the designer's own choices, nor what is not known of the wearer."""
    return [
        each
        for each in findings
        if each.severity is Severity.MIND and each.code not in UNPRICED and each.figures
    ]


def size_cases(draft: Draft) -> tuple[SizeCase, ...]:
    """Every size with its facts and its wearer.

    Raises:
        GradingError: the construction cannot be graded, or a wearer not be resolved.
    """
    head, gradable = draft.head, draft.gradable
    if gradable is None:
        raise GradingError(f"{head.path}: the counts of a {head.construction} body must all be given")
    wearers: list[Wearer] = []
    problems: list[str] = []
    for size in draft.sizes:
        try:
            wearers.append(resolve(size.wearer, size.name))
        except SchematicsError as error:
            problems.append(f"{head.path}:{size.line}: {error}")
    if problems:
        raise GradingError("\n".join(problems))
    symbols = {count: Linear.of(count) for count in draft.counts}
    return tuple(
        SizeCase(
            index=index,
            size=size,
            facts=gradable.facts(symbols, _settings(size.settings), head.parts),
            wearer=wearer,
            parts=head.parts,
            limits=head.limits,
        )
        for index, (size, wearer) in enumerate(zip(draft.sizes, wearers, strict=True))
    )


def _settings(settings: Mapping[str, object]) -> dict[str, object]:
    """Settings by their names in the body's block."""
    return {name.removeprefix("body."): value for name, value in settings.items() if name.startswith("body.")}
