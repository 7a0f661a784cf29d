"""The assembly sheet: front and back of the joined garment laid flat, and how it goes together."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TypeAlias

from shapely import MultiPolygon

from schematics.checks.evaluation import Result
from schematics.drawing.assembly.joined import JoinedView, joined_views
from schematics.drawing.assembly.joined_block import view_block, with_looks
from schematics.drawing.assembly.steps import Instructions, instructions, steps_block
from schematics.drawing.compose import Drawing, Setting
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Point
from schematics.drawing.ink.page import Box, block_size, drawing_area, placed_groups, unplaced_names
from schematics.drawing.ink.scale import SCALES, to_mm
from schematics.drawing.ink.sheet import Paper
from schematics.garment.garment import Garment
from schematics.units import NEAR

_GUTTER = 5.0
_NARROWEST = 42.0
"""Least width of a column of text, in mm."""

_GIRTH_AT = (1, 0)
"""Which view says how long the arm bands are: the back, or the front if that makes it fit."""

Joined: TypeAlias = tuple[JoinedView, JoinedView]
Views: TypeAlias = tuple[Block, Block]
Arrangement: TypeAlias = Callable[[Views, Box], tuple[Point, Point, Point]]
"""From front and back view to the upper left corners of both and of the steps."""


def draw_assembly(setting: Setting, result: Result) -> Drawing:
    """The assembly sheet of one size, at one scale for all sizes: the setting's, or the next that fits."""
    garments = tuple(each.garment for each in setting.results)
    common = _common(garments, setting.paper, setting.scale)
    at, scale = garments.index(result.garment), common.scale
    views, joined = common.views[at], common.joined[at]
    if views and joined:
        front, back = (with_looks(block, view, scale) for block, view in zip(views, joined, strict=True))
        views = front, back
    area, said = drawing_area(setting.paper), instructions(result.garment)
    placed = _placed(views, said, common.arrange, area) if views else None
    if views and placed:
        unplaced = unplaced_names(views)
    else:
        placed = [(steps_block(said, area.x1 - area.x0), (area.x0, area.y0))]
        unplaced = (f"the views at 1:{scale}" if views else "the views, where fabric overlaps itself",)
    return Drawing(
        groups=placed_groups(placed),
        title="assembly, joined and laid flat",
        description=(
            f"Front and back of {setting.design.title}, size {result.size.name}, joined and laid flat at "
            f"1:{scale}. " + " ".join(f"{number}. {step}" for number, step in enumerate(said.steps, start=1))
        ),
        scale=scale,
        unplaced=unplaced,
    )


@dataclass(frozen=True, slots=True)
class _Common:
    """How all sizes are drawn; ``views`` and ``joined`` have None for a size that does not lie flat."""

    scale: int
    arrange: Arrangement
    views: tuple[Views | None, ...]
    joined: tuple[Joined | None, ...]


@lru_cache(maxsize=2)
def _common(garments: tuple[Garment, ...], paper: Paper, largest: int) -> _Common:
    """The first scale and arrangement at which every size fits with every label.

    Where a label finds no room at any scale, the first at which the views fit; the last scale if
    they never do.
    """
    area = drawing_area(paper)
    made = [(joined_views(garment), garment) for garment in garments]
    joined = tuple(views for views, _ in made)
    said = [instructions(garment) for garment in garments]
    fitting = []
    for scale in [each for each in SCALES if each >= largest]:
        if scale < SCALES[-1] and not all(_bare_views_fit(each, scale, area) for each, _ in made if each):
            continue
        for girth_at in _GIRTH_AT:
            views = tuple(
                _views(each, garment, scale, girth_at, area.x1 - area.x0) if each else None
                for each, garment in made
            )
            drawn = [(each, words) for each, words in zip(views, said, strict=True) if each]
            possible = [fill for fill in _ARRANGEMENTS if all(_placed(*each, fill, area) for each in drawn)]
            fitting += [_Common(scale, fill, views, joined) for fill in possible[:1]]
            if possible and not any(unplaced_names(each) for each, _ in drawn):
                return fitting[-1]
    return fitting[0] if fitting else _Common(scale, _ARRANGEMENTS[0], views, joined)


def _views(joined: Joined, garment: Garment, scale: int, girth_at: int, widest: float) -> Views:
    """Both views; the arm bands' girth is on the one asked for, or on the other if that shows none."""
    shown = [any(half.band for half in view.halves) for view in joined]
    at = girth_at if shown[girth_at] else 1 - girth_at
    front, back = (
        view_block(view, garment, scale, girth=shown[at] and place == at, widest=widest)
        for place, view in enumerate(joined)
    )
    return front, back


def _bare_views_fit(joined: Joined, scale: int, area: Box) -> bool:
    """Whether either view without labels is smaller than the area: cheap, and mostly decides it."""
    room = area.x1 - area.x0, area.y1 - area.y0
    for view in joined:
        x0, y0, x1, y1 = MultiPolygon(view.shapes).bounds
        if to_mm(x1 - x0, scale) > room[0] or to_mm(y1 - y0, scale) > room[1]:
            return False
    return True


def _placed(
    views: Views, said: Instructions, arrange: Arrangement, area: Box
) -> list[tuple[Block, Point]] | None:
    """Views and steps with their upper left corners; None if something leaves the area."""
    front, back, text = arrange(views, area)
    if area.x1 - text[0] < _NARROWEST:
        return None
    placed = list(zip((*views, steps_block(said, area.x1 - text[0])), (front, back, text), strict=True))
    for block, (x, y) in placed:
        width, height = block_size(block)
        if x < area.x0 - NEAR or x + width > area.x1 + NEAR or y + height > area.y1 + NEAR:
            return None
    return placed


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
