"""Mitred: worked from the neck down with lines of increases; laid flat, trapezoids side by side."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, ClassVar

import numpy as np
from numpy.typing import NDArray

from schematics.crochet.fabric import Fabric
from schematics.crochet.spacing import even_shares
from schematics.design.design import Parts, Size
from schematics.garment.amounts import CountValues
from schematics.garment.constructions.base import ROWS, STITCHES
from schematics.garment.constructions.by_hand import HandSheet
from schematics.garment.constructions.formulas import Formulas
from schematics.garment.constructions.levers import Nouns, with_counts
from schematics.garment.constructions.mitred.mitred_by_hand import mitred_paths, mitred_shape
from schematics.garment.constructions.mitred.mitred_counts import MitredBody
from schematics.garment.constructions.mitred.mitred_formulas import (
    mitred_formulas,
    mitred_hem,
)
from schematics.garment.constructions.mitred.mitred_shape import Trapezoids
from schematics.garment.constructions.neck_down.neck_down import (
    NeckDown,
    hem_lever,
    last_row_left,
    neck_of_body,
)
from schematics.garment.constructions.neck_down.neck_down_formulas import (
    EVERY,
    INTERVALS,
    SHAPING,
    UNTIL,
    last_increase_row,
    least_increase_rows,
)
from schematics.garment.constructions.neck_down.neck_down_garment import rows_to_increase_on
from schematics.garment.constructions.neck_down.shape import Shape
from schematics.garment.constructions.starting import BodySetting
from schematics.garment.garment import IncreasePlan
from schematics.wearer.expr import Expr


def _neck(size: Size, step: int, parts: Parts) -> Size | None:
    """Sections that are given add up to the neck, so it stays as it is."""
    return None if size.body.sections else neck_of_body(size, step, parts)


def _increase_rows(size: Size, step: int, _: Parts) -> Size | None:
    body = size.body
    until = body.increase_until and body.increase_until + step * body.increase_every
    return with_counts(size, body__increase_rows=body.increase_rows + step, body__increase_until=until)


class Mitred(NeckDown):
    """Worked from the neck down with lines of increases."""

    word = "mitred"
    summary = "worked from the neck down, increases in lines"
    body_counts = MitredBody
    shaping = SHAPING
    intervals = INTERVALS
    settings = (
        BodySetting(
            key="lines", ask="Lines of increases", hint="an odd number puts one at centre back", usual="4",
            low=1, high=40,
        ),
    )  # fmt: skip
    levers = (
        *(replace(each, apply=_neck) if each.key == "body.neck" else each for each in NeckDown.levers),
        hem_lever(most=5, apply=_increase_rows),
    )
    nouns: ClassVar[Nouns] = {
        **NeckDown.nouns,
        "body.increase_rows": ("row with increases", "rows with increases"),
    }

    def hem(self, settings: Mapping[str, Any]) -> Expr:
        """Two stitches more than the neck for every line and increase row."""
        return mitred_hem(settings["lines"])

    def formulas(self, parts: Parts, settings: Mapping[str, Any]) -> Formulas:
        """Of trapezoids side by side."""
        return mitred_formulas(parts, settings)

    def shapings(
        self, columns: CountValues, settings: Mapping[str, Any], every: float
    ) -> tuple[NDArray[np.int64], CountValues]:
        """The last increase row, where the rows fill enough of the body."""
        number, rows = columns["body.increase_rows"], columns["body.rows"]
        until = last_increase_row(number, every)
        index = np.flatnonzero((until <= rows) & (number >= least_increase_rows(rows, every)))
        return index, {EVERY: np.full(len(index), every), UNTIL: until[index]}

    def increases(self, body: MitredBody) -> IncreasePlan:
        """Evenly among rows 2, 2 + ``increase_every``, ...; a stitch on both sides of every line."""
        may = rows_to_increase_on(body.rows, body.increase_every, body.increase_until)
        shares = even_shares(body.increase_rows, len(may))
        return IncreasePlan(
            start=body.neck,
            rows=tuple((row, 2 * body.lines) for row, share in zip(may, shares, strict=True) if share),
            sections=body.neck_sections,
        )

    def with_rows(self, body: MitredBody, rows: int) -> MitredBody | None:
        """With the increase rows that are left, one at least."""
        increase_rows = sum(row <= rows for row, _ in self.increases(body).rows)
        if rows < 2 or increase_rows < 1:
            return None
        until = last_row_left(body.increase_every, body.increase_until, rows)
        changes = {"rows": rows, "increase_rows": increase_rows, "increase_until": until}
        return body.model_copy(update=changes)

    def shape_by_hand(self, sheet: HandSheet) -> None:
        """Lean, opening angle and area."""
        mitred_shape(sheet)

    def paths_by_hand(self, sheet: HandSheet) -> None:
        """Leg by leg, round the corners of the neck."""
        mitred_paths(sheet)

    def shape(self, body: MitredBody, fabric: Fabric, widens_rows: float) -> Shape:
        """Trapezoids side by side."""
        grow_cm, depth_cm = fabric.length_cm(body.increase_rows, STITCHES), fabric.length_cm(body.rows, ROWS)
        return Trapezoids(body.neck_sections, grow_cm * (body.rows / widens_rows), depth_cm, fabric)

    def work(self, body: MitredBody) -> str:
        """With its lines, and the stitches between them."""
        sections = ", ".join(map(str, body.neck_sections))
        lines = "1 line of increases" if body.lines == 1 else f"{body.lines} lines of increases"
        return f"worked from the neck down, {lines} between sections of {sections} sts"


MITRED = Mitred()
