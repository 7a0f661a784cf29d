"""What the counts of a size must keep, as conditions on them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Protocol

import numpy as np

from schematics.crochet.fabric import Counted, CountRule, Fabric
from schematics.garment.amounts import STITCHES, Count, CountValues, Formula, Numbers
from schematics.units import HAIR
from schematics.wearer.expr import Expr, Operand


@dataclass(frozen=True)
class CountRange:
    """The condition ``low <= value <= high``, and ``value = multiple * k + plus`` for a whole k if given."""

    value: Formula
    low: float = -math.inf
    high: float = math.inf
    multiple: int | None = None
    plus: int = 0

    @property
    def needs(self) -> frozenset[str]:
        """The counts it depends on."""
        return self.value.needs

    def miss(self, counts: CountValues) -> Numbers:
        """How far the value lies outside; 0 where the condition holds."""
        value = np.asarray(self.value.at(counts), dtype=float)
        outside = np.maximum(self.low - value, value - self.high)
        off = np.zeros_like(value)
        if self.multiple is not None:
            rest = (value - self.plus) % self.multiple
            off = np.minimum(rest, self.multiple - rest)
        missed = np.where(outside > HAIR, outside, off)
        return np.where(missed > HAIR, missed, 0.0)


def at_least(value: Expr, low: Operand) -> CountRange:
    """The condition ``value >= low``."""
    return CountRange(Formula(value - low), low=0.0)


def even(count: Expr) -> CountRange:
    """The condition that makes a count even and positive."""
    return CountRange(Formula(count), low=2, multiple=2)


class Condition(Protocol):
    """Something counts keep or miss."""

    @property
    def needs(self) -> frozenset[str]:
        """The counts it depends on."""

    def miss(self, counts: CountValues) -> Numbers:
        """How far it is missed; 0 where it holds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """What the counts ask of each other so that the body can be worked or drawn.

    ``code`` is the check's that would stop it, None where the reader would refuse the counts.
    ``cure`` says what would help, with ``{missing}`` for the number of stitches or rows. A ``loose`` one ties
    counts together that otherwise have nothing to do with each other.
    """

    words: str
    kept: Condition
    cure: str
    code: str | None = None
    loose: bool = False


ARM_PLACE, FLAT_CIRCLE = "ARM-PLACE", "FLAT-CIRCLE"
COUNT_BORDER, COUNT_INCREASE = "COUNT-BORDER", "COUNT-INCREASE"
"""Codes of the checks that counts by themselves can fail."""

TWO_CIRCLES = 2 * math.tau
"""In radians; beyond it even the half of a body overlaps itself, so that it cannot be drawn or measured."""


def within_two_circles(kept: Condition, cure: str) -> Demand:
    """What a body asks that can be drawn by half at most."""
    return Demand(
        words="the body opens to no more than two full circles", kept=kept, cure=cure, code=FLAT_CIRCLE
    )


@dataclass(frozen=True, kw_only=True)
class Pattern:
    """A count that a stitch multiple or row repeat binds, and the fabric whose it is."""

    words: str
    count: Expr
    counted: Counted
    fabric: Fabric

    @cached_property
    def rule(self) -> CountRule:
        """What the fabric asks of the count."""
        return self.fabric.stitch_rule if self.counted is STITCHES else self.fabric.row_rule.rule

    @cached_property
    def kept(self) -> CountRange:
        """What the fabric asks of the count, as a condition."""
        rule = self.rule
        if rule.only:
            return CountRange(Formula(self.count), low=rule.plus, high=rule.plus)
        return CountRange(Formula(self.count), low=rule.smallest, multiple=rule.multiple, plus=rule.plus)

    def binds(self, name: str) -> bool:
        """Whether it is that count of a spec by itself."""
        return isinstance(self.count, Count) and self.count.name == name
