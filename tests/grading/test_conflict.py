"""Contradictions: the rules named cannot be kept together, and without any one of them the rest can."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from schematics.cli import main
from schematics.grading.conflict import ConflictError
from schematics.grading.grade import grade
from schematics.grading.search import Search
from schematics.spec import read_draft
from tests.specs_for_tests import write

SPEC = (Path(__file__).parents[2] / "specs" / "sandpiper.yaml").read_text("utf-8")
SPEC = SPEC[: SPEC.index('  "10":')]
TIGHT_NECK = SPEC.replace('"4": {wearer: child/4}', '"4": {wearer: child/4, body: {neck: 20}}')
SHRINKING = SPEC.replace('"8": {wearer: child/8}', '"8": {wearer: child/8, body: {rows: 30}}')
CONTRADICTORY = {
    "a neck by hand that no head passes": (TIGHT_NECK, {"4", "6"}, "body.neck is 20 by hand"),
    "fewer rows by hand than the size before": (SHRINKING, {"6", "8"}, "body.rows is 30 by hand"),
}


@pytest.mark.parametrize("name", CONTRADICTORY)
def test_the_set_named_is_a_smallest_one(name: str, tmp_path: Path) -> None:
    text, sizes, told = CONTRADICTORY[name]
    draft = read_draft(write(tmp_path, text))
    with pytest.raises(ConflictError) as caught:
        grade(draft)
    rules = [clash.rule for clash in caught.value.clashes]
    search = Search.of(draft)
    assert not search.feasible(rules)
    for rule in rules:
        assert search.feasible([each for each in rules if each is not rule])
    assert {draft.sizes[at].name for rule in rules for at in rule.sizes} <= sizes
    assert told in str(caught.value)
    assert "would release it:" in str(caught.value)


def test_what_would_release_it_does(tmp_path: Path) -> None:
    """The neck that is named instead of 20 stitches can be graded."""
    with pytest.raises(ConflictError, match=r"another body\.neck by hand in size '4', such as") as caught:
        grade(read_draft(write(tmp_path, TIGHT_NECK)))
    number = str(caught.value).split("another body.neck by hand in size '4', such as ")[1].split(",")[0]
    released = TIGHT_NECK.replace("neck: 20", f"neck: {number}")
    assert grade(read_draft(write(tmp_path, released))).found.counts[1]["body.neck"] == int(number)


def test_what_no_count_can_cure_is_told_before_a_garment_is_made(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The sample's 46 rows are no repeat of 60 plus 2, whatever the sizes before it would take."""
    monkeypatch.delattr(Search, "_explore")
    text = SPEC.replace("row_repeat: {rows: 4,", "row_repeat: {rows: 60,")
    with pytest.raises(ConflictError) as caught:
        grade(read_draft(write(tmp_path, text)))
    assert [clash.rule.key for clash in caught.value.clashes] == [
        "6: pattern of panel.rows",
        "6: panel.rows by hand",
    ]
    assert "another panel.rows by hand in size '6', such as 62, or none" in str(caught.value)


def test_the_command_says_so_and_ends_with_2(tmp_path: Path) -> None:
    result = CliRunner().invoke(main, ["grade", str(write(tmp_path, TIGHT_NECK))])
    assert result.exit_code == 2
    assert "In sizes '4', '6' these cannot be kept together:" in result.stderr
    assert not result.stdout
