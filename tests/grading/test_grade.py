"""What grading promises whatever the design: hand-fixed counts stay, and the spec around counts too."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from schematics.checks.evaluation import evaluate
from schematics.cli import main
from schematics.grading import best
from schematics.grading.grade import grade
from schematics.grading.targets import GradingError
from schematics.reading.design_file import read_design, read_draft
from schematics.reading.writing import with_counts
from tests.specs_for_tests import write

SPEC = (Path(__file__).parents[2] / "specs" / "sandpiper.yaml").read_text("utf-8")
SIZES = SPEC.index('  "8":')
SHORT = SPEC[:SIZES]
"""Sizes 2, 4 and 6."""
BY_HAND = SHORT.replace(
    '"4": {wearer: child/4}',
    '"4":   # worked by the sister\n    arms: {stitches: 20,}\n    wearer: child/4   # a chart row\n'
    "    body:\n"
    "      # wide\n      neck: 48   # and no other\n\n    # the end",
)


@pytest.mark.slow
@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_counts_go_in_and_nothing_else_changes(newline: str, tmp_path: Path) -> None:
    text = BY_HAND.replace("\n", newline)
    path = tmp_path / "sandpiper.yaml"
    path.write_bytes(text.encode())
    draft = read_draft(path)
    graded = grade(draft)
    after = with_counts(draft, graded.solution.counts).decode()
    rest = iter(after)
    assert all(letter in rest for letter in text)  # what stood there still does, in its order
    path.write_bytes(after.encode())
    again = read_draft(path)
    assert again.complete
    assert tuple(size.given for size in again.sizes) == graded.solution.counts
    assert [size.body for size in again.design().sizes] == [size.body for size in graded.design.sizes]
    assert with_counts(again, graded.solution.counts) == after.encode()


@pytest.mark.slow
def test_counts_by_hand_stay_and_the_others_come_round_them(tmp_path: Path) -> None:
    design = read_design(write(tmp_path, BY_HAND))
    assert (design.sizes[1].body.neck, design.sizes[1].arms.stitches) == (48, 20)
    assert design.graded == ("2", "4")
    for result in evaluate(design):
        assert result.verdict != "stop"


@pytest.mark.slow
def test_the_command_writes_once_and_then_has_nothing_to_do(tmp_path: Path) -> None:
    path = write(tmp_path, SHORT)
    diff = CliRunner().invoke(main, ["grade", "--diff", str(path)])
    assert '-  "2": {wearer: child/2}' in diff.stdout
    assert path.read_text("utf-8") == SHORT
    assert CliRunner().invoke(main, ["grade", "--write", str(path)]).exit_code == 0
    written = path.read_bytes()
    again = CliRunner().invoke(main, ["grade", "--write", str(path)])
    assert "Every count is given" in again.stdout
    assert path.read_bytes() == written
    assert not CliRunner().invoke(main, ["grade", "--diff", str(path)]).stdout


@pytest.mark.slow
def test_check_grades_on_the_fly_and_says_so(tmp_path: Path) -> None:
    path = write(tmp_path, SHORT)
    result = CliRunner().invoke(main, ["check", str(path)])
    assert result.exit_code == 0
    assert result.stderr == (
        f"{path}: counts left out in sizes 2, 4 were found; schematics grade {path} shows them\n"
    )


@pytest.mark.slow
def test_a_size_behind_an_alias_is_refused(tmp_path: Path) -> None:
    text = SHORT.replace('"2": {wearer: child/2}', '"2": &two {wearer: child/2}').replace(
        '"4": {wearer: child/4}', '"4": *two'
    )
    result = CliRunner().invoke(main, ["grade", "--write", str(write(tmp_path, text))])
    assert result.exit_code == 2
    assert "shares its counts with another by an alias" in result.stderr


@pytest.mark.slow
def test_lengths_that_pull_parts_far_apart_end_in_a_message(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    kelp = (Path(__file__).parents[2] / "specs" / "kelp.yaml").read_text("utf-8")
    path = write(tmp_path, kelp.replace("measure: wrist_girth, part: 1.15", "measure: wrist_girth, part: 15"))
    monkeypatch.setattr(best, "_MOST_LOOKED_AT", 20_000)
    with pytest.raises(GradingError, match="too many counts to choose from"):
        grade(read_draft(path))
