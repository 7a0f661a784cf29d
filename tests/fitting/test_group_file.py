"""Reading a group: good lines are read whatever is wrong with the others."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from schematics.errors import UsageError
from schematics.fitting.group_file import WearerGroup, read_group
from schematics.units import Unit
from schematics.wearer.body import Body


def read(folder: Path, text: str, unit: Unit = Unit.CM) -> WearerGroup:
    path = folder / "class.csv"
    path.write_text(text, encoding="utf-8")
    return read_group(path, unit)


def problems(group: WearerGroup) -> list[tuple[int, str]]:
    return [(each.line, each.sentence) for each in group.problems]


def test_units_come_from_the_column_the_cell_or_the_design(tmp_path: Path) -> None:
    text = "name,head_girth_in,Hand Girth,height-cm\nA,20,6,118\nB,20 1/2 in,15 cm,46 1/2 in\nC,50 cm,6,\n"
    found = read(tmp_path, text, Unit.IN)
    assert found.names == ("A", "B", "C")
    assert found.own[Body.HEAD_GIRTH] == pytest.approx([50.8, 52.07, 50.0])
    assert found.own[Body.HAND_GIRTH] == pytest.approx([15.24, 15.0, 15.24])
    assert found.own[Body.HEIGHT][:2] == pytest.approx([118.0, 118.11])
    assert np.isnan(found.own[Body.HEIGHT][2])
    assert problems(found) == []


def test_who_is_left_out_is_named_with_the_columns_own_name(tmp_path: Path) -> None:
    found = read(tmp_path, "Kind;Alter;Körpergröße\nKim;8;999\nÖzge;acht;120\nPino;6;118\n")
    assert [(each.name, each.sentence) for each in found.problems] == [
        ("Kim", "Körpergröße: expected 41 cm to 231 cm, got 999 cm"),
        ("Özge", "Alter: expected 0 to 120 years, got 'acht'"),
    ]


def test_bad_lines_are_told_and_the_rest_goes_on(tmp_path: Path) -> None:
    text = (
        "name,age,head_girth,height\n"
        "A,6,52,118\n"
        "B,six,52,118\n"
        "C,6,520,11.8\n"
        "D,6,fifty,118\n"
        "E,,,\n"
        "F,6,52,118,extra\n"
        "G,-1,,\n"
        "H,nan,52,\n"
        "I,7,,\n"
    )
    found = read(tmp_path, text)
    assert found.names == ("A", "I")
    assert found.lines.tolist() == [2, 10]
    assert problems(found) == [
        (3, "age: expected 0 to 120 years, got 'six'"),
        (
            4,
            "head_girth: expected 27 cm to 76 cm, got 520 cm; height: expected 41 cm to 231 cm, got 11.8 cm",
        ),
        (5, "head_girth: expected a length such as 20, '20 cm' or '8 1/2 in', got 'fifty'"),
        (6, "neither a measurement nor an age"),
        (7, "expected at most 4 cells, got 5"),
        (8, "age: expected 0 to 120 years, got '-1'"),
        (9, "age: expected 0 to 120 years, got 'nan'"),
    ]


@pytest.mark.parametrize("cell", ["inf", "nan", "1e3", "-5", "0x20", "5,2,5"])
def test_what_is_no_length_is_refused(tmp_path: Path, cell: str) -> None:
    found = read(tmp_path, f'name,head_girth\nA,52\nB,"{cell}"\n')
    assert found.names == ("A",)
    assert [line for line, _ in problems(found)] == [3]


@pytest.mark.parametrize("sign", [";", "\t", ","])
def test_spreadsheets_part_columns_in_three_ways(tmp_path: Path, sign: str) -> None:
    text = (
        "\ufeff"
        + sign.join(["name", "age", "head_girth"])
        + "\r\n"
        + sign.join(["Ann", "6", "52.5"])
        + "\r\n"
    )
    found = read(tmp_path, text)
    assert found.names == ("Ann",)
    assert found.own[Body.HEAD_GIRTH].tolist() == [52.5]


def test_names_may_hold_commas_and_line_breaks(tmp_path: Path) -> None:
    found = read(tmp_path, 'name,age\n"Ann, the\nfirst",6\nBob,x\n')
    assert found.names == ("Ann, the\nfirst",)
    assert problems(found)[0][0] == 4


def test_columns_that_mean_nothing_are_told(tmp_path: Path) -> None:
    found = read(tmp_path, "name,age,shoe,hed_girth\nA,6,31,52\n")
    assert found.unused == (
        "the column 'shoe' is not used",
        "the column 'hed_girth' is not used; did you mean head_girth?",
    )


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("name,shoe\nA,31\n", "expected a header with columns such as name, age, head_girth or height_in"),
        ("", "expected a header"),
        ("head_girth,head_girth_in\n52,20\n", "1: the column 'head_girth_in' stands twice; keep one"),
        ("age,age\n5,6\n", "1: the column 'age' stands twice; keep one"),
    ],
)
def test_a_header_that_cannot_be_used(tmp_path: Path, text: str, sentence: str) -> None:
    with pytest.raises(UsageError) as caught:
        read(tmp_path, text)
    assert str(caught.value).startswith(str(tmp_path / "class.csv"))
    assert sentence in str(caught.value)


def test_a_file_that_cannot_be_read(tmp_path: Path) -> None:
    with pytest.raises(UsageError, match=r"no\.csv: there is no such file"):
        read_group(tmp_path / "no.csv", Unit.CM)
    odd = tmp_path / "odd.csv"
    odd.write_bytes(b"name,age\nA,6\n\xff\xfe,7\n")
    with pytest.raises(UsageError, match=r"odd\.csv:3: the file is not UTF-8 text"):
        read_group(odd, Unit.CM)


def test_a_group_without_a_wearer_is_none(tmp_path: Path) -> None:
    with pytest.raises(UsageError, match=r"class.csv: there is no wearer in it; give each a line below"):
        read(tmp_path, "name,age\n\n , \n")


@pytest.mark.parametrize("sign", [";", "\t"])
def test_where_no_comma_parts_columns_it_is_a_decimal_point(tmp_path: Path, sign: str) -> None:
    rows = (
        ("name", "age", "head_girth"),
        ("2,5", "6", "52,5"),
        ("Bo", "6,5", "52,5 cm"),
        ("Cy", "6", "5,,2"),
    )
    text = "\n".join(sign.join(row) for row in rows)
    found = read(tmp_path, text)
    assert found.names == ("2,5", "Bo")
    assert found.ages.tolist() == [6.0, 6.5]
    assert found.own[Body.HEAD_GIRTH].tolist() == [52.5, 52.5]
    assert [line for line, _ in problems(found)] == [4]
