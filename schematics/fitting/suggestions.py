"""What could be made instead, numbered from 1: changed counts of the best sizes, each checked."""

from __future__ import annotations

from dataclasses import dataclass

from schematics.checks.finding import Severity
from schematics.design.design import Design, Parts
from schematics.fitting.advice import Advice, advise
from schematics.fitting.fitting import SIZES_TRIED, Fitting
from schematics.fitting.sizing import SizeFit
from schematics.fitting.workshop import Workshop

MOST_SUGGESTIONS = 3

SHORTEN = MOST_SUGGESTIONS + 1
"""The number of the suggestion that shortens a size for the yarn at hand."""


def suggestions(design: Design, fitting: Fitting, parts: Parts | None = None) -> tuple[Advice, ...]:
    """The fitting's advice, then that for one size up and for the other best sizes, no two of a size.

    Those but the first have nothing that stops. None where nothing needs to change or nothing small helps.
    """
    first = fitting.advice
    if first is None:
        return ()
    names = [fit.name for fit in fitting.fits]
    place = names.index(first.before.name)
    best = sorted(fitting.fits, key=lambda fit: fit.score)[:SIZES_TRIED]
    others = [*fitting.fits[place + 1 : place + 2], *best]
    found = [first]
    for fit in {each.name: each for each in others if each.name != first.before.name}.values():
        advice = advise(
            Workshop(design=design, size=fit.made.size, parts=parts or design.parts), fitting.wearer
        )
        if advice is not None and advice.after.verdict is not Severity.STOP:
            found.append(advice)
    return tuple(found[:MOST_SUGGESTIONS])


@dataclass(frozen=True, slots=True, kw_only=True)
class SeverityChange:
    """A check that changes its severity: ``before`` and ``after``; None where the check says nothing."""

    code: str
    place: str
    before: Severity
    after: Severity

    @property
    def words(self) -> str:
        """Such as ``HANG-KNEE at the hem from stop to good``."""
        return f"{self.code} from {self.before.value} to {self.after.value}"


def severity_changes(before: SizeFit, after: SizeFit) -> tuple[SeverityChange, ...]:
    """Every check whose severity differs, in the order of the checks."""
    old = _severities(before)
    return tuple(
        SeverityChange(code=code, place=place, before=old.get((code, place), Severity.GOOD), after=severity)
        for (code, place), severity in _severities(after).items()
        if old.get((code, place), Severity.GOOD) is not severity
    )


def _severities(fit: SizeFit) -> dict[tuple[str, str], Severity]:
    order = list(Severity)
    worst: dict[tuple[str, str], Severity] = {}
    for each in fit.findings:
        key = each.code, each.place
        worst[key] = min(worst.get(key, each.severity), each.severity, key=order.index)
    return worst
