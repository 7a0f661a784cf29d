"""The counts found are as good as any: every answer of small random problems is looked at."""

from __future__ import annotations

from pathlib import Path

import pytest

from schematics.grading.conflict import ConflictError
from schematics.grading.grade import grade
from schematics.grading.search import Search
from schematics.spec import read_draft
from tests.grading.exhaustive import SmallProblem
from tests.specs_for_tests import write

TIE = 0.01
"""Which of two answers that differ by less is taken, the price of a stitch decides."""


@pytest.mark.parametrize("seed", range(24))
def test_no_answer_is_better(seed: int, tmp_path: Path) -> None:
    """`make fuzz` does so for two hundred."""
    check(SmallProblem(seed), tmp_path)


def check(problem: SmallProblem, folder: Path) -> None:
    """Both ways to the answer are taken: by groups of counts, and by the solver for all of them."""
    draft = read_draft(write(folder, problem.text))
    best = problem.best()
    if best is None:
        with pytest.raises(ConflictError):
            grade(draft)
        return
    for found in (grade(draft).found, Search.of(draft).by_solver()):
        assert found is not None
        assert found.gap_cm == 0
        necks = [counts["body.neck"] for counts in found.counts]
        bands = [counts["neck_band.stitches"] for counts in found.counts]
        assert problem.cost(necks, bands) == pytest.approx(best, abs=TIE)
