"""``schematics new``: from a swatch and some answers to a spec that can be graded."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from schematics.checks.evaluation import evaluate
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.reading.design_file import read_design
from schematics.reading.new.questions import questions
from schematics.units import CM_PER_INCH
from tests.examples import covering, thorough
from tests.program import call
from tests.reading.new.calling import ALL_FLAGS, SWATCH, loaded

pytestmark = pytest.mark.usefixtures("place")


@pytest.mark.slow
@pytest.mark.parametrize(
    ("construction", "unit", "sizes"),
    covering(
        [*CONSTRUCTIONS] if thorough() else ["mitred", "folded"],
        ["in", "cm"],
        ["child/2, child/8", "child/6"],
    ),
)
def test_from_a_swatch_only_to_a_graded_spec_without_a_stop(
    construction: str, unit: str, sizes: str, place: Path
) -> None:
    swatch = SWATCH if unit == "cm" else "19 sts 14 rows over 8 in"
    made = call(
        "new", "specs/lake.yaml", "--construction", construction, "--unit", unit, "--swatch", swatch,
        "--sizes", sizes,
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
    assert "stop" not in {result.verdict for result in evaluate(design)}
    inch = CM_PER_INCH if unit == "in" else 1
    assert design.parts.body.swatch.width_cm == pytest.approx((20, 8 * inch)[unit == "in"])


@pytest.mark.slow
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


def test_a_file_that_is_there_stays(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = place / "lake.yaml"
    path.write_text("mine\n")
    result = call("new", "lake.yaml", "--swatch", SWATCH)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == ("lake.yaml: there is such a file already; name another, or give --overwrite\n")
    assert path.read_text() == "mine\n"
    assert call("new", "lake.yaml", "--swatch", SWATCH, "--overwrite").exit_code == 0
    assert loaded(path)["title"] == "Lake poncho"


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
