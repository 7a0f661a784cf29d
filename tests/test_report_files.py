"""Writing files whole, and folder names."""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.report.files import WriteError, folder_name, folder_names, write_whole


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
    with pytest.raises(WriteError, match=r"^cannot write .*file\.svg: (file exists|not a directory)$"):
        write_whole(path, b"new")
    assert (tmp_path / "output").read_text() == "mine"


def test_a_folder_where_the_file_should_be(tmp_path: Path) -> None:
    (tmp_path / "file.svg").mkdir()
    with pytest.raises(WriteError, match="is a directory"):
        write_whole(tmp_path / "file.svg", b"new")
    assert [each.name for each in tmp_path.iterdir()] == ["file.svg"]


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may write anywhere")
def test_a_folder_that_may_not_be_written(tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    with pytest.raises(WriteError, match="permission denied"):
        write_whole(tmp_path / "file.svg", b"new")


@pytest.mark.parametrize(
    ("name", "folder"),
    [
        ("4", "4"),
        ("6 years", "6-years"),
        ("2/4", "2-4"),
        ("a\\b: c", "a-b-c"),
        ("..", "unnamed"),
        ("", "unnamed"),
        (".hidden", "hidden"),
        ("con", "con-"),
        ("NUL.1", "NUL.1-"),
        ("Größe 98", "Größe-98"),
        ("Gro\u0308ße", "Größe"),
        ("1 1/2", "1-1-2"),
        ("caf\udce9", "caf"),
    ],
)
def test_folder_name(name: str, folder: str) -> None:
    assert folder_name(name) == folder


@given(st.text())
def test_every_name_gives_one_plain_folder(name: str) -> None:
    folder = folder_name(name)
    assert folder
    assert not set(folder) & set('/\\<>:"|?*\n\t\r\0 ')
    assert folder not in {".", ".."}
    assert not folder.startswith(".")
    assert len(folder.encode()) <= 101


@given(
    st.lists(
        st.sampled_from(["S", "s", "4 5", "4-5", "4-5-2", "4  5", "4/5", "x" * 120, "x" * 130]), unique=True
    )
)
def test_different_names_never_share_a_folder(names: list[str]) -> None:
    folders = folder_names(names)
    assert list(folders) == names
    assert len({folder.casefold() for folder in folders.values()}) == len(names)


def test_names_that_clash_are_numbered_in_order() -> None:
    assert folder_names(["4 5", "4-5", "S", "s"]) == {"4 5": "4-5", "4-5": "4-5-2", "S": "S", "s": "s-2"}
