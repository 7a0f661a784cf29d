"""Working trees out, for one wearer or for columns of them.

A tree is turned into functions once. What does not depend on the garment is reckoned once for all
sizes. The same NumPy functions serve a number and a column, so one wearer gets what a hundred
thousand get.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import reduce
from typing import Any, Protocol, TypeAlias

import numpy as np

from schematics.fit.expr import HAIR, Const, End, Expr, Fact, OfBody, OfWearer, Op, Table
from schematics.wearer.body import Body

Numbers: TypeAlias = Any
"""A float, or a column of them: `numpy.ndarray` of float64."""

Truths: TypeAlias = Any
"""A bool, or a column of them."""


class Spread(Protocol):
    """The ends of a body measurement: a `schematics.wearer.body.Value`, or columns."""

    @property
    def low_cm(self) -> Numbers:
        """Low end."""

    @property
    def cm(self) -> Numbers:
        """Typical."""

    @property
    def high_cm(self) -> Numbers:
        """High end."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What a tree is worked out from.

    ``end`` is meant where a node names none. ``unknown`` is what a comparison with something unknown
    is taken for. ``memo`` keeps what does not depend on the facts.
    """

    body: Mapping[Body, Spread]
    adult: Truths = False
    age_years: Numbers = math.nan
    facts: Mapping[str, float] = field(default_factory=dict)
    end: End = End.TYPICAL
    unknown: bool = False
    memo: dict[int, Numbers] = field(default_factory=dict)

    def of(self, facts: Mapping[str, float]) -> Known:
        """The same wearers and another garment."""
        return replace(self, facts=facts)

    def taking(self, unknown: bool) -> Known:
        """The same with comparisons that are unknown taken for true or false."""
        return replace(self, unknown=unknown)


Work: TypeAlias = Callable[[Known], Any]

_KEYS = itertools.count()

_ARITHMETIC: Mapping[str, Callable[[Numbers, Numbers], Numbers]] = {
    "+": np.add,
    "-": np.subtract,
    "*": np.multiply,
    "/": np.divide,
    "min": np.minimum,
    "max": np.maximum,
    "and": np.logical_and,
    "or": np.logical_or,
}
_ENDS: Mapping[End, Callable[[Spread], Numbers]] = {
    End.LOW: lambda value: value.low_cm,
    End.TYPICAL: lambda value: value.cm,
    End.HIGH: lambda value: value.high_cm,
}


def worked(expr: Expr) -> Work:
    """The tree as a function of what is known."""
    work = _worked(expr)
    if isinstance(expr, Op | Table) and _of_wearer_alone(expr):
        return _remembered(work)
    return work


def _of_wearer_alone(expr: Expr) -> bool:
    """Whether it is a number that depends on the wearer only, and on ends that are named."""
    return all(
        not isinstance(each, Fact)
        and not (isinstance(each, OfBody) and each.end is None)
        and not (isinstance(each, Op) and each.word in ("<", "<=", "and", "or"))
        for each in expr.walk()
    )


def _remembered(work: Work) -> Work:
    key = next(_KEYS)

    def recall(known: Known) -> Numbers:
        if key not in known.memo:
            known.memo[key] = work(known)
        return known.memo[key]

    return recall


def _worked(expr: Expr) -> Work:
    match expr:
        case Const(value):
            return lambda _: value
        case OfBody(body, end):
            return lambda known: _ends_of(known, body, end)
        case OfWearer("adult"):
            return lambda known: np.asarray(known.adult, dtype=float)[()]
        case OfWearer("age_years"):
            return lambda known: known.age_years
        case Fact(name):
            return lambda known: known.facts[name]
        case Table():
            return _table(expr)
        case Op("<", (smaller, larger)):
            return _compared(worked(smaller), worked(larger), strict=True)
        case Op("<=", (smaller, larger)):
            return _compared(worked(smaller), worked(larger), strict=False)
        case Op("first", args):
            return _first([worked(each) for each in args])
        case Op(word, args) if word in _ARITHMETIC:
            return _reduced(_ARITHMETIC[word], [worked(each) for each in args])
    raise TypeError(f"{expr!r} cannot be worked out")


def _ends_of(known: Known, body: Body, end: End | None) -> Numbers:
    value = known.body.get(body)
    return math.nan if value is None else _ENDS[end or known.end](value)


def _reduced(operation: Callable[[Any, Any], Any], parts: list[Work]) -> Work:
    return lambda known: reduce(operation, [part(known) for part in parts])


def _first(parts: list[Work]) -> Work:
    def pick(one: Numbers, other: Numbers) -> Numbers:
        return np.where(np.isnan(one), other, one)[()]

    return _reduced(pick, parts)


def _compared(smaller: Work, larger: Work, *, strict: bool) -> Work:
    def compare(known: Known) -> Truths:
        low, high = smaller(known), larger(known)
        truth = high > low + HAIR if strict else low <= high + HAIR
        return truth | np.isnan(low) | np.isnan(high) if known.unknown else truth

    return compare


def _table(expr: Table) -> Work:
    at = worked(expr.at)
    if all(isinstance(each, Const) for each in expr.parts[1:]):
        xs, ys = np.array([[x.value, y.value] for x, y in expr.points if isinstance(x, Const) and isinstance(y, Const)]).T.copy()
        return lambda known: np.interp(at(known), xs, ys)
    points = [(worked(x), worked(y)) for x, y in expr.points]
    return lambda known: np.interp(
        at(known), [x(known) for x, _ in points], [y(known) for _, y in points]
    )
