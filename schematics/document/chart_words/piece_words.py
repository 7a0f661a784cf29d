"""A piece worked from a chart in all sizes: set-up, one repeat, how often it is worked, and closing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from schematics.checks.wording import listed
from schematics.crochet.charts.chart import Chart, ChartSection
from schematics.crochet.charts.chart_fault import ChartFaultError
from schematics.crochet.charts.placed_stitches import WorkedRow
from schematics.crochet.charts.worked_rows import row_counts, work_rows
from schematics.crochet.fabric import Fabric
from schematics.crochet.terms import Terms
from schematics.document.chart_words.chart_piece import ChartPiece, repeats_up
from schematics.document.chart_words.in_sizes import in_sizes, texts_in_sizes
from schematics.document.chart_words.row_below import RowBelow
from schematics.document.chart_words.row_words import row_in_words
from schematics.document.chart_words.unworked import surface_stitches, unworked_notes
from schematics.document.document import NONE

AGAIN = "again"

_FIRST = 2
"""Repeats that are worked to see what their stitches find: later ones find what the second does."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RowLine:
    """A row as printed, or how rows are repeated.

    ``key`` is its name for programs, `AGAIN` for a repetition. It is ``worked`` in the sizes of those
    indices; ``counts`` are the stitches at its end in every size, None where it is not worked or the size
    does not fit the chart. ``numbers`` are the row's in every size, None where it is not worked; a
    repetition has none. ``turns``: the work is turned at its end.
    """

    key: str
    label: str
    stitches: str
    worked: tuple[int, ...]
    counts: tuple[int | None, ...]
    numbers: tuple[int | None, ...] = ()
    turns: bool = False

    @property
    def work(self) -> str:
        """The stitches, and the turn."""
        return f"{self.stitches}; turn" if self.turns else self.stitches

    @property
    def count(self) -> str:
        """``[12 (16, 20) sts]``."""
        counts = [self.counts[index] for index in self.worked]
        return f"[{in_sizes(counts)} {'st' if set(counts) == {1} else 'sts'}]"

    @property
    def text(self) -> str:
        """The whole line."""
        return f"{self.label}{'' if self.key == AGAIN else ':'} {self.work}. {self.count}"


@dataclass(frozen=True)
class PieceWords:
    """Words for one piece in all sizes; its fabric has a chart."""

    fabric: Fabric
    pieces: tuple[ChartPiece, ...]
    terms: Terms

    @property
    def chart(self) -> Chart:
        """The chart it is worked from."""
        assert self.fabric.chart is not None
        return self.fabric.chart

    @cached_property
    def notes(self) -> tuple[str, ...]:
        """What holds for all rows, a sentence each."""
        return tuple(self._notes())

    @cached_property
    def lines(self) -> tuple[RowLine, ...]:
        """Every row once, and the repetition of the repeat."""
        return tuple(self._lines())

    def _notes(self) -> Iterator[str]:
        chart = self.chart
        if chart.colours:
            named = listed(f"{letter} is {words}" for letter, words in chart.colours)
            kept = "carry the yarn that rests along" if chart.carried else "cut the yarn at each change"
            yield f"Colours: {named}; {kept}."
        if self.fabric.turning_chains:
            chains = f"ch {self.fabric.turning_chains}"
            yield f"Turn with {chains} at the end of each row; it does not count as a stitch."
        yield from unworked_notes(chart.used(), self.terms)
        rows = [each.size for each, times in zip(self.pieces, self._repeats, strict=True) if times is None]
        stitches = [
            each.size for each, counts in zip(self.pieces, self._counts, strict=True)
            if each.rows and each.size not in rows and counts is None
        ]  # fmt: skip
        for what, misfits in (("rows", rows), ("stitches", stitches)):
            if misfits:
                sizes = f"size{'' if len(misfits) == 1 else 's'} {listed(misfits)}"
                yield f"The {what} of {sizes} do not fit the chart: a dash stands for the number."

    @cached_property
    def _repeats(self) -> tuple[int | None, ...]:
        """How often each size works the repeat; 0 if it has no such piece, None if its rows do not fit."""
        return tuple(repeats_up(self.fabric, each) if each.rows else 0 for each in self.pieces)

    @cached_property
    def _counts(self) -> tuple[tuple[int, ...] | None, ...]:
        """The foundation's stitches and those after each row, for each size; None if it does not fit."""
        return tuple(
            _counts(self.chart, each, times) for each, times in zip(self.pieces, self._repeats, strict=True)
        )

    @cached_property
    def _worked(self) -> tuple[tuple[WorkedRow, ...], ...]:
        """The rows of the sizes that fit, with their first repeats."""
        return tuple(
            rows
            for each, times in zip(self.pieces, self._repeats, strict=True)
            if each.rows and times is not None and (rows := _rows(self.chart, each, min(times, _FIRST)))
        )

    def _below(self, number: int) -> RowBelow:
        """What the row of that number finds below it."""
        return RowBelow(
            [(rows, place) for rows in self._worked for place, row in enumerate(rows) if row.number == number]
        )

    def _lines(self) -> Iterator[RowLine]:
        for section, numbers in self.chart.sections():
            if section is ChartSection.REPEAT:
                yield from self._repeated(numbers)
                continue
            last = section is ChartSection.CLOSING and numbers[-1]
            for number in numbers:
                yield self._row(section, number, turn=number != last)

    def _repeated(self, numbers: range) -> Iterator[RowLine]:
        """The repeat once, and how often more; all in full where a change of width changes its words."""
        most = max((times for times in self._repeats if times is not None), default=1)
        written = most if self.chart.adds[1] else min(most, 1)
        times = [
            [self._row(ChartSection.REPEAT, number, again=again) for number in numbers]
            for again in range(written)
        ]
        alike = len({tuple(line.work for line in each) for each in times}) <= 1
        for each in times[: 1 if alike else most]:
            yield from each
        if alike and (most > 1 or None in self._repeats):
            yield self._again(numbers)

    def _row(self, section: ChartSection, number: int, *, again: int = 0, turn: bool = True) -> RowLine:
        row = self.chart.rows[number - 1]
        worked = [index for index in range(len(self.pieces)) if self._works(section, again, index)]
        places = [self._place(section, number, again, index) for index in worked]
        counts: list[int | None] = [None] * len(self.pieces)
        numbers: list[int | None] = [None] * len(self.pieces)
        times: list[int | None] = []
        for index, place in zip(worked, places, strict=True):
            met = self._counts[index]
            numbers[index] = place
            counts[index] = met[place] if met and place else None
            times.append(row.times(met[place - 1]) if met and place else None)
        surface = surface_stitches(self.chart.used())
        work = row_in_words(row, times, self.terms, self._below(number), surface)
        return RowLine(
            key=f"row.{number}.{again + 1}" if again else f"row.{number}",
            label=self._label(number, worked, places),
            stitches=work,
            numbers=tuple(numbers),
            turns=turn,
            worked=tuple(worked),
            counts=tuple(counts),
        )

    def _works(self, section: ChartSection, again: int, index: int) -> bool:
        """Whether a size works a row, of the repeat the time ``again`` from nought."""
        times = self._repeats[index]
        if not self.pieces[index].rows:
            return False
        return section is not ChartSection.REPEAT or again < (1 if times is None else times)

    def _place(self, section: ChartSection, number: int, again: int, index: int) -> int | None:
        """The row of the piece, from 1, that a row of the chart is; None where its rows do not fit."""
        high, times = len(self.chart.repeat), self._repeats[index]
        if section is not ChartSection.CLOSING:
            return number + again * high
        return None if times is None else number + (times - 1) * high

    def _label(self, number: int, worked: Sequence[int], places: Sequence[int | None]) -> str:
        """The row's number and side in the sizes that work it, and on the chart, if that is another.

        A chart that changes its width at each repeat is drawn in full and has the rows' own numbers.
        """
        sides = [NONE if place is None else str(self.chart.side(place)) for place in places]
        row = f"{in_sizes(places)} ({texts_in_sizes(sides)})"
        if set(places) != {number} and not self.chart.adds[1]:
            row += f", chart row {number}"
        if len(worked) == len(self.pieces):
            return f"Row {row}"
        names = [self.pieces[index].size for index in worked]
        return f"Size{'' if len(names) == 1 else 's'} {listed(names)} only, row {row}"

    def _again(self, numbers: range) -> RowLine:
        """How often the repeat is worked again, and what changes each time."""
        first, last = numbers[0], numbers[-1]
        rows = f"Row {first}" if first == last else f"Rows {first}-{last}"
        more = [None if times is None else max(0, times - 1) for times in self._repeats]
        times = in_sizes(more)
        adds = self.chart.adds[1]
        changes = [
            *(["RS and WS changing places each time"] if len(numbers) % 2 else []),
            *([f"with {_stitches(abs(adds))} {'more' if adds > 0 else 'fewer'} each time"] if adds else []),
        ]
        ended = [
            counts[len(self.chart.setup) + len(numbers) * repeats] if counts and repeats is not None else None
            for repeats, counts in zip(self._repeats, self._counts, strict=True)
        ]
        return RowLine(
            key=AGAIN,
            label=f"Rep {rows}",
            stitches=", ".join([f"{times} {'time' if set(more) == {1} else 'times'} more", *changes]),
            worked=tuple(range(len(self.pieces))),
            counts=tuple(ended),
        )


def _stitches(count: int) -> str:
    return f"{count} {'st' if count == 1 else 'sts'}"


def _counts(chart: Chart, piece: ChartPiece, repeats: int | None) -> tuple[int, ...] | None:
    if repeats is None or not piece.rows:
        return None
    try:
        return piece.stitches, *row_counts(chart, piece.stitches, repeats)
    except ChartFaultError:
        return None


def _rows(chart: Chart, piece: ChartPiece, repeats: int) -> tuple[WorkedRow, ...]:
    try:
        return work_rows(chart, piece.stitches, repeats)
    except ChartFaultError:
        return ()
