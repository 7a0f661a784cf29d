"""On which rows a body is increased, and by how much."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate, pairwise


@dataclass(frozen=True, slots=True, kw_only=True)
class IncreasePlan:
    """Stitches added on each increase row: pairs of row number (the first row is 1) and increases.

    ``sections`` cut the ``start`` stitches where increases are made in lines: two lie next to each
    line, one from front to front edge where the increases are spread along the row.
    """

    start: int
    rows: tuple[tuple[int, int], ...]
    sections: tuple[int, ...] = ()

    def running(self) -> Iterator[tuple[int, int, int]]:
        """Row, increases in it, stitches before it."""
        stitches = self.start
        for row, added in self.rows:
            yield row, added, stitches
            stitches += added

    @property
    def lines(self) -> int:
        """Lines that increases are made in; 0 where they are spread along the row."""
        return max(0, len(self.sections) - 1)

    @property
    def used(self) -> tuple[tuple[int, int], ...]:
        """The rows that have increases."""
        return tuple((row, added) for row, added in self.rows if added)

    @property
    def each(self) -> int | None:
        """Increases in every increase row; None where they differ, or there are none."""
        counts = {added for _, added in self.used}
        return counts.pop() if len(counts) == 1 else None

    @property
    def interval(self) -> float | None:
        """Rows from one increase row to the next; None where they differ, or there are not two.

        It is 1.5 where two rows of every three have increases, the first two among them.
        """
        steps = [after - before for (before, _), (after, _) in pairwise(self.used)]
        if steps == [1 + turn % 2 for turn in range(len(steps))] and len(steps) > 1:
            return 1.5
        return steps[0] if len(set(steps)) == 1 else None

    def row_stitches(self, rows: int) -> tuple[int, ...]:
        """Stitches of each of so many rows, the first at the neck."""
        added = dict(self.rows)
        more = accumulate(added.get(row, 0) for row in range(1, rows + 1))
        return tuple(self.start + each for each in more)
