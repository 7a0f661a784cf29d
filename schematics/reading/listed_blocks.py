"""The blocks whose keys are listed elsewhere: body measurements and limits."""

from __future__ import annotations

from typing import Annotated, Any, Self

from pydantic import Field, create_model, model_validator

from schematics.design.limits import LIMIT_FIELDS, Limits
from schematics.reading.spec_block import SpecBlock
from schematics.reading.spec_words import WearerReference
from schematics.reading.values import AgeValue, Fraction, LengthValue, ValueInContext, ValueKind
from schematics.units import Unit
from schematics.wearer.body import Body
from schematics.wearer.resolve import OLDEST_AGE_YEARS


class WearerRules(SpecBlock):
    """Whom a size is for: a chart row, an age, own measurements, or several of these."""

    chart: Annotated[str, WearerReference()] | None = Field(
        default=None,
        description="row of a size chart or age table, which serves many; without one it is one person",
    )
    age: Annotated[float, AgeValue(OLDEST_AGE_YEARS)] | None = Field(default=None, description="age in years")

    @model_validator(mode="after")
    def _says_something(self) -> Self:
        if not self.model_dump(exclude_none=True):
            raise ValueError("expected a chart row, an age or at least one measurement, got none")
        if self.chart and self.chart.startswith("age/") and self.age is not None:
            raise ValueError(f"the row {self.chart!r} gives an age already; leave out the key 'age'")
        return self

    def own(self) -> dict[Body, float]:
        """The wearer's own measurements in centimetres."""
        values = self.model_dump(exclude_none=True)
        return {body: values[body.value] for body in Body if body.value in values}


class LimitRules(SpecBlock):
    """Limits that replace the usual ones."""

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        limits = self.limits()
        for low, high in (
            ("seam_mind_fraction", "seam_stop_fraction"),
            ("seam_mind_row_fraction", "seam_stop_row_fraction"),
            ("arm_rest_low_fraction", "arm_rest_high_fraction"),
        ):
            least, most = getattr(limits, low), getattr(limits, high)
            if least > most:
                raise ValueError(f"{low} ({least:g}) is above {high} ({most:g})")
        return self

    def limits(self) -> Limits:
        """The usual limits with these in their place."""
        return Limits(**self.model_dump(exclude_none=True))


def _with_fields(
    name: str, base: type[SpecBlock], kinds: dict[str, tuple[ValueKind | ValueInContext, str]]
) -> Any:
    fields: dict[str, Any] = {
        key: (Annotated[float, kind] | None, Field(default=None, description=words))
        for key, (kind, words) in kinds.items()
    }
    return create_model(name, __base__=base, __doc__=base.__doc__, **fields)


WEARER_BLOCK: type[WearerRules] = _with_fields(
    "WearerBlock",
    WearerRules,
    {
        body.value: (LengthValue(30, 250) if body is Body.HEIGHT else LengthValue(3, 200), body.words)
        for body in Body
    },
)


def _limit_value(between: tuple[float, float], length: bool) -> LengthValue | Fraction:
    return LengthValue(*between, bare=Unit.CM) if length else Fraction(*between)


LIMITS_BLOCK: type[LimitRules] = _with_fields(
    "LimitsBlock",
    LimitRules,
    {
        name: (
            _limit_value(item.metadata["between"], item.metadata["length"]),
            f"{item.metadata['words']} (usually {item.default:g})",
        )
        for name, item in LIMIT_FIELDS.items()
    },
)
