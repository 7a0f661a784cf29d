"""Rows in a stitch pattern, in all sizes: by its chart, or by its name; into the chain or onto other rows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from schematics.checks.wording import sentence_case
from schematics.crochet.charts.chart import Side
from schematics.crochet.fabric import Fabric
from schematics.crochet.plain_stitch import plain_stitch
from schematics.crochet.terms import Terms
from schematics.document.chart_words.chart_piece import ChartPiece, repeats_up
from schematics.document.chart_words.in_sizes import Sized, in_sizes, not_none
from schematics.document.chart_words.piece_words import AGAIN, PieceWords, RowLine
from schematics.document.chart_words.stitch_words import times_words
from schematics.document.document import Row
from schematics.pattern.written.labels import Labels
from schematics.pattern.written.plain_rows import PlainRows

_EACH = " in each st to end"
_SHORT = 60
"""Letters of a row that is written out each time: about a line of a page."""


@dataclass(frozen=True, kw_only=True)
class PatternRows:
    """Rows of a piece: so many ``stitches`` in each size, on the rows of ``worked``, which may be empty.

    ``mark`` is printed in the place of the rows where they are not known.
    """

    fabric: Fabric
    labels: Labels
    stitches: Sequence[int]
    worked: Sequence[range]
    mark: str

    @classmethod
    def of_piece(
        cls, fabric: Fabric, names: Sequence[str], stitches: Sequence[int], rows: Sequence[int], mark: str
    ) -> PatternRows:
        """A whole piece of so many rows in each size."""
        begun = fabric.chart.first_side if fabric.chart else Side.RIGHT
        return cls(
            fabric=fabric,
            labels=Labels(names, [begun] * len(names)),
            stitches=stitches,
            worked=[range(1, each + 1) for each in rows],
            mark=mark,
        )

    @property
    def notes(self) -> tuple[str, ...]:
        """What holds for all rows, but for the chain that turns them."""
        if self.fabric.chart is None:
            return ()
        return tuple(note for note in self._words.notes if not note.startswith("Turn with"))

    def lines(self) -> Iterator[Row]:
        """Every row of the piece as a line."""
        first: Sized = [rows[0] if rows else None for rows in self.worked]
        last: Sized = [rows[-1] if rows else None for rows in self.worked]
        if self.fabric.chart is not None and self._fits_chart:
            yield from self._charted()
        elif plain_stitch(self.fabric.stitch) is not None:
            yield from self._plain(first, last)
        else:
            stitches = [
                count if rows else None for count, rows in zip(self.stitches, self.worked, strict=True)
            ]
            work = f"{sentence_case(self.fabric.stitch)} over {in_sizes(not_none(stitches))} sts: {self.mark}"
            yield self.labels.rows(first, last, work)

    @property
    def _fits_chart(self) -> bool:
        """Whether any size has rows that the chart can be worked in."""
        return any(repeats_up(self.fabric, each) is not None for each in self._words.pieces if each.rows)

    @property
    def _on_chain(self) -> bool:
        return {rows[0] for rows in self.worked if rows} == {1}

    def _plain(self, first: Sized, last: Sized) -> Iterator[Row]:
        rows = PlainRows(self.fabric)
        if self._on_chain:
            yield self.labels.row(first, rows.first, self.stitches)
            first = [
                row + 1 if row and end and end > row else None for row, end in zip(first, last, strict=True)
            ]
            last = [end if row else None for row, end in zip(first, last, strict=True)]
        if not_none(first):
            yield from self.labels.alike(first, last, rows.even, self.stitches)

    @cached_property
    def _words(self) -> PieceWords:
        pieces = tuple(
            ChartPiece(size=name, stitches=stitches, rows=len(rows))
            for name, stitches, rows in zip(self.labels.names, self.stitches, self.worked, strict=True)
        )
        return PieceWords(self.fabric, pieces, Terms.US)

    def _charted(self) -> Iterator[Row]:
        """The count is given where it changes, and at the end; a long row written before is named."""
        counted: dict[int, int | None] = {}
        earlier: dict[str, RowLine] = {}
        for lines in self._together():
            line, last = lines[0], lines[-1]
            if line.key == AGAIN and not any(self._repeated_more):
                continue
            counts = {index: last.counts[index] for index in last.worked}
            new = last is self._words.lines[-1] or any(
                counted.get(index) != count for index, count in counts.items()
            )
            row = self._again(line) if line.key == AGAIN else self._rows(lines, earlier.get(line.stitches))
            yield row if new else Row(row.label, row.work)
            counted |= counts
            if line.key != AGAIN and not self._is_into_chain(line):
                earlier.setdefault(line.stitches, line)

    def _together(self) -> Iterator[list[RowLine]]:
        """Rows of one work and count that follow each other in every size."""
        group: list[RowLine] = []
        for line in self._words.lines:
            if group and not self._follows(line, group[-1]):
                yield group
                group = []
            group.append(line)
        yield group

    def _follows(self, line: RowLine, before: RowLine) -> bool:
        next_ones = tuple(number and number + 1 for number in before.numbers)
        alike = (line.stitches, line.counts, line.numbers) == (before.stitches, before.counts, next_ones)
        return alike and AGAIN not in (line.key, before.key) and not self._is_into_chain(before)

    def _rows(self, lines: Sequence[RowLine], earlier: RowLine | None) -> Row:
        first, last = lines[0], lines[-1]
        if self._is_into_chain(first):
            work = self._into_chain(first.stitches)
        elif earlier and self._may_refer_to(earlier, first):
            work = f"As Row {in_sizes(not_none(self._on_piece(earlier.numbers)))}."
        else:
            work = PlainRows(self.fabric).row(first.stitches)
        return self.labels.rows(
            self._on_piece(first.numbers), self._on_piece(last.numbers), work, last.counts
        )

    def _may_refer_to(self, earlier: RowLine, line: RowLine) -> bool:
        """Whether the row is long, and has one number in the sizes that work the other."""
        numbers = set(not_none(self._on_piece(earlier.numbers)))
        return len(line.stitches) > _SHORT and len(numbers) == 1 and set(line.worked) <= set(earlier.worked)

    def _is_into_chain(self, line: RowLine) -> bool:
        return self._on_chain and line.key == "row.1"

    def _into_chain(self, stitches: str) -> str:
        plain = PlainRows(self.fabric)
        name = stitches.removesuffix(_EACH)
        if name != stitches and "," not in name:
            bare = name.removesuffix(" blo").removesuffix(" flo")
            return plain.into_chain(bare)
        return f"Take each ch for a st, beginning in {plain.first_chain}: {stitches}, turn."

    def _on_piece(self, numbers: Sized) -> Sized:
        """Rows of the pattern as rows of the piece."""
        return [
            None if number is None or not rows else rows[0] + number - 1
            for number, rows in zip(numbers, self.worked, strict=True)
        ]

    @cached_property
    def _repeated_more(self) -> list[int]:
        """How often each size works the repeat after its first; nought too where its rows do not fit."""
        return [max(0, (repeats_up(self.fabric, each) or 0) - 1) for each in self._words.pieces]

    def _again(self, line: RowLine) -> Row:
        """The repeat worked again, by its rows and how many times."""
        chart, high = self._words.chart, len(self._words.chart.repeat)
        first = len(chart.setup) + 1
        more = self._repeated_more
        begun = self._on_piece([first + high if each else None for each in more])
        ends = self._on_piece([first + high - 1 + each * high if each else None for each in more])
        counts = [count if each else None for each, count in zip(more, line.counts, strict=True)]
        what = f"Row {in_sizes([row - high for row in not_none(begun)])}"
        if high > 1:
            last = in_sizes([row - 1 for row in not_none(begun)])
            what = f"Rows {what.removeprefix('Row ')} {'and' if high == 2 else 'to'} {last}"
        times = in_sizes([each for each in more if each])
        turned = "; RS and WS change places each time" if high % 2 else ""
        work = f"Rep {what}, {times_words(int(times) if times.isdecimal() else times)}{turned}"
        if first == 1 and self._on_chain:
            row = PlainRows(self.fabric).row(self._words.lines[0].stitches)
            work = f"{work}, each time with this for Row 1: {row[:1].lower()}{row[1:-1]}"
        work = f"{work}."
        return self.labels.rows(begun, ends, work, counts)
