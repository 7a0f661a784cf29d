"""Flared: worked from the neck down with increases spread evenly; laid flat, a ring sector."""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence
from typing import Any, Self

import numpy as np
from pydantic import Field, model_validator

from schematics.constructions.base import ROWS, STITCHES, Construction, Counts, HemArms
from schematics.constructions.facts import Demand, Facts, Gradable, length_cm
from schematics.constructions.neck_down import NeckDown, Vertex, neck_down_garment
from schematics.constructions.neck_down_facts import ARM_COUNTS, KEYS, SLICES, levers, neck_down_facts
from schematics.design import Parts, Size
from schematics.garment import Garment, IncreasePlan
from schematics.linear import Linear, at_least
from schematics.spacing import even_shares

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

    @model_validator(mode="after")
    def _flares(self) -> Self:
        if self.hem < self.neck:
            raise ValueError(
                f"the hem ({self.hem}) has fewer stitches than the neck ({self.neck}); "
                "a flared body grows from the neck down"
            )
        return self


def increase_plan(neck: int, hem: int, rows: int, every: int) -> IncreasePlan:
    """The increases on rows 2, 2 + ``every``, ..., shared evenly; they add up to ``hem - neck``.

    With one row only there is no row to increase on, and the plan is empty.
    """
    at = range(2, rows + 1, every)
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

    def neck(self, start: float, end: float) -> list[Vertex]:
        """Vertices of the neck edge from share ``start`` to share ``end``."""
        return self._arc(0, start, end)

    def hem(self, start: float, end: float, through: Sequence[float] = ()) -> list[Vertex]:
        """Vertices of the hem from share ``start`` to share ``end``, ``through`` among them."""
        return self._arc(self.depth, start, end, through)

    def _at(self, radial: float, share: float) -> Vertex:
        """The point ``radial`` cm from the neck edge and ``share`` of the half body from the fold."""
        if self._flat:
            return share * self._neck_cm / 2, -radial
        angle = share * self.opening / 2
        radius = self._inner + radial
        return radius * math.sin(angle), self._inner - radius * math.cos(angle)

    def _arc(self, radial: float, start: float, end: float, through: Sequence[float] = ()) -> list[Vertex]:
        low, high = min(start, end), max(start, end)
        knots = sorted({low, high, *(share for share in through if low < share < high)})
        shares = [low]
        for near, far in itertools.pairwise(knots):
            angle = 0.0 if self._flat else (far - near) * self.opening / 2
            pieces = min(_MOST_STEPS, max(1, math.ceil(angle / _STEP)))
            shares += [near + (far - near) * i / pieces for i in range(1, pieces + 1)]
        if start > end:
            shares.reverse()
        if self._flat:
            return [self._at(radial, share) for share in shares]
        angles, radius = np.array(shares) * self.opening / 2, self._inner + radial
        across, down = radius * np.sin(angles), self._inner - radius * np.cos(angles)
        return list(zip(across.tolist(), down.tolist(), strict=True))


def build(size: Size, parts: Parts) -> Garment:
    """One flared size. Closed forms: see `tests/constructions/test_flared.py`."""
    counts: FlaredBody = size.body
    fabric = parts.body
    sector = _Sector(
        fabric.length_cm(counts.neck, STITCHES),
        fabric.length_cm(counts.hem, STITCHES),
        fabric.length_cm(counts.rows, ROWS),
    )
    plan = NeckDown(
        construction="flared",
        shape=sector,
        neck=counts.neck,
        hem=counts.hem,
        rows=counts.rows,
        increases=increase_plan(counts.neck, counts.hem, counts.rows, counts.increase_every),
        work="worked from the neck down",
    )
    return neck_down_garment(size, parts, plan)


def facts(counts: Mapping[str, Linear], _: Mapping[str, Any], parts: Parts) -> Facts:
    """What is linear in the counts of one size."""
    neck, hem = counts["body.neck"], counts["body.hem"]
    depth_cm = length_cm(parts.body, counts["body.rows"], ROWS)
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
                row=at_least(depth_cm * (2 * math.tau), length_cm(parts.body, hem - neck, STITCHES)),
                cure="fewer stitches at the hem, or more rows",
                code="FLAT-CIRCLE",
            ),
        ],
        drop_cm=depth_cm,
        grow_cm=Linear(),
    )


FLARED = Construction(
    word="flared",
    summary="worked from the neck down, increases spread evenly",
    body_counts=FlaredBody,
    arm_counts=HemArms,
    build=build,
    grading=Gradable(
        counts={
            "body.neck": "body.neck",
            "body.hem": "body.hem",
            "body.rows": "body.depth",
            **ARM_COUNTS,
        },
        keys=KEYS,
        facts=facts,
        levers=levers("body.hem", even_increases=True),
        slices=SLICES,
    ),
)
