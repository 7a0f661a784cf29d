"""A folded body: its formulas."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

import numpy as np

from schematics.crochet.fabric import Counted
from schematics.design.border import BorderEdge
from schematics.design.design import Parts
from schematics.garment.amounts import (
    ROWS,
    STITCHES,
    Count,
    CountValues,
    Formula,
    Laid,
    Measure,
    Numbers,
    PickedUp,
    counted,
    slope,
)
from schematics.garment.constructions.border_formulas import border_patterns
from schematics.garment.constructions.demands import ARM_PLACE, CountRange, Demand, Pattern, at_least, even
from schematics.garment.constructions.edge_formulas import (
    ARM_BANDS,
    RingFormulas,
    SeamFormulas,
    front_seams_formulas,
)
from schematics.garment.constructions.formulas import (
    Formulas,
    drop_measure,
    longest_drop_measure,
    neck_formulas,
    shared_measures,
    shared_patterns,
)
from schematics.garment.constructions.panel_formulas import PanelFormulas, panel_formulas
from schematics.garment.constructions.path_formulas import ArmPaths, path_measures
from schematics.units import HAIR
from schematics.wearer.expr import Const, Expr, Operand, least, most

WIDTH, NECK, SLOT = Count("body.width"), Count("body.neck"), Count("body.slot")
FRONT, BACK = Count("body.front_rows", ROWS), Count("body.back_rows", ROWS)
NECK_FRONT, NECK_BACK = Count("body.neck_front_rows", ROWS), Count("body.neck_back_rows", ROWS)
OPENING = Count("arms.rows", ROWS)
_EVEN = "stitches along that length, to the nearest number that makes the ribbing rows even"
_GROWING = (
    "body.width", "body.front", "body.back", "body.neck_width", "body.slot", "arm.opening", "neck.edge",
    "panel.width", "panel.length", "neck_band.depth", "arm_band.depth",
)  # fmt: skip


def folded_formulas(parts: Parts, settings: Mapping[str, Any]) -> Formulas:
    """One size as formulas of its counts."""
    fabric = parts.body

    def body(key: str, name: str, count: Expr, of: Counted, source: str = "") -> Measure:
        return counted(key, name, count, of, fabric, source)

    width = body("body.width", "body width", WIDTH, STITCHES)
    front = body("body.front", "front, fold to hem", FRONT, ROWS)
    back = body("body.back", "back, fold to hem", BACK, ROWS)
    neck_width = body("body.neck_width", "neck width", NECK, STITCHES)
    neck_front = body("body.neck_front", "front neck depth", NECK_FRONT, ROWS)
    neck_back = body("body.neck_back", "back neck depth", NECK_BACK, ROWS)
    slot = body("body.slot", "slot for the panel", SLOT, STITCHES)
    front_edge = body(
        "body.front_edge", "front edge, neck to hem", FRONT - NECK_FRONT, ROWS,
        "the front less the front neck depth",
    )  # fmt: skip
    panel = panel_formulas(parts.centre_panel)
    neck, at_sides = _neck(parts, panel)
    arm = _arm(parts)
    shared = tuple(
        shared_measures(
            panel, neck, arm, "back and front of the hole, panel, and picked up at its sides", _EVEN
        )
    )
    shoulder = shoulder_of({"body.width": width, "body.neck_width": neck_width})
    drop = drop_measure(back - neck_back, "below the neck hole")
    longest = longest_drop_measure(
        most(slope(shoulder, front), slope(shoulder, drop)),
        "to a corner, from the neck edge at the fold or behind it",
    )
    front_width = Measure(
        width - slot + panel.width, key="front_width", name="front width",
        source="the panel in place of the slot",
    )  # fmt: skip
    girth_top = Measure(
        2 * width - slot + panel.top, key="girth.top", name="round the body",
        source="back, and front with the panel in the slot",
    )  # fmt: skip
    girth_hem = Measure(girth_top, key="girth.hem", name="round the hem", source="as everywhere")
    if panel.tapers:
        girth_hem = replace(
            girth_hem, expr=2 * width - slot + panel.width, source="the same with the panel's foot"
        )
    reach, _, to_panel = paths_of(
        {
            each.key: each
            for each in (
                width,
                neck_width,
                neck_front,
                neck_back,
                slot,
                front_edge,
                *panel.measures,
                shoulder,
            )
        }
    )

    def girths(columns: CountValues) -> tuple[tuple[Numbers, Numbers], ...]:
        low, above, below = np.maximum(drop.at(columns), HAIR), girth_top.at(columns), girth_hem.at(columns)
        return ((np.zeros_like(low), above), (low, below)) if settings.get("side_seam", True) else ()

    return Formulas(
        measures=(
            width, front, back, neck_width, neck_front, neck_back, slot, front_edge,
            Measure(
                neck.edge[1], key="neck.picked_up", name="picked up at the neck sides", source=_EVEN,
                count=at_sides, counted=STITCHES, fabric=fabric.name, finished=True,
            ),
            body("arm.opening", "arm opening", OPENING, ROWS),
            *shared,
        ),
        growing=_GROWING,
        patterns=(
            Pattern(words="body.width", count=WIDTH, counted=STITCHES, fabric=fabric),
            Pattern(words="body rows, front and back", count=FRONT + BACK, counted=ROWS, fabric=fabric),
            *shared_patterns(parts, neck, arm),
            *border_patterns(
                parts, {BorderEdge.HEM: {"body.width": WIDTH, "stitches of a front": (WIDTH - SLOT) / 2}}
            ),
        ),
        neck=neck,
        arm=arm,
        seams=tuple(_seams(settings, parts, front_edge, panel.side)),
        demands=(*_demands(), *panel.demands()),
        drop=drop,
        longest_drop=longest,
        girth_top=girth_top,
        girth_hem=girth_hem,
        girths=girths,
        girths_need=girth_hem.needs | girth_top.needs | drop.needs,
        widths_cm=(front_width, width),
        arm_paths=lambda columns: ArmPaths(
            reach=reach.at(columns), back=2 * reach.at(columns), front=2 * to_panel.at(columns)
        ),
        arm_paths_need=reach.needs | to_panel.needs,
    )  # fmt: skip


def shoulder_of(lengths: Mapping[str, Measure]) -> Measure:
    """The shoulder: half of what the neck leaves of the body's width."""
    return Measure(
        (lengths["body.width"] - lengths["body.neck_width"]) / 2, key="shoulder",
        name="shoulder, neck to side", source="half of what the neck leaves",
    )  # fmt: skip


def paths_of(lengths: Mapping[str, Measure]) -> Iterator[Measure]:
    """From the middle of the opening, on the shoulder fold, to nape, centre back and the panel's middle."""
    shoulder, neck = lengths["shoulder"], lengths["body.neck_width"]
    to_nape = neck / 2 + slope(shoulder, lengths["body.neck_back"])
    to_slot, down = (neck - lengths["body.slot"]) / 2, lengths["body.neck_front"]
    to_panel: Expr = slope(shoulder, down) + (to_slot + lengths["panel.width"] / 2)
    if "panel.top" in lengths:
        foot, top, length = (lengths[f"panel.{each}"] for each in ("width", "top", "length"))
        to_panel = _to_tapering((shoulder, down, to_slot), (foot, top, length), lengths["body.front_edge"])
    return path_measures(
        "the middle of the arm opening",
        (
            (to_nape, "along the back neck, then straight from its corner"),
            None,
            (to_panel, "straight to the corner of the hole, then along the front neck and the panel's top"),
        ),
    )


def _to_tapering(hole: tuple[Expr, Expr, Expr], panel: tuple[Expr, Expr, Expr], front_edge: Expr) -> Expr:
    """From the middle of the opening to the middle of a panel that tapers.

    A panel wider at its top is met square to its middle: below the corner of the hole, which may hide it, and
    above the lower end of the seam, which may cut it off. ``far`` is how far each is from the middle, beyond
    the seam's upper end, ``level`` how far along it from its top.

    Args:
        hole: from the opening to the hole across, depth of the hole, and its width to the slot, in cm.
        panel: its width at foot and top, and its length.
        front_edge: from the hole to the hem; the seam ends where the shorter of panel and edge does.
    """
    (shoulder, down, to_slot), (foot, top, length) = hole, panel
    wider = most(top - foot, 0.0) / 2
    side = slope(wider, length)

    def far(off: Operand, below: Operand) -> Expr:
        return (off * length - below * wider) / side

    def level(off: Operand, below: Operand) -> Expr:
        return (below * length + off * wider) / side

    end = least(slope((top - foot) / 2, length), front_edge)
    opening, corner, seam = (shoulder + to_slot, 0.0 - down), (to_slot, Const(0.0)), (Const(0.0), end)
    across, along = far(*opening) - far(*corner), far(*corner) - far(*seam)
    meets = least(level(*seam), most(level(*opening), level(*corner)))
    passes = most(level(*corner), level(*opening) + (meets - level(*opening)) * across / (across + along))
    turned = slope(across, passes - level(*opening)) + slope(along, passes - meets)
    return turned + (far(*seam) + top / 2)


def _neck(parts: Parts, panel: PanelFormulas) -> tuple[RingFormulas, PickedUp]:
    """Round the neck hole: its stitches at back and front, row ends at both sides, the panel's top."""
    stitches = 2 * NECK - SLOT
    row_ends = Laid(2 * (NECK_FRONT + NECK_BACK), ROWS, parts.body)
    picked_up = PickedUp(row_ends, parts.body, stitches + panel.top_stitches)
    return neck_formulas(
        parts, panel, (Laid(stitches, STITCHES, parts.body), row_ends), stitches, picked_up
    ), picked_up


def _arm(parts: Parts) -> RingFormulas:
    row_ends = Laid(OPENING, ROWS, parts.body)
    picked_up = PickedUp(row_ends, parts.body)
    return RingFormulas(
        name="arm", edge=(row_ends,), edge_stitches=picked_up, band=parts.arm_bands, depth=ARM_BANDS,
        picked_up=picked_up,
    )  # fmt: skip


def _seams(
    settings: Mapping[str, Any], parts: Parts, front_edge: Measure, panel_side: Measure
) -> Iterator[SeamFormulas]:
    yield front_seams_formulas(parts, front_edge, panel_side)
    if settings.get("side_seam", True):
        front, back = (Formula(Laid(rows - OPENING / 2, ROWS, parts.body)) for rows in (FRONT, BACK))
        yield SeamFormulas(
            words="seams C and D, front side to back side",
            first_cm=front,
            second_cm=back,
            first_fabric=parts.body,
            second_fabric=parts.body,
        )


def _demands() -> Iterator[Demand]:
    yield Demand(
        words="the neck leaves two equal shoulders",
        kept=CountRange(Formula(WIDTH - NECK), low=2, multiple=2),
        cure="a neck and a width both even or both odd",
    )
    yield Demand(
        words="the slot lies in the middle of the neck and is no wider",
        kept=CountRange(Formula(NECK - SLOT), low=0, multiple=2),
        cure="a slot and a neck both even or both odd, or {missing} more stitches at the neck",
    )
    for side, rows, hole in (("front", FRONT, NECK_FRONT), ("back", BACK, NECK_BACK)):
        yield Demand(
            words=f"some {side} is left below the neck hole",
            kept=at_least(rows, hole + 1),
            cure=f"{{missing}} more rows at the {side}, or a neck hole that is less deep there",
        )
        yield Demand(
            words=f"the arm opening lies on the {side} and leaves some side below it",
            kept=at_least(rows, OPENING / 2 + 1),
            cure=f"{{missing}} more rows at the {side}, or a shorter arm opening",
            code=ARM_PLACE,
        )
    yield Demand(
        words="the arm opening is halved by the shoulder fold",
        kept=even(OPENING),
        cure="one row more or less in the arm opening",
    )
