"""Flared: worked from the neck down with increases spread evenly; laid flat, a ring sector."""

from __future__ import annotations

import itertools
import math
from typing import Self

from pydantic import Field, model_validator
from shapely import LineString, Point, Polygon

from schematics.constructions.base import (
    ROWS,
    STITCHES,
    Construction,
    Counts,
    HemArms,
    HemRun,
    band_pieces,
    finished,
    front_seams,
    hem_arm_finished,
    hem_arm_ring,
    hem_share_run,
    neck_ring,
    panel_piece,
    shared_finished,
)
from schematics.design import Parts, Size
from schematics.fabric import Counted, Fabric
from schematics.garment import ArmRun, Edge, Garment, IncreasePlan, Piece, Span, Walk, WalkName, WorkArrow
from schematics.spacing import even_shares

_STEP = 0.02
"""Largest angle between two vertices of an arc, in radians: its length falls 2e-5 short."""


class FlaredBody(Counts):
    """Counts of a flared body over its whole width, from one front edge to the other."""

    neck: int = Field(ge=2, description="stitches of the first row, at the neck")
    hem: int = Field(ge=2, description="stitches of the last row, at the hem")
    rows: int = Field(ge=1, description="rows from neck to hem")
    increase_every: int = Field(default=1, ge=1, description="increase on every how many rows, from row 2 on")

    @model_validator(mode="after")
    def _flares(self) -> Self:
        if self.hem < self.neck:
            raise ValueError(
                f"the hem ({self.hem}) has fewer stitches than the neck ({self.neck}); "
                "a flared body grows from the neck down"
            )
        return self


def increase_plan(neck: int, hem: int, rows: int, every: int) -> IncreasePlan:
    """The increases on rows 2, 2 + ``every``, ..., shared evenly; they add up to ``hem - neck``.

    With one row only there is no row to increase on, and the plan is empty.
    """
    at = range(2, rows + 1, every)
    shares = even_shares(hem - neck, len(at)) if at else ()
    return IncreasePlan(start=neck, rows=tuple(zip(at, shares, strict=True)))


class _Sector:
    """A ring sector about the fold, origin at the neck's centre back, fold along x = 0 downwards.

    Angles are measured from the fold; ``at(radial, angle)`` is the point ``radial`` cm below the
    neck edge. An opening angle of nought is a rectangle, where ``angle`` stands for cm along the neck.
    """

    def __init__(self, neck_cm: float, hem_cm: float, depth_cm: float) -> None:
        self.depth = depth_cm
        self.neck_cm, self.hem_cm = neck_cm, hem_cm
        self.opening = (hem_cm - neck_cm) / depth_cm
        self.flat = math.isclose(neck_cm, hem_cm, rel_tol=1e-12)
        self.inner = math.inf if self.flat else neck_cm / self.opening

    def at(self, radial: float, share: float) -> tuple[float, float]:
        """The point ``radial`` cm from the neck edge and ``share`` of the half body from the fold."""
        if self.flat:
            return share * self.neck_cm / 2, -radial
        angle = share * self.opening / 2
        radius = self.inner + radial
        return radius * math.sin(angle), self.inner - radius * math.cos(angle)

    def arc(
        self, radial: float, start: float, end: float, through: tuple[float, ...] = ()
    ) -> list[tuple[float, float]]:
        """Vertices along the arc from share ``start`` to share ``end``, with ``through`` among them."""
        knots = sorted(
            {start, end, *(share for share in through if min(start, end) < share < max(start, end))}
        )
        shares = [knots[0]]
        for low, high in itertools.pairwise(knots):
            angle = 0.0 if self.flat else (high - low) * self.opening / 2
            pieces = max(1, math.ceil(angle / _STEP))
            shares += [low + (high - low) * i / pieces for i in range(1, pieces + 1)]
        if start > end:
            shares.reverse()
        return [self.at(radial, share) for share in shares]


def build(size: Size, parts: Parts) -> Garment:
    """One flared size. Closed forms: see `tests/constructions/test_flared.py`."""
    counts: FlaredBody = size.body
    arms: HemArms = size.arms
    fabric = parts.body
    sector = _Sector(
        fabric.length_cm(counts.neck, STITCHES),
        fabric.length_cm(counts.hem, STITCHES),
        fabric.length_cm(counts.rows, ROWS),
    )
    run = hem_share_run(counts.hem, arms)
    body = _body_piece(counts, fabric, sector, run)
    panel = panel_piece(size, parts.centre_panel)
    arm = ArmRun(
        edge=body.edge("hem"),
        first=arms.from_front + 1,
        last=arms.from_front + arms.stitches,
        path=LineString(sector.arc(sector.depth, run.start, run.end, run.knots)) if run.on_edge else None,
        middle=Point(sector.at(sector.depth, run.middle)) if 0 < run.middle < 1 else None,
        ring=hem_arm_ring(size, parts, arms),
    )
    neck = neck_ring(size, parts, counts.neck, sector.neck_cm, fabric.full_length_cm(counts.neck, STITCHES))
    return Garment(
        construction="flared",
        pieces=(body, panel, *band_pieces(size, parts, neck, arm.ring)),
        seams=front_seams(body, panel),
        neck=neck,
        arm=arm,
        drop_cm=sector.depth,
        increases=increase_plan(counts.neck, counts.hem, counts.rows, counts.increase_every),
        opening_angle=sector.opening,
        walks=_walks(sector, run, panel) if 0 < run.middle < 1 else (),
        finished=(
            finished("body.neck", "body neck edge", counts.neck, STITCHES, fabric),
            finished("body.hem", "body hem edge", counts.hem, STITCHES, fabric),
            finished("body.depth", "body depth, neck to hem", counts.rows, ROWS, fabric),
            *hem_arm_finished(arms, arm, fabric),
            *shared_finished(size, parts, neck, arm.ring),
        ),
    )


def _body_piece(counts: FlaredBody, fabric: Fabric, sector: _Sector, run: HemRun) -> Piece:
    neck_path = sector.arc(0, 1, 0)
    hem_path = sector.arc(sector.depth, 0, 1, run.knots)

    def edge(name: str, path: list[tuple[float, float]], count: int, counted: Counted) -> Edge:
        return Edge(
            name=name,
            path=LineString(path),
            length_cm=fabric.length_cm(count, counted),
            count=count,
            counted=counted,
            fabric=fabric,
            crosses_fold=counted is STITCHES,
        )

    return Piece(
        name="body",
        fabric=fabric,
        outline=Polygon([*hem_path, *neck_path]),
        edges=(
            edge("neck", neck_path, counts.neck, STITCHES),
            edge("hem", hem_path, counts.hem, STITCHES),
            edge("front", [hem_path[-1], neck_path[0]], counts.rows, ROWS),
        ),
        spans=_spans(sector, run),
        work=WorkArrow(
            start=sector.at(sector.depth * 0.15, 0.5),
            end=sector.at(sector.depth * 0.75, 0.5),
            words="worked from the neck down",
        ),
        foundation_stitches=counts.neck,
        on_fold=True,
    )


def _walks(sector: _Sector, run: HemRun, panel: Piece) -> tuple[Walk, ...]:
    """The three walks, each on the part of the half body it can run through.

    A way from one radius to another never leaves the angles between them: what did could be
    mirrored back. So a body of any opening angle below two full circles gives simple domains.
    """
    neck = Point(sector.at(0, 0))
    middle = Point(sector.at(sector.depth, run.middle))
    back = Polygon([*sector.arc(sector.depth, 0, run.middle), *sector.arc(0, run.middle, 0)])
    inner, outer = sector.at(0, 1), sector.at(sector.depth, 1)
    along = (outer[0] - inner[0]) / sector.depth, (outer[1] - inner[1]) / sector.depth
    half, length = panel.edge("top").length_cm / 2, panel.edge("left side").length_cm
    top = inner[0] - along[1] * half, inner[1] + along[0] * half
    foot = top[0] + along[0] * length, top[1] + along[1] * length
    seam_end = inner[0] + along[0] * length, inner[1] + along[1] * length
    joined = [
        *sector.arc(sector.depth, run.middle, 1),
        *([] if math.isclose(length, sector.depth) else [seam_end]),
    ]
    front = Polygon([*joined, foot, top, *sector.arc(0, 1, run.middle)])
    return (
        Walk(name=WalkName.REACH, domain=back, start=neck, goal=middle),
        Walk(
            name=WalkName.ACROSS_BACK,
            domain=back,
            start=middle,
            goal=LineString([sector.at(0, 0), sector.at(sector.depth, 0)]),
        ),
        Walk(name=WalkName.ACROSS_FRONT, domain=front, start=middle, goal=LineString([top, foot])),
    )


def _spans(sector: _Sector, run: HemRun) -> tuple[Span, ...]:
    centre = None if sector.flat else (0.0, sector.inner)

    def along_hem(key: str, start: float, end: float, *, crosses_fold: bool = False) -> Span:
        path = LineString(sector.arc(sector.depth, start, end))
        return Span(key=key, path=path, centre=centre, crosses_fold=crosses_fold)

    def whole_edge(key: str, radial: float, start: float, end: float) -> Span:
        path = LineString(sector.arc(radial, start, end))
        return Span(key=key, path=path, centre=centre, crosses_fold=True, whole_edge=True)

    runs = (
        (
            along_hem("arm.back", 0, run.start, crosses_fold=True),
            along_hem("arm.run", run.start, run.end),
            along_hem("arm.from_front", run.end, 1),
        )
        if 0 < run.start < run.end < 1
        else ()
    )
    return (
        *runs,
        Span(key="body.depth", path=LineString([sector.at(sector.depth, 1), sector.at(0, 1)])),
        whole_edge("body.neck", 0, 1, 0),
        whole_edge("body.hem", sector.depth, 0, 1),
    )


FLARED = Construction(
    word="flared",
    summary="worked from the neck down, increases spread evenly",
    body_counts=FlaredBody,
    arm_counts=HemArms,
    build=build,
)
