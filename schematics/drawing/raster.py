"""SVG to PNG, through CairoSVG, with its resolution written into the file."""

from __future__ import annotations

import io
from types import ModuleType

from schematics.errors import MissingLibraryError

DPI = 300


def cairo() -> ModuleType:
    """The CairoSVG module, loaded when first needed.

    Raises:
        MissingLibraryError: the cairo library is not on this machine.
    """
    try:
        import cairosvg
    except OSError as error:
        raise MissingLibraryError(
            "PNG and PDF need the cairo library: on Debian or Ubuntu type 'sudo apt-get install libcairo2', "
            "on a Mac 'brew install cairo'. The SVG files are complete without it."
        ) from error
    module: ModuleType = cairosvg
    return module


def to_png(svg: str, dpi: int = DPI) -> bytes:
    """A PNG of the sheet at ``dpi`` dots per inch, the resolution stored in it.

    Raises:
        MissingLibraryError: the cairo library is not on this machine.
    """
    from PIL import Image

    raw = cairo().svg2png(bytestring=svg.encode(), dpi=96, scale=dpi / 96)
    with Image.open(io.BytesIO(raw)) as image:
        out = io.BytesIO()
        grey = image.convert("L").quantize(16, dither=Image.Dither.NONE)
        grey.save(out, "PNG", dpi=(dpi, dpi))
    return out.getvalue()
