"""A page for each size with the six pictures of how it hangs, framed as working sheets are."""

from __future__ import annotations

from collections.abc import Sequence

from schematics.checks.evaluation import Result
from schematics.checks.finding import Finding
from schematics.drawing.compose import Drawing, Setting, finish
from schematics.drawing.draped.hang_drawing import hang_drawing
from schematics.drawing.ink.marks import moved_group
from schematics.drawing.ink.page import drawing_area
from schematics.drawing.ink.sheet import Sheet
from schematics.garment.cloth.draping import Hung
from schematics.units import Unit
from schematics.wearer.body_figure import FigureSize

HungSize = tuple[Result, FigureSize, Hung, tuple[Finding, ...]]
"""A size, the body it hangs on, how it came to rest, and the findings on that."""


def hang_pages(setting: Setting, sizes: Sequence[HungSize]) -> list[Sheet]:
    """The pages of the sizes, on the setting's paper lying."""
    return [
        finish(setting, _drawing(setting, *each), each[0], number, len(sizes))
        for number, each in enumerate(sizes, start=1)
    ]


def _drawing(
    setting: Setting, result: Result, size: FigureSize, hung: Hung, findings: tuple[Finding, ...]
) -> Drawing:
    paper = setting.paper.turned
    area = drawing_area(paper)
    width, height = area.x1 - area.x0, area.y1 - area.y0
    first = setting.design.unit
    units = (first, *(each for each in Unit if each is not first))
    title = f"{setting.design.title}, size {result.size.name}"
    bare = hang_drawing(title, result.garment, size, hung, units, (width, height))
    unplaced = bare.unplaced
    if bare.paper.width > width or bare.paper.height > height:
        unplaced = (*unplaced, "the pictures of how it hangs")
    aside, lower = (width - bare.paper.width) / 2, (height - bare.paper.height) / 2
    return Drawing(
        groups=tuple(moved_group(each, area.x0 + aside, area.y0 + lower) for each in bare.groups),
        title="how it hangs",
        description=bare.description,
        scale=None if bare.scale is None else round(bare.scale),
        paper=paper,
        unplaced=unplaced,
        findings=findings,
    )
