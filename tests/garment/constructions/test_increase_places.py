"""Where increases that are spread along a row lie on the flat body."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from schematics.checks.evaluation import evaluate
from schematics.garment.increase_rows import increase_row
from tests.specs_for_tests import SPEC, read


@pytest.mark.parametrize("counts", ["hem: 176, rows: 30", "hem: 187, rows: 31, increase_every: 3"])
def test_there_is_one_for_every_stitch_that_the_body_grows_by(counts: str, tmp_path: Path) -> None:
    """On the rows of the plan, as far from the centre as their rows, in the stitches of the words."""
    garment = evaluate(read(tmp_path, SPEC.replace("hem: 176, rows: 30", counts)))[0].garment
    body, plan = garment.piece("body"), garment.increases
    assert plan is not None
    hem, rows = body.edge("hem").count, body.edge("front").count
    assert len(body.increases) == hem - 60
    stitch = 10 / 14
    opening = (hem - 60) * stitch / rows
    inner = 60 * stitch / opening
    found = iter(body.increases)
    for turn, (row, added, before) in enumerate(each for each in plan.running() if each[1]):
        spread = increase_row(plan, turn, row, added, before)
        assert spread is not None
        for number, stitch_number in enumerate(spread.stitches):
            increase = next(found)
            assert increase.row == row
            x, y = increase.head
            assert math.hypot(x, y - inner) == pytest.approx(inner + row, rel=1e-4)
            made = (stitch_number + number) / (before + added)
            from_right = made if row % 2 == 0 else 1 - made
            turned = math.atan2(-x if increase.left else x, inner - y)
            assert turned == pytest.approx(opening * (0.5 - from_right), abs=2e-3)
            x, y = increase.foot
            assert math.hypot(x, y - inner) == pytest.approx(inner + row - 1, rel=1e-4)
    assert next(found, None) is None


def test_increases_in_lines_are_no_strokes_of_their_own(tmp_path: Path) -> None:
    mitred = SPEC[: SPEC.index("sizes:\n")].replace("construction: flared", "construction: mitred") + (
        'sizes:\n  "4":\n    wearer: child/4\n'
        "    body: {neck: 60, lines: 4, increase_rows: 14, rows: 30}\n"
        "    arms: {from_front: 40, stitches: 20}\n    panel: {stitches: 12, rows: 30}\n"
        "    neck_band: {stitches: 6}\n    arm_bands: {stitches: 8}\n"
    )
    body = evaluate(read(tmp_path, mitred))[0].garment.piece("body")
    assert body.increases == ()
    assert len(body.creases) == 2
