"""The whole problem: every size's unknown counts, the rules, and what the best answer is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from schematics.constructions import CONSTRUCTIONS
from schematics.constructions.facts import PickedUp
from schematics.fabric import CountRule
from schematics.grading.draft import Draft
from schematics.grading.program import Answer, Program
from schematics.grading.rules import Rule, SizeCase
from schematics.linear import Linear, at_least

LONGEST_CM = 600.0
"""No count is looked for beyond this length."""
LARGEST = 10_000
FEWER = 0.001
"""Cost in cm of each stitch or row: of two equally good answers the one with fewer is taken."""
_SECONDS = 60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """A length and what each centimetre of it off ``target_cm`` costs.

    ``count`` and ``rule`` are the one count it is the length of and what that count may be, None
    where it is made of several.
    """

    value: Linear
    target_cm: float
    weight: float
    count: str | None = None
    rule: CountRule | None = None

    def cost(self, counts: Mapping[str, float]) -> float:
        """What it costs at these counts, in cm."""
        return self.weight * abs(self.value.at(counts) - self.target_cm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """Counts with their bounds, rules and costs. Counts are named with their size: ``0/body.neck``."""

    bounds: Mapping[str, tuple[int, int]]
    picked_up: tuple[tuple[int, PickedUp], ...]
    rules: tuple[Rule, ...]
    terms: tuple[Term, ...]
    mind_cm: float

    def solve(
        self, rules: Iterable[Rule], terms: Sequence[Term], *, loose: Rule | None = None
    ) -> Answer | None:
        """The best counts that keep ``rules``; None where there are none.

        Args:
            rules: those to keep, of these and more.
            terms: what to minimise; nothing but whether there is an answer when empty.
            loose: a rule to come as near to as can be instead of all that.
        """
        program = Program()
        for order, (name, (low, high)) in enumerate(self.bounds.items()):
            fewer = FEWER * (1 + order / len(self.bounds) / 10) if terms else 0.0
            program.column(name, low, high, whole=True, cost=fewer)
        for index, each in self.picked_up:
            program.column(f"{index}/{each.name}", 1, LARGEST, whole=True)
        for rule in rules:
            self._keep(program, rule, priced=bool(terms))
        for number, term in enumerate(terms):
            _charge(program, number, term)
        if loose is not None:
            _loosen(program, loose)
        return program.solve(_SECONDS)

    def _keep(self, program: Program, rule: Rule, *, priced: bool) -> None:
        if rule.wish and not priced:
            return
        broken = None
        if rule.wish:
            broken = program.known(broken_name(rule)) or program.column(
                broken_name(rule), 0, 1, whole=True, cost=self.mind_cm
            )
        for number, clause in enumerate(rule.clauses):
            if len(clause) == 1 and broken is None:
                program.keep(clause[0])
                continue
            if len(clause) == 1 and broken is not None:
                program.keep_if(clause[0], 1 - broken)
                continue
            choices = Linear()
            for option, row in enumerate(clause):
                choice = program.column(f"{rule.key} {number} {option}", 0, 1, whole=True)
                program.keep_if(row, choice)
                choices = choices + choice
            program.keep(at_least(choices if broken is None else choices + broken, 1))


def broken_name(rule: Rule) -> str:
    """The column that is 1 where a wish is broken."""
    return f"broken {rule.price or rule.key}"


def _charge(program: Program, number: int, term: Term) -> None:
    """The cost of a length off its target: above both lines, and above the chord next to the target.

    The chord between the two allowed counts next to the target cuts off what only a part of a
    stitch could reach.
    """
    off = program.column(f"off {number}", 0, LONGEST_CM * 4, cost=term.weight)
    away = term.value - term.target_cm
    program.keep(at_least(off, away))
    program.keep(at_least(off, -away))
    if term.count is None or term.rule is None:
        return
    (factor,) = term.value.terms.values()
    wanted = (term.target_cm - term.value.constant) / factor
    low, high = term.rule.at_most(wanted), term.rule.at_least(wanted)
    if low < wanted < high:
        below, above = (abs(factor * each + term.value.constant - term.target_cm) for each in (low, high))
        slope = (above - below) / (high - low)
        program.keep(at_least(off, slope * (Linear.of(term.count) - low) + below))


def _loosen(program: Program, rule: Rule) -> None:
    slack = program.column("slack", 0, LARGEST, cost=1.0)
    for clause in rule.clauses:
        for row in clause:
            program.keep(at_least(row.value + slack, row.low) if row.low > -LARGEST else at_least(slack, 0))
            if row.high < LARGEST:
                program.keep(at_least(slack, row.value - row.high))


def count_bounds(draft: Draft, case: SizeCase) -> Iterator[tuple[str, tuple[int, int]]]:
    """The least and the most each count of a size is looked for, given ones included."""
    construction = CONSTRUCTIONS[draft.head.construction]
    models = {"body": construction.body_counts, "arms": construction.arm_counts}
    for count, key in draft.counts.items():
        block, name = count.split(".")
        low = 1
        if block in models:
            metadata = models[block].model_fields[name].metadata
            low = max((each.ge for each in metadata if hasattr(each, "ge")), default=1)
        length = case.facts.lengths[key]
        per_count = abs(length.terms.get(count, 0.0))
        high = min(LARGEST, int(LONGEST_CM / per_count)) if per_count else LARGEST
        given = case.size.given.get(count)
        yield f"{case.index}/{count}", (low, high) if given is None else (min(low, given), max(high, given))


def terms_of(
    draft: Draft, cases: Sequence[SizeCase], targets: Sequence[Mapping[str, float]]
) -> Iterator[Term]:
    """What the best answer has least of: lengths off intents, seams that differ, uneven steps."""
    wishes = draft.wishes
    if wishes is None:
        return
    for case, wanted in zip(cases, targets, strict=True):
        for key, target_cm in wanted.items():
            yield _intent_term(case, key, target_cm, wishes.weights.get(key, 1.0))
        for seam in case.facts.seams:
            apart = (seam.first_cm - seam.second_cm).of_size(case.index)
            yield Term(value=apart, target_cm=0.0, weight=wishes.weights.get("panel.length", 1.0))
    for trio in zip(cases, cases[1:], cases[2:], strict=False):
        for key in trio[0].facts.growing:
            first, second, third = (each.facts.lengths[key].of_size(each.index) for each in trio)
            weight = wishes.steps * wishes.weights.get(key, 1.0)
            if weight:
                yield Term(value=first - 2 * second + third, target_cm=0.0, weight=weight)


def _intent_term(case: SizeCase, key: str, target_cm: float, weight: float) -> Term:
    value = case.facts.lengths[key]
    plain = Term(value=value.of_size(case.index), target_cm=target_cm, weight=weight)
    names = list(value.terms)
    if len(names) != 1:
        return plain
    (count,) = names
    rules = [each.rule for each in case.facts.patterns if each.count == Linear.of(count)]
    bound = next((rule for rule in rules if rule != CountRule()), CountRule())
    return Term(
        value=plain.value, target_cm=target_cm, weight=weight, count=f"{case.index}/{count}", rule=bound
    )
