"""Rows with increases: by one rule for all sizes where there is one, else row by row."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from schematics.checks.wording import every_row, listed
from schematics.document.chart_words.in_sizes import Sized, in_sizes, not_none
from schematics.document.document import Row, Table, Words
from schematics.garment.increase_rows import increase_row, row_of_rule
from schematics.garment.increases import IncreasePlan
from schematics.pattern.increase_rule import one_rule
from schematics.pattern.written.increase_words import Tokens, in_words, shape, times_in_sizes, tokens_of
from schematics.pattern.written.labels import Labels, count_words, rows_label
from schematics.pattern.written.plain_rows import PlainRows
from schematics.pattern.written.stretches import Stretch

Blocks = Iterator[Words | Row | Table]


@dataclass(frozen=True, slots=True)
class ShapedRows:
    """A body that grows by increases; its ``plans`` are those of the sizes the labels name."""

    plans: Sequence[IncreasePlan]
    labels: Labels
    rows: PlainRows

    def blocks(self, stretch: Stretch, *, begins: bool) -> Blocks:
        """A stretch between borders; that which ``begins`` has the foundation chain, or follows a border."""
        if begins:
            yield from self._begun(stretch)
        yield from self._too_crowded(stretch)
        if self._by_rule(stretch):
            yield from self._lines_by_rule(stretch) if self._in_lines else self._spread_by_rule(stretch)
        elif self._in_lines:
            yield from self._lines_listed(stretch)
        else:
            yield from self._spread_listed(stretch)

    def _too_crowded(self, stretch: Stretch) -> Iterator[str]:
        """Increase rows that have too few stitches for their increases."""
        for name, plan, rows in zip(self.labels.names, self.plans, stretch.rows, strict=True):
            running = [each for each in plan.running() if each[1] and each[0] in rows]
            turns = {row: turn for turn, (row, _) in enumerate(plan.used)}
            for row, added, before in running:
                if increase_row(plan, turns[row], row, added, before) is None:
                    yield (
                        f"[to be added: Row {row} of size {name}, {before} sts of which are too few for "
                        f"{added} increases]"
                    )

    @property
    def _in_lines(self) -> bool:
        return any(plan.lines for plan in self.plans)

    def _by_rule(self, stretch: Stretch) -> bool:
        """Whether one rule describes all increases, and all of them lie in the stretch."""
        return one_rule(self.plans) and all(
            row in rows for plan, rows in zip(self.plans, stretch.rows, strict=True) for row, _ in plan.used
        )

    def _begun(self, stretch: Stretch) -> Blocks:
        starts = [plan.start for plan in self.plans]
        if stretch.first == [1] * len(starts):
            yield self.rows.foundation(starts)
            yield self.labels.row(stretch.first, self.rows.first, starts)
        if self._in_lines:
            marked = [max(1, row - 1) for row in not_none(stretch.first)]
            yield Row("Markers", self._markers(in_sizes(marked)))

    def _markers(self, row: str) -> str:
        """Where the lines of increases begin; sizes with as many lines share the words."""
        by_lines: dict[int, list[int]] = {}
        for index, plan in enumerate(self.plans):
            by_lines.setdefault(plan.lines, []).append(index)
        texts = []
        for lines, sizes in by_lines.items():
            sections = [
                count_words(counts)
                for counts in zip(*(self.plans[index].sections for index in sizes), strict=True)
            ]
            names = [self.labels.names[index] for index in sizes]
            who = "" if len(by_lines) == 1 else f"size{'' if len(names) == 1 else 's'} {listed(names)}: "
            texts.append(f"{who}{', marker, '.join(sections)}" if lines else f"{who}none")
        return (
            f"Count along Row {row} and hang a marker between two sts wherever one is named: "
            f"{'; '.join(texts)}. In every row move each marker straight up; in an increase row it comes "
            "between the two inc that are made at it. After the last increase row take the markers out."
        )

    def _lines_by_rule(self, stretch: Stretch) -> Blocks:
        """The first increase rows, the even ones between them, then those again."""
        first, interval = self.plans[0].used[0][0], self.plans[0].interval or 1
        yield from self._even_to(stretch, first)
        at = [first] * len(self.plans)
        yield self.labels.row(at, self._line_row(), self._after(1))
        last = int(first + (2 if interval == 1.5 else interval - 1))
        if interval == 1.5:
            yield self.labels.row([first + 1] * len(at), f"As Row {first}.", self._after(2))
            yield self.labels.row([last] * len(at), self.rows.even)
        elif interval > 1:
            yield from self.labels.alike([first + 1] * len(at), [last] * len(at), self.rows.even)
        ends = [plan.used[-1][0] for plan in self.plans]
        more: Sized = [end if end > last else None for end in ends]
        if not_none(more):
            if last == first:
                work = f"Rep Row {first}."
            else:
                joint = "and" if last == first + 1 else "to"
                work = f"Rep Rows {first} {joint} {last}, ending with an increase row."
            begun = [end and last + 1 for end in more]
            yield self.labels.rows(begun, more, work, self._after())
        yield from self._further(stretch, [max(last, end) for end in ends])

    def _line_row(self) -> str:
        """An increase row, by its markers."""
        lines = [plan.lines for plan in self.plans]
        each = f"{self.rows.across('to 1 st before marker')}, inc in each of next 2 sts"
        times = f"[{each}] {times_in_sizes(lines)}" if set(lines) != {1} else each
        return self.rows.row(f"{times}, {self.rows.across('to end')}")

    def _lines_listed(self, stretch: Stretch) -> Blocks:
        """Both kinds of rows, and which rows are increase rows in each size."""
        yield Row("Increase row", self._line_row())
        yield Row("Even row", self.rows.even)
        yield "The rows in the table are increase rows; all others are even rows:"
        rows = []
        for name, plan, worked in zip(self.labels.names, self.plans, stretch.rows, strict=True):
            at = [str(row) for row, _ in plan.used if row in worked]
            stitches = plan.row_stitches(worked.stop - 1)[-1] if worked else 0
            if worked:
                rows.append((name, listed(at) if at else "none", str(worked[-1]), str(stitches)))
        header = ("size", "increase rows", "last row", "sts in it")
        yield Table(header=header, rows=tuple(rows))

    def _spread_by_rule(self, stretch: Stretch) -> Blocks:
        """Two increase rows in full; the others are as those, with more in each bracket."""
        first, interval = self.plans[0].used[0][0], int(self.plans[0].interval or 1)
        yield from self._even_to(stretch, first)
        sizes = len(self.plans)
        yield self.labels.row([first] * sizes, self._rule_row(0), self._after(1))
        if interval > 1:
            yield from self.labels.alike([first + 1] * sizes, [first + interval - 1] * sizes, self.rows.even)
        second = first + interval
        yield self.labels.row([second] * sizes, self._rule_row(1), self._after(2))
        ends_at = [plan.used[-1][0] for plan in self.plans]
        more: Sized = [end if end > second else None for end in ends_at]
        if {second + 1} == set(not_none(more)):
            yield self.labels.only(more, f"Row {second + 1}", self._more_than(first), self._after())
        elif not_none(more):
            yield self._grown(more, second, interval)
            yield from self._as_before(first, second)
        yield from self._further(stretch, ends_at)

    def _grown(self, ends: Sized, second: int, interval: int) -> Row:
        """From after the second increase row to the last, which is marked as one by its number."""
        each = in_sizes([plan.each for plan, end in zip(self.plans, ends, strict=True) if end])
        last = not_none(ends)
        label = rows_label([second + 1] * len(last), last)
        rest = f"; all other rows are as Row {second - 1}" if interval > 1 else ""
        work = f"Increase in {every_row(interval)} as told below, {each} sts each time{rest}."
        return self.labels.only(ends, label, work, self._after())

    @property
    def _several(self) -> str:
        """What two stitches more are called."""
        return self.rows.counted("2").removeprefix("2 ")

    def _more_than(self, first: int) -> str:
        return f"As Row {first}, with 2 more {self._several} in each bracket each time."

    def _as_before(self, first: int, second: int) -> Iterator[Row]:
        """Increase rows as the first and as the second, with more in each bracket."""
        most = max(self.plans, key=lambda plan: len(plan.used))
        yield Row(_some_rows(most, 2), self._more_than(first))
        if len(most.used) > 3:
            more = f"2 more {self._several} in each bracket and 1 more at each end"
            yield Row(_some_rows(most, 3), f"As Row {second}, with {more} each time.")

    def _rule_row(self, turn: int) -> str:
        spreads = [spread for plan in self.plans if (spread := row_of_rule(plan, turn))]
        tokens = [tokens_of(each, turn) for each in spreads]
        again = any(len(plan.used) > turn + 2 for plan in self.plans)
        return self.rows.row(in_words(tokens, self.rows, keep_brackets=again))

    def _even_to(self, stretch: Stretch, first: int) -> Blocks:
        """The even rows of the stretch before that row."""
        begun = [max(2, rows[0]) for rows in stretch.rows]
        ends = [first - 1 if start < first else None for start in begun]
        if not_none(ends):
            yield from self.labels.alike(
                [end and start for start, end in zip(begun, ends, strict=True)], ends, self.rows.even
            )

    def _further(self, stretch: Stretch, done: Sequence[int]) -> Blocks:
        """The even rows of the stretch after those."""
        last = [rows[-1] if rows[-1] > end else None for rows, end in zip(stretch.rows, done, strict=True)]
        if not_none(last):
            begun = [row and end + 1 for row, end in zip(last, done, strict=True)]
            yield from self.labels.alike(begun, last, self.rows.even, self._after())

    def _after(self, turns: int | None = None) -> list[int]:
        """The stitches after so many increase rows, after all if None."""
        return [plan.start + sum(added for _, added in plan.used[:turns]) for plan in self.plans]

    def _spread_listed(self, stretch: Stretch) -> Blocks:
        works = [_works(plan) for plan in self.plans]
        counts = [
            plan.row_stitches(rows.stop - 1)[-1] if rows else 0
            for plan, rows in zip(self.plans, stretch.rows, strict=True)
        ]
        yield from listed_rows(
            stretch, self.labels, self.rows, lambda index, row: works[index].get(row), counts
        )


def _works(plan: IncreasePlan) -> dict[int, tuple[Tokens, int]]:
    """Every increase row: what is worked, and the stitches it leaves."""
    works = {}
    for turn, (row, added, before) in enumerate(each for each in plan.running() if each[1]):
        if spread := increase_row(plan, turn, row, added, before):
            works[row] = tokens_of(spread, turn), before + added
    return works


def _some_rows(plan: IncreasePlan, turn: int) -> str:
    """``Rows 6, 10, 14 and so on``: every second increase row from that turn on."""
    rows = [str(row) for row, _ in plan.used[turn::2]]
    if len(rows) > 3:
        return f"Rows {', '.join(rows[:3])} and so on"
    return f"Row{'s' if len(rows) > 1 else ''} {listed(rows)}"


Work = Callable[[int, int], "tuple[Tokens, int] | None"]
"""What is worked in a row of the size of an index, and the stitches it leaves; None of an even row."""


def listed_rows(
    stretch: Stretch, labels: Labels, rows: PlainRows, work: Work, counts: Sequence[int]
) -> Iterator[Row]:
    """Every row of the stretch but row 1; even rows that follow each other together.

    ``counts`` are the stitches of the last row in each size.
    """
    sizes = range(len(stretch.rows))
    left = tuple(range(max(2, each.start), each.stop) for each in stretch.rows)
    while any(left):
        if not any(work(index, row) for index in sizes for row in left[index]):
            rest = Stretch(left)
            yield from labels.alike(rest.first, rest.last, rows.even, counts)
            return
        row = min(not_none(Stretch(left).first))
        active = [index for index in sizes if row in left[index]]
        done = {index: work(index, row) for index in active}
        last = row if any(done.values()) else _even_until(left, active, work)
        at = [row if index in active else None for index in sizes]
        if not any(done.values()):
            yield from labels.alike(at, [each and last for each in at], rows.even)
        else:
            yield from _one_row(at, done, labels, rows)
        left = tuple(range(max(last + 1, each.start), each.stop) for each in left)


def _even_until(left: Sequence[range], active: Sequence[int], work: Work) -> int:
    """The last of the even rows that the same sizes work from their first on."""
    row = left[active[0]].start
    while [index for index, each in enumerate(left) if row + 1 in each] == active and not any(
        work(index, row + 1) for index in active
    ):
        row += 1
    return row


def _one_row(
    at: Sized, done: Mapping[int, tuple[Tokens, int] | None], labels: Labels, rows: PlainRows
) -> Iterator[Row]:
    """A row that some sizes increase in: a line for all that work it alike."""
    for kind in dict.fromkeys(each and shape(each[0]) for each in done.values()):
        alike = {index: each for index, each in done.items() if (each and shape(each[0])) == kind}
        numbers = [row if index in alike else None for index, row in enumerate(at)]
        tokens = [each[0] for each in alike.values() if each]
        if not tokens:
            yield labels.row(numbers, rows.even)
            continue
        counts = [each[1] if (each := alike.get(index)) else None for index in range(len(at))]
        yield labels.row(numbers, rows.row(in_words(tokens, rows)), counts)
