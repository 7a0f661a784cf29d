"""Bodies worked from the neck down with arm bands on the hem: what grading may know of them."""

from __future__ import annotations

from collections.abc import Sequence

from schematics.constructions.facts import (
    ROWS,
    SHARED_KEYS,
    STITCHES,
    Counts,
    Demand,
    Facts,
    Lever,
    Levers,
    Pattern,
    Quantity,
    SeamFacts,
    full_cm,
    length_cm,
    lever,
    neck_facts,
    ring_facts,
    shared_lengths,
    shared_patterns,
)
from schematics.design import Parts
from schematics.linear import Linear, at_least

ARM_COUNTS = {"arms.from_front": "arm.from_front", "arms.stitches": "arm.run"}
"""Counts of arm bands on the hem, each with its finished measurement."""

KEYS = ("body.neck", "body.hem", "body.depth", "arm.from_front", "arm.run", "arm.back", *SHARED_KEYS)
"""Finished measurements of such a body that are linear in its counts."""

_GROWING = (
    "neck.edge", "body.hem", "body.depth", "arm.from_front", "arm.run", "panel.width", "panel.length",
    "neck_band.depth", "arm_band.depth",
)  # fmt: skip


def neck_down_facts(
    counts: Counts,
    parts: Parts,
    hem: Linear,
    demands: Sequence[Demand],
    *,
    drop_cm: Linear | None,
    grow_cm: Linear,
) -> Facts:
    """The facts of one size: ``hem`` stitches at the hem, whose corners lie ``grow_cm`` out of line."""
    fabric, neck, rows = parts.body, counts["body.neck"], counts["body.rows"]
    front, run = counts["arms.from_front"], counts["arms.stitches"]
    back = hem - 2 * (front + run)
    depth_cm = length_cm(fabric, rows, ROWS)
    ring = neck_facts(counts, parts, neck, length_cm(fabric, neck, STITCHES), full_cm(fabric, neck, STITCHES))
    arm = ring_facts(run, length_cm(fabric, run, STITCHES), full_cm(fabric, run, STITCHES), parts.arm_bands)
    return Facts(
        lengths={
            "body.neck": length_cm(fabric, neck, STITCHES),
            "body.hem": length_cm(fabric, hem, STITCHES),
            "body.depth": depth_cm,
            "arm.from_front": length_cm(fabric, front, STITCHES),
            "arm.run": length_cm(fabric, run, STITCHES),
            "arm.back": length_cm(fabric, back, STITCHES),
            **shared_lengths(counts, parts, ring, arm),
        },
        growing=_GROWING,
        patterns=(
            Pattern(words="body.neck", count=neck, counted=STITCHES, fabric=fabric),
            Pattern(words="hem stitches", count=hem, counted=STITCHES, fabric=fabric),
            Pattern(words="body.rows", count=rows, counted=ROWS, fabric=fabric),
            *shared_patterns(counts, parts, ring, arm),
        ),
        neck=ring,
        arm=arm,
        seams=(
            SeamFacts(
                words="seams A and B, body to panel",
                first_cm=depth_cm,
                second_cm=length_cm(parts.centre_panel, counts["panel.rows"], ROWS),
            ),
        ),
        demands=(
            *demands,
            Demand(
                words="both arm runs lie on the hem and leave a back between them",
                row=at_least(back, 1),
                cure="{missing} more stitches at the hem, or an arm run that starts nearer the front",
                code="ARM-PLACE",
            ),
        ),
        drop_cm=drop_cm,
        corners_cm=((grow_cm, depth_cm),),
    )


def _middle(sign: int) -> Lever:
    """Twice the hem stitches from the front seam to the middle of the arm run."""
    value = 2 * Linear.of("arms.from_front") + Linear.of("arms.stitches")
    return Lever(value=value, by="arms.from_front", sign=sign)


_INCREASES = lever("body.neck", 1), lever("body.hem", -1), lever("body.rows", 1)

SLICES = {Quantity.GIRTH: "body.rows"}
"""A girth between neck and hem is straight in the stitches while the rows stand.

But where a line of increases at centre back lengthens the drop: there more increases give ever less.
"""


def levers(hem: str, *, even_increases: bool) -> Levers:
    """Which way each count moves what is not linear; held by tests on made garments.

    Args:
        hem: the count that widens the hem.
        even_increases: whether the body grows evenly. Where it grows in lines, a line that moves by
            a stitch moves the ways on the fabric to either side.
    """
    sure = 1 if even_increases else 0
    band = lever("arm_bands.stitches", 1, straight=True)
    width = lever("panel.stitches", 1, straight=True)
    shape = lever("body.neck", sure), lever(hem, sure), lever("body.rows", 1), band
    lowest = (lever("body.rows", 1), *(() if even_increases else (lever(hem, 1),)))
    return {
        Quantity.REACH: (*shape, _middle(-sure)),
        Quantity.SPREAD_BACK: (*shape, _middle(-sure)),
        Quantity.SPREAD_FRONT: (
            lever("body.neck", sure),
            lever(hem, -sure),
            lever("body.rows", 1),
            _middle(sure),
            band,
            width,
            lever("panel.rows", -1),
        ),
        Quantity.GIRTH: (
            lever("body.neck", 1),
            lever(hem, 1),
            lever("body.rows", -1),
            width,
        ),
        Quantity.DROP: lowest,
        Quantity.LOWEST: lowest,
        **({Quantity.INCREASES: _INCREASES} if even_increases else {}),
    }
