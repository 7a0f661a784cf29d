"""The borders of the body: have they rows there, of one count each, that fit their pattern."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from schematics.checks.chart_counts import rows_counted, unworkable_words
from schematics.checks.counts import multiple_in_words, nearest_words
from schematics.checks.finding import Case, Explanation, Family, Finding, Severity
from schematics.checks.wording import listed, sentence_case
from schematics.crochet.charts.chart import Side
from schematics.crochet.charts.chart_fault import count_words
from schematics.crochet.fabric import Fabric
from schematics.design.border import Border, BorderEdge
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.demands import COUNT_BORDER

CODE = COUNT_BORDER

_MOST_PRINTED = 4
"""Stretches of free rows that a sentence names."""

_Counts: TypeAlias = tuple[tuple[int, int], ...]
"""Stitches of each row of the body, and in how many parts they are worked."""


@dataclass(frozen=True, slots=True)
class _Rows:
    """The rows of a border at one place of the body, whose name is empty if it has no other."""

    border: Border
    rows: range
    place: str = ""

    @property
    def words(self) -> str:
        """Such as ``yoke (rows 3 to 8 of the body)``."""
        name = f"{self.border.name}, {self.place}" if self.place else self.border.name
        return f"{name} ({row_words(self.rows)} of the body)"

    @property
    def begun(self) -> Side:
        """The side that faces in row 1 of the body where the border's rows face as in its chart."""
        side = self.border.chart.first_side if self.border.chart else Side.RIGHT
        return side if self.rows[0] % 2 else side.other


def row_words(rows: range) -> str:
    """``row 3`` or ``rows 3 to 8``."""
    return f"row {rows[0]}" if len(rows) == 1 else f"rows {rows[0]} to {rows[-1]}"


def check(case: Case) -> Iterator[Finding]:
    """One finding on each border at each of its places; one in all where the body has none."""
    construction = CONSTRUCTIONS[case.garment.construction]
    body = case.size.body
    places = [
        _Rows(border, rows, place)
        for border in case.design.parts.borders
        for place, rows in construction.border_rows(body, border).items()
    ]
    if not places:
        yield case.finding(CODE, Severity.GOOD, "body", "The body has no borders.")
        return
    counts = construction.rows_worked(body)
    for index, place in enumerate(places):
        if fault := _out_of_place(place, len(counts), places[:index]):
            yield _finding(case, place, Severity.STOP, fault)
        elif (changed := _changed(place, counts)) is not None:
            yield _finding(case, place, Severity.STOP, _changed_words(place, changed, counts, places[:index]))
        else:
            stitches, parts = counts[place.rows[0] - 1]
            yield _fitting(case, place, stitches // parts, places[:index])


def _finding(case: Case, place: _Rows, severity: Severity, words: str, **figures: float) -> Finding:
    rows = {"first_row_count": place.rows[0], "last_row_count": place.rows[-1]}
    sentence = f"{sentence_case(place.words)}: {words}."
    return case.finding(CODE, severity, place.border.name, sentence, **rows, **figures)


def _out_of_place(place: _Rows, last: int, before: list[_Rows]) -> str:
    """Why the border cannot be there; empty if it can."""
    rows = place.rows
    if len(rows) > last:
        return f"the body has only {count_words(last, 'row')} in all; work fewer"
    if rows[0] < 1 or rows[-1] > last:
        begin = f"begin it by row {last - len(rows) + 1}, or work fewer rows"
        return f"the body has only {count_words(last, 'row')}; {begin}"
    for other in before:
        shared = range(max(rows[0], other.rows[0]), min(rows[-1], other.rows[-1]) + 1)
        if shared:
            verb = "is" if len(shared) == 1 else "are"
            return f"{row_words(shared)} {verb} in {other.words} too; move one of the two, or work fewer rows"
    return ""


def _changed(place: _Rows, counts: _Counts) -> int | None:
    """The first row that has another count than the row that the border is worked on."""
    offered = counts[max(place.rows[0] - 2, 0)]
    return next((row for row in place.rows if counts[row - 1] != offered), None)


def _changed_words(place: _Rows, changed: int, counts: _Counts, taken: Sequence[_Rows]) -> str:
    before, after = (_count_words(*counts[row - 1]) for row in (max(changed - 1, 1), changed))
    cure = _cure(place, changed, counts, taken)
    return f"row {changed} changes from {before} to {after}, but a border keeps its count; {cure}"


def _count_words(stitches: int, parts: int) -> str:
    return count_words(stitches) if parts == 1 else f"{parts} parts of {count_words(stitches // parts)}"


def _cure(place: _Rows, changed: int, counts: _Counts, taken: Sequence[_Rows]) -> str:
    """What would give the border rows of one count, and which rows are."""
    high = len(place.rows)
    free = _stretches(counts, taken)
    if place.border.at is BorderEdge.HEM and counts[changed - 1][1] == counts[changed - 2][1]:
        most = len(free[-1]) if free and free[-1][-1] == len(counts) else 0
        fewer = f", or work at most {count_words(most, 'row')}" if most else ""
        return f"end the increases by row {place.rows[0] - 1}{fewer}"
    room = [each for each in free if len(each) >= high]
    if not room:
        least = f"increase on every {high + 1} rows or more, end the increases earlier"
        if not free:
            return f"no row keeps its count: {least}"
        longest = max(free, key=len)
        return (
            f"no {high} rows together keep their count: {least}, or work at most "
            f"{count_words(len(longest), 'row')}, as on {row_words(longest)}"
        )
    fitting = [each for each in room if place.border.stitch_rule.allows(_each_part(counts, each))] or room
    starts = [first for each in fitting for first in each[: len(each) - high + 1]]
    nearest = min(starts, key=lambda first: (abs(first - place.rows[0]), first))
    near = sorted(room, key=lambda each: (_apart(each, nearest), each[0]))[:_MOST_PRINTED]
    in_words = listed(f"{row_words(each)} ({_each_part(counts, each)})" for each in sorted(near, key=min))
    return (
        f"begin it on row {nearest}, or work fewer rows; free for it {'is' if len(room) == 1 else 'are'} "
        f"{'' if len(near) == len(room) else 'such as '}{in_words}, in brackets the stitches"
    )


def _stretches(counts: _Counts, taken: Sequence[_Rows]) -> list[range]:
    """Rows together, each of as many stitches as the row below and in no other border."""
    other = {row for each in taken for row in each.rows}
    kept = [
        row for row in range(1, len(counts) + 1)
        if row not in other and counts[row - 1] == counts[max(row - 2, 0)]
    ]  # fmt: skip
    ends = [row for row in kept if row + 1 not in kept or counts[row] != counts[row - 1]]
    begins = [row for row in kept if row - 1 not in kept or counts[row - 1] != counts[row - 2]]
    return [range(begin, end + 1) for begin, end in zip(begins, ends, strict=True)]


def _each_part(counts: _Counts, rows: range) -> int:
    stitches, parts = counts[rows[0] - 1]
    return stitches // parts


def _apart(rows: range, row: int) -> int:
    return max(rows[0] - row, row - rows[-1], 0)


def _fitting(case: Case, place: _Rows, stitches: int, before: Sequence[_Rows]) -> Finding:
    border = place.border
    rule = border.stitch_rule
    asks = multiple_in_words(rule)
    severity = Severity.STOP
    if not rule.allows(stitches):
        do = "does" if stitches == 1 else "do"
        verdict = f"{count_words(stitches)} {do} not fit {asks}; {nearest_words(rule, stitches)}"
    elif fault := _chart_fault(border, case.design.parts.body, stitches):
        verdict = unworkable_words(stitches, fault)
    elif other := _on_other_side(place, before):
        severity, side = Severity.MIND, place.begun
        verdict = (
            f"for its chart row 1 of the body is worked on the {side.words}, but on the {side.other.words} "
            f"for {other.words}; move one of the two by a row, or let its chart begin on the other side"
        )
    else:
        severity, verdict = (
            Severity.GOOD,
            f"{count_words(stitches)} throughout {'fits' if stitches == 1 else 'fit'} {asks}",
        )
    return _finding(case, place, severity, verdict, stitches_count=stitches)


def _on_other_side(place: _Rows, before: Sequence[_Rows]) -> _Rows | None:
    """A border before it whose chart takes the other side of the body for the right one."""
    if place.border.chart is None:
        return None
    return next((each for each in before if each.border.chart and each.begun is not place.begun), None)


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
            code=CODE,
            title="Borders have rows on the body that fit their pattern",
            meaning=(
                "A border is so many rows of the body in a pattern of its own, such as a yoke below the "
                "neck or an edging at the hem. It takes the place of as many plain rows, and no row can be "
                "in two patterns. A pattern is charted for one number of stitches: increases of the body "
                "within it would shift its repeats from row to row, where the work parts at a neck hole no "
                "row is whole, and on any other number than its multiple it breaks off in the middle of a "
                "repeat. The body has one right side: of two borders that take either side for it, one "
                "shows its back."
            ),
            cure=(
                "End the increases above an edging at the hem (increase_until); give a yoke rows between two "
                "increase rows (increase_every), or begin it on another row; take the nearest count that "
                "fits."
            ),
            origin="Plain counting, from the rows and increases of the body and the borders in the spec.",
            severities=(Severity.STOP, Severity.MIND, Severity.GOOD),
        ),
    ),
)
