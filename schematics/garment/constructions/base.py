"""The parts all constructions share: panel and bands."""

from __future__ import annotations

from typing import Any, TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray
from pydantic import BaseModel, ConfigDict, Field
from shapely import Polygon

from schematics.crochet.fabric import Counted, Fabric
from schematics.design.design import Parts, Size
from schematics.garment.garment import Edge, Piece, Ring, Seam, Span, Vertices, Walk, WorkArrow

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
    made: Polygon = shapely.polygons(np.asarray(vertices))
    return made


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


def _rectangle(
    name: str,
    fabric: Fabric,
    sides: tuple[str, str, str, str],
    counts: tuple[tuple[int, Counted], tuple[int, Counted]],
    spans: tuple[tuple[str, int], ...],
    work: str,
    foundation_stitches: int,
    quantity: int = 1,
) -> Piece:
    """A rectangle with its lower edge on y = 0, centred on x = 0.

    ``sides`` names the edges from the lower one counter-clockwise, ``counts`` are those of the
    lower edge and of the side; ``spans`` are a finished key and the edge it is read on. Worked
    upwards when the side counts rows, otherwise from left to right.
    """
    (wide, wide_kind), (high, high_kind) = counts
    half, height = fabric.length_cm(wide, wide_kind) / 2, fabric.length_cm(high, high_kind)
    corners = [(-half, 0.0), (half, 0.0), (half, height), (-half, height), (-half, 0.0)]
    edges = tuple(edge_of(side, corners[i : i + 2], *counts[i % 2], fabric) for i, side in enumerate(sides))
    upwards = high_kind is ROWS
    return Piece(
        name=name,
        fabric=fabric,
        outline=polygon(corners),
        edges=edges,
        spans=tuple(Span(key=key, vertices=edges[at].vertices) for key, at in spans),
        work=WorkArrow(
            ways=(
                ((0, height * 0.2), (0, height * 0.8))
                if upwards
                else ((-half * 0.6, height / 2), (half * 0.6, height / 2)),
            ),
            words=work,
        ),
        foundation_stitches=foundation_stitches,
        quantity=quantity,
    )


def panel_piece(size: Size, fabric: Fabric) -> Piece:
    """The centre panel, worked upwards from the hem, drawn with its outside up."""
    return _rectangle(
        "centre panel",
        fabric,
        ("lower", "right side", "top", "left side"),
        ((size.panel_stitches, STITCHES), (size.panel_rows, ROWS)),
        (("panel.width", 0), ("panel.length", 1)),
        "worked upwards",
        size.panel_stitches,
    )


def band_piece(name: str, key: str, rows: int, stitches: int, fabric: Fabric, quantity: int) -> Piece:
    """A ribbed band laid flat: length runs in its rows, depth in its stitches, worked sideways."""
    return _rectangle(
        name,
        fabric,
        ("joined edge", "last row", "free edge", "first row"),
        ((rows, ROWS), (stitches, STITCHES)),
        ((f"{key}.length", 0), (f"{key}.depth", 1)),
        "worked sideways",
        stitches,
        quantity,
    )


def front_seams(body: Piece, panel: Piece) -> tuple[Seam, Seam]:
    """Both front edges of the body to the panel's sides, A on the wearer's right.

    The panel is drawn with its outside up, so the wearer's right is on its left.
    """

    def seam(letter: str, side: str, *, left: bool) -> Seam:
        return Seam(
            letter=letter,
            first_piece=body.name,
            first=body.edge("front"),
            second_piece=panel.name,
            second=panel.edge(side),
            left=left,
        )

    return seam("A", "left side", left=False), seam("B", "right side", left=True)


def band_pieces(size: Size, parts: Parts, neck: Ring, arm: Ring) -> tuple[Piece, Piece]:
    """Neck band and arm band, laid flat."""
    return (
        band_piece("neck band", "neck_band", neck.band_rows, size.neck_band_stitches, parts.neck_band, 1),
        band_piece("arm band", "arm_band", arm.band_rows, size.arm_band_stitches, parts.arm_bands, 2),
    )


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


def walks_on(*walks: Walk) -> tuple[Walk, ...]:
    """The walks; none if the fabric of one, laid flat, overlaps itself and so is no polygon."""
    domains = list({id(walk.domain): walk.domain for walk in walks}.values())
    return walks if shapely.is_valid(domains).all() else ()
