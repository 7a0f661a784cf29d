"""The stitches of each row of a chart on every width its fabric allows, ``of * k + plus``.

A row that works ``b`` stitches into each ``a`` across, besides ``m`` into ``u`` that are worked once, turns
that into ``of / a * b * k + m + (plus - u) / a * b``.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from schematics.crochet.charts.chart import Chart, ChartRow, ChartSection
from schematics.crochet.charts.chart_fault import NO_STITCH_LEFT, ChartFault, count_words
from schematics.crochet.charts.count_changes import changing_column
from schematics.crochet.fabric import CountRule


@dataclass(frozen=True, slots=True)
class RowCounts:
    """The stitches of a row on every allowed width: ``of`` times any number, plus ``plus``."""

    of: int
    plus: int

    @classmethod
    def of_rule(cls, rule: CountRule) -> RowCounts:
        """The stitches that the rule allows."""
        return cls(0 if rule.only else rule.multiple, rule.plus)

    def __str__(self) -> str:
        rule = CountRule(multiple=self.of, plus=self.least) if self.of else CountRule.exactly(self.plus)
        return multiple_words(rule)

    @property
    def least(self) -> int:
        """``plus``; where rows have taken it below nought, the least that is left instead."""
        return self.plus % self.of if self.plus < 0 and self.of else self.plus


def multiple_words(rule: CountRule) -> str:
    """The rule as the trade says it: ``4 plus 2``; one number alone where only that one is allowed."""
    if rule.only:
        return f"exactly {rule.plus}"
    return f"{rule.multiple} plus {rule.plus}" if rule.plus else str(rule.multiple)


def count_faults(chart: Chart, counts: RowCounts) -> Iterator[ChartFault]:
    """Rows that do not come out even on some allowed width, and sections that change it unsaid.

    A row that is wrong in itself but leaves as many as it finds does not hide what is wrong above it.
    """
    has = f"the fabric's multiple is {counts}"
    adds = dict(zip(ChartSection, chart.adds, strict=True))
    for section, numbers in chart.sections():
        begun, faulty = counts, False
        changed: dict[int, int] = {}
        for index, number in enumerate(numbers):
            row = chart.rows[number - 1]
            sentence = _uneven(row, counts, has)
            meant = RowCounts(begun.of, begun.plus + adds[section])
            if sentence and len(changed) == 1 and counts != meant and not _uneven(row, begun, has):
                sentence = ""
                yield _blamed(chart, section, numbers[next(iter(changed))], counts, (number, begun))
                counts, changed, faulty, has = begun, {}, True, _has(begun)
            if sentence:
                yield ChartFault(section=section, index=index, sentence=sentence, column=_column(row, counts))
                faulty = True
                if counts != begun or row.once.uses != row.once.makes or row.across.uses != row.across.makes:
                    break
            elif (after := after_row(row, counts)) == RowCounts(0, 0):
                yield ChartFault(section=section, index=index, sentence=NO_STITCH_LEFT, column=row.column)
                faulty = True
                break
            else:
                if after != counts:
                    changed[index] = after.plus - counts.plus
                has = f"row {number} leaves {_left(after)}" if after != counts else _has(counts, has)
                counts = after
        if not faulty and (fault := _left_wrong(chart, section, begun, counts, changed)):
            yield fault
            faulty = True
        counts = RowCounts(begun.of, begun.plus + adds[section])
        has = _has(counts)
        if section is ChartSection.REPEAT and adds[section] and not faulty:
            yield from _once_more(chart, counts)


def _blamed(
    chart: Chart, section: ChartSection, number: int, left: RowCounts, fitting: tuple[int, RowCounts]
) -> ChartFault:
    """A row leaves another count than was offered, and a later one fits what the section began with."""
    later, begun = fitting
    index = number - dict(chart.sections())[section].start
    sentence = (
        f"the row leaves {_left(left)}, but row {later} fits {_left(begun)}; "
        "expected as many stitches as it found"
    )
    column = changing_column(chart.rows[number - 1])
    return ChartFault(section=section, index=index, column=column, sentence=sentence)


def _left_wrong(
    chart: Chart, section: ChartSection, begun: RowCounts, ended: RowCounts, changed: Mapping[int, int]
) -> ChartFault | None:
    """A section that leaves another count than it is to, reported at the row that made it so.

    ``changed`` has by how many each row changed ``plus``, by its index.
    """
    numbers, adds = dict(chart.sections())[section], dict(zip(ChartSection, chart.adds, strict=True))[section]
    change = ended.plus - begun.plus
    at = _to_blame(changed, change - adds)
    by = f"row {numbers[at]}" if at is not None and changed[at] == change and len(numbers) > 1 else ""
    sentence = _changed(begun, ended, section, adds, by)
    if not sentence:
        return None
    if at is None:
        return ChartFault(section=section, index=max(changed, default=len(numbers) - 1), sentence=sentence)
    column = changing_column(chart.rows[numbers[at] - 1])
    return ChartFault(section=section, index=at, column=column, sentence=sentence)


def _to_blame(changed: Mapping[int, int], excess: int) -> int | None:
    """The row that changed the count by what it is wrong, or that alone changed it."""
    rows = [at for at, more in changed.items() if more == excess] if len(changed) > 1 else list(changed)
    return rows[0] if len(rows) == 1 else None


def _once_more(chart: Chart, counts: RowCounts) -> Iterator[ChartFault]:
    """A repeat that changes the width must come out even the next time too, and the closing rows after it."""
    again = "the second time the repeat is worked, "
    when = {ChartSection.REPEAT: again, ChartSection.CLOSING: "after two repeats "}
    for section, numbers in chart.sections():
        for index, number in enumerate(numbers if section in when else ()):
            row = chart.rows[number - 1]
            if sentence := _uneven(row, counts, _has(counts)):
                sentence = f"{when[section]}{sentence}"
                yield ChartFault(section=section, index=index, sentence=sentence, column=_column(row, counts))
                return
            counts = after_row(row, counts)


def _has(counts: RowCounts, before: str = "") -> str:
    """What the row below offers; a row that changed it is named until another does."""
    return before if before.startswith("row ") else f"the row below has {_left(counts)}"


def _left(counts: RowCounts) -> str:
    return f"a multiple of {counts} stitches" if counts.of else count_words(counts.plus)


def _uneven(row: ChartRow, counts: RowCounts, has: str) -> str:
    """Why a row does not come out even on such counts, which the words ``has`` describe; empty if it does."""
    once, across = row.once.uses, row.across.uses
    parts = sum(part.across for part in row.parts)
    if across == 0:
        if parts:
            return "what is worked across uses no stitch of the row below; expected at least 1"
        if counts.of == 0 and once == counts.plus:
            return ""
        used = f"the row uses {count_words(once)}"
        if counts.of == 0:
            return f"{has}, and {used}; expected {count_words(counts.plus)}"
        return (
            f"{has}, and {used} and works nothing across; "
            f"expected a part marked 'across', or multiple: {{exactly: {once}}}"
        )
    if counts.of % across:
        divisors = " (or a number that goes into it)" if counts.of > 1 else ""
        got = f"{across} in {parts} parts" if parts > 1 else str(across)
        return f"{has}, so expected {count_words(counts.of)}{divisors} to be worked across, got {got}"
    left = counts.plus - once
    if left % across or (counts.of == 0 and left < 0):
        return f"{has}, so expected {_besides(counts, across)} besides the {across} worked across, got {once}"
    return ""


def _besides(counts: RowCounts, across: int) -> str:
    """How many stitches may be worked once."""
    if counts.of == 0 and across > 1:
        return f"{count_words(counts.plus)}, or fewer by a multiple of {across},"
    return count_words(counts.least)


def _column(row: ChartRow, counts: RowCounts) -> int | None:
    """Where a row goes beyond what is offered, or is worked across; None where no one place is wrong."""
    if any(part.across for part in row.parts) or counts.of:
        return next((part.column for part in row.parts if part.across), row.column)
    used = 0
    for part in row.parts:
        used += ChartRow(parts=(part,)).once.uses
        if used > counts.plus:
            return part.column
    return row.column


def after_row(row: ChartRow, counts: RowCounts) -> RowCounts:
    """What a row leaves that comes out even on such counts."""
    once, across = row.once, row.across
    if across.uses == 0:
        return RowCounts(0, once.makes)
    return RowCounts(
        counts.of // across.uses * across.makes,
        once.makes + (counts.plus - once.uses) // across.uses * across.makes,
    )


def _changed(begun: RowCounts, ended: RowCounts, section: ChartSection, adds: int, by: str) -> str:
    """What is wrong with the count a section leaves, to which the row ``by`` brought it, if only one did."""
    if ended.of != begun.of:
        return (
            f"the {section.words} begins on a multiple of {begun} stitches and leaves a multiple of {ended}; "
            "expected as many worked across as it found"
        )
    change = ended.plus - begun.plus
    if change == adds:
        return ""
    stated = f"'adds' says {adds:+d}" if adds else "a piece keeps its width unless the chart says otherwise"
    which = f"which {by} {'adds' if change > 0 else 'takes away'}, " if by and change else ""
    return (
        f"the {section.words} leaves {_more(change)}, {which}but {stated}; "
        f"expected {_more(adds)}, or adds: {{{section}: {change}}}"
    )


def _more(change: int) -> str:
    if change == 0:
        return "as many stitches as it found"
    return f"{count_words(abs(change))} {'more' if change > 0 else 'fewer'} than it found"
