"""A band of ribbing worked sideways onto an edge, row by row, and closed to a ring."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from schematics.checks.wording import sentence_case
from schematics.crochet.charts.chart import Side
from schematics.crochet.fabric import Fabric
from schematics.crochet.plain_stitch import plain_stitch
from schematics.design.guessed import marked
from schematics.design.missing import marks
from schematics.document.chart_words.in_sizes import Sized, in_sizes, not_none
from schematics.document.document import Row, Words
from schematics.garment.garment import Ring
from schematics.pattern.book import Book
from schematics.pattern.written.charted_rows import PatternRows
from schematics.pattern.written.increase_words import times_in_sizes
from schematics.pattern.written.labels import Labels, rows_label
from schematics.pattern.written.plain_rows import PlainRows


@dataclass(frozen=True, slots=True, kw_only=True)
class Ribbing:
    """One band in all sizes: ``depths`` in stitches, ``rows`` of ribbing.

    Every two rows, out and back, take two stitches of the edge, so there are as many ``rows`` as stitches;
    a size in which they are odd cannot be worked, and reads so in place of its rows. ``mark`` is printed in
    the place of its rows where they are not known.
    """

    fabric: Fabric
    mark: str
    sizes: Sequence[str]
    depths: Sequence[int]
    rows: Sequence[int]

    @property
    def blocks(self) -> tuple[Words | Row, ...]:
        """From the foundation chain to the closed ring; the hook is at the first stitch of the edge."""
        odd_rows = tuple(
            _odd_words(size, rows) for size, rows in zip(self.sizes, self.rows, strict=True) if rows % 2
        )
        if not not_none(self._even):
            return odd_rows
        chains = in_sizes([self.fabric.foundation_chain(depth) for depth in self._taken(self.depths)])
        far = "Its far end is the outer edge of the band."
        return (
            *odd_rows,
            self._line("Foundation", f"{self._guess(f'Ch {chains}')}. {far}"),
            *(self._charted() if self.fabric.chart else self._plain()),
            *self._closed(),
        )

    @property
    def _even(self) -> Sized:
        """The rows of each size; None where they cannot be worked."""
        return [None if rows % 2 else rows for rows in self.rows]

    def _taken(self, numbers: Sequence[int]) -> list[int]:
        """Those of the sizes that can be worked."""
        return [number for number, rows in zip(numbers, self._even, strict=True) if rows is not None]

    def _line(self, label: str, work: str, counts: Sequence[int] | None = None) -> Row:
        """A line for every size that can be worked."""
        return self._labels.only(self._even, label, work, counts)

    def _plain(self) -> Iterator[Row]:
        """Row 1 into the chain, one row out, one row back; then those two again."""
        stitch, labels, words = plain_stitch(self.fabric.stitch), self._labels, PlainRows(self.fabric)
        text, first = (stitch.text, stitch.short) if stitch else (f"{self.fabric.stitch} {self.mark}",) * 2
        yield self._line(
            "Row 1 (RS)",
            f"{sentence_case(first)} in {words.first_chain} and in each ch to end, {_FIRST_JOIN}, turn.",
            self.depths,
        )
        out, chains = f"Skip the 2 sl sts, {text} in each st to end, turn.", self.fabric.turning_chains
        back = f"{text} in each st to end, {_JOIN}, turn."
        if chains:
            back = f"{self._guess(f'ch {chains}')}, {back}"
        more = [rows if rows and rows > 2 else None for rows in self._even]
        if not_none(more):
            yield labels.only(more, "Row 2 (WS)", out)
            yield labels.only(more, "Row 3 (RS)", sentence_case(back))
        again = [rows if rows and rows > 4 else None for rows in self._even]
        if rows := not_none(again):
            times = [each // 2 - 2 for each in rows]
            label = rows_label([4] * len(rows), [each - 1 for each in rows])
            yield labels.only(again, label, f"Rep Rows 2 and 3, {times_in_sizes(times)}.")
        row_2_given = all(rows is None or rows > 2 for rows in self._even)
        yield self._line(
            f"Row {in_sizes(self._taken(self.rows))} (WS)",
            f"{'As Row 2.' if row_2_given else out} Every edge st has its sl st.",
            self.depths,
        )

    def _charted(self) -> Iterator[Words | Row]:
        """The chart's rows, joined by one rule for all odd rows and one for all even ones."""
        chains = self.fabric.turning_chains
        instead = f" in place of {self._guess(f'the ch {chains}')}" if chains else ""
        yield (
            "Work the rows below, joined to the edge like this. At the end of Row 1, before you turn, "
            f"{_FIRST_JOIN}; at the end of each odd row after it, {_JOIN}. At the beginning of each even row "
            f"skip the 2 sl sts{instead}. After the last row every edge st has its sl st."
        )
        rows = [each or 0 for each in self._even]
        pattern_rows = PatternRows.of_piece(self.fabric, self.sizes, self.depths, rows, self.mark)
        yield from pattern_rows.notes
        yield from pattern_rows.lines()

    def _closed(self) -> Iterator[Row]:
        last, depths = f"Row {in_sizes(self._taken(self.rows))}", self._taken(self.depths)
        yield self._line(
            "Close the ring",
            f"With the RS facing you, lay the foundation chain in front of {last}, "
            "right sides together. From the outer edge to the poncho, sl st through the free "
            "loop of the next foundation ch and both loops of the next st of that row, "
            f"{times_in_sizes(depths)} in all. Fasten off.",
        )

    @property
    def _labels(self) -> Labels:
        return Labels(self.sizes, [Side.RIGHT] * len(self.sizes))

    def _guess(self, words: str) -> str:
        return marked(words, guess=self.fabric.turning_chains_guessed)


_FIRST_JOIN = "sl st in each of first 2 edge sts"
_JOIN = "sl st in each of next 2 edge sts"


def even_edges(edge: int) -> str:
    """What an odd edge has to be for a band to be worked onto it."""
    return f"{edge - 1} or {edge + 1} edge sts"


def _odd_words(size: str, edge: int) -> str:
    """Why a size has no rows."""
    return (
        f"Size {size}: this band cannot be worked yet. Its edge has {edge} sts and the ribbing takes two of "
        f"them at a time: [to be corrected: {even_edges(edge)}]"
    )


def ribbing_of(book: Book, band: str, rings: Sequence[Ring]) -> Ribbing:
    """The band of that piece on the rings of all sizes."""
    pieces = [garment.piece(band) for garment in book.garments]
    fabric = pieces[0].fabric
    return Ribbing(
        fabric=fabric,
        mark=marks(book.design).get(f"fabrics.{fabric.name}.chart", ""),
        sizes=book.names,
        depths=[piece.foundation_stitches for piece in pieces],
        rows=[ring.band_rows for ring in rings],
    )
