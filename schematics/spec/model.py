"""The whole file as it may be written; `resolve` turns it into a design."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, Any, Literal

from pydantic import Field, GetCoreSchemaHandler, GetJsonSchemaHandler, GetPydanticSchema, ValidationError
from pydantic_core import InitErrorDetails, core_schema

from schematics.constructions import Construction
from schematics.constructions.base import Counts
from schematics.spec.blocks import (
    LARGEST_COUNT,
    BandBlock,
    Block,
    FabricBlock,
    PanelBlock,
    PartsBlock,
    YarnBlock,
)
from schematics.spec.problems import show_value
from schematics.spec.rules import LIMITS_BLOCK, WEARER_BLOCK, LimitRules, WearerRules
from schematics.spec.sentences import explained
from schematics.spec.values import Amount, Context, Text, ValueInContext, refuse
from schematics.spec.words import ChartRow, ConstructionWord, Date, SizeName, UnitWord
from schematics.spec.yarn_use import YarnUseBlock
from schematics.units import Unit

MOST_SIZES = 60


@dataclass(frozen=True, slots=True)
class CountsOf(ValueInContext):
    """A block of counts, as the file's construction has it."""

    pick: Callable[[Construction], type[Counts]]

    def read(self, value: Any, context: Context) -> Counts | None:
        """The counts; None where the construction itself is wrong."""
        if context.construction is None:
            return None
        model = self.pick(context.construction)
        found: list[InitErrorDetails] = []
        counts = None
        try:
            counts = model.model_validate(value)
        except ValidationError as error:
            found = explained(model, value, error)
        found += [
            InitErrorDetails(
                type=refuse(f"expected {LARGEST_COUNT} or less, got {show_value(count)}"),
                loc=(key,),
                input=count,
            )
            for key, count in (value.items() if isinstance(value, dict) else ())
            if key in model.model_fields and type(count) is int and count > LARGEST_COUNT
        ]
        if found:
            raise ValidationError.from_exception_data(model.__name__, found)
        return counts

    def schema(self) -> dict[str, Any]:
        """Any mapping; what it holds depends on the construction."""
        return {"type": "object"}


class WearerOf:
    """Marks a wearer: a chart row alone, or a mapping."""

    def __get_pydantic_core_schema__(self, _: Any, handler: GetCoreSchemaHandler) -> core_schema.CoreSchema:
        return core_schema.no_info_before_validator_function(self._as_mapping, handler(WEARER_BLOCK))

    def __get_pydantic_json_schema__(
        self, schema: core_schema.CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return {"anyOf": [ChartRow().schema(), handler(schema)]}

    @staticmethod
    def _as_mapping(value: Any) -> Any:
        if isinstance(value, str):
            return {"chart": value}
        if not isinstance(value, dict):
            raise refuse(
                "expected a chart row such as 'child/4', or a mapping of measurements, "
                f"got {show_value(value)}"
            )
        return value


class SizeBlock(Block):
    """One size: whom it is for, and its counts."""

    wearer: Annotated[WearerRules, WearerOf()] = Field(
        description="a chart row such as child/4, or a mapping of chart, age and measurements"
    )
    body: Annotated[Any, CountsOf(lambda construction: construction.body_counts)] = Field(
        description="counts of the body"
    )
    arms: Annotated[Any, CountsOf(lambda construction: construction.arm_counts)] = Field(
        description="where the arm bands are worked"
    )
    panel: PanelBlock = Field(description="stitches and rows of the centre panel")
    neck_band: BandBlock = Field(description="depth of the neck band in stitches")
    arm_bands: BandBlock = Field(description="depth of the arm bands in stitches")


class DesignBlock(Block):
    """One design in all its sizes."""

    title: Annotated[str, Text()] = Field(description="the design's name as printed")
    date: Annotated[datetime.date, Date()] | None = Field(
        default=None, description="day of the spec, as 2026-09-14"
    )
    unit: Annotated[Unit, UnitWord()] = Field(description="unit of lengths written without one, cm or in")
    construction: Annotated[str, ConstructionWord()] = Field(description="how the body is built")
    yarn: YarnBlock = Field(description="the yarn's name, and what is known of it")
    yarn_use: YarnUseBlock | None = Field(
        default=None, description="how yarn is counted: margin, seams, tails, colours"
    )
    terms: Literal["US", "UK"] = Field(
        default="US", description="whose stitch names the pattern's figures use; a spec itself is in US terms"
    )
    hook: Annotated[float, Amount("mm", 1, 40)] | None = Field(default=None, description="hook in mm")
    fabrics: dict[Annotated[str, Text(40)], FabricBlock] = Field(
        min_length=1, description="every fabric by a name of your own"
    )
    parts: PartsBlock = Field(description="which fabric each part is worked in")
    limits: Annotated[LimitRules, GetPydanticSchema(lambda _, handler: handler(LIMITS_BLOCK))] | None = Field(
        default=None, description="limits of the checks that replace the usual ones"
    )
    sizes: dict[Annotated[str, SizeName(MOST_SIZES)], SizeBlock] = Field(
        min_length=1, description="every size by its name, smallest first"
    )
