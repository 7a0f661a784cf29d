"""SVG to PNG, through CairoSVG, with its resolution written into the file."""

from __future__ import annotations

import io
from dataclasses import dataclass
from functools import cache
from threading import Lock, local
from types import ModuleType
from typing import Any

from schematics.drawing.ink.fonts import take_shipped_font
from schematics.errors import MissingLibraryError

DPI = 300

_last = local()
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


@dataclass(frozen=True, slots=True)
class Recording:
    """A sheet as cairo's operations, to be played onto surfaces; lengths in CSS pixels, 96 to the inch."""

    surface: Any
    width: float
    height: float

    def play(self, target: Any, scale: float) -> None:
        """Draw it on a cairo surface of ``scale`` units to the pixel."""
        context = cairo().surface.cairo.Context(target)
        context.scale(scale, scale)
        context.set_source_surface(self.surface, 0, 0)
        context.paint()


def recording(svg: str) -> Recording:
    """The sheet recorded, so that PNG and PDF walk its SVG once; each thread keeps that of its last sheet.

    Raises:
        MissingLibraryError: as `cairo`.
    """
    if getattr(_last, "svg", None) != svg:
        _last.recording = _recorded(svg)
        _last.svg = svg
    found: Recording = _last.recording
    return found


def _recorded(svg: str) -> Recording:
    cairosvg = cairo()
    lib = cairosvg.surface.cairo

    class Recorder(cairosvg.surface.Surface):  # type: ignore[name-defined, misc]  # loaded when first needed
        device_units_per_user_units = 1

        def _create_surface(self, width: float, height: float) -> tuple[Any, float, float]:
            extents = (0, 0, width, height)
            return lib.RecordingSurface(lib.CONTENT_COLOR_ALPHA, extents), width, height

    drawn = Recorder(cairosvg.parser.Tree(bytestring=svg.encode()), None, 96)
    return Recording(surface=drawn.cairo, width=drawn.width, height=drawn.height)


def to_png(svg: str, dpi: int = DPI) -> bytes:
    """A grey PNG of the sheet at ``dpi`` dots per inch, the resolution stored in it.

    The surface is read as it is drawn: letting cairo write a PNG first and reading that back takes
    several times as long.

    Raises:
        MissingLibraryError: as `cairo`.
    """
    from PIL import Image

    sheet, lib, scale = recording(svg), cairo().surface.cairo, dpi / 96
    size = round(sheet.width * scale), round(sheet.height * scale)
    surface = lib.ImageSurface(lib.FORMAT_RGB24, *size)
    context = lib.Context(surface)
    context.set_source_rgb(1, 1, 1)
    context.paint()
    sheet.play(surface, scale)
    surface.flush()
    image = Image.frombuffer("RGBX", size, surface.get_data(), "raw", "BGRX", surface.get_stride(), 1)
    out = io.BytesIO()
    image.convert("L").save(out, "PNG", dpi=(dpi, dpi))
    return out.getvalue()
