"""What grading found, as tables for the terminal: every count, what was meant, and why it is what it is."""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Iterator

from rich.console import RenderableType
from rich.text import Text

from schematics.checks.finding import Severity
from schematics.checks.tape import Tape
from schematics.evaluate import SEVERITIES, Result
from schematics.grading.grade import Graded
from schematics.grading.reasons import Row, rows
from schematics.report.table import STYLES, columns, heading

_HEAD = ("", "count", "finished", "meant", "off", "because of")
_RIGHT = (1, 2, 3, 4)


def grading_tables(
    graded: Graded, results: tuple[Result, ...], sizes: Container[str]
) -> Iterator[RenderableType]:
    """A heading, a table for each of the sizes, and how good the answer is."""
    design = graded.design
    yield heading(f"{design.title}, {design.construction} ({design.path})")
    tape = Tape(design.unit)
    for case, result in zip(graded.search.cases, results, strict=True):
        if result.size.name not in sizes:
            continue
        yield Text()
        yield _checks_line(result)
        yield columns([_HEAD, *(_line(row, tape) for row in rows(graded, case))], right=_RIGHT)
        for finding in result.findings:
            if finding.severity is not Severity.GOOD:
                yield columns([[finding.severity.value, finding.code, finding.sentence]])
    yield Text()
    yield Text("\n".join(_end(graded, tape)))


def _line(row: Row, tape: Tape) -> list[str]:
    meant = off = ""
    if row.intent_cm is not None:
        meant, apart = tape.length(row.intent_cm), row.length_cm - row.intent_cm
        off = tape.length(abs(apart))
        off = off if off == tape.length(0.0) else f"{'-' if apart < 0 else '+'}{off}"
    return [
        row.key,
        "" if row.count is None else str(row.count),
        tape.length(row.length_cm),
        meant,
        off,
        row.because,
    ]


def _checks_line(result: Result) -> Text:
    counts = Counter(finding.severity for finding in result.findings)
    line = Text(f"Size {result.size.name}, {result.wearer.label}: ", style="bold")
    line.append("checks ", style="not bold")
    told = [Text(f"{counts[each]} {each.value}", style=STYLES[each]) for each in SEVERITIES if counts[each]]
    return line + Text(", ").join(told)


def _end(graded: Graded, tape: Tape) -> Iterator[str]:
    found, wishes = graded.found, graded.draft.wishes
    if graded.draft.complete:
        yield "Every count is given: there is nothing to find."
        return
    if not found.gap_cm:
        yield f"Proven best: no other counts cost less ({tape.length(found.cost_cm)}, gap 0)."
    else:
        yield (
            f"Cost {tape.length(found.cost_cm)}; other counts might cost less, but by no more than "
            f"{tape.length(found.gap_cm)} (the gap)."
        )
    if wishes is not None:
        yield (
            f"The cost is what the counts are off the intents, by weight, {wishes.steps:g} of what steps "
            f"between sizes are uneven, and {tape.length(wishes.mind_cm)} for each finding to mind."
        )
