"""Flared: worked from the neck down with increases spread evenly; laid flat, a ring sector."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Self

import numpy as np
from numpy.typing import NDArray
from pydantic import Field, field_validator, model_validator

from schematics.crochet.spacing import even_shares
from schematics.design.design import Parts
from schematics.garment.amounts import Count, CountValues, Numbers
from schematics.garment.constructions.base import Counts
from schematics.garment.constructions.demands import COUNT_INCREASE, Demand, at_least
from schematics.garment.constructions.levers import body_repeats, shifted
from schematics.garment.constructions.neck_down.neck_down import NeckDown, hem_lever, last_row_left
from schematics.garment.constructions.neck_down.neck_down_formulas import (
    EVERY,
    INTERVALS,
    NECK,
    SHAPING,
    UNTIL,
    last_increase_row,
    least_increase_rows,
    most_increase_rows,
)
from schematics.garment.constructions.neck_down.neck_down_garment import (
    LastIncreaseRow,
    NeckStitches,
    checked_last_row,
    rows_to_increase_on,
)
from schematics.garment.increases import IncreasePlan
from schematics.wearer.expr import Expr

HEM = Count("body.hem")


class FlaredBody(Counts):
    """Counts of a flared body over its whole width, from one front edge to the other."""

    neck: NeckStitches
    hem: int = Field(ge=2, description="stitches of the last row, at the hem")
    rows: int = Field(ge=1, description="rows from neck to hem")
    increase_every: int = Field(
        default=1, ge=1, description="rows from one row with increases to the next, from row 2 on"
    )
    increase_until: LastIncreaseRow = None

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

    def miss(self, counts: CountValues) -> Numbers:
        """Increases too many in the fullest of the first two increase rows, where they are most crowded."""
        neck, total = counts["body.neck"], counts["body.hem"] - counts["body.neck"]
        parts = most_increase_rows(counts["body.rows"], self.every)
        shared = np.maximum(parts, 1)
        first, most = (2 * total + shared) // (2 * shared), -(-total // shared)
        crowded = np.maximum(first - neck, most - neck - first)
        return np.where(parts == 0, np.maximum(total, 0), np.maximum(crowded, 0))


_FEWEST, _MOST = 4, 20
"""Regular increases in one row (common practice, no source)."""


class Flared(NeckDown):
    """Worked from the neck down with increases spread evenly."""

    word = "flared"
    summary = "worked from the neck down, with increases spread evenly"
    body_counts = FlaredBody
    shaping = SHAPING
    intervals = tuple(each for each in INTERVALS if each == int(each))
    levers = (*NeckDown.levers, hem_lever(most=14, apply=shifted(body__hem=body_repeats(2))))

    def hem(self, settings: Mapping[str, Any]) -> Expr:
        """The hem's own count: a spec gives it."""
        return HEM

    def demands(self, parts: Parts, settings: Mapping[str, Any]) -> tuple[Demand, ...]:
        """The body grows, to no more than two full circles, and no row is crowded."""
        return (
            Demand(
                words="the hem has no fewer stitches than the neck",
                kept=at_least(HEM, NECK),
                cure="{missing} more stitches at the hem, or as many fewer at the neck",
            ),
            *super().demands(parts, settings),
            Demand(
                words="no row takes more increases than it has stitches",
                kept=_Crowding(settings.get("increase_every", 1)),
                cure="more rows, or {missing} fewer stitches at the hem",
                code=COUNT_INCREASE,
            ),
        )

    def shapings(
        self, columns: CountValues, settings: Mapping[str, Any], every: float
    ) -> tuple[NDArray[np.int64], CountValues]:
        """Increase rows that share the increases equally."""
        neck, rows = columns["body.neck"], columns["body.rows"]
        total, most = columns["body.hem"] - neck, most_increase_rows(rows, every)
        least = np.maximum(1, least_increase_rows(rows, every))
        level = np.flatnonzero((total == 0) & (most > 0))
        indices, numbers = [level], [most[level]]
        able = np.flatnonzero((total >= _FEWEST * least) & (total <= _MOST * most))
        neck, total, fewest, largest = neck[able], total[able], least[able], most[able]
        for each in range(_FEWEST, _MOST + 1):
            number = total // each
            places = np.flatnonzero(
                (number * each == total) & (number >= fewest) & (number <= largest) & (2 * each <= neck)
            )
            indices.append(able[places])
            numbers.append(number[places])
        index, number = np.concatenate(indices), np.concatenate(numbers)
        order = np.lexsort((index, most[index] - number))
        index, until = index[order], last_increase_row(number[order], every)
        return index, {EVERY: np.full(len(until), every), UNTIL: until}

    def increases(self, body: FlaredBody) -> IncreasePlan:
        """Spread evenly along each increase row."""
        return increase_plan(body.neck, body.hem, body.rows, body.increase_every, body.increase_until)

    def with_rows(self, body: FlaredBody, rows: int) -> FlaredBody | None:
        """The hem is as wide as the last row that is left."""
        if rows < 1:
            return None
        hem = body.neck + sum(added for row, added in self.increases(body).rows if row <= rows)
        until = last_row_left(body.increase_every, body.increase_until, rows)
        return body.model_copy(update={"rows": rows, "hem": hem, "increase_until": until})


FLARED = Flared()
