"""How well ink is read on a ground, and grounds that are light enough for it."""

from __future__ import annotations

import colorsys
import math
import re
from functools import cache

from schematics.units import NEAR

LEAST_CONTRAST = 4.5
"""Of text on its ground (WCAG 2.2, success criterion 1.4.3)."""

COLOUR = re.compile(r"#[0-9A-Fa-f]{6}")
"""How a colour is written: two digits each of red, green and blue."""

BLACK, WHITE = "#000000", "#ffffff"

_LIGHT = 0.5
"""Luminance of the darkest ground: fine black lines still stand out on it (judged by eye)."""

_STEPS = 200
"""On the way from a colour to white, of which the first is taken that is light enough."""

_FLARE = 0.05
"""Of the page, in both luminances of a contrast (WCAG 2.2, definitions)."""


def luminance(colour: str) -> float:
    """Relative luminance of an sRGB colour ``#rrggbb``, 0 to 1 (WCAG 2.2, definitions)."""
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in _parts(colour)
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """The contrast of one colour on the other, 1 to 21 (WCAG 2.2, definitions)."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + _FLARE) / (low + _FLARE)


@cache
def as_ground(colour: str, ink: str) -> str:
    """The colour, in its hue and saturation so light that it is a ground and ``ink`` is read on it.

    ``ink`` is read on white. A colour that is light enough stays as it is.
    """
    least = max(_LIGHT, LEAST_CONTRAST * (luminance(ink) + _FLARE) - _FLARE)
    hue, lightness, saturation = colorsys.rgb_to_hls(*_parts(colour))
    ground = colour
    for step in range(_STEPS + 1):
        if luminance(ground) >= least:
            break
        lighter = lightness + (1.0 - lightness) * step / _STEPS
        ground = _written(colorsys.hls_to_rgb(hue, lighter, saturation))
    return ground


def ordered_grounds(count: int) -> tuple[str, ...]:
    """So many greys on which black is read, each a step darker than the one before, in steps of one size.

    The first is a step darker than white, the last as dark as a ground may be. Equal steps of sRGB look
    nearly equal: within a tenth they are equal in lightness (CIE 1976 L*).
    """
    darkest, _, _ = _parts(as_ground(BLACK, BLACK))
    levels = (1.0 - (1.0 - darkest) * step / count for step in range(1, count + 1))
    return tuple(_written((level, level, level)) for level in levels)


def _parts(colour: str) -> tuple[float, float, float]:
    """Its red, green and blue, each 0 to 1."""
    red, green, blue = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    return red, green, blue


def _written(parts: tuple[float, float, float]) -> str:
    """The colour of those parts, none of them darker."""
    return f"#{''.join(f'{min(255, math.ceil(255 * part - NEAR)):02x}' for part in parts)}"
