"""Bodies worked from the neck down with arm bands on the hem: their formulas."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np

from schematics.design.border import BorderEdge
from schematics.design.design import Parts
from schematics.garment.amounts import (
    ROWS,
    STITCHES,
    Count,
    CountValues,
    Formula,
    Laid,
    Measure,
    Numbers,
    counted,
    values_of,
)
from schematics.garment.constructions.border_formulas import EndsAbove, border_patterns, rows_at_the_hem
from schematics.garment.constructions.demands import ARM_PLACE, COUNT_BORDER, Demand, Pattern, at_least
from schematics.garment.constructions.edge_formulas import ARM_BANDS, RingFormulas, front_seams_formulas
from schematics.garment.constructions.formulas import (
    ONE_TO_EACH,
    Formulas,
    drop_measure,
    longest_drop_measure,
    neck_formulas,
    shared_measures,
    shared_patterns,
)
from schematics.garment.constructions.neck_down.neck_down_garment import widened_rows
from schematics.garment.constructions.panel_formulas import PanelCm, panel_formulas
from schematics.garment.constructions.path_formulas import ArmPaths
from schematics.units import HAIR
from schematics.wearer.expr import Expr

NECK, BODY_ROWS = Count("body.neck"), Count("body.rows", ROWS)
FROM_FRONT, RUN = Count("arms.from_front"), Count("arms.stitches")
EVERY, UNTIL = "body.increase_every", "body.increase_until"
SHAPING = (EVERY, UNTIL)
"""Counts that say on which rows increases are made."""

_GROWING = (
    "neck.edge", "body.hem", "body.depth", "arm.from_front", "arm.run", "panel.width", "panel.length",
    "neck_band.depth", "arm_band.depth", "arm_band.length",
)  # fmt: skip
INTERVALS = (1, 1.5, 2, 3, 4, 5, 6, 7, 8)
"""Rows from one row of regular increases to the next; 1.5 is two rows with increases in every three."""

PathsOf: TypeAlias = Callable[[CountValues, Numbers, Numbers, PanelCm], ArmPaths]
"""Counts, the share of the depth that increases fill, that of the half hem, and the panel's size in cm."""


def most_increase_rows(rows: Numbers, every: float) -> Numbers:
    """How many rows there are to increase on, from row 2 to the last."""
    return np.maximum(0, np.ceil((rows - 1) / every - HAIR)).astype(int)


_FILLED = 1 / 2
"""The share of the rows there are that regular increases fill at least (common practice, no source)."""


def least_increase_rows(rows: Numbers, every: float) -> Numbers:
    """The fewest regular increase rows."""
    return np.ceil(_FILLED * most_increase_rows(rows, every) - HAIR).astype(int)


def last_increase_row(number: Numbers, every: float) -> Numbers:
    """The last of so many regular increase rows, the first of which is row 2."""
    return 2 + np.floor((number - 1) * every + HAIR).astype(int)


@dataclass(frozen=True, slots=True)
class _LastIncreaseRow:
    """Row ``increase_until`` is an increase row of the body."""

    needs: frozenset[str] = frozenset({EVERY, UNTIL, "body.rows"})

    def miss(self, counts: CountValues) -> Numbers:
        """Rows from it to the nearest increase row, or that it lies below the hem."""
        every, until = counts[EVERY], counts[UNTIL]
        number = np.maximum(1, np.round((until - 2) / every) + 1)
        off = np.minimum.reduce(
            [np.abs(last_increase_row(np.maximum(1, number + more), every) - until) for more in (-1, 0, 1)]
        )
        return np.maximum(off, until - counts["body.rows"])


def filled_share(counts: CountValues) -> Numbers:
    """The share of the depth over which the stitches grow; see `BodyPlan`."""
    until = counts.get(UNTIL)
    if until is None:
        return 1.0
    return widened_rows(counts["body.rows"], counts[EVERY], until) / counts["body.rows"]


def _above_borders(parts: Parts) -> Iterator[Demand]:
    if rows := rows_at_the_hem(parts):
        yield Demand(
            words="the increases end above the border at the hem",
            kept=EndsAbove(rows, UNTIL),
            cure="an increase_until {missing} rows higher, or as many more rows",
            code=COUNT_BORDER,
        )


def neck_down_formulas(
    parts: Parts,
    hem: Expr,
    demands: Sequence[Demand],
    arm_paths: PathsOf,
    opening: Callable[[CountValues, Numbers], Numbers],
    *,
    hem_words: str = "",
    graded_by: str = "",
    line: Measure | None = None,
    line_at_back: bool = False,
) -> Formulas:
    """The formulas of one size.

    Args:
        parts: the fabrics.
        hem: stitches at the hem.
        demands: what the body's own counts ask of each other.
        arm_paths: the paths on the body's shape.
        opening: the angle it opens to, from counts and the share of the depth that increases fill.
        hem_words: how the hem follows where it is no count of the spec.
        graded_by: the count of the spec that grading sets the hem by then.
        line: the line of increases from the neck edge to the hem's farthest place, where there is one.
        line_at_back: whether such a line runs down the centre back.
    """
    fabric = parts.body
    body_hem = counted("body.hem", "body hem edge", hem, STITCHES, fabric, hem_words, graded_by=graded_by)
    depth = counted("body.depth", "body depth, neck to hem", BODY_ROWS, ROWS, fabric)
    free = (hem if isinstance(hem, Count) else Formula(hem, "sts")) - 2 * (FROM_FRONT + RUN)
    back = replace(
        counted(
            "arm.back", "hem free across the back", free, STITCHES, fabric,
            "the hem less both runs and what lies before them",
        ),
        loose=True,
    )  # fmt: skip
    panel = panel_formulas(parts.centre_panel)
    ring = neck_formulas(parts, panel, (Laid(NECK, STITCHES, fabric),), NECK)
    arm = RingFormulas(
        name="arm",
        edge=(Laid(RUN, STITCHES, fabric),),
        edge_stitches=RUN,
        band=parts.arm_bands,
        depth=ARM_BANDS,
    )
    shared = tuple(
        shared_measures(panel, ring, arm, "body neck edge and top of the panel", f"{ONE_TO_EACH} arm run")
    )
    neck_edge = next(each for each in shared if each.key == "neck.edge")
    drop, words = (line, "the increase line there") if line and line_at_back else (depth, "the depth")
    girth_top = Measure(
        neck_edge, key="girth.top", name="round the neck edge", source="the neck edge with the panel's top"
    )
    girth_hem = Measure(
        body_hem + panel.width, key="girth.hem", name="round the hem", source="the hem and the panel's foot"
    )

    levels = values_of((drop, girth_top, girth_hem))

    def girths(columns: CountValues) -> tuple[tuple[Numbers, Numbers], ...]:
        low, above, below = levels(columns)
        filled = np.minimum(filled_share(columns), 1 - HAIR) * low
        return (np.zeros_like(filled), above), (filled, below), (low, below)

    def on_shape(columns: CountValues) -> ArmPaths:
        stitches = Formula(hem).at(columns)
        share = 1 - (2 * columns["arms.from_front"] + columns["arms.stitches"]) / stitches
        return arm_paths(columns, filled_share(columns), share, panel.at(columns))

    return Formulas(
        measures=(
            counted("body.neck", "body neck edge", NECK, STITCHES, fabric),
            body_hem,
            depth,
            *([line] if line else []),
            counted("arm.from_front", "front seam to arm run", FROM_FRONT, STITCHES, fabric),
            counted("arm.run", "arm run on the hem", RUN, STITCHES, fabric),
            back,
            *shared,
        ),
        growing=_GROWING,
        patterns=(
            Pattern(words="body.neck", count=NECK, counted=STITCHES, fabric=fabric),
            Pattern(words="hem stitches", count=hem, counted=STITCHES, fabric=fabric),
            Pattern(words="body.rows", count=BODY_ROWS, counted=ROWS, fabric=fabric),
            *shared_patterns(parts, ring, arm),
            *border_patterns(
                parts, {BorderEdge.NECK: {"body.neck": NECK}, BorderEdge.HEM: {"hem stitches": hem}}
            ),
        ),
        neck=ring,
        arm=arm,
        seams=(front_seams_formulas(parts, depth, panel.side),),
        demands=(
            *demands,
            *panel.demands(),
            Demand(
                words="the last increase row is one of the increase rows",
                kept=_LastIncreaseRow(),
                cure="another increase_until",
            ),
            *_above_borders(parts),
            Demand(
                words="both arm runs lie on the hem and leave a back between them",
                kept=at_least(free, 1),
                cure="{missing} more stitches at the hem, or an arm run that starts nearer the front",
                code=ARM_PLACE,
                loose=True,
            ),
        ),
        drop=drop_measure(drop, words),
        longest_drop=longest_drop_measure(
            line or depth, "along an increase line" if line else "the depth, all along the hem"
        ),
        girth_top=girth_top,
        girth_hem=girth_hem,
        girths=girths,
        girths_need=drop.needs | girth_hem.needs | girth_top.needs,
        arm_paths=on_shape,
        arm_paths_need=body_hem.needs
        | {"body.neck", "body.rows", "arms.from_front", "arms.stitches", "panel.stitches", "panel.rows"},
        opening=lambda columns: opening(columns, filled_share(columns)),
        straight=(lambda columns: (1 - filled_share(columns)) * depth.at(columns), depth),
    )
