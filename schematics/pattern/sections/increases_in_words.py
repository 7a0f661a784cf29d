"""The increases of a body worked from the neck down: in words, and row by row."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from schematics.checks.wording import every_row, listed
from schematics.crochet.increase_spacing import EvenSpread
from schematics.document.document import Figure, Section, Table, count_figure, listed_section, text_figure
from schematics.garment.garment import Garment
from schematics.garment.increase_rows import increase_row
from schematics.garment.increases import IncreasePlan
from schematics.pattern.book import Book, figure_table
from schematics.pattern.increase_rule import lines_words, rule_lines


def section(book: Book) -> Section:
    """The rule for all sizes; without one, the schedule of each and where in a row its increases fall."""
    plans = [_plan(garment) for garment in book.garments]
    totals = (*_totals(plans), *_sections(plans))
    words = text_figure("increases.words", "increase schedule", [schedule_words(plan) for plan in plans])
    rule = rule_lines(plans)
    rows = [list(_rows(plan)) for plan in plans]
    return listed_section(
        key="increases",
        heading="Increases of the body",
        sentences=(
            "The body is worked flat from the neck down, in rows, back and forth. Rows are counted from the "
            "foundation chain, the first row is 1; rows that are not named are worked even.",
            "An increase (inc) is 2 stitches worked into 1. Each row is told in the order it is worked.",
            *rule,
        ),
        tables=(
            figure_table("Increases in all", ("figure", "stitches or rows"), totals),
            *(() if rule else _row_by_row(book.names, words, rows)),
        ),
        figures=(*totals, words, *_details(rows)),
    )


def _row_by_row(names: Sequence[str], words: Figure, rows: Sequence[Sequence[_Row]]) -> Iterator[Table]:
    """The schedule, and every increase row of every size."""
    yield Table(
        caption="Increase schedule",
        header=("size", "increases"),
        rows=tuple(zip(names, words.texts, strict=True)),
    )
    for name, each in zip(names, rows, strict=True):
        if each:
            yield Table(
                caption=f"Size {name}, increase rows",
                header=("row", "stitches before", "increases", "work", "stitches after"),
                rows=tuple(row.cells for row in each),
            )


def _plan(garment: Garment) -> IncreasePlan:
    if garment.increases is None:
        raise ValueError(f"a {garment.construction} body is worked without increases")
    return garment.increases


def _totals(plans: Sequence[IncreasePlan]) -> tuple[Figure, ...]:
    starts = [plan.start for plan in plans]
    added = [sum(each for _, each in plan.rows) for plan in plans]
    ends = [start + more for start, more in zip(starts, added, strict=True)]
    return (
        count_figure("increases.start", "stitches before the first increase", "sts", starts),
        count_figure("increases.rows", "rows with increases", "rows", [len(plan.used) for plan in plans]),
        count_figure("increases.total", "increases in all", "sts", added),
        count_figure("increases.end", "stitches after the last increase", "sts", ends),
    )


def _sections(plans: Sequence[IncreasePlan]) -> Iterator[Figure]:
    """Where the lines lie, for bodies that have any."""
    texts = [" + ".join(map(str, plan.sections)) if plan.lines else None for plan in plans]
    if any(texts):
        yield text_figure(
            "increases.sections", "sections between the lines, before the first increase", texts
        )


def schedule_words(plan: IncreasePlan) -> str:
    """Such as ``Increase 8 stitches evenly on rows 2, 4 and 6: 24 increases, from 40 to 64 stitches``."""
    if not plan.used:
        return f"No increases, {plan.start} stitches throughout"
    total = sum(added for _, added in plan.used)
    ends = f"{total} increases, from {plan.start} to {plan.start + total} stitches"
    if plan.lines:
        how = f"Increase 1 stitch on each side of {lines_words(plan)} ({2 * plan.lines} stitches)"
        return f"{how} {rows_words([row for row, _ in plan.used])}: {ends}"
    rows_of: dict[int, list[int]] = {}
    for row, added in plan.used:
        rows_of.setdefault(added, []).append(row)
    words = [
        f"{count} stitch{'' if count == 1 else 'es'} evenly {rows_words(rows)}"
        for count, rows in sorted(rows_of.items())
    ]
    return f"Increase {'; increase '.join(words)}: {ends}"


def rows_words(rows: Sequence[int]) -> str:
    """``on row 3``, ``on rows 3, 5 and 9``, ``on every 2nd row from row 2 to row 20``.

    Four rows or more at one distance are not listed one by one.
    """
    if len(rows) == 1:
        return f"on row {rows[0]}"
    step = rows[1] - rows[0]
    regular = all(row == rows[0] + n * step for n, row in enumerate(rows))
    if regular and len(rows) > 3:
        return f"on {every_row(step)} from row {rows[0]} to row {rows[-1]}"
    return f"on rows {listed(map(str, rows))}"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """An increase row; ``spread`` is None where there are too few stitches for the increases."""

    number: int
    added: int
    before: int
    spread: EvenSpread | None

    @property
    def work(self) -> str:
        return self.spread.words if self.spread else "cannot be worked: too few stitches for the increases"

    @property
    def cells(self) -> tuple[str, ...]:
        after = self.before + self.added
        return str(self.number), str(self.before), str(self.added), self.work, str(after)


def _rows(plan: IncreasePlan) -> Iterator[_Row]:
    for turn, (row, added, before) in enumerate(each for each in plan.running() if each[1]):
        spread = increase_row(plan, turn, row, added, before)
        yield _Row(number=row, added=added, before=before, spread=spread)


def _details(sizes: Sequence[Sequence[_Row]]) -> Iterator[Figure]:
    """How each increase row is worked, and the stitches of the row below it is increased in, for programs."""
    by_number = [{row.number: row for row in rows} for rows in sizes]
    for number in sorted({number for each in by_number for number in each}):
        rows = [each.get(number) for each in by_number]
        key, name = f"increases.row.{number}", f"increase row {number}"
        yield text_figure(key, name, [row.work if row else None for row in rows], detail=True)
        at = [", ".join(map(str, row.spread.stitches)) if row and row.spread else None for row in rows]
        yield text_figure(f"{key}.at", f"{name}, in stitches", at, detail=True)
