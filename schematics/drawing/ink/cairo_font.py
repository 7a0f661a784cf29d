"""The font that comes with the program, made the only one that cairo finds, whatever the machine has.

cairo asks fontconfig for fonts, and fontconfig reads its configuration once in the life of a process, when
it is first asked: `take_shipped_font` asks first, and gives it a configuration of our own for that moment.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import ModuleType
from xml.sax.saxutils import escape

from schematics.document.lettering.text import FONT_FAMILY, FONT_FOLDER, font_size, letter_positions
from schematics.errors import MissingLibraryError

_CONFIGURATION = """\
<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd">
<fontconfig>
  <dir>{fonts}</dir>
  <cachedir>{cache}</cachedir>
  <config><rescan><int>0</int></rescan></config>
</fontconfig>
"""
"""No other font, no other setting, and never read again (rescan 0)."""

_SAMPLE = "Schematics 0123456789, WMil"
_SAMPLE_HEIGHT = 1000.0


def take_shipped_font(cairocffi: ModuleType) -> None:
    """Have cairo draw with the font that comes with the program, in this process and those forked from it.

    The environment is as it was when this returns; nothing stays in the folder for temporary files.

    Raises:
        MissingLibraryError: there is nowhere to put a temporary file, or cairo takes its fonts elsewhere:
            from a Mac's own system, or as another library in this process had fontconfig find them before.
    """
    try:
        with tempfile.TemporaryDirectory(prefix="schematics-") as scratch, _configured(Path(scratch)):
            as_measured = all(_is_as_measured(cairocffi, bold=bold) for bold in (False, True))
    except OSError as error:
        raise MissingLibraryError(
            f"PNG and PDF need a folder for temporary files: {error.strerror or error}. Name one in TMPDIR. "
            "The SVG files are complete without it."
        ) from error
    if not as_measured:
        raise MissingLibraryError(
            "PNG and PDF would be lettered with the wrong font: the cairo library did not take the one that "
            f"comes with the program. Install the fonts in {FONT_FOLDER} on this machine and try again. "
            "The SVG files are complete without it."
        )


@contextmanager
def _configured(scratch: Path) -> Iterator[None]:
    """Within it fontconfig, if it has not read its configuration yet, reads ours."""
    file = scratch / "fonts.conf"
    places = {"fonts": FONT_FOLDER, "cache": scratch / "cache"}
    file.write_text(
        _CONFIGURATION.format(**{name: escape(str(path)) for name, path in places.items()}), "utf-8"
    )
    before = {name: os.environ.pop(name, None) for name in ("FONTCONFIG_FILE", "FONTCONFIG_SYSROOT")}
    os.environ["FONTCONFIG_FILE"] = str(file)
    try:
        yield
    finally:
        for name, value in before.items():
            os.environ.pop(name, None)
            if value is not None:
                os.environ[name] = value


def _is_as_measured(cairocffi: ModuleType, *, bold: bool) -> bool:
    """Whether cairo letters as wide as `document.lettering` says; the first call settles the fonts."""
    options = cairocffi.FontOptions(
        hint_style=cairocffi.HINT_STYLE_NONE, hint_metrics=cairocffi.HINT_METRICS_OFF
    )
    context = cairocffi.Context(cairocffi.ImageSurface(cairocffi.FORMAT_A8, 1, 1))
    context.set_font_options(options)
    weight = cairocffi.FONT_WEIGHT_BOLD if bold else cairocffi.FONT_WEIGHT_NORMAL
    context.select_font_face(FONT_FAMILY.partition(",")[0], cairocffi.FONT_SLANT_NORMAL, weight)
    context.set_font_size(font_size(_SAMPLE_HEIGHT))
    measured = letter_positions(_SAMPLE, _SAMPLE_HEIGHT, bold=bold)[-1]
    drawn: float = context.text_extents(_SAMPLE)[4]
    return abs(drawn - measured) < measured / 1000
