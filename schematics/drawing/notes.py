"""What the checks say, as a block of text on the sheet."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from schematics.checks.finding import Finding, Severity
from schematics.crochet.terms import Terms
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.text_block import TextBlock

_HEADINGS = {
    Severity.STOP: "Checks: this size cannot be made or worn as it stands",
    Severity.MIND: "Checks: nothing stops this size; mind",
    Severity.GOOD: "Checks: all good",
}
_WORRIES = (Severity.STOP, Severity.MIND)

SHORTER = (_WORRIES, (Severity.STOP,), ())
"""Which severities are written in whole sentences, the fullest text first; the others by their codes."""


def notes_block(
    findings: Sequence[Finding],
    verdict: Severity,
    width: float,
    in_full: Collection[Severity],
    terms: Terms = Terms.US,
) -> Block:
    """What stops the size, then what to mind, then how many checks are good.

    Args:
        findings: the size's findings.
        verdict: the worst severity among them.
        width: what the text may fill across, in mm.
        in_full: the severities written in whole sentences; the others by their codes alone.
        terms: whose words the sentences use.
    """
    texts: list[str] = []
    for severity in _WORRIES:
        worries = [finding for finding in findings if finding.severity is severity]
        if severity in in_full:
            texts += [f"{severity.upper()} {each.code}: {terms.text(each.sentence)}" for each in worries]
        elif worries:
            texts.append(f"{severity.upper()}: {', '.join(dict.fromkeys(each.code for each in worries))}")
    good = sum(finding.severity is Severity.GOOD for finding in findings)
    texts.append(f"{good} of {len(findings)} checks good. All of them, with figures: measurements.json")
    text = TextBlock(_HEADINGS[verdict], width)
    text.add(texts)
    return text.block("checks", "checks")
