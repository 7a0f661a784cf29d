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


def weights_of(family: str, folder: Path | None) -> tuple[tuple[Path, int], tuple[Path, int]] | None:
    """File and place in it of a family's usual weight and of its bold, those nearest to them; None if none.

    They are in that folder, or this computer's own.
    """
    fonts = _beside(folder) if folder else _own_fonts()
    mine = [each for each in fonts if each.path and each.family.casefold() == family.casefold()]
    upright = [each for each in mine if each.style == "normal"] or mine
    if not upright:
        return None
    usual, bold = (
        min(upright, key=lambda each: (abs(each.stretch - 1), abs(each.weight - weight), str(each.path)))
        for weight in (400, 700)
    )
    return (Path(str(usual.path)), usual.index), (Path(str(bold.path)), bold.index)


@cache
def _own_fonts() -> list[typst.FontInfo]:
    return typst.Fonts(include_system_fonts=True, include_embedded_fonts=False).fonts()
