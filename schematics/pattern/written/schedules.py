"""How two edges meet: the ratio in words, and exactly how many of one each of the other takes, in turn."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from schematics.crochet.join_words import sequence_words
from schematics.crochet.spacing import Join
from schematics.document.chart_words.in_sizes import in_sizes
from schematics.document.document import Table


@dataclass(frozen=True, slots=True)
class EdgeUnit:
    """What meets along one edge, in the singular and the plural: ``body row end``, ``body row ends``."""

    one: str
    many: str

    def words(self, count: int) -> str:
        """``1 body row end``, ``6 body row ends``."""
        return f"{count} {self.one if count == 1 else self.many}"


def row_ends(of: str) -> EdgeUnit:
    """Row ends of that piece or edge."""
    return EdgeUnit(f"{of} row end", f"{of} row ends")


def schedule_table(
    caption: str, sizes: Sequence[str], joins: Sequence[Join], first: EdgeUnit, second: EdgeUnit
) -> Table:
    """A line for each size; sizes that join in the same words share one, whatever times they repeat them."""
    groups: dict[tuple[str, str], list[tuple[str, Join]]] = {}
    for size, join in zip(sizes, joins, strict=True):
        about = f"{join.ratio.numerator} to {join.ratio.denominator}"
        order = _REPEATED.sub(r": \1 × ", in_turn(join, first, second))
        groups.setdefault((about, order), []).append((size, join))
    return Table(
        caption=caption,
        header=("size", first.many, second.many, "ratio", "exact order"),
        rows=tuple(
            (
                "all" if 1 < len(alike) == len(sizes) else ", ".join(size for size, _ in alike),
                in_sizes([join.first_rows for _, join in alike]),
                in_sizes([join.second_rows for _, join in alike]),
                about,
                order if order[-1] != " " else f"{order}{in_sizes(_times(alike, first, second))}",
            )
            for (about, order), alike in groups.items()
        ),
    )


_REPEATED = re.compile(r": (\[[^]]+\]) × (\d+)$")
"""The schedule of a join that repeats one bracket, and how often it does."""


def _times(joined: Sequence[tuple[str, Join]], first: EdgeUnit, second: EdgeUnit) -> list[int]:
    matches = (_REPEATED.search(in_turn(join, first, second)) for _, join in joined)
    return [int(match[2]) for match in matches if match]


def in_turn(join: Join, first: EdgeUnit, second: EdgeUnit) -> str:
    """The exact schedule: ``one to one``, or ``panel row ends to each body row end: [1, 1, 2] × 7``."""
    if set(join.shares) == {1}:
        return "one to one"
    few, many = (second, first) if join.longer_first else (first, second)
    if len(set(join.shares)) == 1:
        return f"{many.words(join.shares[0])} to each {few.one}"
    return f"{many.many} to each {few.one}: {sequence_words(join.shares)}"


_QUARTERS = (1, 2, 3)


def quarter_points(join: Join) -> Iterator[tuple[int, int] | None]:
    """Row ends that meet at a quarter, half and three quarters of a join: of the first edge, of the second.

    Both are counted from where the schedule begins; None of edges too short for three such places.
    """
    few = len(join.shares)
    for quarter in _QUARTERS:
        at = (2 * few * quarter + 4) // 8
        met = at, sum(join.shares[:at])
        yield None if few < 4 else (met[1], met[0]) if join.longer_first else met
