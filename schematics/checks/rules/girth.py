"""The girth: is there room inside the poncho for chest and both arms."""

from __future__ import annotations

import math
from statistics import NormalDist

from schematics.checks.rules.garment_numbers import GIRTH_POINTS
from schematics.checks.rules.rule import ONE_PERSON, About, Rule, high, spare, typical
from schematics.checks.rules.sentence import (
    IN_WORDS,
    Sentence,
    Words,
    compared,
    for_any,
    length,
    origin,
    to_mind,
    to_stop,
)
from schematics.design.limits import BDIMS, COMMON, Limits
from schematics.wearer.body import Body
from schematics.wearer.expr import Expr, Fact, Lookup, Term, every, least, less, table
from schematics.wearer.over_arms import CHEST_DEPTH_SHARE, RATIO_BY_ARM_SHARE

_NORMAL = NormalDist()
_FARTHEST, _STEPS = 4, 20
_POINTS = tuple(
    (step / _STEPS, round(1 - _NORMAL.cdf(step / _STEPS), 6))
    for step in range(-_FARTHEST * _STEPS, _FARTHEST * _STEPS + 1)
)


def chance_over(deviations: Expr) -> Lookup:
    """The chance of lying more than so many standard deviations above the mean, to 0.0001."""
    return table(deviations, _POINTS)


def exceeded_by(chance: float) -> float:
    """How many standard deviations above the mean is exceeded with this chance, over 0 and below 1."""
    return _NORMAL.inv_cdf(1 - chance)


def has_room(limits: Limits) -> Rule:
    """Chest and arms have room."""
    chest, arm, depth = high(Body.CHEST_GIRTH), high(Body.UPPER_ARM_GIRTH), typical(Body.ARMHOLE_DEPTH)
    over_arms = Term("over_arms_cm", chest * table(arm / chest, RATIO_BY_ARM_SHARE))
    points = [(Fact(f"girth.{i}.depth_cm"), Fact(f"girth.{i}.girth_cm")) for i in range(GIRTH_POINTS)]
    girth = Term("girth_cm", table(depth, points))
    closed, hem = less(0.5, Fact("girth.closed")), Fact("drop_cm")
    measured, deviation = limits.girth_body_fraction, limits.girth_body_sd_fraction
    ease = limits.girth_ease_cm
    roomy = measured + exceeded_by(limits.girth_tight_fraction) * deviation
    tight = chance_over(((girth - ease) / chest - measured) / deviation)
    return Rule(
        code="GIRTH-EASE",
        place="body",
        stop=every(closed, less(girth, chest * measured)),
        mind_past=least(chest * roomy + ease - girth, over_arms + ease - girth),
        mind_where=closed,
        figures={**spare(chest * measured, girth), "over_arms_cm": over_arms, "tight_fraction": tight},
        reported={
            "depth_cm": least(depth, hem),
            "girth_cm": girth,
            "measured_cm": chest * measured,
            "ease_cm": girth - chest * measured,
            "tight_fraction": tight,
            "over_arms_cm": over_arms,
        },
        sentence=Sentence(
            subject="whether chest and arms have room",
            clauses=(
                (
                    Words(
                        text="The sides are open, so nothing closes round chest and arms.",
                        when=less(Fact("girth.closed"), 0.5),
                        last=True,
                    ),
                    for_any("At the hem, which lies above chest depth, ", when=less(hem, depth)),
                    for_any("At chest depth ({depth} below the neck edge, {of_depth}), "),
                ),
                (
                    for_any(
                        "the body is {girth} round; the chest ({chest}, {of_chest}) with both upper "
                        "arms down inside it measures about {measured}: "
                    ),
                ),
                (to_stop("{gap} too little."), to_mind("{gap} of ease; "), for_any("{gap} of ease.")),
                tuple(
                    to_mind(
                        f"{who} such bodies would find it tight, with less than {{asked}}.",
                        when=less(tight, below) if math.isfinite(below) else None,
                    )
                    for below, who in IN_WORDS
                ),
            ),
            printed=(
                compared("girth measured gap", girth, chest * measured),
                length("depth", depth),
                length("chest", chest),
                length("asked", ease),
                origin("of_depth", depth),
                origin("of_chest", chest),
            ),
            amiss=(for_any("chest and arms have too little room"),),
        ),
        about=About(
            title="There is room for chest and both arms",
            meaning=(
                "With the arms down inside it, the poncho goes round the chest and both upper arms. "
                f"Measured on adults that is {limits.girth_body_fraction:.2f} times the chest, give or "
                f"take {limits.girth_body_sd_fraction:.2f}: a garment narrower "
                "than that is too narrow for half of those with such a chest, and stops; the chest is the "
                f"high end of the size's. {ONE_PERSON} A wider garment is to be minded "
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
                f"upper bound: plain geometry, with a chest {CHEST_DEPTH_SHARE:g} times as deep as broad, as "
                "theirs are on average; it is 16 % above what they measure on average, 34 % at most. "
                "Armhole depths: the size's chart row, else estimated from the back waist length. "
                f"The ease and the one in ten: {COMMON}."
            ),
            limits=("girth_body_fraction", "girth_body_sd_fraction", "girth_ease_cm", "girth_tight_fraction"),
            spare="body over chest and arms",
            kept="chest and both arms have room",
            remedy="a body {miss} wider round the chest",
        ),
    )
