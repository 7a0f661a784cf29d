"""The rows of a folded body: to the neck hole, past it, and down the fronts."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from schematics.garment.constructions.body_steps import BodyStep, BodySteps, StepCount
from schematics.garment.constructions.folded.folded_counts import FoldedBody


def body_steps(bodies: Sequence[FoldedBody]) -> BodySteps:
    """Rows and stitches of each step; they add up to the body's rows."""

    def count(key: str, name: str, unit: str, value: Callable[[FoldedBody], int]) -> StepCount:
        return StepCount(key=key, name=name, unit=unit, values=tuple(value(body) for body in bodies))

    chained = count(
        "added", "stitches chained at each front neck edge", "sts", lambda body: (body.neck - body.slot) // 2
    )
    return BodySteps(
        sentences=(
            "The body is worked flat, in rows to and fro, from the back hem up, over the shoulders and down "
            "the fronts.",
            "The fabric does not show the fold at the shoulders: place a marker at each end of row {fold}, "
            "the last row of the back.",
        ),
        caption="From the back hem to the front hem",
        steps=(
            BodyStep(
                name="back, to the neck hole",
                rows=count(
                    "to_neck", "rows to the neck hole", "rows",
                    lambda body: body.back_rows - body.neck_back_rows,
                ),
                stitches=count("width", "stitches to the neck hole", "sts", lambda body: body.width),
                before="foundation chain",
            ),
            BodyStep(
                name="each shoulder, past the neck hole",
                rows=count(
                    "past_neck", "rows past the neck hole", "rows", lambda body: body.neck_side_rows
                ),
                stitches=count(
                    "shoulder", "stitches of each shoulder", "sts", lambda body: (body.width - body.neck) // 2
                ),
                before="leave the middle {neck} sts",
                parts=2,
            ),
            BodyStep(
                name="each front, to the hem",
                rows=count("fronts", "rows of the fronts", "rows", lambda body: body.front_edge_rows),
                stitches=count(
                    "front", "stitches of each front", "sts", lambda body: (body.width - body.slot) // 2
                ),
                before=(
                    "chain {added} at each neck edge, and the turning chain"
                    if any(chained.values)
                    else "go on along the slot"
                ),
                parts=2,
            ),
        ),
        counts=(
            count("neck", "stitches left for the neck hole", "sts", lambda body: body.neck),
            chained,
            count("fold", "row of the back before the fold", "rows", lambda body: body.back_rows),
        ),
    )  # fmt: skip
