"""What decides a drawing, as digests: the spec, the options, the program with its charts and libraries."""

from __future__ import annotations

import hashlib
import platform
from functools import cache
from importlib import metadata
from pathlib import Path

_PACKAGE = Path(__file__).parents[1]
_DRAWN_WITH = ("cairocffi", "jinja2", "numpy", "pypdf", "python-docx", "shapely", "svgwrite", "typst")
"""Libraries another version of which may draw or write otherwise."""


def digest(*parts: bytes | str) -> str:
    """SHA-256 over the parts, in hexadecimal; which bytes belong to which part counts, too."""
    hasher = hashlib.sha256()
    for part in parts:
        content = part.encode() if isinstance(part, str) else part
        hasher.update(f"{len(content)}:".encode())
        hasher.update(content)
    return hasher.hexdigest()


def sha256(content: bytes) -> str:
    """SHA-256 of a file's content, as ``sha256sum`` prints it."""
    return hashlib.sha256(content).hexdigest()


@cache
def program_digest() -> str:
    """The program as it is installed: its source, charts and templates, and the libraries it draws with."""
    files = sorted(
        path for path in _PACKAGE.rglob("*") if path.is_file() and path.suffix not in (".pyc", ".tmp")
    )
    parts: list[bytes | str] = [platform.python_version(), *map(_version, _DRAWN_WITH)]
    for path in files:
        parts += [path.relative_to(_PACKAGE).as_posix(), path.read_bytes()]
    return digest(*parts)


def _version(library: str) -> str:
    try:
        return f"{library} {metadata.version(library)}"
    except metadata.PackageNotFoundError:
        return library
