"""Writing files whole, and never over what somebody else has written meanwhile.

A file keeps its mode, its owner and whatever links lead to it: a symbolic link is written through, and a
file with several names, of another owner, or that is a mount point, is written where it stands, with its old
and new content beside it meanwhile (see `unfinished`).
"""

from __future__ import annotations

import errno
import os
import shutil
import stat
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from schematics.errors import SchematicsError
from schematics.reading.files.text_file import file_for_folder
from schematics.reading.files.unfinished import (
    State,
    backup_beside,
    bytes_of,
    fault,
    state_of,
    waiting_beside,
)

_TRIES, _PAUSE_S = 50, 0.1
"""How often, and after which pause, a folder is tried in which another run is writing."""

Expected = Callable[[bytes | None], bool]
"""Whether a file may be written over that has such a content, None where there is no file."""


class WriteError(SchematicsError):
    """A file could not be written; the text names the file and the reason."""


class DiskFullError(WriteError):
    """There is no room for any file, so that trying others is of no use."""


class ChangedError(WriteError):
    """What is at the path is not what the caller expected; nothing was written."""


def refused(path: Path, error: OSError) -> WriteError:
    """The error to raise when the system refused to write ``path``; a folder that is at fault is named."""
    if isinstance(error, (FileExistsError, NotADirectoryError)) and (words := file_for_folder(path)):
        return WriteError(f"cannot write {path}: {words}; move it away")
    if isinstance(error, PermissionError) and (folder := _closed_folder(path)):
        return WriteError(
            f"cannot write {path}: nothing may be written in the folder {folder}; allow it, or work on a "
            "copy in another folder"
        )
    full = error.errno in (errno.ENOSPC, errno.EDQUOT)
    return (DiskFullError if full else WriteError)(f"cannot write {path}: {reason(error)}")


def _closed_folder(path: Path) -> Path | None:
    """The folder that would take the file, or a folder for it, if nothing may be written there."""
    folder = next(each for each in path.absolute().parents if os.access(each, os.F_OK))
    return None if os.access(folder, os.W_OK | os.X_OK) else folder


def reason(error: OSError) -> str:
    """Why the system refused, as the end of a sentence: ``no space left on device``."""
    words = error.strerror or str(error) or type(error).__name__
    return words[0].lower() + words[1:]


def write_whole(path: Path, content: bytes, expected: Expected = lambda _: True) -> None:
    """Write a file so that a reader finds the old content or the new, never a part.

    Missing folders are made. What an earlier run left beside the file when it was stopped is removed, after
    the file has got its old content back if it was torn.

    Args:
        path: the file.
        content: what to write.
        expected: asked at the last moment whether what is there then may be written over.

    Raises:
        ChangedError: it is not as expected, or there was no file, and now there is one.
        WriteError: the system refused, the file is read-only, or what is there is no file.
    """
    try:
        target = _target(path)
        if not path.name or (target.exists() and not target.is_file()):
            raise WriteError(f"cannot write {path}: that is a folder or a device, not a file")
        target.parent.mkdir(parents=True, exist_ok=True)
        with _alone_in(target.parent, path):
            _settle(path, target)
            _write_alone(path, target, content, expected)
    except OSError as error:
        raise refused(path, error) from error


def write_new(path: Path, content: bytes) -> None:
    """Write a file as `write_whole` does where there is none.

    Raises:
        ChangedError: something is there.
        WriteError: as `write_whole`.
    """
    write_whole(path, content, lambda now: now is None)


def write_output(path: Path, content: bytes, opening: bytes) -> None:
    """Write a file the user has named for output, over none but one of the same kind or an empty one.

    Args:
        path: the file.
        content: what to write.
        opening: how all files of the kind that the program writes begin.

    Raises:
        WriteError: what is there begins otherwise, or as `write_whole`.
    """
    try:
        write_whole(path, content, lambda now: not now or now.startswith(opening))
    except ChangedError:
        raise WriteError(
            f"cannot write {path}: the file there is not one that the program drew; name another, or move it "
            "away"
        ) from None


def put_back(path: Path) -> bool:
    """Give a file its old content back if a run was stopped in the middle of writing it.

    What that run, or any other, left beside the file is removed.

    Returns:
        Whether the file was torn.

    Raises:
        WriteError: the file has changed since, so that it is not known what to do, or the system refused.
    """
    if not os.access(path, os.F_OK):
        return False  # whoever reads it says why
    try:
        target = _target(path)
        if not target.is_file() or not any(map(os.path.lexists, _left(target))):
            return False
        with _alone_in(target.parent, path):
            return _settle(path, target)
    except OSError as error:
        raise refused(path, error) from error


def _target(path: Path) -> Path:
    """The file itself where the path is a symbolic link."""
    try:
        return path.resolve()
    except RuntimeError:  # before Python 3.13, where it is left as it is
        raise WriteError(f"cannot write {path}: the symbolic link leads back to itself") from None


def _left(target: Path) -> tuple[Path, Path]:
    """What may be left beside a file, in the order in which it is removed."""
    return backup_beside(target), waiting_beside(target)


def _settle(path: Path, target: Path) -> bool:
    """`put_back` once no other run of the program writes in the folder."""
    for each in _left(target):
        if each.is_dir():
            raise WriteError(f"cannot write {path}: {each} is a folder; move it away")
    state = state_of(target, bytes_of(target))
    if state is State.CHANGED:
        raise WriteError(f"{path}: {fault(path, target, state)}")
    if state is State.TORN:
        with target.open("r+b", buffering=0) as file:
            _fill(file.fileno(), backup_beside(target).read_bytes())
    for each in _left(target):
        each.unlink(missing_ok=True)
    return state is State.TORN


def _write_alone(path: Path, target: Path, content: bytes, expected: Expected) -> None:
    """`write_whole` once nothing is left beside the file and no other run writes in the folder."""
    backup, waiting = _left(target)
    there = target.stat() if target.exists() else None
    if there and not (there.st_mode & 0o222 and os.access(target, os.W_OK)):
        raise WriteError(f"cannot write {path}: it is read-only")
    try:
        alike = _lay(waiting, content, target if there else None)
        if there and (there.st_nlink > 1 or not alike):
            _overwrite(path, target, content, expected)
        else:
            _replace(path, target, content, expected)
    finally:
        if not backup.exists():
            waiting.unlink(missing_ok=True)


def _replace(path: Path, target: Path, content: bytes, expected: Expected) -> None:
    """Have what waits take the place of a file, or the name of one that is not there."""
    waiting = waiting_beside(target)
    now = _as_expected(path, target, expected)
    if now is None and _named(path, target, waiting):
        return
    try:
        waiting.replace(target)
    except OSError as error:
        if error.errno != errno.EBUSY:
            raise
        _overwrite(path, target, content, expected)


def _named(path: Path, target: Path, waiting: Path) -> bool:
    """Give what waits the name of a file that is not there, whoever else does that; False where none can."""
    try:
        target.hardlink_to(waiting)
    except FileExistsError:
        raise _changed(path) from None
    except OSError:  # some file systems know no second names
        return False
    return True


def _overwrite(path: Path, target: Path, content: bytes, expected: Expected) -> None:
    """Write a file where it stands, so that all its names and its owner stay."""
    backup = backup_beside(target)
    before = _as_expected(path, target, expected) or b""
    _lay(backup, before, target)
    whole = True
    try:
        with target.open("r+b", buffering=0) as file:
            if file.readall() != before or not os.path.samestat(os.fstat(file.fileno()), target.stat()):
                raise _changed(path)
            whole = False
            try:
                _fill(file.fileno(), content)
            except BaseException:
                _fill(file.fileno(), before)
                whole = True
                raise
            whole = True
    except OSError as error:
        if whole:
            raise
        raise WriteError(
            f"cannot write {path}: {reason(error)}; what stood there before is in {backup}"
        ) from error
    finally:
        if whole:
            backup.unlink()


def _as_expected(path: Path, target: Path, expected: Expected) -> bytes | None:
    now = bytes_of(target)
    if not expected(now):
        raise _changed(path)
    return now


def _changed(path: Path) -> ChangedError:
    return ChangedError(f"{path}: the file has changed since it was read; nothing was written to it")


def _fill(descriptor: int, content: bytes) -> None:
    done = 0
    while done < len(content):
        done += os.pwrite(descriptor, content[done:], done)
    os.ftruncate(descriptor, len(content))
    os.fsync(descriptor)


def _lay(path: Path, content: bytes, like: Path | None) -> bool:
    """Write a file that was not there; it is gone again when that fails.

    Returns:
        Whether it has the owner and mode of the file ``like``; nobody else may read it before it has.
    """
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
    descriptor = os.open(path, flags, 0o600 if like else 0o666)
    with os.fdopen(descriptor, "wb") as file:
        try:
            alike = not like or _take_after(path, like)
            file.write(content)
            file.flush()
            os.fsync(descriptor)
        except BaseException:
            path.unlink()
            raise
    return alike


def _take_after(path: Path, like: Path) -> bool:
    """Give a file the owner, mode and attributes of another; whether that can be."""
    own, other = path.stat(), like.stat()
    if (own.st_uid, own.st_gid) != (other.st_uid, other.st_gid):
        try:
            os.chown(path, other.st_uid, other.st_gid)
        except PermissionError:
            return False
    shutil.copystat(like, path)
    return stat.S_IMODE(path.stat().st_mode) == stat.S_IMODE(other.st_mode)


@contextmanager
def _alone_in(folder: Path, path: Path) -> Iterator[None]:
    """Keep other runs of the program from writing in the folder, where the system can."""
    try:
        from fcntl import LOCK_EX, LOCK_NB, flock
    except ImportError:  # Windows
        yield
        return
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        for _ in range(_TRIES):
            try:
                flock(descriptor, LOCK_EX | LOCK_NB)
            except BlockingIOError:
                time.sleep(_PAUSE_S)
                continue
            except OSError:  # some network folders know no locks
                pass
            break
        else:
            raise WriteError(
                f"cannot write {path}: another run of the program keeps writing in {folder}; wait for it or "
                "end it, then try again"
            )
        yield
    finally:
        os.close(descriptor)
