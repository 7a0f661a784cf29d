"""Values as JSON: rounded once, always finite, the same bytes every time."""

from __future__ import annotations

import itertools
import json
import math
from collections.abc import Iterator
from typing import Any

DECIMALS = 3
_AT_ONCE = 10_000


def number(value: float | None) -> float | int | None:
    """The value to `DECIMALS`; a whole number stays one, what is not finite becomes null."""
    if value is None or isinstance(value, int):
        return value
    return round(value, DECIMALS) + 0.0 if math.isfinite(value) else None


def as_text(document: Any) -> str:
    """The document as the text of a JSON file."""
    return "".join(in_parts(document))


def in_parts(document: Any) -> Iterator[str]:
    """The same text bit by bit, for one that is long."""
    found = json.JSONEncoder(indent=2, ensure_ascii=False, allow_nan=False).iterencode(document)
    while part := "".join(itertools.islice(found, _AT_ONCE)):
        yield part
    yield "\n"
