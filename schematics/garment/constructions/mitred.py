"""Mitred: worked from the neck down with lines of increases; laid flat, trapezoids side by side."""

from __future__ import annotations

import bisect
import itertools
import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Annotated, Any, ClassVar

import numpy as np
import shapely
from numpy.typing import NDArray
from pydantic import Field, GetPydanticSchema, ValidationInfo, field_validator
from pydantic_core import core_schema
from shapely import LineString

from schematics.crochet.fabric import Fabric
from schematics.crochet.spacing import even_shares
from schematics.design.design import Parts, Size
from schematics.garment.amounts import CountValues
from schematics.garment.constructions.base import ROWS, STITCHES, Counts, Vertex, Vertices
from schematics.garment.constructions.formulas import Formulas
from schematics.garment.constructions.levers import Nouns, with_counts
from schematics.garment.constructions.mitred_formulas import (
    line_places,
    mitred_formulas,
    mitred_hem,
    shapings,
)
from schematics.garment.constructions.neck_down import NeckDown, hem_lever, last_row_left, neck_of_body
from schematics.garment.constructions.neck_down_formulas import INTERVALS, SHAPING
from schematics.garment.constructions.neck_down_garment import (
    BodyPlan,
    Ending,
    checked_last_row,
    rows_to_increase_on,
)
from schematics.garment.constructions.starting import BodySetting
from schematics.garment.garment import Crease, IncreasePlan
from schematics.wearer.expr import Expr

MOST_LINES = 64
_HAIR = 1e-9
"""Shares of the half hem this near to each other are one place."""

_Sections = Annotated[
    tuple[int, ...],
    GetPydanticSchema(
        lambda _, handler: core_schema.no_info_after_validator_function(
            tuple,
            handler(Annotated[list[Annotated[int, Field(ge=1)]], Field(strict=False)]),
            serialization=core_schema.plain_serializer_function_ser_schema(list),
        )
    ),
]
"""A list in the file, a tuple in the model."""


class MitredBody(Counts):
    """Counts of a mitred body over its whole width, from one front edge to the other."""

    neck: int = Field(ge=2, description="stitches of the first row, at the neck")
    lines: int = Field(
        ge=1, le=MOST_LINES, description="lines of increases; an odd number puts one at centre back"
    )
    rows: int = Field(ge=2, description="rows from neck to hem")
    increase_every: float = Field(
        default=1,
        ge=1,
        description="rows that may have increases: every how many, from row 2 on; 1.5 is two of every three",
    )
    increase_until: int | None = Field(
        default=None, ge=2, description="last row with increases; down to the hem if left out"
    )
    increase_rows: int = Field(ge=1, description="rows with increases, one stitch on each side of every line")
    sections: _Sections | None = Field(
        default=None,
        description="stitches at the neck of each section between the lines, from one front edge to the "
        "other; about equal, with half ones at the front, if left out",
    )

    @field_validator("increase_every")
    @classmethod
    def _whole_rows(cls, every: float) -> float:
        if every == 1.5 or every.is_integer():
            return every if every == 1.5 else int(every)
        raise ValueError(
            f"expected a whole number of rows, or 1.5 for two rows of every three, got {every:g}"
        )

    @field_validator("lines")
    @classmethod
    def _cut_the_neck(cls, lines: int, info: ValidationInfo) -> int:
        neck = info.data.get("neck")
        if neck is not None and neck < lines + 1:
            raise ValueError(
                f"{lines} lines make {lines + 1} sections of at least one stitch, more than the neck "
                f"({neck}) has"
            )
        if neck is not None and lines % 2 and neck % 2:
            raise ValueError(
                f"an odd number of lines ({lines}) puts one at centre back, where it halves the neck, "
                f"which needs an even number of stitches ({neck - 1} or {neck + 1}), got {neck}"
            )
        return lines

    _until = field_validator("increase_until")(checked_last_row)

    @field_validator("increase_rows")
    @classmethod
    def _fit_the_rows(cls, increase_rows: int, info: ValidationInfo) -> int:
        rows, every = info.data.get("rows"), info.data.get("increase_every")
        if rows is None or every is None:
            return increase_rows
        until = info.data.get("increase_until")
        there_are = len(rows_to_increase_on(rows, every, until))
        after = f"row 2 and every {'row' if every == 1 else f'{every} rows'} after it"
        if until is not None and increase_rows != there_are:
            raise ValueError(
                f"{after} down to row {until} (increase_until) make {there_are} increase rows, not "
                f"{increase_rows}"
            )
        if increase_rows > there_are:
            raise ValueError(
                f"{increase_rows} increase rows do not fit into {rows} rows: there {_are(there_are)} to "
                f"increase on, {after}"
            )
        return increase_rows

    @field_validator("sections")
    @classmethod
    def _make_up_the_neck(cls, sections: tuple[int, ...] | None, info: ValidationInfo) -> Any:
        lines, neck = info.data.get("lines"), info.data.get("neck")
        if sections is None or lines is None or neck is None:
            return sections
        if len(sections) != lines + 1:
            raise ValueError(
                f"expected {lines + 1} sections, one more than there are lines ({lines}), got {len(sections)}"
            )
        if sum(sections) != neck:
            raise ValueError(f"the sections add up to {sum(sections)} stitches, the neck has {neck}")
        if sections != sections[::-1]:
            raise ValueError(
                f"the sections ({', '.join(map(str, sections))}) are not the same from either front edge"
            )
        return sections

    @property
    def neck_sections(self) -> tuple[int, ...]:
        """Stitches at the neck of each section, from one front edge to the other."""
        return self.sections or even_sections(self.neck, self.lines)

    @property
    def hem(self) -> int:
        """Stitches of the last row."""
        return self.neck + 2 * self.lines * self.increase_rows


def _are(count: int) -> str:
    return f"{'is' if count == 1 else 'are'} {count}"


def even_sections(neck: int, lines: int) -> tuple[int, ...]:
    """Sections about equal, with half ones next to the front edges, the same from either of them.

    Each line stands at the stitch nearest to its even place, so what is over comes to the centre
    back.

    >>> even_sections(42, 4)
    (5, 11, 10, 11, 5)
    """
    from_front = [0, *line_places(neck, lines)]
    middle = [] if lines % 2 == 0 else [neck // 2]
    places = [*from_front, *middle, *(neck - place for place in reversed(from_front))]
    return tuple(after - before for before, after in itertools.pairwise(places))


def increase_plan(counts: MitredBody) -> IncreasePlan:
    """The increase rows, evenly among rows 2, 2 + ``increase_every``, ...; each line takes two stitches."""
    may = rows_to_increase_on(counts.rows, counts.increase_every, counts.increase_until)
    shares = even_shares(counts.increase_rows, len(may))
    return IncreasePlan(
        start=counts.neck,
        rows=tuple((row, 2 * counts.lines) for row, share in zip(may, shares, strict=True) if share),
        sections=counts.neck_sections,
    )


class _Trapezoids:
    """The right half: trapezoids of one depth side by side, fold on x = 0 downwards from the origin.

    A section grows by ``grow_cm`` towards the hem at each line it lies next to; that side leans by
    ``atan(grow_cm / depth_cm)``, and the two sections next to a line share it.
    """

    def __init__(self, sections: Sequence[int], grow_cm: float, depth_cm: float, fabric: Fabric) -> None:
        lines = len(sections) - 1
        lean = math.atan2(grow_cm, depth_cm)
        widths = [fabric.length_cm(each, STITCHES) for each in sections[(lines + 1) // 2 :]]
        self.depth = depth_cm
        self.opening = 2 * lines * lean
        self.centre: Vertex | None = None
        if lines % 2 == 0:
            widths[0] /= 2
        turn = lean if lines % 2 else 0.0
        self.line_cm = math.hypot(grow_cm, depth_cm)
        self._neck: list[Vertex] = [(0.0, 0.0)]
        self._hem = [self._below(0, self.line_cm if lines % 2 else depth_cm, 0.0)]
        for number, width in enumerate(widths):
            x, y = self._neck[-1]
            self._neck.append((x + width * math.cos(turn), y + width * math.sin(turn)))
            last = number == len(widths) - 1
            self._hem.append(
                self._below(-1, depth_cm, turn) if last else self._below(-1, self.line_cm, turn + lean)
            )
            turn += 2 * lean
        lengths = [math.dist(*pair) for pair in itertools.pairwise(self._hem)]
        self._shares = [0.0, *(each / sum(lengths) for each in itertools.accumulate(lengths))]
        self._shares[-1] = 1.0

    def _below(self, corner: int, length_cm: float, turn: float) -> Vertex:
        """The point that far from a neck corner, straight down turned counter-clockwise by ``turn``."""
        x, y = self._neck[corner]
        return x + length_cm * math.sin(turn), y - length_cm * math.cos(turn)

    @property
    def lines(self) -> list[tuple[Vertex, Vertex]]:
        """The lines of increases on this half, neck to hem, one on the fold among them."""
        corners = list(zip(self._neck, self._hem, strict=True))[:-1]
        return corners if self._hem[0][1] < -self.depth * (1 + _HAIR) else corners[1:]

    @property
    def longest_drop(self) -> float:
        """From the neck edge to the farthest corner of the hem."""
        return float(shapely.distance(LineString(self._neck), shapely.points(self._hem)).max())

    def neck_at(self, share: float) -> Vertex:
        """The point of the neck edge as far along its section as ``share`` is along the section's hem."""
        return self._at(self._neck, share)

    def hem_at(self, share: float) -> Vertex:
        """The point of the hem; stitches lie evenly along it."""
        return self._at(self._hem, share)

    def neck(self, start: float, end: float) -> Vertices:
        """Vertices of the neck edge from share ``start`` to share ``end``."""
        return self._path(self._neck, start, end, ())

    def hem(self, start: float, end: float, through: Sequence[float] = ()) -> Vertices:
        """Vertices of the hem from share ``start`` to share ``end``, ``through`` among them."""
        return self._path(self._hem, start, end, through)

    def _at(self, corners: Sequence[Vertex], share: float) -> Vertex:
        section = min(max(bisect.bisect_right(self._shares, share), 1), len(corners) - 1)
        low, high = self._shares[section - 1], self._shares[section]
        part = (share - low) / (high - low)
        (x0, y0), (x1, y1) = corners[section - 1], corners[section]
        return x0 * (1 - part) + x1 * part, y0 * (1 - part) + y1 * part

    def _path(
        self, corners: Sequence[Vertex], start: float, end: float, through: Sequence[float]
    ) -> Vertices:
        low, high = min(start, end), max(start, end)
        shares = [low]
        for share in sorted([*self._shares, *through]):
            if shares[-1] + _HAIR < share < high - _HAIR:
                shares.append(share)
        shares.append(high)
        if start > end:
            shares.reverse()
        return np.array([self._at(corners, share) for share in shares])


def _line_words(counts: MitredBody) -> str:
    sections = ", ".join(map(str, counts.neck_sections))
    lines = "1 line of increases" if counts.lines == 1 else f"{counts.lines} lines of increases"
    return f"{lines} between sections of {sections} sts"


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
        return shapings(columns, every)

    def increases(self, body: MitredBody) -> IncreasePlan:
        """On both sides of every line."""
        return increase_plan(body)

    def ending(self, body: MitredBody) -> Ending | None:
        """Where the increases end."""
        return Ending.of(body.rows, body.increase_every, body.increase_until)

    def with_rows(self, body: MitredBody, rows: int) -> MitredBody | None:
        """With the increase rows that are left, one at least."""
        increase_rows = sum(row <= rows for row, _ in self.increases(body).rows)
        if rows < 2 or increase_rows < 1:
            return None
        until = last_row_left(body.increase_every, body.increase_until, rows)
        changes = {"rows": rows, "increase_rows": increase_rows, "increase_until": until}
        return body.model_copy(update=changes)

    def plan(self, body: MitredBody, fabric: Fabric) -> BodyPlan:
        """Trapezoids side by side."""
        grow_cm, depth_cm = fabric.length_cm(body.increase_rows, STITCHES), fabric.length_cm(body.rows, ROWS)
        sections, ending = body.neck_sections, self.ending(body)
        shape = _Trapezoids(sections, grow_cm, depth_cm, fabric)
        return BodyPlan(
            shape=shape,
            neck=body.neck,
            hem=body.hem,
            rows=body.rows,
            increases=self.increases(body),
            work=f"worked from the neck down, {_line_words(body)}",
            creases=tuple(Crease(name="increase line", path=LineString(line)) for line in shape.lines),
            ending=ending,
            flare=(
                _Trapezoids(sections, grow_cm * body.rows / ending.widens_rows, depth_cm, fabric)
                if ending
                else None
            ),
        )


MITRED = Mitred()
