"""Writing files whole."""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path

import pytest

from schematics.report.files import WriteError, write_whole


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
    with pytest.raises(WriteError, match=r"^cannot write .*file\.svg: .*/output is a file, not a folder$"):
        write_whole(path, b"new")
    assert (tmp_path / "output").read_text() == "mine"


def test_a_folder_where_the_file_should_be(tmp_path: Path) -> None:
    (tmp_path / "file.svg").mkdir()
    with pytest.raises(WriteError, match="that is a folder or a device, not a file"):
        write_whole(tmp_path / "file.svg", b"new")
    assert [each.name for each in tmp_path.iterdir()] == ["file.svg"]


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may write anywhere")
def test_a_folder_that_may_not_be_written(tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    with pytest.raises(WriteError, match="permission denied"):
        write_whole(tmp_path / "file.svg", b"new")


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
