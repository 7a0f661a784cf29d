"""What every block of a spec has in common."""

from __future__ import annotations

from typing import Annotated, Any, Self

from pydantic import BaseModel, ConfigDict, Field, ModelWrapValidatorHandler, ValidationError, model_validator

from schematics.reading.sentences import explained

LARGEST_COUNT = 2_000

Count = Annotated[int, Field(ge=1, le=LARGEST_COUNT)]
"""Stitches or rows of a part."""
Extra = Annotated[int, Field(ge=0, le=LARGEST_COUNT)]
"""Stitches or rows besides the repeats."""


class SpecBlock(BaseModel):
    """A mapping of the file: no unknown keys, no silent conversions, errors in plain sentences."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)

    @model_validator(mode="wrap")
    @classmethod
    def _explain(cls, value: Any, handler: ModelWrapValidatorHandler[Self]) -> Self:
        try:
            return handler(value)
        except ValidationError as error:
            details = explained(cls, value, error)
            raise ValidationError.from_exception_data(cls.__name__, details) from None
