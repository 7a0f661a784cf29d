"""A few sizes at a time: no worse for it where all are looked at, honest where they are not."""

from __future__ import annotations

from pathlib import Path

import pytest

from schematics.checks.finding import Severity
from schematics.grading.learnt import minds
from schematics.grading.search import Search
from schematics.grading.state import FEWER_CM
from schematics.spec import read_draft
from tests.grading.exhaustive import SmallProblem
from tests.grading.test_planes import BEST_CM, SPEC
from tests.specs_for_tests import write


@pytest.fixture(autouse=True)
def always(monkeypatch: pytest.MonkeyPatch) -> None:
    """However few windows there are."""
    monkeypatch.setattr("schematics.grading.search._MOST_WINDOWS", -1)
    monkeypatch.delattr(Search, "_together")


@pytest.mark.parametrize("many", [-1, 20])
@pytest.mark.parametrize("at_once", [1, 2, 7])
def test_the_demo_a_few_sizes_at_a_time(
    at_once: int, many: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The bound told is no more than what the best costs, and nothing shrinks with size."""
    monkeypatch.setattr("schematics.grading.rolling._AT_ONCE", at_once)
    for module in ("rolling", "search"):
        monkeypatch.setattr(f"schematics.grading.{module}.MANY_WINDOWS", many)
    search = Search.of(read_draft(write(tmp_path, SPEC)))
    found = search.run()
    assert found is not None
    assert found.bound_cm <= BEST_CM + 0.1
    assert BEST_CM - 0.1 <= found.cost_cm <= (1.1 if many > 0 else 1.5) * BEST_CM
    if at_once == 7 and many > 0:
        assert found.cost_cm == pytest.approx(BEST_CM, abs=0.1)
    for smaller, larger in zip(found.counts, found.counts[1:], strict=False):
        assert smaller["body.rows"] <= larger["body.rows"]
    findings = [search.workshop.findings(at, counts) for at, counts in enumerate(found.counts)]
    assert not any(each.severity is Severity.STOP for size in findings for each in size)
    costs = [term.cost(search.values(dict(enumerate(found.counts)))) for term in search.problem.terms]
    minded = sum(len(minds(size)) for size in findings)
    hairs = found.cost_cm - sum(costs) - 20 * minded
    assert 1 <= hairs / FEWER_CM / sum(sum(counts.values()) for counts in found.counts) <= 1.1


@pytest.mark.parametrize("seed", range(12))
def test_small_problems_two_sizes_at_a_time(seed: int, tmp_path: Path) -> None:
    """Between the bound told and what was found lies the best of every answer."""
    problem = SmallProblem(seed)
    best = problem.best()
    found = Search.of(read_draft(write(tmp_path, problem.text))).by_solver()
    if best is None:
        assert found is None
        return
    assert found is not None
    necks = [counts["body.neck"] for counts in found.counts]
    bands = [counts["neck_band.stitches"] for counts in found.counts]
    cost = problem.cost(necks, bands)
    rest = found.cost_cm - cost
    assert found.bound_cm - rest - 0.01 <= best <= cost + 0.01
    assert cost <= best + 0.5
