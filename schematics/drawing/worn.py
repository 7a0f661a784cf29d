"""The worn sheet: where hem and bands come on a plain figure of the size, at a scale all sizes share."""

from __future__ import annotations

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
from schematics.drawing.worn_figures import CAPTION_HEIGHT, Both, Place, Standing, draw_figures
from schematics.drawing.worn_labels import draw_labels
from schematics.evaluate import Result
from schematics.figure import Pose, figure
from schematics.wearer.body import Origin
from schematics.wearer.proportions import Proportioned, proportioned

_CODES = (hang.KNEE, hang.WHERE, reach.BAND, spread.ARMS)
_ROOM = 6.0
"""Least distance between figures and words, in mm."""

_LEFT = 36.0
"""Room for the dimension left of the figures, in mm."""

_WIDEST, _NARROWEST = 30.0, 10.0
"""Distance between the two figures, in mm, as far as the paper gives."""

_MODEL = (
    "Drawn on the typical body of the size. Arms down: at the centre back the hem hangs as far below the "
    "nape as the checks say, sag included; a front that starts lower hangs lower. Arms level: {level}. Folds, "
    "stretch and the give of the body are left out."
)
_LEVEL_ON_HEM = (
    "the bands come as far out as the reach and half the spread let them, and the hem between them hangs no "
    "longer than it is worked"
)
_LEVEL_ON_SIDES = (
    "the bands come as far out as the reach and half the spread let them, and the sides hang straight down "
    "from them"
)
_LEVEL_UNKNOWN = "the same; where the bands come is not known, so none are drawn"
_TOO_SHORT = "The garment is too short to be drawn on a body."
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
        block = _fitted(both_figures(setting.design, result, body), scale, area.x1 - area.x0)
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
            _breadth(both, scale) + _NARROWEST <= width
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


def figures_block(both: Both, scale: int, gap: float, room: float) -> Block:
    """Both figures at 1:``scale`` with ``gap`` mm between them, and what is written at them.

    ``room`` is the breadth to keep to, in mm.
    """
    middle = to_mm(both.down.half_cm + both.level.half_cm, scale) + gap
    down, level = Place(scale, 0.0), Place(scale, middle)
    block = Block()
    draw_figures(block, both, down, level)
    draw_labels(block, both, down, level, room)
    return block


def _breadth(both: Both, scale: int) -> float:
    """Breadth of both figures and the dimension left of them, in mm."""
    return _LEFT + to_mm(2 * (both.down.half_cm + both.level.half_cm), scale)


def _fitted(both: Both, scale: int, room: float) -> Block:
    """The figures as far apart as they fit with everything written at them."""
    gap = max(min(_WIDEST, room - _breadth(both, scale)), _NARROWEST)
    tries: list[Block] = []
    while gap >= _NARROWEST:
        block = figures_block(both, scale, gap, room)
        if not block.unplaced and block_size(block)[0] <= room:
            return block
        tries.append(block)
        gap -= 4.0
    return min(tries, key=lambda block: (block_size(block)[0] > room, len(block.unplaced)))


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
