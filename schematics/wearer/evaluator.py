"""Evaluating trees, for one wearer or for columns of them.

A tree is turned into functions once. What does not depend on the garment is evaluated once for all
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
from schematics.wearer.expr import Const, End, Expr, Fact, Lookup, OfBody, OfWearer, Op, Term

Numbers: TypeAlias = Any
"""A float, or a column of them: `numpy.ndarray` of float64."""

Truths: TypeAlias = Any
"""A bool, or a column of them."""


class Spread(Protocol):
    """The ends of a body measurement: a `schematics.wearer.body.BodyValue`, or columns."""

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
class Inputs:
    """What a tree is evaluated from: wearers and a garment.

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

    def of(self, facts: Mapping[str, float]) -> Inputs:
        """The same wearers and another garment."""
        return replace(self, facts=facts, garment_memo={})

    def at_end(self, end: End) -> Inputs:
        """The same where the nodes that name no end mean this one."""
        return replace(self, end=end)

    def taking(self, unknown: bool) -> Inputs:
        """The same with comparisons that are unknown taken for true or false."""
        return self if unknown == self.unknown else replace(self, unknown=unknown)


Evaluator: TypeAlias = Callable[[Inputs], Any]


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
_ENDS: Mapping[End, Callable[[Spread], Numbers]] = {end: operator.attrgetter(end.field) for end in End}


def evaluator_of(expr: Expr) -> Evaluator:
    """The tree as a function of its inputs."""
    work = _built(expr)
    return _remembered(work, "memo") if isinstance(expr, Op | Lookup) and _lasts(expr) else work


@cache
def _term(expr: Term) -> Evaluator:
    """A named tree, evaluated once for each garment wherever it stands."""
    work = evaluator_of(expr.expr)
    return work if _lasts(expr.expr) else _remembered(work, "garment_memo")


def _lasts(expr: Expr) -> bool:
    """Whether it is a number that depends on the wearer only, and on ends that are named."""
    return all(
        not isinstance(each, Fact)
        and not (isinstance(each, OfBody) and each.end is None)
        and not (isinstance(each, Op) and each.word in _TRUTHS)
        for each in expr.walk()
    )


def _remembered(work: Evaluator, where: Literal["memo", "garment_memo"]) -> Evaluator:
    key = next(_KEYS)

    def recall(inputs: Inputs) -> Numbers:
        memo: dict[int, Numbers] = getattr(inputs, where)
        if key not in memo:
            memo[key] = work(inputs)
        return memo[key]

    return recall


def _built(expr: Expr) -> Evaluator:
    match expr:
        case Const(value):
            return lambda _: value
        case OfBody(body, end):
            return _body(body, end)
        case OfWearer("adult"):
            return lambda inputs: inputs.adult * 1.0
        case OfWearer("age_years"):
            return lambda inputs: inputs.age_years
        case Fact(name):
            return lambda inputs: inputs.facts[name]
        case Term():
            return _term(expr)
        case Lookup():
            return _table(expr)
        case Op("<", (smaller, larger)):
            return _compared(evaluator_of(smaller), evaluator_of(larger), strict=True)
        case Op("<=", (smaller, larger)):
            return _compared(evaluator_of(smaller), evaluator_of(larger), strict=False)
        case Op("first", args):
            return _first([evaluator_of(each) for each in args])
        case Op(word, (one, Const(value))) if word in _ARITHMETIC:
            operation, first_part = _ARITHMETIC[word], evaluator_of(one)
            return lambda inputs: operation(first_part(inputs), value)
        case Op(word, args) if word in _ARITHMETIC:
            return _reduced(_ARITHMETIC[word], [evaluator_of(each) for each in args])
    raise TypeError(f"{expr!r} cannot be evaluated")


def _body(body: Body, end: End | None) -> Evaluator:
    def read(inputs: Inputs) -> Numbers:
        value = inputs.body.get(body)
        return math.nan if value is None else _ENDS[inputs.end](value)

    if end is None:
        return read
    end_of = _ENDS[end]

    def read_end(inputs: Inputs) -> Numbers:
        value = inputs.body.get(body)
        return math.nan if value is None else end_of(value)

    return read_end


def _reduced(operation: Callable[[Any, Any], Any], parts: list[Evaluator]) -> Evaluator:
    if len(parts) == 2:
        one, other = parts
        return lambda inputs: operation(one(inputs), other(inputs))
    return lambda inputs: reduce(operation, [part(inputs) for part in parts])


def _first(parts: list[Evaluator]) -> Evaluator:
    def pick(one: Numbers, other: Numbers) -> Numbers:
        if isinstance(one, float):
            return other if math.isnan(one) else one
        return np.where(np.isnan(one), other, one)

    return _reduced(pick, parts)


def _compared(smaller: Evaluator, larger: Evaluator, *, strict: bool) -> Evaluator:
    def compare(inputs: Inputs) -> Truths:
        low, high = smaller(inputs), larger(inputs)
        truth = high > low + HAIR if strict else low <= high + HAIR
        return truth | (low != low) | (high != high) if inputs.unknown else truth

    return compare


def _table(expr: Lookup) -> Evaluator:
    at = evaluator_of(expr.at)
    fixed = [(x.value, y.value) for x, y in expr.points if isinstance(x, Const) and isinstance(y, Const)]
    if len(fixed) == len(expr.points):
        xs, ys = map(list, zip(*fixed, strict=True))
        columns = np.array(xs), np.array(ys)
        return lambda inputs: _read(at(inputs), xs, ys, columns)
    points = [(evaluator_of(x), evaluator_of(y)) for x, y in expr.points]

    def work(inputs: Inputs) -> Numbers:
        xs, ys = [x(inputs) for x, _ in points], [y(inputs) for _, y in points]
        columns = any(isinstance(each, np.ndarray) for each in (xs[0], ys[0], xs[-1], ys[-1]))
        return _read_columns(at(inputs), xs, ys) if columns else _read(at(inputs), xs, ys, (xs, ys))

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
