"""``schematics new``: from a swatch and some answers to a spec that can be graded."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
import yaml
from click.testing import CliRunner, Result
from hypothesis import given, settings
from hypothesis import strategies as st

from schematics.cli import main
from schematics.design.guessed import guessed
from schematics.errors import UsageError
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.reading.design_file import parse_draft, read_design
from schematics.reading.new import spec_file
from schematics.reading.new.answers import READERS, read
from schematics.reading.new.questions import offered, questions
from schematics.reading.new.spec_text import size_names, spec_text
from schematics.reading.new.usual import usual
from schematics.units import CM_PER_INCH
from schematics.wearer.rows import references
from tests.program import run

SWATCH = "19 sts 14 rows over 20 cm, 46 g"


@pytest.fixture(autouse=True)
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def call(*arguments: object, typed: str | None = None) -> Result:
    return CliRunner().invoke(main, [*map(str, arguments)], input=typed)


def loaded(path: Path) -> dict[str, Any]:
    document: dict[str, Any] = yaml.safe_load(path.read_text("utf-8"))
    return document


@pytest.mark.slow
@pytest.mark.parametrize("unit", ["cm", "in"])
@pytest.mark.parametrize("construction", CONSTRUCTIONS)
def test_from_a_swatch_only_to_a_graded_spec_without_a_stop(
    construction: str, unit: str, place: Path
) -> None:
    swatch = SWATCH if unit == "cm" else "19 sts 14 rows over 8 in"
    made = call(
        "new", "specs/lake.yaml", "--construction", construction, "--unit", unit, "--swatch", swatch,
        "--sizes", "child/4, child/6",
    )  # fmt: skip
    assert (made.exit_code, made.stderr) == (0, "")
    assert made.stdout.startswith("Wrote specs/lake.yaml.\nGuessed: swatch of the centre panel, swatch of")
    before = (place / "specs" / "lake.yaml").read_text("utf-8")
    graded = call("grade", "specs/lake.yaml", "--write")
    assert graded.exit_code == 0, graded.output
    after = (place / "specs" / "lake.yaml").read_text("utf-8")
    comments = re.findall(r"#.*", before)
    assert len(comments) > 12
    assert re.findall(r"#.*", after) == comments
    design = read_design(Path("specs/lake.yaml"))
    assert (design.title, design.graded) == ("Lake poncho", ())
    checked = call("check", "specs/lake.yaml")
    assert (checked.exit_code, checked.stderr) == (0, "")
    inch = CM_PER_INCH if unit == "in" else 1
    assert design.parts.body.swatch.width_cm == pytest.approx((20, 8 * inch)[unit == "in"])


ALL_FLAGS = {
    "title": "Lake: the second",
    "designer": "Tern Hollow: patterns",
    "level": "Easy",
    "unit": "in",
    "construction": "mitred",
    "lines": "3",
    "yarn": "bulky wool",
    "hook": "us l/11",
    "stitch": "hdc",
    "swatch": "19.5 sts x 14 rows over 8 x 6 1/2 in, 46g",
    "stretch": "18 %, 0.07",
    "panel-stitch": "raised ripple stitch",
    "panel-swatch": "22 stitches and 14 rows over 20 cm by 15 cm",
    "panel-stretch": "12% 5%",
    "panel-hook": "7.5",
    "multiple": "4 + 2",
    "row-repeat": "2+4+1",
    "rib-stitch": "single crochet in the back loop",
    "rib-swatch": "20 sts 22 rows over 8",
    "rib-stretch": "10 % 40 %",
    "rib-hook": "7 mm",
    "seam": "Slip stitch, edge to edge, right sides up",
    "sizes": "M, 6, child/2",
    "below-waist": "-1/2",
    "fullness": "Full",
    "increases": "Exact",
    "neck-ease": "-1 cm",
    "panel-width": "4 3/4",
    "neck-band": "2",
    "arm-bands": "7 cm",
}


def test_every_flag_reaches_the_spec(place: Path) -> None:
    assert {f"--{flag}" for flag in ALL_FLAGS} == {question.flag for question in questions()}
    flags = [word for flag, words in ALL_FLAGS.items() for word in (f"--{flag}", words)]
    made = call("new", "lake.yaml", *flags)
    assert (made.exit_code, made.stderr) == (0, "")
    assert "Guessed" not in made.stdout
    spec = loaded(place / "lake.yaml")
    assert (spec["title"], spec["unit"], spec["construction"]) == ("Lake: the second", "in", "mitred")
    assert spec["yarn"] == {"name": "bulky wool"}
    assert spec["hook"] == "us l/11"
    assert spec["pattern"] == {
        "designer": "Tern Hollow: patterns",
        "level": "easy",
        "seam": {"stitch": "slip stitch", "sides": "edge to edge, right sides up"},
    }
    assert spec["fabrics"] == {
        "main": {
            "stitch": "half double crochet",
            "swatch": {"stitches": 19.5, "rows": 14, "width": 8, "height": "6 1/2", "mass": 46},
            "stretch": {"across": "18 %", "along": "7 %"},
            "turning_chains": 2,
        },
        "panel": {
            "stitch": "raised ripple stitch",
            "swatch": {"stitches": 22, "rows": 14, "width": "20 cm", "height": "15 cm"},
            "stretch": {"across": "12 %", "along": "5 %"},
            "turning_chains": {"chains": 1, "guessed": True},
            "hook": 7.5,
            "multiple": {"of": 4, "plus": 2},
            "row_repeat": {"rows": 4, "setup": 2, "closing": 1},
        },
        "rib": {
            "stitch": "single crochet in the back loop",
            "swatch": {"stitches": 20, "rows": 22, "width": 8, "height": 8},
            "hook": "7 mm",
            "stretch": {"across": "10 %", "along": "40 %"},
            "turning_chains": 1,
        },
    }
    assert spec["sizes"] == {
        "2": {"wearer": "child/2", "body": {"lines": 3}},
        "6": {"wearer": "child/6", "body": {"lines": 3}},
        "M": {"wearer": "woman/M", "body": {"lines": 3}},
    }
    assert spec["grading"]["increases"] == "exact"
    intent = spec["grading"]["intent"]
    assert intent["body.depth"] == {"measure": "back_waist_length", "ease": "-1/2"}
    assert intent["neck.edge"] == {"measure": "head_girth", "ease": "-1 cm"}
    assert (intent["panel.width"], intent["neck_band.depth"]) == ("4 3/4", 2)
    assert intent["arm_band.depth"] == "7 cm"
    assert intent["body.hem"]["part"] == 3.8


def test_what_is_wrong_is_told_all_at_once_and_nothing_is_written(place: Path) -> None:
    result = call(
        "new", "lake.yaml", "--swatch", "0 sts 3 rows over 20 cm", "--unit", "feet", "--sizes", "child/3",
        "--panel-width", "0", "--lines", "4", "--fullness", "wide", "--multiple", "0", "--stretch", "lots",
        "--row-repeat", "2+4",
    )  # fmt: skip
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.splitlines() == [
        "--unit: expected cm or in, got 'feet'",
        "--lines: only a mitred body has it",
        "--swatch: expected more than 0 stitches and rows, got '0 sts 3 rows over 20 cm'",
        "--stretch: expected two shares such as '20 % 10 %', got 'lots'",
        "--multiple: expected a stitch multiple such as '4', '4 + 2' or 'any', got '0'",
        "--row-repeat: expected a row repeat such as '4', '2 + 4 + 2' (set-up, repeat, closing) or 'any', "
        "got '2+4'",
        "--sizes: there is no chart row 'child/3' ('schematics wearers' lists them); "
        "did you mean 'child/8', 'child/6' or 'child/4'?",
        "--fullness: expected slim, usual or full, got 'wide'",
        "--panel-width: expected a length from 1 to 60 cm, got '0', that is 0 cm",
    ]
    assert list(place.iterdir()) == []


@pytest.mark.parametrize(
    ("swatch", "sentence"),
    [
        ("1 sts 14 rows over 200 x 20 cm", "expected 0.5 to 200 stitches to 10 cm, got 0.05"),
        ("19 sts 2000 rows over 20 x 1 cm", "expected 0.5 to 200 rows to 10 cm, got 20000"),
        ("19 sts 14 rows over 20 cm, 5000 g", "expected 0.001 to 2 g to the square cm, got 12.5"),
        ("1 sts 1 rows over 200 cm",
         "expected 0.5 to 200 stitches to 10 cm, got 0.05; expected 0.5 to 200 rows to 10 cm, got 0.05"),
        ("1 sts 1 rows over 1000000 cm",
         "expected a length from 1 to 200 cm, got '1000000 cm', that is 1e+06 cm"),
    ],
)  # fmt: skip
def test_a_swatch_that_no_yarn_makes(place: Path, swatch: str, sentence: str) -> None:
    result = call("new", "lake.yaml", "--swatch", swatch)
    where = "" if sentence.startswith("expected a length") else f", in '{swatch}'"
    assert (result.exit_code, result.stderr) == (2, f"--swatch: {sentence}{where}\n")
    assert list(place.iterdir()) == []


def test_a_swatch_is_needed() -> None:
    result = call("new", "lake.yaml")
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == "--swatch: it is needed, such as '19 sts 14 rows over 20 cm'\n"


def test_a_wrong_answer_is_asked_for_again(place: Path) -> None:
    typed = {
        "title": ["Lake"],
        "unit": [""],
        "construction": ["square", "mitred"],
        "lines": ["none", ""],
        "yarn": [""],
        "stitch": ["dc"],
        "swatch": ["", "19", "19 sts 14 rows over 20 x 15 cm"],
        "stretch": ["20", "20 % 10 %"],
        "multiple": ["4+2"],
        "sizes": ["2, 2", "2, 4"],
        "fullness": ["wide", "slim"],
    }
    lines = [line for question in questions() for line in typed.get(question.key, [""])]
    result = call("new", "lake.yaml", "--ask", typed="\n".join([*lines, ""]))
    assert result.exit_code == 0, result.output
    assert result.stderr.splitlines() == [
        "  there is no construction 'square'; expected one of 'flared', 'mitred' or 'folded'",
        "  expected a whole number from 1 to 40, got 'none'",
        "  expected a swatch such as '19 sts 14 rows over 20 cm' or '19 sts 14 rows over 20 x 15 cm, 46 g', "
        "got '19'",
        "  expected two shares such as '20 % 10 %', got '20'",
        "  child/2 stands twice; name each size once",
        "  expected slim, usual or full, got 'wide'",
    ]
    spec = loaded(place / "lake.yaml")
    assert (spec["title"], spec["construction"], list(spec["sizes"])) == ("Lake", "mitred", ["2", "4"])
    assert spec["fabrics"]["main"]["turning_chains"] == 3
    assert spec["fabrics"]["panel"]["stitch"] == "double crochet"


def test_only_what_no_flag_gives_is_asked_and_a_wrong_flag_is(place: Path) -> None:
    flags = [
        word
        for flag, words in ALL_FLAGS.items()
        for word in (f"--{flag}", words)
        if flag not in ("title", "fullness")
    ]
    result = call("new", "lake.yaml", *flags, "--fullness", "wide", "--ask", typed="\nslim\n")
    assert result.exit_code == 0, result.output
    assert result.stderr == "--fullness: expected slim, usual or full, got 'wide'\n"
    assert "Title [Lake poncho]" in result.stdout
    assert loaded(place / "lake.yaml")["grading"]["intent"]["body.hem"]["part"] == 3


def test_stopping_half_way_writes_nothing(place: Path) -> None:
    result = call("new", "lake.yaml", "--ask", typed="Lake\ncm\n")
    assert result.exit_code == 130
    assert list(place.iterdir()) == []


def test_a_file_that_is_there_stays(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = place / "lake.yaml"
    path.write_text("mine\n")
    result = call("new", "lake.yaml", "--swatch", SWATCH)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == ("lake.yaml: there is such a file already; name another, or give --overwrite\n")
    assert path.read_text() == "mine\n"
    assert call("new", "lake.yaml", "--swatch", SWATCH, "--overwrite").exit_code == 0
    assert loaded(path)["title"] == "Lake poncho"


def test_a_file_that_comes_up_while_asking_stays(place: Path) -> None:
    answers = usual_answers("flared", "cm")
    text = spec_file.checked(Path("lake.yaml"), answers)
    (place / "lake.yaml").write_text("mine\n")
    with pytest.raises(UsageError, match="there is such a file already"):
        spec_file.write(Path("lake.yaml"), text, overwrite=False)
    assert (place / "lake.yaml").read_text() == "mine\n"


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        ("lake", "lake: a spec's name ends in .yaml, such as lake.yaml"),
        ("lake.txt", "lake.txt: a spec's name ends in .yaml, such as lake.yaml"),
        ("folder.yaml", "folder.yaml: this is a folder; name a file in it, such as folder.yaml/lake.yaml"),
    ],
)
def test_a_name_that_is_no_spec(name: str, sentence: str, place: Path) -> None:
    (place / "folder.yaml").mkdir()
    result = call("new", name, "--swatch", SWATCH)
    assert (result.exit_code, result.stderr) == (2, f"{sentence}\n")


def test_a_place_that_cannot_be_written_to(place: Path) -> None:
    (place / "file").write_text("")
    result = call("new", "file/lake.yaml", "--swatch", SWATCH)
    assert result.exit_code == 2
    assert result.stderr == "cannot write file/lake.yaml: file is a file, not a folder; move it away\n"
    assert "Traceback" not in result.output


@pytest.mark.slow
def test_without_a_terminal_nothing_is_asked() -> None:
    done = run("new", "pipe.yaml", "--swatch", SWATCH)
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith("Wrote pipe.yaml.\n")


def usual_answers(construction: str, unit: str, **given: str) -> dict[str, Any]:
    answers: dict[str, Any] = {}
    given = {"construction": construction, "unit": unit, "swatch": SWATCH, **given}
    for question in questions():
        if question.asked_of(construction):
            text = given.get(question.key, usual(question.key, answers, "lake"))
            answers[question.key] = read(question.key, text, answers)
    return answers


def test_every_question_is_read_and_has_a_usual_answer_but_for_the_swatch() -> None:
    settings = {each.key for construction in CONSTRUCTIONS.values() for each in construction.settings}
    assert [question.key for question in questions() if question.key not in settings] == list(READERS)
    assert offered() == CONSTRUCTIONS
    for construction in CONSTRUCTIONS:
        for unit in ("cm", "in"):
            answers = usual_answers(construction, unit)
            spec = yaml.safe_load(spec_text(answers))
            intents = set(spec["grading"]["intent"])
            assert intents <= set(CONSTRUCTIONS[construction].keys)
    assert usual("swatch", {}, "lake") is None


def test_what_is_guessed_says_so_until_the_key_is_deleted() -> None:
    answers = usual_answers("flared", "cm", panel_stitch="crossed ripples", rib_stretch="9 % 30 %")
    text = spec_file.checked(Path("lake.yaml"), answers)
    fabrics = yaml.safe_load(text)["fabrics"]
    told = [
        f"{name}.{key}"
        for name, fabric in fabrics.items()
        for key, value in fabric.items()
        if isinstance(value, dict) and value.get("guessed")
    ]
    assert told == [
        "main.stretch", "panel.swatch", "panel.stretch", "panel.turning_chains", "rib.swatch",
    ]  # fmt: skip
    head = parse_draft(Path("lake.yaml"), text.encode()).head
    assert [each.key for each in guessed(head)] == [f"fabrics.{key}" for key in told]
    assert guessed(head)[-1].what == "gauge of the neck band and arm bands"
    confirmed = parse_draft(Path("lake.yaml"), text.replace(", guessed: true", "").encode()).head
    assert guessed(confirmed) == ()


@pytest.mark.parametrize(
    ("flag", "words", "sentence"),
    [
        ("--level", "hard",
         "'hard' is not known here; expected one of 'basic', 'easy', 'intermediate' or 'complex'"),
        ("--hook", "J", "'J' may be 5.75 mm (US J) or 6 mm (US J-10); write which, in mm"),
        ("--rib-hook", "50", "expected 1 to 40 mm, got 50.0"),
        ("--seam", "slip stich",
         "'slip stich' is not known here; did you mean 'slip stitch' or 'whip stitch'?"),
        ("--seam", "mattress stitch, wrong sides together",
         "mattress stitch is worked edge to edge, right sides up; leave out 'sides', or take another stitch"),
    ],
)  # fmt: skip
def test_what_the_pattern_needs_is_read_as_in_a_spec(flag: str, words: str, sentence: str) -> None:
    result = call("new", "lake.yaml", "--swatch", SWATCH, flag, words)
    assert (result.exit_code, result.stderr) == (2, f"{flag}: {sentence}\n")


def test_every_row_of_the_charts_can_be_a_size(place: Path) -> None:
    rows = references()
    names = size_names(rows)
    assert sorted(names.values()) == sorted(rows)
    answers = usual_answers("flared", "cm", sizes=", ".join(rows))
    assert yaml.safe_load(spec_file.checked(Path("lake.yaml"), answers))["sizes"].keys() == names.keys()


_TEXTS = st.text(
    st.characters(codec="latin-1", categories=("L", "N", "P", "S", "Zs")), min_size=1, max_size=30
)


@pytest.mark.slow
@settings(max_examples=15, deadline=None)
@given(
    title=_TEXTS.filter(lambda text: text.strip() and text.strip().isprintable()),
    stitches=st.integers(10, 340),  # with `over`, gauges that yarn has, and the ribbing guessed from them too
    rows=st.decimals(10, 400, places=1),
    over=st.integers(8, 77),  # with seven eighths more it is still under 200 cm
    eighths=st.integers(0, 7),
)
def test_what_is_typed_is_what_the_spec_says(
    title: str, stitches: int, rows: object, over: int, eighths: int
) -> None:
    height = f"{over} {eighths}/8 in" if eighths else f"{over} in"
    answers = usual_answers(
        "folded", "cm", title=title, swatch=f"{stitches} sts {rows} rows over {over} in x {height}"
    )
    spec = yaml.safe_load(spec_file.checked(Path("lake.yaml"), answers))
    assert spec["title"] == title.strip()
    swatch = spec["fabrics"]["main"]["swatch"]
    assert (swatch["stitches"], swatch["rows"]) == (stitches, float(str(rows)))
    assert (swatch["width"], swatch["height"]) == (f"{over} in", height)
