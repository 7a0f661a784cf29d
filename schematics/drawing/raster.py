"""SVG to PNG, through CairoSVG, with its resolution written into the file."""

from __future__ import annotations

import io
from functools import cache
from threading import Lock
from types import ModuleType

from schematics.drawing.fonts import take_shipped_font
from schematics.errors import MissingLibraryError

DPI = 300

_settling_fonts = Lock()
_take_shipped_font_once = cache(take_shipped_font)


def cairo() -> ModuleType:
    """The CairoSVG module, loaded when first needed, drawing with the font that comes with the program.

    Raises:
        MissingLibraryError: the cairo library is not on this machine, or does not take the font.
    """
    try:
        import cairosvg
        import cairosvg.surface
    except OSError as error:
        raise MissingLibraryError(
            "PNG and PDF need the cairo library: on Debian or Ubuntu type 'sudo apt-get install libcairo2', "
            "on a Mac 'brew install cairo'. The SVG files are complete without it."
        ) from error
    # Left to the kind of surface, hinting would hang on whichever kind drew the font first in this process.
    cairosvg.surface.TEXT_HINT_STYLE[None] = cairosvg.surface.cairo.HINT_STYLE_NONE
    cairosvg.surface.TEXT_HINT_METRICS[None] = cairosvg.surface.cairo.HINT_METRICS_OFF
    with _settling_fonts:
        _take_shipped_font_once(cairosvg.surface.cairo)
    module: ModuleType = cairosvg
    return module


def to_png(svg: str, dpi: int = DPI) -> bytes:
    """A grey PNG of the sheet at ``dpi`` dots per inch, the resolution stored in it.

    The surface is read as it is drawn: letting cairo write a PNG first and reading that back takes
    several times as long.

    Raises:
        MissingLibraryError: the cairo library is not on this machine.
    """
    from PIL import Image

    cairosvg = cairo()
    tree = cairosvg.parser.Tree(bytestring=svg.encode())
    surface = cairosvg.surface.PNGSurface(tree, None, 96, scale=dpi / 96).cairo
    size = surface.get_width(), surface.get_height()
    pixels = bytes(surface.get_data())
    image = Image.frombuffer("RGBX", size, pixels, "raw", "BGRX", surface.get_stride(), 1)
    out = io.BytesIO()
    image.convert("L").save(out, "PNG", dpi=(dpi, dpi))
    return out.getvalue()
