"""Evaluating trees, for one wearer or for columns of them.

A tree is compiled to a Python function once. What does not depend on the garment is evaluated once for all
sizes. The same functions serve a number and a column, so one wearer gets what a hundred thousand get.
"""

from __future__ import annotations

import bisect
import itertools
import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cache, reduce
from typing import Any, Protocol, TypeAlias

import numpy as np

from schematics.units import HAIR
from schematics.wearer.body import Body
from schematics.wearer.compiling import FunctionText
from schematics.wearer.expr import Const, End, Expr, Fact, Lookup, OfBody, OfWearer, Op, Term

Numbers: TypeAlias = Any
"""A float, or a column of them: `numpy.ndarray` of float64."""

Truths: TypeAlias = Any
"""A bool, or a column of them."""


class Spread(Protocol):
    """The ends of a body measurement: a `schematics.wearer.body.BodyValue`, or columns."""

    @property
    def low_cm(self) -> Numbers:
        """The low end, in cm."""

    @property
    def cm(self) -> Numbers:
        """The typical value, in cm."""

    @property
    def high_cm(self) -> Numbers:
        """The high end, in cm."""


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
        """The inputs of these wearers with another garment."""
        return replace(self, facts=facts, garment_memo={})

    def at_end(self, end: End) -> Inputs:
        """These inputs, where nodes that name no end mean this one."""
        return self if end is self.end else replace(self, end=end)

    def taking(self, unknown: bool) -> Inputs:
        """These inputs, with comparisons that are unknown taken for true or false."""
        return self if unknown == self.unknown else replace(self, unknown=unknown)


Evaluator: TypeAlias = Callable[[Inputs], Any]


def _smaller(one: Numbers, other: Numbers) -> Numbers:
    if isinstance(one, float) and isinstance(other, float):
        return one if one < other or one != one else other
    return np.minimum(one, other)


def larger(one: Numbers, other: Numbers) -> Numbers:
    """The larger of two; not a number where one is none."""
    if isinstance(one, float) and isinstance(other, float):
        return one if one > other or one != one else other
    return np.maximum(one, other)


def _first_number(one: Numbers, other: Numbers) -> Numbers:
    if isinstance(one, float):
        return other if math.isnan(one) else one
    return np.where(np.isnan(one), other, one)


_TRUTHS = ("<", "<=", "and", "or")
_KEYS = itertools.count()

_INFIX = {"+": "+", "-": "-", "*": "*", "/": "/", "and": "&", "or": "|"}
_CALLED = {"min": "smaller", "max": "larger", "first": "first_number"}
_COMPARED = {"<": "{1} > {0} + HAIR", "<=": "{0} <= {1} + HAIR"}
_ENDS = {end: end.field for end in End}


def _read_between(at: Numbers, xs: list[Numbers], ys: list[Numbers]) -> Numbers:
    """A table whose points are numbers or columns."""
    columns = any(isinstance(each, np.ndarray) for each in (xs[0], ys[0], xs[-1], ys[-1]))
    return _read_columns(at, xs, ys) if columns else _read(at, xs, ys, (xs, ys))


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
    result = ys[0]
    for (x0, y0), (x1, y1) in itertools.pairwise(zip(xs, ys, strict=True)):
        result = result + (y1 - y0) * np.clip((at - x0) / (x1 - x0), 0.0, 1.0)
    return result


_NAMES = {
    "HAIR": HAIR, "nan": math.nan, "smaller": _smaller, "larger": larger, "first_number": _first_number,
    "read": _read, "read_between": _read_between, "ends": _ENDS,
}  # fmt: skip


def evaluator_of(expr: Expr) -> Evaluator:
    """The tree as a function of its inputs."""
    work: Evaluator = _Source().function(expr)
    return work


def evaluators_of(exprs: Iterable[Expr]) -> Callable[[Inputs], tuple[Any, ...]]:
    """Several trees as one function that gives what each comes to; what they share is worked out once."""
    work: Callable[[Inputs], tuple[Any, ...]] = _Source().function(*exprs, together=True)
    return work


class _Source(FunctionText):
    """Trees of `Inputs`."""

    def __init__(self) -> None:
        super().__init__("inputs", _NAMES)

    def local(self, expr: Expr) -> str:
        """The node's value, from where it is kept if it is."""
        memo = _memo_of(expr)
        return super().local(expr) if memo is None else self._recalled(expr, memo)

    def _recalled(self, expr: Expr, memo: str) -> str:
        if expr not in self.names:
            key, work = _remembered(expr)
            held = self.kept(work)
            self.names[expr] = name = self.set(f"inputs.{memo}.get({key})")
            self.lines.append(f"if {name} is None: {name} = inputs.{memo}[{key}] = {held}(inputs)")
        return self.names[expr]

    def plain(self, expr: Expr) -> str:
        """The node worked out."""
        match expr:
            case Const(value):
                return repr(value) if math.isfinite(value) else self.kept(value)
            case OfBody(body, end):
                name = self.set(f"inputs.body.get({self.kept(body)})")
                what = f"getattr({name}, ends[inputs.end])" if end is None else f"{name}.{_ENDS[end]}"
                return self.set(f"nan if {name} is None else {what}")
            case OfWearer("adult"):
                return self.set("inputs.adult * 1.0")
            case OfWearer("age_years"):
                return self.set("inputs.age_years")
            case Fact(name):
                return self.set(f"inputs.facts[{name!r}]")
            case Term(_, inner):
                return self.local(inner)
            case Lookup():
                return self.set(self._table(expr))
            case Op("<" | "<=", (smaller, larger)):
                low, high = self.local(smaller), self.local(larger)
                name = self.set(_COMPARED[expr.word].format(low, high))
                self.lines.append(
                    f"if inputs.unknown: {name} = {name} | ({low} != {low}) | ({high} != {high})"
                )
                return name
            case Op(word, args) if word in _INFIX:
                return self.set(f" {_INFIX[word]} ".join(map(self.local, args)))
            case Op(word, args) if word in _CALLED:
                return reduce(
                    lambda one, other: self.set(f"{_CALLED[word]}({one}, {other})"), map(self.local, args)
                )
        raise TypeError(f"{expr!r} cannot be evaluated")

    def _table(self, expr: Lookup) -> str:
        at = self.local(expr.at)
        fixed = [(x.value, y.value) for x, y in expr.points if isinstance(x, Const) and isinstance(y, Const)]
        if len(fixed) == len(expr.points):
            xs, ys = map(list, zip(*fixed, strict=True))
            return f"read({at}, {self.kept(xs)}, {self.kept(ys)}, {self.kept((np.array(xs), np.array(ys)))})"
        across, up = (", ".join(map(self.local, each)) for each in zip(*expr.points, strict=True))
        return f"read_between({at}, [{across}], [{up}])"


def _memo_of(expr: Expr) -> str | None:
    """Where the node's value is kept: what depends on the wearer alone, and terms that do not."""
    if isinstance(expr, Op | Lookup) and _lasts(expr):
        return "memo"
    return "garment_memo" if isinstance(expr, Term) and not _lasts(expr.expr) else None


@cache
def _remembered(expr: Expr) -> tuple[int, Evaluator]:
    """The key under which the node's value is kept, and what works it out."""
    return next(_KEYS), _Source().function(expr.expr if isinstance(expr, Term) else expr, whole=True)


@cache
def _lasts(expr: Expr) -> bool:
    """Whether it is a number that depends on the wearer only, and on ends that are named."""
    match expr:
        case Fact() | OfBody(_, None):
            return False
        case Op(word) if word in _TRUTHS:
            return False
    return all(map(_lasts, expr.parts))
