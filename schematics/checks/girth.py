"""The girth: is there room inside the poncho for chest and both arms."""

from __future__ import annotations

import math
from collections.abc import Iterator

from schematics.checks.finding import Case, Explanation, Family, Finding, Severity
from schematics.checks.ruled import Verdict, verdict
from schematics.checks.rules.size_rules import Answer
from schematics.checks.wording import HIGH, ONE_PERSON, TYPICAL, chance_words, of_body, unknown
from schematics.design.limits import BDIMS, COMMON
from schematics.units import exceeds
from schematics.wearer.body import Body, BodyValue
from schematics.wearer.over_arms import CHEST_DEPTH_SHARE

EASE = "GIRTH-EASE"
_PLACE = "body"


def check(case: Case) -> Iterator[Finding]:
    """The one finding on the girth."""
    needed = [Body.CHEST_GIRTH, Body.UPPER_ARM_GIRTH, Body.ARMHOLE_DEPTH]
    chest, depth = case.wearer.get(Body.CHEST_GIRTH), case.wearer.get(Body.ARMHOLE_DEPTH)
    found = verdict(case, EASE)
    if not case.garment.girths:
        yield case.finding(
            EASE, Severity.GOOD, _PLACE, "The sides are open, so nothing closes round chest and arms."
        )
    elif chest is None or depth is None or found.answer is Answer.UNKNOWN:
        yield unknown(case, EASE, _PLACE, needed, "whether chest and arms have room")
    else:
        yield _ease(case, found, chest, depth)


def _ease(case: Case, found: Verdict, chest: BodyValue, depth: BodyValue) -> Finding:
    lowest, _ = case.garment.girths[-1]
    girth, measured = found.figure("garment_cm"), found.figure("body_cm")
    tight, most = found.figure("tight_fraction"), found.figure("over_arms_cm")
    tape = case.tape
    words = tape.compare(girth, measured)
    room = f"{words.gap} of ease"
    if found.severity is Severity.STOP:
        room = f"{words.gap} too little"
    elif found.severity is Severity.MIND:
        asked = tape.length(case.limits.girth_ease_cm)
        room = f"{room}; {chance_words(tight)} such bodies would find it tight, with less than {asked}"
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
        f"{of_body(chest, HIGH)}) with both upper arms down inside it measures about {words.second}: {room}.",
        depth_cm=min(depth.cm, lowest),
        girth_cm=girth,
        measured_cm=measured,
        ease_cm=found.figure("ease_cm"),
        tight_fraction=tight,
        **({} if math.isnan(most) else {"over_arms_cm": most}),
    )


FAMILY = Family(
    name="girth",
    check=check,
    explanations=(
        Explanation(
            code=EASE,
            title="There is room for chest and both arms",
            meaning=(
                "With the arms down inside it, the poncho goes round the chest and both upper arms. Measured "
                "on adults that is 1.16 times the chest, give or take 0.05: a garment narrower than that is "
                "too narrow for half of those with such a chest, and stops; the chest is the high end of the "
                f"size's. {ONE_PERSON} A wider garment is to be minded "
                "where, so reckoned, more than one such body in ten would have less than the ease asked for, "
                "but never beyond what chest and arms measure at most with that ease: a tape round an oval "
                "chest with a round arm at either side, an upper bound, since arms press into the chest. The "
                "body's girth is read along the centre back at the armhole's depth below the neck edge, "
                "panel included; at the sides the same level lies farther down the fabric, so the real "
                "girth is no less."
            ),
            cure="Work more stitches at the hem, increase faster at the top, or work a wider panel.",
            origin=(
                f"Shoulder girth over chest girth and its spread: {BDIMS}; taken for children, too. The "
                f"upper bound: plain geometry, with a chest {CHEST_DEPTH_SHARE:g} times as deep as broad. "
                "Armhole depths: the size's chart row, else estimated from the back waist length. The depth "
                f"of the chest, the ease and the one in ten: {COMMON}."
            ),
            limits=("girth_body_fraction", "girth_body_sd_fraction", "girth_ease_cm", "girth_tight_fraction"),
        ),
    ),
)
