"""The blocks of counts in a size; grading finds what they leave out."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any

from pydantic import Field, ValidationError, create_model
from pydantic_core import InitErrorDetails

from schematics.garment.constructions import Construction
from schematics.garment.constructions.base import Counts
from schematics.reading.problems import show_value
from schematics.reading.sentences import explained
from schematics.reading.spec_block import LARGEST_COUNT, Count
from schematics.reading.values import Context, ValueInContext, refuse


class PanelCounts(Counts):
    """Counts of the centre panel."""

    stitches: Count = Field(description="stitches across the panel")
    rows: Count = Field(description="rows up the panel")


class BandCounts(Counts):
    """Depth of a band, which is worked sideways; its length follows from the edge it joins."""

    stitches: Count = Field(description="stitches in each ribbing row, the depth of the band")


LEFT_OUT: Any = object()
"""In place of a block that is not in the file."""

BLOCKS = {
    "body": "counts of the body",
    "arms": "where the arm bands are worked",
    "panel": "stitches and rows of the centre panel",
    "neck_band": "depth of the neck band in stitches",
    "arm_bands": "depth of the arm bands in stitches",
}
"""What each block of a size holds."""
_OR_GRADED = ", unless a grading: block says how each size should fit and its counts are to be found"

_SHARED: dict[str, type[Counts]] = {"panel": PanelCounts, "neck_band": BandCounts, "arm_bands": BandCounts}


def models(construction: Construction) -> dict[str, type[Counts]]:
    """The model of each block, as the construction has it."""
    return {"body": construction.body_counts, "arms": construction.arm_counts, **_SHARED}


@dataclass(frozen=True, slots=True)
class CountsOf(ValueInContext):
    """A block of counts; where the file has a grading block, the counts that can be found may be missing."""

    key: str

    def read(self, value: Any, context: Context) -> Counts | None:
        """The counts; None where the construction itself is wrong.

        Raises:
            PydanticCustomError: the block is missing though nothing finds its counts, or is wrong.
        """
        construction = context.construction
        if value is LEFT_OUT and construction and not context.graded:
            words = BLOCKS[self.key] + (_OR_GRADED if self.key == "body" else "")
            raise refuse(f"the key {self.key!r} is missing: {words}", missing=True)
        model = models(construction)[self.key] if construction else _SHARED.get(self.key)
        if model is None or (value is LEFT_OUT and construction is None):
            return None
        value = {} if value is LEFT_OUT else value
        if context.graded and construction and isinstance(value, dict):
            free = frozenset(set(findable(self.key, model, construction)) - value.keys())
            model = without(model, free) if free else model
        return self._validated(model, value)

    def _validated(self, model: type[Counts], value: Any) -> Counts | None:
        errors: list[InitErrorDetails] = []
        counts = None
        try:
            counts = model.model_validate(value)
        except ValidationError as error:
            errors = explained(model, value, error)
        errors += [
            InitErrorDetails(
                type=refuse(f"expected {LARGEST_COUNT} or less, got {show_value(count)}"),
                loc=(key,),
                input=count,
            )
            for key, count in (value.items() if isinstance(value, dict) else ())
            if key in model.model_fields
            and type(count) is int
            and count > LARGEST_COUNT
            and (key,) not in {each["loc"] for each in errors}
        ]
        if errors:
            raise ValidationError.from_exception_data(model.__name__, errors)
        return counts

    def schema(self) -> dict[str, Any]:
        """Any mapping; what it holds depends on the construction."""
        return {"type": "object"}


def findable(key: str, model: type[Counts], construction: Construction) -> list[str]:
    """The keys of a block that grading can find."""
    return [name for name in model.model_fields if f"{key}.{name}" in construction.counts]


@cache
def without(model: type[Counts], free: frozenset[str]) -> type[Counts]:
    """The model without some of its counts, and so without what it asks of them together."""
    fields: dict[str, Any] = {
        name: (Annotated[info.annotation, *info.metadata] if info.metadata else info.annotation, info)
        for name, info in model.model_fields.items()
        if name not in free
    }
    fields |= {
        name: (None, Field(default=None, description=model.model_fields[name].description)) for name in free
    }
    return create_model(model.__name__, __base__=Counts, __doc__=model.__doc__, **fields)
