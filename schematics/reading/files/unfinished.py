"""What a run that was stopped leaves beside the file it was writing where it stands.

A file with several names is not replaced but filled anew. While that goes on two hidden files are beside
it, both whole before its first byte is touched: ``.lake.yaml.schematics-before`` has what stood in it, and
``.lake.yaml.schematics-waiting`` what is to. By these whoever comes next knows a file that is torn.
"""

from __future__ import annotations

from enum import Enum
from pathlib import Path

_BYTES_OF_NAME = 200
"""Bytes of a file's name taken into that of a file beside it; systems allow 255 (``NAME_MAX`` on Linux)."""


class State(Enum):
    """What state a file is in beside which something may have been left.

    ``WHOLE``: it is as it was before, or as it was to be, or nothing was left. ``TORN``: it is partly one and
    partly the other. ``CHANGED``: it is neither, so that somebody else has written it since, or it is gone.
    """

    WHOLE = "whole"
    TORN = "torn"
    CHANGED = "changed"


def waiting_beside(file: Path) -> Path:
    """The path at which the new content of a file waits."""
    return _beside(file, "waiting")


def backup_beside(file: Path) -> Path:
    """Where the old content of a file is kept while it is written where it stands."""
    return _beside(file, "before")


def _beside(file: Path, ending: str) -> Path:
    name = file.name.encode(errors="surrogateescape")[:_BYTES_OF_NAME].decode(errors="ignore")
    return file.with_name(f".{name}.schematics-{ending}")


def state_of(file: Path, now: bytes | None) -> State:
    """The state of a file, which is no symbolic link, with the content ``now``; None where there is none.

    Raises:
        OSError: what is beside it cannot be read.
    """
    before, after = bytes_of(backup_beside(file)), bytes_of(waiting_beside(file))
    if before is None:
        return State.WHOLE
    if now is None:
        return State.CHANGED
    if now in (before, after):
        return State.WHOLE
    if after is None:  # nothing was written yet; the backup may not be all there
        return State.WHOLE if now.startswith(before) else State.CHANGED
    return State.TORN if is_torn(now, before, after) else State.CHANGED


def bytes_of(file: Path) -> bytes | None:
    """The bytes of a file; None where there is none."""
    try:
        return file.read_bytes() if file.is_file() else None
    except FileNotFoundError:
        return None


def is_torn(now: bytes, before: bytes, after: bytes) -> bool:
    """Whether ``now`` is a beginning of ``before``, then a stretch of ``after``, then ``before`` to its end.

    Contents are written from their first byte on, the new one and, where that fails, the old one again; so
    that is what a file looks like at any moment in between.
    """
    start = _alike(now, before, 0)
    end = _alike(now, after, start)
    return now[end:] == before[end:]


def _alike(one: bytes, other: bytes, start: int) -> int:
    """Where, from ``start`` on, two contents are no longer alike."""
    pairs = enumerate(zip(one[start:], other[start:], strict=False), start)
    shorter = max(start, min(len(one), len(other)))
    return next((at for at, (a, b) in pairs if a != b), shorter)


def fault(path: Path, file: Path, state: State) -> str:
    """What to say of a file that is not whole, without its name, which is ``path``."""
    backup = backup_beside(file)
    if state is State.TORN:
        return (
            f"a run was stopped while it wrote this file; what stood there before is in {backup}, and "
            f"schematics grade --write {path} puts it back"
        )
    return (
        f"a run was stopped while it wrote this file, which has changed since; what stood there before is in "
        f"{backup}; put that back or delete it, then try again"
    )
