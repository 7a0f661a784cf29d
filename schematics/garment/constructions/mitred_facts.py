"""Bodies with increases in lines: what grading may know of them."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from schematics.design.design import Parts
from schematics.garment.constructions.base import ROWS, STITCHES
from schematics.garment.constructions.facts import Demand, Distance, Facts, Ways, length_cm
from schematics.garment.constructions.neck_down_facts import (
    EVERY,
    INTERVALS,
    UNTIL,
    last_increase_row,
    least_increase_rows,
    neck_down_facts,
    neck_down_grading,
)
from schematics.garment.constructions.ways import ways_on_trapezoids
from schematics.garment.linear import Counts, Linear, Numbers, Row, at_least


def line_places(neck: Any, lines: int) -> list[Any]:
    """Stitches from the front edge to each line on the way to centre back; of one neck or of a column."""
    return [(neck * (2 * line - 1) + lines) // (2 * lines) for line in range(1, lines // 2 + 1)]


def facts(counts: Mapping[str, Linear], settings: Mapping[str, Any], parts: Parts) -> Facts:
    """One size as formulas of its counts; ``lines`` must be set, the other settings may be."""
    lines, fabric = settings["lines"], parts.body
    hem = counts["body.neck"] + 2 * lines * counts["body.increase_rows"]
    depth_cm = length_cm(fabric, counts["body.rows"], ROWS)
    line = Distance(down=depth_cm, across=length_cm(fabric, counts["body.increase_rows"], STITCHES))

    def ways(columns: Counts, filled: Numbers, share: Numbers, panel: tuple[Numbers, Numbers]) -> Ways:
        return ways_on_trapezoids(
            [fabric.length_cm(each, STITCHES) for each in _half_sections(columns["body.neck"], settings)],
            line.across.at(columns) / filled,
            depth_cm.at(columns),
            share,
            panel,
            line_at_fold=lines % 2 == 1,
        )

    return neck_down_facts(
        counts,
        parts,
        hem,
        list(_demands(counts, settings, parts)),
        line_cm=line,
        drop=line if lines % 2 else Distance(down=depth_cm),
        ways=ways,
    )


def _half_sections(neck: Numbers, settings: Mapping[str, Any]) -> list[Numbers]:
    """Stitches of the half's sections, centre back first; of one that the fold halves, half."""
    lines = settings["lines"]
    if given := settings.get("sections"):
        half = [each + 0 * neck for each in given[(lines + 1) // 2 :]]
        return half if lines % 2 else [half[0] / 2, *half[1:]]
    from_front = line_places(neck, lines)
    places = [0 * neck, *from_front, neck / 2]
    return [after - before for before, after in itertools.pairwise(places)][::-1]


def shapings(columns: Counts, _: Mapping[str, Any], every: float) -> tuple[NDArray[np.int64], Counts]:
    """The last increase row, for columns of the other counts, where the rows fill enough of the body."""
    number, rows = columns["body.increase_rows"], columns["body.rows"]
    until = last_increase_row(number, every)
    index = np.flatnonzero((until <= rows) & (number >= least_increase_rows(rows, every)))
    return index, {EVERY: np.full(len(index), every), UNTIL: until[index]}


@dataclass(frozen=True, slots=True)
class _Enough:
    """There are as many rows to increase on, down to the last increase row, as are to have increases."""

    needs: frozenset[str] = frozenset({EVERY, UNTIL, "body.increase_rows"})

    def miss(self, counts: Counts) -> Numbers:
        """How many increase rows are lacking."""
        lowest = last_increase_row(counts["body.increase_rows"], counts[EVERY])
        return np.maximum(0, lowest - counts[UNTIL])


def _demands(counts: Mapping[str, Linear], settings: Mapping[str, Any], parts: Parts) -> Iterator[Demand]:
    neck, rows, increase_rows = (counts[f"body.{key}"] for key in ("neck", "rows", "increase_rows"))
    lines, every, sections = settings["lines"], settings.get("increase_every", 1), settings.get("sections")
    yield Demand(
        words="there are enough rows to increase on",
        row=at_least(rows, 2 + every * (increase_rows - 1)),
        cure="{missing} more rows, or fewer of them with increases",
    )
    yield Demand(
        words="there are enough increase rows to increase on",
        row=_Enough(),
        cure="{missing} more rows to increase on: another increase_until, or fewer increase_rows",
    )
    yield Demand(
        words=f"the neck has stitches for {lines} lines of increases",
        row=at_least(neck, max(lines + 1, 2 * lines)),
        cure="{missing} more stitches at the neck, or fewer lines",
        code="COUNT-INCREASE",
    )
    if lines % 2:
        yield Demand(
            words="a line at centre back halves the neck",
            row=Row(value=neck, multiple=2),
            cure="an even number of lines",
        )
    if sections:
        yield Demand(
            words="the sections given make up the neck",
            row=Row(value=neck, low=sum(sections), high=sum(sections)),
            cure="leaving the sections out",
        )
    lean = math.tau / lines
    if lean < math.pi / 2:
        depth_cm = length_cm(parts.body, rows, ROWS)
        yield Demand(
            words="the body opens to no more than two full circles",
            row=at_least(depth_cm * math.tan(lean), length_cm(parts.body, increase_rows, STITCHES)),
            cure="fewer rows with increases, or more rows",
            code="FLAT-CIRCLE",
        )


GRADING = neck_down_grading(("body.increase_rows", "body.hem"), facts, shapings, INTERVALS)
