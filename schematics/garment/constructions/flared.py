"""Flared: worked from the neck down with increases spread evenly; laid flat, a ring sector."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Self

import numpy as np
from numpy.typing import NDArray
from pydantic import Field, field_validator, model_validator

from schematics.crochet.spacing import even_shares
from schematics.design.design import Parts, Size
from schematics.garment.constructions.base import ROWS, STITCHES, Counts
from schematics.garment.constructions.facts import Demand, Distance, Facts, Ways, length_cm
from schematics.garment.constructions.levers import whole_repeats, with_counts
from schematics.garment.constructions.neck_down import NeckDown, hem_lever, last_row_left
from schematics.garment.constructions.neck_down_facts import (
    EVERY,
    INTERVALS,
    UNTIL,
    last_increase_row,
    least_increase_rows,
    most_increase_rows,
    neck_down_facts,
    neck_down_grading,
)
from schematics.garment.constructions.neck_down_garment import Ending, checked_last_row, rows_to_increase_on
from schematics.garment.constructions.ways import ways_on_sector
from schematics.garment.garment import IncreasePlan
from schematics.garment.linear import Counts as CountColumns
from schematics.garment.linear import Linear, Numbers, at_least


class FlaredBody(Counts):
    """Counts of a flared body over its whole width, from one front edge to the other."""

    neck: int = Field(ge=2, description="stitches of the first row, at the neck")
    hem: int = Field(ge=2, description="stitches of the last row, at the hem")
    rows: int = Field(ge=1, description="rows from neck to hem")
    increase_every: int = Field(default=1, ge=1, description="increase on every how many rows, from row 2 on")
    increase_until: int | None = Field(
        default=None, ge=2, description="last row with increases; down to the hem if left out"
    )

    _until = field_validator("increase_until")(checked_last_row)

    @model_validator(mode="after")
    def _flares(self) -> Self:
        if self.hem < self.neck:
            raise ValueError(
                f"the hem ({self.hem}) has fewer stitches than the neck ({self.neck}); "
                "a flared body grows from the neck down"
            )
        return self


def increase_plan(neck: int, hem: int, rows: int, every: int, until: int | None = None) -> IncreasePlan:
    """The increases on rows 2, 2 + ``every``, ..., shared evenly; they add up to ``hem - neck``.

    With one row only there is no row to increase on, and the plan is empty.
    """
    at = rows_to_increase_on(rows, every, until)
    shares = even_shares(hem - neck, len(at)) if at else ()
    return IncreasePlan(start=neck, rows=tuple(zip(at, shares, strict=True)), sections=(neck,))


@dataclass(frozen=True, slots=True)
class _Crowding:
    """No row is more than doubled, and there are rows to increase on."""

    every: float
    needs: frozenset[str] = frozenset({"body.neck", "body.hem", "body.rows"})

    def miss(self, counts: CountColumns) -> Numbers:
        """Increases too many in the fullest of the first two increase rows, where they are most crowded."""
        neck, total = counts["body.neck"], counts["body.hem"] - counts["body.neck"]
        parts = most_increase_rows(counts["body.rows"], self.every)
        shared = np.maximum(parts, 1)
        first, most = (2 * total + shared) // (2 * shared), -(-total // shared)
        crowded = np.maximum(first - neck, most - neck - first)
        return np.where(parts == 0, np.maximum(total, 0), np.maximum(crowded, 0))


def facts(counts: Mapping[str, Linear], settings: Mapping[str, Any], parts: Parts) -> Facts:
    """One size as formulas of its counts."""
    fabric, neck, hem = parts.body, counts["body.neck"], counts["body.hem"]
    depth = Distance(down=length_cm(fabric, counts["body.rows"], ROWS))

    def ways(columns: CountColumns, filled: Numbers, share: Numbers, panel: tuple[Numbers, Numbers]) -> Ways:
        stitches = columns["body.neck"], columns["body.hem"]
        neck_cm, hem_cm = (fabric.length_cm(each, STITCHES) for each in stitches)
        return ways_on_sector(neck_cm, neck_cm + (hem_cm - neck_cm) / filled, depth.at(columns), share, panel)

    return neck_down_facts(
        counts,
        parts,
        hem,
        [
            Demand(
                words="the hem has no fewer stitches than the neck",
                row=at_least(hem, neck),
                cure="{missing} more stitches at the hem, or as many fewer at the neck",
            ),
            Demand(
                words="the body opens to no more than two full circles",
                row=at_least(depth.down * (2 * math.tau), length_cm(fabric, hem - neck, STITCHES)),
                cure="fewer stitches at the hem, or more rows",
                code="FLAT-CIRCLE",
            ),
            Demand(
                words="no row takes more increases than it has stitches",
                row=_Crowding(settings.get("increase_every", 1)),
                cure="more rows, or {missing} fewer stitches at the hem",
                code="COUNT-INCREASE",
            ),
        ],
        line_cm=depth,
        drop=depth,
        ways=ways,
    )


_FEWEST, _MOST = 4, 20
"""Regular increases in one row (common practice, no source)."""


def shapings(
    columns: CountColumns, _: Mapping[str, Any], every: float
) -> tuple[NDArray[np.int64], CountColumns]:
    """Increase rows that share the increases equally, for columns of the other counts."""
    neck, rows = columns["body.neck"], columns["body.rows"]
    total, most = columns["body.hem"] - neck, most_increase_rows(rows, every)
    least = least_increase_rows(rows, every)
    indices: list[NDArray[np.int64]] = []
    untils: list[NDArray[np.int64]] = []
    for fewer in range(int(np.max(most - least, initial=0)) + 1):
        number = most - fewer
        each = np.where(number > 0, total // np.maximum(number, 1), 0)
        regular = (number >= least) & (number > 0) & (each * number == total)
        sized = (each >= _FEWEST) & (each <= _MOST) & (2 * each <= neck) | (total == 0) & (fewer == 0)
        found = np.flatnonzero(regular & sized)
        indices.append(found)
        untils.append(last_increase_row(number, every)[found])
    index, until = np.concatenate(indices), np.concatenate(untils)
    return index, {EVERY: np.full(len(until), every), UNTIL: until}


def _hem(size: Size, step: int, parts: Parts) -> Size | None:
    return with_counts(size, body__hem=size.body.hem + step * whole_repeats(parts.body.stitch_rule, 2))


class Flared(NeckDown):
    """Worked from the neck down with increases spread evenly."""

    word = "flared"
    summary = "worked from the neck down, increases spread evenly"
    body_counts = FlaredBody
    grading = neck_down_grading(
        ("body.hem", "body.hem"), facts, shapings, tuple(each for each in INTERVALS if each == int(each))
    )
    levers = (*NeckDown.levers, hem_lever(most=14, apply=_hem))

    def hem(self, body: FlaredBody) -> int:
        """As counted."""
        return body.hem

    def increases(self, body: FlaredBody) -> IncreasePlan:
        """Spread evenly along each increase row."""
        return increase_plan(body.neck, body.hem, body.rows, body.increase_every, body.increase_until)

    def ending(self, body: FlaredBody) -> Ending | None:
        """Where the increases end."""
        return Ending.of(body.rows, body.increase_every, body.increase_until)

    def with_rows(self, body: FlaredBody, rows: int) -> FlaredBody | None:
        """The hem is as wide as the last row that is left."""
        if rows < 1:
            return None
        hem = body.neck + sum(added for row, added in self.increases(body).rows if row <= rows)
        until = last_row_left(body.increase_every, body.increase_until, rows)
        return body.model_copy(update={"rows": rows, "hem": hem, "increase_until": until})


FLARED = Flared()
