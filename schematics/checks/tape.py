"""Lengths in words, in the unit a design is worked in: as on a tape, and never against a verdict.

A verdict is reached on exact values. The words then round as coarsely as they can without
contradicting it: a difference that decides something is never rounded away.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from schematics.units import HAIR, Unit, in_fractions, round_half_up

FINE = 0.01
"""Finest step, in either unit."""

LESS_THAN = "less than {length}"
"""How a gap is printed that rounds to nothing at the finest step."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Marks:
    """Steps of a tape, in its unit; a printed gap is no farther than ``error`` from the exact one."""

    coarse: float
    usual: float
    error: float
    parts: int | None = None


MARKS: Mapping[Unit, Marks] = {
    Unit.CM: Marks(coarse=0.5, usual=0.1, error=0.1),
    Unit.IN: Marks(coarse=1 / 4, usual=1 / 8, error=1 / 8, parts=8),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """Two lengths and how far they are apart, in words that agree with each other."""

    first: str
    second: str
    gap: str


@dataclass(frozen=True, slots=True)
class Tape:
    """Writes lengths, given in cm, in one unit.

    >>> Tape(Unit.CM).length(58.46), Tape(Unit.IN).length(58.46), Tape(Unit.IN).length(58.46, coarse=True)
    ('58.5 cm', '23 in', '23 in')
    """

    unit: Unit

    def length(self, length_cm: float, *, coarse: bool = False) -> str:
        """To 0.1 cm or 1/8 in; ``coarse``: to 0.5 cm or 1/4 in."""
        marks = MARKS[self.unit]
        return self._written(length_cm / self.unit.to_cm(1.0), marks.coarse if coarse else marks.usual)

    def at_least(self, length_cm: float) -> str:
        """Like `length`, but rounded up.

        >>> Tape(Unit.CM).at_least(1.52), Tape(Unit.IN).at_least(1.52)
        ('1.6 cm', '5/8 in')
        """
        step = MARKS[self.unit].usual
        return self._written(math.ceil(length_cm / self.unit.to_cm(step) - HAIR) * step, step)

    def compare(self, first_cm: float, second_cm: float, *, coarse: bool = False) -> Compared:
        """Two lengths rounded as by `length`, or finer where that would misstate their difference.

        The gap is that of the rounded lengths, so the three figures add up; it is within 0.1 cm or 1/8 in
        of the exact one, and nought only where the lengths are equal.

        >>> Tape(Unit.CM).compare(56.0, 52.5)
        Compared(first='56.0 cm', second='52.5 cm', gap='3.5 cm')
        >>> Tape(Unit.IN).compare(56.0, 52.5)
        Compared(first='22 in', second='20 5/8 in', gap='1 3/8 in')
        """
        marks, per = MARKS[self.unit], self.unit.to_cm(1.0)
        first, second = first_cm / per, second_cm / per
        gap = abs(first - second)
        equal = abs(first_cm - second_cm) <= HAIR
        for step in ((marks.coarse,) if coarse else ()) + (marks.usual, FINE):
            printed = abs(round_half_up(first, step) - round_half_up(second, step))
            if (printed > step / 2 or equal) and abs(printed - gap) <= marks.error:
                return Compared(
                    first=self._written(first, step),
                    second=self._written(second, step),
                    gap=self._written(printed, step),
                )
        words = self._written(first, FINE), self._written(second, FINE)
        return Compared(
            first=words[0], second=words[1], gap=LESS_THAN.format(length=self._written(FINE, FINE))
        )

    def _written(self, value: float, step: float) -> str:
        parts = MARKS[self.unit].parts
        rounded = round_half_up(value, step)
        if parts is not None and step > FINE:
            return f"{in_fractions(rounded, parts)} {self.unit}"
        return f"{rounded:.{decimals_of(step)}f} {self.unit}"


def decimals_of(step: float) -> int:
    """How many decimals a length has that is rounded to a step of a tape."""
    return 2 if step < 0.1 else 1
