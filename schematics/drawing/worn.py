"""The worn sheet: where hem and bands come on a plain figure of the size, at a scale all sizes share."""

from __future__ import annotations

from collections.abc import Sequence

from schematics.checks import hang, reach, spread
from schematics.checks.finding import Case
from schematics.checks.wording import sentence_case
from schematics.design import Design
from schematics.drape import Hanging, wear
from schematics.drawing.block import Block
from schematics.drawing.compose import Drawing, Setting
from schematics.drawing.marks import Group, Mark, Text
from schematics.drawing.page import Box, block_size, drawing_area
from schematics.drawing.scale import SCALES, to_mm
from schematics.drawing.text import LARGE, SMALL, line_pitch, wrap
from schematics.drawing.worn_figures import (
    CAPTION_HEIGHT,
    NARROWEST,
    WIDEST,
    Both,
    Standing,
    breadth_mm,
    figures_block,
)
from schematics.evaluate import Result
from schematics.figure import Pose, figure
from schematics.wearer.body import Origin
from schematics.wearer.proportions import Proportioned, proportioned

_CODES = (hang.KNEE, hang.WHERE, reach.BAND, spread.ARMS)
_ROOM = 6.0
"""Least distance between figures and words, in mm."""

_MODEL = (
    "Drawn on the typical body of the size. Arms down: the hem hangs at the centre back as far below the "
    "nape as the checks take it to, sag included; a front that starts lower hangs lower. Arms level: the "
    "bands come as far out as the reach and half the spread let them, and the hem between them hangs no "
    "longer than it is worked. Folds, stretch and the give of the body are left out."
)
_ALWAYS = "head height, hip, hand length, legs and feet"


def draw_worn(setting: Setting, result: Result) -> Drawing:
    """The worn sheet of one size."""
    area = drawing_area(setting.paper)
    body = proportioned(result.wearer)
    words = _words(result, body, area.x1 - area.x0)
    scale = worn_scale(setting)
    groups: list[Group] = []
    unplaced: list[str] = []
    top = area.y0
    if body is not None:
        block = _fitted(both_figures(setting.design, result, body), scale, area)
        width, height = block_size(block)
        unplaced += block.unplaced
        groups += block.at(area.x0 + max(0.0, (area.x1 - area.x0 - width) / 2), top)
        if width > area.x1 - area.x0 or height > area.y1 - area.y0:
            unplaced.append(f"the figures at 1:{scale}")
        top += height + _ROOM
    if top + block_size(words)[1] <= area.y1:
        groups += words.at(area.x0, top)
    else:
        unplaced.append("the findings on the worn sheet")
    return Drawing(
        groups=tuple(groups),
        title="worn, on a plain figure",
        description=_description(setting, result, scale),
        scale=scale if body is not None else None,
        unplaced=tuple(unplaced),
    )


def worn_scale(setting: Setting) -> int:
    """The largest scale of ISO 5455, as its denominator, at which the figures of every size fit."""
    area = drawing_area(setting.paper)
    width, height = area.x1 - area.x0, area.y1 - area.y0
    sizes = []
    for result in setting.results:
        body = proportioned(result.wearer)
        if body is not None:
            below = block_size(_words(result, body, width))[1] + _ROOM
            sizes.append((both_figures(setting.design, result, body), below))
    for scale in SCALES:
        if all(
            breadth_mm(both, scale, NARROWEST) <= width
            and to_mm(both.height_cm, scale) + CAPTION_HEIGHT + below <= height
            for both, below in sizes
        ):
            return scale
    return SCALES[-1]


def both_figures(design: Design, result: Result, body: Proportioned) -> Both:
    """Both figures of a size with the garment on them, where it can be drawn."""
    case = Case(
        design=design,
        size=result.size,
        garment=result.garment,
        freedom=result.freedom,
        wearer=result.wearer,
        limits=design.limits,
    )
    hanging = Hanging(garment=result.garment, freedom=result.freedom, worn_drop_cm=hang._worn_cm(case))
    standing = {}
    for pose in Pose:
        worn = wear(body.size, hanging, pose)
        bare = figure(body.size, pose.value)
        standing[pose] = Standing(figure=bare if worn is None else worn.figure, worn=worn)
    return Both(size=body.size, hanging=hanging, down=standing[Pose.DOWN], level=standing[Pose.LEVEL])


def _fitted(both: Both, scale: int, area: Box) -> Block:
    """The figures as far apart as the paper lets them."""
    gap, room = WIDEST, area.x1 - area.x0
    block = figures_block(both, scale, gap)
    while block_size(block)[0] > room and gap > NARROWEST:
        gap = max(gap - max(block_size(block)[0] - room, 1.0), NARROWEST)
        block = figures_block(both, scale, gap)
    return block


def _words(result: Result, body: Proportioned | None, width: float) -> Block:
    """What the checks say of hem and arms, what the figure is drawn from, and what is left out."""
    findings = [finding for code in _CODES for finding in result.findings if finding.code == code]
    texts = [f"{each.severity.upper()} {each.code}: {each.sentence}" for each in findings]
    if body is None:
        heading = "No figure: the wearer's height is not known"
        texts.append("Give height with the size's wearer, or an age that the tables cover.")
    else:
        heading = "A plain model, not a fitting"
        texts = [_MODEL, *texts, *_sources(result, body)]
    marks: list[Mark] = [Text((0, 0), heading, LARGE, bold=True)]
    y = 1.0
    for text in texts:
        for line in wrap(text, width):
            y += line_pitch(SMALL)
            marks.append(Text((0, y), line))
        y += 1.0
    block = Block()
    block.add("checks", "worn", marks)
    return block


def _sources(result: Result, body: Proportioned) -> list[str]:
    """Which measurements are not the size's own, and which are no measurements at all."""
    told = []
    for origin, words in ((Origin.AGE_TABLE, "borrowed from the age table"), (Origin.ESTIMATE, "estimated")):
        names = [each.words for each in body.borrowed if result.wearer.values[each].origin is origin]
        if names:
            told.append(f"{words}: {', '.join(names)}")
    lines = [sentence_case(f"{'; '.join(told)}.")] if told else []
    filled = "".join(f", {each.words}" for each in body.filled)
    return [*lines, f"Drawn from proportions: {_ALWAYS}{filled}."]


def _description(setting: Setting, result: Result, scale: int) -> str:
    sentences = " ".join(
        finding.sentence for code in _CODES for finding in result.findings if finding.code == code
    )
    return (
        f"{setting.design.title}, size {result.size.name}, on a plain figure of {result.wearer.label}, "
        f"arms down and arms level, drawn at 1:{scale}. {sentences}"
    )
