"""What runs that were stopped have left: cleared, put back or named, and never lost."""

from __future__ import annotations

import os
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from hypothesis import given
from hypothesis import strategies as st

from schematics.cli import main
from schematics.grading import grade as grading
from schematics.grading.draft import Draft
from schematics.reading.design_file import read_draft
from schematics.reading.files.unfinished import is_torn
from tests.examples import covering
from tests.grading.test_grade_write import GRADED, SPEC_TEXT

OLD, NEW = SPEC_TEXT.encode(), GRADED.encode()
PUT_IN = next(at for at, (old, new) in enumerate(zip(OLD, NEW, strict=False)) if old != new)
"""Where the two begin to differ."""


class Place:
    """A folder with a spec, and what a stopped run has left beside it."""

    def __init__(self, folder: Path) -> None:
        self.spec = folder / "lake.yaml"
        self.backup = folder / ".lake.yaml.schematics-before"
        self.waiting = folder / ".lake.yaml.schematics-waiting"

    def has(self, now: bytes, before: bytes | None = None, after: bytes | None = None) -> None:
        for path, content in ((self.spec, now), (self.backup, before), (self.waiting, after)):
            if content is not None:
                path.write_bytes(content)

    def call(self, *arguments: str) -> Result:
        return CliRunner().invoke(main, [*arguments, str(self.spec)])

    def names(self) -> list[str]:
        return sorted(path.name for path in self.spec.parent.iterdir())

    @property
    def put_back(self) -> str:
        return (
            f"{self.spec}: a run was stopped while it wrote this file; what stood there before has been put "
            f"back\n{self.written}"
        )

    @property
    def written(self) -> str:
        return f"{self.spec}: the counts are in the spec now\n"


@pytest.fixture(autouse=True)
def graded_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """The counts of a content are looked for once; these tests are about what becomes of files."""
    honest = grading.grade

    def find(draft: Draft) -> grading.Graded:
        if draft.content not in _FOUND:
            _FOUND[draft.content] = honest(draft)
        return replace(_FOUND[draft.content], draft=draft)

    monkeypatch.setattr(grading, "grade", find)


_FOUND: dict[bytes, grading.Graded] = {}


@pytest.fixture
def place(tmp_path: Path) -> Place:
    return Place(tmp_path)


@pytest.mark.slow
@pytest.mark.parametrize(
    ("now", "before", "after"),
    [
        (OLD, None, b""),
        (OLD, None, NEW[:100]),
        (OLD, None, NEW),
        (OLD, b"", None),
        (OLD, OLD[:100], None),
        (OLD, OLD, None),
        (OLD, OLD, NEW[:100]),
        (OLD, OLD, NEW),
        (NEW, None, NEW),
        (NEW, None, OLD),
        (NEW, OLD, NEW),
    ],
    ids=range(11),
)
def test_what_is_left_beside_a_whole_spec_is_cleared_without_a_word(
    now: bytes, before: bytes | None, after: bytes | None, place: Place
) -> None:
    place.has(now, before, after)
    assert read_draft(place.spec).content == now
    result = place.call("grade", "--write")
    assert (result.exit_code, result.stderr) == (0, place.written if now == OLD else "")
    assert (place.spec.read_bytes(), place.names()) == (NEW, ["lake.yaml"])


TORN = [
    *(NEW[:at] + OLD[at:] for at in (PUT_IN + 1, PUT_IN + 6, len(OLD) - 1)),
    *(NEW[:at] for at in (len(OLD), len(OLD) + 1, len(NEW) - 1)),
    OLD[: PUT_IN + 5] + NEW[PUT_IN + 5 :],
]


@pytest.mark.slow
@pytest.mark.parametrize("torn", TORN, ids=range(len(TORN)))
def test_a_torn_spec_gets_its_old_content_back(torn: bytes, place: Place) -> None:
    place.has(torn, OLD, NEW)
    for command in ("check", "grade", "yarn", "sensitivity", "figures"):
        result = place.call(command)
        assert (result.exit_code, result.stdout) == (2, ""), command
        assert result.stderr == (
            f"{place.spec}: a run was stopped while it wrote this file; what stood there before is in "
            f"{place.backup}, and schematics grade --write {place.spec} puts it back\n"
        )
    result = place.call("grade", "--write")
    assert (result.exit_code, result.stderr) == (0, place.put_back)
    assert (place.spec.read_bytes(), place.names()) == (NEW, ["lake.yaml"])


@pytest.mark.slow
@pytest.mark.parametrize(
    ("now", "command"),
    covering(
        [b"", OLD[:100], NEW[:-100], OLD + b"# mine\n", NEW + b"# mine\n"],
        [("check",), ("grade",), ("grade", "--write")],
    ),
)
def test_what_somebody_wrote_since_is_not_undone(now: bytes, command: tuple[str, ...], place: Place) -> None:
    place.has(now, OLD, NEW)
    result = place.call(*command)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == (
        f"{place.spec}: a run was stopped while it wrote this file, which has changed since; what stood "
        f"there before is in {place.backup}; put that back or delete it, then try again\n"
    )
    assert [path.read_bytes() for path in (place.spec, place.backup, place.waiting)] == [now, OLD, NEW]
    place.backup.unlink()
    place.spec.write_bytes(OLD)
    assert place.call("grade", "--write").stderr == place.written
    assert place.names() == ["lake.yaml"]


@pytest.mark.parametrize("ending", ["waiting", "before"])
def test_a_folder_of_such_a_name_is_named(ending: str, place: Place) -> None:
    place.has(OLD)
    folder = place.spec.with_name(f".lake.yaml.schematics-{ending}")
    folder.mkdir()
    result = place.call("grade", "--write")
    assert result.exit_code == 2
    assert result.stderr == f"cannot write {place.spec}: {folder} is a folder; move it away\n"
    assert place.spec.read_bytes() == OLD
    assert folder.is_dir()


@pytest.mark.parametrize("error", [PermissionError(13, "no"), KeyboardInterrupt()])
def test_a_spec_that_cannot_be_opened_leaves_nothing_beside_it(
    error: BaseException, place: Place, monkeypatch: pytest.MonkeyPatch
) -> None:
    place.has(OLD)
    os.link(place.spec, place.spec.with_name("other.yaml"))
    honest = Path.open

    def refuse(path: Path, mode: str = "r", *rest: object, **others: object) -> object:
        if mode == "r+b":
            raise error
        return honest(path, mode, *rest, **others)  # type: ignore[call-overload]  # passed on as they are

    monkeypatch.setattr(Path, "open", refuse)
    assert place.call("grade", "--write").exit_code in (2, 130)
    assert place.names() == ["lake.yaml", "other.yaml"]
    assert place.spec.read_bytes() == OLD


@pytest.mark.slow
@pytest.mark.parametrize("interrupted", [1, 2])
def test_interrupted_while_it_is_written_a_spec_is_whole_or_can_be_put_back(
    interrupted: int, place: Place, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Twice: while the new content is written, and while the old one is put back for that."""
    place.has(OLD)
    os.link(place.spec, place.spec.with_name("other.yaml"))
    honest, done = os.pwrite, iter(range(100))

    def halves(descriptor: int, content: bytes, at: int) -> int:
        if next(done) < interrupted:
            honest(descriptor, content[: PUT_IN + 5], at)
            raise KeyboardInterrupt
        return honest(descriptor, content, at)

    monkeypatch.setattr(os, "pwrite", halves)
    result = place.call("grade", "--write")
    assert result.exit_code == 130
    if interrupted == 1:
        assert (place.spec.read_bytes(), place.names()) == (OLD, ["lake.yaml", "other.yaml"])
    else:
        assert (place.backup.read_bytes(), place.waiting.read_bytes()) == (OLD, NEW)
    assert place.call("grade", "--write").stderr in (place.written, place.put_back)
    assert (place.spec.read_bytes(), place.names()) == (NEW, ["lake.yaml", "other.yaml"])


few = st.text("ab", max_size=6).map(str.encode)


@given(few, few, st.integers(0, 8), st.integers(0, 8))
def test_every_moment_of_writing_is_known(before: bytes, after: bytes, written: int, back: int) -> None:
    written, back = min(written, len(after)), min(back, len(before))
    now = after[:written] + before[written:]
    assert is_torn(now, before, after)
    assert is_torn(before[:back] + now[back:], before, after)


@given(few, few, few)
def test_nothing_else_is_taken_for_torn(now: bytes, before: bytes, after: bytes) -> None:
    """Held against every way of cutting the two."""
    starts = range(len(before) + 1)
    ways = (before[:i] + after[i:j] + before[j:] for i in starts for j in range(i, max(i, len(after)) + 1))
    assert is_torn(now, before, after) == any(way == now for way in ways)
