"""How a poncho hangs on a plain figure: arms down and arms level, from the front, the side and the back."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from operator import itemgetter
from typing import TypeAlias

from schematics.document.lettering.text import SMALL, Font, line_pitch
from schematics.drawing.bare.rooms import cropped
from schematics.drawing.draped.picture import HungPicture, SeenLine
from schematics.drawing.draped.views import LookedFrom
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Label, Line, Pen, Point, Text
from schematics.drawing.ink.page import printed_labels
from schematics.drawing.ink.scale import STEPS, to_mm
from schematics.drawing.ink.sheet import Sheet
from schematics.drawing.ink.track import Straight
from schematics.drawing.worn.worn_figures import DOWN, LEVEL
from schematics.drawing.worn.worn_labels import draw_height
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

_APART, _OUTSIDE = 15.0, 31.0
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


_Picture: TypeAlias = tuple[str, str]
"""A pose, and the side it is seen from."""

_BY_POSE = tuple(tuple((pose, view) for view in _VIEWS.values()) for pose in (DOWN, LEVEL))
"""A row for each pose."""

_BY_SIDE = tuple(zip(*_BY_POSE, strict=True))
"""A row for each side, narrower and higher."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SeenHung:
    """What is seen of a garment on a body of that ``size``: its ``strokes`` by pose and side.

    ``drops`` are how far its hem hangs, by pose.
    """

    size: FigureSize
    strokes: Mapping[_Picture, tuple[SeenLine, ...]]
    drops: Mapping[str, HemDrops]


@dataclass(frozen=True, slots=True)
class HemDrops:
    """How far the hem hangs below the nape at the centre front, at the side and at the centre back, in cm."""

    front: float
    side: float
    back: float


def seen_hung(garment: Garment, size: FigureSize, hung: Hung) -> SeenHung:
    """What is seen of the garment as it came to rest on a body of that size."""
    poses = {DOWN: hung.down, LEVEL: hung.level}
    pictures = {name: HungPicture(draped, _ribs(garment)) for name, draped in poses.items()}
    return SeenHung(
        size=size,
        strokes={
            (name, words): tuple(picture.seen(view))
            for name, picture in pictures.items()
            for view, words in _VIEWS.items()
        },
        drops={name: hem_drops(draped) for name, draped in poses.items()},
    )


def hem_drops(draped: Draped) -> HemDrops:
    """How far the hem hangs at three places."""
    at, nape = answers(draped), draped.body.size.nape_height_cm
    return HemDrops(nape - at.hem_front_cm, nape - at.hem_side_cm, nape - at.hem_back_cm)


def hang_drawing(
    title: str,
    seen: SeenHung,
    units: Sequence[Unit] = (),
    room: tuple[float, float] = _ROOM,
    font: Font | None = None,
) -> Sheet:
    """Six pictures; with ``units`` how far the hem hangs below the nape, and where it is on the body.

    Args:
        title: of the design and its size.
        seen: what is to be drawn.
        units: what lengths are written in, the first one first; none leaves all figures out.
        room: how broad and how high it may be, in mm.
        font: of what is written under the figures, the program's own when None.
    """
    around = (_APART, _OUTSIDE) if units else (_BARE_APART, 0.0)
    scale, rows = min(
        ((_scale(seen, rows, around, room), rows) for rows in (_BY_POSE, _BY_SIDE)), key=itemgetter(0)
    )
    standing = _standing(seen, rows, around, scale)
    block = Block()
    for (pose, view), each in standing.items():
        _draw(block, each, f"{pose}, {view}")
        _caption(block, each, f"{pose}, {view}", font)
    if units:
        for row in rows:
            for column, picture in enumerate(row):
                _measure(block, standing[picture], seen, picture, -1 if column == 0 else 1, units)
    labels = "; ".join(printed_labels(block.groups))
    what = f"{title} on a plain figure, arms down and arms level, from the front, the side and the back."
    return cropped(block.groups, f"{title}, how it hangs", f"{what} {labels}".strip(), scale=scale)


def _ribs(garment: Garment) -> dict[str, float]:
    """How far apart lines are drawn on the parts that have any, in cm."""
    bands = dict.fromkeys((NECK_BAND, ARM_BAND_RIGHT, ARM_BAND_LEFT), _RIB_CM)
    return {**bands, PANEL: garment.piece(PANEL).edge("top").length_cm / _PANEL_LINES}


def _scale(
    seen: SeenHung, rows: Sequence[Sequence[_Picture]], around: tuple[float, float], room: tuple[float, float]
) -> int:
    """The largest scale at which all has room; ``around`` is room between two figures, and at both ends."""
    ends, (apart, outside) = _columns_cm(seen, rows), around
    width, height = sum(high - low for low, high in ends), len(rows) * seen.size.height_cm
    return next(
        (
            each
            for each in STEPS
            if to_mm(width, each) + (len(ends) - 1) * apart + 2 * outside <= room[0]
            and to_mm(height, each) + len(rows) * _UNDER <= room[1]
        ),
        STEPS[-1],
    )


def _standing(
    seen: SeenHung, rows: Sequence[Sequence[_Picture]], around: tuple[float, float], scale: int
) -> dict[_Picture, _Standing]:
    """Each figure in its row and column."""
    apart, outside = around
    all_standing = {}
    for number, row in enumerate(rows, start=1):
        floor = number * to_mm(seen.size.height_cm, scale) + (number - 1) * _UNDER
        left = outside
        for picture, (low, high) in zip(row, _columns_cm(seen, rows), strict=True):
            all_standing[picture] = _Standing(
                strokes=seen.strokes[picture], scale=scale, middle=left - to_mm(low, scale), floor=floor
            )
            left += to_mm(high - low, scale) + apart
    return all_standing


def _columns_cm(seen: SeenHung, rows: Sequence[Sequence[_Picture]]) -> list[tuple[float, float]]:
    """How far each column reaches to the left and to the right of its figures' middle."""
    columns = [[_ends_cm(seen.strokes[each]) for each in column] for column in zip(*rows, strict=True)]
    return [(min(low for low, _ in each), max(high for _, high in each)) for each in columns]


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


def _caption(block: Block, standing: _Standing, words: str, font: Font | None) -> None:
    """Under a figure."""
    low, high = standing.ends_cm
    foot = standing.point((low + high) / 2, 0.0)[0], standing.floor + line_pitch(SMALL) + 2.0
    block.add("caption", words, [Text(foot, words, SMALL, "middle", font=font)])


def _measure(
    block: Block, standing: _Standing, seen: SeenHung, picture: _Picture, aside: int, units: Sequence[Unit]
) -> None:
    """How far the hem hangs at the centre front or back; beside the side view the levels of the body."""
    pose, view = picture
    size, drops, name = seen.size, seen.drops[pose], f"{pose}, {view}"
    middles = {"front": drops.front, "back": drops.back}
    if view in middles:
        drop = middles[view]
        label = Label(("nape", "to hem", *(printed(drop, unit, Grain.USUAL) for unit in units)))
        _draw_drop(block, standing, size.nape_height_cm, size.nape_height_cm - drop, aside, label, name)
        return
    levels = {"waist": size.waist_height_cm, "hip": size.hip_height_cm, "knee": size.knee_height_cm}
    low, high = standing.ends_cm
    for level, height in levels.items():
        ends = standing.point(low - 3.0, height), standing.point(high + 3.0, height)
        words = Text((ends[1][0] + 1.0, ends[1][1] + 0.8), level, SMALL, "start")
        block.add("level", f"{pose}, {level}", [Line(ends, Pen.SEAM), words])


def _draw_drop(
    block: Block, standing: _Standing, top_cm: float, foot_cm: float, side: int, label: Label, name: str
) -> None:
    """From the height of the nape down to the hem, beside the figure on its left (-1) or right."""
    beyond = standing.ends_cm[side > 0] + side * 1.5
    top, foot = standing.point(beyond, top_cm), standing.point(beyond, foot_cm)
    inner = [(standing.point(0.0, foot_cm), foot)]
    block.add("height", name, [Line(each, Pen.EXTENSION) for each in inner])
    draw_height(block, name, label, Straight(top, foot) if side < 0 else Straight(foot, top))
