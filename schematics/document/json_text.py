"""Values as JSON: rounded once, always finite, the same bytes every time."""

from __future__ import annotations

import itertools
import json
import math
from collections.abc import Iterable, Iterator, Mapping
from enum import Enum
from typing import Any

DECIMALS = 3
_AT_ONCE = 1_000
_PLAIN = json.JSONEncoder(ensure_ascii=False, allow_nan=False)
_string = json.encoder.encode_basestring


def number(value: float | None) -> float | int | None:
    """The value to `DECIMALS`; a whole number stays one, what is not finite becomes null."""
    if value is None or isinstance(value, int):
        return value
    return round(value, DECIMALS) + 0.0 if math.isfinite(value) else None


def picked(item: object, keys: Iterable[str], **values: Any) -> dict[str, Any]:
    """Plain JSON values under the keys: those given, else the attributes of the item of those names.

    A key of a list may end in ``[]``, as where keys are explained.
    """
    names = (key.removesuffix("[]") for key in keys)
    return {name: _plain(values[name] if name in values else getattr(item, name)) for name in names}


def _plain(value: Any) -> Any:
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, tuple):
        return list(value)
    return number(value) if isinstance(value, float) else value


def as_text(document: Any) -> str:
    """The document as the text of a JSON file."""
    return "".join(in_parts(document))


def in_parts(document: Any) -> Iterator[str]:
    """The same text bit by bit, for one that is long; a value of it may be an iterator of those of a list."""
    chunks = _chunks(document, "\n")
    while part := "".join(itertools.islice(chunks, _AT_ONCE)):
        yield part
    yield "\n"


def _chunks(value: Any, end: str) -> Iterator[str]:
    """The text of a value, of what an iterator gives one after another; ``end`` starts its last line."""
    inner = end + "  "
    if isinstance(value, Mapping) and any(isinstance(each, Iterator) for each in value.values()):
        between = "{"
        for key, each in value.items():
            yield f"{between}{inner}{_string(key)}: "
            yield from _chunks(each, inner)
            between = ","
        yield f"{end}}}"
    elif isinstance(value, Iterator):
        between = "["
        for each in value:
            yield f"{between}{inner}{_text(each, inner)}"
            between = ","
        yield "[]" if between == "[" else f"{end}]"
    else:
        yield _text(value, end)


def _text(value: Any, end: str) -> str:
    """The text of a plain value."""
    if value is None:
        return "null"
    if isinstance(value, str):
        return _string(value)
    if value == []:
        return "[]"
    inner = end + "  "
    if value and isinstance(value, list | tuple):
        return f"[{','.join([inner + _text(each, inner) for each in value])}{end}]"
    if value and isinstance(value, Mapping):
        members = [f"{inner}{_string(key)}: {_text(each, inner)}" for key, each in value.items()]
        return f"{{{','.join(members)}{end}}}"
    return _PLAIN.encode(value)
