"""The arm bands: does the hand go through, does the band sit well on the wrist."""

from __future__ import annotations

from schematics.checks.rules.rule import ONE_PERSON, About, Rule, high, spare, typical
from schematics.checks.rules.sentence import (
    Answer,
    Sentence,
    Shown,
    Words,
    compared,
    for_any,
    origin,
    percent,
    to_stop,
)
from schematics.design.limits import COMMON, Limits
from schematics.wearer.body import Body
from schematics.wearer.expr import Expr, Fact, less, most, size_of

PASS, REST = "ARM-PASS", "ARM-REST"

_FAR_OFF = 1e6
"""A share that prints like no other."""


def passes_hand(_: Limits) -> Rule:
    """The hand goes through."""
    hand, full = high(Body.HAND_GIRTH), Fact("arm.full_cm")
    return Rule(
        code=PASS,
        place="arm bands",
        stop=less(full, hand),
        figures=spare(hand, full),
        reported={
            "hand_cm": hand,
            "edge_full_cm": Fact("arm.edge_full_cm"),
            "band_full_cm": Fact("arm.band_full_cm"),
            "opens_cm": full,
        },
        sentence=Sentence(
            subject="whether the hand goes through the arm bands",
            clauses=(
                (
                    to_stop(
                        "The hand ({hand}, {of_hand}) does not go through: the arm band opens to "
                        "{opens}, {gap} too little."
                    ),
                    for_any(
                        "The hand ({hand}, {of_hand}) goes through the arm band, which opens to {opens}."
                    ),
                ),
            ),
            printed=(compared("hand opens gap", hand, full), origin("of_hand", hand)),
            amiss=(for_any("the hand does not go through the arm bands"),),
        ),
        about=About(
            title="The hand goes through the arm band",
            meaning=(
                "The arm band is a closed ring: the whole hand with the thumb laid in has to go through it. "
                "It opens as far as the tighter of the run of edge it is worked on and the ribbing, each at "
                f"full stretch. Judged against the high end of the size's hands. {ONE_PERSON}"
            ),
            cure="Lengthen the arm run by an even number of stitches, or work a stretchier or looser rib.",
            origin=(
                "Plain geometry; no allowance is added. Hand girths: pi times the smallest hole the hand "
                "goes through, from a United States survey of children (1977), or the size's own measurement."
            ),
            spare="band stretched over hand",
            kept="the hand goes through the arm bands, stretched",
            remedy="arm bands that open {miss} wider: more stretch or stitches",
        ),
    )


def _on_its_side(limit: float, ease: Expr) -> Expr:
    """The size of a limit; far off everything where the ease is on the other side of nought."""
    across = most(ease * (-1.0 if limit > 0 else 1.0), 0.0)
    return across * _FAR_OFF + abs(limit)


def sits_on_wrist(limits: Limits) -> Rule:
    """The band sits well on the wrist."""
    wrist, rest = typical(Body.WRIST_GIRTH), Fact("arm.rest_cm")
    lowest, highest = limits.arm_rest_low_fraction, limits.arm_rest_high_fraction
    grips, hangs_loose = wrist * (1 + lowest), wrist * (1 + highest)
    edge, band = Fact("arm.edge_cm"), Fact("arm.band_cm")
    ease = rest / wrist - 1
    return Rule(
        code=REST,
        place="arm bands",
        mind_past=most(grips - rest, rest - hangs_loose),
        figures=spare(wrist, rest),
        reported={"rest_cm": rest, "wrist_cm": wrist, "ease_fraction": ease},
        sentence=Sentence(
            subject="how the arm bands sit on the wrist",
            clauses=(
                (
                    for_any(
                        "At rest the edge under the arm band ({rest}) is {share} ", when=less(edge, band)
                    ),
                    for_any("At rest the arm band ({rest}) is {share} "),
                ),
                (for_any("tighter", when=less(rest, wrist)), for_any("wider")),
                (for_any(" than the wrist ({wrist}, {of_wrist}), "),),
                (
                    Words(text="within {lowest} to {highest}: it sits well.", answer=Answer.GOOD),
                    for_any("outside {lowest} to {highest}: it grips.", when=less(rest, grips)),
                    for_any("outside {lowest} to {highest}: it hangs loose."),
                ),
            ),
            printed=(
                compared("rest wrist gap", rest, wrist),
                percent("share", size_of(ease), *(_on_its_side(each, ease) for each in (lowest, highest))),
                percent("lowest", lowest, kind=Shown.SIGNED),
                percent("highest", highest, kind=Shown.SIGNED),
                origin("of_wrist", wrist),
            ),
            amiss=(
                for_any("the arm bands grip the wrist", when=less(rest - grips, hangs_loose - rest)),
                for_any("the arm bands hang loose on the wrist"),
            ),
        ),
        about=About(
            title="The arm band sits well on the wrist",
            meaning=(
                "Unstretched, a band much tighter than the wrist marks the skin and one much wider slides "
                "over the hand. Judged against the typical wrist of the size."
            ),
            cure="Shorten or lengthen the arm run by an even number of stitches, or change the rib's gauge.",
            origin=COMMON,
            limits=("arm_rest_low_fraction", "arm_rest_high_fraction"),
            spare="band at rest over wrist",
        ),
    )
