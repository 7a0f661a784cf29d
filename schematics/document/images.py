"""Images and fonts that a designer gives: what is in the files, and whether they can be printed.

They are opened by the typesetter that prints them, so that what is taken here is printed there.
"""

from __future__ import annotations

import math
import re
import struct
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from pathlib import Path

import typst

MOST_MB = 4
"""A file of an image or a font is no larger, in millions of bytes: pages stay light enough to be sent."""

_MOST_PIXELS = 8000
"""The longer side of an image."""

_OUTSIDE = re.compile(
    r"""(?:href|src)\s*=\s*["']\s*(?!#|data:)|url\(\s*["']?(?!#|data:)|<!ENTITY|<script""", re.I
)
_LENGTH = re.compile(r"\s*([0-9.]+)\s*(px|mm|cm|in|pt|)\s*")
_FRAMES = {0xC0, 0xC1, 0xC2, 0xC3, 0xC5, 0xC6, 0xC7, 0xC9, 0xCA, 0xCB, 0xCD, 0xCE, 0xCF}
"""Segments of a JPEG that begin a frame (ITU-T T.81, table B.1)."""


def image_size(content: bytes, name: str) -> tuple[float, float]:
    """Width and height of an image, in pixels, or of an SVG in its own units.

    Raises:
        ValueError: it is not an image of the kind that its name says, or it is too large.
    """
    if len(content) > MOST_MB * 1_000_000:
        raise ValueError(f"expected an image of {MOST_MB} MB at most, got {len(content) / 1e6:.1f} MB")
    ending = name.rpartition(".")[2].casefold()
    reader = {"png": _png_size, "svg": _svg_size}.get(ending, _jpeg_size)
    size = reader(content)
    if size is None or not all(math.isfinite(each) and each > 0 for each in size):
        raise ValueError(f"expected an image, got a file that is no {_KINDS[ending]}")
    if ending != "svg" and max(size) > _MOST_PIXELS:
        raise ValueError(
            f"expected an image of {_MOST_PIXELS} pixels a side at most, got {size[0]} x {size[1]}"
        )
    if ending == "svg" and _OUTSIDE.search(content.decode("utf-8", errors="replace")):
        raise ValueError(
            "expected an image by itself, got an SVG that refers to other files or holds a script"
        )
    return size


_KINDS = {"png": "PNG", "svg": "SVG", "jpg": "JPEG", "jpeg": "JPEG"}


def image_fault(path: Path) -> str:
    """Why the image at ``path`` cannot be printed, in words for its author; empty if it can."""
    try:
        image_size(path.read_bytes(), path.name)
    except ValueError as error:
        return str(error)
    except OSError as error:
        return f"expected an image, got a file that cannot be read: {error.strerror}"
    source = f"#set page(width: auto, height: auto)\n#image({_quoted(path.name)}, width: 1cm)"
    try:
        typst.Compiler(source.encode(), root=path.parent, ignore_system_fonts=True).compile(format="svg")
    except typst.TypstError:
        return f"expected an image, got a file that is no whole {_KINDS[path.suffix[1:].casefold()]}"
    return ""


def svg_to_png(content: bytes) -> bytes:
    """An SVG as PNG, for a reader that has none, 300 dots to the inch where it is 10 cm wide or less."""
    source = "#set page(width: auto, height: auto, margin: 0pt)\n#image(bytes(sys.inputs.svg), width: 10cm)"
    compiler = typst.Compiler(source.encode(), sys_inputs={"svg": content.decode()}, ignore_system_fonts=True)
    png = compiler.compile(format="png", ppi=300)
    assert isinstance(png, bytes)
    return png


def _quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _png_size(content: bytes) -> tuple[float, float] | None:
    """After ISO/IEC 15948, 11.2.2: the header comes first."""
    if content[:8] != b"\x89PNG\r\n\x1a\n" or content[12:16] != b"IHDR" or len(content) < 24:
        return None
    width, height = struct.unpack(">II", content[16:24])
    return width, height


def _jpeg_size(content: bytes) -> tuple[float, float] | None:
    """The first frame header after ITU-T T.81, B.2.2."""
    for marker, segment in _segments(content):
        if marker in _FRAMES and len(segment) >= 5:
            height, width = struct.unpack(">HH", segment[1:5])
            return width, height
    return None


def _segments(content: bytes) -> Iterator[tuple[int, bytes]]:
    """Marker and content of each segment up to the first scan."""
    at = 2 if content[:2] == b"\xff\xd8" else len(content)
    while at + 4 <= len(content) and content[at] == 0xFF:
        marker, size = content[at + 1], int.from_bytes(content[at + 2 : at + 4], "big")
        yield marker, content[at + 4 : at + 2 + size]
        at += 2 + size


def _svg_size(content: bytes) -> tuple[float, float] | None:
    """By its view box, else its width and height."""
    try:
        root = ET.fromstring(content)
    except ET.ParseError:
        return None
    if root.tag.rpartition("}")[2] != "svg":
        return None
    numbers = re.findall(r"-?[0-9.]+", root.get("viewBox", ""))
    sides = numbers[2:] if len(numbers) == 4 else [_side(root, "width"), _side(root, "height")]
    return (float(sides[0]), float(sides[1])) if all(sides) else None


def _side(root: ET.Element, name: str) -> str:
    match = _LENGTH.fullmatch(root.get(name, ""))
    return match[1] if match else ""
