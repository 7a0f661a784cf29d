"""Reading one wearer: from options, and from a small file with every problem at its line."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from schematics.errors import UsageError
from schematics.fitting.group_file import read_group
from schematics.fitting.measured import given_wearer, merged, read_wearer
from schematics.reading.problems import SpecError
from schematics.units import Unit
from schematics.wearer.body import Body
from tests.spellings_for_tests import SPELT


def read(folder: Path, text: str, unit: Unit = Unit.CM) -> str:
    path = folder / "child.yaml"
    path.write_text(text, encoding="utf-8")
    try:
        spec = read_wearer(path, unit)
    except SpecError as error:
        return str(error).replace(f"{folder}/", "")
    return f"{spec.chart} {spec.age_years} { ({body.value: round(cm, 2) for body, cm in spec.own.items()}) }"


def test_a_file_of_measurements(tmp_path: Path) -> None:
    assert read(tmp_path, "age: 6\nhead_girth: 52.5\nhand_girth: 6 1/4 in\n") == (
        "None 6.0 {'head_girth': 52.5, 'hand_girth': 15.88}"
    )
    assert read(tmp_path, "unit: in\nhead_girth: 20\nheight: 118 cm\n") == (
        "None None {'head_girth': 50.8, 'height': 118.0}"
    )
    assert read(tmp_path, "head_girth: 20\n", Unit.IN) == "None None {'head_girth': 50.8}"
    assert read(tmp_path, "chart: child/6\nhead_girth: 52\n") == "child/6 None {'head_girth': 52.0}"


@pytest.mark.parametrize(
    ("text", "problems"),
    [
        ("hed_girth: 52\n", "child.yaml:1: 'hed_girth' is no measurement; did you mean 'head_girth'?"),
        (
            "age: 6\nname: Ida\n",
            "child.yaml:2: 'name' is no measurement; delete the line; what is read is age, and measurements "
            "such as height, head_girth and hand_girth",
        ),
        (
            "age: 6\nhead_girth: 520\nheight: tall\n",
            "child.yaml:2: head_girth: expected 27 cm to 76 cm, got 520 cm\n"
            "child.yaml:3: height: expected a length such as 20, '20 cm' or '8 1/2 in', got 'tall'",
        ),
        (
            "unit: in\nhead_girth: 52\nheight: 46\nwrist_girth: 12\n",
            "child.yaml:2: head_girth: expected 10 5/8 in to 29 7/8 in, got 52 in: 52 cm?\n"
            "child.yaml:4: wrist_girth: expected 2 3/4 in to 9 1/2 in, got 12 in: 12 cm?",
        ),
        ("unit: feet\nhead_girth: 52\n", "child.yaml:1: unit: expected cm or in"),
        ("unit: cm\n", "child.yaml:1: expected a chart row, an age or at least one measurement, got none"),
        ("age: -1\n", "child.yaml:1: age: expected an age of 0 to 120 years, got -1"),
        ("- 52\n", "child.yaml:1: expected a mapping with keys such as 'chart', got a list"),
        ("head_girth: [52\n", "child.yaml:2: the '[' of line 1 is not closed, or a comma is missing"),
        ("", "child.yaml:1: the file is empty; expected measurements of a wearer such as 'head_girth: 52'"),
    ],
)
def test_every_problem_has_its_line(tmp_path: Path, text: str, problems: str) -> None:
    assert read(tmp_path, text) == problems


def test_options_are_read_in_the_designs_unit() -> None:
    spec = given_wearer({"head_girth": "20 1/2", "hand_girth": "15cm", "age": "6"}, Unit.IN)
    assert spec.own == {Body.HEAD_GIRTH: pytest.approx(52.07), Body.HAND_GIRTH: 15.0}
    assert spec.age_years == 6.0


def test_every_option_that_cannot_be_used_is_told() -> None:
    with pytest.raises(UsageError) as caught:
        given_wearer({"head_girth": "big", "age": "old", "height": "5"}, Unit.CM)
    assert str(caught.value).splitlines() == [
        "--age: expected an age such as 6, '18 months' or '1 1/2 years', got 'old'",
        "--head-girth: expected a length such as 20, '20 cm' or '8 1/2 in', got 'big'",
        "--height: expected 41 cm to 231 cm, got 5 cm",
    ]


@pytest.mark.parametrize(
    ("height", "unit", "said"),
    [
        ("1.16", Unit.CM, "expected 41 cm to 231 cm, got 1.16 cm: 1.16 m?"),
        ("1,16", Unit.CM, "expected 41 cm to 231 cm, got 1.16 cm: 1.16 m?"),
        ("1.16", Unit.IN, "expected 16 1/8 in to 91 in, got 1.16 in: 1.16 m?"),
        ("30", Unit.CM, "expected 41 cm to 231 cm, got 30 cm: 30 in?"),
        ("3", Unit.CM, "expected 41 cm to 231 cm, got 3 cm"),
    ],
)
def test_a_height_in_another_unit_is_asked_about_alike_everywhere(
    tmp_path: Path, height: str, unit: Unit, said: str
) -> None:
    """1.16 m are 116 cm, a child's; 30 in 76 cm, a baby's; 3 is nobody's in any unit."""
    with pytest.raises(UsageError) as caught:
        given_wearer({"height": height}, unit)
    assert str(caught.value) == f"--height: {said}"
    assert read(tmp_path, f"height: '{height}'\n", unit) == f"child.yaml:1: height: {said}"
    path = tmp_path / "class.csv"
    path.write_text(f'name,height\nWren,"{height}"\nFinch,45in\n', encoding="utf-8")
    (problem,) = read_group(path, unit).problems
    assert (problem.line, problem.sentence) == (2, f"height: {said}")


@pytest.mark.parametrize("age", ["nan", "inf", "-1", "121"])
def test_no_age_at_all(age: str) -> None:
    with pytest.raises(UsageError, match="--age: expected"):
        given_wearer({"age": age}, Unit.CM)


def test_options_win_over_the_file(tmp_path: Path) -> None:
    path = tmp_path / "child.yaml"
    path.write_text("age: 6\nhead_girth: 52\nhand_girth: 15\n", encoding="utf-8")
    both = merged(read_wearer(path, Unit.CM), given_wearer({"head_girth": "53", "age": "7"}, Unit.CM))
    assert both.own == {Body.HEAD_GIRTH: 53.0, Body.HAND_GIRTH: 15.0}
    assert both.age_years == 7.0


@pytest.mark.parametrize("unit", list(Unit))
def test_options_and_groups_read_every_spelling_alike(tmp_path: Path, unit: Unit) -> None:
    """The height of somebody, 41 to 231 cm; an empty cell says nothing."""
    spelt = [(text, cm) for text, default, cm in SPELT if default is unit and text]
    path = tmp_path / "class.csv"
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows(
            [["name", "height"], *([f"{at}", text] for at, (text, _) in enumerate(spelt))]
        )
    group = read_group(path, unit)
    in_group = dict(zip(group.names, group.own.get(Body.HEIGHT, ()), strict=True))
    for at, (text, cm) in enumerate(spelt):
        if cm is not None and 41 <= cm <= 231:
            assert given_wearer({"height": text}, unit).own[Body.HEIGHT] == pytest.approx(
                float(cm), rel=1e-15
            )
            assert in_group[f"{at}"] == pytest.approx(float(cm), rel=1e-15), text
        else:
            with pytest.raises(UsageError, match=r"^--height: expected "):
                given_wearer({"height": text}, unit)
            assert f"{at}" not in in_group, text
