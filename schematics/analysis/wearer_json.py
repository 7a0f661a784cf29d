"""A wearer as plain JSON values."""

from __future__ import annotations

from typing import Any

from schematics.analysis.json_keys import VALUE
from schematics.document.json_text import picked
from schematics.wearer.body import Wearer


def wearer_json(wearer: Wearer) -> dict[str, Any]:
    """The wearer, each length in cm with where it comes from, in the order of `Body`."""
    body = {body.value: picked(value, VALUE) for body, value in wearer.values.items()}
    return {**picked(wearer, ("label", "stage", "age_years")), "body": body}
