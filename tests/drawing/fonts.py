"""The lettering font itself, read with fontTools: what `document.lettering.text` is measured against."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import accumulate

from fontTools.ttLib import TTFont

from schematics.document.lettering.text import FONT_FOLDER

NORMAL, BOLD = FONT_FOLDER / "DejaVuSans.ttf", FONT_FOLDER / "DejaVuSans-Bold.ttf"


@dataclass(frozen=True, slots=True)
class Glyph:
    """A glyph in ems: its advance, and how far its ink reaches above and below the baseline."""

    advance: float
    top: float
    bottom: float


class Face:
    """One weight of the font."""

    def __init__(self, bold: bool) -> None:
        self._font = TTFont(BOLD if bold else NORMAL)
        self.units: int = self._font["head"].unitsPerEm
        self.names: dict[int, str] = self._font.getBestCmap()
        self.capital_units: int = self._font["glyf"][self.names[ord("H")]].yMax
        self._glyphs: dict[str, Glyph] = {}

    def has(self, char: str) -> bool:
        return ord(char) in self.names

    def advance_units(self, char: str) -> int:
        units: int = self._font["hmtx"][self.names.get(ord(char), ".notdef")][0]
        return units

    def glyph(self, char: str) -> Glyph:
        if char not in self._glyphs:
            outline = self._font["glyf"][self.names.get(ord(char), ".notdef")]
            self._glyphs[char] = Glyph(
                self.advance_units(char) / self.units,
                getattr(outline, "yMax", 0) / self.units,
                getattr(outline, "yMin", 0) / self.units,
            )
        return self._glyphs[char]

    def width(self, text: str) -> float:
        """The advance of the text in ems."""
        return sum(self.glyph(char).advance for char in text)

    def starts(self, text: str, count: int) -> list[float]:
        """Where each of the first ``count`` characters starts, in ems; any there are not, at the end."""
        places = list(accumulate((self.glyph(char).advance for char in text), initial=0.0))
        return [places[min(i, len(text))] for i in range(count)]

    def reach(self, text: str) -> tuple[float, float]:
        """How far the text's ink reaches above and below the baseline, in ems; above is positive."""
        glyphs = [self.glyph(char) for char in text]
        return max(glyph.top for glyph in glyphs), min(glyph.bottom for glyph in glyphs)


@cache
def face(bold: bool = False) -> Face:
    return Face(bold)
