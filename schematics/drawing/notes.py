"""What the checks found that stops a size or is to be minded, as a block of text on the sheet."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from schematics.checks.evaluation import WORRIES, Result, worst
from schematics.checks.finding import Finding, Severity
from schematics.crochet.terms import Terms
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.text_block import TextBlock

STOPPED = "cannot be made or worn as it stands"
"""What is said of a size that a check stops."""

STOPPED_HEADING = f"This size {STOPPED}"

_HEADINGS = {
    Severity.STOP: STOPPED_HEADING,
    Severity.MIND: "To mind",
}

SHORTER = (WORRIES, (Severity.STOP,), ())
"""Which severities are written in whole sentences, the fullest text first; the others by their codes."""


def notes_block(
    findings: Sequence[Finding], width: float, in_full: Collection[Severity], terms: Terms = Terms.US
) -> Block | None:
    """What stops the size, then what to mind; None where nothing does.

    Args:
        findings: the size's findings.
        width: what the text may fill across, in mm.
        in_full: the severities written in whole sentences; the others by their codes alone.
        terms: whose words the sentences use.
    """
    texts: list[str] = []
    for severity in WORRIES:
        worries = [finding for finding in findings if finding.severity is severity]
        if severity in in_full:
            texts += [worded(each, terms) for each in worries]
        elif worries:
            texts.append(f"{severity.upper()}: {', '.join(dict.fromkeys(each.code for each in worries))}")
    if not texts:
        return None
    text = TextBlock(_HEADINGS[worst(finding.severity for finding in findings)], width)
    text.add(texts)
    return text.block("checks", "checks")


def worded(finding: Finding, terms: Terms = Terms.US) -> str:
    """A finding's reason, after its severity and code where it is to be minded or stops the size."""
    code = f"{finding.severity.upper()} {finding.code}: " if finding.severity in WORRIES else ""
    return code + terms.text(finding.reason)


def stops_of(result: Result, terms: Terms = Terms.US) -> tuple[str, ...]:
    """What stops the size, for its designer; empty where nothing does."""
    return tuple(worded(each, terms) for each in result.findings if each.severity is Severity.STOP)


def stop_reasons(result: Result, terms: Terms) -> tuple[str, ...]:
    """The same without codes, for what a maker sees."""
    return tuple(terms.text(each.reason) for each in result.findings if each.severity is Severity.STOP)


def stops_in_words(results: Sequence[Result], terms: Terms) -> str:
    """Which of the sizes cannot be made, and of a single one why, without codes; empty where all can be."""
    stopped = [result for result in results if result.verdict is Severity.STOP]
    if not stopped:
        return ""
    if len(results) > 1:
        return " ".join(f"Size {result.size.name} {STOPPED}." for result in stopped)
    return f"Size {stopped[0].size.name} {STOPPED}: {' '.join(stop_reasons(stopped[0], terms))}"
