"""The counts of a folded body that advice may change."""

from __future__ import annotations

from schematics.crochet.fabric import CountRule
from schematics.design.design import Parts, Size
from schematics.garment.constructions.base import STITCHES
from schematics.garment.constructions.levers import (
    ARM_BAND_DEPTH,
    PANEL_WEIGHT,
    SHARED_NOUNS,
    Lever,
    Purpose,
    panel_rows,
    whole_repeats,
    with_counts,
)


def _neck(size: Size, step: int, _: Parts) -> Size | None:
    return with_counts(size, body__neck=size.body.neck + 2 * step)


def _neck_depth(size: Size, step: int, parts: Parts) -> Size | None:
    depth = size.body.neck_front_rows + step
    return with_counts(
        size, body__neck_front_rows=depth, panel_rows=panel_rows(size.body.front_rows - depth, parts)
    )


def _panel(size: Size, step: int, parts: Parts) -> Size | None:
    """The slot follows the panel: as many stitches as lie across it, odd or even as the neck."""
    stitches = size.panel_stitches + step * parts.centre_panel.stitch_rule.multiple
    width = parts.centre_panel.length_cm(stitches, STITCHES) * parts.body.stitches_per_cm
    slot = CountRule(multiple=2, plus=size.body.neck % 2).nearest(width)
    return with_counts(size, panel_stitches=stitches, body__slot=slot)


def _length(size: Size, step: int, parts: Parts) -> Size | None:
    front, back = size.body.front_rows + step, size.body.back_rows + step
    rows = panel_rows(front - size.body.neck_front_rows, parts)
    return with_counts(size, body__front_rows=front, body__back_rows=back, panel_rows=rows)


def _width(size: Size, step: int, parts: Parts) -> Size | None:
    return with_counts(size, body__width=size.body.width + step * whole_repeats(parts.body.stitch_rule, 2))


def _opening(size: Size, step: int, _: Parts) -> Size | None:
    return with_counts(size, arms__rows=size.arms.rows + 2 * step)


LEVERS = (
    Lever(purpose=Purpose.NECK, key="body.neck_width", most=5, apply=_neck),
    Lever(purpose=Purpose.NECK, key="body.neck_front", most=3, apply=_neck_depth),
    Lever(purpose=Purpose.NECK, key="panel.width", most=1, apply=_panel, weight=PANEL_WEIGHT),
    Lever(purpose=Purpose.RING, key="arm.opening", most=5, apply=_opening),
    Lever(purpose=Purpose.LENGTH, key="body.front", most=12, apply=_length),
    Lever(purpose=Purpose.WIDTH, key="body.width", most=12, apply=_width, weight=0.5),
    ARM_BAND_DEPTH,
)
NOUNS = {
    "body.width": ("stitch across the body", "stitches across the body"),
    "body.front_rows": ("front row", "front rows"),
    "body.back_rows": ("back row", "back rows"),
    "body.neck": ("stitch at the neck", "stitches at the neck"),
    "body.neck_front_rows": ("row of front neck depth", "rows of front neck depth"),
    "body.slot": ("stitch in the slot", "stitches in the slot"),
    "arms.rows": ("row end in each arm opening", "row ends in each arm opening"),
    **SHARED_NOUNS,
}
