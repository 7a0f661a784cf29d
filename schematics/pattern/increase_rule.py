"""Regular increases: the one rule of all increase rows and all sizes, as a pattern prints it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from schematics.checks.wording import every_row, listed
from schematics.document.chart_words.in_sizes import texts_in_sizes
from schematics.garment.increase_rows import row_of_rule
from schematics.garment.increases import IncreasePlan


def lines_words(plan: IncreasePlan) -> str:
    """``the line``, ``each of the 4 lines``."""
    return "the line" if plan.lines == 1 else f"each of the {plan.lines} lines"


def one_rule(plans: Sequence[IncreasePlan]) -> bool:
    """Whether each has a rule, and all begin in one row and have one interval and as many lines."""
    if any(row_of_rule(plan, 0) is None for plan in plans):
        return False
    return len({(plan.used[0][0], plan.interval, plan.lines) for plan in plans}) == 1


def rule_lines(plans: Sequence[IncreasePlan]) -> tuple[str, ...]:
    """The rule for all sizes in two or three lines, with which rows are worked as `row_of_rule` has them.

    None unless `one_rule` holds.
    """
    if not one_rule(plans):
        return ()
    return tuple(_lines_of_increases(plans) if plans[0].lines else _spread_along(plans))


def _lines_of_increases(plans: Sequence[IncreasePlan]) -> Iterator[str]:
    marks = "it" if plans[0].lines == 1 else "them"
    yield f"Inc on each side of {lines_words(plans[0])} in {_when(plans)}"
    sections = [_sts(counts) for counts in zip(*(plan.sections for plan in plans), strict=True)]
    yield (
        f"Mark {marks} in row 1: {', mark, '.join(sections)}. In an inc row inc in "
        "the last st before and in the first st after each mark, and move the marks up."
    )


def _spread_along(plans: Sequence[IncreasePlan]) -> Iterator[str]:
    """Brackets grow by a stitch a row, so by two from one row to the next of its kind."""
    times = _each(plan.each for plan in plans)
    yield f"Inc in {_when(plans)}"
    first, inside, last = _gaps(plans, 0)
    start, end = (_sts(counts) if any(counts) else "" for counts in (first, last))
    work = ", ".join(filter(None, (start, f"[{_sts(inside)}, inc] × {times}", end)))
    yield f"{_rows(plans, 0)}: {work}{_more(plans, 0, '2 sts more in each bracket')}."
    first, inside, last = _gaps(plans, 1)
    again = _each((plan.each or 0) - 1 for plan in plans)
    work = f"{_sts(first)}, inc, [{_sts(inside)}, inc] × {again}, {_sts(last)}"
    more = _more(plans, 1, "1 st more at each end and 2 sts more in each bracket")
    yield f"{_rows(plans, 1)}: {work}{more}."


def _when(plans: Sequence[IncreasePlan]) -> str:
    first, last = plans[0].used[0][0], _each(plan.used[-1][0] for plan in plans)
    added = _each(plan.each for plan in plans)
    end = _each(plan.start + sum(added for _, added in plan.used) for plan in plans)
    every = every_row(plans[0].interval or 1)
    return f"row {first} and {every} to row {last}: {added} sts more each time, [{end} sts] at the end."


def _gaps(plans: Sequence[IncreasePlan], turn: int) -> tuple[list[int], list[int], list[int]]:
    """Plain stitches of every size at the beginning, in a bracket and at the end.

    A row of turn 0 begins with a bracket, which is not counted to its beginning.
    """
    rows = [spread.plain for plan in plans if (spread := row_of_rule(plan, turn))]
    inside = [plain[1] for plain in rows]
    first = [plain[0] - (plain[1] if turn == 0 else 0) for plain in rows]
    return first, inside, [plain[-1] for plain in rows]


def _rows(plans: Sequence[IncreasePlan], turn: int) -> str:
    """The rows of turn 0, 2, 4 ... or 1, 3, 5 ... in the size that has most."""
    longest = max(plans, key=lambda plan: len(plan.used))
    rows = [str(row) for row, _ in longest.used[turn::2]]
    if len(rows) > 3:
        return f"Rows {', '.join(rows[:3])} and so on"
    return f"Row{'s' if len(rows) > 1 else ''} {listed(rows)}"


def _more(plans: Sequence[IncreasePlan], turn: int, words: str) -> str:
    again = max(len(plan.used) for plan in plans) > turn + 2
    return f"; each time {words}" if again else ""


def _each(values: Iterable[object]) -> str:
    return texts_in_sizes([str(value) for value in values])


def _sts(counts: Sequence[int]) -> str:
    words = _each(counts)
    return f"{words} st{'' if words == '1' else 's'}"
