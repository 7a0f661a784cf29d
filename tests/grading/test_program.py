"""The solver: nothing it prints by itself reaches standard output, where `--json` goes."""

from __future__ import annotations

import os
from typing import Any

import pytest
from scipy.optimize import milp

from schematics.grading.program import Program
from schematics.linear import at_least


def test_what_the_solver_prints_is_not_seen(
    monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:

    def noisy(*args: Any, **options: Any) -> Any:
        os.write(1, b"a line from C\n")
        return milp(*args, **options)

    monkeypatch.setattr("schematics.grading.program.milp", noisy)
    problem = Program()
    stitches = problem.column("stitches", 0, 9, whole=True)
    problem.charge(stitches, 1.0)
    problem.keep(at_least(2 * stitches, 5))
    answer = problem.solve(1.0)
    assert answer is not None
    assert answer.values["stitches"] == pytest.approx(3)
    os.write(1, b"our own\n")
    assert capfd.readouterr().out == "our own\n"
