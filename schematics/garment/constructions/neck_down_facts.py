"""Bodies worked from the neck down with arm bands on the hem: what grading may know of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from schematics.design.design import Parts
from schematics.garment.constructions.facts import (
    ROWS,
    SHARED_KEYS,
    STITCHES,
    Demand,
    Distance,
    Facts,
    Gradable,
    Pattern,
    SeamFacts,
    Ways,
    full_cm,
    length_cm,
    neck_facts,
    ring_facts,
    shared_lengths,
    shared_patterns,
)
from schematics.garment.linear import Counts, Linear, Numbers, at_least

ARM_COUNTS = {"arms.from_front": "arm.from_front", "arms.stitches": "arm.run"}
"""Counts of arm bands on the hem, each with its finished measurement."""
EVERY, UNTIL = "body.increase_every", "body.increase_until"
SHAPING = (EVERY, UNTIL)
"""Counts that say on which rows increases are made."""

KEYS = ("body.neck", "body.hem", "body.depth", "arm.from_front", "arm.run", "arm.back", *SHARED_KEYS)
"""Finished measurements of such a body that are linear in its counts."""

_GROWING = (
    "neck.edge", "body.hem", "body.depth", "arm.from_front", "arm.run", "panel.width", "panel.length",
    "neck_band.depth", "arm_band.depth", "arm_band.length",
)  # fmt: skip
INTERVALS = (1, 1.5, 2, 3, 4, 5, 6, 7, 8)
"""Rows from one row of regular increases to the next; 1.5 is two rows with increases in every three."""

_HAIR = 1e-9

WaysOf = Callable[[Counts, Numbers, Numbers, tuple[Numbers, Numbers]], Ways]
"""Counts, the share of the depth that increases fill, that of the half hem, and the panel's size in cm."""


def most_increase_rows(rows: Numbers, every: float) -> Numbers:
    """How many rows there are to increase on, from row 2 to the last."""
    return np.maximum(0, np.ceil((rows - 1) / every - _HAIR)).astype(int)


_FILLED = 1 / 2
"""The share of the rows there are that regular increases fill at least (common practice, no source)."""


def least_increase_rows(rows: Numbers, every: float) -> Numbers:
    """The fewest regular increase rows."""
    return np.ceil(_FILLED * most_increase_rows(rows, every) - _HAIR).astype(int)


def last_increase_row(number: Numbers, every: float) -> Numbers:
    """The last of so many regular increase rows, the first of which is row 2."""
    return 2 + np.floor((number - 1) * every + _HAIR).astype(int)


@dataclass(frozen=True, slots=True)
class _LastIncreaseRow:
    """Row ``increase_until`` is an increase row of the body."""

    needs: frozenset[str] = frozenset({EVERY, UNTIL, "body.rows"})

    def miss(self, counts: Counts) -> Numbers:
        """Rows from it to the nearest increase row, or that it lies below the hem."""
        every, until = counts[EVERY], counts[UNTIL]
        number = np.maximum(1, np.round((until - 2) / every) + 1)
        off = np.minimum.reduce(
            [np.abs(last_increase_row(np.maximum(1, number + more), every) - until) for more in (-1, 0, 1)]
        )
        return np.maximum(off, until - counts["body.rows"])


def filled_share(counts: Counts) -> Numbers:
    """The share of the depth over which the stitches grow; see `BodyPlan`."""
    if UNTIL not in counts:
        return 1.0
    return np.minimum(1.0, (counts[UNTIL] - 1 + counts[EVERY] / 2) / counts["body.rows"])


def neck_down_facts(
    counts: Mapping[str, Linear],
    parts: Parts,
    hem: Linear,
    demands: Sequence[Demand],
    *,
    line_cm: Distance,
    drop: Distance,
    ways: WaysOf,
) -> Facts:
    """The facts of one size.

    Args:
        counts: every count as a symbol.
        parts: the fabrics.
        hem: stitches at the hem.
        demands: what the body's own counts ask of each other.
        line_cm: from the neck edge to the hem's farthest place.
        drop: the same at centre back.
        ways: the ways on the body's shape.
    """
    fabric, neck, rows = parts.body, counts["body.neck"], counts["body.rows"]
    front, run = counts["arms.from_front"], counts["arms.stitches"]
    back = hem - 2 * (front + run)
    depth_cm, hem_cm = length_cm(fabric, rows, ROWS), length_cm(fabric, hem, STITCHES)
    ring = neck_facts(counts, parts, neck, length_cm(fabric, neck, STITCHES), full_cm(fabric, neck, STITCHES))
    arm = ring_facts(run, length_cm(fabric, run, STITCHES), full_cm(fabric, run, STITCHES), parts.arm_bands)
    lengths = {
        "body.neck": length_cm(fabric, neck, STITCHES),
        "body.hem": hem_cm,
        "body.depth": depth_cm,
        "arm.from_front": length_cm(fabric, front, STITCHES),
        "arm.run": length_cm(fabric, run, STITCHES),
        "arm.back": length_cm(fabric, back, STITCHES),
        **shared_lengths(counts, parts, ring, arm),
    }
    at_hem = hem_cm + lengths["panel.width"]

    def girths(columns: Counts) -> tuple[tuple[Numbers, Numbers], ...]:
        low, below = drop.at(columns), at_hem.at(columns)
        filled = np.minimum(filled_share(columns), 1 - _HAIR) * low
        return (np.zeros_like(filled), ring.edge_cm.at(columns)), (filled, below), (low, below)

    def found_ways(columns: Counts) -> Ways:
        stitches = hem.at(columns)
        share = 1 - (2 * columns["arms.from_front"] + columns["arms.stitches"]) / stitches
        panel = lengths["panel.width"].at(columns), lengths["panel.length"].at(columns)
        return ways(columns, filled_share(columns), share, panel)

    return Facts(
        lengths=lengths,
        growing=_GROWING,
        patterns=(
            Pattern(words="body.neck", count=neck, counted=STITCHES, fabric=fabric),
            Pattern(words="hem stitches", count=hem, counted=STITCHES, fabric=fabric),
            Pattern(words="body.rows", count=rows, counted=ROWS, fabric=fabric),
            *shared_patterns(counts, parts, ring, arm),
        ),
        neck=ring,
        arm=arm,
        seams=(
            SeamFacts(
                words="seams A and B, body to panel",
                first_cm=depth_cm,
                second_cm=lengths["panel.length"],
                first_fabric=fabric,
                second_fabric=parts.centre_panel,
            ),
        ),
        demands=(
            *demands,
            Demand(
                words="the last increase row is one of the increase rows",
                row=_LastIncreaseRow(),
                cure="another increase_until",
            ),
            Demand(
                words="both arm runs lie on the hem and leave a back between them",
                row=at_least(back, 1),
                cure="{missing} more stitches at the hem, or an arm run that starts nearer the front",
                code="ARM-PLACE",
            ),
        ),
        drop=drop,
        corners=(line_cm,),
        girths=girths,
        girths_need=drop.needs | at_hem.needs | ring.edge_cm.needs,
        ways=found_ways,
        ways_need=hem.needs
        | {"body.neck", "body.rows", "arms.from_front", "arms.stitches", "panel.stitches", "panel.rows"},
        straight_cm=lambda columns: (1 - filled_share(columns)) * depth_cm.at(columns),
    )


def neck_down_grading(
    widening: tuple[str, str],
    facts: Callable[[Mapping[str, Linear], Mapping[str, Any], Parts], Facts],
    shapings: Callable[[Counts, Mapping[str, Any], float], tuple[Numbers, Counts]],
    intervals: tuple[float, ...],
) -> Gradable:
    """What makes such a body gradable.

    Args:
        widening: the key of the count by which it widens, and that of the measurement that tells it.
        facts: one size as formulas of its counts.
        shapings: the rows that increases may be made on, see `Gradable`.
        intervals: rows from one row of regular increases to the next.
    """
    count, measurement = widening
    return Gradable(
        counts={"body.neck": "body.neck", count: measurement, "body.rows": "body.depth", **ARM_COUNTS},
        keys=KEYS,
        facts=facts,
        shaping=SHAPING,
        shapings=shapings,
        intervals=intervals,
    )
