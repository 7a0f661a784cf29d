"""Working trees out, for one wearer or for columns of them.

A tree is turned into functions once. What does not depend on the garment is reckoned once for all
sizes. The same functions serve a number and a column, so one wearer gets what a hundred thousand get.
"""

from __future__ import annotations

import bisect
import itertools
import math
import operator
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cache, reduce
from typing import Any, Literal, Protocol, TypeAlias

import numpy as np

from schematics.units import HAIR
from schematics.wearer.body import Body
from schematics.wearer.expr import Const, End, Expr, Fact, OfBody, OfWearer, Op, Table, Term

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

    ``gaps`` are the measurements that are unknown for any of the wearers. ``end`` is meant where a node
    names none. ``unknown`` is what a comparison with something unknown is taken for. ``memo`` keeps what
    depends on the wearers alone, ``garment_memo`` what depends on the facts, too.
    """

    body: Mapping[Body, Spread]
    gaps: frozenset[Body] = frozenset()
    adult: Truths = False
    age_years: Numbers = math.nan
    facts: Mapping[str, float] = field(default_factory=dict)
    end: End = End.TYPICAL
    unknown: bool = False
    memo: dict[int, Numbers] = field(default_factory=dict)
    garment_memo: dict[int, Numbers] = field(default_factory=dict)

    def of(self, facts: Mapping[str, float]) -> Known:
        """The same wearers and another garment."""
        return replace(self, facts=facts, garment_memo={})

    def at_end(self, end: End) -> Known:
        """The same where the nodes that name no end mean this one."""
        return replace(self, end=end)

    def taking(self, unknown: bool) -> Known:
        """The same with comparisons that are unknown taken for true or false."""
        return self if unknown == self.unknown else replace(self, unknown=unknown)


Work: TypeAlias = Callable[[Known], Any]


def _smaller(one: Numbers, other: Numbers) -> Numbers:
    if isinstance(one, float) and isinstance(other, float):
        return one if one < other or math.isnan(one) else other
    return np.minimum(one, other)


def _larger(one: Numbers, other: Numbers) -> Numbers:
    if isinstance(one, float) and isinstance(other, float):
        return one if one > other or math.isnan(one) else other
    return np.maximum(one, other)


_TRUTHS = ("<", "<=", "and", "or")
_KEYS = itertools.count()

_ARITHMETIC: Mapping[str, Callable[[Numbers, Numbers], Numbers]] = {
    "+": operator.add,
    "-": operator.sub,
    "*": operator.mul,
    "/": operator.truediv,
    "min": _smaller,
    "max": _larger,
    "and": operator.and_,
    "or": operator.or_,
}
_ENDS: Mapping[End, Callable[[Spread], Numbers]] = {
    End.LOW: lambda value: value.low_cm,
    End.TYPICAL: lambda value: value.cm,
    End.HIGH: lambda value: value.high_cm,
}


def worked(expr: Expr) -> Work:
    """The tree as a function of what is known."""
    work = _worked(expr)
    return _remembered(work, "memo") if isinstance(expr, Op | Table) and _lasts(expr) else work


@cache
def _term(expr: Term) -> Work:
    """A named tree, reckoned once for each garment wherever it stands."""
    work = worked(expr.expr)
    return work if _lasts(expr.expr) else _remembered(work, "garment_memo")


def _lasts(expr: Expr) -> bool:
    """Whether it is a number that depends on the wearer only, and on ends that are named."""
    return all(
        not isinstance(each, Fact)
        and not (isinstance(each, OfBody) and each.end is None)
        and not (isinstance(each, Op) and each.word in _TRUTHS)
        for each in expr.walk()
    )


def _remembered(work: Work, where: Literal["memo", "garment_memo"]) -> Work:
    key = next(_KEYS)

    def recall(known: Known) -> Numbers:
        memo: dict[int, Numbers] = getattr(known, where)
        if key not in memo:
            memo[key] = work(known)
        return memo[key]

    return recall


def _worked(expr: Expr) -> Work:
    match expr:
        case Const(value):
            return lambda _: value
        case OfBody(body, end):
            return _body(body, end)
        case OfWearer("adult"):
            return lambda known: known.adult * 1.0
        case OfWearer("age_years"):
            return lambda known: known.age_years
        case Fact(name):
            return lambda known: known.facts[name]
        case Term():
            return _term(expr)
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


def _body(body: Body, end: End | None) -> Work:
    def read(known: Known) -> Numbers:
        value = known.body.get(body)
        return math.nan if value is None else _ENDS[end or known.end](value)

    return read


def _reduced(operation: Callable[[Any, Any], Any], parts: list[Work]) -> Work:
    if len(parts) == 2:
        one, other = parts
        return lambda known: operation(one(known), other(known))
    return lambda known: reduce(operation, [part(known) for part in parts])


def _first(parts: list[Work]) -> Work:
    def pick(one: Numbers, other: Numbers) -> Numbers:
        if isinstance(one, float):
            return other if math.isnan(one) else one
        return np.where(np.isnan(one), other, one)

    return _reduced(pick, parts)


def _compared(smaller: Work, larger: Work, *, strict: bool) -> Work:
    def compare(known: Known) -> Truths:
        low, high = smaller(known), larger(known)
        truth = high > low + HAIR if strict else low <= high + HAIR
        return truth | (low != low) | (high != high) if known.unknown else truth

    return compare


def _table(expr: Table) -> Work:
    at = worked(expr.at)
    fixed = [(x.value, y.value) for x, y in expr.points if isinstance(x, Const) and isinstance(y, Const)]
    if len(fixed) == len(expr.points):
        xs, ys = map(list, zip(*fixed, strict=True))
        columns = np.array(xs), np.array(ys)
        return lambda known: _read(at(known), xs, ys, columns)
    points = [(worked(x), worked(y)) for x, y in expr.points]

    def work(known: Known) -> Numbers:
        xs, ys = [x(known) for x, _ in points], [y(known) for _, y in points]
        columns = any(isinstance(each, np.ndarray) for each in (xs[0], ys[0], xs[-1], ys[-1]))
        return _read_columns(at(known), xs, ys) if columns else _read(at(known), xs, ys, (xs, ys))

    return work


def _read(at: Numbers, xs: list[Numbers], ys: list[Numbers], columns: tuple[Any, Any]) -> Numbers:
    """As `numpy.interp` does, which is slow for one number."""
    if not isinstance(at, float):
        return np.where(np.isnan(at), at, ys[0]) if len(xs) == 1 else np.interp(at, *columns)
    if not at > xs[0]:
        return at if math.isnan(at) else ys[0]
    after = bisect.bisect_right(xs, at)
    if after == len(xs):
        return ys[-1]
    slope = (ys[after] - ys[after - 1]) / (xs[after] - xs[after - 1])
    return slope * (at - xs[after - 1]) + ys[after - 1]


def _read_columns(at: Numbers, xs: list[Numbers], ys: list[Numbers]) -> Numbers:
    """A table whose points are columns: every stretch adds what of it lies below ``at``."""
    found = ys[0]
    for (x0, y0), (x1, y1) in itertools.pairwise(zip(xs, ys, strict=True)):
        found = found + (y1 - y0) * np.clip((at - x0) / (x1 - x0), 0.0, 1.0)
    return found
