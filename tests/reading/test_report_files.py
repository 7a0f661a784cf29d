"""Writing files whole."""

from __future__ import annotations

import errno
import os
import stat
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from schematics.reading.files.saving import ChangedError, WriteError, write_new, write_output, write_whole
from tests.program import without_privileges


def no_space(*_args: object) -> None:
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def test_makes_the_folders_and_writes_the_content(tmp_path: Path) -> None:
    path = tmp_path / "a" / "b" / "file.svg"
    write_whole(path, b"content")
    assert path.read_bytes() == b"content"
    assert [each.name for each in path.parent.iterdir()] == ["file.svg"]


def test_replaces_the_old_content(tmp_path: Path) -> None:
    path = tmp_path / "file.svg"
    path.write_bytes(b"old and longer")
    write_whole(path, b"new")
    assert path.read_bytes() == b"new"


def test_permissions_are_those_of_any_new_file(tmp_path: Path) -> None:
    usual = tmp_path / "usual"
    usual.write_bytes(b"")
    write_whole(tmp_path / "ours", b"")
    assert stat.S_IMODE((tmp_path / "ours").stat().st_mode) == stat.S_IMODE(usual.stat().st_mode)


@pytest.mark.parametrize("call", ["fsync", "replace"])
def test_a_failure_in_the_middle_leaves_the_old_file_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: str
) -> None:
    path = tmp_path / "file.svg"
    path.write_bytes(b"old")
    monkeypatch.setattr(*{"fsync": (os, "fsync"), "replace": (Path, "replace")}[call], no_space)
    with pytest.raises(WriteError) as caught:
        write_whole(path, b"new")
    assert str(caught.value) == f"cannot write {path}: no space left on device"
    assert path.read_bytes() == b"old"
    assert [each.name for each in tmp_path.iterdir()] == ["file.svg"], "the hidden file is gone"


def test_an_interruption_in_the_middle_leaves_the_old_file_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupt(_descriptor: int) -> None:
        raise KeyboardInterrupt

    path = tmp_path / "file.svg"
    path.write_bytes(b"old")
    monkeypatch.setattr(os, "fsync", interrupt)
    with pytest.raises(KeyboardInterrupt):
        write_whole(path, b"new")
    assert path.read_bytes() == b"old"
    assert [each.name for each in tmp_path.iterdir()] == ["file.svg"]


def test_a_file_where_a_folder_should_be(tmp_path: Path) -> None:
    (tmp_path / "output").write_text("mine")
    path = tmp_path / "output" / "file.svg"
    with pytest.raises(
        WriteError, match=r"^cannot write .*file\.svg: .*/output is a file, not a folder; move it away$"
    ):
        write_whole(path, b"new")
    assert (tmp_path / "output").read_text() == "mine"


def test_a_folder_where_the_file_should_be(tmp_path: Path) -> None:
    (tmp_path / "file.svg").mkdir()
    with pytest.raises(WriteError, match="that is a folder or a device, not a file"):
        write_whole(tmp_path / "file.svg", b"new")
    assert [each.name for each in tmp_path.iterdir()] == ["file.svg"]


WRITE = "import sys; from pathlib import Path; from schematics.reading.files.saving import *; "
TRY = (
    WRITE
    + """
try:
    write_whole(Path(sys.argv[1]), b'new')
except WriteError as error:
    print(error)
"""
)


@pytest.mark.slow
@pytest.mark.parametrize("inside", ["", "a/b/"])
def test_a_folder_that_may_not_be_written(inside: str, tmp_path: Path) -> None:
    before = without_privileges()
    tmp_path.chmod(0o500)
    path = tmp_path / f"{inside}file.svg"
    said = subprocess.run(
        [*before, sys.executable, "-c", TRY, str(path)], capture_output=True, text=True, check=True
    ).stdout
    assert said == (
        f"cannot write {path}: nothing may be written in the folder {tmp_path}; allow it, or work on a copy "
        "in another folder\n"
    )
    assert list(tmp_path.iterdir()) == []


def hold(folder: Path) -> int:
    """Lock a folder as a run of the program does that writes there."""
    fcntl = pytest.importorskip("fcntl")
    descriptor = os.open(folder, os.O_RDONLY)
    fcntl.flock(descriptor, fcntl.LOCK_EX)
    return descriptor


def test_another_run_that_does_not_end_is_told_of(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    descriptor = hold(tmp_path)
    slept: list[float] = []
    monkeypatch.setattr(time, "sleep", slept.append)
    path = tmp_path / "file.svg"
    with pytest.raises(WriteError) as caught:
        write_whole(path, b"new")
    os.close(descriptor)
    assert str(caught.value) == (
        f"cannot write {path}: another run of the program keeps writing in {tmp_path}; wait for it or end "
        "it, then try again"
    )
    assert (slept, list(tmp_path.iterdir())) == ([0.1] * 50, [])


def test_another_run_is_waited_for(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    descriptor, tries = hold(tmp_path), iter(range(50))
    path = tmp_path / "file.svg"

    def sleep(_seconds: float) -> None:
        assert not path.exists()
        if next(tries) == 3:
            os.close(descriptor)

    monkeypatch.setattr(time, "sleep", sleep)
    write_whole(path, b"new")
    assert (next(tries), path.read_bytes()) == (4, b"new")


@pytest.mark.parametrize("write", [write_new, write_whole])
def test_a_file_that_comes_up_at_the_last_moment_stays(
    write: Callable[[Path, bytes], None], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    honest = Path.hardlink_to

    def come_up(path: Path, target: Path) -> None:
        path.write_bytes(b"mine")
        honest(path, target)

    monkeypatch.setattr(Path, "hardlink_to", come_up)
    path = tmp_path / "lake.yaml"
    with pytest.raises(ChangedError, match="nothing was written to it"):
        write(path, b"new")
    assert path.read_bytes() == b"mine"
    assert list(tmp_path.iterdir()) == [path]


def test_where_a_file_has_one_name_only_it_is_moved(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise OSError(errno.EPERM, os.strerror(errno.EPERM))

    monkeypatch.setattr(Path, "hardlink_to", refuse)
    write_new(tmp_path / "lake.yaml", b"new")
    assert (tmp_path / "lake.yaml").read_bytes() == b"new"
    assert len(list(tmp_path.iterdir())) == 1


@pytest.mark.parametrize("there", [None, b"", b"<svg ours>old"])
def test_output_is_written_over_its_like(there: bytes | None, tmp_path: Path) -> None:
    path = tmp_path / "chart.svg"
    if there is not None:
        path.write_bytes(there)
    write_output(path, b"<svg ours>new", b"<svg ours>")
    assert path.read_bytes() == b"<svg ours>new"


@pytest.mark.parametrize("there", [b"<svg theirs>", b"title: Lake", b"<svg", b"\xff\x00"])
def test_output_is_written_over_no_other_file(there: bytes, tmp_path: Path) -> None:
    path = tmp_path / "chart.svg"
    path.write_bytes(there)
    with pytest.raises(WriteError) as caught:
        write_output(path, b"<svg ours>new", b"<svg ours>")
    assert str(caught.value) == (
        f"cannot write {path}: the file there is not one that the program drew; name another, or move it away"
    )
    assert path.read_bytes() == there
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="pipes with a name exist on POSIX systems only")
def test_a_pipe_is_not_replaced(tmp_path: Path) -> None:
    """Nor is a device, which would be lost to every other program."""
    path = tmp_path / "pipe"
    os.mkfifo(path)
    with pytest.raises(WriteError, match=r"pipe: that is a folder or a device, not a file"):
        write_whole(path, b"")
    assert path.is_fifo()
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize("name", ["", ".", "/"])
def test_a_path_without_a_name(name: str) -> None:
    with pytest.raises(WriteError, match="that is a folder or a device, not a file"):
        write_whole(Path(name), b"")
