"""How large a group may be: what is larger is told by its line, what is only long is read in parts."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner

from schematics.cli import main
from schematics.document import json_text
from schematics.fitting import group_file, group_report
from schematics.fitting.group_file import read_group
from schematics.units import Unit
from tests import specs_for_tests

OPEN = "the quote opened here is not closed; close it, or delete it"
CASES = [
    ("columns", "age" + "," * 100 + "\n6\n", "1: expected at most 100 columns, got 101"),
    ("a header of commas", "age" + "," * 62_000 + "\n" + "6\n" * 31_000,
     "1: expected a header of at most 10000 characters"),
    ("a column's name", f"age,{'h' * 9_997}\n6\n", "1: expected a header of at most 10000 characters"),
    ("a header over many lines", '"a\nb",' * 101 + "\n6\n", "1: expected at most 100 columns, got 102"),
    ("cells", "age,notes\n6," + "x," * 100_000 + "\n", "2: expected a line of at most 200000 characters"),
    ("blank lines", "age\n6\n" + "\n" * 100_001, "100003: over 100000 lines are blank; delete them"),
    ("lines of commas", "name,age\n\n" + " , \r\n" * 100_000,
     "100002: over 100000 lines are blank; delete them"),
    ("a cell", "age\n6\n" + "6" * 150_000 + "\n", "3: expected cells of at most 131072 characters"),
    ("a cell below one in quotes", 'age,notes\n6,"a\nb",' + "6" * 150_000 + "\n",
     "3: expected cells of at most 131072 characters"),
    ("an open quote", 'age,notes\n6,"a\nb"\n7,"' + "a\n" * 100_000, f"4: {OPEN}"),
    ("an open quote below another", 'age,notes,more\n6,"a\nb","' + "a\n" * 100_000, f"3: {OPEN}"),
    ("an open quote in a short file", 'age,notes\n5,"a ""b"" c"\n6,"a\n7,b\n', f"3: {OPEN}"),
    ("an open quote below another in a short file", 'age,notes,more\n6,"a\nb","a\n7,b\n', f"3: {OPEN}"),
    ("an open quote at the very end", 'age,notes\n6,"', f"2: {OPEN}"),
    ("an open quote in the header", 'age,"notes\n6,a\n', f"1: {OPEN}"),
    ("wearers", "age\n" + "6\n" * 3_001, "3002: a group has at most 3000 wearers; part the file"),
]  # fmt: skip


@pytest.mark.slow
@pytest.mark.parametrize(("text", "sentence"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_too_much_is_told_by_its_line(
    text: str, sentence: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(group_file, "MOST_WEARERS", 3_000)
    specs_for_tests.write(tmp_path)
    Path("class.csv").write_text(text, encoding="utf-8", newline="")
    result = CliRunner().invoke(main, ["fit", "lake.yaml", "--group", "class.csv"])
    assert (result.exit_code, result.stderr) == (2, f"class.csv:{sentence}\n")


def test_a_file_larger_than_any_group(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    specs_for_tests.write(tmp_path)
    with Path("class.csv").open("wb") as file:
        file.truncate(group_file.LARGEST_FILE + 1)
    result = CliRunner().invoke(main, ["fit", "lake.yaml", "--group", "class.csv"])
    sentence = "class.csv: the file is over 40 MB; a hundred thousand wearers need about ten\n"
    assert (result.exit_code, result.stderr) == (2, sentence)


@pytest.mark.slow
def test_just_so_much_is_read(tmp_path: Path) -> None:
    path = tmp_path / "class.csv"
    header = "age" + ",c" * 99
    text = header + "\n" + "6" + "," * 99 + "\n" + "\n" * 99_999 + "7\n\n"
    path.write_text(text, encoding="utf-8")
    found = read_group(path, Unit.CM)
    assert found.ages.tolist() == [6.0, 7.0]
    assert found.lines.tolist() == [2, 100_002]
    path.write_text(f"age,{'h' * 9_995}\n6\n", encoding="utf-8")
    assert read_group(path, Unit.CM).ages.tolist() == [6.0]


def test_columns_that_mean_nothing_are_counted(tmp_path: Path) -> None:
    path = tmp_path / "class.csv"
    for many, last in ((5, ()), (6, ("1 more column is not used",)), (90, ("85 more columns are not used",))):
        path.write_text(f"age,{','.join(f'q{n}' for n in range(many))}\n6\n", encoding="utf-8")
        named = tuple(f"the column 'q{n}' is not used" for n in range(5))
        assert read_group(path, Unit.CM).unused == named + last


def test_ages_are_no_finer_than_a_hundredth(tmp_path: Path) -> None:
    """However many wearers there are, the tables are looked up for twelve thousand ages at most."""
    path = tmp_path / "class.csv"
    ages = [f"{6 + number / 10_000:.4f}" for number in range(1_000)]
    path.write_text("\n".join(["age", *ages]), encoding="utf-8")
    assert np.unique(read_group(path, Unit.CM).ages).tolist() == [round(6 + n / 100, 2) for n in range(11)]


ODD_LINES = (
    "name;head_girth;age;hand_girth_in\nA;52,5;;\n\nB;50 cm;six;\nC;;7\nD;500;;\nE;51;6;6;1\n;;;;;\n"
    "F;;;\n  ;;\nG;50;3,25;6 1/2 in\nH;50;3;5000\n"
)


def test_a_group_is_the_same_in_parts(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "class.csv"
    path.write_text(ODD_LINES, encoding="utf-8")
    whole = read_group(path, Unit.CM)
    assert whole.names == ("A", "C", "G")
    assert [each.line for each in whole.problems] == [4, 6, 7, 9, 12]
    for at_once in (1, 2, 3):
        monkeypatch.setattr(group_file, "_AT_ONCE", at_once)
        parts = read_group(path, Unit.CM)
        assert (parts.names, parts.problems) == (whole.names, whole.problems)
        assert parts.lines.tolist() == whole.lines.tolist() == [2, 5, 11]
        for column, same in zip(
            (parts.ages, *parts.own.values()), (whole.ages, *whole.own.values()), strict=True
        ):
            np.testing.assert_array_equal(column, same)


@pytest.mark.slow
def test_not_even_with_all_are_thousands_listed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(group_report, "MOST_SHOWN", 61)
    specs_for_tests.write(tmp_path)
    for many, said in ((61, "--all, --csv or"), (62, "--csv or")):
        Path("class.csv").write_text("age\n" + "6\n" * many, encoding="utf-8")
        told = CliRunner().invoke(main, ["fit", "lake.yaml", "--group", "class.csv"]).stdout
        assert f"One by one with {said} --json." in told
    assert CliRunner().invoke(main, ["fit", "lake.yaml", "--group", "class.csv", "--all"]).stdout == told


def test_json_is_the_same_in_parts(monkeypatch: pytest.MonkeyPatch) -> None:
    wearer: dict[str, object] = {
        "name": 'Ä "b"\n',
        "size": None,
        "stops": ["A", "B"],
        "minds": [],
        "sure": True,
        "more": {},
    }
    document = {"wearers": [wearer] * 30, "nobody": [], "deep": {"a": [[1, -2.5], [{"b": 0}]]}, "none": 0.5}
    monkeypatch.setattr(json_text, "_AT_ONCE", 3)
    parts = list(json_text.in_parts({**document, "wearers": iter([wearer] * 30), "nobody": iter(())}))
    assert len(parts) > 10
    assert json_text.as_text(document) == "".join(parts)
    assert "".join(parts) == json.dumps(document, indent=2, ensure_ascii=False) + "\n"
