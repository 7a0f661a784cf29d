"""A sheet as PNG, its resolution written into the file."""

from __future__ import annotations

import struct
import zlib
from functools import cache

import numpy as np
from numpy.typing import NDArray

from schematics.drawing.ink.cairo_pen import cairo, draw
from schematics.drawing.ink.sheet import Sheet

DPI = 300

_MM_PER_INCH = 25.4
_SHADES = 15
"""Steps from black to white: with half a byte to a pixel they are all the edge of a line needs."""

_LEVEL = 4
"""zlib's; at its usual one, 6, writing takes half as long again and saves a tenth."""


def to_png(sheet: Sheet, dpi: int = DPI) -> bytes:
    """A grey PNG of the sheet at ``dpi`` dots per inch, the resolution stored in it.

    Raises:
        MissingLibraryError: the cairo library is not on this machine, or does not take the font.
    """
    lib, per_mm = cairo(), dpi / _MM_PER_INCH
    width, height = round(sheet.paper.width * per_mm), round(sheet.paper.height * per_mm)
    surface = lib.ImageSurface(lib.FORMAT_A8, width, height)
    draw(sheet, surface, per_mm)
    surface.flush()
    ink = np.frombuffer(surface.get_data(), np.uint8).reshape(height, surface.get_stride())
    pairs = ink[:, : width + width % 2].view("<u2")
    rows = np.zeros((height, 1 + pairs.shape[1]), np.uint8)
    rows[:, 1:] = _pair_shades()[pairs]
    a_metre = round(dpi / _MM_PER_INCH * 1000)
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        (
            _chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 4, 0, 0, 0, 0)),
            _chunk(b"pHYs", struct.pack(">IIB", a_metre, a_metre, 1)),
            _chunk(b"IDAT", zlib.compress(rows.data, _LEVEL)),
            _chunk(b"IEND", b""),
        )
    )


@cache
def _pair_shades() -> NDArray[np.uint8]:
    """The byte of two pixels by the ink on them, 0 to 255, that of the first in the lower byte."""
    shades = (_SHADES * (255 - np.arange(256)) + 127) // 255
    return (shades << 4 | shades[:, None]).ravel().astype(np.uint8)


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
