"""Sums and comparisons as trees that can be evaluated here, over many wearers at once, or in a page.

A tree is over body measurements, facts of a garment and plain numbers. As JSON a node is

- a number, or null for what is none;
- ``{"body": "head_girth", "end": "high"}``: a measurement's low, typical or high end, which of one person
  are alike; without an ``end`` the one that is asked for;
- ``{"fact": "neck.full_cm"}``: a fact of the garment;
- ``{"wearer": "age_years"}``, or ``{"wearer": "adult"}``, which is 1 or 0;
- ``["+", a, b]``, and so with ``-``, ``*`` and ``/``; ``["min", a, ...]``, ``["max", a, ...]``;
- ``["first", a, b]``: ``a``, or ``b`` where ``a`` is unknown;
- ``["table", x, [[x0, y0], ...]]``: straight between its points, level beyond them, x rising; computed as
  ``(y1 - y0) / (x1 - x0) * (x - x0) + y0``;
- ``["<", a, b]``: whether ``b`` exceeds ``a`` by more than `schematics.units.HAIR`; ``["<=", a, b]``: whether
  ``a`` does not exceed ``b`` by more than it;
- ``["and", ...]``, ``["or", ...]``;
- ``["where", truth, a, b]`` and whatever else `schematics.wearer.traced` writes down;
- ``{"term": "girth_cm"}``: a tree that is elsewhere under that name, because it is long or needed often.

What is unknown is not a number, and makes unknown what is computed from it. A comparison with it is
neither true nor false: evaluate the tree twice, taking every such comparison for true and for false; where
both come out alike the truth is certain, else it is unknown.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import Any, TypeAlias, TypeVar

from schematics.wearer.body import Body


class End(StrEnum):
    """Which end of a measurement's spread is meant; a measured wearer's are all the same."""

    LOW = "low"
    TYPICAL = "typical"
    HIGH = "high"

    @property
    def field(self) -> str:
        """Its name in a spread, such as a `schematics.wearer.body.BodyValue`."""
        return "cm" if self is End.TYPICAL else f"{self.value}_cm"


class Expr:
    """A node of a tree; arithmetic signs between nodes and numbers make larger ones."""

    __slots__ = ("_hash",)

    def __add__(self, other: Operand) -> Op:
        return Op("+", (self, node(other)))

    def __sub__(self, other: Operand) -> Op:
        return Op("-", (self, node(other)))

    def __mul__(self, other: Operand) -> Op:
        return Op("*", (self, node(other)))

    def __truediv__(self, other: Operand) -> Op:
        return Op("/", (self, node(other)))

    def __radd__(self, other: float) -> Op:
        return node(other) + self

    def __rsub__(self, other: float) -> Op:
        return node(other) - self

    def __rmul__(self, other: float) -> Op:
        return node(other) * self

    @property
    def parts(self) -> tuple[Expr, ...]:
        """The nodes it is made from."""
        return ()

    def walk(self) -> Iterator[Expr]:
        """This node and all below it."""
        yield self
        for part in self.parts:
            yield from part.walk()


Operand: TypeAlias = Expr | float
_Node = TypeVar("_Node", bound=type[Expr])


def keeps_hash(kind: _Node) -> _Node:
    """A slotted kind of node that hashes what is below it once only."""
    worked_out = kind.__hash__

    def kept(self: Any) -> int:
        try:
            return self._hash  # type: ignore[no-any-return]
        except AttributeError:
            object.__setattr__(self, "_hash", worked_out(self))
            return self._hash  # type: ignore[no-any-return]

    kind.__hash__ = kept  # type: ignore[method-assign]
    return kind


@dataclass(frozen=True, slots=True)
class Const(Expr):
    """A number."""

    value: float


@dataclass(frozen=True, slots=True)
class OfBody(Expr):
    """A body measurement in cm; without an ``end`` the one that is asked for."""

    body: Body
    end: End | None = None


@dataclass(frozen=True, slots=True)
class OfWearer(Expr):
    """What else is known of the wearer: ``age_years``, or ``adult``, 1 or 0."""

    name: str


@dataclass(frozen=True, slots=True)
class Fact(Expr):
    """A fact of the garment, see `schematics.checks.rules.garment_numbers`."""

    name: str


@keeps_hash
@dataclass(frozen=True, slots=True)
class Op(Expr):
    """A sign or word and what it is applied to."""

    word: str
    args: tuple[Expr, ...]

    @property
    def parts(self) -> tuple[Expr, ...]:
        """What the word is applied to."""
        return self.args


@keeps_hash
@dataclass(frozen=True, slots=True)
class Lookup(Expr):
    """Straight between ``points``, x rising; level beyond them."""

    at: Expr
    points: tuple[tuple[Expr, Expr], ...]

    @property
    def parts(self) -> tuple[Expr, ...]:
        """The place at which the table is read, and its points."""
        return (self.at, *(each for point in self.points for each in point))


@keeps_hash
@dataclass(frozen=True, slots=True)
class Term(Expr):
    """A tree under a name of its own."""

    name: str
    expr: Expr

    @property
    def parts(self) -> tuple[Expr, ...]:
        """The tree."""
        return (self.expr,)


def node(operand: Operand) -> Expr:
    """The operand as a node."""
    return operand if isinstance(operand, Expr) else Const(float(operand))


def least(*operands: Operand) -> Op:
    """The smallest of these."""
    return Op("min", tuple(map(node, operands)))


def most(*operands: Operand) -> Op:
    """The largest of these."""
    return Op("max", tuple(map(node, operands)))


def less(smaller: Operand, larger: Operand) -> Op:
    """Whether ``larger`` exceeds ``smaller``."""
    return Op("<", (node(smaller), node(larger)))


def at_most(smaller: Operand, larger: Operand) -> Op:
    """Whether ``smaller`` does not exceed ``larger``."""
    return Op("<=", (node(smaller), node(larger)))


def is_known(number: Expr) -> Op:
    """Whether it is known, where what is unknown is taken for false."""
    return at_most(number, number)


def size_of(number: Expr) -> Op:
    """The number without its sign."""
    return most(number, number * -1.0)


def every(*truths: Expr) -> Op:
    """Whether all of these are true."""
    return Op("and", truths)


def either(*truths: Expr) -> Op:
    """Whether any of these is true."""
    return Op("or", truths)


def over_nought(length: Expr) -> Expr:
    """Whether it is more than nought; of the largest or smallest of several, as far as each is known."""
    match length:
        case Op("max", args):
            return either(*map(over_nought, args))
        case Op("min", args):
            return every(*map(over_nought, args))
    return less(0.0, length)


def first(*operands: Operand) -> Op:
    """The first that is known."""
    return Op("first", tuple(map(node, operands)))


def table(at: Operand, points: Iterable[tuple[Operand, Operand]]) -> Lookup:
    """A table read at ``at``."""
    return Lookup(node(at), tuple((node(x), node(y)) for x, y in points))


def expr_json(expr: Expr) -> Any:
    """The tree as plain JSON values.

    Raises:
        TypeError: a node of it is of no kind that is written down.
    """
    match expr:
        case Const(value):
            return None if math.isnan(value) else int(value) if value.is_integer() else value
        case OfBody(body, end):
            return {"body": body.value, **({} if end is None else {"end": end.value})}
        case OfWearer(name):
            return {"wearer": name}
        case Fact(name):
            return {"fact": name}
        case Term(name):
            return {"term": name}
        case Op(word, args):
            return [word, *map(expr_json, args)]
        case Lookup(at, points):
            return ["table", expr_json(at), [[expr_json(x), expr_json(y)] for x, y in points]]
    raise TypeError(f"{expr!r} is no node")


def with_names(exprs: Iterable[Expr]) -> tuple[Expr, ...]:
    """The same trees; what in them comes more than once goes by a name, which is a number."""
    exprs = tuple(exprs)
    times: dict[Expr, int] = {}

    def count(expr: Expr) -> None:
        times[expr] = times.get(expr, 0) + 1
        if times[expr] == 1:
            for part in expr.parts:
                count(part)

    for expr in exprs:
        count(expr)
    named: dict[Expr, Expr] = {}

    def named_in(expr: Expr) -> Expr:
        if expr not in named:
            new = Op(expr.word, tuple(map(named_in, expr.args))) if isinstance(expr, Op) else expr
            often = times[expr] > 1 and bool(expr.parts)
            named[expr] = Term(str(len(named)), new) if often else new
        return named[expr]

    return tuple(map(named_in, exprs))


def terms(exprs: Iterable[Expr]) -> dict[str, Expr]:
    """The trees that go by a name in any of these, by it; one comes after those it holds itself."""
    named: dict[str, Expr] = {}
    for expr in exprs:
        if isinstance(expr, Term):
            named |= terms([expr.expr])
            named[expr.name] = expr.expr
        else:
            named |= terms(expr.parts)
    return named
