"""How a poncho hangs on a plain figure: arms down and arms level, from the front, the side and the back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from schematics.cloth.draped import Draped
from schematics.cloth.draping import Hung
from schematics.document.lettering.text import LARGE, SMALL, line_pitch
from schematics.drawing.bare.rooms import cropped
from schematics.drawing.draped.picture import Picture, Stroke
from schematics.drawing.draped.views import View
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.dimension import draw_dimension
from schematics.drawing.ink.marks import Label, Line, Mark, Pen, Point, Text
from schematics.drawing.ink.page import labels_told
from schematics.drawing.ink.scale import to_mm
from schematics.drawing.ink.sheet import Sheet
from schematics.drawing.ink.track import Straight
from schematics.drawing.worn.worn_figures import DOWN, LEVEL
from schematics.garment.garment import Garment
from schematics.units import Grain, Unit, printed
from schematics.wearer.body_figure import FigureSize

_VIEWS = {View.FRONT: "front", View.SIDE: "side", View.BACK: "back"}

_SCALE = 15
"""One to so many: two rows of grown figures take a page of A4 lying."""

_GAP, _ROW_GAP = 10.0, 12.0
"""Between figures beside and under one another, in mm, besides what is written there."""

_BESIDE = 26.0
"""Room for a dimension and its words at one side, in mm."""

_PANEL_LINES = 5
"""Lines that show the panel's pattern, along it."""

_RIB_CM = 1.1
"""Between two ridges of the bands as they are drawn."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Standing:
    """One figure as seen from one side, its middle at so many mm from the left, its floor so many mm down."""

    strokes: tuple[Stroke, ...]
    middle: float
    floor: float

    def point(self, x_cm: float, y_cm: float) -> Point:
        """On the paper."""
        return self.middle + to_mm(x_cm, _SCALE), self.floor - to_mm(y_cm, _SCALE)

    @property
    def ends_cm(self) -> tuple[float, float]:
        """How far the figure reaches to the left and to the right."""
        return _ends_cm(self.strokes)


def hang_drawing(
    title: str, garment: Garment, size: FigureSize, hung: Hung, units: Sequence[Unit] = ()
) -> Sheet:
    """Six pictures; with ``units``, measured: how far the hem hangs below the nape, and where it is on the body.

    Args:
        title: of the design and its size.
        garment: what hangs.
        size: the wearer it hangs on.
        hung: how it came to rest.
        units: what lengths are written in, the first one first; none leaves all figures out.
    """
    block = Block()
    floor = 0.0
    for draped, name in ((hung.down, DOWN), (hung.level, LEVEL)):
        picture = Picture(draped, _ribs(garment))
        floor += to_mm(size.height_cm, _SCALE)
        standing = list(_in_a_row(picture, floor, _BESIDE if units else _GAP))
        for each, view in zip(standing, _VIEWS.values(), strict=True):
            _draw(block, each, f"{name}, {view}")
        if units:
            _measure(block, standing, draped, size, units, name)
        _caption(block, standing, name)
        floor += _ROW_GAP + line_pitch(LARGE)
    told = "; ".join(labels_told(block.groups, ("dimension", "level")))
    pictures = f"{title} on a plain figure, arms down and arms level, from the front, the side and the back."
    return cropped(block.groups, f"{title}, how it hangs", f"{pictures} {told}".strip(), scale=_SCALE)


def _ribs(garment: Garment) -> dict[str, float]:
    """How far apart lines are drawn on the parts that have any, in cm."""
    bands = dict.fromkeys(("neck band", "arm band right", "arm band left"), _RIB_CM)
    return {**bands, "centre panel": garment.piece("centre panel").edge("top").length_cm / _PANEL_LINES}


def _in_a_row(picture: Picture, floor: float, gap: float) -> Iterator[_Standing]:
    """The figure from each side, from left to right."""
    left = 0.0
    for view in _VIEWS:
        strokes = tuple(picture.seen(view))
        low, high = (to_mm(each, _SCALE) for each in _ends_cm(strokes))
        yield _Standing(strokes=strokes, middle=left - low, floor=floor)
        left += high - low + gap


def _ends_cm(strokes: Sequence[Stroke]) -> tuple[float, float]:
    across = [each.points[:, 0] for each in strokes]
    return min(float(each.min()) for each in across), max(float(each.max()) for each in across)


def _draw(block: Block, standing: _Standing, name: str) -> None:
    for kind in ("figure", "garment", "texture"):
        marks = [
            Line(tuple(standing.point(x, y) for x, y in each.points.tolist()), each.pen)
            for each in standing.strokes
            if each.kind == kind
        ]
        block.add(kind, name, marks)


def _caption(block: Block, standing: Sequence[_Standing], name: str) -> None:
    """Under each figure, from where it is seen."""
    marks: list[Mark] = []
    for each, view in zip(standing, _VIEWS.values(), strict=True):
        low, high = each.ends_cm
        middle = each.point((low + high) / 2, 0.0)[0]
        marks.append(Text((middle, each.floor + line_pitch(SMALL) + 2.0), f"{name}, {view}", SMALL, "middle"))
    block.add("caption", name, marks)


def _measure(
    block: Block,
    standing: Sequence[_Standing],
    draped: Draped,
    size: FigureSize,
    units: Sequence[Unit],
    name: str,
) -> None:
    front, side, back = standing
    hem = draped.vertices[draped.lines["hem"], 1]
    at_back, at_front = float(hem[0]), float(hem[len(hem) // 2])
    _draw_drop(
        block,
        front,
        size.nape_height_cm,
        at_front,
        -1,
        _label("nape to hem", size.nape_height_cm - at_front, units),
        f"{name}, front",
    )
    _draw_drop(
        block,
        back,
        size.nape_height_cm,
        at_back,
        1,
        _label("nape to hem", size.nape_height_cm - at_back, units),
        f"{name}, back",
    )
    levels = {"waist": size.waist_height_cm, "hip": size.hip_height_cm, "knee": size.knee_height_cm}
    low, high = side.ends_cm
    for level, height in levels.items():
        ends = side.point(low - 3.0, height), side.point(high + 3.0, height)
        words = Text((ends[1][0] + 1.0, ends[1][1] + 0.8), level, SMALL, "start")
        block.add("level", f"{name}, {level}", [Line(ends, Pen.SEAM), words])


def _draw_drop(
    block: Block, standing: _Standing, top_cm: float, foot_cm: float, side: int, label: Label, name: str
) -> None:
    """From the height of the nape down to the hem, beside the figure on its left (-1) or right."""
    beyond = standing.ends_cm[side > 0] + side * 1.5
    top, foot = standing.point(beyond, top_cm), standing.point(beyond, foot_cm)
    inner = [(standing.point(0.0, foot_cm), foot)]
    block.add("height", name, [Line(each, Pen.EXTENSION) for each in inner])
    track = Straight(top, foot) if side < 0 else Straight(foot, top)
    if not draw_dimension(block, name, track, (label,)):
        block.unplaced.append(name)


def _label(name: str, length_cm: float, units: Sequence[Unit]) -> Label:
    return Label((name, *(printed(length_cm, unit, Grain.USUAL) for unit in units)))
