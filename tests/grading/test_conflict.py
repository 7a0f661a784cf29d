"""Contradictions: what is named cannot be kept together, and without any one of it the rest can."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from schematics.cli import main
from schematics.grading.best import feasible as is_feasible
from schematics.grading.conflict import ConflictError
from schematics.grading.grade import grade, search_of
from schematics.grading.search import Search
from schematics.reading.design_file import read_draft
from tests.examples import seeds
from tests.specs_for_tests import write

SPEC = (Path(__file__).parents[2] / "specs" / "sandpiper.yaml").read_text("utf-8")
SPEC = SPEC[: SPEC.index('  "8":')]
LINE = SPEC[: SPEC.index('  "4":')].count("\n") + 1
"""That of size 4, with what is fixed by hand."""
TIGHT_NECK = SPEC.replace(
    '"4": {wearer: child/4}', '"4": {wearer: child/4, body: {neck: 20}, panel: {stitches: 20}}'
)
ODD_RUN = SPEC.replace('"4": {wearer: child/4}', '"4": {wearer: child/4, arms: {stitches: 15}}')
LOW_HEM = SPEC.replace('"4": {wearer: child/4}', '"4": {wearer: child/4, body: {rows: 80}}')
NO_REPEAT = SPEC.replace('"4": {wearer: child/4}', '"4": {wearer: child/4, panel: {rows: 41}}')
CONTRADICTORY = {
    "a neck by hand that no head passes": (TIGHT_NECK, f"body.neck is 20 by hand (line {LINE})"),
    "an odd arm run by hand": (ODD_RUN, f"arms.stitches is 15 by hand (line {LINE})"),
    "rows by hand that hang below the knee": (LOW_HEM, f"body.rows is 80 by hand (line {LINE})"),
    "panel rows by hand that are no repeat": (NO_REPEAT, f"panel.rows is 41 by hand (line {LINE})"),
}


def feasible(search: Search, index: int, kept: set[str]) -> bool:
    """Whether one size has counts that keep these, whatever becomes of the rest."""
    left_out = {(index, ask.key) for ask in search.asks[index] if ask.key not in kept}
    return is_feasible(Search(cases=(search.cases[index],), left_out=frozenset(left_out)))


_CONFLICTS: dict[str, ConflictError] = {}


def conflict_of(text: str, folder: Path) -> ConflictError:
    """What is said of it, found once."""
    if text not in _CONFLICTS:
        with pytest.raises(ConflictError) as caught:
            grade(read_draft(write(folder, text)))
        _CONFLICTS[text] = caught.value
    return _CONFLICTS[text]


@pytest.mark.slow
@pytest.mark.parametrize("name", seeds([*CONTRADICTORY], step=3))
def test_the_set_named_is_a_smallest_one(name: str, tmp_path: Path) -> None:
    text, told = CONTRADICTORY[name]
    draft = read_draft(write(tmp_path, text))
    conflict = conflict_of(text, tmp_path)
    keys = {clash.ask.key for clash in conflict.clashes}
    search = search_of(draft)
    assert not feasible(search, 1, keys)
    for key in keys:
        assert feasible(search, 1, keys - {key}), key
    assert told in str(conflict)
    assert "any one of these would release it:" in str(conflict)


@pytest.mark.slow
def test_what_would_release_it_does(tmp_path: Path) -> None:
    """The neck that is named instead of 20 stitches can be graded."""
    number = (
        str(conflict_of(TIGHT_NECK, tmp_path))
        .split("another body.neck by hand in size '4', such as ")[1]
        .split(",")[0]
    )
    released = TIGHT_NECK.replace("neck: 20", f"neck: {number}")
    assert grade(read_draft(write(tmp_path, released))).solution.counts[1]["body.neck"] == int(number)


@pytest.mark.slow
def test_the_command_says_so_and_ends_with_2(tmp_path: Path) -> None:
    path = write(tmp_path, NO_REPEAT)
    result = CliRunner().invoke(main, ["grade", str(path)])
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == (
        f"{path}:{LINE}: no counts keep all rules. In size '4' these cannot be kept together:\n"
        "  - panel.rows fits repeats of 4 rows plus 2 (basket)\n"
        f"  - panel.rows is 41 by hand (line {LINE})\n"
        "any one of these would release it:\n"
        "  - another row repeat for basket\n"
        "  - another panel.rows by hand in size '4', such as 42, or none\n"
    )


@pytest.mark.slow
def test_lengths_that_no_counts_come_near_are_named(tmp_path: Path) -> None:
    """Body neck and panel width make up the neck edge, so 1 cm and 1 cm cannot come near 300 cm."""
    path = tmp_path / "lake.yaml"
    swatch = "14 sts 10 rows over 10 cm"
    flags = ["--no-ask", "--construction", "flared", "--swatch", swatch, "--sizes", "child/4"]
    assert CliRunner().invoke(main, ["new", str(path), *flags]).exit_code == 0
    text = re.sub(r"(?m)^    neck\.edge:.*$", "    neck.edge: 300\n    body.neck: 1", path.read_text("utf-8"))
    path.write_text(re.sub(r"(?m)^    panel\.width:.*$", "    panel.width: 1", text), "utf-8")
    with pytest.raises(ConflictError, match="these lengths lie too far apart") as caught:
        grade(read_draft(path))
    assert str(caught.value).split("all of them:\n")[1].splitlines() == [
        "  - neck.edge, meant 300 cm",
        "  - body.neck, meant 1 cm",
        "  - panel.width, meant 1 cm",
    ]
