"""How a poncho hangs on a plain figure: arms down and arms level, from the front, the side and the back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from schematics.document.lettering.text import SMALL, Font, line_pitch
from schematics.drawing.bare.rooms import cropped
from schematics.drawing.draped.picture import HungPicture, SeenLine
from schematics.drawing.draped.views import LookedFrom
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.dimension import draw_dimension
from schematics.drawing.ink.marks import Label, Line, Mark, Pen, Point, Text
from schematics.drawing.ink.page import printed_labels
from schematics.drawing.ink.scale import STEPS, to_mm
from schematics.drawing.ink.sheet import Sheet
from schematics.drawing.ink.track import Straight
from schematics.drawing.worn.worn_figures import DOWN, LEVEL
from schematics.garment.cloth.draped import ARM_BAND_LEFT, ARM_BAND_RIGHT, Draped
from schematics.garment.cloth.draping import Hung
from schematics.garment.cloth.seamed_mesh import NECK_BAND, PANEL
from schematics.garment.cloth.worn_heights import answers
from schematics.garment.garment import Garment
from schematics.units import Grain, Unit, printed
from schematics.wearer.body_figure import FigureSize

_VIEWS = {LookedFrom.FRONT: "front", LookedFrom.SIDE: "side", LookedFrom.BACK: "back"}

_ROOM = 277.0, 190.0
"""Of A4 lying, in mm."""

_APART, _OUTSIDE = 15.0, 27.0
"""Room between two figures, for the names of levels, and at both ends, for a dimension, in mm."""

_BARE_APART = 6.0
"""Room between two figures where nothing is measured, in mm."""

_UNDER = 10.0
"""Room under each row for what it shows, in mm."""

_PANEL_LINES = 5
"""Lines that show the panel's pattern, along it."""

_RIB_CM = 1.1
"""Between two ridges of the bands as they are drawn."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Standing:
    """One figure as seen from one side, its middle at so many mm from the left, its floor so many mm down."""

    strokes: tuple[SeenLine, ...]
    scale: int
    middle: float
    floor: float

    def point(self, x_cm: float, y_cm: float) -> Point:
        """On the paper."""
        return self.middle + to_mm(x_cm, self.scale), self.floor - to_mm(y_cm, self.scale)

    @property
    def ends_cm(self) -> tuple[float, float]:
        """How far the figure reaches to the left and to the right."""
        return _ends_cm(self.strokes)


def hang_drawing(
    title: str,
    garment: Garment,
    size: FigureSize,
    hung: Hung,
    units: Sequence[Unit] = (),
    room: tuple[float, float] = _ROOM,
    font: Font | None = None,
) -> Sheet:
    """Six pictures; with ``units`` how far the hem hangs below the nape, and where it is on the body.

    Args:
        title: of the design and its size.
        garment: what hangs.
        size: the wearer it hangs on.
        hung: how it came to rest.
        units: what lengths are written in, the first one first; none leaves all figures out.
        room: how broad and how high it may be, in mm.
        font: of what is written under the figures, the program's own when None.
    """
    poses = {DOWN: hung.down, LEVEL: hung.level}
    pictures = (HungPicture(draped, _ribs(garment)) for draped in poses.values())
    seen = [[tuple(picture.seen(view)) for view in _VIEWS] for picture in pictures]
    around = (_APART, _OUTSIDE) if units else (_BARE_APART, 0.0)
    rows = _in_rows(seen, size.height_cm, around, room)
    block = Block()
    for (name, draped), row in zip(poses.items(), rows, strict=True):
        for each, view in zip(row, _VIEWS.values(), strict=True):
            _draw(block, each, f"{name}, {view}")
        if units:
            _measure(block, row, draped, size, units, name)
        _caption(block, row, name, font)
    labels = "; ".join(printed_labels(block.groups))
    what = f"{title} on a plain figure, arms down and arms level, from the front, the side and the back."
    return cropped(block.groups, f"{title}, how it hangs", f"{what} {labels}".strip(), scale=rows[0][0].scale)


def _ribs(garment: Garment) -> dict[str, float]:
    """How far apart lines are drawn on the parts that have any, in cm."""
    bands = dict.fromkeys((NECK_BAND, ARM_BAND_RIGHT, ARM_BAND_LEFT), _RIB_CM)
    return {**bands, PANEL: garment.piece(PANEL).edge("top").length_cm / _PANEL_LINES}


def _in_rows(
    seen: Sequence[Sequence[tuple[SeenLine, ...]]],
    height_cm: float,
    around: tuple[float, float],
    room: tuple[float, float],
) -> list[list[_Standing]]:
    """A row for each pose, a column for each side, at the largest scale that has room on a page.

    ``around`` them is room between two figures, and at both ends.
    """
    apart, outside = around
    columns = [[_ends_cm(each) for each in column] for column in zip(*seen, strict=True)]
    ends = [(min(low for low, _ in column), max(high for _, high in column)) for column in columns]
    width, height = sum(high - low for low, high in ends), len(seen) * height_cm
    scale = next(
        (
            each
            for each in STEPS
            if to_mm(width, each) + (len(ends) - 1) * apart + 2 * outside <= room[0]
            and to_mm(height, each) + len(seen) * _UNDER <= room[1]
        ),
        STEPS[-1],
    )
    rows = []
    for number, row in enumerate(seen, start=1):
        floor = number * to_mm(height_cm, scale) + (number - 1) * _UNDER
        left, standing = outside, []
        for strokes, (low, high) in zip(row, ends, strict=True):
            standing.append(
                _Standing(strokes=strokes, scale=scale, middle=left - to_mm(low, scale), floor=floor)
            )
            left += to_mm(high - low, scale) + apart
        rows.append(standing)
    return rows


def _ends_cm(strokes: Sequence[SeenLine]) -> tuple[float, float]:
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


def _caption(block: Block, standing: Sequence[_Standing], name: str, font: Font | None) -> None:
    """Under each figure, from where it is seen."""
    marks: list[Mark] = []
    for each, view in zip(standing, _VIEWS.values(), strict=True):
        low, high = each.ends_cm
        middle = each.point((low + high) / 2, 0.0)[0]
        foot = middle, each.floor + line_pitch(SMALL) + 2.0
        marks.append(Text(foot, f"{name}, {view}", SMALL, "middle", font=font))
    block.add("caption", name, marks)


def _measure(
    block: Block,
    standing: Sequence[_Standing],
    draped: Draped,
    size: FigureSize,
    units: Sequence[Unit],
    name: str,
) -> None:
    """How far the hem hangs at the centre front and back, and the levels of the body beside the side view."""
    front, side, back = standing
    at = answers(draped)
    for each, foot, aside, view in ((front, at.hem_front_cm, -1, "front"), (back, at.hem_back_cm, 1, "back")):
        drop = size.nape_height_cm - foot
        label = Label(("nape", "to hem", *(printed(drop, unit, Grain.USUAL) for unit in units)))
        _draw_drop(block, each, size.nape_height_cm, foot, aside, label, f"{name}, {view}")
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
