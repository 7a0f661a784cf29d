"""Where the stitches of a row lie on a body worked from the neck down, laid flat."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from schematics.garment.constructions.neck_down.shape import Shape
from schematics.garment.patterned_area import Points

_HAIR_CM = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True)
class RowsOnShape:
    """Rows from ``first_row`` on, of so many ``stitches`` each, on a body of so many ``rows`` in all.

    The stitches of a row lie evenly along the line that is everywhere as far down from the neck edge to the
    hem as the row is: an arc on a ring sector, bent at every line of increases on a mitred body. Seen from
    the right side, with the neck up, rows are worked downwards, so a chart's left side lies on the right.
    """

    shape: Shape
    stitches: int
    first_row: int
    rows: int

    def __call__(self, points: Points) -> Points:
        """The points on the whole body, fold on x = 0."""
        hem, neck = self.shape.strip(0, 1)
        from_fold = 1 - 2 * points[:, 0] / self.stitches
        down = (self.first_row - 1 + points[:, 1]) / self.rows
        upper, lower = _run(neck), _run(hem)
        run = upper + (lower - upper) * down[:, None]
        aim = np.abs(from_fold) * run[:, -1]
        after = np.clip((run[:, :-1] <= aim[:, None]).sum(axis=1), 1, len(neck) - 1)
        every = np.arange(len(points))
        start, end = run[every, after - 1], run[every, after]
        share = ((aim - start) / np.maximum(end - start, _HAIR_CM))[:, None]
        above = neck[after - 1] + (neck[after] - neck[after - 1]) * share
        below = hem[after - 1] + (hem[after] - hem[after - 1]) * share
        placed = above + (below - above) * down[:, None]
        placed[:, 0] = np.where(from_fold < 0, -placed[:, 0], placed[:, 0])
        return np.asarray(placed)


def _run(path: Points) -> Points:
    """How far along the path each of its vertices is."""
    return np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(path, axis=0).T))])
