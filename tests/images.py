"""Small images and a font, made here or shipped with the program."""

from __future__ import annotations

import io

from PIL import Image

from schematics.document.lettering.text import FONT_FOLDER


def image(kind: str, width: int = 60, height: int = 40) -> bytes:
    """A plain image of that kind, by Pillow."""
    file = io.BytesIO()
    Image.new("RGB", (width, height), "teal").save(file, kind)
    return file.getvalue()


JPEG, PNG = image("JPEG"), image("PNG")
SVG = b"<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 30 20'><circle cx='15' cy='10' r='8'/></svg>"
FONT = next(path for path in sorted(FONT_FOLDER.iterdir()) if path.suffix == ".ttf").read_bytes()
