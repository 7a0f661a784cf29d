"""What a fabric's counts ask of its chart.

A chart is right if its rows come out even on every number of stitches the fabric allows, and each stitch
finds what it is worked into or round.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from schematics.crochet.charts.chart import Chart, ChartSection
from schematics.crochet.charts.chart_fault import (
    ChartFault,
    ChartFaultError,
    UnevenRowError,
)
from schematics.crochet.charts.count_rules import RowCounts, after_row, count_faults
from schematics.crochet.charts.worked_rows import row_counts, rows_in_order, stitches_in, work_rows
from schematics.crochet.fabric import CountRule, RowRule

_MOST_TRIED = 200
MOST_STITCHES = 20_000
"""Of a chart over all its rows, where it shows two repeats; a sheet has room for a tenth."""
_MOST_WORKED = 2 * MOST_STITCHES


def chart_faults(chart: Chart, stitch_rule: CountRule, row_rule: RowRule) -> Iterator[ChartFault]:
    """Everything in which the chart is not of one mind with its fabric's counts."""
    yield from _row_number_faults(chart, row_rule)
    faults = list(count_faults(chart, RowCounts.of_rule(stitch_rule)))
    if not faults:
        yield from _working_faults(chart, stitch_rule)
    elif missed := _missed_before(chart, stitch_rule, faults[0]):
        yield missed
        yield from (each for each in faults if _place(each) != _place(missed))
    else:
        yield from (_minding_turns(chart, each) for each in faults)


def _minding_turns(chart: Chart, fault: ChartFault) -> ChartFault:
    """The fault of a row's count; where the row begins with chains over nothing, with what those may be."""
    numbers = dict(chart.sections())
    if fault.section is None or fault.index is None:
        return fault
    row = chart.rows[numbers[fault.section][fault.index] - 1]
    first, *others = [run.worked.stitch.abbreviation for run in row.runs()]
    if first != "ch" or row.parts[0].across or others[:1] == ["sk"]:
        return fault
    return replace(fault, sentence=f"{fault.sentence}; chains that turn the work are not written in a row")


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
    return next((rule for rule in rules if not any(count_faults(chart, RowCounts.of_rule(rule)))), None)


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


def _place(fault: ChartFault) -> tuple[int, int]:
    """Where a fault is in the chart, for comparison."""
    order = list(ChartSection)
    return (order.index(fault.section) if fault.section else -1, -1 if fault.index is None else fault.index)


def _missed_before(chart: Chart, rule: CountRule, fault: ChartFault) -> ChartFault | None:
    """A stitch without anything to go into up to the row of a fault of the count, which may come of it."""
    most = max(row.once.uses + 2 * row.across.uses for row in chart.rows)
    width = rule.plus if rule.only else rule.at_least(max(most, rule.smallest))
    try:
        if width * len(chart.rows) <= MOST_STITCHES:
            work_rows(chart, width, 1)
    except UnevenRowError:
        return None
    except ChartFaultError as error:
        return error.fault if _place(error.fault) <= _place(fault) else None
    return None


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
    counts = RowCounts(rule.multiple, rule.plus)
    repeats = (rule.smallest - rule.plus) // rule.multiple
    for row in rows_in_order(chart, deep_enough(chart)):
        needed = row.once.uses + 2 * row.across.uses
        repeats = max(repeats, -(-(needed - counts.plus) // counts.of))
        counts = after_row(row, counts)
    return rule.multiple * repeats + rule.plus


def _wide(chart: Chart, rule: CountRule, width: int) -> int:
    """A width on which the repeats of all rows overlap, however far their edges reach in."""
    if rule.only:
        return width
    return rule.at_least(width + 2 * max(row.once.uses for row in chart.rows) + 2 * rule.multiple)
