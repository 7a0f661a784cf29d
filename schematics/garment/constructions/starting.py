"""What a construction says for a spec that is started from a swatch: what it asks, and how it is to fit."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from typing import TypeAlias

from schematics.units import Unit

_PLAIN_VALUE = re.compile(r"-?[0-9][0-9./ %]*(cm|mm|in)?")

StartIntent: TypeAlias = tuple[str, str, str]
"""The key of a finished measurement, what is intended for it as YAML, and a comment."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BodySetting:
    """A whole number of the ``body:`` block that grading cannot find, so it is asked for."""

    key: str
    ask: str
    hint: str
    usual: str
    low: int
    high: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """A measured value as it is written in the spec, and in centimetres."""

    text: str
    cm: float

    @property
    def yaml(self) -> str:
        """The text, in quotes where YAML needs them."""
        return self.text if _PLAIN_VALUE.fullmatch(self.text) else json.dumps(self.text, ensure_ascii=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class WishedFit:
    """How a new design is to fit: ``fullness`` is slim, usual or full."""

    unit: Unit
    fullness: str
    below_waist: Written
    panel_width: Written

    def text(self, length_cm: float) -> str:
        """A length for the spec: to a millimetre or a quarter of an inch, without its unit."""
        if self.unit is Unit.IN:
            return f"{round(self.unit.from_cm(length_cm) * 4) / 4:g}"
        return f"{round(length_cm, 1):g}"


def of_body(measure: str, *, part: str = "", ease: str = "") -> str:
    """An intent that follows a body measurement."""
    keys = {"measure": measure, "part": part, "ease": ease}
    return f"{{{', '.join(f'{key}: {value}' for key, value in keys.items() if value)}}}"
