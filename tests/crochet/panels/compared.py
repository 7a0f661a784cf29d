"""Rows as the program placed them, held against the same rows worked by hand."""

from __future__ import annotations

from collections.abc import Sequence

from schematics.crochet.charts.placed_stitches import WorkedRow
from tests.crochet.panels.by_hand import Row


def assert_worked_as_by_hand(rows: Sequence[WorkedRow], by_hand: Sequence[Row]) -> None:
    """Every stitch stands on the same stitches, and goes into or round the same one.

    What a chain stands on is left out: it is worked into nothing.
    """
    for row, expected in zip(rows, by_hand, strict=True):
        assert (row.side == "RS", row.stitch_count) == (expected.right, len(expected.made))
        assert len(row.stitches) == len(expected.steps)
        for placed, step in zip(row.stitches, expected.steps, strict=True):
            assert placed.worked.stitch.abbreviation == step.token.name
            if step.token.name != "ch":
                assert placed.base == tuple(each.column for each in step.into)
            found = placed.target and (placed.target.row, placed.target.column)
            assert found == (step.round and (step.round.row, step.round.column))
