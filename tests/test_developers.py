"""The example construction of the contributors' guide works as it stands there."""

from __future__ import annotations

import re
import sys
import types
from pathlib import Path

import pytest

from schematics.analysis.workings.workings import workings
from schematics.checks.evaluation import evaluate
from schematics.drawing.sheets import draw_sheets, setting_of
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.pattern import figures
from schematics.reading import read_design
from tests.specs_for_tests import SPEC

GUIDE = Path(__file__).parents[1] / "DEVELOPERS.md"


def example(monkeypatch: pytest.MonkeyPatch) -> types.ModuleType:
    (code,) = re.findall(r"```python\n(.*?)```", GUIDE.read_text("utf-8"), re.DOTALL)
    module = types.ModuleType("schematics.garment.constructions.straight")
    monkeypatch.setitem(sys.modules, module.__name__, module)
    exec(compile(code, str(GUIDE), "exec"), module.__dict__)
    return module


def test_the_example_construction_is_read_checked_and_drawn(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(CONSTRUCTIONS, "straight", example(monkeypatch).STRAIGHT)
    text = SPEC.replace("construction: flared", "construction: straight")
    text = re.sub(r"body: \{neck: \d+, hem: (\d+), rows: (\d+)[^}]*\}", r"body: {neck: \1, rows: \2}", text)
    path = tmp_path / "straight.yaml"
    path.write_text(text)
    design = read_design(path)
    results = evaluate(design)
    for result in results:
        body = result.garment.piece("body")
        width = result.size.body.neck / design.parts.body.stitches_per_cm
        depth = result.size.body.rows / design.parts.body.rows_per_cm
        assert body.area_cm2 == pytest.approx(width * depth)
        assert result.garment.opening_angle == 0
        assert {finding.code for finding in result.findings} >= {"SEAM-LENGTH", "REACH-BAND", "GIRTH-EASE"}
    pages = list(draw_sheets(setting_of(design, results)))
    assert {page.stem for page in pages} >= {"pieces", "assembly", "worn", "sizes"}
    assert figures(design, results)
    (finished,) = workings(design, results[0])
    assert {"body.hem", "panel.width"} <= {step.key for step in finished.steps}


def test_the_guide_names_places_that_are_there() -> None:
    root = GUIDE.parent
    for name in re.findall(r"`((?:schematics|tests)/[\w/]+(?:\.py|/))`", GUIDE.read_text("utf-8")):
        if not name.endswith("straight.py"):
            assert (root / name).exists(), name
