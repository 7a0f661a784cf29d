"""The garment of a body worked from the neck down, from its shape; arm bands are on the hem.

A body whose increases end above the hem goes on as a tube. No flat outline is exact for that: a flare
laid flat is a ring sector, whose lower edge would have to run on straight down. It is drawn as the
straight taper, of which neck edge, hem and front edges are exactly true; girths, paths on the fabric and
area are those of the schedule.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Annotated, Any, TypeAlias

import numpy as np
from pydantic import Field, ValidationInfo

from schematics.crochet.fabric import Fabric
from schematics.design.design import Parts, Size
from schematics.garment.amounts import Numbers
from schematics.garment.constructions.base import (
    ROWS,
    STITCHES,
    Array,
    HemArms,
    counts_of,
    edge_of,
    front_seams,
    half_panel,
    panel_and_bands,
    polygon,
    walks_on,
)
from schematics.garment.constructions.demands import TWO_CIRCLES
from schematics.garment.constructions.formulas import Formulas
from schematics.garment.constructions.neck_down.rows_on_shape import RowsOnShape
from schematics.garment.constructions.neck_down.shape import Shape
from schematics.garment.garment import (
    ArmRun,
    ArmsOn,
    Crease,
    Garment,
    Increase,
    NeckStart,
    Piece,
    PieceLine,
    Span,
    Vertex,
    WorkArrow,
)
from schematics.garment.increase_rows import increase_row
from schematics.garment.increases import IncreasePlan
from schematics.garment.patterned_area import PatternedArea
from schematics.garment.walks import Walk

_OFF_TAPER = 0.03
"""The last increase row is drawn where some row has over this share of stitches more than the taper."""

_WORK_SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
"""Where across the half an arrow may show the direction of work, best first."""


def rows_to_increase_on(rows: int, every: float, until: int | None = None) -> tuple[int, ...]:
    """Rows 2, 2 + ``every``, ... down to row ``until``, or to the last row; halves are rounded down.

    >>> rows_to_increase_on(9, 1.5)  # two rows of every three
    (2, 3, 5, 6, 8, 9)
    """
    turns = math.ceil(((until or rows) - 1) / every)
    return tuple(2 + math.floor(turn * every) for turn in range(turns))


NeckStitches: TypeAlias = Annotated[int, Field(ge=2, description="stitches of the first row, at the neck")]
LastIncreaseRow: TypeAlias = Annotated[
    int | None, Field(ge=2, description="last row with increases; down to the hem if left out")
]


def checked_last_row(until: int | None, info: ValidationInfo) -> int | None:
    """The last increase row, held against ``rows`` and ``increase_every``.

    Raises:
        ValueError: there is no such row, or it is no increase row.
    """
    rows, every = info.data.get("rows"), info.data.get("increase_every")
    if until is None or rows is None or every is None:
        return until
    if until > rows:
        body = f"the body has {rows} row{'' if rows == 1 else 's'}"
        raise ValueError(f"the last row with increases, {until}, would be below the hem: {body}")
    due = rows_to_increase_on(rows, every)
    if until not in due:
        above = max(row for row in due if row < until)
        below = [row for row in due if row > until]
        nearest = " or ".join(map(str, (above, *below[:1])))
        raise ValueError(
            f"row {until} is no increase row: increases are on row 2 and every {every} rows after it, "
            f"so make it {nearest}"
        )
    return until


def widened_rows(rows: Numbers, every: Numbers, until: Numbers) -> Numbers:
    """The rows over which a body widens whose last increase row is ``until``; of one body or of columns.

    That row counts to the middle of the rows that would go by to the next one.
    """
    return np.minimum(rows, until - 1 + every / 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ending:
    """Where the increases of a body end: their last row, and the depth to which the body widens, in rows."""

    last_row: int
    widens_rows: float


def ending_of(body: Any) -> Ending | None:
    """The ending of a body of these counts; None where increases go on to the hem as a matter of course."""
    until = getattr(body, "increase_until", None)
    if until is None:
        return None
    return Ending(last_row=until, widens_rows=float(widened_rows(body.rows, body.increase_every, until)))


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyPlan:
    """A body worked from the neck down: its shape and its counts over the whole width.

    ``shape`` is drawn. Where the increases have an ``ending``, ``flare`` is the shape that the body would
    have if they went on to the hem; paths on the fabric run on it.
    """

    shape: Shape
    neck: int
    hem: int
    rows: int
    increases: IncreasePlan
    work: str
    ending: Ending | None = None
    flare: Shape | None = None
    borders: tuple[PatternedArea, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class HemRun:
    """An arm run on the right half of a hem, in shares of the half hem: 0 at the fold, 1 at the front.

    ``start`` to ``end`` is the part of the run on this half; ``middle`` may lie outside it.
    """

    start: float
    end: float
    middle: float

    @property
    def on_edge(self) -> bool:
        """Whether any of the run lies on this half."""
        return self.start < self.end

    @property
    def knots(self) -> tuple[float, ...]:
        """The shares at which an outline needs a vertex."""
        return tuple(share for share in (self.start, self.middle, self.end) if 0 <= share <= 1)


def hem_share_run(hem: int, arms: HemArms) -> HemRun:
    """Where the right arm run lies on a hem of ``hem`` stitches."""
    first, middle, last = (1 - 2 * (arms.from_front + part * arms.stitches) / hem for part in (0, 0.5, 1))
    return HemRun(start=min(1.0, max(0.0, last)), end=min(1.0, max(0.0, first)), middle=middle)


def neck_down_garment(
    construction: str, size: Size, parts: Parts, plan: BodyPlan, formulas: Formulas
) -> Garment:
    """The garment of one size, from the plan of its body."""
    arms: HemArms = size.arms
    counts = counts_of(size)
    fabric, shape, flare = parts.body, plan.shape, plan.flare or plan.shape
    run = hem_share_run(plan.hem, arms)
    body = _body_piece(plan, fabric, run)
    arm = ArmRun(
        on=ArmsOn.HEM,
        edge=body.edge("hem"),
        first=arms.from_front + 1,
        last=arms.from_front + arms.stitches,
        line=PieceLine(vertices=partial(shape.hem, run.start, run.end, run.knots)) if run.on_edge else None,
        middle=shape.hem_at(run.middle) if 0 < run.middle < 1 else None,
        ring=formulas.arm.ring(counts),
    )
    neck = formulas.neck.ring(counts)
    panel, *bands = panel_and_bands(size, parts, neck, arm.ring)
    return Garment(
        construction=construction,
        pieces=(body, panel, *bands),
        seams=front_seams(body, panel),
        neck=neck,
        neck_start=NeckStart(
            stitch=plan.neck // 2 + 1, counted="along the body's neck edge from the wearer's right"
        ),
        arm=arm,
        drop_cm=float(formulas.drop.at(counts)),
        longest_drop_cm=float(formulas.longest_drop.at(counts)),
        increases=plan.increases,
        opening_angle=flare.opening,
        walks=_walks(flare, run, panel) if 0 < run.middle < 1 and flare.opening <= TWO_CIRCLES else (),
        finished=formulas.finished(counts),
        girths=formulas.girth_points(counts),
        side_fold=(shape.neck_at(0.5), shape.hem_at(0.5)),
    )


def _body_piece(plan: BodyPlan, fabric: Fabric, run: HemRun) -> Piece:
    shape = plan.shape
    neck, hem = shape.neck(0, 1)[::-1], shape.hem(0, 1, run.knots)
    neck_edge = edge_of("neck", neck, plan.neck, STITCHES, fabric, crosses_fold=True)
    hem_edge = edge_of("hem", hem, plan.hem, STITCHES, fabric, crosses_fold=True)
    lines = (Crease(name="increase line", vertices=line) for line in shape.lines)
    last_row = _last_increase_row(plan)
    stitches = sum(plan.increases.row_stitches(plan.rows)) if plan.ending else None
    return Piece(
        name="body",
        fabric=fabric,
        outline=polygon(np.concatenate([hem, neck])),
        edges=(neck_edge, hem_edge, edge_of("front", np.array([hem[-1], neck[0]]), plan.rows, ROWS, fabric)),
        measured=partial(_spans, shape, run, neck, hem),
        work=WorkArrow(places=partial(_arrows, plan, clear_of=last_row), words=plan.work),
        foundation_stitches=plan.neck,
        on_fold=True,
        creases=(*lines, *last_row),
        patterned=plan.borders,
        shaped=partial(_spread_increases, plan),
        rows=partial(plan.increases.row_stitches, plan.rows),
        worked_cm2=stitches and fabric.length_cm(stitches, STITCHES) * fabric.length_cm(1, ROWS),
    )


def _spread_increases(plan: BodyPlan) -> Iterator[Increase]:
    """Where each increase is worked, of a plan that spreads them along its rows.

    Seen on the right side with the neck up, odd rows run from the left to the right, the others back.
    """
    increases = plan.increases
    if increases.lines:
        return
    turn = 0
    for row, added, before in increases.running():
        if not added:
            continue
        spread = increase_row(increases, turn, row, added, before)
        turn += 1
        if spread is None:
            continue
        worked_into = np.array(spread.stitches)
        feet = (worked_into - 0.5) / before
        heads = (worked_into + np.arange(added)) / (before + added)
        ends = (
            _on_half(plan.shape, each if row % 2 == 0 else 1 - each, down / plan.rows)
            for each, down in ((feet, row - 1), (heads, row))
        )
        for (foot, _), (head, left) in zip(*ends, strict=True):
            yield Increase(row=row, foot=foot, head=head, left=left)


def _on_half(shape: Shape, shares: Array, down: float) -> Iterator[tuple[Vertex, bool]]:
    """Points of a row on the right half, and whether their mirror images on the left are meant.

    Shares of the row are counted from the right; it is ``down`` from the neck, 0, to the hem, 1.
    """
    place = RowsOnShape(shape=shape, stitches=1, first_row=1, rows=1)
    placed = place(np.column_stack([0.5 - np.abs(0.5 - shares), np.full(len(shares), down)]))
    yield from (((float(x), float(y)), bool(left)) for (x, y), left in zip(placed, shares > 0.5, strict=True))


def _last_increase_row(plan: BodyPlan) -> tuple[Crease, ...]:
    """The last increase row as it lies on the taper, where the body is visibly wider than the taper.

    It is so most where it stops to widen.
    """
    ending, shape = plan.ending, plan.shape
    if ending is None or ending.last_row == plan.rows:
        return ()
    taper = plan.neck + (plan.hem - plan.neck) * ending.widens_rows / plan.rows
    if plan.hem <= taper * (1 + _OFF_TAPER):
        return ()
    path = partial(_between_edges, shape, ending.last_row / plan.rows)
    return (Crease(name="last increase row", vertices=path, along_row=True),)


def _between_edges(shape: Shape, share: float) -> Array:
    """The line that lies that far down from the neck edge to the hem."""
    hem, neck = shape.strip(0, 1)
    return neck + (hem - neck) * share


def _arrows(plan: BodyPlan, clear_of: Sequence[Crease]) -> Iterator[tuple[Vertex, Vertex]]:
    """Most of the path from neck to hem, or of its part above or below a row, at the shares for an arrow."""
    row = plan.ending.last_row / plan.rows if plan.ending and clear_of else 1.0
    low, high = (0.0, row) if row >= 0.5 else (row, 1.0)
    start, end = (low + (high - low) * at for at in (0.15, 0.75))
    for share in _WORK_SHARES:
        (x0, y0), (x1, y1) = plan.shape.neck_at(share), plan.shape.hem_at(share)
        yield ((x0 + (x1 - x0) * start, y0 + (y1 - y0) * start), (x0 + (x1 - x0) * end, y0 + (y1 - y0) * end))


def _spans(shape: Shape, run: HemRun, neck: Array, hem: Array) -> tuple[Span, ...]:
    def along_hem(key: str, start: float, end: float, *, crosses_fold: bool = False) -> Span:
        vertices = partial(shape.hem, start, end, run.knots)
        return Span(key=key, vertices=vertices, centre=shape.centre, crosses_fold=crosses_fold)

    def whole_edge(key: str, vertices: Array) -> Span:
        return Span(key=key, vertices=vertices, centre=shape.centre, crosses_fold=True, whole_edge=True)

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
        Span(key="body.depth", vertices=(shape.hem_at(1), shape.neck_at(1))),
        whole_edge("body.neck", neck),
        whole_edge("body.hem", hem),
    )


def _walks(shape: Shape, run: HemRun, panel: Piece) -> tuple[Walk, ...]:
    """The three walks, each on the part of the half body it can run through.

    The straight line from the middle of the arm run up to the neck cuts the half in two. A path that
    crossed it would have to come back, and along the line is shorter. A path across the fold can be
    mirrored back.
    """
    hem, neck = shape.strip(0, run.middle)
    back = polygon(np.concatenate([hem, neck[::-1]]))
    inner, outer = shape.neck_at(1), shape.hem_at(1)
    along = (outer[0] - inner[0]) / shape.depth, (outer[1] - inner[1]) / shape.depth
    top, foot, seam_end = half_panel(panel, inner, along, (-along[1], along[0]))
    level = math.isclose(math.dist(inner, seam_end), shape.depth)
    panel_side = [foot, top] if level else [seam_end, foot, top]
    hem, neck = shape.strip(run.middle, 1)
    front = polygon(np.concatenate([hem, panel_side, neck[::-1]]))
    fold = shape.neck_at(0), shape.hem_at(0)
    return walks_on(back, front, shape.hem_at(run.middle), fold, (top, foot))
