"""Does the body lie flat, and how it is drawn when it does not."""

from __future__ import annotations

import math
from collections.abc import Iterator

from schematics.checks.finding import Case, Explanation, Family, Finding, Severity
from schematics.garment.constructions.demands import FLAT_CIRCLE, TWO_CIRCLES
from schematics.units import exceeds

CIRCLE = FLAT_CIRCLE

PAST_TWO_CIRCLES = (
    "The body opens to {degrees}, more than two full circles: even its half overlaps itself, so it "
    "can neither be drawn nor measured flat."
)
PAST_A_CIRCLE = (
    "The body opens to {degrees}, {over} over a full circle: it hangs in "
    "folds, does not lie flat in one layer, and is drawn as its right half on the fold."
)


def check(case: Case) -> Iterator[Finding]:
    """The one finding on how the body lies."""
    angle = case.garment.opening_angle
    if angle is None:
        yield case.finding(CIRCLE, Severity.GOOD, "body", "The body has no opening angle and lies flat.")
        return
    degrees, turns = _degrees(angle), angle / math.tau
    if exceeds(angle, TWO_CIRCLES):
        severity = Severity.STOP
        sentence = PAST_TWO_CIRCLES.format(degrees=degrees)
    elif exceeds(angle, math.tau):
        severity = Severity.MIND
        sentence = PAST_A_CIRCLE.format(degrees=degrees, over=_degrees(angle - math.tau))
    else:
        severity = Severity.GOOD
        sentence = f"The body opens to {degrees} of 360° and lies flat in one layer."
    yield case.finding(CIRCLE, severity, "body", sentence, opening_radians=angle, turns_count=turns)


def _degrees(angle: float) -> str:
    return f"{math.degrees(angle):.1f}°"


FAMILY = Family(
    name="lies flat",
    check=check,
    explanations=(
        Explanation(
            code=CIRCLE,
            title="The body lies flat",
            meaning=(
                "A body that grows quickly opens to more than a full circle. It can be made, and hangs in "
                "folds like a skirt, but it cannot be blocked or photographed in one flat layer. The "
                "drawing shows its right half, centre back to centre front; the left half mirrors it."
            ),
            cure="If folds are not meant, work fewer stitches at the hem, more at the neck, or more rows.",
            origin=(
                "Plain geometry: the opening angle is the hem's length less the neck's over the depth, and "
                "a full circle is 2 pi."
            ),
        ),
    ),
)
