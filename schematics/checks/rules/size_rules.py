"""Every verdict that depends on the wearer, written once: the checks, groups and pages all go by these.

A rule compares body measurements, facts of the garment and limits. Where what decides it is not known
its answer is `Answer.UNKNOWN`, which the checks report as something to mind. The sentences are the
checks', in `schematics.checks`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from enum import IntEnum
from functools import cache
from typing import Any

from schematics.checks.rules.chance import chance_over, exceeded_by
from schematics.checks.rules.garment_numbers import GIRTH_POINTS
from schematics.design.limits import Limits
from schematics.wearer.body import Body
from schematics.wearer.expr import (
    End,
    Expr,
    Fact,
    OfBody,
    OfWearer,
    Term,
    either,
    every,
    expr_json,
    first,
    least,
    less,
    most,
    node,
    over_nought,
    table,
    terms,
)
from schematics.wearer.over_arms import RATIO_BY_ARM_SHARE


class Answer(IntEnum):
    """What a rule says, the larger the worse."""

    GOOD = 0
    UNKNOWN = 1
    MIND = 2
    STOP = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One verdict.

    It stops where ``stop`` is true, else it is to be minded where ``mind`` is; None is never true.
    ``mind_past`` is how far past its limit to mind it is, in cm: nought or less where it holds. It counts
    only where ``mind_where`` is true or None. Where ``unmeasured`` is true the garment cannot be measured
    for it, which is to be minded, too.

    ``needs`` are the measurements it may need. ``figures`` are numbers behind it: ``body_cm`` is what is
    asked for, ``garment_cm`` what there is and ``ease_cm`` how much there is to spare, in cm; negative is
    too little. Of the hem, ``ease_cm`` is how far it hangs above the knee and below the waist, of the reach
    how far past the wrist.
    """

    code: str
    place: str
    needs: tuple[Body, ...]
    stop: Expr | None = None
    mind_past: Expr | None = None
    mind_where: Expr | None = None
    unmeasured: Expr | None = None
    figures: Mapping[str, Expr] = field(default_factory=dict)

    @property
    def mind(self) -> Expr | None:
        """Whether it is to be minded."""
        if self.mind_past is None:
            return None
        past = over_nought(self.mind_past)
        past = past if self.mind_where is None else every(self.mind_where, past)
        return past if self.unmeasured is None else either(self.unmeasured, past)


def rules_json(rules: Iterable[Rule]) -> dict[str, Any]:
    """The rules as plain JSON values: ``terms``, trees by name, then ``rules`` that may name them."""
    rules = tuple(rules)
    return {
        "terms": {name: expr_json(expr) for name, expr in terms(_trees(rules)).items()},
        "rules": [
            {
                "code": rule.code,
                "place": rule.place,
                "needs": [body.value for body in rule.needs],
                "stop": None if rule.stop is None else expr_json(rule.stop),
                "mind": None if rule.mind is None else expr_json(rule.mind),
                "figures": {name: expr_json(expr) for name, expr in rule.figures.items()},
            }
            for rule in rules
        ],
    }


def _trees(rules: Iterable[Rule]) -> Iterator[Expr]:
    for rule in rules:
        yield from (each for each in (rule.stop, rule.mind, *rule.figures.values()) if each is not None)


_ADULT = less(0.5, OfWearer("adult"))
_CHILD = less(OfWearer("adult"), 0.5)


def _low(body: Body) -> OfBody:
    return OfBody(body, End.LOW)


def _typical(body: Body) -> OfBody:
    return OfBody(body, End.TYPICAL)


def _high(body: Body) -> OfBody:
    return OfBody(body, End.HIGH)


@cache
def size_rules(limits: Limits) -> tuple[Rule, ...]:
    """The rules under these limits, in the order of the checks."""
    return (*_neck(limits), *_arms(limits), _reach(limits), _spread(limits), _girth(limits), *_hang(limits))


def _neck(limits: Limits) -> tuple[Rule, Rule, Rule]:
    head, neck, shoulders = _high(Body.HEAD_GIRTH), _high(Body.NECK_GIRTH), _typical(Body.SHOULDER_BREADTH)
    full, rest, flat = Fact("neck.full_cm"), Fact("neck.rest_cm"), Fact("neck.rest_cm") / 2
    return (
        Rule(
            code="NECK-PASS",
            place="neck",
            needs=(Body.HEAD_GIRTH,),
            stop=less(full, head),
            figures=_figures(head, full),
        ),
        Rule(
            code="NECK-TIGHT",
            place="neck",
            needs=(Body.NECK_GIRTH,),
            stop=less(rest, neck + limits.neck_clearance_cm),
            figures=_figures(neck, rest),
        ),
        Rule(
            code="NECK-SLIP",
            place="neck",
            needs=(Body.SHOULDER_BREADTH,),
            mind_past=flat - shoulders * limits.neck_slip_fraction,
            figures={"body_cm": shoulders, "garment_cm": flat, "ease_cm": shoulders - flat},
        ),
    )


def _arms(limits: Limits) -> tuple[Rule, Rule]:
    hand, wrist = _high(Body.HAND_GIRTH), _typical(Body.WRIST_GIRTH)
    full, rest = Fact("arm.full_cm"), Fact("arm.rest_cm")
    grips = wrist * (1 + limits.arm_rest_low_fraction)
    hangs_loose = wrist * (1 + limits.arm_rest_high_fraction)
    return (
        Rule(
            code="ARM-PASS",
            place="arm bands",
            needs=(Body.HAND_GIRTH,),
            stop=less(full, hand),
            figures=_figures(hand, full),
        ),
        Rule(
            code="ARM-REST",
            place="arm bands",
            needs=(Body.WRIST_GIRTH,),
            mind_past=most(grips - rest, rest - hangs_loose),
            figures=_figures(wrist, rest),
        ),
    )


_UNMEASURED = less(Fact("arms.measured"), 0.5)


def _reach(limits: Limits) -> Rule:
    wrist, forearm = _typical(Body.CENTRE_BACK_NECK_TO_WRIST), _typical(Body.FOREARM_LENGTH)
    reach = Fact("reach_cm")
    above, past = wrist - reach, reach - wrist
    return Rule(
        code="REACH-BAND",
        place="arm bands",
        needs=(Body.CENTRE_BACK_NECK_TO_WRIST, Body.FOREARM_LENGTH),
        mind_past=most(
            least(past - limits.reach_wrist_cm, past - limits.reach_hand_cm),
            least(above - limits.reach_wrist_cm, above - forearm * limits.reach_forearm_fraction),
        ),
        unmeasured=_UNMEASURED,
        figures=_figures(wrist, reach),
    )


def _spread(limits: Limits) -> Rule:
    span, spread = _typical(Body.CENTRE_BACK_NECK_TO_WRIST) * 2, Fact("spread_cm")
    return Rule(
        code="SPREAD-ARMS",
        place="arm bands",
        needs=(Body.CENTRE_BACK_NECK_TO_WRIST,),
        mind_past=span * limits.spread_fraction - spread,
        unmeasured=_UNMEASURED,
        figures=_figures(span, spread),
    )


def _girth(limits: Limits) -> Rule:
    chest, arm = _high(Body.CHEST_GIRTH), _high(Body.UPPER_ARM_GIRTH)
    over_arms = Term("over_arms_cm", chest * table(arm / chest, RATIO_BY_ARM_SHARE))
    points = [(Fact(f"girth.{i}.depth_cm"), Fact(f"girth.{i}.girth_cm")) for i in range(GIRTH_POINTS)]
    girth = Term("girth_cm", table(_typical(Body.ARMHOLE_DEPTH), points))
    closed = less(0.5, Fact("girth.closed"))
    measured, deviation = limits.girth_body_fraction, limits.girth_body_sd_fraction
    ease = limits.girth_ease_cm
    roomy = measured + exceeded_by(limits.girth_tight_fraction) * deviation
    return Rule(
        code="GIRTH-EASE",
        place="body",
        needs=(Body.CHEST_GIRTH, Body.UPPER_ARM_GIRTH, Body.ARMHOLE_DEPTH),
        stop=every(closed, less(girth, chest * measured)),
        mind_past=least(chest * roomy + ease - girth, over_arms + ease - girth),
        mind_where=closed,
        figures={
            **_figures(chest * measured, girth),
            "over_arms_cm": over_arms,
            "tight_fraction": chance_over(((girth - ease) / chest - measured) / deviation),
        },
    )


def _hang(limits: Limits) -> tuple[Rule, Rule]:
    sag = 1 + limits.hem_sag_fraction
    worn, lowest_worn = Fact("drop_cm") * sag, Fact("longest_drop_cm") * sag
    nape, knee = Body.NAPE_HEIGHT, Body.KNEE_HEIGHT
    clearances = [end(nape) - lowest_worn - end(knee) for end in (_low, _typical, _high)]
    lowest, typical = least(*clearances), clearances[1]
    asked = limits.knee_clearance_cm
    waist = first(_typical(Body.BACK_WAIST_LENGTH), _typical(Body.NAPE_HEIGHT) - _typical(Body.WAIST_HEIGHT))
    return (
        Rule(
            code="HANG-KNEE",
            place="hem",
            needs=(nape, knee),
            stop=every(_CHILD, less(lowest, asked)),
            mind_past=node(asked) - typical,
            mind_where=_ADULT,
            figures={
                "body_cm": least(*(end(nape) - end(knee) for end in (_low, _typical, _high))),
                "garment_cm": lowest_worn,
                "ease_cm": lowest,
                "typical_ease_cm": typical,
            },
        ),
        Rule(
            code="HANG-WHERE",
            place="hem",
            needs=(Body.BACK_WAIST_LENGTH, Body.NAPE_HEIGHT, Body.WAIST_HEIGHT),
            mind_past=waist - worn - limits.short_above_waist_cm,
            figures=_figures(waist, worn),
        ),
    )


def _figures(body: Expr, garment: Expr) -> dict[str, Expr]:
    return {"body_cm": body, "garment_cm": garment, "ease_cm": garment - body}
