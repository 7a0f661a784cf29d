"""What is written at a measurement: its letter, or its figures in the order of the design's units."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from string import ascii_uppercase

from schematics.checks.evaluation import Result
from schematics.crochet.terms import Terms
from schematics.design.design import Design
from schematics.design.limits import Limits
from schematics.document.lettering.text import PLAIN, Lettering, wrap
from schematics.drawing.ink.marks import Label
from schematics.garment.garment import Finished, Span
from schematics.garment.printed_lengths import finished_figure
from schematics.units import Unit

_NARROW = 20.0

Words = Callable[[Finished, Span, bool], tuple[Label, ...]]
"""What is written at a span, in one or more shapes, best first; the flag says that half of it is drawn."""


_LETTERS = ascii_uppercase.replace("I", "").replace("O", "")
"""I is read as a line or as 1, O as 0 (common practice, no source)."""


def measurement_letters(results: Sequence[Result]) -> dict[str, str]:
    """A letter for every measurement that is drawn, by its key, in the order of the finished measurements.

    None that a seam has in any of the sizes: a letter means one thing in a pattern.
    """
    drawn = {span.key for result in results for piece in result.garment.pieces for span in piece.spans}
    keys = [item.key for item in results[0].garment.finished if item.key in drawn]
    seams = {seam.letter for result in results for seam in result.garment.seams}
    names = [each for each in (*_LETTERS, *(a + b for a in _LETTERS for b in _LETTERS)) if each not in seams]
    return dict(zip(keys, names, strict=False))


def counted_words(item: Finished) -> str:
    """The count with its unit, ``1 row`` or ``14 sts``."""
    unit = item.counted or ""
    return f"{item.count} {unit.removesuffix('s') if item.count == 1 else unit}"


@dataclass(frozen=True, slots=True)
class Wording:
    """How a sheet words things: stitches in those ``terms``, lengths in the first of the ``units`` first.

    By the ``limits`` two edges of a seam end level or not.
    """

    terms: Terms = Terms.US
    units: tuple[Unit, ...] = tuple(Unit)
    limits: Limits = field(default_factory=Limits)


def wording_of(design: Design) -> Wording:
    """The wording of a design's sheets."""
    return Wording(design.terms, design.units, design.limits)


@dataclass(frozen=True, slots=True)
class FiguresLook:
    """How figures are lettered: in which ``units``, the first one first, with ``counts``, and how."""

    units: tuple[Unit, ...]
    counts: bool = True
    lettering: Lettering = PLAIN

    def lengths(self, item: Finished) -> list[str]:
        """The length in each unit: ``42 cm``, ``16 1/2 in``."""
        return [f"{finished_figure(item, unit)} {unit}" for unit in self.units]

    def count(self, item: Finished) -> str:
        """The count, empty where none is printed."""
        return counted_words(item) if self.counts and item.count is not None else ""

    def labels(self, item: Finished, span: Span, halved: bool) -> tuple[Label, ...]:
        """The figures of a finished measurement, a line for each unit or, narrower, in more lines."""
        first, *others = lengths = self.lengths(item)
        count = self.count(item)
        counted = f" ({count})" if count else ""
        last = (count,) if count else ()
        wide, narrow = ((), ()) if not span.whole_edge else ((item.name,), self._narrow(item.name))
        if halved:
            others = [f"half of {each}" for each in others]
            lines = (*wide, f"half of {first}{counted}", *others), (*narrow, "half of", *lengths, *last)
        else:
            lines = (*wide, f"{first}{counted}", *others), (*narrow, *lengths, *last)
        return tuple(Label.lettered(each, self.lettering) for each in lines)

    def _narrow(self, words: str) -> tuple[str, ...]:
        return tuple(wrap(words, _NARROW, self.lettering.height, font=self.lettering.font))
