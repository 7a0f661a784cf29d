"""A sheet as PNG, its resolution written into the file."""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterable
from functools import cache

import numpy as np
from numpy.typing import NDArray

from schematics.drawing.ink.cairo_pen import cairo, draw, marks_of, rgb
from schematics.drawing.ink.layers import colour_of
from schematics.drawing.ink.marks import Mark
from schematics.drawing.ink.sheet import Sheet

DPI = 300

_MM_PER_INCH = 25.4
_GREY, _PALETTE = 0, 3
"""Kinds of colour in a PNG. A palette can have entries that cover only in part."""
_SHADES = 15
"""Steps from black to white: with half a byte to a pixel they are all the edge of a line needs."""

_WORD = 8
_BLANK = 0xFFFFFFFF
"""Pixels that are looked at together, and their shades where there is no ink."""

_LEVEL = 3
"""zlib's; at its usual one, 6, writing takes twice as long and saves a sixth."""


def to_png(sheet: Sheet, dpi: int = DPI) -> bytes:
    """A PNG of the sheet at ``dpi`` dots per inch, the resolution stored in it.

    A sheet is grey on white, a bare drawing black, with its accent if it has one, on nothing.

    Raises:
        MissingLibraryError: the cairo library is not on this machine, or does not take the font.
    """
    per_mm = dpi / _MM_PER_INCH
    size = round(sheet.paper.width * per_mm), round(sheet.paper.height * per_mm)
    accent = sheet.ink.accent if sheet.ink else None
    if accent is None:
        bits, rows = 4, _pairs(_covered(sheet, size, per_mm, marks_of(sheet)), size[0])
    else:
        bits, rows = 8, _two_inks(sheet, size, per_mm)
    kind, colours = (_GREY, b"") if sheet.ink is None else (_PALETTE, _palette(accent))
    a_metre = round(dpi / _MM_PER_INCH * 1000)
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        (
            _chunk(b"IHDR", struct.pack(">IIBBBBB", *size, bits, kind, 0, 0, 0)),
            _chunk(b"pHYs", struct.pack(">IIB", a_metre, a_metre, 1)),
            colours,
            _chunk(b"IDAT", zlib.compress(rows.data, _LEVEL)),
            _chunk(b"IEND", b""),
        )
    )


def _covered(sheet: Sheet, size: tuple[int, int], per_mm: float, marks: Iterable[Mark]) -> NDArray[np.uint8]:
    """How much of each pixel marks of the sheet cover, 0 to 255; rows are filled up to whole words."""
    lib, (width, height) = cairo(), size
    ink = np.zeros((height, -(-width // _WORD) * _WORD), np.uint8)
    surface = lib.ImageSurface(lib.FORMAT_A8, *size, ink.reshape(-1).data, ink.shape[1])
    draw(sheet, surface, per_mm, marks)
    surface.finish()
    return ink


def _pairs(ink: NDArray[np.uint8], width: int) -> NDArray[np.uint8]:
    """The rows of a PNG with half a byte to a pixel, each after the byte of its filter, which is none.

    Most of a sheet is blank: words without ink are not looked at one pixel after another.
    """
    words = ink.reshape(-1).view("<u8")
    inked = np.flatnonzero(words)
    shades = np.full(len(words), _BLANK, "<u4")
    shades[inked] = _pair_shades()[words[inked].view("<u2")].view("<u4")
    pairs = (width + 1) // 2
    rows = np.zeros((len(ink), 1 + pairs), np.uint8)
    rows[:, 1:] = shades.view(np.uint8).reshape(len(ink), -1)[:, :pairs]
    return rows


def _two_inks(sheet: Sheet, size: tuple[int, int], per_mm: float) -> NDArray[np.uint8]:
    """The rows of a PNG with a byte to a pixel: a shade of black or, where there is more, of the accent."""
    black, coloured = (
        _covered(sheet, size, per_mm, (m for m in marks_of(sheet) if bool(colour_of(m, sheet.ink)) is bold))
        for bold in (False, True)
    )
    indices = np.where(coloured > black, _shades()[coloured] + _SHADES + 1, _shades()[black])
    rows = np.zeros((size[1], 1 + size[0]), np.uint8)
    rows[:, 1:] = indices[:, : size[0]]
    return rows


def _palette(accent: str | None) -> bytes:
    """Black from whole to nothing, then the accent likewise, as the chunks of a PNG."""
    inks = [rgb(None)] if accent is None else [rgb(None), rgb(accent)]
    colours = b"".join(bytes(round(255 * part) for part in ink) * (_SHADES + 1) for ink in inks)
    left = bytes(round(255 * (_SHADES - shade) / _SHADES) for shade in range(_SHADES + 1))
    return _chunk(b"PLTE", colours) + _chunk(b"tRNS", left * len(inks))


@cache
def _shades() -> NDArray[np.uint8]:
    """The shade, from 0 for whole ink, of a pixel by how much is covered, 0 to 255."""
    return ((_SHADES * (255 - np.arange(256)) + 127) // 255).astype(np.uint8)


@cache
def _pair_shades() -> NDArray[np.uint8]:
    """The byte of two pixels by the ink on them, 0 to 255, that of the first in the lower byte."""
    shades = _shades()
    return (shades << 4 | shades[:, None]).ravel().astype(np.uint8)


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
