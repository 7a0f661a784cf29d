"""A sheet as PNG, its resolution written into the file."""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterable, Sequence
from functools import cache

import numpy as np
from numpy.typing import NDArray

from schematics.document.contrast import WHITE
from schematics.drawing.ink.cairo_pen import cairo, draw, fill, marks_of, rgb
from schematics.drawing.ink.layers import colour_of
from schematics.drawing.ink.marks import Area, Mark, Pen
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

    A sheet is black on white, a bare drawing black, with its accent if it has one, on nothing. Both have the
    tints of their faces.

    Raises:
        MissingLibraryError: the cairo library is not on this machine, or does not take the font.
    """
    per_mm = dpi / _MM_PER_INCH
    size = round(sheet.paper.width * per_mm), round(sheet.paper.height * per_mm)
    tints, lines = _parted(sheet)
    grounds = list(dict.fromkeys(colour_of(mark, sheet.ink) for mark in tints))
    inks = [None, *([sheet.ink.accent] if sheet.ink and sheet.ink.accent else [])]
    if len(inks) == 1 and not grounds:
        bits, rows = 4, _pairs(_covered(sheet, size, per_mm, lines), size[0])
    else:
        shades = _shaded(sheet, size, per_mm, lines, inks)
        if grounds:
            shades += len(inks) * (_SHADES + 1) * _grounds(sheet, size, per_mm, tints, grounds)
        bits, rows = 8, _filtered(shades, size[0])
    is_grey = sheet.ink is None and not grounds
    kind, colours = (
        (_GREY, b"") if is_grey else (_PALETTE, _palette(inks, grounds, bare=sheet.ink is not None))
    )
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


def _parted(sheet: Sheet) -> tuple[list[Area], list[Mark]]:
    """Its tinted faces, and all other marks."""
    tints: list[Area] = []
    others: list[Mark] = []
    for mark in marks_of(sheet):
        if isinstance(mark, Area) and mark.pen is Pen.TINT:
            tints.append(mark)
        else:
            others.append(mark)
    return tints, others


def _shaded(
    sheet: Sheet, size: tuple[int, int], per_mm: float, marks: Sequence[Mark], inks: Sequence[str | None]
) -> NDArray[np.uint8]:
    """The shade of each pixel, 0 to 15 in the first of the inks, on from there in one that covers it more."""
    black, *others = (
        _covered(sheet, size, per_mm, (mark for mark in marks if colour_of(mark, sheet.ink) == ink))
        for ink in inks
    )
    shades = _looked_up(black)
    for coloured in others:
        more = coloured > black
        shades[more] = _shades()[coloured[more]] + _SHADES + 1
    return shades


def _looked_up(ink: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """The shade of each pixel by the ink on it, looked up as text is: soonest."""
    return np.frombuffer(bytearray(ink.tobytes().translate(_shades().tobytes())), np.uint8).reshape(ink.shape)


def _grounds(
    sheet: Sheet, size: tuple[int, int], per_mm: float, tints: Sequence[Area], grounds: Sequence[str | None]
) -> NDArray[np.uint8]:
    """The number of each pixel's ground: 0 for the page, from 1 that of the last tint that is on it.

    Their edges have no shades between: a line lies over each.
    """
    lib, (width, height) = cairo(), size
    numbers = np.zeros((height, -(-width // _WORD) * _WORD), np.uint8)
    surface = lib.ImageSurface(lib.FORMAT_A8, *size, numbers.reshape(-1).data, numbers.shape[1])
    fill(surface, per_mm, ((mark, 1 + grounds.index(colour_of(mark, sheet.ink))) for mark in tints))
    surface.finish()
    return numbers


def _filtered(indices: NDArray[np.uint8], width: int) -> NDArray[np.uint8]:
    """The rows of a PNG with a byte to a pixel, each after the byte of its filter, which is none."""
    rows = np.zeros((len(indices), 1 + width), np.uint8)
    rows[:, 1:] = indices[:, :width]
    return rows


def _palette(inks: Sequence[str | None], grounds: Sequence[str | None], *, bare: bool) -> bytes:
    """Each ink from whole to nothing, on the page and on each ground, as the chunks of a PNG.

    The page under a bare drawing is nothing, under a sheet white.
    """
    left = np.arange(_SHADES + 1)[:, None] / _SHADES
    page = [np.repeat([rgb(ink)], len(left), axis=0) if bare else _mixed(ink, WHITE, left) for ink in inks]
    on_grounds = [_mixed(ink, ground, left) for ground in grounds for ink in inks]
    chunk = _chunk(b"PLTE", _bytes(np.concatenate([*page, *on_grounds])))
    return chunk + _chunk(b"tRNS", _bytes(1 - left) * len(inks)) if bare else chunk


def _mixed(ink: str | None, ground: str | None, left: NDArray[np.float64]) -> NDArray[np.float64]:
    """The ink on the ground, of which so much is ``left``."""
    mixed: NDArray[np.float64] = (1 - left) * rgb(ink) + left * rgb(ground)
    return mixed


def _bytes(parts: NDArray[np.float64]) -> bytes:
    return np.rint(255 * parts).astype(np.uint8).tobytes()


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
