"""A piece worked from a chart in all sizes: set-up, one repeat, how often it is worked, and closing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from schematics.checks.wording import listed
from schematics.crochet.charts.chart import Chart, ChartSection
from schematics.crochet.charts.chart_fault import ChartFaultError
from schematics.crochet.charts.worked_rows import row_counts
from schematics.crochet.fabric import Fabric
from schematics.crochet.terms import Terms
from schematics.document.chart_words.in_sizes import in_sizes, texts_in_sizes
from schematics.document.chart_words.row_words import row_in_words


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartPiece:
    """A piece of one size: its stitches at the foot, and how often its chart's repeat is worked."""

    size: str
    stitches: int
    repeats: int


AGAIN = "again"


@dataclass(frozen=True, slots=True, kw_only=True)
class RowLine:
    """A row as printed, or how rows are repeated.

    ``key`` is its name for programs, `AGAIN` for a repetition. It is ``worked`` in the sizes of those
    indices; ``counts`` are the stitches at its end in every size, None where it is not worked or the size
    does not fit the chart.
    """

    key: str
    label: str
    work: str
    worked: tuple[int, ...]
    counts: tuple[int | None, ...]

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
    """Words for one piece in all sizes."""

    chart: Chart
    turning_chains: int
    pieces: tuple[ChartPiece, ...]
    terms: Terms

    @classmethod
    def of(cls, fabric: Fabric, pieces: Sequence[ChartPiece], terms: Terms) -> PieceWords:
        """Those of a piece of that fabric, which has a chart."""
        assert fabric.chart is not None
        return cls(fabric.chart, fabric.turning_chains, tuple(pieces), terms)

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
        if self.turning_chains:
            chains = f"ch {self.turning_chains}"
            yield f"Turn with {chains} at the end of each row; it does not count as a stitch."
        if any(worked.surface for worked in chart.used()):
            yield (
                "A stitch on the surface lies on the fabric: it uses no stitch of the row below, and the "
                "next row passes over it."
            )
        misfits = [
            each.size for each, counts in zip(self.pieces, self._counts, strict=True) if counts is None
        ]
        if misfits:
            sizes = f"size{'' if len(misfits) == 1 else 's'} {listed(misfits)}"
            yield f"The stitches of {sizes} do not fit these rows: a dash stands for the number."

    @cached_property
    def _counts(self) -> tuple[tuple[int, ...] | None, ...]:
        """The foundation's stitches and those after each row, for each size; None if it does not fit."""
        return tuple(_counts(self.chart, each) for each in self.pieces)

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
        most = max(each.repeats for each in self.pieces)
        written = most if self.chart.adds[1] else min(most, 1)
        times = [
            [self._row(ChartSection.REPEAT, number, again=again) for number in numbers]
            for again in range(written)
        ]
        alike = len({tuple(line.work for line in each) for each in times}) <= 1
        for each in times[: 1 if alike else most]:
            yield from each
        if alike and most > 1:
            yield self._again(numbers)

    def _row(self, section: ChartSection, number: int, *, again: int = 0, turn: bool = True) -> RowLine:
        row = self.chart.rows[number - 1]
        places = [self._place(section, number, again, each) for each in self.pieces]
        worked = [(index, place) for index, place in enumerate(places) if place is not None]
        counts: list[int | None] = [None] * len(places)
        times: list[int | None] = []
        for index, place in worked:
            met = self._counts[index]
            if met is not None:
                counts[index] = met[place]
            times.append(None if met is None else row.times(met[place - 1]))
        work = row_in_words(row, times, self.terms)
        return RowLine(
            key=f"row.{number}.{again + 1}" if again else f"row.{number}",
            label=self._label(worked),
            work=f"{work}; turn" if turn else work,
            worked=tuple(index for index, _ in worked),
            counts=tuple(counts),
        )

    def _place(self, section: ChartSection, number: int, again: int, piece: ChartPiece) -> int | None:
        """The row of the piece, from 1, that a row of the chart is; None where the piece has none such."""
        high = len(self.chart.repeat)
        if section is ChartSection.REPEAT:
            return number + again * high if again < piece.repeats else None
        return number + (piece.repeats - 1) * high if section is ChartSection.CLOSING else number

    def _label(self, worked: Sequence[tuple[int, int]]) -> str:
        """Indices of the sizes that work the row, and its number in each."""
        places = [place for _, place in worked]
        row = f"{in_sizes(places)} ({texts_in_sizes([self.chart.side(place) for place in places])})"
        if len(worked) == len(self.pieces):
            return f"Row {row}"
        names = [self.pieces[index].size for index, _ in worked]
        return f"Size{'' if len(names) == 1 else 's'} {listed(names)} only, row {row}"

    def _again(self, numbers: range) -> RowLine:
        """How often the repeat is worked again, and what changes each time."""
        first, last = numbers[0], numbers[-1]
        rows = f"Row {first}" if first == last else f"Rows {first}-{last}"
        more = [max(0, each.repeats - 1) for each in self.pieces]
        times = in_sizes(more)
        adds = self.chart.adds[1]
        changes = [
            *(["RS and WS changing places each time"] if len(numbers) % 2 else []),
            *([f"with {_stitches(abs(adds))} {'more' if adds > 0 else 'fewer'} each time"] if adds else []),
        ]
        ended = [
            None if counts is None else counts[len(self.chart.setup) + len(numbers) * each.repeats]
            for each, counts in zip(self.pieces, self._counts, strict=True)
        ]
        return RowLine(
            key=AGAIN,
            label=f"Rep {rows}",
            work=", ".join([f"{times} {'time' if set(more) == {1} else 'times'} more", *changes]),
            worked=tuple(range(len(self.pieces))),
            counts=tuple(ended),
        )


def _stitches(count: int) -> str:
    return f"{count} {'st' if count == 1 else 'sts'}"


def _counts(chart: Chart, piece: ChartPiece) -> tuple[int, ...] | None:
    try:
        return piece.stitches, *row_counts(chart, piece.stitches, piece.repeats)
    except ChartFaultError:
        return None
