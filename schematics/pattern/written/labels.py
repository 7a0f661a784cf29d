"""Labels of rows in all sizes: their numbers, the side that faces, and which sizes work them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import compress

from schematics.checks.wording import listed
from schematics.crochet.charts.chart import Side
from schematics.document.chart_words.in_sizes import Sized, in_sizes, not_none, texts_in_sizes
from schematics.document.document import Row


@dataclass(frozen=True, slots=True)
class Labels:
    """For the sizes of these ``names``; ``begun`` is the side that faces in row 1 of each."""

    names: Sequence[str]
    begun: Sequence[Side]

    def row(self, numbers: Sized, work: str, counts: Sized | None = None) -> Row:
        """One row, of that number in each size; None where a size does not work it."""
        sides = [
            begun if number % 2 else begun.other
            for begun, number in zip(self.begun, numbers, strict=True)
            if number is not None
        ]
        faces = f" ({sides[0]})" if len(set(sides)) == 1 else f", {texts_in_sizes(sides)}"
        return self.only(numbers, f"Row {in_sizes(not_none(numbers))}{faces}", work, counts)

    def rows(self, first: Sized, last: Sized, work: str, counts: Sized | None = None) -> Row:
        """Rows worked alike, from one to another; a size that does not work them has None for both."""
        if not_none(first) == not_none(last):
            return self.row(first, work, counts)
        label = rows_label(not_none(first), not_none(last))
        return self.only(first, label, work, counts)

    def alike(self, first: Sized, last: Sized, work: str, counts: Sized | None = None) -> Iterator[Row]:
        """Rows of one work without figures: for sizes that work one of them, then for those of several."""
        for several in (False, True):
            taken = [
                begun is not None and (begun != end) == several
                for begun, end in zip(first, last, strict=True)
            ]
            if any(taken):
                yield self.rows(_of(taken, first), _of(taken, last), work, counts)

    def only(self, worked: Sized, label: str, work: str, counts: Sized | None = None) -> Row:
        """A line for the sizes that have a number in ``worked``, which are named unless it is all."""
        taken = [number is not None for number in worked]
        count = count_words(list(compress(counts, taken))) if counts else ""
        if all(taken):
            return Row(label, work, count)
        names = list(compress(self.names, taken))
        return Row(f"Size{'' if len(names) == 1 else 's'} {listed(names)} only, {label}", work, count)


def _of(taken: Sequence[bool], numbers: Sized) -> Sized:
    return [number if each else None for each, number in zip(taken, numbers, strict=True)]


def rows_label(first: Sequence[int], last: Sequence[int]) -> str:
    """``Rows 5 and 6``, ``Rows 5 (7) to 8 (12)``."""
    two = all(end == begun + 1 for begun, end in zip(first, last, strict=True))
    return f"Rows {in_sizes(first)} {'and' if two else 'to'} {in_sizes(last)}"


def count_words(counts: Sized) -> str:
    """``12 (16, 20) sts``."""
    return f"{in_sizes(counts)} {'st' if set(counts) == {1} else 'sts'}"
