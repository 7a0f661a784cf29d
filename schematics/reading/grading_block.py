"""The block of a spec that says how the design should fit, for grading to find the counts."""

from __future__ import annotations

from typing import Annotated, Any, Literal, Self

from pydantic import Field, model_validator

from schematics.design.limits import TOLERANCE_WORDS
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.grading.draft import DEFAULT_MIND, DEFAULT_STEPS, LONGEST_MEANT_CM, Intent
from schematics.reading.problems import hint, show_value
from schematics.reading.spec_block import SpecBlock
from schematics.reading.spec_words import NameInFile
from schematics.reading.values import (
    Context,
    LengthValue,
    Shorthand,
    ValueInContext,
    ValueKind,
    is_number,
    refuse,
)
from schematics.wearer.body import Body


class IntentKey(ValueInContext):
    """The key of a finished measurement that an intent can be stated for."""

    def read(self, value: Any, context: Context) -> str:
        """The key of the measurement.

        Raises:
            PydanticCustomError: no measurement of such a body that follows from its counts has it.
        """
        if context.construction is None:
            return str(value)
        if value not in context.construction.keys:
            raise refuse(
                f"a {context.construction.word} body has no measurement {show_value(value)} that follows "
                f"from its counts; {hint(str(value), context.construction.keys)}"
            )
        return str(value)

    def schema(self) -> dict[str, Any]:
        """Any key of any construction."""
        keys = {key for each in CONSTRUCTIONS.values() for key in each.keys}
        return {"type": "string", "enum": sorted(keys)}


class BodyWord(ValueKind):
    """The name of a body measurement."""

    def read(self, value: Any) -> Body:
        """The body measurement of that name.

        Raises:
            PydanticCustomError: there is none.
        """
        if value not in list(Body):
            words = [body.value for body in Body]
            raise refuse(f"there is no body measurement {show_value(value)}; {hint(str(value), words)}")
        return Body(value)

    def schema(self) -> dict[str, Any]:
        """One of them."""
        return {"enum": [body.value for body in Body]}


class Ease(ValueInContext):
    """A length that may be negative."""

    _size = LengthValue(0, 100)

    def read(self, value: Any, context: Context) -> float:
        """The length in cm, negative after a minus."""
        if isinstance(value, str) and value.strip().startswith("-"):
            return -self._size.read(value.strip()[1:], context)
        if is_number(value) and value < 0:
            return -self._size.read(-value, context)
        return self._size.read(value, context)

    def schema(self) -> dict[str, Any]:
        """A number, or text with a unit."""
        _, text = self._size.schema()["anyOf"]
        return {
            "anyOf": [
                {"type": "number"},
                {**text, "pattern": text["pattern"].replace(r"^\s*", r"^\s*-?", 1)},
            ],
            "examples": ["6 cm", "-2 cm"],
        }


class IntentBlock(SpecBlock):
    """How long a finished measurement should be, from the wearer's body or from the sample."""

    measure: Annotated[Body, BodyWord()] | None = Field(
        default=None, description="body measurement it follows, such as head_girth"
    )
    part: Annotated[float, Field(gt=0, le=20, allow_inf_nan=False)] = Field(
        default=1.0, description="how much of the body measurement, such as 0.3"
    )
    ease: Annotated[float, Ease()] = Field(default=0.0, description="added to it; may be negative")
    like_sample: Annotated[Body, BodyWord()] | None = Field(
        default=None, description="as long as on the sample, in proportion to this body measurement"
    )
    length: Annotated[float, LengthValue(0.1, LONGEST_MEANT_CM)] | None = Field(
        default=None, description="the length itself; it may also stand alone, without a mapping"
    )

    @model_validator(mode="after")
    def _says_one_thing(self) -> Self:
        given = [self.measure is not None, self.like_sample is not None, self.length is not None]
        if sum(given) != 1:
            raise ValueError(
                "expected a length such as '30 cm', or one of the keys 'measure' and 'like_sample', "
                f"got {'several' if any(given) else 'none'} of them"
            )
        if self.measure is None and self.model_fields_set & {"part", "ease"}:
            raise ValueError("the keys 'part' and 'ease' go with the key 'measure' only")
        return self

    def intent(self, line: int) -> Intent:
        """The intent the program uses."""
        return Intent(
            line=line,
            length_cm=self.length,
            measure=self.measure or self.like_sample,
            part=self.part,
            ease_cm=self.ease,
            like_sample=self.like_sample is not None,
        )


def _intent_mapping(value: Any) -> Any:
    return value if isinstance(value, dict) else {"length": value}


_INTENT = Shorthand(IntentBlock, _intent_mapping, LengthValue(0, 0).schema())


class GradingBlock(SpecBlock):
    """How the design should fit; the counts the sizes leave out are found."""

    intent: dict[Annotated[str, IntentKey()], Annotated[IntentBlock, _INTENT]] = Field(
        min_length=1, description="how long each finished measurement should be, by its key"
    )
    sample: Annotated[str, NameInFile("size")] | None = Field(
        default=None, description="the size whose counts the sample was made with"
    )
    weights: dict[Annotated[str, IntentKey()], Annotated[float, Field(ge=0, le=100, allow_inf_nan=False)]] = (
        Field(default={}, description="how much a centimetre off each intent matters; 1 if left out")
    )
    steps: Annotated[float, Field(ge=0, le=10, allow_inf_nan=False)] = Field(
        default=DEFAULT_STEPS,
        description="how much a centimetre of uneven step between sizes matters beside one off an intent",
    )
    mind: Annotated[float, Field(ge=0, le=100, allow_inf_nan=False)] = Field(
        default=DEFAULT_MIND,
        description="how much a centimetre past the limit of a finding to mind matters",
    )
    tolerance: dict[Annotated[str, IntentKey()], Annotated[float, LengthValue(0.1, LONGEST_MEANT_CM)]] = (
        Field(
            default={},
            description=f"how far off an intent may be, by its key; {TOLERANCE_WORDS}, if left out",
        )
    )
    increases: Literal["regular", "exact"] = Field(
        default="regular",
        description="regular: on every so many rows equally many, said in one line; exact: an even taper",
    )
