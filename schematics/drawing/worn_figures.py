"""Two figures side by side with the garment on them, what is measured on them, and the levels of the body."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from shapely import LineString, MultiLineString, Polygon, unary_union
from shapely.geometry.base import BaseGeometry

from schematics.drape import Hanging, Worn
from schematics.drawing.block import Block
from schematics.drawing.dimension import draw_dimension, draw_leader
from schematics.drawing.marks import Area, Label, Line, Mark, Pen, Point, Text
from schematics.drawing.scale import to_mm
from schematics.drawing.text import LARGE
from schematics.drawing.track import Straight
from schematics.figure import Figure, FigureSize, Pose
from schematics.units import format_cm, format_inches

LEFT_ROOM = 32.0
"""Room for the dimensions left of the figures, in mm."""

WIDEST, NARROWEST = 30.0, 10.0
"""Distance between the two figures, in mm, as far as the paper gives."""

CAPTION_HEIGHT = 7.0
"""Room under the floor, in mm."""

_OVERHANG = 3.0
_ARROW_ROOM = 4.3
"""What an arrow in the line and the gap round the label take at either end, in mm."""

_AT_WRIST_CM = 0.75
"""A band that ends nearer to the wrist than this is said to be there, not dimensioned."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """One figure; ``worn`` is None where the garment cannot be drawn on it."""

    figure: Figure
    worn: Worn | None

    @property
    def half_cm(self) -> float:
        """Half the breadth of everything."""
        reach: float = self.shape.bounds[2]
        return reach

    @property
    def shape(self) -> BaseGeometry:
        """Figure and garment together."""
        parts: list[Polygon] = [self.figure.outline]
        if self.worn is not None:
            parts += [self.worn.cloth, self.worn.neck_band, *self.worn.arm_bands]
        return unary_union(parts)


@dataclass(frozen=True, slots=True, kw_only=True)
class Both:
    """The size's two figures, arms down and arms level, and the garment's lengths."""

    size: FigureSize
    hanging: Hanging
    down: Standing
    level: Standing

    @property
    def height_cm(self) -> float:
        """From the floor, or the lowest fabric, to the highest point."""
        top = max(each.shape.bounds[3] for each in (self.down, self.level))
        low = min(each.shape.bounds[1] for each in (self.down, self.level))
        height: float = top - low
        return height


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a figure stands: cm of the figure to mm of the block, floor and first midline at nought."""

    scale: int
    middle: float

    def point(self, x_cm: float, y_cm: float) -> Point:
        return self.middle + to_mm(x_cm, self.scale), -to_mm(y_cm, self.scale)

    def points(self, line: LineString) -> tuple[Point, ...]:
        return tuple(self.point(x, y) for x, y, *_ in line.coords)


def breadth_mm(both: Both, scale: int, gap: float) -> float:
    """Breadth of the drawing at 1:``scale`` but for labels to the right of the hand."""
    return LEFT_ROOM + to_mm(2 * (both.down.half_cm + both.level.half_cm), scale) + gap


def figures_block(both: Both, scale: int, gap: float) -> Block:
    """Both figures at 1:``scale`` with ``gap`` mm between them, floor at nought."""
    middle = to_mm(both.down.half_cm + both.level.half_cm, scale) + gap
    down, level = _Place(scale, 0.0), _Place(scale, middle)
    block = Block()
    for standing, place, words in ((both.down, down, "arms down"), (both.level, level, "arms level")):
        _draw_standing(block, standing, place, words)
    _draw_floor(block, both, down, level)
    _draw_levels(block, both, down, level)
    if both.down.worn is not None:
        _draw_heights(block, both, both.down.worn, down)
        _draw_band(block, both, both.down.worn, down)
    _draw_path_labels(block, both, down, level)
    return block


def _draw_standing(block: Block, standing: Standing, place: _Place, name: str) -> None:
    worn = standing.worn
    boundary = standing.figure.outline.boundary
    if worn is None:
        block.add("figure", name, _lines(boundary, place, Pen.THIN))
        return
    bands = unary_union([worn.neck_band, *worn.arm_bands])
    block.add("figure", name, _lines(boundary.difference(unary_union([worn.cloth, bands])), place, Pen.THIN))
    cloth = _lines(worn.cloth.boundary.difference(bands), place, Pen.OUTLINE)
    rims = [Area(place.points(band.exterior)[:-1]) for band in (worn.neck_band, *worn.arm_bands)]
    block.add("garment", name, [*cloth, *rims])
    seams = unary_union(worn.panel_seams).difference(bands) if worn.panel_seams else LineString()
    block.add("panel", name, _lines(seams, place, Pen.SEAM))
    if worn.path is not None:
        block.add("way", name, [Line(place.points(worn.path), Pen.FOLD)])


def _lines(shape: BaseGeometry, place: _Place, pen: Pen) -> list[Mark]:
    """The lines of a boundary, each as long as it runs on."""
    from shapely import line_merge

    merged = line_merge(shape) if isinstance(shape, MultiLineString) else shape
    parts = [part for part in getattr(merged, "geoms", [merged]) if isinstance(part, LineString)]
    return [Line(place.points(part), pen) for part in parts if part.length > 0.05]


def _draw_floor(block: Block, both: Both, down: _Place, level: _Place) -> None:
    left = down.point(-both.down.half_cm, 0)[0] - _OVERHANG
    right = level.point(both.level.half_cm, 0)[0]
    block.add("floor", "floor", [Line(((left, 0.0), (right, 0.0)))])
    low = max(
        0.0,
        *(
            place.point(0, each.shape.bounds[1])[1]
            for place, each in ((down, both.down), (level, both.level))
        ),
    )
    for place, words in ((down, "arms down"), (level, "arms level")):
        at = place.middle, low + CAPTION_HEIGHT - 2.0
        block.add("caption", words, [Text(at, words, LARGE, "middle", bold=True)])


def _draw_levels(block: Block, both: Both, down: _Place, level: _Place) -> None:
    """Waist, hip and knee as dashed lines through both figures, named at their right ends."""
    heights = {
        "waist": both.size.waist_height_cm,
        "hip": both.size.hip_height_cm,
        "knee": both.size.knee_height_cm,
    }
    ys = [level.point(0, height)[1] for height in heights.values()]
    reach = down.point(both.down.half_cm, 0)[0] + 1.0
    through = [Line(((-reach, y), (reach, y)), Pen.SEAM) for y in ys]
    block.add("level", "levels, arms down", through)
    words = [(f"{name} {format_cm(height)}", format_inches(height)) for name, height in heights.items()]
    label_ys = spread_out(ys, Label(words[0]).size[1] + 1.0)
    hip = to_mm(both.size.hip_breadth_cm / 2, level.scale)
    for step in range(60):
        column = level.middle + hip + 8.0 + 2.0 * step
        groups = [
            _level_marks(lines, level.middle - hip - _OVERHANG, column, y, label_y)
            for lines, y, label_y in zip(words, ys, label_ys, strict=True)
        ]
        if all(_free(block, marks) for marks in groups):
            for name, marks in zip(heights, groups, strict=True):
                block.add("level", name, marks)
            return
    block.unplaced.extend(heights)


def _level_marks(words: tuple[str, ...], start: float, column: float, y: float, label_y: float) -> list[Mark]:
    """The line from ``start``, and from its end a leader to the words, which start at ``column``."""
    bend = column - 5.0
    lines = [Line(((start, y), (bend, y)), Pen.SEAM), Line(((bend, y), (column - 1.0, label_y)), Pen.LEADER)]
    texts = Label(words).texts((column, label_y), 0.0)
    return [*lines, *(replace(text, anchor="start") for text in texts)]


def _free(block: Block, marks: Sequence[Mark]) -> bool:
    """Whether the words among the marks are free and its lines run over no other words."""
    words = [mark for mark in marks if isinstance(mark, Text)]
    lines = [LineString(mark.points) for mark in marks if isinstance(mark, Line)]
    return block.is_empty(words) and all(block.clear_of_labels(line) for line in lines)


def spread_out(ys: Sequence[float], pitch: float) -> list[float]:
    """Positions at least ``pitch`` apart, in the order given (rising), moved as evenly as may be."""
    placed: list[list[float]] = []
    for y in ys:
        placed.append([y])
        while len(placed) > 1 and _start(placed[-1], pitch) < _start(placed[-2], pitch) + pitch * len(
            placed[-2]
        ):
            last = placed.pop()
            placed[-1] += last
    return [_start(cluster, pitch) + pitch * i for cluster in placed for i in range(len(cluster))]


def _start(cluster: Sequence[float], pitch: float) -> float:
    return sum(cluster) / len(cluster) - pitch * (len(cluster) - 1) / 2


def _draw_heights(block: Block, both: Both, worn: Worn, place: _Place) -> None:
    """From the nape down to the hem, left of the figure, and from the hem to the knee, right of it."""
    nape, hem, knee = (
        place.point(0, height)[1]
        for height in (both.size.nape_height_cm, worn.hem_height_cm, both.size.knee_height_cm)
    )
    foot = place.point(both.down.half_cm, 0)[0] + 1.0
    collar = place.point(worn.neck_band.bounds[2], 0)[0] + 1.0
    lines = [((-collar, nape), (-foot - 1.0, nape)), ((-foot - 1.0, hem), (foot + 1.0, hem))]
    block.add("height", "nape and hem", [Line(ends, Pen.EXTENSION) for ends in lines])
    _dimension(block, "nape to hem", Straight((-foot, nape), (-foot, hem)), place.scale)
    if abs(hem - knee) >= to_mm(_AT_WRIST_CM, place.scale):
        name = "hem to knee" if hem < knee else "knee to hem"
        _dimension(block, name, Straight((foot, max(hem, knee)), (foot, min(hem, knee))), place.scale)


def _dimension(block: Block, name: str, track: Straight, scale: int) -> None:
    """A dimension with its name, upright beside the line or, where it is long enough, in it."""
    length_cm = track.length * scale / 10
    cm, inches = format_cm(length_cm), format_inches(length_cm)
    first, rest = name.split(" ", 1)
    labels = (
        Label((name, cm, inches)),
        Label((first, rest, cm, inches)),
        Label((f"{name} {cm}", inches)),
    )
    room = track.length - 2 * _ARROW_ROOM
    fitting = [label for label in labels if label.size[0] <= room or label.size[0] > track.length]
    if not draw_dimension(block, name, track, (*fitting, *labels)):
        draw_leader(block, name, [(track.at(track.length / 2), track.normal(0))], labels[:1])


def _draw_band(block: Block, both: Both, worn: Worn, place: _Place) -> None:
    """How far the arm band ends from the wrist, along the arm."""
    freedom = both.hanging.freedom
    if freedom is None:
        return
    arm = worn.figure.arm
    end = both.hanging.along_arm_cm(both.size, Pose.DOWN) + freedom.band_depth_cm
    above = arm.length_cm - end
    name = "band ends above wrist" if above > 0 else "band ends over hand"
    first, *rest = name.rsplit(" ", 2)
    words = (first, " ".join(rest), format_cm(abs(above)), format_inches(abs(above)))
    if abs(above) < _AT_WRIST_CM:
        words = ("band ends", "at the wrist")
    tip = place.point(*arm.side(end, 1))
    draw_leader(block, "band", [(tip, (1.0, 0.2))], (Label(words),))


def _draw_path_labels(block: Block, both: Both, down: _Place, level: _Place) -> None:
    freedom = both.hanging.freedom
    if freedom is None:
        return
    across = "back" if freedom.spread_back_cm <= freedom.spread_front_cm else "front"
    ways = (
        (both.down.worn, down, "reach", freedom.reach_cm, ("reach",)),
        (both.level.worn, level, "spread", freedom.spread_cm, ("spread,", f"across the {across}")),
    )
    for worn, place, name, length_cm, words in ways:
        if worn is None or worn.path is None:
            continue
        label = Label((*words, format_cm(length_cm), format_inches(length_cm)))
        draw_leader(block, name, list(_tips(worn, place)), (label,))


def _tips(worn: Worn, place: _Place) -> Iterator[tuple[Point, Point]]:
    """Where an arrow to the path may end, on the right half of it, and upwards from there."""
    points = place.points(LineString(worn.path.coords[-2:])) if worn.path is not None else ()
    (x0, y0), (x1, y1) = points
    x0 = max(x0, place.middle)
    for share in (0.2, 0.5):
        yield (x0 + (x1 - x0) * share, y0 + (y1 - y0) * share), (0.3, -1.0)
