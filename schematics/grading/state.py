"""From a draft to the problem it poses."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from schematics.checks.tape import Tape
from schematics.constructions import CONSTRUCTIONS
from schematics.errors import SchematicsError
from schematics.fabric import CountRule
from schematics.grading.draft import DEFAULT_MIND_CM, Draft, Wishes
from schematics.grading.problem import LARGEST, LONGEST_CM, Problem, Term
from schematics.grading.rules import SizeCase, growth_rules, size_rules
from schematics.grading.targets import GradingError
from schematics.linear import Linear
from schematics.wearer.body import Wearer
from schematics.wearer.resolve import resolve

FEWER_CM = 0.001
"""Cost of a stitch or row; each count's differs a hair from the next, so that no two answers tie."""


SEAM, STEPS = "seam", "even steps"
"""What terms are for that no intent asks for."""


def size_cases(draft: Draft) -> tuple[SizeCase, ...]:
    """Every size with its facts and its wearer.

    Raises:
        GradingError: the construction cannot be graded, or a wearer not be resolved.
    """
    head, gradable = draft.head, draft.gradable
    if gradable is None:
        raise GradingError(
            f"{head.path}:{draft.sizes[0].line}: the counts of a {head.construction} body must all be given"
        )
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
            tape=Tape(head.unit),
        )
        for index, (size, wearer) in enumerate(zip(draft.sizes, wearers, strict=True))
    )


def _settings(settings: Mapping[str, object]) -> dict[str, object]:
    """Settings by their names in the body's block."""
    return {name.removeprefix("body."): value for name, value in settings.items() if name.startswith("body.")}


def problem_of(draft: Draft, cases: Sequence[SizeCase], targets_cm: Sequence[Mapping[str, float]]) -> Problem:
    """The problem a draft poses, but for what no straight line tells."""
    bounds = {name: each for case in cases for name, each in _bounds(draft, case)}
    rules = [rule for case in cases for rule in size_rules(case)]
    return Problem(
        bounds=bounds,
        fewer_cm={name: FEWER_CM * (1 + order / len(bounds) / 10) for order, name in enumerate(bounds)},
        picked_up=tuple((case.index, each) for case in cases for each in case.facts.picked_up),
        rules=(*rules, *growth_rules(cases, targets_cm)),
        terms=tuple(_terms(draft, cases, targets_cm)),
        mind_cm=draft.wishes.mind_cm if draft.wishes else DEFAULT_MIND_CM,
    )


def _bounds(draft: Draft, case: SizeCase) -> Iterator[tuple[str, tuple[int, int]]]:
    """The least and the most each count of a size is looked for, given ones included."""
    construction = CONSTRUCTIONS[draft.head.construction]
    models = {"body": construction.body_counts, "arms": construction.arm_counts}
    for count in draft.counts:
        block, name = count.split(".")
        low = 1
        if block in models:
            metadata = models[block].model_fields[name].metadata
            low = max((each.ge for each in metadata if hasattr(each, "ge")), default=1)
        high = min(LARGEST, int(LONGEST_CM / cm_per_count(draft, case, count)))
        given = case.size.given.get(count)
        ends = (low, high) if given is None else (min(low, given), max(high, given))
        yield f"{case.index}/{count}", ends


def cm_per_count(draft: Draft, case: SizeCase, count: str) -> float:
    """How much longer one stitch or row more makes the measurement that tells the count."""
    return abs(case.facts.lengths[draft.counts[count]].terms[count])


def _terms(
    draft: Draft, cases: Sequence[SizeCase], targets_cm: Sequence[Mapping[str, float]]
) -> Iterator[Term]:
    """What the best answer has least of: lengths off intents, seams that differ, uneven steps."""
    wishes = draft.wishes
    if wishes is None:
        return
    yield from (term for term in _weighed(wishes, cases, targets_cm) if term.weight)


def _weighed(
    wishes: Wishes, cases: Sequence[SizeCase], targets_cm: Sequence[Mapping[str, float]]
) -> Iterator[Term]:
    for case, wanted in zip(cases, targets_cm, strict=True):
        for key, target_cm in wanted.items():
            yield _intent(case, key, target_cm, wishes.weights.get(key, 1.0))
        for seam in case.facts.seams:
            apart = (seam.first_cm - seam.second_cm).of_size(case.index)
            weight = wishes.weights.get("panel.length", 1.0)
            yield Term(words=SEAM, value=apart, target_cm=0.0, weight=weight, size=case.index)
    for trio in zip(cases, cases[1:], cases[2:], strict=False):
        for key in trio[0].facts.growing:
            first, second, third = (each.facts.lengths[key].of_size(each.index) for each in trio)
            weight = wishes.steps * wishes.weights.get(key, 1.0)
            yield Term(words=STEPS, value=first - 2 * second + third, target_cm=0.0, weight=weight)


def _intent(case: SizeCase, key: str, target_cm: float, weight: float) -> Term:
    value = case.facts.lengths[key]
    plain = Term(
        words=key, value=value.of_size(case.index), target_cm=target_cm, weight=weight, size=case.index
    )
    if len(value.terms) != 1:
        return plain
    (count,) = value.terms
    rules = [each.rule for each in case.facts.patterns if each.count == Linear.of(count)]
    bound = next((rule for rule in rules if rule != CountRule()), CountRule())
    return replace(plain, count=f"{case.index}/{count}", rule=bound)
