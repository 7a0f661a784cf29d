"""What every section of the figures is made from, and the forms that several sections share."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from schematics.checks.evaluation import Result
from schematics.crochet.fabric import Fabric
from schematics.crochet.terms import Terms
from schematics.design.design import Design
from schematics.document.document import Figure, Table, count_figure
from schematics.garment.garment import Garment, Piece

T = TypeVar("T")
U = TypeVar("U")


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """A design in the sizes asked for, at least one, and whose stitch names to use.

    ``drawn`` says whether its drawings are in it.
    """

    design: Design
    results: tuple[Result, ...]
    terms: Terms
    drawn: bool = True

    @property
    def names(self) -> tuple[str, ...]:
        """The sizes' names."""
        return tuple(result.size.name for result in self.results)

    @property
    def garments(self) -> tuple[Garment, ...]:
        """The garment of every size."""
        return tuple(result.garment for result in self.results)

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """The pieces of the first size; all sizes have the same, with other counts."""
        return self.garments[0].pieces

    @property
    def fabrics(self) -> tuple[Fabric, ...]:
        """Every fabric of the pieces and of the body's borders, each once."""
        parts = self.design.parts
        borders = (border.fabric(parts.body) for border in parts.borders)
        return tuple(dict.fromkeys((*(piece.fabric for piece in self.pieces), *borders)))

    def keys(self, of: Callable[[Garment], Iterable[str]]) -> tuple[str, ...]:
        """What the sizes have, each once, in the order it is met."""
        return tuple(dict.fromkeys(key for garment in self.garments for key in of(garment)))

    def count(self, key: str, name: str, unit: str, of: Callable[[Garment], int]) -> Figure:
        """A whole number in every size, taken from its garment."""
        return count_figure(key, name, unit, map(of, self.garments))

    def size_table(
        self, caption: str, header: tuple[str, ...], figures: Sequence[Figure], shown: Sequence[object]
    ) -> Table:
        """A row for each size: its name and these figures of it; none where ``shown`` has None for it."""
        rows = [
            (name, *(figure.text(index) for figure in figures))
            for index, name in enumerate(self.names)
            if shown[index] is not None
        ]
        return Table(caption=caption, header=header, rows=tuple(rows))


def figure_table(caption: str, header: tuple[str, str], figures: Iterable[Figure]) -> Table:
    """A row for each figure: its name, and its values in all sizes."""
    return Table(caption=caption, header=header, rows=tuple((figure.name, figure) for figure in figures))


def if_any(items: Iterable[T | None], value: Callable[[T], U]) -> list[U | None]:
    """The value of each item; None for one that is None."""
    return [None if item is None else value(item) for item in items]
