"""Bodies with increases in lines: their formulas."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from schematics.design.design import Parts
from schematics.garment.amounts import (
    ROWS,
    STITCHES,
    Count,
    CountRange,
    CountValues,
    Formula,
    Laid,
    Measure,
    Numbers,
    at_least,
    slope,
)
from schematics.garment.constructions.formulas import ArmPaths, Demand, Formulas
from schematics.garment.constructions.neck_down.arm_paths import paths_on_trapezoids
from schematics.garment.constructions.neck_down.neck_down_formulas import (
    BODY_ROWS,
    EVERY,
    NECK,
    UNTIL,
    last_increase_row,
    neck_down_formulas,
)
from schematics.wearer.expr import Expr, node

GROWTH = Count("body.increase_rows")
"""Rows with increases; a section grows by a stitch at each line it lies next to, so they are stitches too."""


def line_places(neck: Any, lines: int) -> list[Any]:
    """Stitches from the front edge to each line on the way to centre back; of one neck or of a column."""
    return [(neck * (2 * line - 1) + lines) // (2 * lines) for line in range(1, lines // 2 + 1)]


def mitred_hem(lines: int) -> Expr:
    """Stitches at the hem."""
    return NECK + 2 * node(lines) * GROWTH


def mitred_formulas(parts: Parts, settings: Mapping[str, Any]) -> Formulas:
    """One size as formulas of its counts; ``lines`` must be set, the other settings may be."""
    lines, fabric = settings["lines"], parts.body
    grow, depth = Formula(Laid(GROWTH, STITCHES, fabric)), Formula(Laid(BODY_ROWS, ROWS, fabric))

    def arm_paths(
        columns: CountValues, filled: Numbers, share: Numbers, panel: tuple[Numbers, Numbers]
    ) -> ArmPaths:
        return paths_on_trapezoids(
            [fabric.length_cm(each, STITCHES) for each in _half_sections(columns["body.neck"], settings)],
            grow.at(columns) / filled,
            depth.at(columns),
            share,
            panel,
            line_at_fold=lines % 2 == 1,
        )

    return neck_down_formulas(
        parts,
        mitred_hem(lines),
        list(_demands(settings, parts)),
        arm_paths,
        hem_words="the neck, and a stitch on both sides of every line on every increase row",
        found_by="body.increase_rows",
        line=Measure(
            slope(grow.expr, depth.expr), key="body.line", name="increase line, neck to hem",
            source="what a section grows by at a line, and the depth", finished=True,
        ),
        line_at_back=lines % 2 == 1,
    )  # fmt: skip


def _half_sections(neck: Numbers, settings: Mapping[str, Any]) -> list[Numbers]:
    """Stitches of the half's sections, centre back first; of one that the fold halves, half."""
    lines = settings["lines"]
    if given := settings.get("sections"):
        half = [each + 0 * neck for each in given[(lines + 1) // 2 :]]
        return half if lines % 2 else [half[0] / 2, *half[1:]]
    from_front = line_places(neck, lines)
    places = [0 * neck, *from_front, neck / 2]
    return [after - before for before, after in itertools.pairwise(places)][::-1]


@dataclass(frozen=True, slots=True)
class _Enough:
    """There are as many rows to increase on, down to the last increase row, as are to have increases."""

    needs: frozenset[str] = frozenset({EVERY, UNTIL, "body.increase_rows"})

    def miss(self, counts: CountValues) -> Numbers:
        """How many increase rows are lacking."""
        lowest = last_increase_row(counts["body.increase_rows"], counts[EVERY])
        return np.maximum(0, lowest - counts[UNTIL])


def _demands(settings: Mapping[str, Any], parts: Parts) -> Iterator[Demand]:
    lines, every, sections = settings["lines"], settings.get("increase_every", 1), settings.get("sections")
    yield Demand(
        words="there are enough rows to increase on",
        kept=at_least(BODY_ROWS, 2 + every * (GROWTH - 1)),
        cure="{missing} more rows, or fewer of them with increases",
    )
    yield Demand(
        words="there are enough increase rows to increase on",
        kept=_Enough(),
        cure="{missing} more rows to increase on: another increase_until, or fewer increase_rows",
    )
    yield Demand(
        words=f"the neck has stitches for {lines} lines of increases",
        kept=at_least(NECK, max(lines + 1, 2 * lines)),
        cure="{missing} more stitches at the neck, or fewer lines",
        code="COUNT-INCREASE",
    )
    if lines % 2:
        yield Demand(
            words="a line at centre back halves the neck",
            kept=CountRange(Formula(NECK), multiple=2),
            cure="an even number of lines",
        )
    if sections:
        yield Demand(
            words="the sections given make up the neck",
            kept=CountRange(Formula(NECK), low=sum(sections), high=sum(sections)),
            cure="leaving the sections out",
        )
    lean = math.tau / lines
    if lean < math.pi / 2:
        yield Demand(
            words="the body opens to no more than two full circles",
            kept=at_least(
                Laid(BODY_ROWS, ROWS, parts.body) * math.tan(lean), Laid(GROWTH, STITCHES, parts.body)
            ),
            cure="fewer rows with increases, or more rows",
            code="FLAT-CIRCLE",
        )
