"""What a fabric's counts ask of its chart, and how wide the chart is drawn.

A row fits every allowed number of stitches (``of * k + plus``) only if what it works across uses a
divisor of ``of``, what is left besides comes out even with ``plus``, and both make as many stitches
as they use.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from schematics.crochet.charts.chart import Chart, ChartRow, ChartSection, Tally, Worked, is_right_side, tally
from schematics.crochet.fabric import CountRule, RowRule

MOST_STITCHES = 20_000
"""Of a chart over all its rows, where it shows two repeats; a sheet has room for a tenth."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartFault:
    """What is wrong with a chart, with one section, or with its row of that ``index`` from nought."""

    sentence: str
    section: ChartSection | None = None
    index: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartExtent:
    """How wide a chart is drawn.

    ``stitches`` from edge to edge, of which those from ``first`` (counted from nought at the left)
    are one repeat, the same in every row as those next to it.
    """

    stitches: int
    first: int
    repeat: int


def chart_faults(chart: Chart, stitch_rule: CountRule, row_rule: RowRule) -> Iterator[ChartFault]:
    """Everything in which the chart is not of one mind with its fabric's counts."""
    uneven = False
    for section, numbers in chart.sections():
        for index, number in enumerate(numbers):
            if sentence := _count_fault(chart.rows[number - 1], stitch_rule):
                uneven = True
                yield ChartFault(section=section, index=index, sentence=sentence)
    expected = (row_rule.setup, row_rule.repeat, row_rule.closing)
    for section, rows, count in zip(
        ChartSection, (chart.setup, chart.repeat, chart.closing), expected, strict=True
    ):
        if len(rows) != count:
            yield ChartFault(section=section, sentence=_rows_sentence(section, count, len(rows)))
    if uneven:
        return
    high, width = len(chart.rows), extent(chart, stitch_rule, 2).stitches
    if high * width > MOST_STITCHES:
        sentence = f"expected at most {MOST_STITCHES} stitches in two repeats, got {high} rows of {width}"
        yield ChartFault(sentence=sentence)
    else:
        yield from _post_faults(chart, width)


def _count_fault(row: ChartRow, rule: CountRule) -> str:
    """What is wrong with a row's stitch counts; empty if it fits every allowed number."""
    across, once = tally(row.across), row.once
    if across.uses != across.makes:
        return f"what is worked across {_uses_and_makes(across)}"
    if once.uses != once.makes:
        return f"what is worked once {_uses_and_makes(once)}"
    asked = f"the fabric's multiple is {multiple_words(rule)}"
    if across.makes == 0 or rule.multiple % across.makes:
        divisors = " (or a number that goes into it)" if rule.multiple > 1 else ""
        expected = f"{_stitches(rule.multiple)}{divisors}"
        return f"{asked}, so expected {expected} to be worked across, got {across.makes}"
    if once.makes > rule.multiple + rule.plus or (rule.plus - once.makes) % across.makes:
        return (
            f"{asked}, so expected {_stitches(rule.plus)} besides the {across.makes} worked across, "
            f"got {once.makes}"
        )
    return ""


def _uses_and_makes(count: Tally) -> str:
    return (
        f"uses {_stitches(count.uses)} of the row below and makes {count.makes}; "
        "expected as many made as used"
    )


def _stitches(count: int) -> str:
    return f"{count} stitch{'' if count == 1 else 'es'}"


def multiple_words(rule: CountRule) -> str:
    """The rule as the trade says it: ``4 plus 2``."""
    return f"{rule.multiple} plus {rule.plus}" if rule.plus else str(rule.multiple)


def _rows_sentence(section: ChartSection, expected: int, actual: int) -> str:
    key = "rows" if section is ChartSection.REPEAT else section.value
    noun = "row" if expected == 1 else "rows"
    return f"expected {expected} {section.words} {noun}, as row_repeat.{key} says, got {actual}"


def _post_faults(chart: Chart, width: int) -> Iterator[ChartFault]:
    """Stitches worked round the post of one that has none: a foundation chain, or a chain."""
    below: tuple[Worked, ...] | None = None
    for section, numbers in chart.sections():
        for index, number in enumerate(numbers):
            row = chart.rows[number - 1]
            stitches = row.stitches(width)
            befores = [below]
            if section is ChartSection.REPEAT and index == 0:
                befores.append(_made(chart.repeat[-1], width))
            for each in befores:
                if sentence := _post_fault(stitches, each):
                    yield ChartFault(section=section, index=index, sentence=sentence)
                    break
            below = _made(row, width)


def _made(row: ChartRow, width: int) -> tuple[Worked, ...]:
    """The stitches a row leaves, in the order the next row, worked back over it, meets them."""
    return tuple(worked for worked in reversed(row.stitches(width)) if worked.stitch.makes)


def _post_fault(row: tuple[Worked, ...], below: tuple[Worked, ...] | None) -> str:
    used = 0
    for worked in row:
        stitch = worked.stitch
        if stitch.round_post and below is None:
            return (
                f"{stitch.abbreviation} has no post to go round, since the first row is worked into the "
                "foundation chain; expected a plain row first"
            )
        if stitch.round_post and below and below[used].abbreviation == "ch":
            return (
                f"{stitch.abbreviation} has no post to go round, since it falls on a chain of the row below"
            )
        used += stitch.uses
    return ""


def extent(chart: Chart, rule: CountRule, repeats: int) -> ChartExtent:
    """The width at which at least ``repeats`` repeats show, and one that all rows have in common.

    The chart must fit the rule. The repeat is the rightmost, with which a right-side row begins.
    """
    left = right = 0
    for number, row in enumerate(chart.rows, start=1):
        ends = tally(row.after).makes, tally(row.before).makes
        if not is_right_side(number):
            ends = ends[1], ends[0]
        left, right = max(left, ends[0]), max(right, ends[1])
    shortest = left + right + rule.multiple - rule.plus
    repeats = max(repeats, -(-shortest // rule.multiple))
    stitches = rule.multiple * repeats + rule.plus
    return ChartExtent(stitches=stitches, first=stitches - right - rule.multiple, repeat=rule.multiple)
