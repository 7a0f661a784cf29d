"""One run at a time in an output folder; a run that is killed leaves no lock behind."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from schematics.reading.files.saving import refused

LOCK = ".schematics.lock"


@contextmanager
def locked(out: Path) -> Iterator[None]:
    """Have the folder to oneself; where another run is at work, wait until it is done.

    Raises:
        WriteError: the folder cannot be made, or nothing can be written to it.
    """
    from filelock import FileLock

    try:
        out.mkdir(parents=True, exist_ok=True)
        lock = FileLock(out / LOCK)
        lock.acquire()
    except OSError as error:
        raise refused(out / LOCK, error) from error
    try:
        yield
    finally:
        lock.release()
