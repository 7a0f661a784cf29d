"""Counts and lengths of a garment as trees over its counts, each written once.

A tree is read as a number of one garment, as columns of many, as the share each count has in it, or as the
arithmetic a person writes down (`schematics.analysis.workings`). Lengths are in cm, angles in degrees.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property, reduce
from operator import add, mul, sub, truediv
from typing import Any, TypeAlias

import numpy as np

from schematics.crochet.fabric import Counted, CountRule, Fabric, RowRule
from schematics.wearer.compiling import FunctionText
from schematics.wearer.expr import Const, Expr, Op, Operand, keeps_hash, node

Numbers: TypeAlias = Any
"""A number, or a column of them: `numpy.ndarray`, one for each garment."""
CountValues: TypeAlias = Mapping[str, Numbers]
"""Counts by their names, such as ``body.neck``; all numbers, or all columns of one length."""

STITCHES, ROWS = Counted.STITCHES, Counted.ROWS
_EVEN, _ODD = CountRule(multiple=2), CountRule(multiple=2, plus=1)


@dataclass(frozen=True, slots=True)
class Given(Expr):
    """A number with its unit: ``sts``, ``rows``, ``cm`` or ``°``."""

    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class Count(Expr):
    """A count of a spec by its name, such as ``body.neck``, and what is counted."""

    name: str
    counted: Counted = STITCHES


@keeps_hash
@dataclass(frozen=True, slots=True)
class Laid(Expr):
    """So many stitches or rows of a fabric laid flat: their length in cm, at rest or at full stretch."""

    count: Expr
    counted: Counted
    fabric: Fabric
    stretched: bool = False

    @property
    def parts(self) -> tuple[Expr, ...]:
        """The count."""
        return (self.count,)

    @property
    def at_full_stretch(self) -> Laid:
        """So many stitches or rows at full stretch."""
        return Laid(self.count, self.counted, self.fabric, stretched=True)

    def length_cm(self, count: Numbers) -> Numbers:
        """The length of that count."""
        measure = self.fabric.full_length_cm if self.stretched else self.fabric.length_cm
        return measure(count, self.counted)


@keeps_hash
@dataclass(frozen=True, slots=True)
class PickedUp(Expr):
    """Stitches picked up along a length: so many of the fabric that the whole with ``besides`` is even.

    As many as lie along that length at the fabric's own stitch gauge, to the nearest such number, of two
    equally near to the larger, as `CountRule.nearest` has it; at least 1. The trade's rules of thumb, 1 to
    each row of single crochet, 3 to 2 rows of half double and 2 to each row of double, are that gauge for
    usual fabrics (both common practice, no source).
    """

    along: Expr
    fabric: Fabric
    besides: Expr = field(default_factory=lambda: Const(0.0))

    @property
    def parts(self) -> tuple[Expr, ...]:
        """The length, and the stitches besides."""
        return self.along, self.besides

    def nearest(self, along_cm: Numbers, besides: Numbers) -> Numbers:
        """The whole number."""
        exact = self.fabric.count_along(along_cm, STITCHES)
        if isinstance(besides, np.ndarray):
            return np.where(np.round(besides) % 2 == 1, _ODD.nearest(exact), _EVEN.nearest(exact))
        return (_ODD if round(besides) % 2 else _EVEN).nearest(exact)


@dataclass(frozen=True, slots=True)
class Repeats(Expr):
    """Whole repeats in so many rows of a pattern, as `RowRule.repeats` has it."""

    rows: Expr
    rule: RowRule

    @property
    def parts(self) -> tuple[Expr, ...]:
        """The rows."""
        return (self.rows,)

    def whole(self, rows: Numbers) -> Numbers:
        """The repeats in that number of rows."""
        return self.rule.repeats(rows)


@dataclass(frozen=True)
class Formula(Expr):
    """A tree that is worked out for itself: in the arithmetic of others only its result is written."""

    expr: Expr
    unit: str = "cm"

    @property
    def parts(self) -> tuple[Expr, ...]:
        """The tree."""
        return (self.expr,)

    @cached_property
    def needs(self) -> frozenset[str]:
        """The counts it depends on."""
        return _names(self)

    @cached_property
    def slopes(self) -> Mapping[str, float]:
        """How much it grows with each count of which it is a sum; picked-up stitches are a count there.

        Of repeats it is what a row adds of them, from one whole number of them to the next.

        Raises:
            ValueError: it is no such sum.
        """
        return _slopes(self.expr)

    @cached_property
    def _bent(self) -> frozenset[str]:
        """The counts on which picked-up stitches depend."""
        picked = (each for each in self.walk() if isinstance(each, PickedUp))
        return frozenset[str]().union(*map(_names, picked))

    @cached_property
    def _stepped(self) -> Mapping[str, RowRule]:
        """The counts of rows of which only whole repeats are counted."""
        repeats = (each for each in self.walk() if isinstance(each, Repeats))
        return {name: each.rule for each in repeats for name in _names(each)}

    def at(self, counts: CountValues) -> Numbers:
        """The value; `KeyError` where a count of it is missing."""
        return value_of(self.expr, counts)

    def runs_straight(self, name: str) -> bool:
        """Whether it grows evenly with that count, or with its whole repeats."""
        return name in self.slopes and name not in self._bent

    def solved(self, name: str, counts: CountValues, low: Numbers, high: Numbers) -> tuple[Numbers, Numbers]:
        """The span of a count in which the value lies between ``low`` and ``high``; it runs straight.

        Of rows of which only whole repeats are counted it is a repeat wider at either end.
        """
        slope, stepped = self.slopes[name], self._stepped.get(name)
        start, wider = (stepped.rule.plus, stepped.repeat) if stepped else (0, 0)
        rest = self.at({**counts, name: start}) - slope * start
        ends = (low - rest) / slope, (high - rest) / slope
        first, last = ends if slope > 0 else ends[::-1]
        return first - wider, last + wider


@dataclass(frozen=True)
class Measure(Formula):
    """A measurement: its stable key, its name, and its count where it has one.

    ``source`` says what the arithmetic does, or how the count follows from others; a tree in it is written as
    its arithmetic. ``fabric`` names the fabric that is counted. A ``finished`` one is printed in patterns; an
    intent can be stated for one that is ``intended``. Grading sets it by the count ``graded_by``, or by its
    own where that is a count of the spec. A ``loose`` one ties counts together that otherwise have nothing to
    do with each other.
    """

    key: str = ""
    name: str = ""
    source: str | tuple[str | Expr, ...] = ""
    count: Expr | None = None
    counted: Counted | None = None
    fabric: str | None = None
    finished: bool = False
    intended: bool = False
    graded_by: str = ""
    loose: bool = False


def counted(
    key: str,
    name: str,
    count: Expr,
    of: Counted,
    fabric: Fabric,
    source: str = "",
    *,
    intended: bool = True,
    graded_by: str = "",
) -> Measure:
    """A finished measurement that is one count of one fabric."""
    return Measure(
        Laid(count, of, fabric), key=key, name=name, source=source, count=count, counted=of,
        fabric=fabric.name, finished=True, intended=intended, graded_by=graded_by,
    )  # fmt: skip


def total(exprs: Iterable[Expr]) -> Expr:
    """All of them added up; there is at least one."""
    return reduce(lambda one, other: one + other, exprs)


def squared(of: Expr) -> Op:
    """The square."""
    return Op("²", (of,))


def root(of: Expr) -> Op:
    """The square root."""
    return Op("√", (of,))


def sine(angle: Expr) -> Op:
    """The sine of an angle in degrees."""
    return Op("sin", (angle,))


def cosine(angle: Expr) -> Op:
    """The cosine of an angle in degrees."""
    return Op("cos", (angle,))


def arc_tangent(ratio: Expr) -> Op:
    """The angle of that tangent, in degrees."""
    return Op("atan", (ratio,))


def arc_cosine(ratio: Expr) -> Op:
    """The angle of that cosine, in degrees."""
    return Op("acos", (ratio,))


def slope(across: Operand, down: Operand) -> Op:
    """The straight distance that goes so far across and so far down."""
    return Op("slope", (node(across), node(down)))


PI = Op("π", ())

SIGNS = ("+", "-", "*", "/")
"""Operations that Python writes alike."""

_WORK: Mapping[str, Callable[..., Numbers]] = {
    "+": add,
    "-": sub,
    "*": mul,
    "/": truediv,
    "min": lambda *values: reduce(np.minimum, values),
    "max": lambda *values: reduce(np.maximum, values),
    "²": lambda value: value**2,
    "√": lambda value: np.sqrt(np.maximum(value, 0.0)),
    "sin": lambda angle: np.sin(np.radians(angle)),
    "cos": lambda angle: np.cos(np.radians(angle)),
    "atan": lambda ratio: np.degrees(np.arctan(ratio)),
    "acos": lambda ratio: np.degrees(np.arccos(ratio)),
    "slope": np.hypot,
    "π": lambda: math.pi,
}


def worked_out(word: str, *values: Numbers) -> Numbers:
    """What an operation comes to; of ``+ - * /`` the values may be anything that has them."""
    return _WORK[word](*values)


def value_of(expr: Expr, counts: CountValues) -> Numbers:
    """What the tree comes to; `KeyError` where a count of it is missing."""
    return _VALUES[type(expr)](expr, counts)


_VALUES: Mapping[type[Expr], Callable[[Any, CountValues], Numbers]] = {
    Count: lambda expr, counts: counts[expr.name],
    Laid: lambda expr, counts: expr.length_cm(value_of(expr.count, counts)),
    Op: lambda expr, counts: worked_out(expr.word, *(value_of(each, counts) for each in expr.args)),
    Const: lambda expr, _: expr.value,
    Given: lambda expr, _: expr.value,
    Formula: lambda expr, counts: value_of(expr.expr, counts),
    Measure: lambda expr, counts: value_of(expr.expr, counts),
    Repeats: lambda expr, counts: expr.whole(value_of(expr.rows, counts)),
    PickedUp: lambda expr, counts: expr.nearest(value_of(expr.along, counts), value_of(expr.besides, counts)),
}


def values_of(exprs: Iterable[Expr]) -> Callable[[CountValues], tuple[Numbers, ...]]:
    """Several trees as one function, compiled: what `value_of` gives for each."""
    work: Callable[[CountValues], tuple[Numbers, ...]] = _Source().function(*exprs, together=True)
    return work


class _Source(FunctionText):
    """Trees of counts."""

    def __init__(self) -> None:
        super().__init__("counts", {})

    def plain(self, expr: Expr) -> str:
        """The node worked out."""
        match expr:
            case Count(name):
                return self.set(f"counts[{name!r}]")
            case Const(value) | Given(value):
                return repr(value)
            case Formula():
                return self.local(expr.expr)
            case Laid():
                return self.set(f"{self.kept(expr.length_cm)}({self.local(expr.count)})")
            case Repeats():
                return self.set(f"{self.kept(expr.whole)}({self.local(expr.rows)})")
            case PickedUp():
                along, besides = map(self.local, expr.parts)
                return self.set(f"{self.kept(expr.nearest)}({along}, {besides})")
            case Op(word, (one, other)) if word in SIGNS:
                return self.set(f"{self.local(one)} {word} {self.local(other)}")
            case Op(word, args):
                return self.set(f"{self.kept(_WORK[word])}({', '.join(map(self.local, args))})")
        raise TypeError(f"{expr!r} cannot be evaluated")


def _names(expr: Expr) -> frozenset[str]:
    return frozenset(each.name for each in expr.walk() if isinstance(each, Count))


def _slopes(expr: Expr) -> dict[str, float]:
    match expr:
        case Count(name):
            return {name: 1.0}
        case PickedUp():
            return {f"picked up by {', '.join(sorted(_names(expr)))}": 1.0}
        case Repeats(rows, rule):
            return {name: each / rule.repeat for name, each in _slopes(rows).items()}
        case Laid(count):
            return {name: expr.length_cm(each) for name, each in _slopes(count).items()}
        case Formula():
            return _slopes(expr.expr)
        case Op("+" | "-", (one, other)):
            sign, slopes = (1.0 if expr.word == "+" else -1.0), _slopes(one)
            for name, each in _slopes(other).items():
                slopes[name] = slopes.get(name, 0.0) + sign * each
            return {name: each for name, each in slopes.items() if each}
        case Op("*" | "/", (one, other)) if not _names(other):
            times = worked_out(expr.word, 1.0, value_of(other, {}))
            return {name: each * times for name, each in _slopes(one).items()}
        case Op("*", (one, other)):
            return _slopes(other * value_of(one, {}))
        case _ if not _names(expr):
            return {}
    raise ValueError(f"{expr!r} is no sum of counts")
