"""The reach and the spread: where on the arm the bands come, and how far the arms open."""

from __future__ import annotations

from schematics.checks.rules.rule import About, Rule, spare, typical
from schematics.checks.rules.sentence import (
    Clause,
    Sentence,
    Words,
    compared,
    for_any,
    length,
    origin,
    percent,
    to_mind,
)
from schematics.design.limits import COMMON, Limits
from schematics.wearer.body import Body
from schematics.wearer.expr import Fact, at_most, every, least, less, most, size_of

BAND, SPREAD = "REACH-BAND", "SPREAD-ARMS"

_UNMEASURED = less(Fact("arms.measured"), 0.5)
_ON_EDGE = less(0.5, Fact("arms.on_edge"))


def _first(unmeasured: str, *words: Words) -> Clause:
    """The words; where paths on the fabric cannot be measured, only why."""
    return (
        Words(
            text=f"{unmeasured} cannot be found, because the body overlaps itself laid flat.",
            when=every(_UNMEASURED, _ON_EDGE),
            last=True,
        ),
        Words(
            text=f"{unmeasured} cannot be found, because the arm run does not lie on its edge.",
            when=_UNMEASURED,
            last=True,
        ),
        *words,
    )


def reach(limits: Limits) -> Rule:
    """Where on the arm the bands come."""
    wrist, forearm = typical(Body.CENTRE_BACK_NECK_TO_WRIST), typical(Body.FOREARM_LENGTH)
    reach = Fact("reach_cm")
    above, past = wrist - reach, reach - wrist
    share = limits.reach_forearm_fraction
    return Rule(
        code=BAND,
        place="arm bands",
        mind_past=most(
            least(past - limits.reach_wrist_cm, past - limits.reach_hand_cm),
            least(above - limits.reach_wrist_cm, above - forearm * share),
        ),
        unmeasured=_UNMEASURED,
        figures=spare(wrist, reach),
        reported={
            "reach_cm": reach,
            "wrist_cm": wrist,
            "above_wrist_cm": above,
            "band_depth_cm": Fact("band_depth_cm"),
            "forearm_cm": forearm,
        },
        sentence=Sentence(
            subject="where on the arm the bands come",
            clauses=(
                _first(
                    "Where on the arm the bands come",
                    for_any(
                        "Drawn out along the arm, the arm band ends {reach} from the centre back neck; "
                        "the wrist is at {wrist} ({of_wrist}): the band ends "
                    ),
                ),
                (
                    for_any("at the wrist", when=at_most(size_of(above), 0.0)),
                    for_any(
                        "at the wrist, {gap} above it",
                        when=every(at_most(above, limits.reach_wrist_cm), less(reach, wrist)),
                    ),
                    for_any(
                        "at the wrist, {gap} past it",
                        when=every(at_most(past, limits.reach_wrist_cm), less(wrist, reach)),
                    ),
                    for_any("{gap} above the wrist", when=less(reach, wrist)),
                    for_any("{gap} over the hand"),
                ),
                (
                    to_mind(
                        ", over {share} of the forearm ({forearm}, {of_forearm}).", when=less(reach, wrist)
                    ),
                    to_mind(", where it is in the way."),
                    for_any("."),
                ),
            ),
            printed=(
                compared("reach wrist gap", reach, wrist),
                percent("share", share),
                length("forearm", forearm),
                origin("of_wrist", wrist),
                origin("of_forearm", forearm),
            ),
            amiss=(
                for_any("it cannot be told where on the arm the bands end", when=_UNMEASURED),
                for_any("the arm bands end high above the wrist", when=less(reach, wrist)),
                for_any("the arm bands come over the hand"),
            ),
        ),
        about=About(
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
            spare="band past the wrist",
        ),
    )


def spread(limits: Limits) -> Rule:
    """How far the arms open before the fabric pulls."""
    wrist, limit = typical(Body.CENTRE_BACK_NECK_TO_WRIST), limits.spread_fraction
    span, spread = wrist * 2, Fact("spread_cm")
    back, front = Fact("spread_back_cm"), Fact("spread_front_cm")
    return Rule(
        code=SPREAD,
        place="arm bands",
        mind_past=span * limit - spread,
        unmeasured=_UNMEASURED,
        figures=spare(span, spread),
        reported={
            "spread_back_cm": back,
            "spread_front_cm": front,
            "span_cm": span,
            "spread_fraction": spread / span,
        },
        sentence=Sentence(
            subject="how far the arms open",
            clauses=(
                _first(
                    "How far the arms open",
                    for_any(
                        "From band edge to band edge the fabric spans {back} across the back and "
                        "{front} across the front; the smaller is {share} of twice centre back neck to "
                        "wrist ({span}, {of_wrist}): "
                    ),
                ),
                (
                    to_mind("less than {limit}, it pulls when the arms open."),
                    for_any("the arms open freely."),
                ),
            ),
            printed=(
                length("back", back),
                length("front", front),
                length("span", span),
                percent("share", spread / span, limit),
                percent("limit", limit),
                origin("of_wrist", wrist),
            ),
            amiss=(
                for_any("it cannot be told how far the arms open", when=_UNMEASURED),
                for_any("the fabric pulls when the arms open"),
            ),
        ),
        about=About(
            title="The arms open before the fabric pulls",
            meaning=(
                "With both hands through the bands, the arms open until the fabric between the bands is "
                "taut. That is the shortest way on the fabric from one arm run to the other, across the "
                "back or across the front over the panel, whichever is shorter, plus both bands. It is held "
                "against twice the typical distance from the centre back neck to the wrist: arms held out "
                "straight. Bands that sit above the wrist need less, so read it together with where on the "
                "arm the band comes."
            ),
            cure=(
                "Work more stitches at the hem or more body rows, deeper arm bands, or move the arm runs: "
                "towards the front when the back is the shorter, towards the back when the front is."
            ),
            origin=f"The way on the fabric is plain geometry; the limit is {COMMON}.",
            limits=("spread_fraction",),
            spare="spread over both arms",
        ),
    )
