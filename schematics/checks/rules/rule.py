"""A verdict that depends on the wearer, as data: what it goes by, what it says and what it is for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from schematics.checks.rules.garment_numbers import grain_of_tree
from schematics.checks.rules.sentence import Sentence
from schematics.units import AnyGrain
from schematics.wearer.body import Body
from schematics.wearer.expr import (
    End,
    Expr,
    OfBody,
    OfWearer,
    either,
    every,
    expr_json,
    less,
    over_nought,
    terms,
)

ADULT = less(0.5, OfWearer("adult"))
CHILD = less(OfWearer("adult"), 0.5)
NEVER, ALWAYS = less(0.0, 0.0), less(0.0, 1.0)

ONE_PERSON = (
    "One person, given by measurements or an age without a chart row, is judged by those and by what is "
    "typical where nothing was measured."
)
"""For explanations: whom a high or low end does not decide for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class About:
    """What a rule is for, at length.

    ``meaning`` says what it does on the wearer, ``cure`` what to change in the pattern, ``origin`` where the
    rule comes from; ``limits`` are the names of those it uses. ``spare`` says what is to spare by it, such as
    ``band at rest over wrist``. Of a rule that stops, ``kept`` is what counts have to keep and ``remedy``
    what else would help where none do, by ``{miss}``.
    """

    title: str
    meaning: str
    cure: str
    origin: str
    spare: str
    limits: tuple[str, ...] = ()
    kept: str = ""
    remedy: str = ""


@dataclass(frozen=True, kw_only=True)
class Rule:
    """One verdict.

    It stops where ``stop`` is true, else it is to be minded where ``mind`` is; None is never true.
    ``mind_past`` is how far past its limit to mind it is, in cm: nought or less where it holds. It counts
    only where ``mind_where`` is true or None. Where ``unmeasured`` is true the garment cannot be measured
    for it, which is to be minded, too.

    It fails where it stops, or, of a rule that never does, where it is to be minded; of one that stops only
    those of whom ``stops_for`` is true, None is all, by either.

    Where it lacks a measurement it asks for those of ``asks``, or of `needs`. ``figures`` are numbers behind
    it: ``body_cm`` is what is asked for, ``garment_cm`` what there is and ``ease_cm`` how much there is to
    spare, in cm; negative is too little. Of the hem, ``ease_cm`` is how far it hangs above the knee and below
    the waist, of the reach how far past the wrist. ``reported`` are the figures of a finding, by their names
    in files.
    """

    code: str
    place: str
    asks: tuple[Body, ...] = ()
    stop: Expr | None = None
    mind_past: Expr | None = None
    mind_where: Expr | None = None
    unmeasured: Expr | None = None
    stops_for: Expr | None = None
    figures: Mapping[str, Expr] = field(default_factory=dict)
    reported: Mapping[str, Expr] = field(default_factory=dict)
    sentence: Sentence
    about: About

    @cached_property
    def needs(self) -> tuple[Body, ...]:
        """The measurements it may need."""
        nodes = (node for tree in (self.stop, self.mind) if tree is not None for node in tree.walk())
        named = {node.body for node in nodes if isinstance(node, OfBody)}
        return tuple(body for body in Body if body in named)

    @cached_property
    def mind(self) -> Expr | None:
        """Whether it is to be minded."""
        if self.mind_past is None:
            return None
        past = over_nought(self.mind_past)
        past = past if self.mind_where is None else every(self.mind_where, past)
        return past if self.unmeasured is None else either(self.unmeasured, past)

    @property
    def grains(self) -> tuple[AnyGrain, AnyGrain]:
        """How finely what there is and what is asked for are printed."""
        return grain_of_tree(self.figures["garment_cm"]), grain_of_tree(self.figures["body_cm"])

    @cached_property
    def fails(self) -> Expr:
        """Whether it does not hold."""
        failures = (self.stop, self.mind if self.stop is None or self.stops_for is not None else None)
        return either(*(each for each in failures if each is not None))

    @property
    def stops_if_it_fails(self) -> Expr:
        """Whether it stops where it fails."""
        if self.stop is None:
            return NEVER
        return ALWAYS if self.stops_for is None else self.stops_for


def low(body: Body) -> OfBody:
    """The low end of a measurement."""
    return OfBody(body, End.LOW)


def typical(body: Body) -> OfBody:
    """The typical value of a measurement."""
    return OfBody(body, End.TYPICAL)


def high(body: Body) -> OfBody:
    """The high end of a measurement."""
    return OfBody(body, End.HIGH)


def spare(body: Expr, garment: Expr) -> dict[str, Expr]:
    """The usual `Rule.figures`: what is asked for, what there is and the difference."""
    return {"body_cm": body, "garment_cm": garment, "ease_cm": garment - body}


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
                "stops_if_it_fails": expr_json(rule.stops_if_it_fails),
                "figures": {name: expr_json(expr) for name, expr in rule.figures.items()},
            }
            for rule in rules
        ],
    }


def _trees(rules: Iterable[Rule]) -> Iterator[Expr]:
    for rule in rules:
        yield from (each for each in (rule.stop, rule.mind, *rule.figures.values()) if each is not None)
        yield from rule.sentence.trees()
