"""Mitred: worked from the neck down with lines of increases; laid flat, trapezoids side by side."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any, ClassVar

import numpy as np
from numpy.typing import NDArray

from schematics.crochet.fabric import Fabric
from schematics.crochet.spacing import even_shares
from schematics.design.design import Parts, Size
from schematics.garment.amounts import ROWS, STITCHES, CountValues, Formula, Laid, Measure, Numbers, slope
from schematics.garment.constructions.by_hand import HandSheet
from schematics.garment.constructions.demands import (
    COUNT_INCREASE,
    TWO_CIRCLES,
    CountRange,
    Demand,
    at_least,
    within_two_circles,
)
from schematics.garment.constructions.formulas import Formulas
from schematics.garment.constructions.levers import Nouns, with_counts
from schematics.garment.constructions.mitred.mitred_by_hand import mitred_paths, mitred_shape
from schematics.garment.constructions.mitred.mitred_counts import GROWTH, MitredBody, line_places
from schematics.garment.constructions.mitred.mitred_shape import (
    Trapezoids,
    opening_of_trapezoids,
    paths_on_trapezoids,
)
from schematics.garment.constructions.neck_down.neck_down import (
    NECK_OF_BODY,
    NeckDown,
    hem_lever,
    last_row_left,
)
from schematics.garment.constructions.neck_down.neck_down_formulas import (
    BODY_ROWS,
    EVERY,
    INTERVALS,
    NECK,
    SHAPING,
    UNTIL,
    last_increase_row,
    least_increase_rows,
    neck_down_formulas,
)
from schematics.garment.constructions.neck_down.neck_down_garment import rows_to_increase_on
from schematics.garment.constructions.neck_down.shape import Shape
from schematics.garment.constructions.panel_formulas import PanelCm
from schematics.garment.constructions.path_formulas import ArmPaths
from schematics.garment.constructions.starting import BodySetting
from schematics.garment.increases import IncreasePlan
from schematics.wearer.expr import Expr, node


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
        code=COUNT_INCREASE,
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
    lean = TWO_CIRCLES / (2 * lines)
    if lean < math.pi / 2:
        yield within_two_circles(
            at_least(Laid(BODY_ROWS, ROWS, parts.body) * math.tan(lean), Laid(GROWTH, STITCHES, parts.body)),
            "fewer rows with increases, or more rows",
        )


def _neck(size: Size, step: int, parts: Parts) -> Size | None:
    """Sections that are given add up to the neck, so it stays as it is."""
    return None if size.body.sections else NECK_OF_BODY(size, step, parts)


def _increase_rows(size: Size, step: int, _: Parts) -> Size | None:
    body = size.body
    number = body.increase_rows + step
    until = body.increase_until and int(last_increase_row(number, body.increase_every))
    return with_counts(size, body__increase_rows=number, body__increase_until=until)


class Mitred(NeckDown):
    """Worked from the neck down with lines of increases."""

    word = "mitred"
    summary = "worked from the neck down, with increases in lines"
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
        return NECK + 2 * node(settings["lines"]) * GROWTH

    def formulas(self, parts: Parts, settings: Mapping[str, Any]) -> Formulas:
        """The formulas of a body that is laid flat trapezoids side by side."""
        lines, fabric = settings["lines"], parts.body
        grow, depth = Formula(Laid(GROWTH, STITCHES, fabric)), Formula(Laid(BODY_ROWS, ROWS, fabric))

        def arm_paths(columns: CountValues, filled: Numbers, share: Numbers, panel: PanelCm) -> ArmPaths:
            return paths_on_trapezoids(
                [fabric.length_cm(each, STITCHES) for each in _half_sections(columns["body.neck"], settings)],
                grow.at(columns) / filled,
                depth.at(columns),
                share,
                panel,
                line_at_fold=lines % 2 == 1,
            )

        def opening(columns: CountValues, filled: Numbers) -> Numbers:
            return opening_of_trapezoids(lines, grow.at(columns) / filled, depth.at(columns))

        return neck_down_formulas(
            parts,
            self.hem(settings),
            tuple(_demands(settings, parts)),
            arm_paths,
            opening,
            hem_words="the neck, and a stitch on both sides of every line on every increase row",
            graded_by="body.increase_rows",
            line=Measure(
                slope(grow.expr, depth.expr), key="body.line", name="increase line, neck to hem",
                source="what a section grows by at a line, and the depth", finished=True,
            ),
            line_at_back=lines % 2 == 1,
        )  # fmt: skip

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
        """The counts down to that row, with the increase rows that are left, one at least."""
        increase_rows = sum(row <= rows for row, _ in self.increases(body).rows)
        if rows < 2 or increase_rows < 1:
            return None
        until = last_row_left(body.increase_every, body.increase_until, rows)
        changes = {"rows": rows, "increase_rows": increase_rows, "increase_until": until}
        return body.model_copy(update=changes)

    def shape_by_hand(self, sheet: HandSheet) -> None:
        """Lean, opening angle and area."""
        mitred_shape(sheet)

    def paths_by_hand(self, sheet: HandSheet) -> Iterator[Measure]:
        """Leg by leg, round the corners of the neck."""
        return mitred_paths(sheet)

    def shape(self, body: MitredBody, hem: int, fabric: Fabric, widens_rows: float) -> Shape:
        """The flat shape, trapezoids side by side."""
        grow_cm, depth_cm = fabric.length_cm(body.increase_rows, STITCHES), fabric.length_cm(body.rows, ROWS)
        widths_cm = [fabric.length_cm(each, STITCHES) for each in _half_sections(body.neck, dict(body))]
        return Trapezoids(
            widths_cm, grow_cm * (body.rows / widens_rows), depth_cm, line_at_fold=body.lines % 2 == 1
        )

    def work(self, body: MitredBody) -> str:
        """How the body is worked, with its lines, and the stitches between them."""
        sections = ", ".join(map(str, body.neck_sections))
        lines = "1 line of increases" if body.lines == 1 else f"{body.lines} lines of increases"
        return f"worked from the neck down, {lines} between sections of {sections} sts"


MITRED = Mitred()
