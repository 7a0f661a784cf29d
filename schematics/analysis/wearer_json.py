"""A wearer as plain JSON values."""

from __future__ import annotations

from typing import Any

from schematics.document.json_text import number
from schematics.wearer.body import Wearer


def wearer_json(wearer: Wearer) -> dict[str, Any]:
    """The wearer, each length in cm with where it comes from, in the order of `Body`."""
    return {
        "label": wearer.label,
        "stage": wearer.stage.value,
        "age_years": number(wearer.age_years),
        "body": {
            body.value: {
                "cm": number(value.cm),
                "low_cm": number(value.low_cm),
                "high_cm": number(value.high_cm),
                "origin": value.origin.value,
                "source": value.source,
                "borrowed": value.borrowed,
            }
            for body, value in wearer.values.items()
        },
    }
