"""What the checks say, as a block of text on the sheet."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from schematics.checks.finding import Finding, Severity
from schematics.document.lettering.text import LARGE, SMALL, line_pitch, wrap
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Mark, Text

_HEADINGS = {
    Severity.STOP: "Checks: this size cannot be made or worn as it stands",
    Severity.MIND: "Checks: nothing stops this size; mind",
    Severity.GOOD: "Checks: all good",
}
_WORRIES = (Severity.STOP, Severity.MIND)

SHORTER = (_WORRIES, (Severity.STOP,), ())
"""Which severities are told in whole sentences, the fullest text first; the others by their codes."""


def notes_block(
    findings: Sequence[Finding], verdict: Severity, width: float, in_full: Collection[Severity]
) -> Block:
    """What stops the size, then what to mind, then how many checks are good.

    Args:
        findings: the size's findings.
        verdict: the worst severity among them.
        width: what the text may fill across, in mm.
        in_full: the severities told in whole sentences; the others by their codes alone.
    """
    texts: list[str] = []
    for severity in _WORRIES:
        worries = [finding for finding in findings if finding.severity is severity]
        if severity in in_full:
            texts += [f"{severity.upper()} {each.code}: {each.sentence}" for each in worries]
        elif worries:
            texts.append(f"{severity.upper()}: {', '.join(dict.fromkeys(each.code for each in worries))}")
    good = sum(finding.severity is Severity.GOOD for finding in findings)
    texts.append(f"{good} of {len(findings)} checks good. All of them, with figures: measurements.json")
    heading = wrap(_HEADINGS[verdict], width, LARGE, bold=True)
    marks: list[Mark] = [
        Text((0, i * line_pitch(LARGE)), line, LARGE, bold=True) for i, line in enumerate(heading)
    ]
    first = (len(heading) - 1) * line_pitch(LARGE) + line_pitch(SMALL) + 1.0
    lines = [line for text in texts for line in wrap(text, width)]
    marks += [Text((0, first + i * line_pitch(SMALL)), line) for i, line in enumerate(lines)]
    block = Block()
    block.add("checks", "checks", marks)
    return block
