"""A piece worked from a chart, and how often it works the chart's repeat."""

from __future__ import annotations

from dataclasses import dataclass

from schematics.crochet.fabric import Fabric


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartPiece:
    """A part of one size that is worked from the chart: so many stitches and rows, 0 where it has none."""

    size: str
    stitches: int
    rows: int


def repeats_up(fabric: Fabric, piece: ChartPiece) -> int | None:
    """How often the piece works the chart's repeat; None if its number of rows does not fit the chart."""
    return fabric.row_rule.repeats(piece.rows) if fabric.row_rule.rule.allows(piece.rows) else None


def repeats_of(fabric: Fabric, piece: ChartPiece) -> int | None:
    """How often the piece works the chart's repeat; None if its rows or its stitches do not fit the chart."""
    return repeats_up(fabric, piece) if fabric.stitch_rule.allows(piece.stitches) else None
