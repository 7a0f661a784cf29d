"""Measuring text: widths from the lettering font's own advance widths, boxes in millimetres.

Heights are capital heights as in ISO 3098-1: 2.5 mm for most lettering, 3.5 mm for headings.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files
from itertools import accumulate
from pathlib import Path

FONT_FOLDER = Path(__file__).with_name("fonts")
"""Holds the two weights of DejaVu Sans 2.37, no other font, and the licences under which they come."""

FONT_FAMILY = "DejaVu Sans, Verdana, sans-serif"
"""cairo takes the first family; Verdana has nearly the same widths where DejaVu is missing."""

SMALL, LARGE = 2.5, 3.5

_SLACK = 1.05
"""Room for hinted advances, which differ from the font's own by a few per cent when rastered."""

CAP_HEIGHT = 1493 / 2048
"""Of the font's capitals, over its size."""

_ASCENDER = 1556 / 1493
_DESCENDER = 426 / 1493
"""Reach of the tallest (``l``) and deepest (``p``) Latin characters over the capitals' height."""

_PITCH = 1.6
"""Baseline to baseline over capital height; ISO 3098-1 asks for 19/14 at least."""

_KEPT_TOGETHER = re.compile(
    r"(?<=\d) (?=\d+/\d|%|(?:sts?|rows?|cm|mm|in|lines?)\b)"
    r"|(?<=[\d\]]) (?=×)|(?<=×) (?=\d)|(?<=\bchain) (?=\d)"
)
"""The spaces between a number and its fraction, unit or times, or what it counts."""


@dataclass(frozen=True, slots=True)
class _Font:
    units_per_em: int
    advances: dict[str, int]
    widest: int


@cache
def _font(bold: bool) -> _Font:
    data = json.loads(
        files("schematics.document.lettering").joinpath("data/dejavu_sans.json").read_text("utf-8")
    )
    face = data["bold" if bold else "normal"]
    return _Font(face["units_per_em"], face["advances"], max(face["advances"].values()))


def unlettered(text: str) -> str:
    """The first character of ``text`` that no sheet can show; empty if there is none.

    The lettering is that of the font's Latin, Greek, Cyrillic, Armenian and Georgian letters and its
    signs, from left to right, each character by itself.
    """
    advances = _font(bold=False).advances
    return next((char for char in text if char not in advances), "")


def printable(text: str) -> str:
    """The text without characters XML 1.0 cannot hold."""
    return "".join(
        char
        for char in text
        if char in "\t\n" or " " <= char < "\ud800" or "\ue000" <= char < "\ufffe" or char > "\uffff"
    )


def font_size(height_mm: float) -> float:
    """The font size, in mm, whose capitals are ``height_mm`` tall."""
    return height_mm / CAP_HEIGHT


def line_pitch(height_mm: float) -> float:
    """Baseline to baseline, in mm."""
    return height_mm * _PITCH


def ascent(height_mm: float) -> float:
    """How far the tallest characters reach above the baseline, in mm."""
    return height_mm * _ASCENDER


def descent(height_mm: float) -> float:
    """How far the deepest characters reach below the baseline, in mm."""
    return height_mm * _DESCENDER


@lru_cache(maxsize=4096)
def text_width(text: str, height_mm: float = SMALL, *, bold: bool = False) -> float:
    """Width of ``text`` in mm, with slack; a character the font lacks counts as its widest."""
    font = _font(bold)
    units = sum(font.advances.get(char, font.widest) for char in text)
    return units / font.units_per_em * font_size(height_mm) * _SLACK


def letter_positions(text: str, height_mm: float, *, bold: bool = False) -> list[float]:
    """Where each letter of ``text`` starts, in mm from the first; one more for where the last ends."""
    font = _font(bold)
    per_unit = font_size(height_mm) / font.units_per_em
    units = accumulate((font.advances.get(char, font.widest) for char in text), initial=0)
    return [each * per_unit for each in units]


def wrap(text: str, width_mm: float, height_mm: float = SMALL, *, bold: bool = False) -> list[str]:
    """``text`` broken into lines no wider than ``width_mm``; a word longer than a line is cut.

    Breaks fall at spaces, not at no-break spaces nor between a number and its fraction, unit or times.
    """
    lines: list[str] = []
    line = ""
    for word in _unbroken(text):
        longer = f"{line} {word}" if line else word
        if text_width(longer, height_mm, bold=bold) <= width_mm:
            line = longer
            continue
        if line:
            lines.append(line)
        while text_width(word, height_mm, bold=bold) > width_mm and len(word) > 1:
            fits = next(
                n for n in range(len(word) - 1, 0, -1)
                if n == 1 or text_width(word[:n], height_mm, bold=bold) <= width_mm
            )  # fmt: skip
            lines.append(word[:fits])
            word = word[fits:]
        line = word
    return [*lines, line] if line else lines


def _unbroken(text: str) -> list[str]:
    """What no line break may part: words, and numbers with what is kept together with them."""
    lengths = [len(each) for each in _KEPT_TOGETHER.sub("\N{NO-BREAK SPACE}", text).split(" ")]
    starts = accumulate((length + 1 for length in lengths), initial=0)
    return [text[start : start + length] for start, length in zip(starts, lengths, strict=False)]


def shorten(text: str, width_mm: float, height_mm: float = SMALL, *, bold: bool = False) -> str:
    """``text``, or its beginning with an ellipsis, no wider than ``width_mm``."""
    if text_width(text, height_mm, bold=bold) <= width_mm:
        return text
    cut = len(text)
    while cut > 0 and text_width(text[:cut].rstrip() + "…", height_mm, bold=bold) > width_mm:
        cut -= 1
    return text[:cut].rstrip() + "…"
