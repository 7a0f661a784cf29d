"""The assembly sheet: front and back of the joined garment laid flat, and how it goes together."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TypeAlias

from shapely import MultiPolygon

from schematics.checks.evaluation import Result
from schematics.design.design import Design
from schematics.design.limits import Limits
from schematics.drawing.assembly.joined import JoinedView, joined_views
from schematics.drawing.assembly.joined_block import view_block, with_looks
from schematics.drawing.assembly.joined_dimensions import Units
from schematics.drawing.assembly.steps import UNSEEN_CM, Instructions, instructions, steps_block
from schematics.drawing.compose import Drawing, Setting
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Point
from schematics.drawing.ink.page import (
    Box,
    block_size,
    drawing_area,
    placed_groups,
    printed_labels,
    unplaced_names,
)
from schematics.drawing.ink.scale import to_mm
from schematics.drawing.ink.sheet import Paper
from schematics.drawing.notes import stops_of
from schematics.garment.garment import Garment
from schematics.units import NEAR

_GUTTER = 5.0
_NARROWEST = 42.0
"""Least width of a column of text, in mm."""

_GIRTH_AT = (1, 0)
"""Which view says how long the arm bands are: the back, or the front if that makes it fit.

Not the front where it has no room for what it says already.
"""

_AT_LEAST = 0.6
"""So much of the room round a view its bands and labels take at another scale too."""

Margins: TypeAlias = tuple[tuple[float, float], ...]
_LEAST_MARGINS: Margins = ((0.0, 0.0), (0.0, 0.0))

Joined: TypeAlias = tuple[JoinedView, JoinedView]
Views: TypeAlias = tuple[Block, Block]
Arrangement: TypeAlias = Callable[[Views, Box], tuple[Point, Point, Point]]
"""From front and back view to the upper left corners of both and of the steps."""


def draw_assembly(setting: Setting, result: Result) -> Drawing:
    """The assembly sheet of one size; where all sizes share a scale, at that or the next that fits all."""
    alike = setting.results if setting.scale else (result,)
    garments = tuple(each.garment for each in alike)
    guides = tuple(_guide(each, setting.design) for each in alike)
    common = _common(garments, guides, setting.fine_sheet_scales, setting.design.units, setting.design.limits)
    at, scale = garments.index(result.garment), common.scale
    views, joined = common.views[at], common.joined[at]
    if views and joined:
        garment = result.garment
        front, back = (with_looks(*each, garment, scale) for each in zip(views, joined, strict=True))
        views = front, back
    area, guide = drawing_area(common.paper), guides[at]
    placed = _placed(views, guide, common.arrange, area) if views else None
    if views and placed:
        unplaced = unplaced_names(views)
    else:
        placed = [(steps_block(guide, area.x1 - area.x0), (area.x0, area.y0))]
        unplaced = (f"the views at 1:{scale}" if views else "the views, where fabric overlaps itself",)
    return Drawing(
        groups=placed_groups(_spread(placed, area)),
        title="assembly, joined and laid flat",
        description=_description(setting, result, guide, scale, views),
        scale=scale if views else None,
        paper=common.paper,
        unplaced=unplaced,
    )


def _guide(result: Result, design: Design) -> Instructions:
    """How the size goes together, after what stops it."""
    return replace(instructions(result.garment, design.limits), stops=stops_of(result, design.terms))


def _description(
    setting: Setting, result: Result, guide: Instructions, scale: int, views: Views | None
) -> str:
    """What is shown, the figures at each view as they are printed, and the steps."""
    shown = f"Front and back of {setting.design.title}, size {result.size.name}, joined and laid flat"
    figures = [_figures(name, view) for name, view in zip(("front", "back"), views or (), strict=False)]
    steps = [f"{number}. {step}" for number, step in enumerate(guide.steps, start=1)]
    where = f" at 1:{scale}" if views else ""
    return " ".join([f"{shown}{where}.", *filter(None, figures), *steps])


def _figures(name: str, view: Block) -> str:
    """``At the back: width 72.5 cm, 28 1/2 in.``; empty where nothing is dimensioned."""
    labels = printed_labels(view.groups)
    return f"At the {name}: {'; '.join(labels)}." if labels else ""


@dataclass(frozen=True, slots=True)
class _Common:
    """How sizes are drawn alike; ``views`` and ``joined`` have None for a size that does not lie flat."""

    scale: int
    paper: Paper
    arrange: Arrangement
    views: tuple[Views | None, ...]
    joined: tuple[Joined | None, ...]


@lru_cache(maxsize=2)
def _common(
    garments: tuple[Garment, ...],
    guides: tuple[Instructions, ...],
    scales: tuple[tuple[int, Paper], ...],
    units: Units,
    limits: Limits,
) -> _Common:
    """The first scale, paper and arrangement at which every garment fits with every label.

    Where a label finds no room at any scale, the first at which the views fit; the last scale if
    they never do.
    """
    pairs = [(joined_views(garment, limits), garment) for garment in garments]
    joined = tuple(views for views, _ in pairs)
    fitting = []
    margins = [_LEAST_MARGINS] * len(pairs)
    for scale, paper in scales:
        area = drawing_area(paper)
        if (scale, paper) != scales[-1] and not all(
            _might_fit(each, words, scale, area, taken)
            for (each, _), words, taken in zip(pairs, guides, margins, strict=True)
            if each
        ):
            continue
        for girth_at in _GIRTH_AT:
            views = tuple(
                _views(each, garment, scale, units, girth_at, area.x1 - area.x0) if each else None
                for each, garment in pairs
            )
            margins = [
                _margins(each, drawn, scale) if each and drawn else _LEAST_MARGINS
                for (each, _), drawn in zip(pairs, views, strict=True)
            ]
            drawn = [(each, words) for each, words in zip(views, guides, strict=True) if each]
            possible = [fill for fill in _ARRANGEMENTS if all(_placed(*each, fill, area) for each in drawn)]
            fitting += [_Common(scale, paper, fill, views, joined) for fill in possible[:1]]
            if possible and not any(unplaced_names(each) for each, _ in drawn):
                return fitting[-1]
            if any(front.unplaced for (front, _), _ in drawn):
                break
    return fitting[0] if fitting else _Common(scale, paper, _ARRANGEMENTS[0], views, joined)


def _views(joined: Joined, garment: Garment, scale: int, units: Units, girth_at: int, widest: float) -> Views:
    """Both views; the arm bands' girth is on the one asked for, or on the other if that shows none.

    A width that differs by less than the eye sees is labelled at the back only, lest two figures be compared.
    """
    shown = [any(half.band for half in view.halves) for view in joined]
    at = girth_at if shown[girth_at] else 1 - girth_at
    apart = abs(joined[0].width_cm - joined[1].width_cm)
    front, back = (
        view_block(
            view,
            garment,
            scale,
            units,
            girth=shown[at] and place == at,
            width=bool(place) or not NEAR < apart < UNSEEN_CM,
            widest=widest,
        )
        for place, view in enumerate(joined)
    )
    return front, back


def _bare_sizes(joined: Joined, scale: int) -> list[tuple[float, float]]:
    """Width and height of both views without bands and labels, in mm."""
    boxes = [MultiPolygon(view.shapes).bounds for view in joined]
    return [(to_mm(x1 - x0, scale), to_mm(y1 - y0, scale)) for x0, y0, x1, y1 in boxes]


def _margins(joined: Joined, views: Views, scale: int) -> Margins:
    """What bands and labels take round each view, and would at other scales, at least, across and up."""
    sizes = zip(views, _bare_sizes(joined, scale), strict=True)
    return tuple(
        (_AT_LEAST * (block_size(view)[0] - wide), _AT_LEAST * (block_size(view)[1] - high))
        for view, (wide, high) in sizes
    )


def _might_fit(joined: Joined, guide: Instructions, scale: int, area: Box, margins: Margins) -> bool:
    """Whether views with such margins would fit with the steps somehow: cheap, and mostly decides it."""
    sizes = [
        (wide + across, high + up)
        for (wide, high), (across, up) in zip(_bare_sizes(joined, scale), margins, strict=True)
    ]
    room, (wides, highs) = (area.x1 - area.x0, area.y1 - area.y0), zip(*sizes, strict=True)
    below, beside = room[1] - _text_height(guide, room[0]), room[0] - max(wides) - _GUTTER
    return (
        (max(wides) <= room[0] and sum(highs) + 2 * _GUTTER <= below)
        or (sum(wides) + _GUTTER <= room[0] and max(highs) + _GUTTER <= below)
        or (
            beside >= _NARROWEST
            and sum(highs) + _GUTTER <= room[1]
            and _text_height(guide, round(beside)) <= room[1]
        )
    )


@lru_cache(maxsize=256)
def _text_height(guide: Instructions, width: float) -> float:
    return block_size(steps_block(guide, width))[1]


def _placed(
    views: Views, guide: Instructions, arrange: Arrangement, area: Box
) -> list[tuple[Block, Point]] | None:
    """Views and steps with their upper left corners; None if something leaves the area."""
    front, back, text = arrange(views, area)
    if area.x1 - text[0] < _NARROWEST:
        return None
    placed = list(zip((*views, steps_block(guide, area.x1 - text[0])), (front, back, text), strict=True))
    for block, (x, y) in placed:
        width, height = block_size(block)
        if x < area.x0 - NEAR or x + width > area.x1 + NEAR or y + height > area.y1 + NEAR:
            return None
    return placed


def _spread(placed: list[tuple[Block, Point]], area: Box) -> list[tuple[Block, Point]]:
    """The same, what is left of the page's height between those under one another: its foot is not empty."""
    left = area.y1 - max(y + block_size(block)[1] for block, (_, y) in placed)
    tops = sorted({y for _, (_, y) in placed})
    down = {y: left * at / max(1, len(tops) - 1) for at, y in enumerate(tops)}
    return [(block, (x, y + down[y])) for block, (x, y) in placed]


def _stacked(views: Views, area: Box) -> tuple[Point, Point, Point]:
    """Front above back, their middles above each other, the steps below."""
    left, right = _reach(views)
    front, back = _on_axis(views, area.x0 + (area.x1 - area.x0 - left - right) / 2 + left, area.y0)
    return front, back, (area.x0, back[1] + block_size(views[1])[1] + _GUTTER)


def _column(views: Views, area: Box) -> tuple[Point, Point, Point]:
    """Front above back, their middles above each other, the steps in a column beside them."""
    left, right = _reach(views)
    return *_on_axis(views, area.x0 + left, area.y0), (area.x0 + left + right + _GUTTER, area.y0)


def _side_by_side(views: Views, area: Box) -> tuple[Point, Point, Point]:
    """Front beside back, the steps below."""
    (wide, high), (_, other) = (block_size(view) for view in views)
    below = area.y0 + max(high, other) + _GUTTER
    return (area.x0, area.y0), (area.x0 + wide + _GUTTER, area.y0), (area.x0, below)


_ARRANGEMENTS: Sequence[Arrangement] = (_stacked, _column, _side_by_side)
"""Ways to fill the page, best first."""


def _reach(views: Views) -> tuple[float, float]:
    """How far the views reach to the left and to the right of their middles."""
    boxes = [view.bounds() for view in views]
    return max(-box[0] for box in boxes), max(box[2] for box in boxes)


def _on_axis(views: Views, x: float, y: float) -> tuple[Point, Point]:
    """Corners for the views one above the other with their middles at ``x``."""
    front, back = views
    return (x + front.bounds()[0], y), (x + back.bounds()[0], y + block_size(front)[1] + _GUTTER)
