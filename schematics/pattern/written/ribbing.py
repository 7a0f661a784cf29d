"""A band of ribbing worked sideways onto an edge, row by row, and closed to a ring."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import compress

from schematics.checks.wording import listed, ordinal, sentence_case
from schematics.crochet.fabric import Fabric
from schematics.crochet.plain_stitch import PlainStitch, plain_stitch
from schematics.crochet.terms import Terms
from schematics.design.guessed import marked
from schematics.document.document import Row, Words
from schematics.pattern.chart_words.in_sizes import in_sizes
from schematics.pattern.chart_words.piece_words import ChartPiece, PieceWords


@dataclass(frozen=True, slots=True, kw_only=True)
class Ribbing:
    """One band in all sizes: ``depths`` in stitches, ``rows`` of ribbing, an even number.

    Every two rows, out and back, take two stitches of the edge, so there are as many ``rows`` as stitches.
    ``lacking`` is what stands in the place of what the spec does not say, by its key there.
    """

    fabric: Fabric
    lacking: Mapping[str, str]
    sizes: Sequence[str]
    depths: Sequence[int]
    rows: Sequence[int]

    @property
    def blocks(self) -> tuple[Words | Row, ...]:
        """From the foundation chain to the closed ring; the hook is at the first stitch of the edge."""
        chains = [self.fabric.foundation_chain(depth) for depth in self.depths]
        return (
            Row(
                "Foundation",
                f"{self._guess(f'Ch {in_sizes(chains)}')}. Its far end is the outer edge of the band.",
            ),
            *self._worked(),
            *self._closed(),
        )

    def _worked(self) -> Iterator[Words | Row]:
        if self.fabric.chart is not None:
            yield from self._charted()
        elif (plain := plain_stitch(self.fabric.stitch)) is not None:
            yield from self._plain(plain)
        else:
            yield from self._plain(None)

    def _plain(self, stitch: PlainStitch | None) -> Iterator[Row]:
        """Row 1 into the chain, one row out, one row back; then those two again."""
        text, first = (stitch.text, stitch.short) if stitch else (self._unknown, self._unknown)
        yield Row(
            "Row 1 (RS)",
            f"{sentence_case(first)} in {ordinal(self._turning + 1)} ch from hook and in each ch to end, "
            f"{_FIRST_JOIN}, turn.",
            self._count(),
        )
        if any(more := [rows > 2 for rows in self.rows]):
            yield self._row(more, "Row 2 (WS)", f"Pass over the 2 sl sts, {text} in each st to end, turn.")
            back = sentence_case(f"{self._turn}{text} in each st to end, {_JOIN}, turn.")
            yield self._row(more, "Row 3 (RS)", back)
        if any(again := [rows > 4 for rows in self.rows]):
            rows = list(compress(self.rows, again))
            times = [each // 2 - 2 for each in rows]
            yield self._row(
                again,
                f"Rows 4 to {in_sizes([each - 1 for each in rows])}",
                f"Rep Rows 2 and 3, {in_sizes(times)} {'time' if set(times) == {1} else 'times'}.",
            )
        yield Row(
            f"Row {in_sizes(self.rows)} (WS)",
            f"Pass over the 2 sl sts, {text} in each st to end. Do not turn: every edge st has its sl st.",
            self._count(),
        )

    def _row(self, worked: Sequence[bool], label: str, work: str) -> Row:
        """A row of the sizes that work it."""
        if all(worked):
            return Row(label, work, self._count())
        names = list(compress(self.sizes, worked))
        only = f"Size{'' if len(names) == 1 else 's'} {listed(names)} only, {label[0].lower()}{label[1:]}"
        return Row(only, work, self._count(worked))

    def _count(self, worked: Sequence[bool] | None = None) -> str:
        depths = self.depths if worked is None else list(compress(self.depths, worked))
        return f"{in_sizes(depths)} {'st' if set(depths) == {1} else 'sts'}"

    @property
    def _unknown(self) -> str:
        return f"{self.fabric.stitch} {self.lacking[f'fabrics.{self.fabric.name}.chart']}"

    @property
    def _turning(self) -> int:
        return self.fabric.turning_chains

    @property
    def _turn(self) -> str:
        return self._guess(f"ch {self._turning}") + ", " if self._turning else ""

    def _guess(self, words: str) -> str:
        return marked(words, guess=self.fabric.turning_chains_guessed)

    def _charted(self) -> Iterator[Words | Row]:
        """The chart's rows, joined by one rule for all odd rows and one for all even ones."""
        rule, begin = self.fabric.row_rule, ""
        if self._turning:
            begin = f" Begin every odd row from Row 3 on with {self._turn.removesuffix(', ')}."
        yield (
            f"Work the rows below. Row 1 is worked into the chain, from the {ordinal(self._turning + 1)} ch "
            f"from hook on, whatever loop it names. At the end of Row 1, {_FIRST_JOIN}, then turn. At the "
            f"end of every other odd row, {_JOIN}, then turn.{begin} Begin every even row by passing over "
            "the 2 sl sts, without a turning chain. After the last row do not turn: every edge st has its "
            "sl st."
        )
        pieces = [
            ChartPiece(size=size, stitches=depth, repeats=rule.repeats(rows))
            for size, depth, rows in zip(self.sizes, self.depths, self.rows, strict=True)
        ]
        words = PieceWords.of(self.fabric, pieces, Terms.US)
        yield from (note for note in words.notes if not note.startswith("Turn with"))
        yield from (Row(line.label, f"{line.work}.", line.count.strip("[]")) for line in words.lines)

    def _closed(self) -> Iterator[Row]:
        rows = in_sizes(self.rows)
        yield Row(
            "Close the ring",
            f"Lay the foundation chain against Row {rows}, right sides together. From the outer edge to the "
            f"edge of the poncho, sl st through the next st of Row {rows} and the next ch of the foundation "
            f"together, {in_sizes(self.depths)} {'time' if set(self.depths) == {1} else 'times'} in all. "
            "Fasten off.",
            f"{in_sizes(self.depths)} sl sts",
        )


_FIRST_JOIN = "sl st in each of first 2 edge sts"
_JOIN = "sl st in each of next 2 edge sts"
