"""The counts found are as good as any: every answer near them is looked at in small random problems."""

from __future__ import annotations

from pathlib import Path

import pytest

from schematics.grading.best import InfeasibleError, best
from schematics.grading.grade import search_of
from schematics.reading.design_file import read_draft
from tests.examples import marked, thorough
from tests.grading.exhaustive import Exhaustive, cheapest_way, increase_rows, intervals
from tests.grading.small_problems import SmallProblem
from tests.specs_for_tests import write

ARCS_CM = 1e-3
"""How much shorter a way on the drawn outline may be than round the arcs it stands for."""

PROVEN_TO = 0.001
"""No other answer is cheaper by more than this share of the cost; the gap of the answer says by how much."""

QUICK = (0, 5)
"""Problems of two constructions, with few answers."""


@pytest.mark.slow
@pytest.mark.parametrize("number", marked([*range(40), 199, 273] if thorough() else QUICK))
def test_no_answer_is_better(number: int, tmp_path: Path) -> None:
    """`make fuzz` does so for three hundred."""
    assert fault(number, tmp_path) is None


def fault(number: int, folder: Path) -> str | None:
    """What is wrong with the answer to the problem of that number."""
    problem = SmallProblem(number, intervals)
    draft = read_draft(write(folder, problem.text))
    try:
        found = best(search_of(draft))
    except InfeasibleError:
        return "there are counts that nothing stops" if Exhaustive(draft, problem.fit).feasible() else None
    exhaustive = Exhaustive(draft, problem.fit, found.counts)
    near = 1e-6 + ARCS_CM * exhaustive.wishes.mind * (draft.head.construction == "flared")
    cost = exhaustive.cost(found.counts)
    if abs(cost - found.cost_cm) > near:
        return f"the counts found cost {cost}, not {found.cost_cm}: {found.counts}"
    least, counts = exhaustive.best(cost + near)
    proven = min(found.gap_cm, PROVEN_TO * cost)
    if least > cost + near or least < cost - proven - near:
        return f"{counts} cost {least}, those found {cost}: {found.counts}"
    return None


def test_the_cheapest_way_is_found() -> None:
    """The cheapest start leads astray here."""
    cost, rows = cheapest_way([[0.0, 1.0], [0.0, 0.0]], [[[5.0, 6.0], [9.0, 2.0]]])
    assert (cost, rows) == (3.0, [1, 1])


def test_increase_rows_of_one_and_a_half() -> None:
    """Two rows of every three, from row 2 on."""
    assert increase_rows(9, 1.5) == [2, 3, 5, 6, 8, 9]
    assert increase_rows(9, 3) == [2, 5, 8]
