"""The checks of `schematics.checks.rules` on a case: their answers, and their sentences filled in."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import partial

from schematics.checks.certainty import certainty
from schematics.checks.finding import Case, Certainty, Explanation, Family, Finding, Severity
from schematics.checks.rules.judging import Judge, JudgedClause
from schematics.checks.rules.rule import Rule
from schematics.checks.rules.sentence import ENDS, MISSING, Answer, Printed, Shown, Words
from schematics.checks.rules.size_rules import RULES
from schematics.checks.wording import borrowed_clause, listed, of_body, percent, sentence_case
from schematics.design.limits import Limits
from schematics.wearer.body import Body, Wearer
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


def ruled_family(
    name: str, more: Callable[[Case], Iterator[Finding]] | None = None, *explanations: Explanation
) -> Family:
    """The family of `RULES` of that name, and of one ``more`` check with its explanations."""
    rules = [rule(Limits()) for rule in RULES[name]]

    def making(case: Case) -> Iterator[Finding]:
        yield from () if more is None else more(case)

    def check(case: Case) -> Iterator[Finding]:
        for rule in rules:
            yield _finding(case, case.judges[rule.code])
        yield from making(case)

    return Family(
        name=name, check=check, making=making, explanations=(*map(_explanation, rules), *explanations)
    )


def _explanation(rule: Rule) -> Explanation:
    about = rule.about
    return Explanation(
        code=rule.code,
        title=about.title,
        meaning=about.meaning,
        cure=about.cure,
        origin=about.origin,
        limits=(*about.limits, "sure_fraction"),
        tracked=("ease_cm", about.spare),
        severities=(*([Severity.STOP] if rule.stop else []), Severity.MIND, Severity.GOOD),
    )


def _finding(case: Case, judge: Judge) -> Finding:
    rule, (measured, answer) = judge.rule, case.answers(judge.rule.code)
    if answer is Answer.UNKNOWN:
        return case.finding(rule.code, SEVERITIES[answer], rule.place, _missing(case, rule))
    return Finding(
        code=rule.code,
        severity=SEVERITIES[answer],
        size=case.size.name,
        place=rule.place,
        words=partial(_sentence, case, judge, measured),
        amiss=partial(_amiss, case, judge),
        unsure=answer is not measured,
        sure=partial(_certainty, case, judge),
        numbers=partial(_reported, case, judge),
    )


def _figures(case: Case, judge: Judge) -> list[float]:
    """What is reported; nothing where what is asked for, or what there is, is no number."""
    body, garment, *reported = map(float, judge.numbers(case.inputs))
    return reported if math.isfinite(body) and math.isfinite(garment) else []


def _reported(case: Case, judge: Judge) -> dict[str, float]:
    figures = zip(judge.rule.reported, _figures(case, judge), strict=False)
    return {name: figure for name, figure in figures if figure == figure}


def _certainty(case: Case, judge: Judge) -> Certainty | None:
    return certainty(case, judge.rule.code) if _figures(case, judge) else None


def lacking(wearer: Wearer, rule: Rule) -> list[Body]:
    """The measurements that a rule asks for and a wearer lacks."""
    return [body for body in rule.asks or rule.needs if wearer.get(body) is None]


def _missing(case: Case, rule: Rule) -> str:
    """That the rule lacks measurements, and what to measure."""
    missing = lacking(case.wearer, rule)
    by_height = {each.body for each in estimates_of("both")}
    template = MISSING["one" if len(missing) == 1 else "many"]
    return template.format(
        missing=sentence_case(listed(body.words for body in missing)),
        subject=rule.sentence.subject,
        height=MISSING["height"] if by_height.issuperset(missing) else "",
    )


def _sentence(case: Case, judge: Judge, answer: Answer) -> str:
    """The sentence of an answer."""
    chosen = tuple(_chosen(judge.clauses[answer], case.inputs))
    return "".join([words.text for words in chosen]).format_map(_Figures(case, judge, chosen))


def _amiss(case: Case, judge: Judge) -> str:
    return "".join(words.text for words in _chosen([judge.amiss], case.inputs))


class _Figures(dict[str, str]):
    """What the names in a sentence stand for, each printed when it is first asked for."""

    def __init__(self, case: Case, judge: Judge, chosen: Sequence[Words]) -> None:
        super().__init__()
        self._case, self._judge, self._chosen = case, judge, chosen

    def __missing__(self, name: str) -> str:
        if name == "borrowed":
            uses = {body for words in self._chosen for body in words.uses}
            return borrowed_clause(self._case, (body for body in Body if body in uses)) if uses else ""
        printed, numbers = self._judge.printed[name]
        words = _PRINTERS[printed.kind](self._case, printed, *map(float, numbers(self._case.inputs)))
        if len(printed.names) == 1:
            return words[0]
        self.update(zip(printed.names, words, strict=True))
        return self[name]


def _chosen(clauses: Iterable[JudgedClause], inputs: Inputs) -> Iterator[Words]:
    for clause in clauses:
        for words, when in clause:
            if when is None or when(inputs):
                yield words
                if words.last:
                    return
                break


def _print_compared(case: Case, printed: Printed, first_cm: float, second_cm: float) -> tuple[str, ...]:
    words = case.tape.compare(first_cm, second_cm, printed.grains)
    return words.first, words.second, words.gap


def _print_origin(case: Case, printed: Printed, _: float) -> tuple[str, ...]:
    (tree,) = printed.of
    assert isinstance(tree, OfBody)
    return (of_body(case.wearer.judged[tree.body], ENDS[tree.end or End.TYPICAL]),)


_PRINTERS: Mapping[Shown, Callable[..., tuple[str, ...]]] = {
    Shown.COMPARED: _print_compared,
    Shown.LENGTH: lambda case, _, length_cm: (case.tape.length(abs(length_cm)),),
    Shown.AT_LEAST: lambda case, _, length_cm: (case.tape.at_least(length_cm),),
    Shown.PERCENT: lambda _case, _, *fractions: (percent(*fractions),),
    Shown.SIGNED: lambda _case, _, *fractions: (percent(*fractions, signed=True),),
    Shown.ORIGIN: _print_origin,
}
"""The words for each of the names of what is printed, by its kind."""
