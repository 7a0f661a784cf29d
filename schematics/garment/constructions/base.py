"""The parts all constructions share: panel and bands."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from typing import Any, TypeAlias, cast

import numpy as np
import shapely
from numpy.typing import NDArray
from pydantic import BaseModel, ConfigDict, Field
from shapely import LineString, Point, Polygon

from schematics.crochet.charts.chart import Chart
from schematics.crochet.fabric import Counted, Fabric
from schematics.design.design import Parts, Size
from schematics.garment.garment import (
    Edge,
    Piece,
    Ring,
    Seam,
    Span,
    Vertex,
    Vertices,
    Walk,
    WalkName,
    WorkArrow,
)
from schematics.garment.patterned_area import PatternedArea, Points, Sideways, Upright

STITCHES, ROWS = Counted.STITCHES, Counted.ROWS

Array: TypeAlias = NDArray[np.float64]
"""Points in order, shaped (points, 2), in cm."""


class Counts(BaseModel):
    """Base of the count models a spec's ``body:`` and ``arms:`` blocks are read into."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)


class HemArms(Counts):
    """Arm bands worked onto the hem: where the run starts and how long it is."""

    from_front: int = Field(ge=0, description="hem stitches between the front seam and the arm run")
    stitches: int = Field(ge=2, description="hem stitches in one arm run")


def polygon(vertices: Vertices) -> Polygon:
    """The polygon of those corners."""
    return cast("Polygon", shapely.polygons(np.asarray(vertices)))


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


_Side: TypeAlias = tuple[str, int, Counted]
"""What a side of a rectangle measures, such as ``width``, and its count."""


def _rectangle(
    name: str, key: str, fabric: Fabric, names: tuple[str, str, str, str], lower: _Side, side: _Side
) -> Piece:
    """A rectangle with its lower edge on y = 0, centred on x = 0.

    ``names`` are the edges' from the lower one counter-clockwise, ``key`` is that of the finished
    measurements. Worked upwards when the side counts rows, otherwise from left to right.
    """
    (across, wide, wide_kind), (up, high, high_kind) = lower, side
    half, height = fabric.length_cm(wide, wide_kind) / 2, fabric.length_cm(high, high_kind)
    place: Callable[[Points], Points]
    corners = [(-half, 0.0), (half, 0.0), (half, height), (-half, height), (-half, 0.0)]
    edges = tuple(
        edge_of(each, corners[i : i + 2], *(lower, side)[i % 2][1:], fabric) for i, each in enumerate(names)
    )
    if high_kind is ROWS:
        way, words = ((0.0, height * 0.2), (0.0, height * 0.8)), "worked upwards"
        place, stitches, rows = Upright(fabric=fabric, left=-half, foot=0), wide, high
    else:
        way, words = ((-half * 0.6, height / 2), (half * 0.6, height / 2)), "worked sideways"
        place, stitches, rows = Sideways(fabric=fabric, left=-half, top=height), high, wide
    area = PatternedArea(name=name, fabric=fabric, stitches=stitches, rows=rows, place=place)
    return Piece(
        name=name,
        fabric=fabric,
        outline=polygon(corners),
        edges=edges,
        spans=tuple(
            Span(key=f"{key}.{word}", vertices=edges[i].vertices) for i, word in enumerate((across, up))
        ),
        work=WorkArrow(ways=(way,), words=words),
        foundation_stitches=stitches,
        patterned=(area,) if fabric.chart else (),
    )


def panel_piece(size: Size, fabric: Fabric) -> Piece:
    """The centre panel, worked upwards from the hem, drawn with its outside up.

    One that tapers has straight slopes over its set-up, its repeats and its closing, half of what each
    adds on either side. Closed form: see `tests/garment/constructions/test_taper.py`.
    """
    names = "lower", "right side", "top", "left side"
    width, length = ("width", size.panel_stitches, STITCHES), ("length", size.panel_rows, ROWS)
    whole = _rectangle("centre panel", "panel", fabric, names, width, length)
    if fabric.chart is None or not any(fabric.chart.adds):
        return whole
    slopes = _slopes(size, fabric, fabric.chart)
    right = [(half, height) for half, height in slopes]
    left = [(-half, height) for half, height in reversed(slopes)]
    corners = [left[-1], right[0], right[-1], left[0]]
    sides = [
        edge_of(each, path, size.panel_rows, ROWS, fabric)
        for each, path in ((names[1], right), (names[3], left))
    ]
    side_cm = sum(math.dist(*each) for each in pairwise(right))
    stitches = panel_top(size, fabric)
    widest, height = max(half for half, _ in slopes), slopes[-1][1]
    return replace(
        whole,
        outline=polygon([*left[-1:], *right, *left]),
        edges=(
            edge_of(names[0], corners[:2], size.panel_stitches, STITCHES, fabric),
            replace(sides[0], length_cm=side_cm),
            edge_of(names[2], corners[2:], stitches, STITCHES, fabric, partial=True),
            replace(sides[1], length_cm=side_cm),
        ),
        spans=(
            Span(key="panel.width", vertices=corners[:2]),
            Span(key="panel.length", vertices=((widest, 0.0), (widest, height))),
            Span(key="panel.top", vertices=corners[2:]),
        ),
    )


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


def band_pieces(size: Size, parts: Parts, neck: Ring, arm: Ring) -> tuple[Piece, Piece]:
    """Neck band and arm band laid flat: length runs in their rows, depth in stitches, worked sideways."""

    def band(name: str, key: str, ring: Ring, stitches: int, fabric: Fabric) -> Piece:
        sides = "joined edge", "last row", "free edge", "first row"
        length, depth = ("length", ring.band_rows, ROWS), ("depth", stitches, STITCHES)
        return _rectangle(name, key, fabric, sides, length, depth)

    arm_band = band("arm band", "arm_band", arm, size.arm_band_stitches, parts.arm_bands)
    return (
        band("neck band", "neck_band", neck, size.neck_band_stitches, parts.neck_band),
        replace(arm_band, quantity=2),
    )


def seam_pair(
    letters: str, first: tuple[Piece, Edge], second: Piece, edges: tuple[Edge, Edge]
) -> tuple[Seam, Seam]:
    """An edge of the first piece to one of the second on either side, first on the wearer's right."""
    piece, edge = first
    seam = Seam(
        letter=letters[0], first_piece=piece.name, first=edge, second_piece=second.name, second=edges[0]
    )
    return seam, replace(seam, letter=letters[1], second=edges[1], left=True)


def front_seams(body: Piece, panel: Piece) -> tuple[Seam, Seam]:
    """Both front edges of the body to the panel's sides, A on the wearer's right.

    The panel is drawn with its outside up, so the wearer's right is on its left.
    """
    sides = panel.edge("left side"), panel.edge("right side")
    return seam_pair("AB", (body, body.edge("front")), panel, sides)


def counts_of(size: Size) -> dict[str, Any]:
    """Every count and setting of a size by its name in a spec, such as ``body.neck``."""
    blocks = {"body": size.body, "arms": size.arms}
    return {
        **{f"{block}.{key}": value for block, values in blocks.items() for key, value in values},
        "panel.stitches": size.panel_stitches,
        "panel.rows": size.panel_rows,
        "neck_band.stitches": size.neck_band_stitches,
        "arm_bands.stitches": size.arm_band_stitches,
    }


def walks_on(
    back: Polygon, front: Polygon, middle: Point, fold: LineString, panel_middle: LineString
) -> tuple[Walk, ...]:
    """The three walks; none if fabric, laid flat, overlaps itself and so is no polygon.

    Args:
        back: fabric from the centre back to the arm run.
        front: fabric from the arm run to the panel's middle.
        middle: the middle of the arm run.
        fold: the centre back, nape first.
        panel_middle: the middle of the panel.
    """
    if not shapely.is_valid([back, front]).all():
        return ()
    return (
        Walk(name=WalkName.REACH, domain=back, start=shapely.get_point(fold, 0), goal=middle),
        Walk(name=WalkName.ACROSS_BACK, domain=back, start=middle, goal=fold),
        Walk(name=WalkName.ACROSS_FRONT, domain=front, start=middle, goal=panel_middle),
    )
