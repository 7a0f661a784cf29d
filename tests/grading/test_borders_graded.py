"""Counts that grading finds fit the borders along an edge, in every construction."""

from __future__ import annotations

from pathlib import Path

import pytest

from schematics.checks.evaluation import evaluate
from schematics.checks.finding import Severity
from schematics.design.design import Design
from tests.borders_for_tests import EDGING
from tests.examples import thorough
from tests.specs_for_tests import SPEC, read

HEAD = SPEC[: SPEC.index("sizes:\n")]
BANDS = "panel: {stitches: 12}\n    neck_band: {stitches: 6}\n    arm_bands: {stitches: 8}\n"
GRADING = """\
grading:
  sample: "4"
  intent:
    body.hem: {like_sample: centre_back_neck_to_wrist}
    body.depth: {like_sample: height}
    arm.from_front: {like_sample: centre_back_neck_to_wrist}
    arm.run: {like_sample: wrist_girth}
    neck.edge: {measure: head_girth, ease: -3 cm}
"""
FOLDED_GRADING = """\
grading:
  sample: "4"
  intent:
    body.width: {like_sample: centre_back_neck_to_wrist}
    body.back: {like_sample: height}
    body.front: {like_sample: height}
    body.neck_width: 20 cm
    body.neck_front: 5 cm
    body.neck_back: 2 cm
    body.slot: 8 cm
    arm.opening: 20 cm
    panel.width: 8 cm
"""


def graded(folder: Path, construction: str, sample: str, grading: str = GRADING) -> Design:
    head = HEAD.replace("construction: flared", f"construction: {construction}")
    settings = "body: {lines: 4}\n    " if construction == "mitred" else ""
    found = ("6", "8") if thorough() else ("6",)
    rest = "".join(f'  "{size}":\n    wearer: child/{size}\n    {settings}{BANDS}' for size in found)
    return read(folder, f'{head}{EDGING}{grading}sizes:\n  "4":\n    wearer: child/4\n{sample}{rest}')


def assert_borders_fit(design: Design) -> None:
    found = [
        (result.size.name, each.severity, each.sentence)
        for result in evaluate(design)
        for each in result.findings
        if each.code == "COUNT-BORDER"
    ]
    assert [size for size, _, _ in found]
    assert {severity for _, severity, _ in found} == {Severity.GOOD}, found


@pytest.mark.thorough
def test_flared(tmp_path: Path) -> None:
    """The sample has 22 eights at the hem; its increases end on row 23, and the edging begins on row 25."""
    design = graded(
        tmp_path,
        "flared",
        "    body: {neck: 60, hem: 176, rows: 30, increase_every: 1, increase_until: 24}\n"
        "    arms: {from_front: 40, stitches: 20}\n    panel: {stitches: 12, rows: 30}\n"
        "    neck_band: {stitches: 6}\n    arm_bands: {stitches: 8}\n",
    )
    assert_borders_fit(design)
    for size in design.sizes[1:]:
        assert size.body.hem % 8 == 0
        assert size.body.increase_until <= size.body.rows - 6


@pytest.mark.slow
@pytest.mark.seeds
def test_mitred(tmp_path: Path) -> None:
    """4 lines add 8 to every increase row, so a neck of whole eights gives a hem of whole eights."""
    design = graded(
        tmp_path,
        "mitred",
        "    body: "
        "{neck: 56, lines: 4, increase_rows: 15, rows: 30, increase_every: 1.5, increase_until: 23}\n"
        "    arms: {from_front: 40, stitches: 20}\n    panel: {stitches: 12, rows: 30}\n"
        "    neck_band: {stitches: 6}\n    arm_bands: {stitches: 8}\n",
    )
    assert_borders_fit(design)
    assert all(size.body.neck % 8 == 0 for size in design.sizes)


@pytest.mark.thorough
def test_folded(tmp_path: Path) -> None:
    """Whole eights across the back and across each front: the slot is whole sixteens less than the back."""
    design = graded(
        tmp_path,
        "folded",
        "    body: "
        "{width: 128, front_rows: 34, back_rows: 34, neck: 28, neck_front_rows: 5, neck_back_rows: 2,\n"
        "      slot: 16}\n"
        "    arms: {rows: 20}\n    panel: {stitches: 18, rows: 29}\n"
        "    neck_band: {stitches: 6}\n    arm_bands: {stitches: 8}\n",
        FOLDED_GRADING,
    )
    assert_borders_fit(design)
    for size in design.sizes:
        assert size.body.width % 8 == 0
        assert (size.body.width - size.body.slot) % 16 == 0
