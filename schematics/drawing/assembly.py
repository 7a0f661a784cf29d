"""The assembly sheet: front and back of the joined garment laid flat, and how it goes together."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from schematics.drawing.block import Block
from schematics.drawing.compose import Drawing, Setting
from schematics.drawing.joined import JoinedView, back_view, front_view
from schematics.drawing.joined_block import view_block
from schematics.drawing.marks import Group, Point
from schematics.drawing.page import Box, block_size, drawing_area
from schematics.drawing.scale import SCALES, to_mm
from schematics.drawing.sheet import Paper
from schematics.drawing.steps import assembly_steps, steps_block
from schematics.evaluate import Result
from schematics.garment import Garment

_GUTTER = 5.0
_NARROWEST = 42.0
"""Least width of a column of text, in mm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Layout:
    """Blocks and where their upper left corners go."""

    blocks: tuple[Block, ...]
    corners: tuple[Point, ...]

    @property
    def unplaced(self) -> tuple[str, ...]:
        return tuple(name for block in self.blocks for name in block.unplaced)

    def groups(self) -> tuple[Group, ...]:
        placed = zip(self.blocks, self.corners, strict=True)
        return tuple(group for block, corner in placed for group in block.at(*corner))


def draw_assembly(setting: Setting, result: Result) -> Drawing:
    """The assembly sheet of one size, at one scale for all sizes: the setting's, or the next that fits."""
    garments = tuple(each.garment for each in setting.results)
    scale, arrangement = _common(garments, setting.paper, setting.scale)
    layout = _ARRANGEMENTS[arrangement](result.garment, scale, drawing_area(setting.paper))
    steps = assembly_steps(result.garment)
    return Drawing(
        groups=layout.groups() if layout else (),
        title="assembly, joined and laid flat",
        description=(
            f"Front and back of {setting.design.title}, size {result.size.name}, joined and laid flat at "
            f"1:{scale}. " + " ".join(f"{number}. {step}" for number, step in enumerate(steps, start=1))
        ),
        scale=scale,
        unplaced=layout.unplaced if layout else (f"the views at 1:{scale}",),
    )


@lru_cache(maxsize=4)
def _common(garments: tuple[Garment, ...], paper: Paper, largest: int) -> tuple[int, int]:
    """Scale and arrangement for all sizes: the first at which every one fits with every label.

    Where a label finds no room at any scale, the first at which the views fit; the last of both if
    they never do.
    """
    area = drawing_area(paper)
    fitting = []
    for scale in [each for each in SCALES if each >= largest]:
        if not all(_views_fit(garment, scale, area) for garment in garments):
            continue
        for number, arrange in enumerate(_ARRANGEMENTS):
            layouts = [arrange(garment, scale, area) for garment in garments]
            if all(layouts):
                fitting.append((scale, number))
                if not any(layout.unplaced for layout in layouts if layout):
                    return scale, number
    return fitting[0] if fitting else (SCALES[-1], len(_ARRANGEMENTS) - 1)


def _views_fit(garment: Garment, scale: int, area: Box) -> bool:
    """Whether either bare view is smaller than the drawing area: cheap, and mostly decides it."""
    for view in (front_view(garment), back_view(garment)):
        x0, y0, x1, y1 = _bounds(view)
        if to_mm(x1 - x0, scale) > area.x1 - area.x0 or to_mm(y1 - y0, scale) > area.y1 - area.y0:
            return False
    return True


def _bounds(view: JoinedView) -> tuple[float, float, float, float]:
    boxes = [shape.bounds for shape in view.shapes]
    return (
        min(box[0] for box in boxes),
        min(box[1] for box in boxes),
        max(box[2] for box in boxes),
        max(box[3] for box in boxes),
    )


def _stacked(garment: Garment, scale: int, area: Box) -> _Layout | None:
    """Front above back, their middles above each other, the steps below."""
    views = _view_blocks(garment, scale)
    left, right = _reach(views)
    x = area.x0 + (area.x1 - area.x0 - left - right) / 2 + left
    corners = _on_axis(views, x, area.y0)
    return _laid_out(garment, views, corners, (area.x0, _below(views, corners)), area)


def _column(garment: Garment, scale: int, area: Box) -> _Layout | None:
    """Front above back, their middles above each other, the steps in a column beside them."""
    views = _view_blocks(garment, scale)
    left, right = _reach(views)
    corners = _on_axis(views, area.x0 + left, area.y0)
    return _laid_out(garment, views, corners, (area.x0 + left + right + _GUTTER, area.y0), area)


def _side_by_side(garment: Garment, scale: int, area: Box) -> _Layout | None:
    """Front beside back, the steps below."""
    views = _view_blocks(garment, scale)
    corners = (area.x0, area.y0), (area.x0 + block_size(views[0])[0] + _GUTTER, area.y0)
    return _laid_out(garment, views, corners, (area.x0, _below(views, corners)), area)


def _reach(views: tuple[Block, Block]) -> tuple[float, float]:
    """How far the views reach to the left and to the right of their middles."""
    boxes = [view.bounds() for view in views]
    return max(-box[0] for box in boxes), max(box[2] for box in boxes)


def _on_axis(views: tuple[Block, Block], x: float, y: float) -> tuple[Point, Point]:
    """Corners for the views one above the other with their middles at ``x``."""
    front, back = views
    return (x + front.bounds()[0], y), (x + back.bounds()[0], y + block_size(front)[1] + _GUTTER)


def _below(views: tuple[Block, Block], corners: tuple[Point, Point]) -> float:
    return max(y + block_size(view)[1] for view, (_, y) in zip(views, corners, strict=True)) + _GUTTER


_ARRANGEMENTS: Sequence[Callable[[Garment, int, Box], _Layout | None]] = (_stacked, _column, _side_by_side)
"""Ways to fill the page, best first."""


def _view_blocks(garment: Garment, scale: int) -> tuple[Block, Block]:
    front, back = (view_block(view(garment), garment, scale) for view in (front_view, back_view))
    return front, back


def _laid_out(
    garment: Garment, views: tuple[Block, Block], corners: tuple[Point, Point], steps_at: Point, area: Box
) -> _Layout | None:
    """Everything in its place; None if something leaves the area."""
    if area.x1 - steps_at[0] < _NARROWEST:
        return None
    steps = steps_block(assembly_steps(garment), area.x1 - steps_at[0])
    blocks = (*views, steps)
    places = (*corners, steps_at)
    for block, (x, y) in zip(blocks, places, strict=True):
        width, height = block_size(block)
        if x < area.x0 - 1e-6 or x + width > area.x1 + 1e-6 or y + height > area.y1 + 1e-6:
            return None
    return _Layout(blocks=blocks, corners=places)
