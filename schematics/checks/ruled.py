"""The checks of `schematics.checks.rules` on a case: their answers, and their sentences filled in."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from schematics.checks.finding import Case, Explanation, Family, Finding, Severity
from schematics.checks.rules.judging import Judge
from schematics.checks.rules.rule import Rule
from schematics.checks.rules.sentence import ENDS, MISSING, Answer, Kind, Printed, Words
from schematics.checks.rules.size_rules import RULES
from schematics.checks.wording import borrowed_clause, listed, of_body, percent, sentence_case
from schematics.design.limits import Limits
from schematics.wearer.body import Body
from schematics.wearer.estimates import estimates_of
from schematics.wearer.evaluator import Inputs
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
    rules = [rule(Limits()) for rule in RULES[name]]

    def check(case: Case) -> Iterator[Finding]:
        for rule in rules:
            yield _finding(case, verdict(case, rule.code))
        yield from () if more is None else more(case)

    return Family(name=name, check=check, explanations=(*map(_explanation, rules), *explanations))


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


def _finding(case: Case, found: Verdict) -> Finding:
    rule = found.judge.rule
    if found.answer is Answer.UNKNOWN:
        return case.finding(rule.code, found.severity, rule.place, _missing(case, rule))
    measured = all(math.isfinite(found.figure(name)) for name in ("body_cm", "garment_cm"))
    reported = found.judge.reported if measured else {}
    figures = {name: float(work(found.inputs)) for name, work in reported.items()}
    return case.finding(
        rule.code,
        found.severity,
        rule.place,
        _said(case, found),
        **{name: figure for name, figure in figures.items() if not math.isnan(figure)},
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


def _said(case: Case, found: Verdict) -> str:
    """The sentence of a verdict."""
    chosen = tuple(_chosen(found))
    return "".join([words.text for words in chosen]).format_map(_Figures(case, found, chosen))


class _Figures(dict[str, str]):
    """What the names in a sentence stand for, each printed when it is first asked for."""

    def __init__(self, case: Case, found: Verdict, chosen: Sequence[Words]) -> None:
        super().__init__()
        self._case, self._found, self._chosen = case, found, chosen

    def __missing__(self, name: str) -> str:
        if name == "borrowed":
            uses = {body for words in self._chosen for body in words.uses}
            return borrowed_clause(self._case, (body for body in Body if body in uses))
        printed, works = self._found.judge.printed[name]
        figures = [float(work(self._found.inputs)) for work in works]
        self.update(zip(printed.names, _print(self._case, printed, figures), strict=True))
        return self[name]


def _chosen(found: Verdict) -> Iterator[Words]:
    for clause in found.judge.clauses:
        for words, when in clause:
            if words.answer in (None, found.answer) and (when is None or when(found.inputs)):
                yield words
                if words.last:
                    return
                break


def _print(case: Case, printed: Printed, figures: list[float]) -> tuple[str, ...]:
    """The words for each of its names."""
    one, *others = figures
    match printed.kind:
        case Kind.COMPARED:
            words = case.tape.compare(one, *others)
            return words.first, words.second, words.gap
        case Kind.LENGTH:
            return (case.tape.length(abs(one)),)
        case Kind.AT_LEAST:
            return (case.tape.at_least(one),)
        case Kind.PERCENT | Kind.SIGNED:
            return (percent(one, *others, signed=printed.kind is Kind.SIGNED),)
        case Kind.ORIGIN:
            (tree,) = printed.of
            assert isinstance(tree, OfBody)
            return (of_body(case.wearer.judged[tree.body], ENDS[tree.end or End.TYPICAL]),)
