"""The parts all constructions share: panel and bands."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any, TypeAlias, cast

import numpy as np
import shapely
from numpy.typing import NDArray
from pydantic import BaseModel, ConfigDict, Field
from shapely import LineString, Point, Polygon

from schematics.crochet.fabric import Counted, Fabric
from schematics.design.design import Parts, Size
from schematics.garment.garment import Edge, Piece, Ring, Seam, Span, Vertices, Walk, WalkName, WorkArrow
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


_ALL_ALONG, _BESIDE_MOTIF = (0.2, 0.8), (0.03, 0.25)
"""Where along a piece an arrow shows the direction of work; where there is a motif, it leaves it room."""

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
    start, end = _BESIDE_MOTIF if fabric.chart else _ALL_ALONG
    place: Callable[[Points], Points]
    corners = [(-half, 0.0), (half, 0.0), (half, height), (-half, height), (-half, 0.0)]
    edges = tuple(
        edge_of(each, corners[i : i + 2], *(lower, side)[i % 2][1:], fabric) for i, each in enumerate(names)
    )
    if high_kind is ROWS:
        way, words = ((0.0, height * start), (0.0, height * end)), "worked upwards"
        place, stitches, rows = Upright(fabric=fabric, left=-half, foot=0), wide, high
    else:
        way, words = (
            ((half * (2 * start - 1), height / 2), (half * (2 * end - 1), height / 2)),
            "worked sideways",
        )
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
    """The centre panel, worked upwards from the hem, drawn with its outside up."""
    sides = "lower", "right side", "top", "left side"
    width, length = ("width", size.panel_stitches, STITCHES), ("length", size.panel_rows, ROWS)
    return _rectangle("centre panel", "panel", fabric, sides, width, length)


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
