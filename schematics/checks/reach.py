"""The reach: where on the arm the bands come when the fabric is drawn out along it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from schematics.checks.finding import Case, Explanation, Family, Finding, Severity
from schematics.checks.ruled import verdict
from schematics.checks.rules.size_rules import Answer
from schematics.checks.wording import TYPICAL, of_body, percent, unknown
from schematics.design.limits import COMMON
from schematics.garment.arm_freedom import ArmFreedom
from schematics.units import exceeds
from schematics.wearer.body import Body, BodyValue

BAND = "REACH-BAND"
_PLACE = "arm bands"
_WHAT = "where on the arm the bands come"


def check(case: Case) -> Iterator[Finding]:
    """The one finding on the reach."""
    wrist = case.wearer.get(Body.CENTRE_BACK_NECK_TO_WRIST)
    forearm = case.wearer.get(Body.FOREARM_LENGTH)
    if case.freedom is None:
        yield unmeasured(case, BAND, _WHAT)
    elif wrist is None:
        yield unknown(case, BAND, _PLACE, [Body.CENTRE_BACK_NECK_TO_WRIST], _WHAT)
    elif verdict(case, BAND).answer is Answer.UNKNOWN:
        yield unknown(case, BAND, _PLACE, [Body.FOREARM_LENGTH], _WHAT)
    else:
        yield _band(case, case.freedom, wrist, forearm)


def unmeasured(case: Case, code: str, what: str) -> Finding:
    """The finding for a check that needs the ways on the fabric where there are none, and why."""
    angle = case.garment.opening_angle
    reason = (
        "the body overlaps itself laid flat (see FLAT-CIRCLE)"
        if case.garment.arm.middle is not None and angle is not None and angle > math.tau
        else f"the arm run does not lie on the {case.garment.arm.edge.name} (see ARM-PLACE)"
    )
    return case.finding(
        code, Severity.MIND, _PLACE, f"{what[0].upper()}{what[1:]} cannot be found, because {reason}."
    )


def _band(case: Case, freedom: ArmFreedom, wrist: BodyValue, forearm: BodyValue | None) -> Finding:
    limits, reach = case.limits, freedom.reach_cm
    above, words = wrist.cm - reach, case.tape.compare(reach, wrist.cm)
    severity = verdict(case, BAND).severity
    if not exceeds(abs(above), limits.reach_wrist_cm):
        where = "at the wrist"
    elif above < 0:
        where = f"{words.gap} over the hand"
        if severity is Severity.MIND:
            where = f"{where}, where it is in the way"
    else:
        where = f"{words.gap} above the wrist"
        if severity is Severity.MIND and forearm is not None:
            share = percent(limits.reach_forearm_fraction)
            length = case.tape.length(forearm.cm)
            where = f"{where}, over {share} of the forearm ({length}, {of_body(forearm, TYPICAL)})"
    return case.finding(
        BAND,
        severity,
        _PLACE,
        f"Drawn out along the arm, the arm band ends {words.first} from the centre back neck; the wrist is "
        f"at {words.second} ({of_body(wrist, TYPICAL)}): the band ends {where}.",
        reach_cm=reach,
        wrist_cm=wrist.cm,
        above_wrist_cm=above,
        band_depth_cm=freedom.band_depth_cm,
        **({} if forearm is None else {"forearm_cm": forearm.cm}),
    )


FAMILY = Family(
    name="reach",
    check=check,
    explanations=(
        Explanation(
            code=BAND,
            title="Where on the arm the band comes",
            meaning=(
                "A poncho has no sleeves: how far down the arm its band can come is the shortest way on the "
                "fabric from the centre back neck to the middle of the arm run, plus the depth of the band. "
                "Held against the typical distance from the centre back neck to the wrist it tells where "
                "the band's free edge lies: at the wrist, so far above it, or over the hand. A band that "
                "ends high on the forearm leaves it bare and rides up; one far over the hand gets in its "
                "way. Fabric is taken not to stretch, so a soft one comes a little farther."
            ),
            cure=(
                "To bring the band down, work more body rows or a deeper band, or move the arm run "
                "towards the front; to bring it up, the other way about."
            ),
            origin=f"The way on the fabric is plain geometry; the limits are {COMMON}.",
            limits=("reach_wrist_cm", "reach_forearm_fraction", "reach_hand_cm"),
            severities=(Severity.MIND, Severity.GOOD),
        ),
    ),
)
