"""What the checks say, as a block of text on the sheet."""

from __future__ import annotations

from collections.abc import Sequence

from schematics.checks.finding import Finding, Severity
from schematics.drawing.block import Block
from schematics.drawing.marks import Mark, Text
from schematics.drawing.text import LARGE, SMALL, line_pitch, text_width, wrap

_HEADINGS = {
    Severity.STOP: "Checks: this size cannot be made or worn as it stands",
    Severity.MIND: "Checks: nothing stops this size; mind",
    Severity.GOOD: "Checks: all good",
}


def notes_block(findings: Sequence[Finding], verdict: Severity, width: float, height: float) -> Block | None:
    """Every finding that stops or needs minding, then how many are good.

    Args:
        findings: the size's findings.
        verdict: the worst severity among them.
        width: what the text may fill across, in mm.
        height: and down, in mm; findings there is no room for are counted in a last line.

    Returns:
        The block, or None where not even the heading and one line fit.
    """
    lines = [
        line
        for finding in findings
        if finding.severity is not Severity.GOOD
        for line in _lines(finding, width)
    ]
    good = sum(finding.severity is Severity.GOOD for finding in findings)
    lines.append(f"{good} of {len(findings)} checks good. All of them: measurements.json")
    heading = wrap(_HEADINGS[verdict], width, LARGE, bold=True)
    top = len(heading) * line_pitch(LARGE)
    room = int((height - top - 1.0) / line_pitch(SMALL))
    if room < 1:
        return None
    if len(lines) > room:
        lines = [*lines[: room - 1], "More than fits here: see measurements.json"]
    if any(text_width(line) > width for line in lines):
        return None
    block = Block()
    marks: list[Mark] = [
        Text((0, (i + 1) * line_pitch(LARGE)), line, LARGE, bold=True) for i, line in enumerate(heading)
    ]
    marks += [Text((0, top + (i + 1) * line_pitch(SMALL) + 1.0), line) for i, line in enumerate(lines)]
    block.add("checks", "checks", marks)
    return block


def _lines(finding: Finding, width: float) -> list[str]:
    return wrap(f"{finding.severity.upper()} {finding.code}: {finding.sentence}", width)
