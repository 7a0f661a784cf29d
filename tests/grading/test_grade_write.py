"""``grade --write`` loses nothing: of what changed meanwhile, of links and modes, when the disk is full."""

from __future__ import annotations

import errno
import os
import stat
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from schematics.cli import main
from schematics.grading import grade as grading
from schematics.grading.best import best
from schematics.grading.grade import Graded, search_of
from schematics.grading.search import Solution
from schematics.reading import writing
from schematics.reading.design_file import parse_draft, read_draft
from tests.program import run, without_privileges
from tests.specs_for_tests import SPEC

SPEC_TEXT = (
    SPEC[: SPEC.index('  "4":')].replace(
        "sizes:",
        "grading:\n  increases: exact\n"
        "  intent: {neck.edge: 50.5 cm, body.hem: 126 cm, body.depth: 30 cm, arm.from_front: 28 cm, "
        "arm.run: 14 cm,\n    panel.width: 8 cm, panel.length: 30 cm, neck_band.depth: 4 cm, "
        "arm_band.depth: 6 cm}\nsizes:",
    )
    + '  "4":\n    wearer: child/4\n    body: {neck: 60, hem: 176}   # from the sample\n'
    "    arms: {from_front: 40, stitches: 20}\n    panel: {stitches: 12, rows: 30}\n"
    "    neck_band: {stitches: 6}\n    arm_bands: {stitches: 8}\n"
)
"""One size that lacks the body's rows alone."""
GRADED = SPEC_TEXT.replace("hem: 176}", "hem: 176, rows: 30}")


@cache
def solution() -> Solution:
    return best(search_of(parse_draft(Path("lake.yaml"), SPEC_TEXT.encode())))


@pytest.fixture(autouse=True)
def found_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever becomes of the file, its counts are the same."""
    monkeypatch.setattr(grading, "best", lambda search: solution())


@pytest.fixture
def spec(tmp_path: Path) -> Path:
    folder = tmp_path / "specs"
    folder.mkdir()
    path = folder / "lake.yaml"
    path.write_text(SPEC_TEXT, encoding="utf-8")
    return path


def write(path: Path) -> Result:
    return CliRunner().invoke(main, ["grade", "--write", str(path)])


def beside(path: Path) -> list[str]:
    return sorted(each.name for each in path.parent.iterdir())


def meanwhile(monkeypatch: pytest.MonkeyPatch, act: Callable[[], object]) -> None:
    """Have something happen after the spec was read and before its counts are written."""
    honest = grading.grade

    def find(*arguments: object) -> Graded:
        found = honest(*arguments)  # type: ignore[arg-type]  # passed on as they are
        act()
        return found

    monkeypatch.setattr(grading, "grade", find)


@pytest.mark.slow
def test_the_counts_are_put_in(spec: Path) -> None:
    result = write(spec)
    assert result.exit_code in (0, 1)
    assert result.stderr == f"{spec}: the counts are in the spec now\n"
    assert spec.read_text("utf-8") == GRADED
    assert read_draft(spec).complete
    assert beside(spec) == ["lake.yaml"]


@pytest.mark.slow
@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("swatch: {stitches: 14, rows: 10,", "swatch: {stitches: 15, rows: 10,"),
        ("wearer: child/4", "wearer: child/6"),
        ('"4":', '"4 years":'),
        (SPEC_TEXT[SPEC_TEXT.index('  "4"') :], ""),
        ("hem: 176}", "hem: 176, rows: 33}"),
        ("hem: 176}", "hem: 176, rows: 30}"),
        (SPEC_TEXT, ""),
        ("# from the sample", "# from the samples"),
        (" poncho\n", " poncho\r\n"),
    ],
    ids=[
        "swatch",
        "wearer",
        "renamed",
        "deleted",
        "counts",
        "second grade",
        "emptied",
        "comment",
        "line end",
    ],
)
def test_what_was_written_meanwhile_stays(
    old: str, new: str, spec: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    changed = SPEC_TEXT.replace(old, new).encode()
    assert changed != SPEC_TEXT.encode()
    meanwhile(monkeypatch, lambda: spec.write_bytes(changed))
    result = write(spec)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == f"{spec}: the file has changed since it was read; nothing was written to it\n"
    assert spec.read_bytes() == changed
    assert beside(spec) == ["lake.yaml"]


def test_a_spec_that_is_gone_is_not_made_anew(spec: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    meanwhile(monkeypatch, spec.unlink)
    result = write(spec)
    assert (result.exit_code, beside(spec)) == (2, [])
    assert result.stderr == f"{spec}: the file has changed since it was read; nothing was written to it\n"


@pytest.mark.slow
@pytest.mark.parametrize("mode", [0o600, 0o664, 0o755])
def test_the_mode_stays(mode: int, spec: Path) -> None:
    spec.chmod(mode)
    write(spec)
    assert stat.S_IMODE(spec.stat().st_mode) == mode
    assert spec.read_text("utf-8") == GRADED


@pytest.mark.slow
@pytest.mark.parametrize("mode", [0o444, 0o400])
def test_a_read_only_spec_is_not_replaced(mode: int, spec: Path) -> None:
    spec.chmod(mode)
    result = write(spec)
    assert result.exit_code == 2
    assert result.stderr == f"cannot write {spec}: it is read-only\n"
    assert spec.read_text("utf-8") == SPEC_TEXT
    assert beside(spec) == ["lake.yaml"]


@pytest.mark.slow
def test_a_symbolic_link_is_written_through(spec: Path, tmp_path: Path) -> None:
    link = tmp_path / "link.yaml"
    link.symlink_to(Path("specs") / "lake.yaml")
    assert write(link).stderr == f"{link}: the counts are in the spec now\n"
    assert link.is_symlink()
    assert spec.read_text("utf-8") == GRADED
    assert (beside(link), beside(spec)) == (["link.yaml", "specs"], ["lake.yaml"])


def test_a_symbolic_link_to_itself_is_refused(tmp_path: Path) -> None:
    loop = tmp_path / "loop.yaml"
    loop.symlink_to(loop)
    flags = ["--swatch", "19 sts 14 rows over 20 cm", "--overwrite"]
    result = CliRunner().invoke(main, ["new", str(loop), *flags])
    assert result.exit_code == 2
    assert result.stderr.startswith(f"cannot write {loop}: ")
    assert "internal error" not in result.stderr
    assert loop.is_symlink()


@pytest.mark.slow
def test_every_name_of_a_hard_linked_spec_is_written(spec: Path, tmp_path: Path) -> None:
    other = tmp_path / "other.yaml"
    os.link(spec, other)
    spec.chmod(0o640)
    write(spec)
    assert other.read_text("utf-8") == GRADED
    assert other.samefile(spec)
    assert stat.S_IMODE(other.stat().st_mode) == 0o640
    assert beside(spec) == ["lake.yaml"]


@pytest.mark.slow
@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() != 0, reason="only root gives files away")
def test_the_owner_stays(spec: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the system lets nobody give files away, too: then the file is written where it stands."""
    os.chown(spec, 12345, 23456)
    inode = spec.stat().st_ino
    write(spec)
    assert (spec.stat().st_uid, spec.stat().st_gid) == (12345, 23456)
    assert spec.stat().st_ino != inode

    def refuse(*_: object) -> None:
        raise PermissionError(errno.EPERM, os.strerror(errno.EPERM))

    spec.write_text(SPEC_TEXT, encoding="utf-8")
    inode = spec.stat().st_ino
    monkeypatch.setattr(os, "chown", refuse)
    write(spec)
    assert (spec.stat().st_uid, spec.stat().st_gid) == (12345, 23456)
    assert (spec.stat().st_ino, spec.read_text("utf-8")) == (inode, GRADED)


def after_flush(number: int, act: Callable[[], object], monkeypatch: pytest.MonkeyPatch) -> None:
    """Have something happen once so many files were laid beside the spec."""
    done = iter(range(100))
    honest = os.fsync

    def flush(descriptor: int) -> None:
        honest(descriptor)
        if next(done) + 1 == number:
            act()

    monkeypatch.setattr(os, "fsync", flush)


@pytest.mark.slow
@pytest.mark.parametrize("replaced", [False, True])
@pytest.mark.parametrize(("linked", "laid"), [(False, 1), (True, 1), (True, 2)])
def test_what_is_saved_at_the_last_moment_stays(
    linked: bool, laid: int, replaced: bool, spec: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The spec is compared when all else has been done, even where it is written as it stands."""
    other = tmp_path / "other.yaml"
    if linked:
        os.link(spec, other)
    note = SPEC_TEXT + "# weeks of work\n"

    def save() -> None:
        saved = tmp_path / "saved" if replaced else spec
        saved.write_text(note, encoding="utf-8")
        saved.replace(spec)

    after_flush(laid, save, monkeypatch)
    result = write(spec)
    assert result.stderr == f"{spec}: the file has changed since it was read; nothing was written to it\n"
    assert (result.exit_code, spec.read_text("utf-8"), beside(spec)) == (2, note, ["lake.yaml"])
    if linked:
        assert other.read_text("utf-8") == (SPEC_TEXT if replaced else note)


def test_a_spec_that_is_replaced_when_it_has_been_opened_is_left_alone(
    spec: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What was opened is then no longer what the user finds under that name."""
    other, saved = tmp_path / "other.yaml", tmp_path / "saved"
    os.link(spec, other)
    honest = Path.open

    def replace(path: Path, mode: str = "r", *rest: Any, **others: Any) -> Any:
        file = honest(path, mode, *rest, **others)
        if mode == "r+b":
            saved.write_text(SPEC_TEXT, encoding="utf-8")
            saved.replace(spec)
        return file

    monkeypatch.setattr(Path, "open", replace)
    result = write(spec)
    assert result.stderr == f"{spec}: the file has changed since it was read; nothing was written to it\n"
    assert (spec.read_text("utf-8"), other.read_text("utf-8")) == (SPEC_TEXT, SPEC_TEXT)
    assert beside(spec) == ["lake.yaml"]


@pytest.mark.slow
@pytest.mark.parametrize("linked", [False, True])
@pytest.mark.parametrize("mode", [0o600, 0o640])
def test_nobody_reads_beside_a_spec_who_may_not_read_it(
    mode: int, linked: bool, spec: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    if linked:
        os.link(spec, tmp_path / "other.yaml")
    spec.chmod(mode)
    honest, made = os.open, []

    def look(path: str | Path, flags: int, *rest: int, **others: int) -> int:
        descriptor = honest(path, flags, *rest, **others)
        if flags & os.O_CREAT and str(path).startswith(str(spec.parent)):
            made.append(stat.S_IMODE(os.fstat(descriptor).st_mode))
        return descriptor

    monkeypatch.setattr(os, "open", look)
    mask = os.umask(0)
    try:
        write(spec)
    finally:
        os.umask(mask)
    assert made == [0o600] * (2 if linked else 1)
    assert (spec.read_text("utf-8"), stat.S_IMODE(spec.stat().st_mode)) == (GRADED, mode)


@pytest.mark.slow
@pytest.mark.skipif(
    not hasattr(os, "setxattr"), reason="this system's attributes are not within Python's reach"
)
def test_attributes_stay(spec: Path) -> None:
    try:
        os.setxattr(spec, "user.note", b"mine")
    except OSError:
        pytest.skip("the file system keeps no attributes")
    write(spec)
    assert (os.getxattr(spec, "user.note"), spec.read_text("utf-8")) == (b"mine", GRADED)


@pytest.mark.slow
def test_a_spec_that_is_a_mount_point_is_written_where_it_stands(
    spec: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As one of a container often is: the system lets nothing take its place."""

    def busy(*_: object) -> None:
        raise OSError(errno.EBUSY, os.strerror(errno.EBUSY))

    monkeypatch.setattr(Path, "replace", busy)
    inode = spec.stat().st_ino
    assert write(spec).stderr == f"{spec}: the counts are in the spec now\n"
    assert (spec.read_text("utf-8"), spec.stat().st_ino, beside(spec)) == (GRADED, inode, ["lake.yaml"])


@pytest.mark.slow
def test_a_folder_that_may_not_be_written_is_named(spec: Path) -> None:
    before = without_privileges()
    spec.parent.chmod(0o500)
    result = run("grade", "--write", str(spec), before=before)
    assert result.returncode == 2
    assert result.stderr == (
        f"cannot write {spec}: nothing may be written in the folder {spec.parent}; allow it, or work on a "
        "copy in another folder\n"
    )
    assert (spec.read_text("utf-8"), beside(spec)) == (SPEC_TEXT, ["lake.yaml"])


@pytest.mark.slow
def test_what_could_not_be_read_again_is_not_written(spec: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(writing, "with_counts", lambda *_: GRADED.replace("hem: 176", "hem: 17").encode())
    result = write(spec)
    assert result.exit_code == 2
    first, *others = result.stderr.splitlines()
    assert first == f"{spec}: nothing was written to it; with the counts found it could not be read again:"
    assert [each.partition(": ")[0] for each in others] == [f"{spec}:35"]
    assert (spec.read_text("utf-8"), beside(spec)) == (SPEC_TEXT, ["lake.yaml"])


def full_after(calls: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """A disk that is full from the given flush on."""
    done = iter(range(100))
    honest = os.fsync

    def flush(descriptor: int) -> None:
        if next(done) >= calls:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        honest(descriptor)

    monkeypatch.setattr(os, "fsync", flush)


@pytest.mark.slow
@pytest.mark.parametrize("linked", [False, True])
@pytest.mark.parametrize("calls", [0, 1, 2])
def test_a_full_disk_leaves_the_spec_as_it_was(
    calls: int, linked: bool, spec: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    if linked:
        os.link(spec, tmp_path / "other.yaml")
    if calls > 0 and not linked:
        pytest.skip("one flush is all a file with one name takes")
    full_after(calls, monkeypatch)
    result = write(spec)
    assert result.exit_code == 2
    restored = calls < 2  # on a disk that takes nothing, even the old text cannot be flushed again
    kept = f"; what stood there before is in {spec.parent / '.lake.yaml.schematics-before'}"
    assert result.stderr == f"cannot write {spec}: no space left on device{'' if restored else kept}\n"
    assert spec.read_text("utf-8") == SPEC_TEXT
    if restored:
        assert beside(spec) == ["lake.yaml"]
    else:
        assert (spec.parent / ".lake.yaml.schematics-before").read_text("utf-8") == SPEC_TEXT
