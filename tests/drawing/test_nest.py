"""The nest: every size is named, and no line to a name crosses another."""

from __future__ import annotations

import itertools
from pathlib import Path

import pytest
from shapely import LineString

from schematics.checks.evaluation import evaluate
from schematics.drawing.ink.marks import Line, Text
from schematics.drawing.pieces.nest import draw_nest
from schematics.drawing.sheets import setting_of
from schematics.reading.design_file import read_design

NAMES = ("driftwood", "saltmarsh", "tidepool")


@pytest.mark.slow
@pytest.mark.parametrize("name", NAMES)
def test_names_stand_upright_on_lines_that_do_not_cross(name: str) -> None:
    design = read_design(Path("specs") / f"{name}.yaml")
    nest = draw_nest(setting_of(design, evaluate(design)))
    named = [group for group in nest.groups if group.kind == "size"]
    words = [mark.words for group in named for mark in group.marks if isinstance(mark, Text)]
    assert sorted(", ".join(words).split(", ")) == sorted(2 * [size.name for size in design.sizes])
    assert all(mark.angle == 0 for group in named for mark in group.marks if isinstance(mark, Text))
    lines = [LineString(mark.points) for group in named for mark in group.marks if isinstance(mark, Line)]
    assert not any(one.crosses(other) for one, other in itertools.combinations(lines, 2))
