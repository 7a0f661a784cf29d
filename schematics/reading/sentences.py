"""What pydantic reports, put into our own sentences."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails, InitErrorDetails, PydanticCustomError

from schematics.reading.problems import listed, nearest, show_value
from schematics.reading.scalars import core_scalar
from schematics.reading.values import is_number, refuse

_EXPECTED = {
    "int_type": "a whole number",
    "float_type": "a number",
    "finite_number": "a finite number",
    "string_type": "text",
    "bool_type": "true or false",
    "list_type": "a list",
    "dict_type": "a mapping of names to their blocks",
    "too_short": "at least one entry",
    "too_long": "at most {max_length} entries",
    "greater_than": "more than {gt:g}",
    "greater_than_equal": "{ge:g} or more",
    "less_than": "less than {lt:g}",
    "less_than_equal": "{le:g} or less",
    "multiple_of": "a multiple of {multiple_of:g}",
    "literal_error": "{expected}",
    "enum": "{expected}",
}
_DECIMAL_COMMA = "between braces a comma ends a value, so write decimals with a point"

_MOST_LISTED = 12
"""More keys than this are too many for one sentence."""


def explained(model: type[BaseModel], value: Any, error: ValidationError) -> list[InitErrorDetails]:
    """The errors of ``model`` on ``value`` each in the words of `refuse`.

    A key that is missing because it is misspelt is reported once, at the misspelling.
    """
    details = error.errors(include_url=False)
    free = [key for key in model.model_fields if not isinstance(value, dict) or key not in value]
    unknown = [str(each["loc"][-1]) for each in details if each["type"] == "extra_forbidden"]
    misspelt = {key for word in unknown for key in nearest(word, free)[:1]}
    return [
        InitErrorDetails(type=_in_words(model, each, free), loc=each["loc"], input=each["input"])
        for each in details
        if not (_is_missing(each) and each["loc"][-1] in misspelt)
    ]


def _is_missing(detail: ErrorDetails) -> bool:
    """Whether a key of the model itself is missing, not one further in."""
    missing = detail["type"] == "missing" or detail.get("ctx", {}).get("missing", False)
    return missing and len(detail["loc"]) == 1


def _in_words(model: type[BaseModel], detail: ErrorDetails, free: Sequence[str]) -> PydanticCustomError:
    kind, value, figures = detail["type"], detail["input"], detail.get("ctx", {})
    key = str(detail["loc"][-1]) if detail["loc"] else ""
    if kind == "sentence":
        return refuse(**figures)
    if kind == "missing":
        words = model.model_fields[key].description
        return refuse(f"the key {key!r} is missing" + (f": {words}" if words else ""), missing=True)
    if kind == "extra_forbidden":
        cure = _DECIMAL_COMMA if key.isdecimal() and value is None else _keys_there_are(model, key, free)
        return refuse(f"unknown key {show_value(key)}; {cure}", unknown=True)
    if kind == "model_type":
        return refuse(f"expected a mapping with {_keys(model)}, got {show_value(value)}")
    if kind == "value_error":
        return refuse(str(figures["error"]))
    if kind in _EXPECTED:
        expected = _EXPECTED[kind].format(**figures)
        return refuse(f"expected {expected}, got {show_value(value)}{_unquote(kind, value)}")
    return refuse(f"{detail['msg'][:1].lower()}{detail['msg'][1:]}, got {show_value(value)}")


def _keys_there_are(model: type[BaseModel], key: str, free: Sequence[str]) -> str:
    if close := nearest(key, free):
        return f"did you mean {close[0]!r}?"
    keys = list(model.model_fields)
    if len(keys) > _MOST_LISTED:
        return f"there are {len(keys)} keys here, such as {keys[0]!r}; 'schematics schema' lists them all"
    return f"the keys here are {_quoted(keys)}"


def _keys(model: type[BaseModel]) -> str:
    required = [name for name, item in model.model_fields.items() if item.is_required()]
    if not required:
        return f"keys such as {next(iter(model.model_fields))!r}"
    return f"the key{'s' if len(required) > 1 else ''} {_quoted(required)}"


def _quoted(keys: Iterable[str]) -> str:
    return listed([repr(key) for key in keys], "and")


def _unquote(kind: str, value: Any) -> str:
    quoted = kind in ("int_type", "float_type") and isinstance(value, str) and is_number(core_scalar(value))
    return "; write it without quotes" if quoted else ""
