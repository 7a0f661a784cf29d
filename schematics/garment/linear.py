"""Sums of counts with fixed factors, and the conditions grading puts on them; for one garment or columns."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, TypeAlias

import numpy as np

from schematics.units import HAIR

Numbers: TypeAlias = Any
"""A number, or a column of them: `numpy.ndarray`, one for each garment."""
Counts: TypeAlias = Mapping[str, Numbers]
"""Counts by their names, such as ``body.neck``; all numbers, or all columns of one length."""


@dataclass(frozen=True, slots=True)
class Linear:
    """A constant and so much of each count, such as ``0.9 body.neck + 9.1``."""

    terms: Mapping[str, float] = field(default_factory=dict)
    constant: float = 0.0

    @classmethod
    def of(cls, name: str) -> Linear:
        """One count by itself."""
        return cls({name: 1.0})

    def __add__(self, other: Linear | float) -> Linear:
        if not isinstance(other, Linear):
            return Linear(self.terms, self.constant + other)
        terms = dict(self.terms)
        for name, factor in other.terms.items():
            terms[name] = terms.get(name, 0.0) + factor
        return Linear({name: each for name, each in terms.items() if each}, self.constant + other.constant)

    __radd__ = __add__

    def __mul__(self, factor: float) -> Linear:
        return Linear({name: each * factor for name, each in self.terms.items()}, self.constant * factor)

    __rmul__ = __mul__

    def __truediv__(self, divisor: float) -> Linear:
        return self * (1 / divisor)

    def __neg__(self) -> Linear:
        return self * -1.0

    def __sub__(self, other: Linear | float) -> Linear:
        return self + -other

    def __rsub__(self, other: float) -> Linear:
        return -self + other

    @property
    def needs(self) -> frozenset[str]:
        """The counts it depends on."""
        return frozenset(self.terms)

    def at(self, counts: Counts) -> Numbers:
        """The value; `KeyError` where a count of it is missing."""
        return sum((factor * counts[name] for name, factor in self.terms.items()), self.constant)


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """``low <= value <= high``, and ``value = multiple * k + plus`` for a whole k where that is given."""

    value: Linear
    low: float = -math.inf
    high: float = math.inf
    multiple: int | None = None
    plus: int = 0

    @property
    def needs(self) -> frozenset[str]:
        """The counts it depends on."""
        return self.value.needs

    def miss(self, counts: Counts) -> Numbers:
        """How far the value lies outside; 0 where the row holds."""
        value = np.asarray(self.value.at(counts), dtype=float)
        outside = np.maximum(self.low - value, value - self.high)
        off = np.zeros_like(value)
        if self.multiple is not None:
            rest = (value - self.plus) % self.multiple
            off = np.minimum(rest, self.multiple - rest)
        missed = np.where(outside > HAIR, outside, off)
        return np.where(missed > HAIR, missed, 0.0)


def at_least(value: Linear, low: Linear | float) -> Row:
    """The row ``value >= low``."""
    return Row(value=value - low, low=0.0)
