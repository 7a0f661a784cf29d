"""How well ink is read on a ground, and grounds that are light enough for it."""

from __future__ import annotations

import math
import re

LEAST_CONTRAST = 4.5
"""Of text on its ground (WCAG 2.2, success criterion 1.4.3)."""

COLOUR = re.compile(r"#[0-9A-Fa-f]{6}")
"""How a colour is written: two digits each of red, green and blue."""

BLACK, WHITE = "#000000", "#ffffff"

_LIGHT = 0.5
"""Luminance of the darkest ground: fine black lines still stand out on it (judged by eye)."""

_FLARE = 0.05
"""Of the page, in both luminances of a contrast (WCAG 2.2, definitions)."""


def luminance(colour: str) -> float:
    """Relative luminance of an sRGB colour ``#rrggbb``, 0 to 1 (WCAG 2.2, definitions)."""
    red, green, blue = _linear(colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Of one colour on the other, 1 to 21 (WCAG 2.2, definitions)."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + _FLARE) / (low + _FLARE)


def as_ground(colour: str, ink: str) -> str:
    """The colour, with as much white as it takes to be light and for ``ink`` to be read on it.

    ``ink`` is read on white. Nothing is taken from a colour that is light enough.
    """
    least = max(_LIGHT, LEAST_CONTRAST * (luminance(ink) + _FLARE) - _FLARE)
    is_at = luminance(colour)
    if is_at >= least:
        return colour
    white = (least - is_at) / (1.0 - is_at)
    return f"#{''.join(_digits(part + (1.0 - part) * white) for part in _linear(colour))}"


def _linear(colour: str) -> list[float]:
    """Its red, green and blue as light, each 0 to 1."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    return [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]


def _digits(light: float) -> str:
    """The two digits of a part of a colour that is no darker."""
    part = 12.92 * light if light <= 0.0031308 else 1.055 * light ** (1 / 2.4) - 0.055
    return f"{min(255, math.ceil(255 * part - 1e-6)):02x}"
