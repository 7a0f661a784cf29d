"""The checks of `schematics.checks.rules` on a case: their answers, and their sentences filled in."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any, TypeAlias

from schematics.checks.finding import Case, Explanation, Family, Finding, Severity
from schematics.checks.rules.judging import Judge, judges
from schematics.checks.rules.rule import Rule
from schematics.checks.rules.sentence import ENDS, MISSING, Answer, Kind, Printed, Words
from schematics.checks.rules.size_rules import RULES
from schematics.checks.wording import borrowed_clause, listed, of_body, percent, sentence_case
from schematics.design.limits import Limits
from schematics.wearer.body import Body
from schematics.wearer.estimates import estimates_of
from schematics.wearer.evaluator import Evaluator, Inputs, evaluator_of, evaluators_of
from schematics.wearer.expr import End, OfBody

SEVERITIES: Mapping[Answer, Severity] = {
    Answer.GOOD: Severity.GOOD,
    Answer.UNKNOWN: Severity.MIND,
    Answer.MIND: Severity.MIND,
    Answer.STOP: Severity.STOP,
}
"""How an answer is reported; what cannot be checked is for the maker to mind."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """A rule's answer on a case."""

    answer: Answer
    judge: Judge
    inputs: Inputs

    @property
    def severity(self) -> Severity:
        """How it is reported."""
        return SEVERITIES[self.answer]

    def figure(self, name: str) -> float:
        """A number behind it, by its name in `Rule.figures`."""
        return float(self.judge.figure(name, self.inputs))


def verdict(case: Case, code: str) -> Verdict:
    """What the rule of that code says of a case."""
    judge = case.judges[code]
    return Verdict(answer=judge.answer(case.inputs), judge=judge, inputs=case.inputs)


def ruled_family(
    name: str, more: Callable[[Case], Iterator[Finding]] | None = None, *explanations: Explanation
) -> Family:
    """The family of `RULES` of that name, and of one ``more`` check with its explanations."""
    rules = RULES[name](Limits())

    def check(case: Case) -> Iterator[Finding]:
        written = _written(case.limits)
        for rule in rules:
            yield _finding(case, verdict(case, rule.code), written[rule.code])
        yield from () if more is None else more(case)

    return Family(
        name=name,
        check=check,
        explanations=(*map(_explanation, rules), *explanations),
    )


def _explanation(rule: Rule) -> Explanation:
    about = rule.about
    return Explanation(
        code=rule.code,
        title=about.title,
        meaning=about.meaning,
        cure=about.cure,
        origin=about.origin,
        limits=about.limits,
        tracked=("ease_cm", about.spare),
        severities=(*([Severity.STOP] if rule.stop else []), Severity.MIND, Severity.GOOD),
    )


def _finding(case: Case, found: Verdict, written: _Written) -> Finding:
    rule = found.judge.rule
    if found.answer is Answer.UNKNOWN:
        return case.finding(rule.code, found.severity, rule.place, _missing(case, rule))
    body, garment, *reported = map(float, written.numbers(found.inputs))
    measured = math.isfinite(body) and math.isfinite(garment)
    figures = zip(rule.reported, reported, strict=True) if measured else ()
    return case.finding(
        rule.code,
        found.severity,
        rule.place,
        _said(case, found, written),
        **{name: figure for name, figure in figures if figure == figure},
    )


def _missing(case: Case, rule: Rule) -> str:
    """That the rule lacks measurements, and what to measure."""
    missing = [body for body in rule.asks or rule.needs if case.wearer.get(body) is None]
    by_height = {each.body for each in estimates_of("both")}
    template = MISSING["one" if len(missing) == 1 else "many"]
    return template.format(
        missing=sentence_case(listed(body.words for body in missing)),
        subject=rule.sentence.subject,
        height=MISSING["height"] if by_height.issuperset(missing) else "",
    )


_Clause: TypeAlias = tuple[tuple[Words, Evaluator | None], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Written:
    """A rule's sentence by its answer and its numbers, ready to be filled in.

    ``numbers`` are ``body_cm``, ``garment_cm`` and what is reported.
    """

    clauses: Mapping[Answer, tuple[_Clause, ...]]
    printed: Mapping[str, tuple[Printed, Callable[[Inputs], tuple[Any, ...]]]]
    numbers: Callable[[Inputs], tuple[Any, ...]]


@cache
def _written(limits: Limits) -> Mapping[str, _Written]:
    return {code: _write(judge.rule) for code, judge in judges(limits).items()}


def _write(rule: Rule) -> _Written:
    clauses = [
        [(words, None if words.when is None else evaluator_of(words.when)) for words in clause]
        for clause in rule.sentence.clauses
    ]
    return _Written(
        clauses={
            answer: tuple(
                tuple(each for each in clause if each[0].answer in (None, answer)) for clause in clauses
            )
            for answer in Answer
        },
        printed={
            name: (each, evaluators_of(each.of)) for each in rule.sentence.printed for name in each.names
        },
        numbers=evaluators_of((rule.figures["body_cm"], rule.figures["garment_cm"], *rule.reported.values())),
    )


def _said(case: Case, found: Verdict, written: _Written) -> str:
    """The sentence of a verdict."""
    chosen = tuple(_chosen(written.clauses[found.answer], found.inputs))
    return "".join([words.text for words in chosen]).format_map(_Figures(case, found, written, chosen))


class _Figures(dict[str, str]):
    """What the names in a sentence stand for, each printed when it is first asked for."""

    def __init__(self, case: Case, found: Verdict, written: _Written, chosen: Sequence[Words]) -> None:
        super().__init__()
        self._case, self._found, self._written, self._chosen = case, found, written, chosen

    def __missing__(self, name: str) -> str:
        if name == "borrowed":
            uses = {body for words in self._chosen for body in words.uses}
            return borrowed_clause(self._case, (body for body in Body if body in uses)) if uses else ""
        printed, numbers = self._written.printed[name]
        words = _PRINTERS[printed.kind](self._case, printed, *map(float, numbers(self._found.inputs)))
        if len(printed.names) == 1:
            return words[0]
        self.update(zip(printed.names, words, strict=True))
        return self[name]


def _chosen(clauses: Iterable[_Clause], inputs: Inputs) -> Iterator[Words]:
    for clause in clauses:
        for words, when in clause:
            if when is None or when(inputs):
                yield words
                if words.last:
                    return
                break


def _print_compared(case: Case, _: Printed, first_cm: float, second_cm: float) -> tuple[str, ...]:
    words = case.tape.compare(first_cm, second_cm)
    return words.first, words.second, words.gap


def _print_origin(case: Case, printed: Printed, _: float) -> tuple[str, ...]:
    (tree,) = printed.of
    assert isinstance(tree, OfBody)
    return (of_body(case.wearer.judged[tree.body], ENDS[tree.end or End.TYPICAL]),)


_PRINTERS: Mapping[Kind, Callable[..., tuple[str, ...]]] = {
    Kind.COMPARED: _print_compared,
    Kind.LENGTH: lambda case, _, length_cm: (case.tape.length(abs(length_cm)),),
    Kind.AT_LEAST: lambda case, _, length_cm: (case.tape.at_least(length_cm),),
    Kind.PERCENT: lambda _case, _, *fractions: (percent(*fractions),),
    Kind.SIGNED: lambda _case, _, *fractions: (percent(*fractions, signed=True),),
    Kind.ORIGIN: _print_origin,
}
"""The words for each of the names of what is printed, by its kind."""
