"""The measured values of a spec, and text: each is read, and refused, in its own words."""

from __future__ import annotations

import math
import re
from abc import ABC, abstractmethod
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import PydanticCustomError, core_schema

from schematics.document.contrast import COLOUR
from schematics.document.lettering.text import unlettered
from schematics.garment.constructions import Construction
from schematics.reading.problems import show_value
from schematics.reading.spellings import (
    EXPECTED_AGE,
    EXPECTED_LENGTH,
    LENGTH_PATTERN,
    parse_age,
    parse_length,
)
from schematics.units import Unit

_LONGEST_LENGTH = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class Context:
    """What a value depends on in the rest of the file; None where that part is itself wrong.

    Files that it names are looked for in its ``folder``, where one is given. ``graded`` says whether
    the file may leave counts to be found.
    """

    unit: Unit | None
    folder: Path | None = None
    construction: Construction | None = None
    fabrics: tuple[str, ...] | None = None
    colours: tuple[str, ...] | None = None
    sizes: tuple[str, ...] = ()
    graded: bool = False
    first_by_folder: Mapping[str, str] = field(default_factory=dict)
    first_surplus_size: str | None = None


@dataclass(frozen=True, slots=True)
class Shorthand:
    """Marks a block that may be written as one value alone: how that reads as a mapping, and its schema."""

    block: Any
    as_mapping: Callable[[Any], Any]
    alone: dict[str, Any]

    def __get_pydantic_core_schema__(self, _: Any, handler: GetCoreSchemaHandler) -> core_schema.CoreSchema:
        return core_schema.no_info_before_validator_function(self.as_mapping, handler(self.block))

    def __get_pydantic_json_schema__(
        self, schema: core_schema.CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return {"anyOf": [self.alone, handler(schema)]}


def refuse(sentence: str, **more: Any) -> PydanticCustomError:
    """The error that says ``sentence`` and nothing else."""
    return PydanticCustomError("sentence", "{sentence}", {"sentence": sentence, **more})


class _Annotation(ABC):
    @abstractmethod
    def schema(self) -> dict[str, Any]:
        """What the file may hold, as JSON Schema."""

    def __get_pydantic_json_schema__(
        self, _: core_schema.CoreSchema, __: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return self.schema()


class ValueKind(_Annotation):
    """A kind of value that can be read by itself; to be put into an `Annotated` type."""

    @abstractmethod
    def read(self, value: Any) -> Any:
        """The value as the program uses it.

        Raises:
            PydanticCustomError: it is not allowed; `refuse` makes it.
        """

    def __get_pydantic_core_schema__(self, _: Any, __: GetCoreSchemaHandler) -> core_schema.CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)


class ValueInContext(_Annotation):
    """A kind of value that depends on the rest of the file; to be put into an `Annotated` type."""

    @abstractmethod
    def read(self, value: Any, context: Context) -> Any:
        """The value as the program uses it.

        Raises:
            PydanticCustomError: it is not allowed; `refuse` makes it.
        """

    def __get_pydantic_core_schema__(self, _: Any, __: GetCoreSchemaHandler) -> core_schema.CoreSchema:
        return core_schema.with_info_plain_validator_function(
            lambda value, info: self.read(value, info.context)
        )


@dataclass(frozen=True, slots=True)
class LengthValue(ValueInContext):
    """A length between two bounds in centimetres; ``bare`` is the unit of a number without one.

    Where ``bare`` is None such a number is in the file's unit.
    """

    low_cm: float
    high_cm: float
    bare: Unit | None = None

    def read(self, value: Any, context: Context) -> float:
        """The length in cm.

        Raises:
            PydanticCustomError: it is no length, or out of bounds.
        """
        unit = self.bare or context.unit
        length_cm = self._centimetres(value, unit or Unit.CM)
        if unit is None and is_number(value):
            return length_cm
        if not self.low_cm <= length_cm <= self.high_cm:
            raise refuse(
                f"expected a length from {self.low_cm:g} to {self.high_cm:g} cm, "
                f"got {_in_words(value, length_cm, unit)}",
                length_cm=length_cm,
            )
        return length_cm

    def _centimetres(self, value: Any, unit: Unit) -> float:
        if is_number(value) and math.isfinite(value):
            return float(unit.to_cm(value))
        if not isinstance(value, str) or len(value) > _LONGEST_LENGTH:
            raise refuse(f"{EXPECTED_LENGTH}, got {show_value(value)}")
        try:
            return parse_length(value, unit)
        except ValueError as error:
            raise refuse(str(error)) from None

    def schema(self) -> dict[str, Any]:
        """A number, or text with a unit."""
        return {
            "anyOf": [{"type": "number", "minimum": 0}, {"type": "string", "pattern": LENGTH_PATTERN}],
            "examples": ["20 cm", "8 1/2 in"],
        }


@dataclass(frozen=True, slots=True)
class AgeValue(ValueKind):
    """An age: a number of years, or text such as ``18 months``."""

    oldest_years: float

    def read(self, value: Any) -> float:
        """The age in years.

        Raises:
            PydanticCustomError: it is no age, or out of bounds.
        """
        years = self._years(value)
        if not 0 <= years <= self.oldest_years:
            raise refuse(f"expected an age of 0 to {self.oldest_years:g} years, got {show_value(value)}")
        return years

    def _years(self, value: Any) -> float:
        if is_number(value) and math.isfinite(value):
            return float(value)
        if not isinstance(value, str) or len(value) > _LONGEST_LENGTH:
            raise refuse(f"{EXPECTED_AGE}, got {show_value(value)}")
        try:
            return parse_age(value)
        except ValueError as error:
            raise refuse(str(error)) from None

    def schema(self) -> dict[str, Any]:
        """A number, or text."""
        number = {"type": "number", "minimum": 0, "maximum": self.oldest_years}
        return {"anyOf": [number, {"type": "string"}], "examples": [6, "18 months"]}


def is_number(value: Any) -> bool:
    """Whether a value of the file is a number; true and false are none."""
    return isinstance(value, int | float) and not isinstance(value, bool)


def _in_words(value: Any, length_cm: float, unit: Unit | None) -> str:
    if isinstance(value, str):
        return f"{show_value(value)}, that is {length_cm:.5g} cm"
    return f"{value:.5g} cm" if unit is Unit.CM else f"{value:.5g} in, that is {length_cm:.5g} cm"


def _number(value: Any, unit: str) -> float:
    """A number, or text of one with its unit; not a number (NaN) for anything else."""
    if is_number(value):
        return float(value)
    pattern = rf"\s*(-?[0-9]{{1,9}}(?:\.[0-9]{{1,12}})?)\s*{unit}\s*"
    match = re.fullmatch(pattern, value) if isinstance(value, str) else None
    return float(match[1]) if match else math.nan


def _number_schema(low: float, high: float, sign: str, unit: str) -> dict[str, Any]:
    text = {"type": "string", "pattern": rf"^\s*{sign}[0-9]+(\.[0-9]+)?\s*{unit}\s*$"}
    return {"anyOf": [{"type": "number", "minimum": low, "maximum": high}, text]}


@dataclass(frozen=True, slots=True)
class Fraction(ValueKind):
    """A fraction, written as a number or in per cent."""

    low: float
    high: float

    def read(self, value: Any) -> float:
        """The plain number: 0.15 for ``15 %``.

        Raises:
            PydanticCustomError: it is no fraction, or out of bounds.
        """
        fraction = _number(value, "%") / (100 if isinstance(value, str) else 1)
        if not self.low <= fraction <= self.high:
            example = max(self.low, 0.15)
            raise refuse(
                f"expected a fraction from {self.low:g} to {self.high:g}, such as {example:g} or "
                f"'{100 * example:g} %', got {show_value(value)}"
            )
        return fraction

    def schema(self) -> dict[str, Any]:
        """A number, or text ending in a per cent sign."""
        return {**_number_schema(self.low, self.high, "-?", "%"), "examples": [0.15, "15 %"]}


@dataclass(frozen=True, slots=True)
class Amount(ValueKind):
    """A number that may carry its one unit, such as ``9`` or ``9 mm``."""

    unit: str
    low: float
    high: float

    def read(self, value: Any) -> float:
        """The number without its unit.

        Raises:
            PydanticCustomError: it is no number in that unit, or out of bounds.
        """
        amount = _number(value, self.unit)
        if not self.low <= amount <= self.high:
            raise refuse(f"expected {self.low:g} to {self.high:g} {self.unit}, got {show_value(value)}")
        return amount

    def schema(self) -> dict[str, Any]:
        """A number, or text with the unit."""
        return _number_schema(self.low, self.high, "", self.unit)


@dataclass(frozen=True, slots=True)
class Whole(ValueKind):
    """A whole number between two bounds."""

    low: int
    high: int

    def read(self, value: Any) -> int:
        """The number as it stands.

        Raises:
            PydanticCustomError: it is not whole, or out of bounds.
        """
        if type(value) is int and self.low <= value <= self.high:
            return value
        raise refuse(f"expected a whole number from {self.low} to {self.high}, got {show_value(value)}")

    def schema(self) -> dict[str, Any]:
        """An integer."""
        return {"type": "integer", "minimum": self.low, "maximum": self.high}


LETTERS = "Latin, Greek, Cyrillic, Armenian or Georgian letters"
"""What the lettering of the sheets has."""


def letter_fault(text: str) -> str:
    """Which character of a text no sheet can show; empty if they can show it all."""
    sign = unlettered(text)
    return sign and f"the lettering of the sheets has no {sign!r} (U+{ord(sign):04X}); use {LETTERS}"


class ColourValue(ValueKind):
    """A colour as ``#rrggbb``."""

    def read(self, value: Any) -> str:
        """The colour as ``#rrggbb``, in small letters.

        Raises:
            PydanticCustomError: it is no such colour.
        """
        if not isinstance(value, str) or not COLOUR.fullmatch(value):
            raise refuse(f"expected a colour in quotes, such as '#1f5f6b', got {show_value(value)}")
        return value.lower()

    def schema(self) -> dict[str, Any]:
        """Text."""
        return {"type": "string", "pattern": f"^{COLOUR.pattern}$"}


@dataclass(frozen=True, slots=True)
class TextValue(ValueKind):
    """One line of text that can be printed."""

    longest: int = 80

    def read(self, value: Any) -> str:
        """The text as it stands.

        Raises:
            PydanticCustomError: it is no text, empty, too long, or no sheet can show it.
        """
        if is_number(value) or isinstance(value, bool):
            raise refuse(f"expected text, got {show_value(value)}; put it in quotes")
        if not isinstance(value, str):
            raise refuse(f"expected text, got {show_value(value)}")
        if not value.strip() or len(value) > self.longest or not value.isprintable():
            raise refuse(
                f"expected one line of 1 to {self.longest} printable characters, got {show_value(value)}"
            )
        if fault := letter_fault(value):
            raise refuse(fault)
        return value

    def schema(self) -> dict[str, Any]:
        """Text of that length."""
        return {"type": "string", "minLength": 1, "maxLength": self.longest}
