"""A join in plain words: the ratio to work by, and the exact schedule that adds up."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from schematics.crochet.fabric import Counted
from schematics.crochet.spacing import Join

_SPELT_OUT = 3
"""Runs of one number up to this long are written out; longer ones are written ``1 × 13``."""


@dataclass(frozen=True, slots=True)
class JoinSide:
    """One side of a join: the name of its piece or edge, and whether rows or stitches meet there."""

    name: str
    counted: Counted

    def words(self, count: int) -> str:
        """``count`` of this side: ``1 body row``, ``2 hem stitches``."""
        one = "stitch" if self.counted is Counted.STITCHES else "row"
        return f"{count} {self.name} {one if count == 1 else self.counted.words}"


def ratio_words(join: Join, first: JoinSide, second: JoinSide) -> str:
    """The simplest ratio, that with more first: ``3 panel rows to 2 body rows``."""
    many, few = _longer_first(join, first, second)
    low, high = sorted((join.ratio.numerator, join.ratio.denominator))
    return f"{many.words(high)} to {few.words(low)}"


def schedule_words(join: Join, first: JoinSide, second: JoinSide) -> str:
    """The exact schedule, which adds up to both totals.

    Such as ``7 panel rows to 4 body rows: 3 take 2 and 1 takes 1, in turn 2, 2, 1, 2``.
    """
    many, few = _longer_first(join, first, second)
    totals = f"{many.words(sum(join.shares))} to {few.words(len(join.shares))}"
    low, high = min(join.shares), max(join.shares)
    if low == high == 1:
        return f"{totals}: one to one"
    if low == high:
        return f"{totals}: each {few.words(1).removeprefix('1 ')} takes {high}"
    takes = [(join.shares.count(value), value) for value in (high, low)]
    takes.sort(key=lambda take: -take[0])
    counts = " and ".join(f"{count} {'takes' if count == 1 else 'take'} {value}" for count, value in takes)
    return f"{totals}: {counts}, in turn {sequence_words(join.shares)}"


def _longer_first(join: Join, first: JoinSide, second: JoinSide) -> tuple[JoinSide, JoinSide]:
    """The sides in the order in which a join names them: that with more, or of two alike the second."""
    return (first, second) if join.longer_first else (second, first)


def join_words(join: Join, first: JoinSide, second: JoinSide) -> str:
    """How to join: by the ratio, and exactly."""
    return f"Join {ratio_words(join, first, second)}; exactly, {schedule_words(join, first, second)}"


def sequence_words(shares: Sequence[int]) -> str:
    """A sequence written short, every number kept: ``[2, 1] × 6, 2``.

    Brackets hold what is repeated; ``1 × 13`` stands for thirteen ones in a row.
    """
    return min((", ".join(_repeated(*each) for each in blocks) for blocks in _cuts(shares)), key=len)


def _cuts(shares: Sequence[int]) -> Iterator[list[tuple[tuple[int, ...], int]]]:
    """Ways to cut the sequence into repeated blocks: by its period, or after each rarer number."""
    whole, length = tuple(shares), len(shares)
    period = next(each for each in range(1, length + 1) if whole[:each] * (length // each) == whole)
    yield [(whole[:period], length // period)]
    rare = min(set(shares), key=lambda value: (shares.count(value), value))
    bounds = sorted({0, length, *(place + 1 for place, value in enumerate(shares) if value == rare)})
    pieces = [whole[start:end] for start, end in itertools.pairwise(bounds)]
    yield [(piece, len(list(same))) for piece, same in itertools.groupby(pieces)]


def _repeated(block: tuple[int, ...], times: int) -> str:
    words: list[str] = []
    for value, same in itertools.groupby(block):
        count = len(list(same))
        words += [str(value)] * count if count <= _SPELT_OUT else [f"{value} × {count}"]
    return ", ".join(words) if times == 1 else f"[{', '.join(words)}] × {times}"
