"""What grading found: the misses first, then every count and what was meant."""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Iterable, Iterator, Sequence
from typing import Any

from schematics.analysis.json_keys import GRADED_LENGTH, MISS
from schematics.checks.evaluation import SEVERITIES, Result
from schematics.checks.finding import Severity
from schematics.checks.tape import Tape
from schematics.checks.wording import every_row
from schematics.document.common import design_title, findings_table
from schematics.document.document import Cell, Document, Quantity, Rated, Section, Table, Words
from schematics.document.json_text import picked
from schematics.garment.printed_lengths import grain_of
from schematics.grading.grade import Graded
from schematics.grading.price import EQUAL_CM, JUMP_CM, NEAR, mind_cost
from schematics.grading.reasons import GradedLength, Miss, misses, rows
from schematics.units import HAIR


def grading_document(graded: Graded, results: Sequence[Result], sizes: Container[str]) -> Document:
    """The misses, a table for each of the sizes named, and how good the answer is."""
    tape = Tape(graded.design.unit)
    missed = misses(graded)
    rule = increase_words(graded)
    return Document(
        title=design_title(graded.design),
        sections=(
            *([_misses_section(missed, tape)] if missed else []),
            *([Section("", (rule,))] if rule else []),
            *(
                Section(_heading(result), _size_blocks(rows(graded, case), result, tape))
                for case, result in zip(graded.search.cases, results, strict=True)
                if result.size.name in sizes
            ),
            Section("", tuple(_end(graded, tape, len(missed)))),
        ),
        data=lambda: grading_json(graded, results, missed),
    )


def _misses_section(missed: Sequence[Miss], tape: Tape) -> Section:
    table = Table(
        header=("size", "what was missed"),
        rows=tuple((f"{miss.size}:", miss_words(miss, tape)) for miss in missed),
        headed=False,
    )
    return Section(Rated("Not as it was meant:", Severity.MIND), (table,))


def miss_words(miss: Miss, tape: Tape) -> str:
    """Such as ``body.depth 9.5 cm shorter than the 54.5 cm meant, because ...``."""
    row = miss.row
    assert row.meant_cm is not None
    off, side = tape.more_than_nought(abs(row.off_cm)), "longer" if row.off_cm > 0 else "shorter"
    sentence = f"{row.measurement} {off} {side} than the {tape.length(row.meant_cm)} meant"
    if row.by_hand:
        return f"{sentence}, by hand."
    if miss.reason is None:
        return f"{sentence}; no single rule is the reason."
    without = tape.length(miss.reason.length_cm, grain_of(row.measurement))
    sentence += f", because {miss.reason.words}; without that {without}."
    return sentence + (f" To have it so: {miss.reason.choice}" if miss.reason.choice else "")


def increase_words(graded: Graded) -> str:
    """The one rule by which all sizes increase, where there is one."""
    every = _interval(graded)
    return "" if every is None else f"All sizes increase in row 2 and {every_row(every)} from there."


def _interval(graded: Graded) -> float | None:
    """Rows from one increase row to the next, the same in all sizes; None where there is no such number."""
    intervals = {
        counts[case.shaping[0]]
        for case, counts in zip(graded.search.cases, graded.solution.counts, strict=True)
        if case.shaping
    }
    return intervals.pop() if len(intervals) == 1 else None


def _size_blocks(lines: Iterable[GradedLength], result: Result, tape: Tape) -> tuple[Table, ...]:
    findings = [each for each in result.findings if each.severity is not Severity.GOOD]
    findings.sort(key=lambda each: SEVERITIES.index(each.severity))
    table = Table(
        header=("", "count", "finished", "meant", "off", "note"),
        rows=tuple(_line(row, tape) for row in lines),
    )
    return (table, findings_table(findings)) if findings else (table,)


def _line(row: GradedLength, tape: Tape) -> tuple[Cell, ...]:
    finished: Cell = ""
    meant: Cell = ""
    off: Cell = ""
    if row.length_cm is not None:
        finished = Quantity(row.length_cm, tape.length(row.length_cm, grain_of(row.measurement)), "cm")
    if row.length_cm is not None and row.meant_cm is not None:
        meant = Quantity(row.meant_cm, tape.length(row.meant_cm), "cm")
        equal = abs(row.off_cm) <= HAIR
        words = tape.length(0.0) if equal else tape.more_than_nought(abs(row.off_cm))
        off = Quantity(row.off_cm, f"{'' if equal else '-' if row.off_cm < 0 else '+'}{words}", "cm")
    notes = [*(["missed"] if row.missed else []), *(["by hand"] if row.by_hand else [])]
    return (
        row.key,
        "" if row.count is None else Quantity(row.count, f"{row.count:g}"),
        finished,
        meant,
        off,
        ", ".join(notes),
    )


def _heading(result: Result) -> Words:
    counts = Counter(finding.severity for finding in result.findings)
    counted = [Rated(f"{counts[each]} {each.value}", each) for each in SEVERITIES if counts[each]]
    parts = (part for each in counted for part in (", ", each))
    return f"Size {result.size.name}, {result.wearer.label}: checks ", *tuple(parts)[1:]


def _end(graded: Graded, tape: Tape, missed: int) -> Iterator[str]:
    solution, wishes = graded.solution, graded.draft.wishes
    if graded.draft.complete:
        yield "Every count is given: there is nothing to find."
        return
    kept = "Each length is within its tolerance. " if not missed else ""
    if not solution.gap_cm:
        yield f"{kept}No other counts cost less: proven, gap 0 (cost {solution.cost_cm:.2f})."
    else:
        yield (
            f"{kept}Cost {solution.cost_cm:.2f}; other counts might cost less, but by no more than "
            f"{solution.gap_cm:.2f} (the gap)."
        )
    if wishes is not None:
        yield (
            f"How much a length is off is of the exact ones, which are rounded above. {tape.length(1.0)} off "
            f"costs {NEAR:g} within the tolerance, {JUMP_CM:g} and more beyond it; a "
            f"length that should grow and stays {EQUAL_CM:g}; {tape.length(1.0)} past the limit of a finding "
            f"to mind {mind_cost(1.0, wishes.mind):.2g}, and however far {JUMP_CM:g} at most; "
            "each by its weight."
        )


def grading_json(graded: Graded, results: Sequence[Result], missed: Sequence[Miss]) -> dict[str, Any]:
    """All of it as plain JSON values; lengths in cm."""
    given = graded.draft.complete
    return {
        "title": graded.design.title,
        "cost": None if given else round(graded.solution.cost_cm, 6),
        "gap": None if given else round(graded.solution.gap_cm, 6),
        "proven": None if given else not graded.solution.gap_cm,
        "increase_every": _interval(graded),
        "misses": [
            picked(
                miss.row,
                MISS,
                size=miss.size,
                key=miss.row.measurement,
                cm=miss.row.length_cm,
                because=miss.reason and miss.reason.words,
                without_it_cm=miss.reason and miss.reason.length_cm,
                choice=miss.reason and miss.reason.choice,
            )
            for miss in missed
        ],
        "sizes": [
            {
                "name": result.size.name,
                "verdict": result.verdict,
                "lengths": [picked(row, GRADED_LENGTH, cm=row.length_cm) for row in rows(graded, case)],
            }
            for case, result in zip(graded.search.cases, results, strict=True)
        ],
    }
