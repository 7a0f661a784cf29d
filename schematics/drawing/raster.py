"""SVG to PNG, through CairoSVG, with its resolution written into the file."""

from __future__ import annotations

import io

from schematics.errors import MissingLibraryError

DPI = 300


def to_png(svg: str, dpi: int = DPI) -> bytes:
    """A PNG of the sheet at ``dpi`` dots per inch, the resolution stored in it.

    Raises:
        MissingLibraryError: the cairo library is not on this machine.
    """
    try:
        import cairosvg
    except OSError as error:
        raise MissingLibraryError(
            "PNG needs the cairo library: on Debian or Ubuntu type 'sudo apt-get install libcairo2', "
            "on a Mac 'brew install cairo'. The SVG files are complete without it."
        ) from error
    from PIL import Image

    raw = cairosvg.svg2png(bytestring=svg.encode(), dpi=96, scale=dpi / 96)
    with Image.open(io.BytesIO(raw)) as image:
        out = io.BytesIO()
        image.convert("RGB").quantize(64, dither=Image.Dither.NONE).save(
            out, "PNG", dpi=(dpi, dpi), optimize=False
        )
    return out.getvalue()
