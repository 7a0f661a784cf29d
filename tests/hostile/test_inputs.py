"""Hostile files and arguments besides the spec: a group, a wearer, a gauge, a stash, what is in the way."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from schematics.fitting import group_file
from tests.program import call, files_in, spare_drawings
from tests.specs_for_tests import write

needs_pipes = pytest.mark.skipif(
    not hasattr(os, "mkfifo"), reason="pipes with a name exist on POSIX systems only"
)


@pytest.fixture(autouse=True)
def _here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("SCHEMATICS_TRACEBACK", "1")
    write(tmp_path)


GROUPS = [
    (b"", "1: expected a header with columns such as name, age, head_girth or height_in, got ''"),
    (b"name,age\nA,6\nB\0,7\n", "3: the character U+0000 is not text; delete it"),
    (b"name,age\n\x1b[2J,6\n", "2: the character U+001B is not text; delete it"),
    ("name,age\nA,6\n".encode("utf-16"), "1: the file is not UTF-8 text; save it as UTF-8"),
    ("name,age\nÄnn,6\n".encode("latin-1"), "2: the file is not UTF-8 text; save it as UTF-8"),
    (b"name,age\n" + b"x" * 140_000 + b",6\n", "2: expected cells of at most 131072 characters"),
    ("name,age\na\u202eb,6\n".encode(), "2: name: expected at most 80 printable characters, got 'a\\u202eb'"),
    (
        b"name,age\n" + b"n" * 81 + b",6\n",
        f"2: name: expected at most 80 printable characters, got '{'n' * 37}...'",
    ),
    (b"name,age\nA,1e400\n", "2: age: expected 0 to 120 years, got '1e400'"),
    (b"name,age\nA,1_0\n", "2: age: expected 0 to 120 years, got '1_0'"),
    (
        b"name,head_girth\nA,12:30\n",
        "2: head_girth: expected a length such as 20, '20 cm' or '8 1/2 in', got '12:30'",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("content", "sentence"), GROUPS, ids=[each[1][:44] for each in GROUPS])
def test_a_hostile_group(content: bytes, sentence: str) -> None:
    Path("class.csv").write_bytes(content)
    result = call("fit", "lake.yaml", "--group", "class.csv", "--csv")
    assert (result.exit_code, result.stderr) == (2, f"class.csv:{sentence}\n")


def test_a_group_has_an_end(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(group_file, "MOST_WEARERS", 3)
    Path("class.csv").write_text("age\n" + "6\n" * 4, encoding="utf-8")
    result = call("fit", "lake.yaml", "--group", "class.csv")
    assert result.stderr == "class.csv:5: a group has at most 3 wearers; part the file\n"
    monkeypatch.setattr(group_file, "LARGEST_FILE", 9)
    result = call("fit", "lake.yaml", "--group", "class.csv")
    assert result.stderr.startswith("class.csv: the file is over ")


WEARERS = [
    (b"", "1: the file is empty; expected measurements of a wearer such as 'head_girth: 52'"),
    (b"head_girth: 1e400", "1: head_girth: expected a length such as 20, '20 cm' or '8 1/2 in', got .inf"),
    (b"head_girth: .nan", "1: head_girth: expected a length such as 20, '20 cm' or '8 1/2 in', got .nan"),
    (b"head_girth: 0x34", "OK"),
    (
        b"head_girth: 0x10",
        "1: head_girth: expected 27 cm to 76 cm, got 16 cm: 16 in?",
    ),
    (b"head_girth: 12:30", "1: head_girth: expected a length such as 20, '20 cm' or '8 1/2 in', got '12:30'"),
    (b"head_girth: 1_0", "1: head_girth: expected a length such as 20, '20 cm' or '8 1/2 in', got '1_0'"),
    (b"age: yes", "1: age: expected an age such as 6, '18 months' or '1 1/2 years', got 'yes'"),
    (b"age: 2026-09-14", "1: age: expected an age such as 6, '18 months' or '1 1/2 years', got '2026-09-14'"),
    (b"age: !!int 6", "1: age: the tag !!int is not understood in a spec; delete it"),
    (b"age: 6\nage: 7", "2: the key 'age' stands twice, first on line 1; keep one"),
    (
        b"<<: {age: 6}\nage: 6",
        "1: merge keys (<<) are not understood; write the keys out, or use an alias for the whole block",
    ),
    (b"age: [[[[[[[[[[[[[[[[[[[[[[", "1: values are nested more than 20 deep; a spec needs six levels"),
    ("age: 6".encode("utf-16-be"), "1: the file is not UTF-8 text; save it as UTF-8"),
]


@pytest.mark.parametrize(("content", "sentence"), WEARERS, ids=[repr(each[0])[:30] for each in WEARERS])
def test_a_hostile_wearer(content: bytes, sentence: str) -> None:
    Path("ann.yaml").write_bytes(content)
    result = call("fit", "lake.yaml", "--wearer", "ann.yaml")
    if sentence == "OK":
        assert result.exit_code in (0, 1)
    else:
        assert (result.exit_code, result.stderr.splitlines()[0]) == (2, f"ann.yaml:{sentence}")


@needs_pipes
@pytest.mark.parametrize("option", ["--group", "--wearer"])
def test_a_pipe_or_a_folder_is_not_waited_for(option: str) -> None:
    os.mkfifo("pipe")
    Path("folder").mkdir()
    for name in ("pipe", "folder"):
        result = call("fit", "lake.yaml", option, name)
        assert (result.exit_code, result.stderr) == (
            2,
            f"{name}: expected a file, got a folder or a device\n",
        )


@pytest.mark.parametrize(
    ("command", "option", "sentence"),
    [
        ("fit", "--gauge", "--gauge: expected a gauge such as '20 sts 15 rows over 20 cm', got "),
        ("yarn", "--have", "--have: expected an amount such as '450 g', "),
    ],
)
@pytest.mark.parametrize("text", [" " * 30_000 + "x", "a:" * 15_000, "9" * 30_000, "1 " * 15_000])
def test_an_endless_argument_is_told_in_short(command: str, option: str, sentence: str, text: str) -> None:
    result = call(command, "lake.yaml", option, text)
    assert result.exit_code == 2
    assert result.stderr.startswith(sentence)
    assert len(result.stderr) < 300


def test_what_is_told_cannot_harm_a_terminal() -> None:
    result = call("check", "\x1b[2J\u202e\udcff.yaml", "a" * 3000 + ".yaml")
    first, second = result.stderr.splitlines()
    assert first.startswith(r"\x1b[2J\u202e\udcff.yaml: the file's name becomes a folder's: ")
    assert second == f"{'a' * 1997}..."


@pytest.mark.slow
def test_a_size_is_found_however_it_was_typed() -> None:
    spec = Path("lake.yaml")
    spec.write_text(spec.read_text(encoding="utf-8").replace("6 years", "Gr\u00f6\u00dfe"), encoding="utf-8")
    assert call("check", "lake.yaml", "--sizes", "Gro\u0308\u00dfe").exit_code == 0


@pytest.mark.slow
@needs_pipes
def test_what_is_no_file_is_not_built_over(monkeypatch: pytest.MonkeyPatch) -> None:
    spare_drawings(monkeypatch)
    Path("output/lake").mkdir(parents=True)
    os.mkfifo("output/lake/figures.md")
    result = call("build", "lake.yaml", "--jobs", "1", "--sizes", "4")
    assert result.exit_code == 2
    assert "output/lake/figures.md would be replaced and is not from this program" in result.stderr
    assert Path("output/lake/figures.md").is_fifo()
    assert files_in(Path("output")) == [".schematics.lock"]


def test_a_link_to_itself_is_one_sentence() -> None:
    Path("loop.yaml").symlink_to("loop.yaml")
    result = call("check", "loop.yaml")
    assert (result.exit_code, result.stderr) == (
        2,
        f"loop.yaml: the file cannot be read: {os.strerror(errno.ELOOP)}\n",
    )


def test_what_editors_hide_is_no_spec() -> None:
    Path("specs").mkdir()
    write(Path("specs"))
    Path("specs/._lake.yaml").write_bytes(b"\0\5\x16\7")
    assert call("check", "--sizes", "4").exit_code == 0
