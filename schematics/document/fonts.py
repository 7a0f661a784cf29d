"""Fonts that a designer gives or names, as the typesetter finds them."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import typst

from schematics.document.images import MOST_MB

_ENDINGS = (".ttf", ".otf")


def is_file(name: str) -> bool:
    """Whether a font is named by its file, not by its family."""
    return name.casefold().endswith(_ENDINGS)


def family_of(path: Path) -> str:
    """The family of the font in a file; empty where it is no font, or too large a file."""
    try:
        if path.stat().st_size > MOST_MB * 1_000_000:
            return ""
    except OSError:
        return ""
    return next((each.family for each in _beside(path.parent) if each.path and _same(each.path, path)), "")


def _same(one: str, other: Path) -> bool:
    return Path(one).resolve() == other.resolve()


def _beside(folder: Path) -> list[typst.FontInfo]:
    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[folder]).fonts()


def family_found(name: str) -> str:
    """The family of that name on this computer, as it is spelt; empty where there is none."""
    return _families().get(name.casefold(), "")


@cache
def _families() -> dict[str, str]:
    found = typst.Fonts(include_system_fonts=True, include_embedded_fonts=False).families()
    return {each.casefold(): each for each in found}
