"""Writing files whole, and folder names that every file system takes."""

from __future__ import annotations

import os
import re
import unicodedata
from collections.abc import Iterable
from pathlib import Path

from schematics.errors import SchematicsError

_UNSAFE = re.compile(r'[\s<>:"/\\|?*\x00-\x1f\x7f]+')
_LONGEST_BYTES = 100
_RESERVED = {
    "con",
    "prn",
    "aux",
    "nul",
    *(f"{device}{digit}" for device in ("com", "lpt") for digit in "123456789"),
}


class WriteError(SchematicsError):
    """A file could not be written; the text names the file and the reason."""


def reason(error: OSError) -> str:
    """Why the system refused, as the end of a sentence: ``no space left on device``."""
    words = error.strerror or str(error) or type(error).__name__
    return words[0].lower() + words[1:]


def write_whole(path: Path, content: bytes) -> None:
    """Write a file so that a reader finds the old content or the new, never a part.

    Missing folders are made. The content goes to a hidden file in the same folder, which then
    takes the place of ``path``; when anything fails the hidden file is removed.

    Raises:
        WriteError: the system refused.
    """
    beside = path.with_name(f".{path.name}.{os.getpid()}.tmp")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        try:
            with beside.open("wb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
            beside.replace(path)
        except BaseException:
            beside.unlink(missing_ok=True)
            raise
    except OSError as error:
        raise WriteError(f"cannot write {path}: {reason(error)}") from error


def folder_name(name: str) -> str:
    """``name`` as the name of a folder: blanks and what file systems refuse become ``-``."""
    encodable = name.encode(errors="replace").decode()
    safe = _UNSAFE.sub("-", unicodedata.normalize("NFC", encodable).strip()).strip(".-")
    safe = safe.encode()[:_LONGEST_BYTES].decode(errors="ignore").rstrip(".-")
    if safe.lower().partition(".")[0] in _RESERVED:
        safe = f"{safe}-"
    return safe or "unnamed"


def folder_names(names: Iterable[str]) -> dict[str, str]:
    """A folder for each name, in order; where two would share one, the later gets a number.

    Names that differ only in capitals share a folder on some systems, so they are numbered too.
    """
    folders: dict[str, str] = {}
    taken: set[str] = set()
    for name in names:
        plain = folder_name(name)
        folder, number = plain, 1
        while folder.casefold() in taken:
            number += 1
            folder = f"{plain}-{number}"
        taken.add(folder.casefold())
        folders[name] = folder
    return folders
