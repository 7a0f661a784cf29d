"""A font that a designer gives, read from its file: how wide and high it letters, and a part of it."""

from __future__ import annotations

import io
from collections.abc import Iterable
from functools import lru_cache
from typing import Any

from fontTools.pens.boundsPen import BoundsPen
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

from schematics.document.lettering.text import Face, Font

_LETTERING_TABLES = {
    *("GlyphOrder", "head", "hhea", "maxp", "OS/2", "hmtx", "cmap", "loca", "glyf", "CFF ", "CFF2", "name"),
    "post",
}
"""What letters upright lines from left to right, each letter in its place."""

_CAPITAL, _TALLEST, _DEEPEST = "H", "l", "p"


def single_font(content: bytes, number: int) -> bytes:
    """The font of that number by itself, where a file holds several."""
    if content[:4] != b"ttcf":
        return content
    out = io.BytesIO()
    TTFont(io.BytesIO(content), fontNumber=number, recalcTimestamp=False).save(out)
    return out.getvalue()


@lru_cache(maxsize=8)
def read_font(family: str, normal: bytes, bold: bytes) -> Font:
    """The font of those files; the same object for the same ones.

    Raises:
        ValueError: it has no capitals or small letters of the Latin script.
    """
    try:
        high, low = (_reach(normal, char) for char in (_TALLEST, _DEEPEST))
        capital = _reach(normal, _CAPITAL)[1]
    except KeyError as error:
        raise ValueError(f"the font {family} has no letter {error.args[0]}") from None
    return Font(
        family=family,
        normal=_face(normal),
        bold=_face(bold),
        cap_height=capital,
        ascender=high[1] / capital,
        descender=-low[0] / capital,
        contents=(normal, bold),
    )


@lru_cache(maxsize=16)
def opened(content: bytes) -> Any:
    """The file, opened once."""
    return TTFont(io.BytesIO(content), lazy=True)


def _face(content: bytes) -> Face:
    font = opened(content)
    widths = font["hmtx"]
    advances = {chr(code): widths[name][0] for code, name in font.getBestCmap().items()}
    return Face(font["head"].unitsPerEm, advances)


def _reach(content: bytes, char: str) -> tuple[float, float]:
    """How far its ink reaches below and above the baseline, in ems, upwards positive."""
    font = opened(content)
    glyphs, names = font.getGlyphSet(), font.getBestCmap()
    if ord(char) not in names:
        raise KeyError(char)
    pen = BoundsPen(glyphs)
    glyphs[names[ord(char)]].draw(pen)
    _, low, _, high = pen.bounds or (0, 0, 0, 1)
    per_em = font["head"].unitsPerEm
    return low / per_em, high / per_em


def part_of(content: bytes, characters: Iterable[str]) -> bytes:
    """The font with no more than those characters; the same bytes for the same ones."""
    font = TTFont(io.BytesIO(content), recalcTimestamp=False)
    options = Options()
    options.layout_features = []
    options.hinting = False
    options.recalc_timestamp = False
    options.notdef_outline = True
    options.drop_tables = sorted(set(font.keys()) - _LETTERING_TABLES)
    subsetter = Subsetter(options)
    subsetter.populate(text="".join(sorted(set(characters))))
    subsetter.subset(font)
    out = io.BytesIO()
    font.save(out)
    return out.getvalue()
