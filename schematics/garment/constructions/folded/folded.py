"""Folded: one rectangle over the shoulders with a squared neck hole and a slot for the panel."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial
from itertools import product
from typing import Any, ClassVar

from schematics.crochet.fabric import CountRule, Fabric
from schematics.design.border import Border, BorderEdge
from schematics.design.design import Parts, Size
from schematics.garment.amounts import Measure
from schematics.garment.constructions.base import (
    ROWS,
    STITCHES,
    counts_of,
    edge_of,
    front_seams,
    panel_and_bands,
    polygon,
    seam_pair,
)
from schematics.garment.constructions.body_steps import BodyStep, BodySteps, StepCount
from schematics.garment.constructions.by_hand import HandSheet
from schematics.garment.constructions.construction import Construction
from schematics.garment.constructions.folded.folded_counts import FoldedArms, FoldedBody
from schematics.garment.constructions.folded.folded_formulas import folded_formulas, paths_of, shoulder_of
from schematics.garment.constructions.folded.folded_shape import FoldedShape
from schematics.garment.constructions.formulas import Formulas
from schematics.garment.constructions.levers import (
    ARM_BAND_DEPTH,
    ARM_BANDS,
    BODY_AND_PANEL,
    PANEL_WEIGHT,
    SHARED_NOUNS,
    Lever,
    Nouns,
    Purpose,
    body_repeats,
    panel_rows,
    shifted,
    with_counts,
)
from schematics.garment.constructions.starting import StartIntent, WishedFit, of_body
from schematics.garment.garment import (
    ArmRun,
    ArmsOn,
    Crease,
    Edge,
    Garment,
    NeckStart,
    Piece,
    PieceLine,
    Ring,
    Seam,
    Vertex,
    WorkArrow,
)
from schematics.garment.panel_slot import Slot
from schematics.garment.patterned_area import PatternedArea, Upright

_WORK_SHARES = (0.35, 0.5, 0.2, 0.65, 0.8, 0.1)
"""Where from the left side to the neck an arrow may show the direction of work, best first."""


def _body_piece(counts: FoldedBody, arms: FoldedArms, fabric: Fabric, shape: FoldedShape) -> Piece:
    return Piece(
        name="body",
        fabric=fabric,
        outline=polygon(shape.half),
        edges=(*_edges(counts, fabric, shape), *_edges_below_the_opening(counts, arms, fabric, shape)),
        measured=shape.spans,
        work=WorkArrow(
            places=partial(_arrows, shape),
            words=f"worked from the back hem over the shoulders; slot {counts.slot} sts",
        ),
        foundation_stitches=counts.width,
        on_fold=True,
        creases=(Crease(name="shoulder fold", vertices=((shape.neck, 0), (shape.side, 0)), folded=True),),
    )


def _arrows(shape: FoldedShape) -> Iterator[tuple[Vertex, Vertex]]:
    """Most of the way up the back, between the left side and the neck or as far to the right."""
    for side, share in product((-1, 1), _WORK_SHARES):
        x = side * (shape.side - (shape.side - shape.neck) * share)
        yield (x, -shape.back * 0.85), (x, -shape.back * 0.4)


def _edges(counts: FoldedBody, fabric: Fabric, shape: FoldedShape) -> tuple[Edge, ...]:
    """The edges all round; a pattern's multiple and repeat bind the whole width and length only."""
    side, neck, front_hem = shape.side_path, shape.neck_path, (shape.slot, shape.front)
    *ledge, corner, back_corner, centre_back = neck
    half_neck, half_hem = (counts.neck - counts.slot) // 2, (counts.width - counts.slot) // 2
    part = partial(edge_of, fabric=fabric, partial=True)
    return (
        edge_of("back hem", [(0, -shape.back), side[0]], counts.width, STITCHES, fabric, crosses_fold=True),
        edge_of("side", side, counts.front_rows + counts.back_rows, ROWS, fabric),
        part("front hem", [side[-1], front_hem], half_hem, STITCHES),
        part("front", [front_hem, neck[0]], counts.front_edge_rows, ROWS),
        *(part("front neck", [each, corner], half_neck, STITCHES) for each in ledge),
        part("neck side", [corner, back_corner], counts.neck_side_rows, ROWS),
        part("back neck", [back_corner, centre_back], counts.neck, STITCHES, crosses_fold=True),
    )


def _edges_below_the_opening(
    counts: FoldedBody, arms: FoldedArms, fabric: Fabric, shape: FoldedShape
) -> tuple[Edge, ...]:
    front, back = (rows - arms.rows // 2 for rows in (counts.front_rows, counts.back_rows))
    if front < 1 or back < 1:
        return ()
    x = shape.side
    return (
        edge_of("front side", [(x, shape.opening), (x, shape.front)], front, ROWS, fabric, partial=True),
        edge_of("back side", [(x, -shape.back), (x, -shape.opening)], back, ROWS, fabric, partial=True),
    )


def _side_seams(counts: FoldedBody, body: Piece) -> tuple[Seam, ...]:
    """Front to back below the openings, C on the wearer's right, where the sides are seamed at all."""
    edges = {edge.name: edge for edge in body.edges}
    if not counts.side_seam or "front side" not in edges:
        return ()
    return seam_pair("CD", (body, edges["front side"]), body, (edges["back side"],) * 2)


def _arm_run(size: Size, shape: FoldedShape, side: Edge, ring: Ring) -> ArmRun:
    counts: FoldedBody = size.body
    arms: FoldedArms = size.arms
    return ArmRun(
        on=ArmsOn.SIDES,
        edge=side,
        first=counts.front_rows - arms.rows // 2 + 1,
        last=counts.front_rows + arms.rows // 2,
        line=PieceLine(vertices=[(x, y) for x, y in shape.side_path if abs(y) <= shape.opening]),
        middle=(shape.side, 0.0),
        ring=ring,
    )


_NECK_WIDTH_PART, _OPENING_PART = "0.35", "1.07"
_NECK_FRONT_CM, _NECK_BACK_CM = 5.0, 2.0
"""The neck's width of the head, the arm opening of the hand, the depths of the neck hole (common practice, no
source)."""


def _neck_depth(size: Size, step: int, parts: Parts) -> Size | None:
    depth = size.body.neck_front_rows + step
    return with_counts(
        size, body__neck_front_rows=depth, panel_rows=panel_rows(size.body.front_rows - depth, parts)
    )


def _panel(size: Size, step: int, parts: Parts) -> Size | None:
    """The slot follows the panel: as many stitches as lie across it, odd or even as the neck."""
    repeat = parts.centre_panel.stitch_rule.step
    if repeat is None:
        return None
    stitches = size.panel_stitches + step * repeat
    width = parts.body.count_along(parts.centre_panel.length_cm(stitches, STITCHES), STITCHES)
    slot = CountRule(multiple=2, plus=size.body.neck % 2).nearest(width)
    return with_counts(size, panel_stitches=stitches, body__slot=slot)


def _length(size: Size, step: int, parts: Parts) -> Size | None:
    front, back = size.body.front_rows + step, size.body.back_rows + step
    rows = panel_rows(front - size.body.neck_front_rows, parts)
    return with_counts(size, body__front_rows=front, body__back_rows=back, panel_rows=rows)


class Folded(Construction):
    """One rectangle over the shoulders."""

    word = "folded"
    summary = "one rectangle over the shoulders, with a neck hole and a slot for the panel"
    body_counts = FoldedBody
    arm_counts = FoldedArms
    border_edges = frozenset({BorderEdge.HEM})
    levers = (
        Lever(purpose=Purpose.NECK, key="body.neck_width", most=5, apply=shifted(body__neck=2)),
        Lever(purpose=Purpose.NECK, key="body.neck_front", most=3, apply=_neck_depth),
        Lever(purpose=Purpose.NECK, key="panel.width", most=1, apply=_panel, weight=PANEL_WEIGHT),
        Lever(
            purpose=Purpose.RING, key="arm.opening", most=5, comes_off=ARM_BANDS, apply=shifted(arms__rows=2)
        ),
        Lever(purpose=Purpose.LENGTH, key="body.front", most=12, comes_off=BODY_AND_PANEL, apply=_length),
        Lever(
            purpose=Purpose.WIDTH,
            key="body.width",
            most=12,
            apply=shifted(body__width=body_repeats(2)),
            weight=0.5,
        ),
        ARM_BAND_DEPTH,
    )
    nouns: ClassVar[Nouns] = {
        "body.width": ("stitch across the body", "stitches across the body"),
        "body.front_rows": ("front row", "front rows"),
        "body.back_rows": ("back row", "back rows"),
        "body.neck": ("stitch at the neck", "stitches at the neck"),
        "body.neck_front_rows": ("row of front neck depth", "rows of front neck depth"),
        "body.neck_back_rows": ("row of back neck depth", "rows of back neck depth"),
        "body.slot": ("stitch in the slot", "stitches in the slot"),
        "arms.rows": ("row end in each arm opening", "row ends in each arm opening"),
        **SHARED_NOUNS,
    }
    rows_key = "body.front_rows"
    longer_words = (
        "Work on from the last row of both fronts, {more} rows more on each, and work as many rows at the "
        "back hem, into the other side of its foundation chain."
    )
    kept_words = (
        "The width, the neck hole and the slot are worked into the body, and nothing can be ripped back from "
        "the foundation chain at the back hem: none of it can be changed without working the body anew."
    )
    fullness: ClassVar[Mapping[str, float]] = {"slim": 1.5, "usual": 1.65, "full": 1.85}
    usual_lengths: ClassVar[Mapping[str, tuple[str, str]]] = {"below_waist": ("5", "2")}
    """The corners hang lower than the back."""

    def start_intents(self, wished: WishedFit) -> tuple[StartIntent, ...]:
        """Width, length, the neck hole, the slot and the arm openings."""
        width = of_body("centre_back_neck_to_wrist", part=f"{self.fullness[wished.fullness]:g}")
        ease = wished.text(wished.below_waist.cm + _NECK_BACK_CM)
        drop = of_body("back_waist_length", ease=ease)
        return (
            ("body.width", width, self.fullness_words(wished.fullness)),
            ("body.back", drop, "from the shoulder fold; the back neck is in it"),
            ("body.front", drop, ""),
            ("body.neck_width", of_body("head_girth", part=_NECK_WIDTH_PART), ""),
            ("body.neck_front", wished.text(_NECK_FRONT_CM), ""),
            ("body.neck_back", wished.text(_NECK_BACK_CM), ""),
            ("body.slot", wished.panel_width.yaml, "as wide as the panel that fills it"),
            ("arm.opening", of_body("hand_girth", part=_OPENING_PART), "half of it on the front"),
        )

    def body_steps(self, bodies: Sequence[FoldedBody]) -> BodySteps:
        """To the neck hole, past it, and down the fronts: rows and stitches add up to the body's."""

        def count(unit: str, key: str, name: str, value: Callable[[FoldedBody], int]) -> StepCount:
            return StepCount(key=key, name=name, unit=unit, values=tuple(map(value, bodies)))

        rows, sts = partial(count, "rows"), partial(count, "sts")
        to_neck = rows("to_neck", "rows to the neck hole", lambda each: each.back_rows - each.neck_back_rows)
        past_neck = rows("past_neck", "rows past the neck hole", lambda each: each.neck_side_rows)
        fronts = rows("fronts", "rows of the fronts", lambda each: each.front_edge_rows)
        fold = rows("fold", "row of the back before the fold", lambda each: each.back_rows)
        width = sts("width", "stitches to the neck hole", lambda each: each.width)
        shoulder = sts("shoulder", "stitches of each shoulder", lambda each: (each.width - each.neck) // 2)
        front = sts("front", "stitches of each front", lambda each: (each.width - each.slot) // 2)
        neck = sts("neck", "stitches left for the neck hole", lambda each: each.neck)
        added = sts(
            "added", "stitches chained at each front neck edge", lambda each: (each.neck - each.slot) // 2
        )
        to_front = "chain {added} at each neck edge, and the turning chain"
        return BodySteps(
            sentences=(
                "Work flat in rows, back and forth, from the back hem up, over the shoulders and down the "
                "fronts.",
                "The fabric does not show the fold at the shoulders: place a marker at each end of row "
                "{fold}, the last row of the back.",
            ),
            caption="From the back hem to the front hem",
            steps=(
                BodyStep(
                    name="back, to the neck hole", rows=to_neck, stitches=width, before="foundation chain"
                ),
                BodyStep(
                    name="each shoulder, past the neck hole", rows=past_neck, stitches=shoulder,
                    before="leave the middle {neck} sts", parts=2, leaves=neck,
                ),
                BodyStep(
                    name="each front, to the hem", rows=fronts, stitches=front,
                    before=to_front if any(added.values) else "go on along the slot", parts=2, adds=added,
                ),
            ),
            counts=(neck, added, fold),
            marked=fold,
        )  # fmt: skip

    def rows_worked(self, body: FoldedBody) -> tuple[tuple[int, int], ...]:
        """The rows of its steps, one step after the other."""
        return tuple(self.body_steps([body]).rows(0))

    def border_rows(self, body: FoldedBody, border: Border) -> Mapping[str, range]:
        """Along the hem once on the back and once on both fronts, which end there."""
        ((_, rows),) = super().border_rows(body, border).items()
        if border.at is BorderEdge.HEM:
            return {"back": range(1, border.rows + 1), "each front": rows}
        return {"": rows}

    def _row_stitches(self, body: FoldedBody) -> Iterator[int]:
        return (stitches for stitches, _ in self.rows_worked(body))

    def _border_areas(self, body: FoldedBody, parts: Parts, shape: FoldedShape) -> Iterator[PatternedArea]:
        fabric = parts.body
        for each in self.borders_on(body, parts):
            wide, first = fabric.length_cm(each.stitches, STITCHES), each.rows[0]
            lefts = (-shape.side,) if each.pieces == 1 else (-shape.side, shape.side - wide)
            foot = fabric.length_cm(first - 1, ROWS) - shape.back
            for left in lefts:
                yield PatternedArea(
                    name=each.name,
                    fabric=each.fabric,
                    stitches=each.stitches,
                    rows=len(each.rows),
                    first_row=first,
                    place=Upright(fabric=fabric, left=left, foot=foot),
                )

    def build(self, size: Size, parts: Parts) -> Garment:
        """The garment of one size. Closed forms: see `tests/garment/constructions/test_folded.py`."""
        counts: FoldedBody = size.body
        arms: FoldedArms = size.arms
        by_name, formulas = counts_of(size), self.formulas_of(size.body, parts)
        shape = FoldedShape.of(counts, arms, parts.body)
        areas = tuple(self._border_areas(counts, parts, shape))
        bare = _body_piece(counts, arms, parts.body, shape)
        body = replace(bare, patterned=areas, rows=partial(self._row_stitches, counts))
        neck = formulas.neck.ring(by_name)
        arm = _arm_run(size, shape, body.edge("side"), formulas.arm.ring(by_name))
        panel, *bands = panel_and_bands(size, parts, neck, arm.ring)
        side_seams = _side_seams(counts, body)
        front_cm, back_cm = (float(each.at(by_name)) for each in formulas.widths_cm or ())
        return Garment(
            construction=self.word,
            pieces=(body, panel, *bands),
            seams=(*front_seams(body, panel), *side_seams),
            neck=neck,
            neck_start=NeckStart(
                stitch=counts.neck // 2 + 1, counted="across the back neck from the wearer's right"
            ),
            arm=arm,
            drop_cm=float(formulas.drop.at(by_name)),
            longest_drop_cm=float(formulas.longest_drop.at(by_name)),
            increases=None,
            opening_angle=None,
            walks=shape.walks(panel) if shape.opening_fits else (),
            finished=formulas.finished(by_name),
            side_fold=((shape.neck, 0), (shape.side, 0)),
            slot=Slot(
                width_cm=parts.body.length_cm(counts.slot, STITCHES), front_cm=front_cm, back_cm=back_cm
            ),
            girths=formulas.girth_points(by_name) if side_seams else (),
        )

    def formulas(self, parts: Parts, settings: Mapping[str, Any]) -> Formulas:
        """A size as formulas of its counts."""
        return folded_formulas(parts, settings)

    def shape_by_hand(self, sheet: HandSheet) -> None:
        """The front's width, the body's area, and what lies beside the neck."""
        hole = sheet["body.neck_width"] * (sheet["body.neck_front"] + sheet["body.neck_back"])
        slot = sheet["body.slot"] * sheet["body.front_edge"]
        if sheet.formulas.widths_cm is not None:
            sheet.add(sheet.formulas.widths_cm[0])
        sheet.put(
            "area.body",
            "area of the body",
            sheet["body.width"] * (sheet["body.front"] + sheet["body.back"]) - hole - slot,
            "the whole rectangle less neck hole and slot",
            "cm²",
        )
        sheet.add(shoulder_of(sheet.steps))

    def paths_by_hand(self, sheet: HandSheet) -> Iterator[Measure]:
        """Straight to the corners of the neck hole, and along it."""
        return paths_of(sheet.steps)

    def longer(self, body: FoldedBody, arms: FoldedArms, more: int) -> tuple[FoldedBody, FoldedArms]:
        """The counts with as many rows more at the front as at the back."""
        rows = {"front_rows": body.front_rows + more, "back_rows": body.back_rows + more}
        return body.model_copy(update=rows), arms

    def shorter(self, body: FoldedBody, arms: FoldedArms, fewer: int) -> tuple[FoldedBody, FoldedArms] | None:
        """As many rows fewer at the front as at the back, as long as there is room for the openings."""
        front, back = body.front_rows - fewer, body.back_rows - fewer
        if front <= body.neck_front_rows or back <= body.neck_back_rows or min(front, back) < arms.rows // 2:
            return None
        return body.model_copy(update={"front_rows": front, "back_rows": back}), arms


FOLDED = Folded()
