"""The girth: is there room inside the poncho for chest and both arms."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.checks.finding import Case, Explanation, Family, Finding, Severity
from schematics.checks.ruled import verdict
from schematics.checks.wording import HIGH, TYPICAL, exceeds, of_body, unknown
from schematics.limits import COMMON
from schematics.over_arms import CHEST_DEPTH_SHARE
from schematics.wearer.body import Body, Value

EASE = "GIRTH-EASE"
_PLACE = "body"


def check(case: Case) -> Iterator[Finding]:
    """The one finding on the girth."""
    needed = [Body.CHEST_GIRTH, Body.UPPER_ARM_GIRTH, Body.ARMHOLE_DEPTH]
    chest, arm, depth = (case.wearer.get(body) for body in needed)
    if not case.garment.girths:
        yield case.finding(
            EASE, Severity.GOOD, _PLACE, "The sides are open, so nothing closes round chest and arms."
        )
    elif chest is None or arm is None or depth is None:
        yield unknown(case, EASE, _PLACE, needed, "whether chest and arms have room")
    else:
        yield _ease(case, chest, arm, depth)


def _ease(case: Case, chest: Value, arm: Value, depth: Value) -> Finding:
    lowest, _ = case.garment.girths[-1]
    found = verdict(case, EASE)
    girth, most = found.figure("garment_cm"), found.figure("body_cm")
    tape = case.tape
    words = tape.compare(girth, most)
    room = f"{words.gap} of ease"
    if found.severity is Severity.STOP:
        room = f"{words.gap} too little"
    elif found.severity is Severity.MIND:
        room = f"{room}, less than {tape.length(case.limits.girth_ease_cm)}, it is close"
    level = (
        "At the hem, which lies above chest depth"
        if exceeds(depth.cm, lowest)
        else f"At chest depth ({tape.length(depth.cm)} below the neck edge, {of_body(depth, TYPICAL)})"
    )
    return case.finding(
        EASE,
        found.severity,
        _PLACE,
        f"{level}, the body is {words.first} round; the chest ({tape.length(chest.high_cm)}, "
        f"{of_body(chest, HIGH)}) with both upper arms ({tape.length(arm.high_cm)}, {of_body(arm, HIGH)}) "
        f"down inside it measures at most {words.second}: {room}.",
        depth_cm=min(depth.cm, lowest),
        girth_cm=girth,
        over_arms_cm=most,
        ease_cm=found.figure("ease_cm"),
    )


FAMILY = Family(
    name="girth",
    check=check,
    explanations=(
        Explanation(
            code=EASE,
            title="There is room for chest and both arms",
            meaning=(
                "With the arms down inside it, the poncho goes round the chest and both upper arms. How much "
                "that is at most is reckoned from the high end of the size's chest and upper arm girths: a "
                "tape round an oval chest with a round arm at either side. It is an upper bound, since arms "
                "press into the chest: measured on adults, the girth round the shoulders is about 1.16 "
                "times the chest, where this gives up to 1.33. So a little ease goes a long way, and where "
                "the check stops a size a try-on may still overrule it. The body's girth is read along the "
                "centre back at the armhole's depth below the neck edge, panel included; at the sides the "
                "same level lies farther down the fabric, so the real girth is no less."
            ),
            cure="Work more stitches at the hem, increase faster at the top, or work a wider panel.",
            origin=(
                f"Plain geometry, with a chest {CHEST_DEPTH_SHARE:g} times as deep as it is broad. Shoulder "
                "girths: the bdims data of 507 adults, published with openintro. Armhole depths: the "
                "size's chart row, else estimated from the back waist length. The depth of the chest and "
                f"the limit: {COMMON}."
            ),
            limits=("girth_ease_cm",),
        ),
    ),
)
