"""Where the arm runs lie on their edge."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.checks.finding import Case, Explanation, Finding, Severity
from schematics.crochet.fabric import Counted
from schematics.garment.constructions.demands import ARM_PLACE
from schematics.garment.garment import ArmRun, ArmsOn

CODE = ARM_PLACE


def check(case: Case) -> Iterator[Finding]:
    """The one finding on where the arm runs lie."""
    arm = case.garment.arm
    edge, kind = arm.edge, "row ends" if arm.edge.counted is Counted.ROWS else "stitches"
    shared = arm.on is ArmsOn.HEM
    fault = _misplaced(arm)
    if fault is not None:
        sentence = f"The arm run, {edge.name} {kind} {arm.first} to {arm.last} of {edge.count}, {fault}."
    elif shared:
        left_first, left_last = arm.left
        sentence = (
            f"Right arm band on {edge.name} {kind} {arm.first} to {arm.last}, left on {left_first} to "
            f"{left_last} of {edge.count}, both counted inclusively; {arm.back_count} free across the back."
        )
    else:
        sentence = (
            f"Each arm band is on {edge.name} {kind} {arm.first} to {arm.last} of {edge.count}, counted "
            "inclusively, one on either side."
        )
    figures: dict[str, float] = {
        "first_count": arm.first,
        "last_count": arm.last,
        "run_count": arm.count,
        "edge_count": edge.count,
    }
    if shared:
        figures["back_count"] = arm.back_count
    yield case.finding(
        CODE, Severity.GOOD if fault is None else Severity.STOP, "arm bands", sentence, **figures
    )


def _misplaced(arm: ArmRun) -> str | None:
    """What is wrong with where the runs lie, None if nothing is."""
    edge, shared = arm.edge, arm.on is ArmsOn.HEM
    cure = "start it nearer the front or make it shorter" if shared else "make it shorter"
    if arm.first < 1 or arm.last > edge.count:
        return f"does not lie on the {edge.name} edge: {cure}"
    if shared and arm.back_count < 0:
        return f"overlaps the left one by {-arm.back_count}: {cure}"
    if shared and arm.back_count == 0:
        return "meets the left one: nothing is left free across the back"
    return None


EXPLANATION = Explanation(
    code=CODE,
    title="Both arm runs lie on the edge",
    meaning=(
        "Each arm band is worked onto a run of hem stitches, or of row ends where the sides open "
        "for the hands. Both runs must lie on their edge, must not overlap, and on the hem must "
        "leave some of it free across the back. The numbers tell which stitches or row ends to "
        "mark: the first and the last of each run belong to it, counted from the wearer's right "
        "front seam, or up each side from the front hem."
    ),
    cure="Start the run nearer the front, make it shorter, or make that edge longer.",
    origin="Plain counting.",
    severities=(Severity.STOP, Severity.GOOD),
)
