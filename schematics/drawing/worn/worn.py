"""The worn sheet: where hem and bands come on a plain figure of the size, drawn as large as it fits."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import chain

from schematics.checks.evaluation import Result
from schematics.checks.finding import Severity
from schematics.checks.rules.hang import worn_cm
from schematics.crochet.terms import Terms
from schematics.design.design import Design
from schematics.drawing.compose import Drawing, Setting, SheetScale
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Group
from schematics.drawing.ink.page import Box, block_size, drawing_area, printed_labels
from schematics.drawing.ink.scale import SCALES, to_mm
from schematics.drawing.ink.sheet import Paper
from schematics.drawing.worn.drape import Hanging, wear
from schematics.drawing.worn.worn_figures import (
    CAPTION_HEIGHT,
    DOWN,
    LEVEL,
    Both,
    Place,
    Standing,
    draw_figures,
)
from schematics.drawing.worn.worn_labels import draw_labels
from schematics.drawing.worn.worn_texture import draw_looks
from schematics.drawing.worn.worn_words import parted_words, reported_findings, words_block
from schematics.wearer.body_figure import Pose, figure
from schematics.wearer.proportions import Proportioned, proportioned

_ROOM = 4.0
"""Least distance between figures and words, in mm."""

_LEFT = 36.0
"""Room for the dimension left of the figures, in mm."""

_RIGHT = 60.0
"""What is written right of the figures never takes more, in mm."""

_COLUMN, _SLIM_COLUMN = (62.0, 90.0), 40.0
"""Words beside the figures are no narrower and no wider, in mm; some of them may be as narrow as the last."""

_SPARES = (2.0, 4.0, 8.0, 14.0)
"""Figures beside which the words are slim have so much more than they need, in mm, as little as will do."""

_WIDEST, _NARROWEST = 30.0, 6.0
"""Distance between the two figures, in mm, as far as the paper gives."""


@dataclass(frozen=True, slots=True)
class _Words:
    """A block of words, and how far right of and below the corner of the drawing area it is, in mm."""

    block: Block
    right: float
    down: float


@dataclass(frozen=True, slots=True)
class _Layout:
    """What the figures have to themselves, ``room`` mm wide and ``high`` mm high, and the words round it."""

    room: float
    high: float
    words: tuple[_Words, ...]


def draw_worn(setting: Setting, result: Result) -> Drawing:
    """The worn sheet of one size."""
    result = _in_terms(result, setting.design.terms)
    body, both = _figures(setting.design, result)
    scales = [(worn_scale(setting), setting.paper)] if setting.scale else setting.sheet_scales
    scale, paper = (None, setting.paper)
    if body is not None and both is not None:
        scale, paper = _best_scale([(result, body, both)], scales)
    area = drawing_area(paper)
    width, height = area.x1 - area.x0, area.y1 - area.y0
    groups: list[Group] = []
    unplaced: list[str] = []
    if body is None or both is None or scale is None:
        words: tuple[_Words, ...] = (_Words(words_block(result, body, both, width), 0.0, 0.0),)
    else:
        layout = _layout(result, body, both, scale, area) or next(_under(result, body, both, scale, area))
        block, places = _fitted(both, scale, layout.room)
        block = replace(block, groups=[*block.groups])
        draw_looks(block, both, *places, (DOWN, LEVEL))
        broad, high = block_size(block)
        unplaced += block.unplaced
        if broad > width or high > height:
            unplaced.append(f"the figures at 1:{scale}")
        aside, lower = max(0.0, (layout.room - broad) / 2), max(0.0, (layout.high - high) / 2)
        groups += block.at(area.x0 + aside, area.y0 + lower)
        words = tuple(_lowered(each, high - layout.high) for each in layout.words)
    for each in words:
        if each.down + block_size(each.block)[1] <= height:
            groups += each.block.at(area.x0 + each.right, area.y0 + each.down)
        else:
            unplaced.append("the findings on the worn sheet")
    return Drawing(
        groups=tuple(groups),
        title="worn, on a plain figure",
        description=_description(setting, result, scale, printed_labels(groups)),
        scale=scale,
        paper=paper,
        unplaced=tuple(unplaced),
    )


def _in_terms(result: Result, terms: Terms) -> Result:
    """The result, its findings in the design's own terms."""
    if terms is Terms.US:
        return result
    findings = tuple(replace(each, words=terms.text(each.sentence)) for each in result.findings)
    return replace(result, findings=findings)


def _lowered(words: _Words, higher: float) -> _Words:
    """The words below figures that are so many mm ``higher`` than reckoned; else as they are."""
    return replace(words, down=words.down + higher) if words.down and higher > 0.0 else words


@lru_cache(maxsize=2)
def worn_scale(setting: Setting) -> int:
    """The largest scale of ISO 5455, as its denominator, at which the figures of every size fit upright.

    What sheets of flat pieces share is too large for figures, which share their own.
    """
    figures = [(result, *_figures(setting.design, result)) for result in setting.results]
    sizes = [(result, body, both) for result, body, both in figures if body is not None and both is not None]
    return _best_scale(sizes, [(scale, setting.paper) for scale in SCALES])[0]


def _best_scale(
    sizes: Sequence[tuple[Result, Proportioned, Both]], scales: Sequence[SheetScale]
) -> SheetScale:
    """The first at which the figures fit with everything written at them; the last if there is none."""
    return next((scale for scale in scales if all(_fits(*each, *scale) for each in sizes)), scales[-1])


def _fits(result: Result, body: Proportioned, both: Both, scale: int, paper: Paper) -> bool:
    """Whether the figures fit, with the words about them."""
    return _layout(result, body, both, scale, drawing_area(paper)) is not None


def _layout(result: Result, body: Proportioned, both: Both, scale: int, area: Box) -> _Layout | None:
    """The first in which figures and words fit: words under them, in a column beside them, or both."""
    width, height = area.x1 - area.x0, area.y1 - area.y0
    if to_mm(both.height_cm, scale) + CAPTION_HEIGHT > height:
        return None
    for layout in chain.from_iterable(
        arrange(result, body, both, scale, area) for arrange in (_under, _beside, _around)
    ):
        might = layout.room <= width and _lowest(layout) <= height
        if might and _figures_fit(both, scale, layout.room):
            higher = block_size(_fitted(both, scale, layout.room)[0])[1] - layout.high
            if _lowest(layout, higher) <= height:
                return layout
    return None


def _lowest(layout: _Layout, higher: float = 0.0) -> float:
    """Where the words end, below figures so many mm ``higher`` than reckoned."""
    words = (_lowered(each, higher) for each in layout.words)
    return max(each.down + block_size(each.block)[1] for each in words)


def _under(result: Result, body: Proportioned, both: Both, scale: int, area: Box) -> Iterator[_Layout]:
    width, high = area.x1 - area.x0, to_mm(both.height_cm, scale) + CAPTION_HEIGHT
    yield _Layout(width, high, (_Words(words_block(result, body, both, width), 0.0, high + _ROOM),))


def _beside(result: Result, body: Proportioned, both: Both, scale: int, area: Box) -> Iterator[_Layout]:
    column = _left_over(both, scale, area)
    if column >= _COLUMN[0]:
        column = min(column, _COLUMN[1])
        room = area.x1 - area.x0 - column - _ROOM
        words = words_block(result, body, both, column)
        yield _Layout(room, area.y1 - area.y0, (_Words(words, room + _ROOM, 0.0),))


def _around(result: Result, body: Proportioned, both: Both, scale: int, area: Box) -> Iterator[_Layout]:
    for spare in _SPARES:
        column = _left_over(both, scale, area) - spare
        if column < _SLIM_COLUMN:
            return
        room, high = area.x1 - area.x0 - column - _ROOM, to_mm(both.height_cm, scale) + CAPTION_HEIGHT
        for stops_aside in (False, True) if result.verdict is Severity.STOP else (False,):
            about, findings = parted_words(result, body, both, room, column, stops_aside=stops_aside)
            yield _Layout(room, high, (_Words(about, 0.0, high + _ROOM), _Words(findings, room + _ROOM, 0.0)))


def _left_over(both: Both, scale: int, area: Box) -> float:
    """The width that figures leave to words beside them, in mm."""
    return area.x1 - area.x0 - _breadth(both, scale) - _NARROWEST - _ROOM


def _figures_fit(both: Both, scale: int, width: float) -> bool:
    """Whether they do with everything written at them."""
    breadth = _breadth(both, scale) + _NARROWEST
    if breadth + _RIGHT <= width:
        return True
    return breadth <= width and block_size(_fitted(both, scale, width)[0])[0] <= width


def both_figures(design: Design, result: Result, body: Proportioned) -> Both:
    """Both figures of a size with the garment on them, where it can be drawn."""
    hanging = Hanging(
        garment=result.garment,
        freedom=result.freedom,
        worn_drop_cm=worn_cm(result.garment.drop_cm, design.limits),
    )
    standing = {}
    for pose in Pose:
        worn = wear(body.size, hanging, pose)
        shown = figure(body.size, pose.value) if worn is None else worn.figure
        standing[pose] = Standing(figure=shown, worn=worn)
    down, level = (standing[pose] for pose in (Pose.DOWN, Pose.LEVEL))
    return Both(size=body.size, hanging=hanging, down=down, level=level, units=design.units)


def _figures(design: Design, result: Result) -> tuple[Proportioned | None, Both | None]:
    body = proportioned(result.wearer)
    return body, None if body is None else both_figures(design, result, body)


def _places(both: Both, scale: int, gap: float) -> tuple[Place, Place]:
    """Where the figures are at 1:``scale`` with ``gap`` mm between them."""
    middle = to_mm(both.down.half_cm + both.level.half_cm, scale) + gap
    return Place(scale, 0.0), Place(scale, middle)


def _figures_block(both: Both, down: Place, level: Place, room: float) -> Block:
    """Both figures and what is written at them; ``room`` is the breadth to keep to, in mm."""
    block = Block()
    draw_figures(block, both, down, level)
    draw_labels(block, both, down, level, room)
    return block


def _breadth(both: Both, scale: int) -> float:
    """Breadth of both figures and the dimension left of them, in mm."""
    return _LEFT + to_mm(2 * (both.down.half_cm + both.level.half_cm), scale)


@lru_cache(maxsize=8)
def _fitted(both: Both, scale: int, room: float) -> tuple[Block, tuple[Place, Place]]:
    """The figures as far apart as they fit with everything written at them, and where they are."""
    widest = max(min(_WIDEST, room - _breadth(both, scale)), _NARROWEST)
    tries: list[tuple[Block, tuple[Place, Place]]] = []
    for step in range(4):
        places = _places(both, scale, widest - (widest - _NARROWEST) * step / 3)
        block = _figures_block(both, *places, room)
        tries.append((block, places))
        if not block.unplaced and block_size(block)[0] <= room:
            return tries[-1]
    return min(tries, key=lambda tried: (block_size(tried[0])[0] > room, len(tried[0].unplaced)))


def _description(setting: Setting, result: Result, scale: int | None, labels: Sequence[str]) -> str:
    """What is shown, what is written at the figures, and what the checks say of it."""
    in_words = f"{'; '.join(labels)}. " if labels else ""
    sentences = " ".join(finding.reason for finding in reported_findings(result))
    return (
        f"{setting.design.title}, size {result.size.name}, on a plain figure of {result.wearer.label}, "
        f"arms down and arms level{'' if scale is None else f', drawn at 1:{scale}'}. {in_words}{sentences}"
    )
