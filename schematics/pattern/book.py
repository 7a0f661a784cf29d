"""What every section of the figures is made from."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TypeVar

from schematics.checks.evaluation import Result
from schematics.crochet.terms import Terms
from schematics.design.design import Design
from schematics.garment.garment import Garment, Piece

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """A design in the sizes asked for, at least one, and whose stitch names to use."""

    design: Design
    results: tuple[Result, ...]
    terms: Terms

    @property
    def names(self) -> tuple[str, ...]:
        """The sizes' names."""
        return tuple(result.size.name for result in self.results)

    def each(self, figure: Callable[[Garment], T]) -> tuple[T, ...]:
        """One value of every size."""
        return tuple(figure(result.garment) for result in self.results)

    def keys(self, of: Callable[[Garment], Iterable[str]]) -> tuple[str, ...]:
        """What the sizes have, each once, in the order it is met."""
        return tuple(dict.fromkeys(key for garment in self.each(lambda each: each) for key in of(garment)))

    def pieces(self) -> tuple[Piece, ...]:
        """The pieces of the first size; all sizes have the same, with other counts."""
        return self.results[0].garment.pieces
