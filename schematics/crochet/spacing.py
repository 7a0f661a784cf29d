"""Even spacing in whole numbers: increases along a row, rows joined to rows.

The spacing is Bresenham's: the i-th of ``parts`` shares of ``total`` ends at
``round(total * (i + 1) / parts)``, halves rounded up, so shares differ by at most one and add up
exactly.

References:
    J. E. Bresenham, Algorithm for computer control of a digital plotter, IBM Systems Journal
    4 (1965). E. Bjorklund's pulse spacing (2003) gives the same shares but for where they start.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from fractions import Fraction

RATIO_TOLERANCE = 0.05
"""How far a simple join ratio may be off (common practice, no source); the exact shares make up for it."""


def even_shares(total: int, parts: int) -> tuple[int, ...]:
    """``total`` cut into ``parts`` whole shares that differ by at most one, evenly mixed.

    >>> even_shares(7, 4)
    (2, 2, 1, 2)

    Raises:
        ValueError: ``parts`` is not positive or ``total`` is negative.
    """
    if parts < 1 or total < 0:
        raise ValueError(f"cannot cut {total} into {parts} parts")
    ends = [(2 * total * i + parts) // (2 * parts) for i in range(parts + 1)]
    return tuple(after - before for before, after in itertools.pairwise(ends))


def simplest_ratio(first: int, second: int, tolerance: float) -> Fraction:
    """The simplest whole-number ratio near ``first : second``, as the fraction first over second.

    The side with fewer gets the smallest number that serves; of several ratios with that number
    the nearest is given. Swapping the arguments turns the answer over and changes nothing else.

    >>> simplest_ratio(26, 40, 0.05)  # 2 of the first to 3 of the second
    Fraction(2, 3)

    Args:
        first: how many there are on the first side, positive.
        second: how many there are on the second side, positive.
        tolerance: how far larger over smaller may be off, as a fraction of it.

    Raises:
        ValueError: a count is not positive or ``tolerance`` is negative.
    """
    if first < 1 or second < 1 or tolerance < 0:
        raise ValueError(f"no ratio of {first} to {second} within {tolerance}")
    many, few = max(first, second), min(first, second)
    nearest = ((round(many * each / few), each) for each in itertools.count(1))
    larger, smaller = next(
        (large, small)
        for large, small in nearest
        if abs(large * few - many * small) <= tolerance * many * small
    )
    return Fraction(larger, smaller) if first >= second else Fraction(smaller, larger)


@dataclass(frozen=True, slots=True, kw_only=True)
class Join:
    """How the row ends of one edge meet those of another.

    ``ratio`` is first over second in simplest form within tolerance: 2/3 stands for 2 rows of the
    first edge to 3 of the second. ``shares`` is exact: for each row of the edge with fewer rows, in
    turn, how many rows of the other edge it takes.
    """

    first_rows: int
    second_rows: int
    ratio: Fraction
    shares: tuple[int, ...]

    @property
    def longer_first(self) -> bool:
        """Whether the first edge has more rows, so that ``shares`` runs along the second."""
        return self.first_rows > self.second_rows


def join(first_rows: int, second_rows: int, tolerance: float = RATIO_TOLERANCE) -> Join:
    """The join of two edges of ``first_rows`` and ``second_rows`` row ends.

    Raises:
        ValueError: a count is not positive or ``tolerance`` is negative.
    """
    return Join(
        first_rows=first_rows,
        second_rows=second_rows,
        ratio=simplest_ratio(first_rows, second_rows, tolerance),
        shares=even_shares(max(first_rows, second_rows), min(first_rows, second_rows)),
    )
