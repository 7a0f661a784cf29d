"""The arms: does the hand pass, does the band sit well on the wrist, where do the bands go."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.checks.finding import Case, Explanation, Family, Finding, Severity
from schematics.checks.ruled import verdict
from schematics.checks.wording import HIGH, ONE_PERSON, TYPICAL, of_body, percent, unknown
from schematics.crochet.fabric import Counted
from schematics.design.limits import COMMON
from schematics.garment.garment import ArmRun, ArmsOn
from schematics.wearer.body import Body

PASS, REST, PLACE = "ARM-PASS", "ARM-REST", "ARM-PLACE"
_BANDS = "arm bands"


def check(case: Case) -> Iterator[Finding]:
    """The three arm findings of one size."""
    yield _passes(case)
    yield _rests(case)
    yield _placed(case)


def _passes(case: Case) -> Finding:
    hand = case.wearer.get(Body.HAND_GIRTH)
    if hand is None:
        return unknown(case, PASS, _BANDS, [Body.HAND_GIRTH], "whether the hand passes the arm bands")
    ring = case.garment.arm.ring
    words = case.tape.compare(hand.high_cm, ring.full_cm)
    subject = f"The hand ({words.first}, {of_body(hand, HIGH)})"
    severity = verdict(case, PASS).severity
    sentence = (
        f"{subject} does not pass: the arm band opens to {words.second}, {words.gap} too little."
        if severity is Severity.STOP
        else f"{subject} passes the arm band, which opens to {words.second}."
    )
    return case.finding(
        PASS,
        severity,
        _BANDS,
        sentence,
        hand_cm=hand.high_cm,
        edge_full_cm=ring.edge_full_cm,
        band_full_cm=ring.band_full_cm,
        opens_cm=ring.full_cm,
    )


def _rests(case: Case) -> Finding:
    wrist = case.wearer.get(Body.WRIST_GIRTH)
    if wrist is None:
        return unknown(case, REST, _BANDS, [Body.WRIST_GIRTH], "how the arm bands sit on the wrist")
    rest = case.garment.arm.ring.rest_cm
    low, high = case.limits.arm_rest_low_fraction, case.limits.arm_rest_high_fraction
    fraction = rest / wrist.cm - 1
    severity = verdict(case, REST).severity
    good = severity is Severity.GOOD
    words = case.tape.compare(rest, wrist.cm)
    side = "within" if good else "outside"
    sits = "it sits well" if good else "it grips" if fraction < low else "it hangs loose"
    allowed = f"{percent(low, signed=True)} to {percent(high, signed=True)}"
    return case.finding(
        REST,
        severity,
        _BANDS,
        f"At rest the arm band ({words.first}) is {percent(abs(fraction), abs(low), abs(high))} "
        f"{'tighter' if fraction < 0 else 'wider'} than the wrist ({words.second}, "
        f"{of_body(wrist, TYPICAL)}), {side} {allowed}: {sits}.",
        rest_cm=rest,
        wrist_cm=wrist.cm,
        ease_fraction=fraction,
    )


def _placed(case: Case) -> Finding:
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
    return case.finding(PLACE, Severity.GOOD if fault is None else Severity.STOP, _BANDS, sentence, **figures)


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


FAMILY = Family(
    name="arms",
    check=check,
    explanations=(
        Explanation(
            code=PASS,
            title="The hand passes the arm band",
            meaning=(
                "The arm band is a closed ring: the whole hand with the thumb laid in has to pass it. It "
                "opens as far as the tighter of the run of edge it is worked on and the ribbing, each at "
                f"full stretch. Judged against the high end of the size's hands. {ONE_PERSON}"
            ),
            cure="Lengthen the arm run by an even number of stitches, or work a stretchier or looser rib.",
            origin=(
                "Plain geometry; no allowance is added. Hand girths: pi times the smallest hole the hand "
                "passes, from a United States survey of children (1977), or the size's own measurement."
            ),
        ),
        Explanation(
            code=REST,
            title="The arm band sits well on the wrist",
            meaning=(
                "Unstretched, a band much tighter than the wrist marks the skin and one much wider slides "
                "over the hand. Judged against the typical wrist of the size."
            ),
            cure="Shorten or lengthen the arm run by an even number of stitches, or change the rib's gauge.",
            origin=COMMON,
            limits=("arm_rest_low_fraction", "arm_rest_high_fraction"),
            severities=(Severity.MIND, Severity.GOOD),
        ),
        Explanation(
            code=PLACE,
            title="Both arm runs lie on the edge",
            meaning=(
                "Each arm band is worked onto a run of hem stitches, or of row ends where the sides open "
                "for the hands. Both runs must lie on their edge, must not overlap, and on the hem must "
                "leave some of it free across the back. The numbers tell which stitches or row ends to "
                "mark: the first and the last of each run belong to it, counted from the wearer's right "
                "front seam, or up each side from the front hem. Whether a run is even is COUNT-EVEN's to "
                "say."
            ),
            cure="Start the run nearer the front, make it shorter, or make that edge longer.",
            origin="Plain counting.",
            severities=(Severity.STOP, Severity.GOOD),
        ),
    ),
)
