"""Sums of counts with fixed factors, and the conditions grading puts on them."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

HAIR = 1e-9
"""A condition missed by no more than this holds; the checks forgive as much."""


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

    def of_size(self, size: int) -> Linear:
        """The same of one of several sizes: its counts are named ``0/body.neck``."""
        return Linear({f"{size}/{name}": each for name, each in self.terms.items()}, self.constant)

    def at(self, counts: Mapping[str, float]) -> float:
        """The value; `KeyError` where a count of it is missing."""
        return self.constant + sum(factor * counts[name] for name, factor in self.terms.items())


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """``low <= value <= high``, and ``value = multiple * k + plus`` for a whole k where that is given."""

    value: Linear
    low: float = -math.inf
    high: float = math.inf
    multiple: int | None = None
    plus: int = 0

    def of_size(self, size: int) -> Row:
        """The same of one of several sizes."""
        return replace(self, value=self.value.of_size(size))

    def miss(self, counts: Mapping[str, float]) -> float:
        """How far the value lies outside; 0 where the row holds."""
        value = self.value.at(counts)
        outside = max(self.low - value, value - self.high, 0.0)
        if outside > HAIR:
            return outside
        if self.multiple is None:
            return 0.0
        rest = (value - self.plus) % self.multiple
        off = min(rest, self.multiple - rest)
        return off if off > HAIR else 0.0


def at_least(value: Linear, low: Linear | float) -> Row:
    """The row ``value >= low``."""
    return Row(value=value - low, low=0.0)


def within(value: Linear, low: float, high: float) -> Row:
    """The row ``low <= value <= high``."""
    return Row(value=value, low=low, high=high)
