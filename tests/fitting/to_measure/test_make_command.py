"""``schematics make``: what is written where, what is left alone, and what is told."""

from __future__ import annotations

import hashlib
import json
import shlex
from pathlib import Path

import html5lib
import pytest
import yaml

from schematics.batch import poncho_files
from schematics.batch.lock import LOCK
from schematics.batch.manifest import MANIFEST, Entry, Manifest, to_text
from schematics.checks import EXPLANATIONS
from schematics.fitting.to_measure import poncho_pattern
from schematics.wearer.body import Body
from tests.fitting.children import IN_SIZE_6
from tests.program import call, files_in, spare_bare_drawings, spare_pictures, spare_rendering
from tests.remembered import remember_made

SPECS = Path(__file__).parents[3] / "specs"
TIDEPOOL = SPECS / "tidepool.yaml"
CHILD = ("--age", "6", "--head-girth", "52.5", "--height", "118cm")


@pytest.fixture(autouse=True)
def in_a_folder(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    spare_rendering(monkeypatch)
    remember_made(monkeypatch)
    monkeypatch.chdir(tmp_path)


@pytest.fixture
def nothing_is_drawn(in_a_folder: None, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nor on the figure, nor with a picture in the pattern, where it is about something else."""
    spare_bare_drawings(monkeypatch)
    spare_pictures(monkeypatch)
    monkeypatch.setattr(poncho_files, "measured_picture", lambda design, result: None)
    monkeypatch.setattr(poncho_pattern, "hangs", lambda design, result: False)


def hashes(folder: Path) -> dict[str, str]:
    return {place: hashlib.sha256((folder / place).read_bytes()).hexdigest() for place in files_in(folder)}


@pytest.mark.slow
def test_everything_for_one_child_is_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Drawn on the figure in earnest; its other drawings are those of any design."""
    spare_bare_drawings(monkeypatch)
    spare_pictures(monkeypatch)
    result = call("make", TIDEPOOL, *CHILD, "--name", "Mara", "--have", "5 balls", "--spec")
    assert result.exit_code == 0, result.output
    folder = tmp_path / "output/tidepool/made/Mara"
    files = files_in(folder)
    assert {"pattern.pdf", "pattern.html", "pattern.md", "measurements.html", "design.yaml"} <= set(files)
    assert {f"worn.{form}" for form in ("svg", "png", "pdf")} <= set(files)
    assert "schematics/all-pieces-page.svg" in files
    assert "Does it fit?" in result.stdout
    assert "The yarn at hand is not enough: " in result.stdout
    assert f"{len(files) - 2} files in output/tidepool/made/Mara" in result.stdout  # less manifest and lock
    first = hashes(folder)
    again = call("make", TIDEPOOL, *CHILD, "--name", "Mara", "--have", "5 balls", "--spec")
    assert "as they were" in again.stdout
    assert hashes(folder) == first


@pytest.mark.slow
@pytest.mark.usefixtures("nothing_is_drawn")
def test_what_check_and_fit_say_of_the_spec_is_what_make_said(tmp_path: Path) -> None:
    gauge = ("--gauge", "20 sts 15 rows over 20 cm")
    made = call("make", TIDEPOOL, *CHILD, *gauge, "--spec", "-o", "mine")
    assert made.exit_code == 0, made.output
    assert call("check", "mine/design.yaml").exit_code == 0
    told = call("fit", "mine/design.yaml", *CHILD)
    assert told.exit_code == 0
    assert "Work size" in told.stdout
    page = html5lib.parse((tmp_path / "mine/measurements.html").read_text(), namespaceHTMLElements=False)
    said = " ".join("".join(page.itertext()).split())
    checked = " ".join(call("check", "mine/design.yaml", "--all").stdout.split())
    sentences = [each.text for each in page.iterfind(".//section[@id='part-4']//li")]
    assert len(sentences) > 5
    assert all(" ".join((each or "").split()) in checked for each in sentences)
    assert not any(code in said for code in EXPLANATIONS)
    assert not any(word in said for word in ("schematics", "design.yaml", "--"))


@pytest.mark.slow
@pytest.mark.usefixtures("nothing_is_drawn")
def test_a_spec_in_inches_with_photos_is_whole_in_its_folder(tmp_path: Path) -> None:
    data = yaml.safe_load(TIDEPOOL.read_text())
    data["unit"] = "in"
    data["date"] = str(data["date"])
    for fabric in data["fabrics"].values():
        fabric["swatch"] |= {key: f"{fabric['swatch'][key]} cm" for key in ("width", "height")}
    data["pattern"]["photos"] = [{"at": "cover", "shows": "A child.", "file": "photos/front.svg"}]
    (tmp_path / "photos").mkdir()
    picture = "<svg xmlns='http://www.w3.org/2000/svg' width='90mm' height='60mm' viewBox='0 0 90 60'/>"
    (tmp_path / "photos/front.svg").write_text(picture)
    (tmp_path / "lake.yaml").write_text(yaml.safe_dump(data, sort_keys=False))
    lengths = {body: f"{cm} cm" for body, cm in IN_SIZE_6.own.items()} | {Body.HEAD_GIRTH: "20 5/8 in"}
    child = [f"--{body.replace('_', '-')}={length}" for body, length in lengths.items()]
    made = call("make", "lake.yaml", "--age", "6", *child, "--spec", "-o", "mine")
    assert made.exit_code == 0, made.output
    assert (tmp_path / "mine/photos/front.svg").read_text() == picture
    written = yaml.safe_load((tmp_path / "mine/design.yaml").read_text())
    assert list(written["sizes"]) == ["6"]
    checked = call("check", "mine/design.yaml")
    assert checked.exit_code == 0, checked.output


@pytest.mark.slow
@pytest.mark.usefixtures("nothing_is_drawn")
def test_files_of_others_are_left_alone(tmp_path: Path) -> None:
    mine = tmp_path / "mine"
    mine.mkdir()
    (mine / "pattern.md").write_text("my own notes")
    refused = call("make", TIDEPOOL, *CHILD, "-o", "mine")
    assert refused.exit_code == 2
    assert "mine/pattern.md would be replaced and is not from this program" in refused.stderr
    assert (mine / "pattern.md").read_text() == "my own notes"
    assert [name for name in files_in(mine) if not name.startswith(".")] == ["pattern.md"]
    assert call("make", TIDEPOOL, *CHILD, "--force", "-o", "mine").exit_code == 0
    assert (mine / "pattern.md").read_text() != "my own notes"
    (tmp_path / "taken").write_text("a file")
    blocked = call("make", TIDEPOOL, *CHILD, "-o", "taken/here")
    assert blocked.exit_code == 2
    assert "move it away" in blocked.stderr
    assert len(blocked.stderr.splitlines()) == 1


@pytest.mark.slow
@pytest.mark.usefixtures("nothing_is_drawn")
def test_a_build_is_not_written_into(tmp_path: Path) -> None:
    built = tmp_path / "built"
    built.mkdir()
    (built / "pattern.md").write_text("of all sizes")
    known = Entry(sha256=hashes(built)["pattern.md"], size=None, key="0" * 64, source="0" * 64)
    (built / MANIFEST).write_text(to_text(Manifest(title="Tidepool poncho", files={"pattern.md": known})))
    before = hashes(built)
    refused = call("make", TIDEPOOL, *CHILD, "-o", "built")
    assert refused.exit_code == 2
    assert "it holds what was built of 'Tidepool poncho'; name another folder with -o" in refused.stderr
    assert {place: each for place, each in hashes(built).items() if not place.startswith(".")} == before


@pytest.mark.slow
@pytest.mark.usefixtures("nothing_is_drawn")
def test_what_was_made_for_another_child_or_of_another_design_is_left_alone(tmp_path: Path) -> None:
    """The last line names the one file to open first, and it is there."""
    made = call("make", TIDEPOOL, *CHILD, "--name", "Mara", "-o", "mine")
    before = hashes(tmp_path / "mine")
    assert made.stdout.splitlines()[-1] == "Open this first, the pattern: mine/pattern.pdf"
    assert "pattern.pdf" in before
    for other in ((TIDEPOOL, "--name", "Otto"), (SPECS / "driftwood.yaml", "--name", "Mara")):
        refused = call("make", *other, *CHILD, "-o", "mine")
        assert (refused.exit_code, refused.stdout) == (2, "")
        assert "it holds 'Tidepool poncho for Mara'; name another folder with -o" in refused.stderr
        assert hashes(tmp_path / "mine") == before
    assert call("make", TIDEPOOL, *CHILD, "--name", "Mara", "--change", "none", "-o", "mine").exit_code == 0


@pytest.mark.slow
@pytest.mark.usefixtures("nothing_is_drawn")
def test_a_program_is_told_what_was_made_and_where(tmp_path: Path) -> None:
    """The folder's name asks for no form; the counts are those of the spec that is written."""
    arguments = (TIDEPOOL, *CHILD, "--change", "hem +2", "--have", "9 balls", "--spec", "-o", "mine.csv")
    made = json.loads(call("make", *arguments, "--json").stdout)
    assert sorted(made["files"]) == [
        place for place in files_in(tmp_path / "mine.csv") if place not in (MANIFEST, LOCK)
    ]
    assert sorted(made["written"]) == sorted(made["files"])
    assert (made["folder"], made["open_first"]) == ("mine.csv", "pattern.pdf")
    (size,) = yaml.safe_load((tmp_path / "mine.csv/design.yaml").read_text())["sizes"].values()
    counts = {each["key"]: each["count"] for each in made["counts"]}
    assert {key: size["body"][key] for key in ("neck", "hem", "rows")} == {
        key: counts[f"body.{key}"] for key in ("neck", "hem", "rows")
    }
    assert [(each["key"], each["after"] - each["before"]) for each in made["changes"]] == [("body.hem", 2)]
    assert made["yarn"]["stash"][0]["have_g"] == 900  # tidepool's balls weigh 100 g
    again = json.loads(call("make", *arguments, "--json").stdout)
    assert (again["files"], again["written"]) == (made["files"], [])
    markdown = call("make", *arguments, "--format", "md").stdout
    assert markdown.startswith("# Tidepool poncho, made to measure\n")
    assert markdown.endswith("Open this first, the pattern: mine.csv/pattern.pdf\n")


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((), "say whom it is for"),
        ((*CHILD, "--change", "hemm +2"), "did you mean 'hem +2'?"),
        ((*CHILD, "--size", "7"), "no size '7'"),
        ((*CHILD, "--name", "a/b"), "the name becomes a folder's"),
        ((*CHILD, "--ball-mass", "heavy"), "--ball-mass: "),
        ((*CHILD, "--have", "many"), "--have: "),
        ((*CHILD, "--gauge", "tight"), "--gauge: "),
        (("--for", "nobody.yaml"), "nobody.yaml"),
    ],
)
def test_what_cannot_be_used_is_one_message(arguments: tuple[str, ...], said: str, tmp_path: Path) -> None:
    result = call("make", TIDEPOOL, *arguments)
    assert result.exit_code == 2
    assert said in result.stderr
    assert len(result.stderr.splitlines()) == 1
    assert "Traceback" not in result.stderr
    assert files_in(tmp_path) == []


@pytest.mark.slow
def test_yarn_says_how_its_suggestion_is_asked_for() -> None:
    told = " ".join(call("yarn", TIDEPOOL, "--size", "6", "--have", "560 g").stdout.split())
    command = told.partition("For its pattern: schematics ")[2].partition(", with")[0]
    arguments = shlex.split(command.replace(f"{TIDEPOOL}", "SPEC"))
    assert arguments == ["make", "SPEC", "--size", "6", "--change", "4", "--have", "560 g", "--age", "6"]
    assert "Size 6, suggestion 4: " in told


@pytest.mark.slow
def test_all_that_cannot_be_used_is_told_at_once(tmp_path: Path) -> None:
    wrong = {
        "--age": ["six"],
        "--head-girth": ["wide"],
        "--height": ["300"],
        "--gauge": ["tight", "rib: loose"],
        "--ball-mass": ["heavy"],
        "--have": ["many"],
        "--name": ["a/b"],
        "--change": ["hemm +2", "longer"],
    }
    asked = [text for option, texts in wrong.items() for each in texts for text in (option, each)]
    result = call("make", TIDEPOOL, *asked)
    assert result.exit_code == 2
    told = [line.partition(":")[0] for line in result.stderr.splitlines()]
    assert told == [option for option, texts in wrong.items() for _ in texts]
    assert files_in(tmp_path) == []


@pytest.mark.slow
def test_what_cannot_be_worn_is_a_sentence_and_nothing_is_written(tmp_path: Path) -> None:
    result = call("make", TIDEPOOL, *CHILD, "--change", "panel rows +1")
    assert result.exit_code == 1
    assert result.stdout == ""
    stopped, way_on = result.stderr.splitlines()
    assert stopped.startswith("With these changes it cannot be worn: ")
    assert "leave --change out" in way_on
    assert files_in(tmp_path) == []


@pytest.mark.slow
@pytest.mark.usefixtures("nothing_is_drawn")
@pytest.mark.parametrize(
    ("change", "code", "said"),
    [
        ("neck -16", 1, "cannot be worn: The head"),
        pytest.param("hem -500", 2, "body hem would be -", marks=pytest.mark.thorough),
    ],
)
def test_what_is_offered_instead_is_the_whole_command(
    change: str, code: int, said: str, tmp_path: Path
) -> None:
    """It runs as it stands, with all that was typed besides."""
    rest = ("--gauge", "20 sts 15 rows over 20 cm", "--name", "Mia O'Hara", "--have", "9 balls", "--spec")
    result = call("make", TIDEPOOL, *CHILD, "--change", change, *rest)
    assert result.exit_code == code
    stopped, way_on = result.stderr.splitlines()
    assert said in stopped
    assert way_on.startswith("This can be worn; ask for it instead: schematics make ")
    words = shlex.split(way_on.partition("schematics ")[2])
    assert {*CHILD, *rest} <= {*words}
    assert files_in(tmp_path) == []
    assert call(*words).exit_code == 0
    assert (tmp_path / "output/tidepool/made/Mia O'Hara/design.yaml").exists()
