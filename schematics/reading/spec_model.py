"""The whole file as it may be written; `resolve` turns it into a design."""

from __future__ import annotations

import datetime
from typing import Annotated, Any, Literal

from pydantic import Field, GetPydanticSchema

from schematics.reading.blocks import MOST_FABRICS, FabricBlock, PartsBlock, YarnBlock
from schematics.reading.border_block import Borders
from schematics.reading.count_blocks import BLOCKS, LEFT_OUT, CountsOf
from schematics.reading.grading_block import GradingBlock
from schematics.reading.hook_value import HookValue
from schematics.reading.listed_blocks import LIMITS_BLOCK, WEARER_BLOCK, LimitRules, WearerRules
from schematics.reading.problems import show_value
from schematics.reading.publication_block import PublicationBlock
from schematics.reading.spec_block import SpecBlock
from schematics.reading.spec_words import ConstructionWord, Date, SizeName, UnitWord, WearerReference
from schematics.reading.values import Shorthand, TextValue, refuse
from schematics.reading.yarn_block import YarnUseBlock
from schematics.units import Unit

MOST_SIZES = 60


def _wearer_mapping(value: Any) -> Any:
    if isinstance(value, str):
        return {"chart": value}
    if not isinstance(value, dict):
        raise refuse(
            f"expected a chart row such as 'child/4', or a mapping of measurements, got {show_value(value)}"
        )
    return value


def _counts(key: str) -> Any:
    return Field(default_factory=lambda: LEFT_OUT, validate_default=True, description=BLOCKS[key])


class SizeBlock(SpecBlock):
    """One size: whom it is for, and its counts."""

    wearer: Annotated[WearerRules, Shorthand(WEARER_BLOCK, _wearer_mapping, WearerReference().schema())] = (
        Field(description="a chart row such as child/4, or a mapping of chart, age and measurements")
    )
    body: Annotated[Any, CountsOf("body")] = _counts("body")
    arms: Annotated[Any, CountsOf("arms")] = _counts("arms")
    panel: Annotated[Any, CountsOf("panel")] = _counts("panel")
    neck_band: Annotated[Any, CountsOf("neck_band")] = _counts("neck_band")
    arm_bands: Annotated[Any, CountsOf("arm_bands")] = _counts("arm_bands")


class DesignBlock(SpecBlock):
    """One design in all its sizes."""

    title: Annotated[str, TextValue()] = Field(description="the design's name as printed")
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
    hook: Annotated[float, HookValue()] | None = Field(
        default=None, description="hook of every fabric without one of its own, as 8 mm or US L/11"
    )
    fabrics: dict[Annotated[str, TextValue(40)], FabricBlock] = Field(
        min_length=1, max_length=MOST_FABRICS, description="every fabric by a name of your own"
    )
    parts: PartsBlock = Field(description="which fabric each part is worked in")
    borders: Borders = Field(
        default={}, description="rows of the body in a stitch pattern of their own, by a name of your own"
    )
    neck_ties: bool = Field(
        default=False, description="true if the neck has cords, ties, a drawstring or tassels"
    )
    limits: Annotated[LimitRules, GetPydanticSchema(lambda _, handler: handler(LIMITS_BLOCK))] | None = Field(
        default=None, description="limits of the checks that replace the usual ones"
    )
    pattern: PublicationBlock | None = Field(
        default=None, description="what the written pattern says besides its figures: designer, seam, care"
    )
    grading: GradingBlock | None = Field(
        default=None, description="how the design should fit; counts the sizes leave out are found"
    )
    sizes: dict[Annotated[str, SizeName(MOST_SIZES)], SizeBlock] = Field(
        min_length=1, description="every size by its name, smallest first"
    )
