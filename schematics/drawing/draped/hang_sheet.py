"""The sheet of how a size hangs: six pictures on cloth, where its fabrics were weighed and pulled."""

from __future__ import annotations

from dataclasses import replace

from schematics.checks.evaluation import Result
from schematics.checks.finding import Finding, Severity
from schematics.document.lettering.text import wrap
from schematics.drawing.compose import Drawing, Setting
from schematics.drawing.draped.hang_drawing import hang_drawing
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import moved_group, text_lines
from schematics.drawing.ink.page import drawing_area
from schematics.garment.cloth.cloth_error import ClothError
from schematics.garment.cloth.draping import Hung, settled
from schematics.garment.cloth.material import Feel, is_measured
from schematics.wearer.body_figure import FigureSize
from schematics.wearer.proportions import proportioned

TITLE = "how it hangs"


def hangs(setting: Setting, result: Result) -> bool:
    """Whether a size gets the sheet: one that can be worn, of measured fabric, on a body of known height."""
    return (
        setting.cloth
        and result.verdict is not Severity.STOP
        and is_measured(setting.design.parts.fabrics.values())
        and proportioned(result.wearer) is not None
    )


def hang_content(setting: Setting, result: Result) -> str:
    """All that decides the sheet, for whoever asks whether it would be another; a line of a spec does not."""
    design = setting.design
    size = replace(result.size, line=0)
    whose = result.wearer.label, result.wearer.stage, proportioned(result.wearer)
    about = design.title, design.construction, design.date, design.units, design.terms, setting.paper
    severities = [each.severity for each in result.findings]
    return repr((about, size, design.parts, whose, severities))


def draw_hang(setting: Setting, result: Result) -> Drawing:
    """The sheet of one size, of the usual feel; it takes some seconds.

    Raises:
        ValueError: `hangs` says that it has none.
    """
    body = proportioned(result.wearer)
    if body is None:
        raise ValueError(f"no height is known of size {result.size.name}")
    try:
        hung = settled(result.garment, body.size, Feel()).hung
    except ClothError as error:
        return _without(setting, f"This size cannot be hung on cloth: {error}.")
    return hung_drawing(setting, result, body.size, hung)


def hung_drawing(
    setting: Setting, result: Result, size: FigureSize, hung: Hung, findings: tuple[Finding, ...] = ()
) -> Drawing:
    """Six pictures of a size at rest on a body, on the setting's paper lying."""
    paper = setting.paper.turned
    area = drawing_area(paper)
    width, height = area.x1 - area.x0, area.y1 - area.y0
    title = f"{setting.design.title}, size {result.size.name}"
    bare = hang_drawing(title, result.garment, size, hung, setting.design.units, (width, height))
    unplaced = bare.unplaced
    if bare.paper.width > width or bare.paper.height > height:
        unplaced = (*unplaced, "the pictures of how it hangs")
    aside, lower = (width - bare.paper.width) / 2, (height - bare.paper.height) / 2
    return Drawing(
        groups=tuple(moved_group(each, area.x0 + aside, area.y0 + lower) for each in bare.groups),
        title=TITLE,
        description=bare.description,
        scale=None if bare.scale is None else round(bare.scale),
        paper=paper,
        unplaced=unplaced,
        findings=findings,
    )


def _without(setting: Setting, why: str) -> Drawing:
    area = drawing_area(setting.paper.turned)
    block = Block()
    block.add("note", "why not", text_lines((0.0, 0.0), wrap(why, area.x1 - area.x0)))
    return Drawing(
        groups=tuple(block.at(area.x0, area.y0)),
        title=TITLE,
        description=why,
        scale=None,
        paper=setting.paper.turned,
    )
