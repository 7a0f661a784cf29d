"""The facts of every size at every gauge a maker is likely to have, for a page that cannot work them out."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from schematics.design.design import Design
from schematics.fitting.gauge import Gauge, SizeAtGauge, parts_at_gauge, size_at_gauge
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.garment import Garment
from schematics.units import HAIR

STEPS = (0.25, 0.5, 1.0, 2.0, 4.0)
"""Stitches or rows to 10 cm between neighbours in the table: the finest that keeps to `MOST`."""

MOST = 15
"""Gauges at most in one direction: with every pair of them it is 225 garments to a size."""

WITHIN = 0.15
"""How far from the pattern's gauge the table goes, as a fraction of it."""

DECIMALS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class GaugeTable:
    """Facts by gauge, for the body fabric; others are scaled alike, see `schematics.fitting.gauge`.

    ``stitches`` and ``rows`` are the gauges to 10 cm, rising. ``sizes`` holds for each size, by its name,
    the facts of `schematics.checks.rules.garment_numbers` and the finished lengths as ``finished.<key>``,
    each as a grid: a row for each stitch gauge, in it a number for each row gauge.
    """

    stitches: tuple[float, ...]
    rows: tuple[float, ...]
    sizes: Mapping[str, Mapping[str, tuple[tuple[float, ...], ...]]]


def facts_by_gauge(
    design: Design, stitches_steps: Sequence[float] | None = None, rows_steps: Sequence[float] | None = None
) -> GaugeTable:
    """Facts of every size at every pair of gauges, to `DECIMALS`; paths on the fabric are found anew.

    Args:
        design: the design.
        stitches_steps: stitches to 10 cm of the body fabric, rising; within 15 % of the pattern's and
            in quarters, or coarser where that is more than 15 gauges, if not given.
        rows_steps: rows to 10 cm, likewise.
    """
    body = design.parts.body
    stitches = tuple(stitches_steps or steps(10 * body.stitches_per_cm))
    rows = tuple(rows_steps or steps(10 * body.rows_per_cm))
    patterns = [CONSTRUCTIONS[design.construction].build(size, design.parts) for size in design.sizes]
    cells = [[_cells(design, patterns, across, along) for along in rows] for across in stitches]
    return GaugeTable(
        stitches=stitches,
        rows=rows,
        sizes={
            size.name: _grids([[cell[index] for cell in line] for line in cells])
            for index, size in enumerate(design.sizes)
        },
    )


def _cells(
    design: Design, patterns: Sequence[Garment], across: float, along: float
) -> list[dict[str, float]]:
    """The facts of every size at one gauge; they share its fabrics, and so its formulas."""
    parts = parts_at_gauge(design.parts, Gauge(stitches_per_cm=across / 10, rows_per_cm=along / 10))
    return [
        all_facts(size_at_gauge(design, size, parts, pattern))
        for size, pattern in zip(design.sizes, patterns, strict=True)
    ]


def _grids(cells: Sequence[Sequence[Mapping[str, float]]]) -> dict[str, tuple[tuple[float, ...], ...]]:
    return {
        name: tuple(tuple(round(each[name], DECIMALS) for each in line) for line in cells)
        for name in cells[0][0]
    }


def all_facts(each: SizeAtGauge) -> dict[str, float]:
    """The facts of a size and its finished lengths, those as ``finished.<key>``."""
    lengths = {f"finished.{item.key}": item.length_cm for item in each.garment.finished}
    return each.facts | lengths


def steps(gauge: float) -> tuple[float, ...]:
    """Round gauges within `WITHIN` of this one, so coarse that there are at most `MOST`."""
    low, high = gauge * (1 - WITHIN), gauge * (1 + WITHIN)
    for step in STEPS:
        first, last = math.ceil(low / step - HAIR), math.floor(high / step + HAIR)
        if last - first < MOST:
            break
    return tuple(number * step for number in range(first, last + 1)) or (gauge,)


def gauge_table_json(table: GaugeTable) -> dict[str, Any]:
    """The table as plain JSON values.

    A fact that is the same at every gauge is a number, one that depends on the stitch gauge only is
    ``{"stitches": [...]}``, on the row gauge only ``{"rows": [...]}``, else it is ``{"both": [[...], ...]}``,
    a list for each stitch gauge. What is not a number is null.
    """
    return {
        "stitches": list(table.stitches),
        "rows": list(table.rows),
        "sizes": {
            size: {name: _short(grid) for name, grid in grids.items()} for size, grids in table.sizes.items()
        },
    }


def _short(grid: tuple[tuple[float, ...], ...]) -> Any:
    lines = [[number if math.isfinite(number) else None for number in line] for line in grid]
    by_row, by_stitch = lines[0], [line[0] for line in lines]
    if all(line == by_row for line in lines):
        return by_row[0] if all(number == by_row[0] for number in by_row) else {"rows": by_row}
    if all(number == line[0] for line in lines for number in line):
        return {"stitches": by_stitch}
    return {"both": lines}
