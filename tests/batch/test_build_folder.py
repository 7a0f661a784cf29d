"""A design's folder: what is replaced, kept, told and removed there, and what is never touched."""

from __future__ import annotations

import errno
import hashlib
import json
import os
from pathlib import Path

import pytest

from schematics.batch.folder import WAITING, Committed, DesignFolder
from schematics.batch.manifest import MANIFEST, Manifest, ManifestError, Planned, read_manifest
from schematics.errors import SchematicsError, UsageError
from schematics.reading.files.saving import DiskFullError, WriteError
from tests.program import files_in

KEY, LATER = "a" * 64, "b" * 64
FILES = {"cover.svg": "cover", "4/pieces.svg": "four", "6/pieces.svg": "six"}


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return tmp_path / "lake"


def size_of(name: str) -> str | None:
    return name.split("/")[0] if "/" in name else None


def build(
    place: Path, files: dict[str, str], key: str = KEY, *, force: bool = False, prune: bool = False
) -> Committed:
    folder = DesignFolder(place, force)
    folder.clear()
    for name, content in files.items():
        folder.stage(name, content.encode(), size=size_of(name), key=key, source=key)
    sizes = tuple(
        Planned(name=name, verdict="good", digest=KEY)
        for name in sorted({*map(size_of, files)} - {None}, key=str)
        if name
    )
    try:
        return folder.commit(Manifest(key=key, title="Lake", sizes=sizes), set(files), prune=prune)
    except BaseException:
        folder.discard()
        raise


def test_the_manifest_has_the_hash_of_every_file(place: Path) -> None:
    assert sorted(build(place, FILES).written) == sorted(FILES)
    document = json.loads((place / MANIFEST).read_text())
    assert sorted(document["files"]) == sorted(FILES)
    for name, entry in document["files"].items():
        assert entry["sha256"] == hashlib.sha256((place / name).read_bytes()).hexdigest()
    assert files_in(place) == sorted([*FILES, MANIFEST])


@pytest.mark.slow
def test_what_comes_out_the_same_is_not_written_again(place: Path) -> None:
    build(place, FILES)
    before = {name: (place / name).stat().st_mtime_ns for name in files_in(place)}
    assert build(place, FILES).written == ()
    assert {name: (place / name).stat().st_mtime_ns for name in files_in(place)} == before
    assert build(place, {**FILES, "cover.svg": "new"}, LATER).written == ("cover.svg",)


@pytest.mark.parametrize("name", FILES)
@pytest.mark.parametrize("happens", ["missing", "changed"])
def test_a_file_that_is_missing_or_changed_is_not_current(place: Path, name: str, happens: str) -> None:
    build(place, FILES)
    assert DesignFolder(place).is_current(KEY, None)
    assert not DesignFolder(place).is_current(LATER, None)
    assert not DesignFolder(place, force=True).is_current(KEY, None)
    if happens == "missing":
        (place / name).unlink()
    else:
        (place / name).write_text("by hand")
    assert not DesignFolder(place).is_current(KEY, None)
    assert DesignFolder(place).is_current(KEY, ["4"]) == name.startswith("6/")
    committed = build(place, FILES)
    assert committed.written == (name,)
    assert committed.edited == ((name,) if happens == "changed" else ())
    assert (place / name).read_text() == FILES[name]


def test_a_size_that_was_never_built_is_not_current(place: Path) -> None:
    build(place, FILES)
    assert not DesignFolder(place).is_current(KEY, ["4", "8"])


def test_a_file_of_somebody_else_is_not_replaced_unless_told(place: Path) -> None:
    place.mkdir()
    (place / "cover.svg").write_text("mine")
    (place / "notes.txt").write_text("mine, too")
    with pytest.raises(UsageError, match=r"nothing was written .*/lake/cover\.svg would be replaced"):
        build(place, FILES)
    assert files_in(place) == ["cover.svg", "notes.txt"]
    assert (place / "cover.svg").read_text() == "mine"
    build(place, FILES, force=True)
    assert (place / "cover.svg").read_text() == "cover"
    assert (place / "notes.txt").read_text() == "mine, too"


def test_a_file_that_is_just_what_would_be_written_is_taken_over(place: Path) -> None:
    place.mkdir()
    (place / "cover.svg").write_text("cover")
    assert "cover.svg" not in build(place, FILES).written
    assert (place / MANIFEST).is_file()


def test_files_of_a_size_that_is_gone_are_listed_and_removed_only_when_told(place: Path) -> None:
    build(place, FILES)
    (place / "6" / "photo.jpg").write_text("mine")
    fewer = {name: content for name, content in FILES.items() if not name.startswith("6/")}
    for _ in range(2):
        assert build(place, fewer, LATER).orphans == ("6/pieces.svg",)
        assert (place / "6/pieces.svg").is_file()
    committed = build(place, fewer, LATER, prune=True)
    assert (committed.removed, committed.orphans) == (("6/pieces.svg",), ())
    assert files_in(place) == sorted([*fewer, "6/photo.jpg", MANIFEST])


def test_what_somebody_changed_is_not_pruned_and_an_empty_folder_goes(place: Path) -> None:
    build(place, {**FILES, "6/worn.svg": "worn", "8/worn.svg": "worn"})
    (place / "6/worn.svg").write_text("by hand")
    committed = build(place, {"cover.svg": "cover"}, LATER, prune=True)
    assert sorted(committed.removed) == ["4/pieces.svg", "6/pieces.svg", "8/worn.svg"]
    assert committed.orphans == ("6/worn.svg",)
    assert files_in(place) == ["6/worn.svg", "cover.svg", MANIFEST]
    assert not (place / "8").exists()


def test_a_size_that_comes_back_is_no_orphan(place: Path) -> None:
    build(place, FILES)
    build(place, {"cover.svg": "cover"}, LATER)
    assert build(place, FILES).orphans == ()
    assert read_manifest(place).orphans == {}


@pytest.mark.parametrize(
    "outside", ["../stolen", "/etc/stolen", "4/../../stolen", "c:stolen", "4\\stolen", ""]
)
def test_a_manifest_that_names_a_file_elsewhere_is_no_manifest(place: Path, outside: str) -> None:
    build(place, FILES)
    document = json.loads((place / MANIFEST).read_text())
    document["orphans"] = {outside: KEY}
    (place / MANIFEST).write_text(json.dumps(document))
    with pytest.raises(ManifestError, match="is not a list of files this program wrote"):
        build(place, FILES, prune=True)


@pytest.mark.parametrize("text", ["", "{}", "[]", "\xff", '{"format": 2}', "[" * 100_000])
def test_a_manifest_that_is_none_is_not_replaced_unless_told(place: Path, text: str) -> None:
    place.mkdir()
    (place / MANIFEST).write_bytes(text.encode("latin-1"))
    with pytest.raises(ManifestError, match="say --force"):
        build(place, FILES)
    assert files_in(place) == [MANIFEST]
    build(place, FILES, force=True)
    assert sorted(read_manifest(place).files) == sorted(FILES)


@pytest.mark.parametrize("nth", range(1, 9))
def test_a_full_disk_at_any_moment_is_one_sentence_and_leaves_whole_files(
    place: Path, monkeypatch: pytest.MonkeyPatch, nth: int
) -> None:
    """The n-th file that is made certain of on the disk finds none: three files and the two manifests."""
    build(place, FILES)
    honest, calls = os.fsync, [0]

    def full(descriptor: int) -> None:
        calls[0] += 1
        if calls[0] == nth:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        honest(descriptor)

    new = {name: content * 2 for name, content in FILES.items()}
    monkeypatch.setattr(os, "fsync", full)
    if nth > 5:
        build(place, new, LATER)
    else:
        with pytest.raises(DiskFullError, match=r"^cannot write \S+: no space left on device$"):
            build(place, new, LATER)
        assert (place / "cover.svg").read_text() in ("cover", "covercover")
        assert DesignFolder(place).is_current(KEY, None) == (nth <= 4), "an earlier build is as it was"
    monkeypatch.undo()
    committed = build(place, new, LATER)
    assert committed.edited == ()
    assert {name: (place / name).read_text() for name in new} == new
    assert not (place / WAITING).exists()


@pytest.mark.parametrize("force", [False, True])
@pytest.mark.parametrize("name", ["4/pieces.svg", MANIFEST])
def test_a_folder_where_a_file_should_be_is_named_and_nothing_is_written(
    name: str, force: bool, place: Path
) -> None:
    build(place, FILES)
    (place / name).unlink()
    (place / name).mkdir()
    with pytest.raises(SchematicsError) as error:
        build(place, {name: content * 2 for name, content in FILES.items()}, LATER, force=force)
    assert str(error.value) == (
        f"nothing was written to {place}: {place / name} is a folder, not a file; move it away"
    )
    assert files_in(place) == sorted({*FILES, MANIFEST} - {name})
    assert (place / "cover.svg").read_text() == "cover"


def test_once_a_folder_in_the_way_is_gone_the_next_build_finishes(place: Path) -> None:
    build(place, FILES)
    (place / "4" / "pieces.svg").unlink()
    (place / "4" / "pieces.svg").mkdir()
    with pytest.raises(WriteError, match="is a folder, not a file"):
        build(place, FILES, LATER)
    (place / "4" / "pieces.svg").rmdir()
    assert build(place, FILES, LATER).edited == ()
    assert DesignFolder(place).is_current(LATER, None)


def test_a_file_where_a_sizes_folder_should_be_is_named_and_nothing_is_written(place: Path) -> None:
    build(place, FILES)
    (place / "8").write_text("mine")
    sentence = f"nothing was written to {place}: {place / '8'} is a file, not a folder; move it away"
    for force in (False, True):
        with pytest.raises(WriteError) as error:
            build(place, {"cover.svg": "new", "8/pieces.svg": "eight"}, LATER, force=force)
        assert str(error.value) == sentence
        assert files_in(place) == sorted([*FILES, "8", MANIFEST])
        assert (place / "cover.svg").read_text() == "cover"


def test_a_file_of_the_name_of_the_folder_for_what_waits_is_named(place: Path) -> None:
    place.mkdir()
    (place / WAITING).write_text("mine")
    with pytest.raises(WriteError, match=rf": {place / WAITING} is a file, not a folder; move it away$"):
        build(place, FILES)
    assert files_in(place) == [WAITING]


@pytest.mark.parametrize("force", [False, True])
def test_what_somebody_else_has_where_files_wait_stays(place: Path, force: bool) -> None:
    theirs = [f"{WAITING}/1", f"{WAITING}/manifest.json", f"{WAITING}/drafts/old.svg"]
    for each in theirs:
        (place / each).parent.mkdir(parents=True, exist_ok=True)
        (place / each).write_text("mine")
    build(place, FILES, force=force)
    DesignFolder(place).discard()
    assert files_in(place) == sorted([*FILES, *theirs, MANIFEST])
    assert {(place / each).read_text() for each in theirs} == {"mine"}


def test_nothing_is_written_through_a_link_over_what_somebody_else_has(place: Path, tmp_path: Path) -> None:
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "1").write_text("mine")
    place.mkdir()
    (place / WAITING).symlink_to(tmp_path / "photos")
    build(place, FILES)
    assert files_in(tmp_path / "photos") == ["1"]
    assert (tmp_path / "photos" / "1").read_text() == "mine"


def test_what_a_killed_run_left_waiting_is_cleared_away(place: Path) -> None:
    build(place, FILES)
    killed = DesignFolder(place)
    killed.stage("cover.svg", b"half a cov", size=None, key=KEY, source=KEY)
    assert (place / WAITING).is_dir()
    build(place, FILES)
    assert files_in(place) == sorted([*FILES, MANIFEST])
