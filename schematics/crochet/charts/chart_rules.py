"""What a fabric's counts ask of its chart.

A chart is right if its rows come out even on every number of stitches the fabric allows, ``of * k + plus``.
The count of each row is followed as such a pair: a row that works ``b`` stitches into each ``a`` across,
besides ``m`` into ``u`` that are worked once, turns ``of * k + plus`` into
``of / a * b * k + m + (plus - u) / a * b``.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from schematics.crochet.charts.chart import Chart, ChartRow, ChartSection
from schematics.crochet.charts.chart_fault import NO_STITCH_LEFT, ChartFault, ChartFaultError, count_words
from schematics.crochet.charts.placed_stitches import WorkedRow
from schematics.crochet.charts.worked_rows import row_counts, rows_in_order, stitches_in, work_rows
from schematics.crochet.fabric import CountRule, RowRule

_MOST_TRIED = 200
MOST_STITCHES = 20_000
"""Of a chart over all its rows, where it shows two repeats; a sheet has room for a tenth."""
_MOST_WORKED = 2 * MOST_STITCHES


@dataclass(frozen=True, slots=True)
class _Counts:
    """The stitches of a row on every allowed width: ``of`` times any number, plus ``plus``."""

    of: int
    plus: int

    @classmethod
    def of_rule(cls, rule: CountRule) -> _Counts:
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


def chart_faults(chart: Chart, stitch_rule: CountRule, row_rule: RowRule) -> Iterator[ChartFault]:
    """Everything in which the chart is not of one mind with its fabric's counts."""
    yield from _row_number_faults(chart, row_rule)
    faults = list(_count_faults(chart, _Counts.of_rule(stitch_rule)))
    yield from faults
    if not faults:
        yield from _working_faults(chart, stitch_rule)


def fitting_rule(chart: Chart) -> CountRule | None:
    """The rule with the least multiple on which the chart's rows come out even; None if there is none."""
    across = [row.across.uses for row in chart.rows]
    if not all(across):
        rules = [CountRule.exactly(max(row.once.uses for row in chart.rows))]
    else:
        most = max(row.once.uses for row in chart.rows)
        multiples = sorted({math.lcm(*across), max(across)})
        rules = [
            CountRule(multiple=of, plus=plus)
            for of in multiples if of <= _MOST_TRIED
            for plus in range(of + min(most, _MOST_TRIED))
        ]  # fmt: skip
    return next((rule for rule in rules if not any(_count_faults(chart, _Counts.of_rule(rule)))), None)


def _row_number_faults(chart: Chart, row_rule: RowRule) -> Iterator[ChartFault]:
    expected = (row_rule.setup, row_rule.repeat, row_rule.closing)
    for section, rows, count in zip(
        ChartSection, (chart.setup, chart.repeat, chart.closing), expected, strict=True
    ):
        if len(rows) != count:
            key = "rows" if section is ChartSection.REPEAT else section.value
            noun = "row" if count == 1 else "rows"
            sentence = f"expected {count} {section.words} {noun}, as row_repeat.{key} says, got {len(rows)}"
            yield ChartFault(section=section, sentence=sentence)


def _count_faults(chart: Chart, counts: _Counts) -> Iterator[ChartFault]:
    """Rows that do not come out even on some allowed width, and sections that change it unsaid.

    A row that is wrong in itself but leaves as many as it finds does not hide what is wrong above it.
    """
    has = f"the fabric's multiple is {counts}"
    adds = dict(zip(ChartSection, chart.adds, strict=True))
    for section, numbers in chart.sections():
        begun, faulty = counts, False
        for index, number in enumerate(numbers):
            row = chart.rows[number - 1]
            if sentence := _uneven(row, counts, has):
                yield ChartFault(section=section, index=index, sentence=sentence, column=_column(row, counts))
                faulty = True
                if counts != begun or row.once.uses != row.once.makes or row.across.uses != row.across.makes:
                    break
            elif (after := _after(row, counts)) == _Counts(0, 0):
                yield ChartFault(section=section, index=index, sentence=NO_STITCH_LEFT)
                faulty = True
                break
            else:
                has = f"row {number} leaves {_left(after)}" if after != counts else _has(counts, has)
                counts = after
        if not faulty and (sentence := _changed(begun, counts, section, adds[section])):
            yield ChartFault(section=section, index=len(numbers) - 1, sentence=sentence)
            faulty = True
        counts = _Counts(begun.of, begun.plus + adds[section])
        has = _has(counts)
        if section is ChartSection.REPEAT and adds[section] and not faulty:
            yield from _once_more(chart, counts)


def _once_more(chart: Chart, counts: _Counts) -> Iterator[ChartFault]:
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
            counts = _after(row, counts)


def _has(counts: _Counts, before: str = "") -> str:
    """What the row below offers; a row that changed it is named until another does."""
    return before if before.startswith("row ") else f"the row below has {_left(counts)}"


def _left(counts: _Counts) -> str:
    return f"a multiple of {counts} stitches" if counts.of else count_words(counts.plus)


def _uneven(row: ChartRow, counts: _Counts, has: str) -> str:
    """Why a row does not come out even on such counts, which the words ``has`` tell of; empty if it does."""
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


def _besides(counts: _Counts, across: int) -> str:
    """How many stitches may be worked once."""
    if counts.of == 0 and across > 1:
        return f"{count_words(counts.plus)}, or fewer by a multiple of {across},"
    return count_words(counts.least)


def _column(row: ChartRow, counts: _Counts) -> int | None:
    """Where a row goes beyond what is offered, or is worked across; None where no one place is wrong."""
    if any(part.across for part in row.parts) or counts.of:
        return next((part.column for part in row.parts if part.across), None)
    used = 0
    for part in row.parts:
        used += ChartRow(parts=(part,)).once.uses
        if used > counts.plus:
            return part.column
    return None


def _after(row: ChartRow, counts: _Counts) -> _Counts:
    once, across = row.once, row.across
    if across.uses == 0:
        return _Counts(0, once.makes)
    return _Counts(
        counts.of // across.uses * across.makes,
        once.makes + (counts.plus - once.uses) // across.uses * across.makes,
    )


def _changed(begun: _Counts, ended: _Counts, section: ChartSection, adds: int) -> str:
    """What is wrong with the count a section leaves."""
    if ended.of != begun.of:
        return (
            f"the {section.words} begins on a multiple of {begun} stitches and leaves a multiple of {ended}; "
            "expected as many worked across as it found"
        )
    change = ended.plus - begun.plus
    if change == adds:
        return ""
    said = f"'adds' says {adds:+d}" if adds else "a piece keeps its width unless the chart says otherwise"
    return (
        f"the {section.words} leaves {_more(change)}, but {said}; "
        f"expected {_more(adds)}, or adds: {{{section}: {change}}}"
    )


def _more(change: int) -> str:
    if change == 0:
        return "as many stitches as it found"
    return f"{count_words(abs(change))} {'more' if change > 0 else 'fewer'} than it found"


def _working_faults(chart: Chart, rule: CountRule) -> Iterator[ChartFault]:
    """What is wrong with where the stitches go, found by working the chart on widths it fits."""
    width = trial_width(chart, rule)
    total = stitches_in(chart, width, 1)
    if total > MOST_STITCHES:
        sentence = f"its rows are {total} stitches on a width of {width}; expected at most {MOST_STITCHES}"
        yield ChartFault(sentence=sentence)
        return
    try:
        for stitches, repeats in _trials(chart, rule, width):
            work_rows(chart, stitches, repeats)
    except ChartFaultError as error:
        yield error.fault


def _trials(chart: Chart, rule: CountRule, width: int) -> Iterator[tuple[int, int]]:
    """Widths from the narrowest on, with how many repeats of each to work; no more than is soon done."""
    yield width, 1
    deep, left = deep_enough(chart), _MOST_WORKED
    while rule.only and deep > 1 and not _comes_out_even(chart, width, deep):
        deep -= 1
    widest = _wide(chart, rule, width)
    for stitches in dict.fromkeys((width, widest, *range(width, widest, rule.multiple))):
        left -= stitches_in(chart, stitches, deep)
        if left < 0:
            return
        yield stitches, deep


def _comes_out_even(chart: Chart, width: int, repeats: int) -> bool:
    try:
        row_counts(chart, width, repeats)
    except ChartFaultError:
        return False
    return True


def deep_enough(chart: Chart) -> int:
    """Repeats after which every stitch of one has reached as far down as it ever does."""
    deepest = max((run.worked.rows_below for row in chart.rows for run in row.runs()), default=1)
    return 2 + -(-deepest // len(chart.repeat))


def trial_width(chart: Chart, rule: CountRule) -> int:
    """The smallest allowed number of stitches with room for two repeats of every row of a deep piece.

    The chart's counts must be right.
    """
    if rule.only:
        return rule.plus
    counts = _Counts(rule.multiple, rule.plus)
    repeats = (rule.smallest - rule.plus) // rule.multiple
    for row in rows_in_order(chart, deep_enough(chart)):
        needed = row.once.uses + 2 * row.across.uses
        repeats = max(repeats, -(-(needed - counts.plus) // counts.of))
        counts = _after(row, counts)
    return rule.multiple * repeats + rule.plus


def _wide(chart: Chart, rule: CountRule, width: int) -> int:
    """A width on which the repeats of all rows overlap, however far their edges reach in."""
    if rule.only:
        return width
    return rule.at_least(width + 2 * max(row.once.uses for row in chart.rows) + 2 * rule.multiple)


def worked_as(chart: Chart, stitches: int, rows: int, rule: RowRule) -> tuple[WorkedRow, ...]:
    """A piece of so many stitches and rows, row by row.

    Raises:
        ChartFaultError: a row does not come out even on so many.
    """
    return work_rows(chart, stitches, rule.repeats(rows))
