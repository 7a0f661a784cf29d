"""Writing files whole."""

from __future__ import annotations

import errno
import os
import secrets
from pathlib import Path

from schematics.errors import SchematicsError


class WriteError(SchematicsError):
    """A file could not be written; the text names the file and the reason."""


class DiskFullError(WriteError):
    """There is no room for any file, so that trying others is of no use."""


def refused(path: Path, error: OSError) -> WriteError:
    """The error to raise when the system refused to write ``path``."""
    full = error.errno in (errno.ENOSPC, errno.EDQUOT)
    return (DiskFullError if full else WriteError)(f"cannot write {path}: {reason(error)}")


def reason(error: OSError) -> str:
    """Why the system refused, as the end of a sentence: ``no space left on device``."""
    words = error.strerror or str(error) or type(error).__name__
    return words[0].lower() + words[1:]


def write_whole(path: Path, content: bytes) -> None:
    """Write a file so that a reader finds the old content or the new, never a part.

    Missing folders are made. The content goes to a hidden file in the same folder, which then
    takes the place of ``path``; when anything fails the hidden file is removed.

    Raises:
        WriteError: the system refused, or what is there is no file.
    """
    try:
        if not path.name or (path.exists() and not path.is_file()):
            raise WriteError(f"cannot write {path}: that is a folder or a device, not a file")
        beside = path.with_name(f".{secrets.token_hex(8)}.tmp")
        path.parent.mkdir(parents=True, exist_ok=True)
        try:
            with beside.open("xb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
            beside.replace(path)
        except BaseException:
            beside.unlink(missing_ok=True)
            raise
    except OSError as error:
        raise refused(path, error) from error
