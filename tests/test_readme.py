"""What the README and the guide to specs show is so: commands run, a spec is read, lists are complete."""

from __future__ import annotations

import re
import shlex
from pathlib import Path
from typing import Any

import pytest
from click import Context
from click.testing import CliRunner

import schematics
from schematics.analysis.drape import hang_report
from schematics.batch import poncho_files
from schematics.checks import EXPLANATIONS
from schematics.checks.evaluation import evaluate
from schematics.cli import hang_command, main
from schematics.design.cautions import CAUTIONS
from schematics.drawing.sheets import SIZE_SHEETS
from schematics.fitting.to_measure import poncho_pattern
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.reading.design_file import read_design
from schematics.reading.problems import SpecError
from tests.analysis.drape.made_up_hang import made_up_ranges
from tests.examples import marked
from tests.program import spare_drawings
from tests.shipped import SPECS, shipped_design, shipped_text

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text("utf-8")
GUIDE = (ROOT / "specs" / "README.md").read_text("utf-8")
PAGES = f"{README}\n{GUIDE}"
NEW_SPEC = "specs/lake.yaml"
PICTURE = "output/tidepool/6/pieces.svg"


def fenced(language: str) -> list[str]:
    return re.findall(rf"```{language}\n(.*?)```", PAGES, re.DOTALL)


def test_every_command_is_named_in_the_readme() -> None:
    for command in main.list_commands(Context(main)):
        assert f"`{command}`" in README


def test_it_opens_with_one_paragraph_that_states_the_job() -> None:
    title, job, *_ = README.split("\n\n")
    assert title.startswith("# ")
    assert job.startswith("You design crochet ponchos")
    assert len(README.splitlines()) < 150


def test_the_spec_walked_through_is_a_spec(tmp_path: Path) -> None:
    parts = [block for block in fenced("yaml") if re.match(r"title|fabrics|sizes", block)]
    path = tmp_path / "walked.yaml"
    path.write_text("".join(parts))
    design = read_design(path)
    assert [size.name for size in design.sizes] == ["6"]
    path.write_text("".join(parts).replace("hem: 166", "hemm: 166"))
    with pytest.raises(SpecError, match=r"sizes\.\"6\"\.body: unknown key 'hemm'; did you mean 'hem'\?"):
        read_design(path)


QUOTED = re.findall(r"^ {4}\$ schematics ([^\n]+)\n((?: {4}[^\n]+\n)+)", PAGES, re.MULTILINE)
"""Commands, each with what it prints."""


def commands(*, of_new_spec: bool = False) -> list[str]:
    """What follows the program's name in those that are shown without what they print."""
    lines = re.findall(r"^ {4}(?:\$ )?schematics ([^\n]+)$", PAGES, re.MULTILINE)
    found = dict.fromkeys(line.split(" > ")[0].split("  #")[0].strip() for line in lines)
    shown = [command for command in found if command not in dict(QUOTED)]
    return [command for command in shown if (NEW_SPEC in command) is of_new_spec]


@pytest.mark.slow
def test_the_path_from_a_swatch_to_a_graded_spec(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.chdir(tmp_path)
    spare_drawings(monkeypatch)
    path = commands(of_new_spec=True)
    assert [words.split()[0] for words in path] == ["new", "grade", "check", "build"]
    fewer = {"new": ("--sizes", "child/6"), "build": ("--sizes", "6", "--jobs", "1")}
    for command in path:
        name, *words = shlex.split(command)
        result = CliRunner().invoke(main, [name, *words, *fewer.get(name, ())])
        assert result.exit_code == 0, result.output
    design = read_design(tmp_path / NEW_SPEC)
    assert ([size.name for size in design.sizes], design.graded) == (["6"], ())
    assert (tmp_path / "output" / "lake" / "6" / "pieces.svg").exists()


def few_sizes(folder: Path) -> None:
    """All specs that come with the program, with two sizes each."""
    folder.mkdir()
    for spec in SPECS:
        sizes = ("4", "8") if spec.stem == "first-draft" else ("4", "6")
        (folder / spec.name).write_text(shipped_text(spec.stem, *sizes), "utf-8")


@pytest.mark.slow
@pytest.mark.parametrize("command", marked(sorted(commands())))
def test_every_command_shown_runs(command: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    words = shlex.split(command)
    words += {"build": ["--sizes", "6", "--jobs", "1"], "coverage": ["--sizes", "4"]}.get(words[0], [])
    (tmp_path / "schematics").symlink_to(ROOT / "schematics")
    few_sizes(tmp_path / "specs")
    monkeypatch.chdir(tmp_path)
    spare_drawings(monkeypatch)
    monkeypatch.setattr(hang_report, "ranges", made_up_ranges)
    monkeypatch.setattr(hang_command, "_write_pictures", lambda *of: None)
    monkeypatch.setattr(poncho_files, "measured_picture", lambda design, result: None)
    monkeypatch.setattr(poncho_pattern, "hangs", lambda design, result: False)
    result = CliRunner().invoke(main, words)
    assert result.exit_code in (0, 1), result.output
    assert result.output


@pytest.mark.slow
def test_its_library_example_runs(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    few_sizes(tmp_path / "specs")
    monkeypatch.chdir(tmp_path)
    pieces = SIZE_SHEETS["pieces"]
    spare_drawings(monkeypatch)
    monkeypatch.setitem(SIZE_SHEETS, "pieces", pieces)
    (example,) = fenced("python")
    names: dict[str, Any] = {}
    exec(compile(example, "README.md", "exec"), names)
    good, _, fitting, problems = capsys.readouterr().out.splitlines()
    assert (good, fitting) == ("good []", "6 True")
    assert problems == "('specs/nowhere.yaml: there is no such file',)"
    assert names["svg"] == (tmp_path / PICTURE).read_text("utf-8")


@pytest.mark.slow
def test_its_picture_is_what_the_program_draws() -> None:
    assert f"({PICTURE})" in README
    sheet = schematics.draw(shipped_design("tidepool"))["6", "pieces"]
    as_built = sheet.svg == (ROOT / PICTURE).read_text("utf-8")
    assert as_built, "build it anew"


def test_its_line_for_the_shell_completes_commands() -> None:
    (variable,) = re.findall(r"(_SCHEMATICS_COMPLETE)=bash_source schematics", README)
    words = {variable: "bash_complete", "COMP_WORDS": "schematics gr", "COMP_CWORD": "1"}
    result = CliRunner().invoke(main, env=words, prog_name="schematics")
    assert result.output.splitlines() == ["plain,grade"]


@pytest.mark.slow
@pytest.mark.parametrize(("command", "quoted"), QUOTED)
def test_what_is_quoted_is_what_the_command_prints(
    command: str, quoted: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(ROOT)
    printed = CliRunner().invoke(main, shlex.split(command)).stdout
    for line in quoted.splitlines():
        assert " ".join(line.split()) in " ".join(printed.split())


def test_its_lists_are_complete() -> None:
    for caution in CAUTIONS:
        assert f"- {caution.sentence} ({caution.source})" in README
    for word, construction in CONSTRUCTIONS.items():
        (row,) = re.findall(rf"^\| `{word}` \|.*\|$", GUIDE, re.MULTILINE)
        for key in (*construction.body_counts.model_fields, *construction.arm_counts.model_fields):
            assert f"`{key}`" in row
    for code in re.findall(r"schematics explain ([A-Z]+-[A-Z-]+)", PAGES):
        assert code in EXPLANATIONS


def test_its_links_lead_somewhere() -> None:
    for folder, page in ((ROOT, README), (ROOT / "specs", GUIDE)):
        for target in re.findall(r"\]\(([^)#]+)\)", page):
            assert (folder / target).exists(), target


@pytest.mark.slow
def test_the_guide_lists_every_verdict_of_a_shipped_design_that_is_not_sure() -> None:
    listed = re.findall(r"^\| (\S+) \| ([^|]*) \| ([A-Z]+-[A-Z]+) \|$", GUIDE, re.MULTILINE)
    unsure: dict[tuple[str, str], list[str]] = {}
    for path in SPECS:
        for result in evaluate(shipped_design(path.stem)):
            for finding in result.findings:
                if finding.unsure:
                    unsure.setdefault((path.stem, finding.code), []).append(result.size.name)
    assert {(name, code): sizes.split(", ") for name, sizes, code in listed} == unsure
