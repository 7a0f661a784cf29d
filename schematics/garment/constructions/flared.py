"""Flared: worked from the neck down with increases spread evenly; laid flat, a ring sector."""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Self

import numpy as np
from numpy.typing import NDArray
from pydantic import Field, field_validator, model_validator

from schematics.crochet.spacing import even_shares
from schematics.design.design import Parts, Size
from schematics.garment.constructions.base import (
    ROWS,
    STITCHES,
    Construction,
    Counts,
    HemArms,
    Vertex,
    Vertices,
)
from schematics.garment.constructions.facts import Demand, Distance, Facts, Ways, length_cm
from schematics.garment.constructions.neck_down import (
    Ending,
    NeckDown,
    checked_last_row,
    neck_down_garment,
    rows_to_increase_on,
)
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
from schematics.garment.constructions.ways import ways_on_sector
from schematics.garment.garment import Garment, IncreasePlan
from schematics.garment.linear import Counts as CountColumns
from schematics.garment.linear import Linear, Numbers, at_least

_STEP = 0.02
"""Largest angle between two vertices of an arc, in radians: its length falls 2e-5 short."""
_MOST_STEPS = 1000
"""Between two places of an arc. Three times round the centre takes fewer, and fabric that goes farther cannot
be drawn: there the steps grow larger."""


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


class _Sector:
    """A ring sector about the fold, origin at the neck's centre back, fold along x = 0 downwards.

    An opening angle of nought is a rectangle.
    """

    def __init__(self, neck_cm: float, hem_cm: float, depth_cm: float) -> None:
        self.depth = depth_cm
        self.opening = (hem_cm - neck_cm) / depth_cm
        self._neck_cm = neck_cm
        self._flat = math.isclose(neck_cm, hem_cm, rel_tol=1e-12)
        self._inner = math.inf if self._flat else neck_cm / self.opening

    @property
    def centre(self) -> Vertex | None:
        """Centre of both arcs; None where they are straight."""
        return None if self._flat else (0.0, self._inner)

    @property
    def longest_drop(self) -> float:
        """The depth: both edges are arcs about one centre."""
        return self.depth

    def neck_at(self, share: float) -> Vertex:
        """The point of the neck edge."""
        return self._at(0, share)

    def hem_at(self, share: float) -> Vertex:
        """The point of the hem."""
        return self._at(self.depth, share)

    def neck(self, start: float, end: float) -> Vertices:
        """Vertices of the neck edge from share ``start`` to share ``end``."""
        return self._arc(0, start, end)

    def hem(self, start: float, end: float, through: Sequence[float] = ()) -> Vertices:
        """Vertices of the hem from share ``start`` to share ``end``, ``through`` among them."""
        return self._arc(self.depth, start, end, through)

    def _at(self, radial: float, share: float) -> Vertex:
        """The point ``radial`` cm from the neck edge and ``share`` of the half body from the fold."""
        if self._flat:
            return share * self._neck_cm / 2, -radial
        angle = share * self.opening / 2
        radius = self._inner + radial
        return radius * math.sin(angle), self._inner - radius * math.cos(angle)

    def _arc(self, radial: float, start: float, end: float, through: Sequence[float] = ()) -> Vertices:
        low, high = min(start, end), max(start, end)
        knots = sorted({low, high, *(share for share in through if low < share < high)})
        stretches: list[Vertices] = [np.array([low])]
        for near, far in itertools.pairwise(knots):
            angle = 0.0 if self._flat else (far - near) * self.opening / 2
            pieces = min(_MOST_STEPS, max(1, math.ceil(angle / _STEP)))
            stretches.append(near + (far - near) * np.arange(1, pieces + 1) / pieces)
        shares = np.concatenate(stretches)[:: -1 if start > end else 1]
        vertices = np.empty((len(shares), 2))
        if self._flat:
            vertices[:, 0], vertices[:, 1] = shares * self._neck_cm / 2, -radial
            return vertices
        angles, radius = shares * self.opening / 2, self._inner + radial
        vertices[:, 0], vertices[:, 1] = radius * np.sin(angles), self._inner - radius * np.cos(angles)
        return vertices


def build(size: Size, parts: Parts) -> Garment:
    """One flared size. Closed forms: see `tests/garment/constructions/test_flared.py`."""
    counts: FlaredBody = size.body
    fabric = parts.body
    neck_cm, hem_cm = fabric.length_cm(counts.neck, STITCHES), fabric.length_cm(counts.hem, STITCHES)
    depth_cm = fabric.length_cm(counts.rows, ROWS)
    until = counts.increase_every, counts.increase_until
    ending = Ending.of(counts.rows, *until)
    plan = NeckDown(
        construction="flared",
        shape=_Sector(neck_cm, hem_cm, depth_cm),
        neck=counts.neck,
        hem=counts.hem,
        rows=counts.rows,
        increases=increase_plan(counts.neck, counts.hem, counts.rows, *until),
        work="worked from the neck down",
        ending=ending,
        flare=(
            _Sector(neck_cm, neck_cm + (hem_cm - neck_cm) * counts.rows / ending.widens_rows, depth_cm)
            if ending
            else None
        ),
    )
    return neck_down_garment(size, parts, plan)


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


FLARED = Construction(
    word="flared",
    summary="worked from the neck down, increases spread evenly",
    body_counts=FlaredBody,
    arm_counts=HemArms,
    build=build,
    grading=neck_down_grading(
        ("body.hem", "body.hem"), facts, shapings, tuple(each for each in INTERVALS if each == int(each))
    ),
)
