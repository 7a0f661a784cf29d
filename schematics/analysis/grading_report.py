"""What grading found: the misses first, then every count and what was meant, for the terminal and as JSON."""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Iterator, Sequence
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from schematics.checks.evaluation import SEVERITIES, Result
from schematics.checks.finding import Severity
from schematics.checks.tape import Tape
from schematics.checks.wording import every_row
from schematics.document.table import STYLES, columns, heading
from schematics.grading.grade import Graded
from schematics.grading.price import EQUAL_CM, JUMP_CM, NEAR, mind_cost
from schematics.grading.reasons import GradedLength, Miss, misses, rows

_HEAD = ("", "count", "finished", "meant", "off", "")
_RIGHT = (1, 2, 3, 4)


def grading_tables(
    graded: Graded, results: Sequence[Result], sizes: Container[str]
) -> Iterator[RenderableType]:
    """A heading, the misses, a table for each of the sizes, and how good the answer is."""
    design = graded.design
    yield heading(f"{design.title}, {design.construction} ({design.path})")
    tape = Tape(design.unit)
    missed = misses(graded)
    if missed:
        yield Text()
        yield Text("Not as it was meant:", style=STYLES[Severity.MIND])
        yield columns([[f"{miss.size}:", miss_words(miss, tape)] for miss in missed])
    if rule := increase_words(graded):
        yield Text()
        yield Text(rule)
    for case, result in zip(graded.search.cases, results, strict=True):
        if result.size.name not in sizes:
            continue
        yield Text()
        yield _checks_line(result)
        yield columns([_HEAD, *(_line(row, tape) for row in rows(graded, case))], right=_RIGHT)
        for finding in sorted(result.findings, key=lambda each: SEVERITIES.index(each.severity)):
            if finding.severity is not Severity.GOOD:
                yield columns([[finding.severity.value, finding.code, finding.sentence]])
    yield Text()
    yield Text("\n".join(_end(graded, tape, len(missed))))


def miss_words(miss: Miss, tape: Tape) -> str:
    """Such as ``body.depth 45.0 cm, meant 54.5 cm: 9.5 cm short, because ...``."""
    row = miss.row
    assert row.length_cm is not None
    assert row.meant_cm is not None
    words = tape.compare(row.length_cm, row.meant_cm)
    side = "long" if row.off_cm > 0 else "short"
    told = f"{row.measurement} {words.first}, meant {words.second}: {words.gap} {side}"
    if row.by_hand:
        return f"{told}, by hand."
    if miss.reason is None:
        return f"{told}; no single rule is the reason."
    told += f", because {miss.reason.words}; without that {tape.length(miss.reason.length_cm)}."
    return told + (f" To have it so: {miss.reason.choice}" if miss.reason.choice else "")


def increase_words(graded: Graded) -> str:
    """The one rule by which all sizes increase, where there is one."""
    every = _interval(graded)
    return "" if every is None else f"All sizes increase in row 2 and {every_row(every)} from there."


def _interval(graded: Graded) -> float | None:
    """Rows from one increase row to the next, the same in all sizes; None where there is no such number."""
    intervals = {
        counts[case.shaping[0]]
        for case, counts in zip(graded.search.cases, graded.found.counts, strict=True)
        if case.shaping
    }
    return intervals.pop() if len(intervals) == 1 else None


def _line(row: GradedLength, tape: Tape) -> list[str]:
    finished = "" if row.length_cm is None else tape.length(row.length_cm)
    meant = off = ""
    if row.meant_cm is not None:
        meant, off = tape.length(row.meant_cm), tape.length(abs(row.off_cm))
        off = off if off == tape.length(0.0) else f"{'-' if row.off_cm < 0 else '+'}{off}"
    count = "" if row.count is None else f"{row.count:g}"
    notes = [*(["missed"] if row.missed else []), *(["by hand"] if row.by_hand else [])]
    return [row.key, count, finished, meant, off, ", ".join(notes)]


def _checks_line(result: Result) -> Text:
    counts = Counter(finding.severity for finding in result.findings)
    line = Text(f"Size {result.size.name}, {result.wearer.label}: ", style="bold")
    line.append("checks ", style="not bold")
    told = [Text(f"{counts[each]} {each.value}", style=STYLES[each]) for each in SEVERITIES if counts[each]]
    return line + Text(", ").join(told)


def _end(graded: Graded, tape: Tape, missed: int) -> Iterator[str]:
    found, wishes = graded.found, graded.draft.wishes
    if graded.draft.complete:
        yield "Every count is given: there is nothing to find."
        return
    told = "Each length is within its tolerance. " if not missed else ""
    if not found.gap_cm:
        yield f"{told}No other counts cost less: proven, gap 0 (cost {found.cost_cm:.2f})."
    else:
        yield (
            f"{told}Cost {found.cost_cm:.2f}; other counts might cost less, but by no more than "
            f"{found.gap_cm:.2f} (the gap)."
        )
    if wishes is not None:
        yield (
            f"{tape.length(1.0)} off costs {NEAR:g} within the tolerance, {JUMP_CM:g} and more beyond it; a "
            f"length that should grow and stays {EQUAL_CM:g}; {tape.length(1.0)} past the limit of a finding "
            f"to mind {mind_cost(1.0, wishes.mind):.2g}, and however far {JUMP_CM:g} at most; "
            "each by its weight."
        )


def grading_json(graded: Graded, results: Sequence[Result]) -> dict[str, Any]:
    """All of it as plain JSON values; lengths in cm."""
    missed, given = misses(graded), graded.draft.complete
    return {
        "title": graded.design.title,
        "cost": None if given else round(graded.found.cost_cm, 6),
        "gap": None if given else round(graded.found.gap_cm, 6),
        "proven": None if given else not graded.found.gap_cm,
        "increase_every": _interval(graded),
        "misses": [
            {
                "size": miss.size,
                "key": miss.row.measurement,
                "cm": miss.row.length_cm,
                "meant_cm": miss.row.meant_cm,
                "tolerance_cm": miss.row.tolerance_cm,
                "by_hand": miss.row.by_hand,
                "because": miss.reason.words if miss.reason else None,
                "without_it_cm": miss.reason.length_cm if miss.reason else None,
                "choice": miss.reason.choice if miss.reason else None,
            }
            for miss in missed
        ],
        "sizes": [
            {
                "name": result.size.name,
                "verdict": result.verdict,
                "lengths": [
                    {
                        "key": row.key,
                        "count": row.count,
                        "cm": row.length_cm,
                        "meant_cm": row.meant_cm,
                        "tolerance_cm": row.tolerance_cm,
                        "missed": row.missed,
                        "by_hand": row.by_hand,
                    }
                    for row in rows(graded, case)
                ],
            }
            for case, result in zip(graded.search.cases, results, strict=True)
        ],
    }
