"""Grading with charts: a motif of one count alone, and a panel that loses stitches on its way up."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from schematics.checks.evaluation import evaluate
from schematics.design.design import Design
from schematics.reading.design_file import read_design
from tests.grading.test_grade import SHORT
from tests.specs_for_tests import write

_CHART = re.compile(r"    chart:\n(?: {6}.*\n)+")


def graded(folder: Path, multiple: str, chart: str, spec: str = SHORT) -> Design:
    """Sandpiper's first sizes with another chart in its panel."""
    text = _CHART.sub(f"    chart: {chart}\n", spec).replace(
        "multiple: {of: 6, plus: 2}", f"multiple: {multiple}"
    )
    return read_design(write(folder, text))


@pytest.mark.slow
def test_the_one_count_of_a_motif_is_taken_in_every_size(tmp_path: Path) -> None:
    rows = "['4 dc, 12 FPdc, 4 dc', dc across, dc across, dc across]"
    chart = f"{{setup: [dc across], repeat: {rows}, closing: [dc across]}}"
    design = graded(tmp_path, "{exactly: 20}", chart)
    assert [size.panel_stitches for size in design.sizes] == [20, 20, 20]


@pytest.mark.slow
def test_the_top_of_a_panel_that_tapers_is_in_the_even_neck_edge(tmp_path: Path) -> None:
    rows = "['dc2tog, dc across', dc across, dc across, dc across]"
    chart = f"{{adds: {{repeat: -1}}, setup: [dc across], repeat: {rows}, closing: [dc across]}}"
    design = graded(tmp_path, "{of: 1}", chart, SHORT.replace('  "2": {wearer: child/2}\n', ""))
    assert design.graded == ("4",)
    for size, result in zip(design.sizes[:1], evaluate(design), strict=False):
        # A stitch less in each repeat of 4 rows, between one row of set-up and one of closing.
        top = size.panel_stitches - (size.panel_rows - 2) // 4
        assert result.garment.neck.edge_count == size.body.neck + top
        assert (size.body.neck + top) % 2 == 0
        assert result.verdict != "stop"
