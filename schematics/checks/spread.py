"""The spread: how far the arms open before the fabric pulls."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.checks.finding import Case, Explanation, Family, Finding, Severity
from schematics.checks.reach import unmeasured
from schematics.checks.ruled import verdict
from schematics.checks.wording import TYPICAL, of_body, percent, unknown
from schematics.design.limits import COMMON
from schematics.garment.arm_freedom import ArmFreedom
from schematics.wearer.body import Body, BodyValue

ARMS = "SPREAD-ARMS"
_PLACE = "arm bands"
_WHAT = "how far the arms open"


def check(case: Case) -> Iterator[Finding]:
    """The one finding on the spread."""
    wrist = case.wearer.get(Body.CENTRE_BACK_NECK_TO_WRIST)
    if case.freedom is None:
        yield unmeasured(case, ARMS, _WHAT)
    elif wrist is None:
        yield unknown(case, ARMS, _PLACE, [Body.CENTRE_BACK_NECK_TO_WRIST], _WHAT)
    else:
        yield _arms(case, case.freedom, wrist)


def _arms(case: Case, freedom: ArmFreedom, wrist: BodyValue) -> Finding:
    span, limit = 2 * wrist.cm, case.limits.spread_fraction
    back, front, fraction = freedom.spread_back_cm, freedom.spread_front_cm, freedom.spread_cm / span
    severity, tape = verdict(case, ARMS).severity, case.tape
    good = severity is Severity.GOOD
    told = "the arms open freely" if good else f"less than {percent(limit)}, it pulls when the arms open"
    return case.finding(
        ARMS,
        severity,
        _PLACE,
        f"From band edge to band edge the fabric spans {tape.length(back)} across the back and "
        f"{tape.length(front)} across the front; the smaller is {percent(fraction, limit)} of twice "
        f"centre back neck to wrist ({tape.length(span)}, {of_body(wrist, TYPICAL)}): {told}.",
        spread_back_cm=back,
        spread_front_cm=front,
        span_cm=span,
        spread_fraction=fraction,
    )


FAMILY = Family(
    name="spread",
    check=check,
    explanations=(
        Explanation(
            code=ARMS,
            title="The arms open before the fabric pulls",
            meaning=(
                "With both hands through the bands, the arms open until the fabric between the bands is "
                "taut. That is the shortest way on the fabric from one arm run to the other, across the "
                "back or across the front over the panel, whichever is shorter, plus both bands. It is held "
                "against twice the typical distance from the centre back neck to the wrist: arms held out "
                "straight. Bands that sit above the wrist need less, so read it together with REACH-BAND."
            ),
            cure=(
                "Work more stitches at the hem or more body rows, deeper arm bands, or move the arm runs: "
                "towards the front when the back is the shorter, towards the back when the front is."
            ),
            origin=f"The way on the fabric is plain geometry; the limit is {COMMON}.",
            limits=("spread_fraction",),
            severities=(Severity.MIND, Severity.GOOD),
        ),
    ),
)
