"""Rows worked from a chart, in all sizes: into the chain or onto other rows, the repeat told once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from schematics.checks.wording import sentence_case
from schematics.crochet.charts.chart import Side
from schematics.crochet.fabric import Fabric
from schematics.crochet.plain_stitch import plain_stitch
from schematics.crochet.terms import Terms
from schematics.document.document import Row, Words
from schematics.pattern.chart_words.in_sizes import Sized, in_sizes, known
from schematics.pattern.chart_words.piece_words import AGAIN, ChartPiece, PieceWords, RowLine
from schematics.pattern.written.labels import Labels
from schematics.pattern.written.plain_rows import PlainRows

_EACH = " in each st across"


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternRows:
    """A piece or a border: its stitches and rows in each size, 0 where a size has none.

    ``mark`` stands in the place of its rows where they are not known.
    """

    fabric: Fabric
    names: Sequence[str]
    stitches: Sequence[int]
    rows: Sequence[int]
    on_chain: bool
    mark: str

    def blocks(self) -> Iterator[Words | Row]:
        """What holds for all rows, then every row: by its chart, or by the name of its stitch."""
        if self.fabric.chart is not None:
            words = self._words
            yield from (note for note in words.notes if not note.startswith("Turn with"))
            yield from self._lines(words.lines)
        elif plain_stitch(self.fabric.stitch) is not None:
            yield from self._plain()
        else:
            yield Row(
                f"Rows 1 to {self._numbers(self.rows)}",
                f"{sentence_case(self.fabric.stitch)} over {self._numbers(self.stitches)} sts: {self.mark}",
            )

    def _lines(self, lines: Sequence[RowLine]) -> Iterator[Row]:
        """The count stands where it changes, and at the end."""
        told: dict[int, int | None] = {}
        for line in lines:
            counts = {index: line.counts[index] for index in line.worked}
            row = self._line(line)
            new = counts != {index: told.get(index) for index in counts} or line is lines[-1]
            yield row if new else Row(row.label, row.work)
            told |= counts

    def _plain(self) -> Iterator[Row]:
        labels, rows = Labels(self.names, [Side.RIGHT] * len(self.names)), PlainRows(self.fabric)
        worked: Sized = [each or None for each in self.rows]
        first = rows.first if self.on_chain else rows.even
        yield labels.row([each and 1 for each in worked], first, self.stitches)
        more: Sized = [each if each > 1 else None for each in self.rows]
        if known(more):
            yield labels.rows([each and 2 for each in more], more, rows.even, self.stitches)

    @staticmethod
    def _numbers(counts: Sequence[int]) -> str:
        return in_sizes([each or None for each in counts])

    @property
    def _words(self) -> PieceWords:
        pieces = [
            ChartPiece(size=name, stitches=stitches, repeats=max(0, self.fabric.row_rule.repeats(rows)))
            for name, stitches, rows in zip(self.names, self.stitches, self.rows, strict=True)
        ]
        return PieceWords.of(self.fabric, pieces, Terms.US)

    def _line(self, line: RowLine) -> Row:
        if line.key == AGAIN:
            return self._again(line)
        rows, count = PlainRows(self.fabric), line.count.strip("[]")
        if not (self.on_chain and line.key == "row.1"):
            return Row(line.label, rows.row(line.stitches), count)
        name = line.stitches.removesuffix(_EACH)
        if line.stitches.endswith(_EACH) and "," not in name:
            bare = name.removesuffix(" blo").removesuffix(" flo")
            return Row(
                line.label, f"{sentence_case(bare)} in {rows.first_chain} and in each ch to end, turn.", count
            )
        work = f"Take each ch for a st, beginning in {rows.first_chain}: {line.stitches}, turn."
        return Row(line.label, work, count)

    def _again(self, line: RowLine) -> Row:
        """The repeat worked again, by its rows and how many times."""
        chart, high = self._words.chart, len(self._words.chart.repeat)
        first = len(chart.setup) + 1
        last = first + high - 1
        more = [max(0, each.repeats - 1) for each in self._words.pieces]
        ends = [last + each * high if each else None for each in more]
        counts = [None if end is None else count for end, count in zip(ends, line.counts, strict=True)]
        taken = [each for each in more if each]
        times = f"{in_sizes(taken)} {'time' if set(taken) == {1} else 'times'}"
        what = f"Row {first}" if high == 1 else f"Rows {first} {'and' if high == 2 else 'to'} {last}"
        turned = "; RS and WS change places each time" if high % 2 else ""
        begun = [None if end is None else last + 1 for end in ends]
        labels = Labels(self.names, [chart.first_side] * len(self.names))
        if high == 1 and set(taken) == {1}:
            return labels.row(begun, f"As {what}.", counts)
        return labels.rows(begun, ends, f"Rep {what} {times}{turned}.", counts)
