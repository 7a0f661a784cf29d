"""All that other counts do to a size: every length that changes, every check that changes its severity."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from schematics.checks.check_names import check_name
from schematics.checks.evaluation import worst
from schematics.checks.finding import Finding, Severity
from schematics.checks.tape import Tape
from schematics.checks.wording import listed
from schematics.garment.garment import Garment

SEEN_CM = 0.05
"""A length that changes by less is not reported: no tape shows it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Effect:
    """What the changes do to one length, in cm."""

    key: str
    name: str
    change_cm: float

    def words(self, tape: Tape) -> str:
        """Such as ``hang +7 cm``."""
        return f"{self.name} {'+' if self.change_cm > 0 else ''}{tape.length(self.change_cm)}"


@dataclass(frozen=True, slots=True, kw_only=True)
class SeverityChange:
    """A check that changes its severity at one place; one that says nothing there counts as good."""

    code: str
    place: str
    before: Severity
    after: Severity

    @property
    def words(self) -> str:
        """Such as ``hem above the knee from stop to good``."""
        return f"{check_name(self.code)} from {self.before.value} to {self.after.value}"


def changed_checks(changes: Sequence[SeverityChange]) -> str:
    """The changes as a sentence; empty where there are none."""
    return f"These checks change: {listed([each.words for each in changes])}." if changes else ""


def finished_effects(before: Garment, after: Garment) -> tuple[Effect, ...]:
    """Every finished measurement that has another length, in the garment's order."""
    old = {each.key: each.length_cm for each in before.finished}
    changes = (
        Effect(key=each.key, name=each.name, change_cm=each.length_cm - old[each.key])
        for each in after.finished
        if each.key in old
    )
    return tuple(each for each in changes if abs(each.change_cm) >= SEEN_CM)


def severity_changes(before: Iterable[Finding], after: Iterable[Finding]) -> tuple[SeverityChange, ...]:
    """Every check whose severity differs, in the order of the checks."""
    old, new = _severities(before), _severities(after)
    places = {key: (old.get(key, Severity.GOOD), new.get(key, Severity.GOOD)) for key in {**new, **old}}
    return tuple(
        SeverityChange(code=code, place=place, before=first, after=second)
        for (code, place), (first, second) in places.items()
        if first is not second
    )


def _severities(findings: Iterable[Finding]) -> dict[tuple[str, str], Severity]:
    """The worst of each check at each place."""
    by_check: dict[tuple[str, str], Severity] = {}
    for each in findings:
        key = each.code, each.place
        by_check[key] = worst((each.severity, by_check.get(key, Severity.GOOD)))
    return by_check
