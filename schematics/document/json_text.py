"""Values as JSON: rounded once, always finite, the same bytes every time."""

from __future__ import annotations

import itertools
import json
import math
from collections.abc import Iterable, Iterator
from enum import Enum
from typing import Any

DECIMALS = 3
_AT_ONCE = 10_000


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
    """The same text bit by bit, for one that is long."""
    chunks = json.JSONEncoder(indent=2, ensure_ascii=False, allow_nan=False).iterencode(document)
    while part := "".join(itertools.islice(chunks, _AT_ONCE)):
        yield part
    yield "\n"
