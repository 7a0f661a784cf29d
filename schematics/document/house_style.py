"""What a designer's documents show of their own: images, the mark at the top, colour and fonts."""

from __future__ import annotations

import base64
from dataclasses import dataclass, field
from pathlib import Path

_TYPES = {"png": "image/png", "svg": "image/svg+xml", "jpg": "image/jpeg", "jpeg": "image/jpeg"}
_FONT_TYPES = {"ttf": "font/ttf", "otf": "font/otf"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Photo:
    """An image of the designer's, described in words by what it ``shows``.

    It is the file ``name`` in ``folder``, which has that ``content`` and is so many pixels wide and high. A
    ``leading`` one is at the top and may be large.
    """

    shows: str
    folder: Path
    name: str
    content: bytes = field(repr=False)
    width: float
    height: float
    leading: bool = False

    @property
    def ending(self) -> str:
        """Such as ``png``."""
        return self.name.rpartition(".")[2].casefold()

    @property
    def address(self) -> str:
        """The image as an address, so that nothing is fetched."""
        return _address(_TYPES[self.ending], self.content)

    def size_mm(self, widest: float, highest: float) -> tuple[float, float]:
        """Width and height as printed, as large as ``widest`` and ``highest`` let it be; all in mm."""
        times = min(widest / self.width, highest / self.height)
        return self.width * times, self.height * times


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseFont:
    """A family of fonts; ``file`` is in its own folder, None for a family that the computer has."""

    family: str
    file: Path | None = None
    content: bytes = field(default=b"", repr=False)

    @property
    def address(self) -> str:
        """The font as an address; empty without a file."""
        return _address(_FONT_TYPES[self.file.suffix[1:].casefold()], self.content) if self.file else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseStyle:
    """How a designer's documents look; None is the program's own look.

    ``accent`` is the colour of headings, ``text`` and ``lettering`` the fonts of text and headings, ``logo``
    the mark at the top.
    """

    accent: str | None = None
    text: HouseFont | None = None
    lettering: HouseFont | None = None
    logo: Photo | None = None

    @property
    def fonts(self) -> tuple[HouseFont, ...]:
        """Each font once."""
        return tuple(dict.fromkeys(each for each in (self.text, self.lettering) if each))


def _address(media_type: str, content: bytes) -> str:
    return f"data:{media_type};base64,{base64.b64encode(content).decode()}"
