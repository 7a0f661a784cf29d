"""The page's sentences: for every rule and answer the words, and the figures that go into them.

A sentence may hold ``{body}``, ``{garment}`` and ``{gap}``, the rule's figures of those names and how far
they are apart, and figures of its own. The page writes them in the maker's unit, as coarsely as tells
body and garment apart.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from schematics.checks.rules.chance import IN_WORDS
from schematics.checks.rules.size_rules import Answer, Rule
from schematics.design.limits import Limits
from schematics.wearer.expr import Const, Expr, Fact, expr_json, less


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """One sentence for an answer, where ``when`` holds or is None.

    ``lengths`` and ``percents`` are figures of its own: centimetres, and fractions.
    """

    answer: Answer
    words: str
    when: Expr | None = None
    lengths: Mapping[str, Expr] = field(default_factory=dict)
    percents: Mapping[str, Expr] = field(default_factory=dict)


WHAT: Mapping[str, str] = {
    "NECK-PASS": "whether the head goes through the neck",
    "NECK-TIGHT": "whether the neck is tight",
    "NECK-SLIP": "whether the neck slips off a shoulder",
    "ARM-PASS": "whether the hand goes through the arm bands",
    "ARM-REST": "how the arm bands sit on the wrist",
    "REACH-BAND": "where on the arm the bands come",
    "SPREAD-ARMS": "how far the arms open",
    "GIRTH-EASE": "whether there is room for chest and arms",
    "HANG-KNEE": "whether the hem stays above the knee",
    "HANG-WHERE": "where the hem comes",
}
"""What each rule is about, to say when it could not be checked."""


def reasons(rule: Rule, limits: Limits) -> tuple[Reason, ...]:
    """The sentences of a rule; the first that suits is meant, and one suits every answer it can give.

    Raises:
        KeyError: the rule has no sentences.
    """
    return tuple(_SENTENCES[rule.code](rule, limits))


def reasons_json(rule: Rule, limits: Limits) -> list[dict[str, Any]]:
    """The sentences as plain JSON values."""
    return [
        {
            "answer": each.answer.name.lower(),
            "when": None if each.when is None else expr_json(each.when),
            "words": each.words,
            "lengths": {name: expr_json(expr) for name, expr in each.lengths.items()},
            "percents": {name: expr_json(expr) for name, expr in each.percents.items()},
        }
        for each in reasons(rule, limits)
    ]


_UNMEASURED = less(Fact("arms.measured"), 0.5)


def _head(_rule: Rule, _limits: Limits) -> Iterator[Reason]:
    yield Reason(
        answer=Answer.STOP,
        words="The head ({body}) does not go through: the neck opens to {garment}, {gap} too little.",
    )
    yield Reason(
        answer=Answer.GOOD, words="The head ({body}) goes through the neck, which opens to {garment}."
    )


def _tight(_rule: Rule, limits: Limits) -> Iterator[Reason]:
    yield Reason(
        answer=Answer.STOP,
        words=(
            "At rest the neck opening ({garment}) is tight on the neck ({body}): it should be at least "
            "{clearance} wider."
        ),
        lengths={"clearance": Const(limits.neck_clearance_cm)},
    )
    yield Reason(
        answer=Answer.GOOD, words="At rest the neck opening ({garment}) clears the neck ({body}) by {gap}."
    )


def _slips(_rule: Rule, limits: Limits) -> Iterator[Reason]:
    flat = "Laid flat the neck opening is {garment} wide, the shoulders {body}: "
    yield Reason(
        answer=Answer.MIND,
        words=f"{flat}over {{limit}} of them, it may slip off.",
        percents={"limit": Const(limits.neck_slip_fraction)},
    )
    yield Reason(answer=Answer.GOOD, words=f"{flat}it stays on.")


def _hand(_rule: Rule, _limits: Limits) -> Iterator[Reason]:
    yield Reason(
        answer=Answer.STOP,
        words="The hand ({body}) does not go through: the arm band opens to {garment}, {gap} too little.",
    )
    yield Reason(
        answer=Answer.GOOD, words="The hand ({body}) goes through the arm band, which opens to {garment}."
    )


def _wrist(rule: Rule, _limits: Limits) -> Iterator[Reason]:
    band, ease = "At rest the arm band ({garment}) ", rule.figures["ease_cm"]
    yield Reason(
        answer=Answer.MIND,
        when=less(ease, 0.0),
        words=f"{band}is {{gap}} tighter than the wrist ({{body}}): it grips.",
    )
    yield Reason(
        answer=Answer.MIND, words=f"{band}is {{gap}} wider than the wrist ({{body}}): it hangs loose."
    )
    yield Reason(answer=Answer.GOOD, words=f"{band}sits well on the wrist ({{body}}).")


def _reach(rule: Rule, _limits: Limits) -> Iterator[Reason]:
    reaches = "Along the arm the band ends {garment} from the centre back neck, the wrist is at {body}"
    yield Reason(
        answer=Answer.MIND,
        when=_UNMEASURED,
        words="Where on the arm the bands come cannot be worked out for this size.",
    )
    yield Reason(
        answer=Answer.MIND,
        when=less(rule.figures["ease_cm"], 0.0),
        words=f"{reaches}: {{gap}} above it, much of the forearm stays bare.",
    )
    yield Reason(answer=Answer.MIND, words=f"{reaches}: {{gap}} over the hand, in its way.")
    yield Reason(answer=Answer.GOOD, words=f"{reaches}.")


def _spread(_rule: Rule, limits: Limits) -> Iterator[Reason]:
    spans = "From band to band the fabric spans {garment}; both arms held out straight take {body}: "
    yield Reason(
        answer=Answer.MIND,
        when=_UNMEASURED,
        words="How far the arms open cannot be worked out for this size.",
    )
    yield Reason(
        answer=Answer.MIND,
        words=f"{spans}less than {{limit}}, it pulls when they open.",
        percents={"limit": Const(limits.spread_fraction)},
    )
    yield Reason(answer=Answer.GOOD, words=f"{spans}they open freely.")


def _girth(rule: Rule, limits: Limits) -> Iterator[Reason]:
    room = "At chest depth the poncho is {garment} round; chest and both arms take about {body}: "
    yield Reason(answer=Answer.STOP, words=f"{room}{{gap}} too little.")
    tight = rule.figures["tight_fraction"]
    for below, who in IN_WORDS:
        yield Reason(
            answer=Answer.MIND,
            when=less(tight, below) if math.isfinite(below) else None,
            words=f"{room}{{gap}} to spare; {who} such bodies would find it tight, with less than {{asked}}.",
            lengths={"asked": Const(limits.girth_ease_cm)},
        )
    yield Reason(
        answer=Answer.GOOD,
        when=less(Fact("girth.closed"), 0.5),
        words="The sides are open, so nothing closes round chest and arms.",
    )
    yield Reason(answer=Answer.GOOD, words=f"{room}{{gap}} to spare.")


def _knee(rule: Rule, _limits: Limits) -> Iterator[Reason]:
    below = less(rule.figures["ease_cm"], 0.0)
    typical = rule.figures["typical_ease_cm"]
    yield Reason(
        answer=Answer.STOP,
        when=below,
        words="Worn, the hem can hang {gap} below the knee, where a child trips on it.",
    )
    yield Reason(
        answer=Answer.STOP,
        words="Worn, the hem can hang only {gap} above the knee, where a child trips on it.",
    )
    lengths = {"clearance": typical}
    yield Reason(
        answer=Answer.MIND,
        when=less(typical, 0.0),
        words="Worn, the hem hangs {clearance} below the knee.",
        lengths=lengths,
    )
    yield Reason(
        answer=Answer.MIND, words="Worn, the hem hangs only {clearance} above the knee.", lengths=lengths
    )
    yield Reason(
        answer=Answer.GOOD,
        when=less(typical, 0.0),
        words="Worn, the hem hangs {clearance} below the knee.",
        lengths=lengths,
    )
    yield Reason(answer=Answer.GOOD, words="Worn, the hem hangs {clearance} above the knee.", lengths=lengths)


def _where(rule: Rule, _limits: Limits) -> Iterator[Reason]:
    above = less(rule.figures["ease_cm"], 0.0)
    yield Reason(answer=Answer.MIND, words="The hem comes {gap} above the waist: is a short cape meant?")
    yield Reason(answer=Answer.GOOD, when=above, words="The hem comes {gap} above the waist.")
    yield Reason(answer=Answer.GOOD, words="The hem comes {gap} below the waist.")


_SENTENCES = {
    "NECK-PASS": _head,
    "NECK-TIGHT": _tight,
    "NECK-SLIP": _slips,
    "ARM-PASS": _hand,
    "ARM-REST": _wrist,
    "REACH-BAND": _reach,
    "SPREAD-ARMS": _spread,
    "GIRTH-EASE": _girth,
    "HANG-KNEE": _knee,
    "HANG-WHERE": _where,
}
