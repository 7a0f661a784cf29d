"""The block of a stitch pattern: how its counts repeat, its own stitches, its chart."""

from __future__ import annotations

from typing import Annotated, Any, Self

from pydantic import Field, ValidationError, ValidationInfo, field_validator, model_validator

from schematics.crochet.fabric import CountRule, RowRule
from schematics.reading.chart_block import ChartBlock, OwnStitches, chart_errors
from schematics.reading.problems import show_value
from schematics.reading.spec_block import Count, Extra, SpecBlock
from schematics.reading.values import TextValue, refuse


class MultipleBlock(SpecBlock):
    """The stitch counts the pattern allows: ``of`` times any number, plus ``plus``; or one count exactly."""

    of: Count | None = Field(default=None, description="stitches in one repeat")
    plus: Extra = Field(default=0, description="stitches besides the repeats")
    exactly: Count | None = Field(
        default=None, description="the only count allowed, in place of the others: a motif without a repeat"
    )

    @field_validator("of", "exactly", mode="before")
    @classmethod
    def _not_empty(cls, value: Any) -> Any:
        if value is None:
            raise refuse(f"expected a whole number, got {show_value(value)}")
        return value

    @model_validator(mode="after")
    def _repeats_or_not(self) -> Self:
        if self.exactly is None and self.of is None:
            raise refuse(
                "the key 'of' is missing: stitches in one repeat; or 'exactly' where nothing repeats"
            )
        if self.exactly is not None and (self.of is not None or self.plus):
            raise refuse("'exactly' allows one count alone; delete it, or 'of' and 'plus'")
        return self

    def rule(self) -> CountRule:
        """The rule the program uses."""
        if self.of is None:
            return CountRule.exactly(self.exactly or 1)
        return CountRule(multiple=self.of, plus=self.plus)


class RowRepeatBlock(SpecBlock):
    """The row counts the pattern allows: set-up, repeats, closing."""

    rows: Count = Field(description="rows in one repeat")
    setup: Extra = Field(default=0, description="rows before the first repeat")
    closing: Extra = Field(default=0, description="rows after the last repeat")

    def rule(self) -> RowRule:
        """The rule the program uses."""
        return RowRule(setup=self.setup, repeat=self.rows, closing=self.closing)


class PatternBlock(SpecBlock):
    """A stitch pattern, without the gauge it is worked at."""

    stitch: Annotated[str, TextValue()] = Field(description="the stitch's name, in US terms")
    multiple: MultipleBlock | None = Field(default=None, description="stitch multiple; any count if left out")
    row_repeat: RowRepeatBlock | None = Field(default=None, description="row repeat; any count if left out")
    stitches: OwnStitches = Field(
        default={}, description="stitches of your own, by abbreviation, for the chart"
    )
    chart: ChartBlock | None = Field(
        default=None, description="the stitch pattern row by row, to be drawn as a stitch chart"
    )

    @field_validator("chart")
    @classmethod
    def _fits(cls, value: ChartBlock | None, info: ValidationInfo) -> ChartBlock | None:
        if value is None or not {"multiple", "row_repeat", "stitches"} <= info.data.keys():
            return value
        multiple, repeat = info.data["multiple"], info.data["row_repeat"]
        rules = multiple and multiple.rule(), repeat and repeat.rule()
        errors = list(chart_errors(value, info.data["stitches"], *rules))
        if errors:
            raise ValidationError.from_exception_data(cls.__name__, errors)
        return value
