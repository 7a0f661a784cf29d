"""The hang: where the hem comes on the body, and whether a child can trip on it.

Lengths are taken down from the nape, where the neck edge lies: along the centre back, and for the knee
to the place of the hem farthest from the neck edge, such as a corner. The body is taken to sag by
`Limits.hem_sag_fraction` when worn.
"""

from __future__ import annotations

from typing import TypeVar

from schematics.checks.rules.rule import ADULT, CHILD, ONE_PERSON, About, Rule, high, low, spare, typical
from schematics.checks.rules.sentence import (
    Sentence,
    Shown,
    Words,
    compared,
    for_any,
    length,
    to_mind,
    to_stop,
)
from schematics.design.limits import COMMON, Limits
from schematics.wearer.body import Body
from schematics.wearer.expr import (
    Expr,
    Fact,
    OfWearer,
    at_most,
    either,
    every,
    first,
    is_known,
    least,
    less,
    node,
)

Length = TypeVar("Length", float, Expr)

KNEE, WHERE = "HANG-KNEE", "HANG-WHERE"
KNEE_CURE = "Work fewer body rows, and as many fewer panel rows as the seam needs."

_CORNER_CM = 0.5
"""A place of the hem that lies so much farther from the neck than its middle is called a corner."""


def worn_cm(length_cm: Length, limits: Limits) -> Length:
    """How long it hangs when worn, sag included."""
    return length_cm * (1 + limits.hem_sag_fraction)


def shorten_words(limits: Limits, shorter: str, *, sags: bool = True) -> str:
    """By how much to shorten the body, and of what ``sags`` why that is less than the hem is to rise."""
    more_percent = 100 * limits.hem_sag_fraction
    flat = f" laid flat, since it hangs {more_percent:g} % longer when worn" if sags and more_percent else ""
    return f"shorten the body by at least {shorter}{flat}"


def clears_knee(limits: Limits) -> Rule:
    """The hem stays above the knee."""
    nape, knee, asked = Body.NAPE_HEIGHT, Body.KNEE_HEIGHT, limits.knee_clearance_cm
    farthest = Fact("longest_drop_cm")
    worn = worn_cm(farthest, limits)
    free = [end(nape) - end(knee) for end in (low, typical, high)]
    adult = OfWearer("adult")
    longest = free[1] * adult + least(*free) * (node(1.0) - adult)
    clearance = longest - worn
    shorten = shorten_words(limits, "{shorter}")
    worst_end = every(CHILD, less(least(*free), high(nape) - low(knee)))
    return Rule(
        code=KNEE,
        place="hem",
        stop=every(CHILD, less(least(*free) - worn, asked)),
        mind_past=node(asked) - (free[1] - worn),
        mind_where=ADULT,
        stops_for=CHILD,
        figures={
            "body_cm": longest,
            "garment_cm": worn,
            "ease_cm": clearance,
        },
        reported={"drop_cm": farthest, "worn_cm": worn, "clearance_cm": clearance},
        sentence=Sentence(
            subject="whether the hem stays above the knee",
            clauses=(
                (
                    for_any(
                        "Worn, the hem's lowest corner ", when=at_most(_CORNER_CM, farthest - Fact("drop_cm"))
                    ),
                    for_any("Worn, the hem "),
                ),
                (to_stop("can come "), to_mind("comes "), for_any("stays ")),
                (for_any("{gap} below the knee", when=less(clearance, 0.0)), for_any("{gap} above the knee")),
                (for_any(" at the worst end of the size", when=worst_end),),
                (
                    to_stop(f", where a child trips: {shorten}"),
                    to_mind(f": {shorten}"),
                ),
                (for_any("{borrowed}.", uses=(nape, knee)),),
            ),
            printed=(
                compared("longest worn gap", longest, worn),
                length("shorter", (node(asked) - clearance) / (1 + limits.hem_sag_fraction), Shown.AT_LEAST),
            ),
            amiss=(for_any(f"the hem comes {'too near' if asked > 0 else 'below'} the knee"),),
        ),
        about=About(
            title="The hem stays above the knee",
            meaning=(
                "A hem below the knee catches the feet on stairs and play equipment: a child trips. The "
                "drop from nape to hem, with the sag of a worn body added, is taken from the nape's height "
                "and held against the knee's, for a small, a typical and a large child of the size (low "
                "nape with low knee, high with high), and the worst of the three counts. "
                f"{ONE_PERSON} For adults it is a "
                "matter of looks and is judged on the typical body. What counts is the place of the hem that "
                "lies farthest from the neck edge: all of a flared hem, the corners of a folded or mitred "
                "one. On its way over the shoulder a corner loses a little height less than that, so the "
                "check is on the strict side; a front whose neck edge starts lower hangs lower, so try it on."
            ),
            cure=KNEE_CURE,
            origin=f"The rule and both limits: {COMMON}.",
            limits=("hem_sag_fraction", "knee_clearance_cm"),
            spare="hem above the knee",
            kept="the hem's lowest place stays above the knee",
            remedy="a body that hangs {miss} shorter",
        ),
    )


def hem_place(limits: Limits) -> Rule:
    """Between which of waist, hip and knee the hem comes."""
    drop = Fact("drop_cm")
    worn = worn_cm(drop, limits)
    nape, back = typical(Body.NAPE_HEIGHT), typical(Body.BACK_WAIST_LENGTH)
    waist = first(back, nape - typical(Body.WAIST_HEIGHT))
    hip, knee = nape - typical(Body.HIP_HEIGHT), nape - typical(Body.KNEE_HEIGHT)
    below = {
        "waist": (waist, (Body.NAPE_HEIGHT, Body.WAIST_HEIGHT)),
        "hip": (hip, (Body.NAPE_HEIGHT, Body.HIP_HEIGHT)),
        "knee": (knee, (Body.NAPE_HEIGHT, Body.KNEE_HEIGHT)),
    }
    used = (Body.BACK_WAIST_LENGTH, Body.NAPE_HEIGHT, Body.WAIST_HEIGHT, Body.HIP_HEIGHT, Body.KNEE_HEIGHT)
    serves_many = either(*(less(low(body), high(body)) for body in used))
    passed = {name: at_most(depth, worn) for name, (depth, _) in below.items()}
    ahead = {name: less(worn, depth) for name, (depth, _) in below.items()}

    def words(name: str, side: str, where: Expr) -> tuple[Words, ...]:
        text, uses = f"{{{name}}} {side} the {name}", below[name][1]
        if name != "waist":
            return (for_any(text, when=where, uses=uses),)
        by_back = for_any(text, when=every(where, is_known(back)), uses=(Body.BACK_WAIST_LENGTH,))
        return by_back, for_any(text, when=where, uses=uses)

    return Rule(
        code=WHERE,
        place="hem",
        asks=(Body.BACK_WAIST_LENGTH,),
        mind_past=waist - worn - limits.short_above_waist_cm,
        figures=spare(waist, worn),
        reported={"drop_cm": drop, "worn_cm": worn, "waist_cm": waist, "hip_cm": hip, "knee_cm": knee},
        sentence=Sentence(
            subject="where the hem comes",
            clauses=(
                (
                    for_any("On the typical wearer the hem comes ", when=serves_many),
                    for_any("Worn, the hem comes "),
                ),
                tuple(each for name in reversed(below) for each in words(name, "below", passed[name])),
                (for_any(" and ", when=every(either(*passed.values()), either(*ahead.values()))),),
                tuple(each for name in below for each in words(name, "above", ahead[name])),
                (to_mind("{borrowed}; is a short cape meant?"), for_any("{borrowed}.")),
            ),
            printed=tuple(
                compared(f"{name}_depth {name}_worn {name}", depth, worn)
                for name, (depth, _) in below.items()
            ),
            amiss=(for_any("the hem ends above the waist"),),
        ),
        about=About(
            title="Where the hem comes on the body",
            meaning=(
                "Tells between which of waist, hip and knee the hem comes on a typical body of the size, "
                "measured down the centre back with the sag of a worn body added. A hem above the waist is "
                "worth a look: it may be meant."
            ),
            cure=("Work more body rows; or, where a short cape is meant, raise the limit above the waist."),
            origin=COMMON,
            limits=("hem_sag_fraction", "short_above_waist_cm"),
            spare="hem below the waist",
        ),
    )
