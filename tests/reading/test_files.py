"""Files that cannot be read at all: one sentence each, never a traceback."""

from __future__ import annotations

import errno
import os
import pickle
import time
from pathlib import Path

import pytest

from schematics.errors import SchematicsError
from schematics.reading.design_file import read_design
from schematics.reading.problems import Problem, SpecError
from tests.reading.files import GOOD, read, told

UNREADABLE = [
    pytest.param(b"", "1: the file is empty; expected a design", id="empty"),
    pytest.param(b"# nothing yet\n\n", "1: the file is empty; expected a design", id="comments only"),
    pytest.param(b"---\n", "1: the file is empty; expected a design", id="a document without a value"),
    pytest.param(b"title: a\nx: \xff\xfe", "2: the file is not UTF-8 text; save it as UTF-8", id="binary"),
    pytest.param(GOOD.encode("utf-16"), "1: the file is not UTF-8 text; save it as UTF-8", id="UTF-16"),
    pytest.param(
        GOOD.encode("utf-16-le"),
        "1: the file is not UTF-8 text; save it as UTF-8",
        id="UTF-16 without its mark",
    ),
    pytest.param(GOOD.encode("utf-32"), "1: the file is not UTF-8 text; save it as UTF-8", id="UTF-32"),
    pytest.param(
        b"title: a\nunit: \xe9\n", "2: the file is not UTF-8 text; save it as UTF-8", id="one byte a letter"
    ),
    pytest.param(
        b"\xef\xbb\xbftitle: a\nunit: \xe9\n",
        "2: the file is not UTF-8 text; save it as UTF-8",
        id="one byte a letter behind a byte order mark",
    ),
    pytest.param(
        b'title: a\nyarn: "\\UFFFFFFFF"',
        "2: an escape such as \\U0001F9F6 names no character; write the character itself",
        id="escape of no character",
    ),
    pytest.param(
        b'title: a\n\nyarn: "\\U00110000"',
        "3: an escape such as \\U0001F9F6 names no character; write the character itself",
        id="escape beyond the last character",
    ),
    pytest.param(b"title: a\n\nx: \0", "3: the character U+0000 is not text; delete it", id="NUL"),
    pytest.param(b"title: \x1b[31m", "1: the character U+001B is not text; delete it", id="escape sequence"),
    pytest.param(
        b"#" * 1_000_001, "the file is over 1 MB; a spec needs a few kilobytes", id="over a megabyte"
    ),
    pytest.param(
        b"- a\n- b\n",
        "1: expected a mapping with the keys 'title', 'unit', 'construction', 'yarn', 'fabrics', 'parts' and "
        "'sizes', got a list",
        id="a list",
    ),
    pytest.param(
        b"\nponcho\n",
        "2: expected a mapping with the keys 'title', 'unit', 'construction', 'yarn', 'fabrics', 'parts' and "
        "'sizes', got 'poncho'",
        id="a word",
    ),
    pytest.param(
        b"a:\n  b: " + b"[" * 900_000,
        "2: values are nested more than 20 deep; a spec needs six levels",
        id="deep nesting",
    ),
    pytest.param(
        b"a: 1\nb: [" + b"1," * 30_000 + b"]", "2: more than 20000 values; a spec needs far fewer", id="flood"
    ),
]


@pytest.mark.slow
@pytest.mark.parametrize(("content", "problem"), UNREADABLE)
def test_one_sentence_for_a_file_that_is_no_spec(content: bytes, problem: str, tmp_path: Path) -> None:
    assert told(tmp_path, content) == [problem]


@pytest.mark.slow
def test_aliases_that_multiply_are_stopped_early(tmp_path: Path) -> None:
    lines = ["a0: &a0 [1, 1, 1, 1, 1, 1, 1, 1, 1]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 12)]
    start = time.process_time()
    (problem,) = told(tmp_path, "\n".join(lines))
    assert problem.endswith("the aliases repeat more than 20000 values")
    assert time.process_time() - start < 10


def test_a_missing_file(tmp_path: Path) -> None:
    path = tmp_path / "lake.yaml"
    with pytest.raises(SpecError) as error:
        read_design(path)
    assert str(error.value) == f"{path}: there is no such file"
    assert error.value.entries[0].line is None


def test_a_folder(tmp_path: Path) -> None:
    path = tmp_path / "lake.yaml"
    path.mkdir()
    with pytest.raises(SpecError) as error:
        read_design(path)
    assert str(error.value) == f"{path}: expected a file, got a folder or a device"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="pipes with a name exist on POSIX systems only")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    path = tmp_path / "lake.yaml"
    os.mkfifo(path)
    with pytest.raises(SpecError, match="got a folder or a device"):
        read_design(path)


def test_a_circle_of_links(tmp_path: Path) -> None:
    path = tmp_path / "lake.yaml"
    path.symlink_to(path)
    with pytest.raises(SpecError) as error:
        read_design(path)
    assert str(error.value) == f"{path}: the file cannot be read: {os.strerror(errno.ELOOP)}"


@pytest.mark.parametrize(
    ("name", "fault"),
    [
        ("..yaml", "it cannot begin or end with a space or a full stop"),
        ("lake?.yaml", "it cannot hold '?'; use letters, digits and hyphens"),
        (".hidden.yaml", "it cannot begin or end with a space or a full stop"),
        ("nul.yaml", "that name is reserved on some systems"),
        ("manifest.json.yaml", "it ends like the name of a file"),
        (f"{'l' * 65}.yaml", "expected 1 to 64 printable characters"),
    ],
)
def test_the_file_names_the_output_folder(name: str, fault: str, tmp_path: Path) -> None:
    path = tmp_path / name
    path.write_text(GOOD, encoding="utf-8")
    with pytest.raises(SpecError) as error:
        read_design(path)
    assert str(error.value) == f"{path}: the file's name becomes a folder's: {fault}"


def test_a_byte_order_mark_and_windows_line_ends_do_no_harm(tmp_path: Path) -> None:
    assert read(tmp_path, b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode()) == read(tmp_path, GOOD)


def test_the_error_survives_a_trip_between_processes(tmp_path: Path) -> None:
    problems = [Problem(file="a.yaml", line=line, path="", sentence="wrong") for line in (7, 3)]
    error = pickle.loads(pickle.dumps(SpecError(problems)))
    assert isinstance(error, SchematicsError)
    assert str(error) == "a.yaml:3: wrong\na.yaml:7: wrong"
