"""Writing files whole, and never over what somebody else has written meanwhile.

A file keeps its mode, its owner and whatever links lead to it: a symbolic link is written through, and a
file with several names, or of another owner, is written where it stands, with a backup beside it meanwhile.
"""

from __future__ import annotations

import errno
import os
import shutil
import stat
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from schematics.errors import SchematicsError
from schematics.text_file import file_for_folder

_LONGEST_NAME = 200
"""Bytes of a file's name taken into that of a file beside it; systems allow 255 (``NAME_MAX`` on Linux)."""


class WriteError(SchematicsError):
    """A file could not be written; the text names the file and the reason."""


class DiskFullError(WriteError):
    """There is no room for any file, so that trying others is of no use."""


class ChangedError(WriteError):
    """What stands at the path is not what the caller expected; nothing was written."""


def refused(path: Path, error: OSError) -> WriteError:
    """The error to raise when the system refused to write ``path``; a file in place of a folder is named."""
    if isinstance(error, (FileExistsError, NotADirectoryError)) and (words := file_for_folder(path)):
        return WriteError(f"cannot write {path}: {words}")
    full = error.errno in (errno.ENOSPC, errno.EDQUOT)
    return (DiskFullError if full else WriteError)(f"cannot write {path}: {reason(error)}")


def reason(error: OSError) -> str:
    """Why the system refused, as the end of a sentence: ``no space left on device``."""
    words = error.strerror or str(error) or type(error).__name__
    return words[0].lower() + words[1:]


def write_whole(path: Path, content: bytes) -> None:
    """Write a file so that a reader finds the old content or the new, never a part.

    Missing folders are made. What an earlier run left beside the file when it was killed is removed.

    Raises:
        WriteError: the system refused, the file is read-only, or what is there is no file.
    """
    _put(path, content, lambda _: True)


def write_new(path: Path, content: bytes) -> None:
    """Write a file as `write_whole` does where there is none.

    Raises:
        ChangedError: something is there.
        WriteError: as `write_whole`.
    """
    _put(path, content, lambda now: now is None)


def write_over(path: Path, before: bytes, content: bytes) -> None:
    """Write a file as `write_whole` does if its content still is ``before`` at the last moment.

    Raises:
        ChangedError: it is not.
        WriteError: as `write_whole`.
    """
    _put(path, content, lambda now: now == before)


def _put(path: Path, content: bytes, expected: Callable[[bytes | None], bool]) -> None:
    try:
        target = _target(path)
        if not path.name or (target.exists() and not target.is_file()):
            raise WriteError(f"cannot write {path}: that is a folder or a device, not a file")
        target.parent.mkdir(parents=True, exist_ok=True)
        with _alone_in(target.parent):
            _put_alone(path, target, content, expected)
    except OSError as error:
        raise refused(path, error) from error


def _target(path: Path) -> Path:
    """The file itself where the path is a symbolic link."""
    try:
        return path.resolve()
    except RuntimeError:  # before Python 3.13, where it is left as it is
        raise WriteError(f"cannot write {path}: the symbolic link leads back to itself") from None


def _put_alone(path: Path, target: Path, content: bytes, expected: Callable[[bytes | None], bool]) -> None:
    """`_put` once no other run of the program writes in the folder."""
    waiting, backup = _beside(target, "waiting"), _beside(target, "before")
    waiting.unlink(missing_ok=True)
    if backup.exists():
        raise WriteError(
            f"cannot write {path}: a run was stopped while it wrote it, and what stood there before is in "
            f"{backup}; put that back or delete it, then try again"
        )
    there = target.stat() if target.exists() else None
    if there and not (there.st_mode & 0o222 and os.access(target, os.W_OK)):
        raise WriteError(f"cannot write {path}: it is read-only")
    try:
        _lay(waiting, content)
        replaceable = not there or (there.st_nlink == 1 and _take_after(waiting, target, there))
        now = _content(target)
        if not expected(now):
            raise ChangedError(f"{path}: the file has changed since it was read; nothing was written to it")
        if replaceable:
            waiting.replace(target)
        else:
            waiting.unlink()
            _overwrite(path, target, now or b"", content, backup)
    except BaseException:
        waiting.unlink(missing_ok=True)
        raise


def _overwrite(path: Path, target: Path, before: bytes, content: bytes, backup: Path) -> None:
    """Write a file where it stands, so that all its names and its owner stay."""
    _lay(backup, before)
    with target.open("r+b", buffering=0) as file:
        try:
            _fill(file.fileno(), content)
        except BaseException:
            try:
                _fill(file.fileno(), before)
            except OSError as error:
                raise WriteError(
                    f"cannot write {path}: {reason(error)}; what stood there before is in {backup}"
                ) from error
            backup.unlink()
            raise
    backup.unlink()


def _fill(descriptor: int, content: bytes) -> None:
    done = 0
    while done < len(content):
        done += os.pwrite(descriptor, content[done:], done)
    os.ftruncate(descriptor, len(content))
    os.fsync(descriptor)


def _lay(path: Path, content: bytes) -> None:
    """Write a file that was not there; it is gone again when that fails."""
    with path.open("xb") as file:
        try:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        except BaseException:
            path.unlink()
            raise


def _take_after(waiting: Path, target: Path, there: os.stat_result) -> bool:
    """Give the waiting file the owner, mode and attributes of the one it replaces; whether that can be."""
    own = waiting.stat()
    if (own.st_uid, own.st_gid) != (there.st_uid, there.st_gid):
        try:
            os.chown(waiting, there.st_uid, there.st_gid)
        except PermissionError:
            return False
    shutil.copystat(target, waiting)
    os.utime(waiting)
    return stat.S_IMODE(waiting.stat().st_mode) == stat.S_IMODE(there.st_mode)


def _content(path: Path) -> bytes | None:
    try:
        return path.read_bytes()
    except FileNotFoundError:
        return None


def _beside(target: Path, ending: str) -> Path:
    """A file in the same folder that is the program's own: ``.lake.yaml.schematics-waiting``."""
    name = target.name.encode()[:_LONGEST_NAME].decode(errors="ignore")
    return target.with_name(f".{name}.schematics-{ending}")


@contextmanager
def _alone_in(folder: Path) -> Iterator[None]:
    """Keep other runs of the program from writing in the folder, where the system can."""
    try:
        from fcntl import LOCK_EX, flock
    except ImportError:  # Windows
        yield
        return
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        with suppress(OSError):  # some network folders know no locks
            flock(descriptor, LOCK_EX)
        yield
    finally:
        os.close(descriptor)
