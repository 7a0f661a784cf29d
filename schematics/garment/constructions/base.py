"""The parts all constructions share: panel and bands."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import pairwise, repeat
from typing import Any, TypeAlias, cast

import numpy as np
import shapely
from numpy.typing import NDArray
from pydantic import BaseModel, ConfigDict, Field
from shapely import Polygon

from schematics.crochet.charts.chart import Chart
from schematics.crochet.charts.chart_fault import ChartFaultError
from schematics.crochet.charts.worked_rows import row_counts
from schematics.crochet.fabric import Counted, Fabric
from schematics.design.design import Parts, Size
from schematics.garment.garment import Edge, Piece, Ring, Seam, Span, Vertex, Vertices, WorkArrow
from schematics.garment.patterned_area import PatternedArea, Points, Sideways, Upright
from schematics.garment.walks import Walk, WalkName

STITCHES, ROWS = Counted.STITCHES, Counted.ROWS

Array: TypeAlias = NDArray[np.float64]
"""Points in order, shaped (points, 2), in cm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CountInWords:
    """What a maker counts: ``now`` so many, and ``each`` more where the count ``key`` is one more.

    ``why`` is said where so many cannot be had.
    """

    key: str
    now: int
    each: int = 1
    why: str = ""


class Counts(BaseModel):
    """Base of the count models a spec's ``body:`` and ``arms:`` blocks are read into."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)

    @property
    def in_words(self) -> Mapping[str, CountInWords]:
        """What makers speak of and no count is called, by their words for it."""
        return {}


class HemArms(Counts):
    """Arm bands worked onto the hem: where the run starts and how long it is."""

    from_front: int = Field(ge=0, description="hem stitches between the front seam and the arm run")
    stitches: int = Field(ge=2, description="hem stitches in one arm run")


def polygon(vertices: Vertices) -> Polygon:
    """The polygon of those corners."""
    return cast("Polygon", shapely.polygons(np.asarray(vertices)))


def polygons(many: Sequence[Sequence[Vertex]]) -> Sequence[Polygon]:
    """Polygons of as many corners each."""
    return cast("Sequence[Polygon]", shapely.polygons(np.array(many)))


def edge_of(
    name: str,
    vertices: Vertices,
    count: int,
    counted: Counted,
    fabric: Fabric,
    *,
    crosses_fold: bool = False,
    partial: bool = False,
) -> Edge:
    """An edge as long as its count makes it."""
    return Edge(
        name=name,
        vertices=vertices,
        length_cm=fabric.length_cm(count, counted),
        count=count,
        counted=counted,
        fabric=fabric,
        crosses_fold=crosses_fold,
        partial=partial,
    )


_ALL_ALONG, _BESIDE_MOTIF = (0.2, 0.8), (0.03, 0.25)
"""Where along a piece an arrow shows the direction of work; where there is a motif, it leaves it room."""

_Side: TypeAlias = tuple[str, int, Counted]
"""What a side of a rectangle measures, such as ``width``, and its count."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rectangle:
    """A rectangle with its lower edge on y = 0, centred on x = 0.

    ``names`` are the edges' from the lower one counter-clockwise, ``key`` is that of the finished
    measurements. Worked upwards when the side counts rows, otherwise from left to right.
    """

    name: str
    key: str
    fabric: Fabric
    names: tuple[str, str, str, str]
    lower: _Side
    side: _Side
    quantity: int = 1

    @property
    def corners(self) -> list[Vertex]:
        """Counter-clockwise from the lower left one, which comes twice."""
        half, height = self.fabric.length_cm(*self.lower[1:]) / 2, self.fabric.length_cm(*self.side[1:])
        return [(-half, 0.0), (half, 0.0), (half, height), (-half, height), (-half, 0.0)]

    def piece(self, corners: Sequence[Vertex], outline: Polygon) -> Piece:
        """With its outline through these corners."""
        half, height = corners[2]
        sides = [(2 * half, self.lower), (height, self.side)] * 2
        edges = tuple(
            Edge(
                name=name, vertices=ends, length_cm=length_cm, count=count, counted=counted,
                fabric=self.fabric,
            )
            for name, ends, (length_cm, (_, count, counted)) in zip(
                self.names, pairwise(corners), sides, strict=True
            )
        )  # fmt: skip
        words = "worked upwards" if self.upwards else "worked sideways"
        area = self._area(half, height)
        return Piece(
            name=self.name,
            fabric=self.fabric,
            outline=outline,
            edges=edges,
            measured=partial(self._spans, corners),
            work=WorkArrow(words=words, places=partial(self._arrows, half, height)),
            foundation_stitches=(self.lower if self.upwards else self.side)[1],
            quantity=self.quantity,
            rows=partial(repeat, area.stitches, area.rows),
            patterned=(area,) if self.fabric.chart else (),
            whole=area,
        )

    @property
    def upwards(self) -> bool:
        """Whether it is worked upwards."""
        return self.side[2] is ROWS

    def _spans(self, corners: Sequence[Vertex]) -> Iterator[Span]:
        for i, (word, _, _) in enumerate((self.lower, self.side)):
            yield Span(key=f"{self.key}.{word}", vertices=corners[i : i + 2])

    def _arrows(self, half: float, height: float) -> Iterator[tuple[Vertex, Vertex]]:
        start, end = _BESIDE_MOTIF if self.fabric.chart else _ALL_ALONG
        if self.upwards:
            yield (0.0, height * start), (0.0, height * end)
        else:
            yield (half * (2 * start - 1), height / 2), (half * (2 * end - 1), height / 2)

    def _area(self, half: float, height: float) -> PatternedArea:
        """All of it, as its rows are worked."""
        place: Callable[[Points], Points]
        (_, stitches, _), (_, rows, _) = self.lower, self.side
        if self.upwards:
            place = Upright(fabric=self.fabric, left=-half, foot=0)
        else:
            place = Sideways(fabric=self.fabric, left=-half, top=height)
            stitches, rows = rows, stitches
        return PatternedArea(name=self.name, fabric=self.fabric, stitches=stitches, rows=rows, place=place)


def panel_and_bands(size: Size, parts: Parts, neck: Ring, arm: Ring) -> tuple[Piece, Piece, Piece]:
    """The pieces that are rectangles: centre panel, neck band, arm band.

    The panel is worked upwards from the hem, drawn with its outside up; bands are laid flat: length runs in
    their rows, depth in stitches, worked sideways.
    """
    around = "joined edge", "last row", "free edge", "first row"
    rectangles = (
        _Rectangle(
            name="centre panel",
            key="panel",
            fabric=parts.centre_panel,
            names=("lower", "right side", "top", "left side"),
            lower=("width", size.panel_stitches, STITCHES),
            side=("length", size.panel_rows, ROWS),
        ),
        _Rectangle(
            name="neck band",
            key="neck_band",
            fabric=parts.neck_band,
            names=around,
            lower=("length", neck.band_rows, ROWS),
            side=("depth", size.neck_band_stitches, STITCHES),
        ),
        _Rectangle(
            name="arm band",
            key="arm_band",
            fabric=parts.arm_bands,
            names=around,
            lower=("length", arm.band_rows, ROWS),
            side=("depth", size.arm_band_stitches, STITCHES),
            quantity=2,
        ),
    )
    corners = [each.corners for each in rectangles]
    panel, neck_band, arm_band = map(_Rectangle.piece, rectangles, corners, polygons(corners))
    return _tapered(panel, size), neck_band, arm_band


def _tapered(panel: Piece, size: Size) -> Piece:
    """The panel as its chart gains and loses stitches.

    It has straight slopes over its set-up, its repeats and its closing, half of what each adds on a side.
    Closed form: see `tests/garment/constructions/test_taper.py`.
    """
    fabric = panel.fabric
    if fabric.chart is None or not any(fabric.chart.adds):
        return panel
    slopes = _slopes(size, fabric, fabric.chart)
    left, right = [(-half, height) for half, height in reversed(slopes)], slopes
    corners = [left[-1], right[0], right[-1], left[0]]
    side_cm = sum(math.dist(*each) for each in pairwise(right))
    lower, right_side, top, left_side = panel.edges
    stitches = panel_top(size, fabric)
    top = edge_of(top.name, corners[2:], stitches, STITCHES, fabric, partial=True)
    return replace(
        panel,
        outline=polygon([*left[-1:], *right, *left]),
        edges=(
            lower,
            replace(right_side, vertices=right, length_cm=side_cm),
            top,
            replace(left_side, vertices=left, length_cm=side_cm),
        ),
        measured=partial(_tapered_spans, lower, top, slopes),
        rows=partial(_chart_rows, size, fabric, fabric.chart),
    )


def _chart_rows(size: Size, fabric: Fabric, chart: Chart) -> Sequence[int]:
    """Stitches of each row of a panel by its chart; as at the foot where that does not come out even."""
    level = [size.panel_stitches] * size.panel_rows
    try:
        counts = row_counts(chart, size.panel_stitches, fabric.row_rule.repeats(size.panel_rows))
    except ChartFaultError:
        return level
    return [*counts, *level[len(counts) :]]


def _tapered_spans(lower: Edge, top: Edge, slopes: Sequence[Vertex]) -> Iterator[Span]:
    yield Span(key="panel.width", vertices=lower.vertices)
    yield Span(key="panel.length", vertices=_upright(slopes))
    yield Span(key="panel.top", vertices=top.vertices)


def _upright(slopes: Sequence[Vertex]) -> list[Vertex]:
    """The height of a panel, at its widest."""
    widest = max(half for half, _ in slopes)
    return [(widest, 0.0), (widest, slopes[-1][1])]


def panel_top(size: Size, fabric: Fabric) -> int:
    """Stitches at the top of the panel."""
    if fabric.chart is None:
        return size.panel_stitches
    return fabric.chart.top(size.panel_stitches, fabric.row_rule.repeats(size.panel_rows))


def _slopes(size: Size, fabric: Fabric, chart: Chart) -> list[Vertex]:
    """Half the width and the height at the foot and after set-up, repeats and closing of a panel, in cm."""
    rule, rows = fabric.row_rule, size.panel_rows
    repeats, (setup, repeat, closing) = rule.repeats(rows), chart.adds
    stitches, ends = size.panel_stitches, [(size.panel_stitches, 0)]
    for added, up_to in (
        (setup, rule.setup), (repeat * repeats, rows - rule.closing), (closing, rows),
    ):  # fmt: skip
        stitches += added
        if up_to > ends[-1][1]:
            ends.append((stitches, up_to))
    return [(fabric.length_cm(wide, STITCHES) / 2, fabric.length_cm(high, ROWS)) for wide, high in ends]


def half_panel(panel: Piece, corner: Vertex, along: Vertex, into: Vertex) -> tuple[Vertex, Vertex, Vertex]:
    """The top and foot of a panel's middle laid flat beside its seam, and the seam's lower end.

    A panel that tapers is taken as a trapezoid, whose sides are straight.

    Args:
        panel: the panel.
        corner: the seam's upper end.
        along: the seam's direction downwards, of length 1.
        into: that of the panel, square to the seam, of length 1.
    """
    top, foot, length = (
        panel.edge("top").length_cm / 2, panel.edge("lower").length_cm / 2, panel.outline.bounds[3],
    )  # fmt: skip
    side = math.hypot(foot - top, length)
    sine, cosine = (foot - top) / side, length / side

    def moved(start: Vertex, across: float, down: float) -> Vertex:
        return (
            start[0] + across * into[0] + down * along[0],
            start[1] + across * into[1] + down * along[1],
        )

    middle = moved(corner, top * cosine, -top * sine)
    return middle, moved(middle, length * sine, length * cosine), moved(corner, 0.0, side)


def seam_pair(
    letters: str, first: tuple[Piece, Edge], second: Piece, edges: tuple[Edge, Edge]
) -> tuple[Seam, Seam]:
    """An edge of the first piece to one of the second on either side, first on the wearer's right."""
    piece, edge = first
    one, other = (
        Seam(
            letter=letter,
            first_piece=piece.name,
            first=edge,
            second_piece=second.name,
            second=joined,
            left=left,
        )
        for letter, joined, left in zip(letters, edges, (False, True), strict=True)
    )
    return one, other


def front_seams(body: Piece, panel: Piece) -> tuple[Seam, Seam]:
    """Both front edges of the body to the panel's sides, A on the wearer's right.

    The panel is drawn with its outside up, so the wearer's right is on its left.
    """
    sides = panel.edge("left side"), panel.edge("right side")
    return seam_pair("AB", (body, body.edge("front")), panel, sides)


def counts_of(size: Size) -> dict[str, Any]:
    """Every count and setting of a size by its name in a spec, such as ``body.neck``."""
    return {
        **{f"body.{key}": value for key, value in vars(size.body).items()},
        **{f"arms.{key}": value for key, value in vars(size.arms).items()},
        "panel.stitches": size.panel_stitches,
        "panel.rows": size.panel_rows,
        "neck_band.stitches": size.neck_band_stitches,
        "arm_bands.stitches": size.arm_band_stitches,
    }


def walks_on(
    back: Polygon,
    front: Polygon,
    middle: Vertex,
    fold: tuple[Vertex, Vertex],
    panel_middle: tuple[Vertex, Vertex],
) -> tuple[Walk, ...]:
    """The three walks; none if fabric, laid flat, overlaps itself and so is no polygon.

    Args:
        back: fabric from the centre back to the arm run.
        front: fabric from the arm run to the panel's middle.
        middle: the middle of the arm run.
        fold: the ends of the centre back, nape first.
        panel_middle: the ends of the middle of the panel.
    """
    if not (back.is_valid and front.is_valid):
        return ()
    nape, arm = shapely.points([fold[0], middle])
    to_back, to_panel = shapely.linestrings([fold, panel_middle])
    return (
        Walk(name=WalkName.REACH, domain=back, start=nape, goal=arm),
        Walk(name=WalkName.ACROSS_BACK, domain=back, start=arm, goal=to_back),
        Walk(name=WalkName.ACROSS_FRONT, domain=front, start=arm, goal=to_panel),
    )
