"""The verdicts that depend on the wearer, by `schematics.checks.rules.size_rules`; the checks word them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from schematics.checks.finding import Case, Severity
from schematics.checks.rules.judging import Judge
from schematics.checks.rules.size_rules import Answer
from schematics.wearer.working import Known

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
    known: Known

    @property
    def severity(self) -> Severity:
        """How it is reported."""
        return SEVERITIES[self.answer]

    def figure(self, name: str) -> float:
        """A number behind it, by its name in `Rule.figures`."""
        return float(self.judge.figure(name, self.known))


def verdict(case: Case, code: str) -> Verdict:
    """What the rule of that code says of a case."""
    judge = case.judges[code]
    return Verdict(answer=judge.answer(case.known), judge=judge, known=case.known)
