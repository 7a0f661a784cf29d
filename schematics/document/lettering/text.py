"""Measuring text: widths from the lettering font's own advance widths, boxes in millimetres.

Heights are capital heights as in ISO 3098-1: 2.5 mm for most lettering, 3.5 mm for headings.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
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


@dataclass(frozen=True, slots=True, eq=False)
class Face:
    """One weight of a font: how far the pen goes on after each character, in parts of an em."""

    units_per_em: int
    advances: Mapping[str, int]


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Font:
    """A font in two weights; what it lacks is lettered with the program's own in the same size.

    ``cap_height`` is that of its capitals over its size; ``ascender`` and ``descender`` are the reach of its
    tallest and deepest Latin characters over the capitals' height. ``contents`` are the files of its weights,
    the bolder one last; none for the program's own.
    """

    family: str
    normal: Face
    bold: Face
    cap_height: float
    ascender: float
    descender: float
    contents: tuple[bytes, ...] = field(default=(), repr=False)

    def face(self, *, bold: bool) -> Face:
        """The font's bold or its usual weight."""
        return self.bold if bold else self.normal

    def has(self, char: str, *, bold: bool) -> bool:
        """Whether it has the character."""
        return char in self.face(bold=bold).advances


@dataclass(frozen=True, slots=True)
class Lettering:
    """How words are lettered: the ``height`` of capitals in mm, and the font."""

    height: float = SMALL
    font: Font | None = None


PLAIN = Lettering()
"""Most lettering of sheets."""


@cache
def _own() -> Font:
    data = json.loads(
        files("schematics.document.lettering").joinpath("data/dejavu_sans.json").read_text("utf-8")
    )
    normal, bold = (Face(data[each]["units_per_em"], data[each]["advances"]) for each in ("normal", "bold"))
    return Font(
        family="DejaVu Sans",
        normal=normal,
        bold=bold,
        cap_height=CAP_HEIGHT,
        ascender=_ASCENDER,
        descender=_DESCENDER,
    )


@cache
def _widest(*, bold: bool) -> int:
    return max(_own().face(bold=bold).advances.values())


def _advances(text: str, font: Font | None, *, bold: bool) -> tuple[list[float], float]:
    """How far the pen goes on after each character, and how much of that is an em."""
    own = _own().face(bold=bold)
    widest = _widest(bold=bold)
    units: list[float] = [own.advances.get(char, widest) for char in text]
    if font is None:
        return units, own.units_per_em
    face = font.face(bold=bold)
    ems = (
        face.advances[char] / face.units_per_em if char in face.advances else unit / own.units_per_em
        for char, unit in zip(text, units, strict=True)
    )
    return list(ems), 1.0


def unlettered(text: str) -> str:
    """The first character of ``text`` that no sheet can show; empty if there is none.

    The lettering is that of the font's Latin, Greek, Cyrillic, Armenian and Georgian letters and its
    signs, from left to right, each character by itself.
    """
    advances = _own().normal.advances
    return next((char for char in text if char not in advances), "")


def printable(text: str) -> str:
    """The text without characters XML 1.0 cannot hold."""
    return "".join(
        char
        for char in text
        if char in "\t\n" or " " <= char < "\ud800" or "\ue000" <= char < "\ufffe" or char > "\uffff"
    )


def font_size(height_mm: float, font: Font | None = None) -> float:
    """The font size, in mm, whose capitals are ``height_mm`` tall."""
    return height_mm / (font or _own()).cap_height


def line_pitch(height_mm: float) -> float:
    """Baseline to baseline, in mm."""
    return height_mm * _PITCH


def ascent(height_mm: float, font: Font | None = None) -> float:
    """How far the tallest characters reach above the baseline, in mm."""
    return height_mm * (font or _own()).ascender


def descent(height_mm: float, font: Font | None = None) -> float:
    """How far the deepest characters reach below the baseline, in mm."""
    return height_mm * (font or _own()).descender


@lru_cache(maxsize=4096)
def text_width(text: str, height_mm: float = SMALL, *, bold: bool = False, font: Font | None = None) -> float:
    """Width of ``text`` in mm, with slack; a character that is in no font counts as the widest."""
    advances, em = _advances(text, font, bold=bold)
    return sum(advances) / em * font_size(height_mm, font) * _SLACK


def letter_positions(
    text: str, height_mm: float, *, bold: bool = False, font: Font | None = None
) -> list[float]:
    """Where each letter of ``text`` starts, in mm from the first; one more for where the last ends."""
    advances, em = _advances(text, font, bold=bold)
    per_unit = font_size(height_mm, font) / em
    return [each * per_unit for each in accumulate(advances, initial=0.0)]


def wrap(
    text: str, width_mm: float, height_mm: float = SMALL, *, bold: bool = False, font: Font | None = None
) -> list[str]:
    """``text`` broken into lines no wider than ``width_mm``; a word longer than a line is cut.

    Breaks fall at spaces, not at no-break spaces nor, where a line holds them, between a number and its
    fraction, unit or times.
    """

    def fits(words: str) -> bool:
        return text_width(words, height_mm, bold=bold, font=font) <= width_mm

    if text and text[0] != " " and fits(text):
        return [text]
    lines: list[str] = []
    line = ""
    for word in (part for kept in _unbroken(text) for part in ([kept] if fits(kept) else kept.split(" "))):
        longer = f"{line} {word}" if line else word
        if fits(longer):
            line = longer
            continue
        if line:
            lines.append(line)
        while not fits(word) and len(word) > 1:
            kept = next(n for n in range(len(word) - 1, 0, -1) if n == 1 or fits(word[:n]))
            lines.append(word[:kept])
            word = word[kept:]
        line = word
    return [*lines, line] if line else lines


def _unbroken(text: str) -> list[str]:
    """What line breaks do not part: words, and numbers with what is kept together with them."""
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
