"""The borders of the body: have they rows there, of one count each, that fit their pattern."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from schematics.checks.chart_counts import rows_counted
from schematics.checks.counts import multiple_in_words, nearest_words
from schematics.checks.finding import Case, Explanation, Family, Finding, Severity
from schematics.checks.wording import sentence_case
from schematics.crochet.fabric import Fabric
from schematics.design.border import Border, BorderEdge
from schematics.garment.constructions import CONSTRUCTIONS

PLACE, STEADY, FITS = "BORDER-PLACE", "BORDER-STEADY", "BORDER-COUNT"
_VERDICTS = (Severity.STOP, Severity.GOOD)


@dataclass(frozen=True, slots=True)
class _Rows:
    """The rows of a border at one place of the body."""

    border: Border
    rows: range

    @property
    def words(self) -> str:
        """Such as ``yoke (rows 3 to 8 of the body)``."""
        return f"{self.border.name} ({row_words(self.rows)} of the body)"


def row_words(rows: range) -> str:
    """``row 3`` or ``rows 3 to 8``."""
    return f"row {rows[0]}" if len(rows) == 1 else f"rows {rows[0]} to {rows[-1]}"


def check(case: Case) -> Iterator[Finding]:
    """The findings on each border at each of its places; none on a body without borders."""
    construction = CONSTRUCTIONS[case.design.construction]
    body = case.size.body
    places = [
        _Rows(border, rows)
        for border in case.design.parts.borders
        for rows in construction.border_rows(body, border)
    ]
    counts = construction.rows_worked(body) if places else ()
    for index, place in enumerate(places):
        if fault := _out_of_place(place, len(counts), places[:index]):
            yield case.finding(PLACE, Severity.STOP, place.border.name, fault)
            continue
        found = f"{sentence_case(place.words)}: on the body, and no other border is there."
        yield case.finding(
            PLACE,
            Severity.GOOD,
            place.border.name,
            found,
            first_row_count=place.rows[0],
            last_row_count=place.rows[-1],
        )
        yield from _worked(case, place, counts)


def _out_of_place(place: _Rows, last: int, before: list[_Rows]) -> str:
    """Why the border cannot be there; empty if it can."""
    border, rows = place.border, place.rows
    if len(rows) > last:
        return f"{sentence_case(border.name)}: the body has only {last} rows, so it cannot have {len(rows)}."
    if rows[0] < 1 or rows[-1] > last:
        return (
            f"{sentence_case(place.words)}: the body has only {last} rows; begin it by row "
            f"{last - len(rows) + 1}, or work fewer rows."
        )
    for other in before:
        shared = range(max(rows[0], other.rows[0]), min(rows[-1], other.rows[-1]) + 1)
        if shared:
            return (
                f"{sentence_case(place.words)}: {row_words(shared)} {'is' if len(shared) == 1 else 'are'} in "
                f"{other.words} too; move one of the two, or work fewer rows."
            )
    return ""


def _worked(case: Case, place: _Rows, counts: tuple[tuple[int, int], ...]) -> Iterator[Finding]:
    border, rows = place.border, place.rows
    offered = counts[max(rows[0] - 2, 0)]
    changed = next((row for row in rows if counts[row - 1] != offered), None)
    if changed is not None:
        before, after = (_count_words(*each) for each in (offered, counts[changed - 1]))
        yield case.finding(
            STEADY,
            Severity.STOP,
            border.name,
            f"{sentence_case(place.words)}: row {changed} changes from {before} to {after}, but a border "
            f"keeps its count; {_cure(place, changed, counts)}.",
            row_count=changed,
        )
        return
    yield case.finding(
        STEADY,
        Severity.GOOD,
        border.name,
        f"{sentence_case(place.words)}: {_count_words(*offered)} throughout.",
        stitches_count=offered[0] // offered[1],
    )
    yield _fitting(case, place, offered[0] // offered[1])


def _count_words(stitches: int, parts: int) -> str:
    return f"{stitches} stitches" if parts == 1 else f"{parts} parts of {stitches // parts} stitches"


def _cure(place: _Rows, changed: int, counts: tuple[tuple[int, int], ...]) -> str:
    """What would give the border rows of one count."""
    high = len(place.rows)
    if place.border.at is BorderEdge.HEM and counts[changed - 1][1] == counts[-1][1]:
        return f"end the increases by row {place.rows[0] - 1} (increase_until), or work fewer rows"
    free = [
        first
        for first in range(1, len(counts) - high + 2)
        if len({counts[max(first - 2, 0)], *counts[first - 1 : first - 1 + high]}) == 1
    ]
    if free:
        nearest = min(free, key=lambda first: (abs(first - place.rows[0]), first))
        return f"begin it on row {nearest}, or work fewer rows"
    return (
        f"no {high} rows together keep their count: increase on every {high + 1} rows or more "
        "(increase_every), end the increases earlier (increase_until), or work fewer rows"
    )


def _fitting(case: Case, place: _Rows, stitches: int) -> Finding:
    border = place.border
    rule = border.stitch_rule
    severity = Severity.STOP
    if not rule.allows(stitches):
        verdict = f"{stitches} stitches do not fit {multiple_in_words(rule)}; {nearest_words(rule, stitches)}"
    elif fault := _chart_fault(border, case.design.parts.body, stitches):
        verdict = f"on {stitches} stitches its chart cannot be worked: {fault}"
    else:
        severity, verdict = Severity.GOOD, f"{stitches} stitches fit {multiple_in_words(rule)}"
    return case.finding(
        FITS,
        severity,
        border.name,
        f"{sentence_case(place.words)}: {verdict}.",
        stitches_count=stitches,
        below_count=rule.at_most(stitches),
        above_count=rule.at_least(stitches),
    )


def _chart_fault(border: Border, body: Fabric, stitches: int) -> str:
    """What is wrong with the first row of the chart that cannot be worked; empty if all can."""
    if border.chart is None:
        return ""
    _, fault = rows_counted(border.fabric(body), stitches, border.row_rule.repeats(border.rows))
    return fault


FAMILY = Family(
    name="borders",
    check=check,
    explanations=(
        Explanation(
            code=PLACE,
            title="Borders lie on the body and on rows of their own",
            meaning=(
                "A border is so many rows of the body in a pattern of its own, such as a yoke below the neck "
                "or an edging at the hem. It takes the place of as many plain rows, so the body must have "
                "them, and no row can be in two patterns."
            ),
            cure="Begin the border on another row, or work fewer rows.",
            origin="Plain counting, from the rows of the body and the borders in the spec.",
            severities=_VERDICTS,
        ),
        Explanation(
            code=STEADY,
            title="A border has one count of stitches throughout",
            meaning=(
                "A pattern is charted for one number of stitches. Increases of the body within it would "
                "shift its repeats from row to row, and where the work parts at a neck hole there is no whole row."
            ),
            cure=(
                "End the increases above an edging at the hem (increase_until); give a yoke rows between two "
                "increase rows (increase_every); or begin it on another row."
            ),
            origin="Plain counting, from the increases of the body.",
            severities=_VERDICTS,
        ),
        Explanation(
            code=FITS,
            title="The body's stitches fit the border's pattern",
            meaning=(
                "The rows of a border have as many stitches as the body has there. On any other number than "
                "its multiple the pattern breaks off in the middle of a repeat."
            ),
            cure="Take the nearest count that fits at the hem or the neck, or a border of another multiple.",
            origin="Plain counting; the multiple is the border's own, as the spec gives it.",
            severities=_VERDICTS,
        ),
    ),
)
