"""``schematics build``."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from schematics.batch.lock import LOCK
from schematics.cli import main
from schematics.drawing.ink import pdf, raster
from tests.examples import seeds
from tests.program import files_in, hear_interrupts, spare_drawings, without_cairo
from tests.specs_for_tests import SPEC, TIGHT_NECK, write

DRAWN_BY_CAIRO = [(pdf, "to_pdf", pdf.to_pdf), (raster, "to_png", raster.to_png)]


@pytest.fixture(autouse=True)
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder of one's own to work in, and drawings that cost nothing."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "specs").mkdir()
    spare_drawings(monkeypatch)
    return tmp_path


def build(*arguments: object) -> Result:
    return CliRunner().invoke(main, ["build", "--jobs", "1", *map(str, arguments)])


def designs(place: Path) -> list[str]:
    return [path.name for path in (place / "output").iterdir() if path.is_dir()]


@pytest.mark.slow
def test_all_specs_of_the_folder_into_output(place: Path) -> None:
    write(place / "specs")
    write(place / "specs", SPEC, "shore.yaml")
    result = build()
    assert (result.exit_code, result.stderr) == (0, "")
    for design in ("lake", "shore"):
        for size in ("4", "6 years"):
            assert (place / "output" / design / size / "pieces.png").is_file()
    assert result.stdout.splitlines() == [
        "Lake poncho: 2 sizes in output/lake (2 mind)",
        "Lake poncho: 2 sizes in output/shore (2 mind)",
    ]


@pytest.mark.slow
def test_a_stop_is_1_drawn_and_named(place: Path) -> None:
    path = write(place, TIGHT_NECK)
    result = build(path, "--out", place / "drawn")
    assert (result.exit_code, result.stderr) == (1, "")
    assert (place / "drawn/lake/4/pieces.svg").is_file()
    assert result.stdout.splitlines() == [
        f"Lake poncho: 2 sizes in {place}/drawn/lake (1 stop, 1 mind)",
        f"  stop: 4; schematics check {path} says why",
    ]


@pytest.mark.slow
def test_a_stop_in_a_size_not_asked_for_does_not_count(place: Path) -> None:
    result = build(write(place, TIGHT_NECK), "--sizes", "6 years")
    assert (result.exit_code, result.stderr) == (0, "")
    assert "6 years/pieces.svg" in files_in(place / "output" / "lake")
    assert not (place / "output" / "lake" / "4").exists()
    assert result.stdout == "Lake poncho: 1 size in output/lake (1 mind)\n"


@pytest.mark.slow
def test_quiet_prints_problems_only(place: Path) -> None:
    result = build("--quiet", write(place, TIGHT_NECK), place / "nothing.yaml")
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.startswith(str(place / "nothing.yaml"))
    assert result.stderr.count("\n") == 1


@pytest.mark.slow
def test_one_bad_spec_does_not_keep_the_others_from_being_built(place: Path) -> None:
    bad = write(
        place / "specs", SPEC.replace("hem: 176", "hem: many").replace("hook: 6", "hook: {}"), "a.yaml"
    )
    write(place / "specs")
    result = build()
    assert result.exit_code == 2
    assert designs(place) == ["lake"]
    problems = result.stderr.splitlines()
    assert len(problems) == 2, "one line for each problem in the spec"
    assert all(problem.startswith(f"specs/{bad.name}:") for problem in problems)


@pytest.mark.slow
def test_a_size_only_one_spec_has(place: Path) -> None:
    write(place / "specs")
    write(place / "specs", SPEC.replace('"4":', '"5":'), "shore.yaml")
    result = build("--sizes", "4")
    assert result.exit_code == 2
    assert result.stderr == "specs/shore.yaml: no size '4'; the sizes are 5, 6 years\n"
    assert designs(place) == ["lake"]


@pytest.mark.slow
def test_two_specs_for_one_folder(place: Path) -> None:
    first, second = write(place), write(place / "specs")
    result = build(first, second)
    assert result.exit_code == 2
    assert (
        result.stderr == f"{second}: not built, its folder is that of {first}; rename one of the two files\n"
    )
    assert (place / "output/lake/measurements.json").is_file()


def test_an_output_folder_that_is_a_file(place: Path) -> None:
    write(place / "specs")
    (place / "output").write_text("mine")
    result = build()
    assert (result.exit_code, result.stdout) == (2, "")
    assert (
        result.stderr
        == "cannot write output/.schematics.lock: output is a file, not a folder; move it away\n"
    )
    assert (place / "output").read_text() == "mine"


@pytest.mark.slow
def test_without_the_cairo_library(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write(place / "specs")
    write(place / "specs", SPEC, "shore.yaml")
    for library, name, honest in DRAWN_BY_CAIRO:
        monkeypatch.setattr(library, name, honest)
    without_cairo(monkeypatch)
    result = build()
    assert result.exit_code == 2
    assert (place / "output/shore/6 years/pieces.svg").is_file()
    assert "2 sizes in output/lake" in result.stdout
    assert result.stderr.count("libcairo2") == 1, "said once for all designs"


@pytest.mark.slow
def test_an_interruption_leaves_nothing_half_written(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupt(_sheet: object) -> bytes:
        raise KeyboardInterrupt

    write(place / "specs")
    monkeypatch.setattr(raster, "to_png", interrupt)
    result = build()
    assert result.exit_code == 130
    assert result.stderr.strip() == "stopped; every file already written is whole"
    assert files_in(place / "output") == [LOCK]


@pytest.mark.thorough
@pytest.mark.skipif(not hasattr(os, "killpg"), reason="interrupts are sent otherwise there")
@pytest.mark.parametrize("seconds", seeds([0.3, 0.0, 0.6]))
def test_an_interrupt_while_the_processes_start_is_one_sentence(place: Path, seconds: float) -> None:
    write(place / "specs")
    command = [sys.executable, "-m", "schematics", "build", "--jobs", "2"]
    building = subprocess.Popen(
        command,
        cwd=place,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
        preexec_fn=hear_interrupts,
    )
    try:
        while not (place / "output" / LOCK).exists() and building.poll() is None:
            time.sleep(0.01)
        time.sleep(seconds)
        os.killpg(building.pid, signal.SIGINT)
        told = building.communicate(timeout=600)[1]
    finally:
        building.kill()
        building.wait()
    assert (building.returncode, told.strip()) == (130, "stopped; every file already written is whole")
    assert files_in(place / "output") == [LOCK]


@pytest.mark.slow
def test_counts_that_were_found_are_told_each_time(place: Path) -> None:
    block = 'grading:\n  intent:\n    neck_band.depth: 4 cm\nsizes:\n  "4":'
    text = SPEC.replace('sizes:\n  "4":', block).replace("    neck_band: {stitches: 6}\n", "", 1)
    path = write(place, text)
    note = f"{path}: counts left out in size 4 were found; schematics grade {path} shows them\n"
    for words in ("(2 mind)", "(2 mind), as it was"):
        result = build(path, "--out", "drawn")
        assert (result.exit_code, result.stderr) == (0, note)
        assert result.stdout == f"Lake poncho: 2 sizes in drawn/lake {words}\n"


@pytest.mark.slow
def test_terms_are_those_asked_for_else_the_specs(place: Path) -> None:
    path = write(place, SPEC.partition('  "6 years":')[0])
    folder = place / "output/lake"
    for arguments, whose in (((), "US"), (("--terms", "uk"), "UK"), ((), "US")):
        assert build(path, *arguments).exit_code == 0
        for name in ("pattern.md", "figures.md"):
            assert f"{whose} terms" in (folder / name).read_text("utf-8")
