"""The counts of a mitred body, each held against those it depends on."""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from typing import Annotated, Any

from pydantic import Field, GetPydanticSchema, ValidationInfo, field_validator
from pydantic_core import core_schema

from schematics.garment.amounts import Count
from schematics.garment.constructions.base import CountInWords, Counts
from schematics.garment.constructions.neck_down.neck_down_garment import (
    LastIncreaseRow,
    NeckStitches,
    checked_last_row,
    rows_to_increase_on,
)

GROWTH = Count("body.increase_rows")
"""Rows with increases; a section grows by a stitch at each line it lies next to, so they are stitches too."""

MOST_LINES = 64
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

    neck: NeckStitches
    lines: int = Field(
        ge=1, le=MOST_LINES, description="lines of increases; an odd number puts one at centre back"
    )
    rows: int = Field(ge=2, description="rows from neck to hem")
    increase_every: float = Field(
        default=1,
        ge=1,
        description="rows from one that may have increases to the next, from row 2 on; "
        "1.5 is two of every three",
    )
    increase_until: LastIncreaseRow = None
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
                f"{after}, row {until} the last of them, make {there_are} increase rows, not {increase_rows}"
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

    @property
    def in_words(self) -> Mapping[str, CountInWords]:
        """The hem, by its rows with increases."""
        why = "each row with increases makes a stitch on both sides of every line"
        return {
            "hem": CountInWords(key="body.increase_rows", now=self.hem, each=2 * self.lines, why=why),
        }


def _are(count: int) -> str:
    return f"{'is' if count == 1 else 'are'} {count}"


def line_places(neck: Any, lines: int) -> list[Any]:
    """Stitches from the front edge to each line from there to centre back; of one neck or of a column."""
    return [(neck * (2 * line - 1) + lines) // (2 * lines) for line in range(1, lines // 2 + 1)]


def even_sections(neck: int, lines: int) -> tuple[int, ...]:
    """Sections about equal, with half ones next to the front edges, the same from either of them.

    Each line is at the stitch nearest to its even place, so what is over comes to the centre
    back.

    >>> even_sections(42, 4)
    (5, 11, 10, 11, 5)
    """
    from_front = [0, *line_places(neck, lines)]
    middle = [] if lines % 2 == 0 else [neck // 2]
    places = [*from_front, *middle, *(neck - place for place in reversed(from_front))]
    return tuple(after - before for before, after in itertools.pairwise(places))
