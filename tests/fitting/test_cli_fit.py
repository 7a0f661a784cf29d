"""``schematics fit``, ``coverage`` and ``progress`` at the command line; nothing given is written."""

from __future__ import annotations

import csv
import io
import json
import re
import socket
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from schematics.checks import EXPLANATIONS
from schematics.design.cautions import CAUTIONS
from tests.examples import covering
from tests.fitting.children import DEMOS, SPECS
from tests.program import call, files_in

pytestmark = pytest.mark.slow

TIDEPOOL = SPECS / "tidepool.yaml"
CHILD = ("--head-girth", "52.5", "--height", "118", "--hand-girth", "6 in", "--age", "6")


asked = cache(call)


def as_json(*arguments: object) -> Any:
    result = asked(*arguments, "--json")
    assert result.stderr == ""
    return json.loads(result.stdout)


@pytest.fixture
def class_list(tmp_path: Path) -> Path:
    path = tmp_path / "class.csv"
    path.write_text("name,age,head_girth,height\nAnn,6,52.5,118\nBob,4,51,\n", encoding="utf-8")
    return path


def test_one_child() -> None:
    result = asked("fit", TIDEPOOL, *CHILD)
    assert (result.exit_code, result.stderr) == (0, "")
    rows = [line.split("  ") for line in result.stdout.splitlines()]
    told = {row[1]: [cell.strip() for cell in row[2:] if cell.strip()] for row in rows if len(row) > 2}
    assert told["head girth"] == ["52.5 cm (20 5/8 in)", "measured"]
    assert told["hand girth"] == ["15.2 cm (6 in)", "measured"]
    assert told["neck girth"] == ["25.7 cm (10 1/8 in)", "23.5 to 28", "age table"]
    knee = 118 * 0.280 * (0.2 * 0.922 + 0.8 * 0.953)  # ANSUR II 2012; Snyder et al. 1977 at 1.1 and 1.2 m
    assert told["knee height"] == [f"{round(knee, 1):g} cm (12 3/8 in)", "estimated"]
    assert "Work size 6: it should fit, but that is not sure." in result.stdout
    assert "To be sure, measure the " in " ".join(result.stdout.split())
    assert all(len(line) <= 80 for line in result.stdout.splitlines())


def test_the_json_says_the_same_as_the_tables() -> None:
    document = as_json("fit", TIDEPOOL, *CHILD)
    assert document["advised"] == "6"
    assert not document["right"]
    assert document["wearer"]["body"]["head_girth"]["origin"] == "own"
    assert document["wearer"]["body"]["neck_girth"]["origin"] == "age table"
    (six,) = (size for size in document["sizes"] if size["name"] == "6")
    points = {point["code"]: point for point in six["points"]}
    # The neck of size 6 opens to 36 stitches of body, 20 % more, and 14 of panel, 12 % more.
    opens = 36 * 20 / 19 * 1.2 + 14 * 20 / 22 * 1.12
    assert points["NECK-PASS"]["ease_cm"] == pytest.approx(opens - 52.5, abs=1e-3)
    assert points["NECK-PASS"]["answer"] == "good"
    unsure = {each["code"] for each in six["findings"] if each["severity"] == "mind"}
    assert unsure == {code for code, point in points.items() if point["answer"] == "mind"}
    assert all(each["sure"]["margin_cm"] > 0 for each in six["findings"] if each["code"] in unsure)


def test_a_child_no_size_fits() -> None:
    """Five centimetres from nape to knee."""
    result = call("fit", TIDEPOOL, "--nape-height", "60", "--knee-height", "55", "--sizes", "6,8")
    assert result.exit_code == 1
    assert "No size fits as it is; size 6 comes nearest." in result.stdout
    assert "Nothing small makes it right." in result.stdout


def test_what_is_not_checked_is_no_advice_to_start() -> None:
    text = " ".join(call("fit", TIDEPOOL, "--head-girth", "54").stdout.split())
    assert "As far as is known, work size 6." in text
    assert "it could be sizes 8, 10, S and M as well. Measure it." in text


def test_no_line_is_too_long_for_a_giant_far_from_every_size() -> None:
    result = call("fit", TIDEPOOL, "--age", "30", "--height", "195", "--head-girth", "64")
    told = [line.split() for line in result.stdout.splitlines()]
    figures = [cell for row in told if row[:4] == ["spread", "over", "both", "arms"] for cell in row[4:]]
    assert len(figures) == 7
    assert re.fullmatch(r"-\d{3}~", figures[0])
    assert all(len(line) <= 80 for line in result.stdout.splitlines())


def test_advice_says_what_to_change() -> None:
    measured = ("--age", "5", "--height", "110", "--shoulder-breadth", "27", "--wrist-girth", "12")
    asked = ("fit", TIDEPOOL, "--head-girth", "51", *measured, "--sizes", "4")
    advice, *_ = as_json(*asked)["suggestions"]
    assert (advice["number"], advice["size"], advice["right"]) == (1, "4", True)
    assert [each["words"] for each in advice["changes"]]
    assert {each["severity"] for each in advice["findings"]} == {"good"}
    text = call(*asked).stdout
    assert "Suggestion 1: the smallest changes found that make size 4 right" in text
    assert "Checked again: nothing is left" in text


def test_all_is_said_in_inches_to_who_works_in_inches() -> None:
    """Metric beside inches only where both stand together; the same verdicts."""
    child = ("--sizes", "6", "--age", "6", "--head-girth")
    inches = call(
        "fit", TIDEPOOL, *child, "20.5", "--unit", "in", "--gauge", "19 sts 14 rows over 8", "--all"
    )
    metric = call("fit", TIDEPOOL, *child, "52.07", "--gauge", "19 sts 14 rows over 20.32", "--all")
    assert "To spare, in inches" in inches.stdout
    alone = re.sub(r"[0-9.]+ cm \([0-9 /]+ in\)", "", inches.stdout)
    assert not re.search(r"\bcm\b", alone)
    assert all(len(line) <= 80 for line in inches.stdout.splitlines())
    verdicts = r"(?m)^Size \w+: \w+|^Work size .*|\b[A-Z]+-[A-Z]+\b"
    assert re.findall(verdicts, inches.stdout) == re.findall(verdicts, metric.stdout)


def test_a_file_and_options_together(tmp_path: Path) -> None:
    path = tmp_path / "child.yaml"
    path.write_text("unit: in\nhead_girth: 20\nheight: 46\n", encoding="utf-8")
    body = as_json("fit", TIDEPOOL, "--wearer", path, "--head-girth", "53")["wearer"]["body"]
    assert body["head_girth"]["cm"] == 53
    assert body["height"]["cm"] == pytest.approx(46 * 2.54)


def test_own_gauge_with_a_child() -> None:
    gauge = ("--gauge", "20 sts 15 rows over 20 cm", "--sizes", "4,8")
    document = as_json("fit", TIDEPOOL, *CHILD, *gauge)
    assert document["gauge"]["fabrics"][0]["stitches"] == 10
    assert document["gauge"]["scaled_alike"] == ["ripple", "rib"]
    (four,) = (size for size in document["sizes"] if size["name"] == "4")
    lengths = {each["key"]: each["cm"] for each in four["finished"]}
    assert lengths["body.depth"] == 24 * 20 / 15
    result = asked("fit", TIDEPOOL, *CHILD, *gauge)
    assert "body  10 and 7.5  the pattern has 9.5 and 7" in result.stdout
    rows = [line.split() for line in result.stdout.splitlines()]
    head = rows.index(["at", "your", "gauge", "in", "the", "pattern"])
    # 30 rows of the size advised: 40 cm at her 15 rows over 20 cm, 42.9 at the pattern's 14.
    assert rows[head + 3] == [*["body", "depth,", "neck", "to", "hem"], "40", "43"]


def test_own_gauge_alone_says_which_size_to_work_instead() -> None:
    document = as_json("fit", TIDEPOOL, "--gauge", "20 sts 15 rows over 20 cm")
    assert [each["size"] for each in document["instead"]] == ["2", "4", "6", "8", "10", "S", "M"]
    assert document["instead"][0]["verdict"] == "stop"
    assert document["instead"][0]["then"] == "mind"
    result = asked("fit", TIDEPOOL, "--gauge", "20 sts 15 rows over 20 cm")
    assert result.exit_code == 0
    assert "work instead" in result.stdout


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        ((), "say whom it is for"),
        (("--head-girth", "big"), "--head-girth: expected a length such as"),
        (("--head-girth", "520"), "--head-girth: expected 27 cm to 76 cm, got 520 cm"),
        (("--age", "old"), "--age: expected an age such as 6, '18 months' or '1 1/2 years', got 'old'"),
        (("--age", "6", "--sizes", "7"), "no size '7'; the sizes are 2, 4, 6, 8, 10, S, M"),
        (("--age", "6", "--gauge", "tight"), "--gauge: expected a gauge such as"),
        (("--wearer", "no.yaml"), "no.yaml: there is no such file"),
        (("--group", "no.csv"), "no.csv: there is no such file"),
        (("--group", "no.csv", "--csv", "--json"), "--csv or --json, not both"),
        (("--group", "no.csv", "--age", "6"), "--group takes the measurements from its file"),
    ],
)
def test_misuse_is_told_in_one_sentence(arguments: tuple[str, ...], sentence: str) -> None:
    result = call("fit", TIDEPOOL, *arguments)
    assert result.exit_code == 2
    assert sentence in result.stderr
    assert "Traceback" not in result.output
    assert result.stdout == ""


def test_one_child_as_comma_separated_values() -> None:
    rows = list(csv.DictReader(io.StringIO(call("fit", TIDEPOOL, *CHILD, "--csv").stdout)))
    sizes = as_json("fit", TIDEPOOL, *CHILD)["sizes"]
    points = [(size["name"], point) for size in sizes for point in size["points"]]
    assert [(row["size"], row["point"]) for row in rows] == [
        (name, EXPLANATIONS[point["code"]].tracked[1]) for name, point in points
    ]
    assert [row["ease_cm"] for row in rows] == [str(point["ease_cm"]) for _, point in points]


@pytest.mark.parametrize(
    "command", [("fit", "--age", "6"), ("coverage",), ("progress", "--size", "4", "--rows", "3")]
)
def test_a_spec_that_is_not_there(command: tuple[str, ...]) -> None:
    name, *rest = command
    result = call(name, "no.yaml", *rest)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "no.yaml: there is no such file" in result.stderr


def test_a_group(class_list: Path) -> None:
    asked = ("fit", TIDEPOOL, "--sizes", "4,6", "--group", class_list)
    result = call(*asked)
    assert (result.exit_code, result.stderr) == (0, "")
    assert "2 wearers" in result.stdout
    assert "Yarn for all of them: " in result.stdout
    rows = list(csv.DictReader(io.StringIO(call(*asked, "--csv").stdout)))
    assert [(row["line"], row["name"]) for row in rows] == [("2", "Ann"), ("3", "Bob")]
    document = as_json(*asked)
    assert [each["size"] for each in document["wearers"]] == [row["size"] for row in rows]
    assert sum(each["wearers"] for each in document["counts"]) == 2
    alone = as_json(*asked[:4], "--age", "6", "--head-girth", "52.5", "--height", "118")
    assert rows[0]["size"] == alone["advised"]


def test_the_yarn_of_a_group_is_that_of_its_sizes(class_list: Path) -> None:
    document = as_json("fit", TIDEPOOL, "--sizes", "4,6", "--group", class_list)
    yarn = json.loads(call("yarn", TIDEPOOL, "--json").stdout)["designs"][0]["sizes"]
    by_size = {each["name"]: each for each in yarn}
    each_buys = [by_size[wearer["size"]]["colours"][0]["buy_g"] for wearer in document["wearers"]]
    assert document["yarn"]["colours"][0]["buy_g"] == pytest.approx(sum(each_buys), abs=0.01)


def test_bad_lines_of_a_group_are_told_with_their_line(class_list: Path) -> None:
    with class_list.open("a", encoding="utf-8") as file:
        file.writelines(f"C{number},six,,\n" for number in range(30))
        file.write("Dan,8,53,128\n")
    asked = ("fit", TIDEPOOL, "--group", class_list, "--sizes", "6")
    result = call(*asked, "--csv")
    assert result.exit_code == 2
    assert [line[:2] for line in csv.reader(result.stdout.splitlines()[1:])] == [
        ["2", "Ann"], ["3", "Bob"], ["34", "Dan"],
    ]  # fmt: skip
    told = result.stderr.splitlines()
    assert told[0] == f"{class_list}:4: age: expected 0 to 120 years, got 'six'"
    assert told[-1] == f"{class_list}: 10 more lines were not read; --json tells of each"
    result = call(*asked, "--json")
    assert [each["line"] for each in json.loads(result.stdout)["problems"]] == list(range(4, 34))


def test_a_name_is_no_formula(class_list: Path) -> None:
    """A spreadsheet would run a cell that begins so (common practice, no source)."""
    class_list.write_text('name,age\n"=cmd()",6\n', encoding="utf-8")
    asked = ("fit", TIDEPOOL, "--sizes", "6", "--group", class_list)
    rows = list(csv.DictReader(io.StringIO(call(*asked, "--csv").stdout)))
    assert rows[0]["name"] == "'=cmd()"


def test_a_chart_takes_the_place_of_an_older_chart_and_of_no_other_file(tmp_path: Path) -> None:
    spec, chart, drawn = tmp_path / "lake.yaml", tmp_path / "chart.svg", tmp_path / "drawn.svg"
    spec.write_bytes(TIDEPOOL.read_bytes())
    drawn.write_text("<svg xmlns='http://www.w3.org/2000/svg'/>", encoding="utf-8")
    for path in (spec, drawn):
        before = path.read_bytes()
        result = call("coverage", spec, "--sizes", "2", "--ages", "3-4", "--svg", path)
        assert (result.exit_code, result.stdout) == (2, "")
        assert result.stderr == (
            f"cannot write {path}: the file there is not one that the program drew; name another, or move it "
            "away\n"
        )
        assert path.read_bytes() == before
    drawn_of = set()
    for ages in ("3-4", "3-5"):
        assert call("coverage", spec, "--sizes", "2,4", "--ages", ages, "--svg", chart).exit_code == 0
        drawn_of.add(chart.read_bytes())
    assert len(drawn_of) == 2


def test_coverage(tmp_path: Path) -> None:
    chart = tmp_path / "chart.svg"
    result = call("coverage", TIDEPOOL, "--ages", "3-5", "--sizes", "2,4", "--svg", chart)
    assert (result.exit_code, result.stderr) == (0, "")
    assert "By head: it passes the neck at full stretch" in result.stdout
    assert "taken as independent" in " ".join(result.stdout.split())
    assert chart.read_text(encoding="utf-8").startswith("<?xml")
    document = as_json("coverage", TIDEPOOL, "--ages", "3 to 5", "--sizes", "2,4")
    assert [each["age_years"] for each in document["ages"]] == [3, 4, 5]
    assert set(document["ages"][0]["sizes"]["4"]) == {
        "head", "hand", "reach", "hang", "all", "all_low", "all_high", "unsure",
    }  # fmt: skip
    assert set(document["ages"][0]["sizes"]["4"]["unsure"]) == {"head", "hand", "reach", "hang"}


@pytest.mark.parametrize("ages", ["5-3", "3", "0-99", "a-b", "-1-3"])
def test_coverage_asks_for_ages(ages: str) -> None:
    result = call("coverage", TIDEPOOL, f"--ages={ages}")
    assert result.exit_code == 2
    assert "expected whole years" in result.stderr


def test_progress() -> None:
    arguments = ("progress", TIDEPOOL, "--size", "4", "--rows", "12", "--measured", "102", "17.2cm")
    result = call(*arguments, "--weighed", "4.7 oz", "--have", "3 balls")
    assert result.exit_code == 0
    assert "tidepool" not in result.stderr
    assert "If you go on like this" in result.stdout
    document = as_json(*arguments, "--weighed", "133", "--have", "400 g")
    assert document["expected"]["stitches"] == 36 + 6 * 10
    assert document["outcome"]["stitches_to_10_cm"] == pytest.approx(96 / 10.2, abs=1e-3)
    assert document["outcome"]["rows_to_10_cm"] == pytest.approx(12 / 1.72, abs=1e-3)
    assert document["yarn"][0]["have_g"] == 400
    assert document["yarn"][0]["lasts"] == "yes"


def test_progress_of_a_parted_body_is_of_both_sides() -> None:
    arguments = ("progress", SPECS / "driftwood.yaml", "--size", "2", "--rows")
    assert "of both sides together" in call(*arguments, "25").stdout
    assert "both sides" not in call(*arguments, "24").stdout


def test_progress_says_on_whom(tmp_path: Path) -> None:
    path = tmp_path / "child.yaml"
    path.write_text("age: 4\nhead_girth: 51\n", encoding="utf-8")
    arguments = ("progress", TIDEPOOL, "--size", "4", "--rows", "12", "--measured", "98", "17.2")
    assert "on the wearer the size is for (a child, size 4): " in call(*arguments).stdout
    told = call(*arguments, "--wearer", path).stdout
    assert "on your wearer (age 4 years, own measurements): mind\n" in told


def test_progress_that_ends_badly() -> None:
    result = call("progress", TIDEPOOL, "--size", "4", "--rows", "12", "--measured", "80", "17")
    assert result.exit_code == 1
    assert "The head (" in result.stdout


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (("--size", "5", "--rows", "3"), "no size '5'"),
        (("--size", "4", "--rows", "99"), "--rows: expected 1 to 24, the rows of the body of size 4, got 99"),
        (("--size", "4", "--rows", "3", "--weighed", "much"), "--weighed: expected a weight such as"),
        (("--size", "4", "--rows", "3", "--measured", "wide", "3"), "--measured: expected a length"),
        (("--size", "4", "--rows", "3", "--measured", "0", "3"), "--measured: expected a length over 0"),
        (("--size", "4", "--rows", "3", "--have", "some"), "--have: expected an amount"),
    ],
)
def test_progress_misused(arguments: tuple[str, ...], sentence: str) -> None:
    result = call("progress", TIDEPOOL, *arguments)
    assert (result.exit_code, result.stdout) == (2, "")
    assert sentence in result.stderr


@pytest.mark.parametrize(
    "arguments",
    [
        ("fit", *CHILD, "--sizes", "6"),
        ("fit", "--sizes", "4,6", "--gauge", "20 sts 15 rows over 20 cm"),
        ("coverage", "--sizes", "4", "--ages", "4-5"),
        ("progress", "--size", "4", "--rows", "12"),
    ],
)
def test_cautions_go_with_every_output(arguments: tuple[str, ...]) -> None:
    name, *rest = arguments
    text = " ".join(call(name, TIDEPOOL, *rest).stdout.split())
    document = as_json(name, TIDEPOOL, *rest)
    assert [each["sentence"] for each in document["cautions"]] == [each.sentence for each in CAUTIONS]
    for caution in CAUTIONS:
        assert caution.sentence in text


def test_nothing_is_written_and_nothing_is_sent(
    tmp_path: Path, class_list: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Measurements of children stay on the screen: no file, no cache, no connection."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("HOME", str(tmp_path))
    before = files_in(tmp_path)

    def refuse(*_: Any, **__: Any) -> Any:
        raise AssertionError("a connection was tried")

    monkeypatch.setattr(socket, "socket", refuse)
    monkeypatch.setattr(socket, "create_connection", refuse)
    monkeypatch.setattr(socket, "getaddrinfo", refuse)
    opened: list[str] = []
    honest = io.open

    def watch(file: Any, mode: str = "r", *rest: Any, **more: Any) -> Any:
        if set(mode) & set("wax+"):
            opened.append(str(file))
        return honest(file, mode, *rest, **more)

    monkeypatch.setattr(io, "open", watch)
    monkeypatch.setattr("builtins.open", watch)
    for arguments in (CHILD, ("--group", str(class_list)), ("--group", str(class_list), "--csv")):
        assert call("fit", TIDEPOOL, "--sizes", "6", *arguments).exit_code == 0
    assert opened == []
    assert files_in(tmp_path) == before


@pytest.mark.parametrize(("name", "form"), covering(DEMOS, ("--all", "--json", "--csv")))
def test_measurements_of_a_group_are_in_none_of_its_outputs(name: str, form: str, tmp_path: Path) -> None:
    path = tmp_path / "class.csv"
    path.write_text("name,head_girth,height\nAnn,51.37,117.93\n", encoding="utf-8")
    output = call("fit", SPECS / f"{name}.yaml", "--group", path, "--sizes", "6", form).output
    assert "Ann" in output
    assert "51.37" not in output
    assert "117.93" not in output
