"""Truths as margins: trees of numbers that are over nought where a comparison is true."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import reduce
from operator import add
from typing import Any

import numpy as np

from schematics.wearer.events import Event, all_of, any_of
from schematics.wearer.expr import Const, Expr, Fact, OfBody, Op, Term
from schematics.wearer.normal import Numbers

_FLIPPED = {"min": "max", "max": "min"}


@dataclass(frozen=True, slots=True)
class Truth:
    """``word`` is ``and``, ``or``, or nothing for one comparison: that of the margin in that ``place``."""

    word: str = ""
    parts: tuple[Truth, ...] = ()
    place: int = 0

    @property
    def places(self) -> frozenset[int]:
        """The places of the margins it is about."""
        if not self.word:
            return frozenset({self.place})
        return frozenset[int]().union(*(each.places for each in self.parts))

    def event(self, margins: Sequence[Event] | Mapping[int, Event]) -> Event:
        """The event that it is true, from those of the margins."""
        if not self.word:
            return margins[self.place]
        return (all_of if self.word == "and" else any_of)([each.event(margins) for each in self.parts])

    def between(self, least: Sequence[Numbers], most: Sequence[Numbers]) -> tuple[Numbers, Numbers]:
        """The least and the most its chance can be, from those of each margin, whatever goes with what.

        References:
            G. Boole: An Investigation of the Laws of Thought, 1854; M. Frechet 1935 (both from memory).
        """
        if not self.word:
            return least[self.place], most[self.place]
        lows, highs = zip(*(each.between(least, most) for each in self.parts), strict=True)
        if self.word == "or":
            return reduce(np.maximum, lows), reduce(add, highs)
        return reduce(add, lows) - (len(lows) - 1), reduce(np.minimum, highs)

    def largest(self, margins_cm: Sequence[Numbers]) -> Numbers:
        """By how much it is true, or lacks that if below nought, by how much each margin is over nought."""
        if not self.word:
            return margins_cm[self.place]
        return reduce(
            np.maximum if self.word == "or" else np.minimum,
            [each.largest(margins_cm) for each in self.parts],
        )

    def json(self) -> Any:
        """The truth as plain JSON values: the place of a margin, or ``["and", ...]``, ``["or", ...]``."""
        return [self.word, *(each.json() for each in self.parts)] if self.word else self.place


class Margins:
    """The margins of truths, each once, with nothing in it that is the smallest or largest of several.

    ``definitions`` are the trees that facts are short for.
    """

    def __init__(self, definitions: Mapping[str, Expr]) -> None:
        self._definitions, self._places = definitions, dict[Expr, int]()

    @property
    def trees(self) -> tuple[Expr, ...]:
        """The margins by their places."""
        return tuple(self._places)

    def truth(self, tree: Expr) -> Truth:
        """A truth over the margins.

        Raises:
            TypeError: the tree is no truth.
        """
        match tree:
            case Op("and" | "or" as word, parts):
                return Truth(word, tuple(map(self.truth, parts)))
            case Op("<" | "<=", (smaller, larger)):
                return self._over(self._outward(larger if smaller == Const(0.0) else larger - smaller))
        raise TypeError(f"{tree!r} is no truth")

    def _over(self, length: Expr) -> Truth:
        match length:
            case Op("min" | "max" as word, parts):
                return Truth("and" if word == "min" else "or", tuple(map(self._over, parts)))
        return Truth(place=self._places.setdefault(length, len(self._places)))

    def _outward(self, tree: Expr) -> Expr:
        """The same number; what is the smallest or largest of several in it is so of all of it."""
        match tree:
            case Fact(name) if name in self._definitions:
                return self._outward(self._definitions[name])
            case Term(_, inner):
                outward = self._outward(inner)
                return outward if _chooses(outward) else tree
            case Op("min" | "max" as word, parts):
                return Op(word, tuple(map(self._outward, parts)))
            case Op("+" | "-" | "*" | "/" as word, (one, other)):
                one, other = self._outward(one), self._outward(other)
                if _chooses(one) and (grows := word in "+-" or _sign(other)):
                    return self._chosen(one, lambda each: Op(word, (each, other)), grows)
                if _chooses(other) and (grows := {"+": 1, "-": -1, "*": _sign(one)}.get(word, 0)):
                    return self._chosen(other, lambda each: Op(word, (one, each)), grows)
                return Op(word, (one, other))
        return tree

    def _chosen(self, choice: Expr, put: Callable[[Expr], Expr], grows: int) -> Expr:
        """What is made of each of several; of what shrinks with them the smallest is of their largest."""
        assert isinstance(choice, Op)
        word = choice.word if grows > 0 else _FLIPPED[choice.word]
        return Op(word, tuple(self._outward(put(each)) for each in choice.args))


def _chooses(tree: Expr) -> bool:
    return isinstance(tree, Op) and tree.word in _FLIPPED


def _sign(tree: Expr) -> int:
    """1 of what is over nought, -1 of what is below it, 0 where that is not known."""
    match tree:
        case OfBody():
            return 1
        case Const(value):
            return (value > 0) - (value < 0)
    return 0
