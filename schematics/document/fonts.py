"""Fonts that a designer gives or names, as the typesetter finds them."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import typst

from schematics.document.images import MOST_MB
from schematics.document.lettering.font_file import read_font, single_font
from schematics.document.lettering.text import FONT_FOLDER, Font

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


def installed_family(name: str) -> str:
    """The family of that name, as it is spelt; empty where neither the program nor this computer has it."""
    return _families().get(name.casefold(), "")


@cache
def _families() -> dict[str, str]:
    return {each.family.casefold(): each.family for each in _own_fonts()}


def font_of(name: str, folder: Path) -> Font:
    """The font of that family, or of the file of that name in the folder.

    Raises:
        OSError: a file cannot be read.
        ValueError: it is no font, or one without Latin letters.
    """
    beside, family = None, name
    if is_file(name):
        path = Path(folder, name)
        beside, family = path.parent, family_of(path)
    weights = _weights(family, beside) if family else None
    if weights is None:
        raise ValueError("expected a font, found none")
    normal, bold = (single_font(path.read_bytes(), number) for path, number in weights)
    return read_font(family, normal, bold)


def _weights(family: str, folder: Path | None) -> tuple[tuple[Path, int], tuple[Path, int]] | None:
    """File and place in it of a family's usual weight and of its bold, those nearest to them; None if none.

    They are in that folder, or the program's own or this computer's.
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
    """The program's, and those of this computer that are of no family of its."""
    shipped = _beside(FONT_FOLDER)
    families = {each.family for each in shipped}
    found = typst.Fonts(include_system_fonts=True, include_embedded_fonts=False).fonts()
    return [*shipped, *(each for each in found if each.family not in families)]
