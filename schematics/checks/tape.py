"""Lengths in words, in the unit a design is worked in: as on a tape, and never against a verdict.

A verdict is reached on exact values. The words then round as coarsely as they can without
contradicting it: a difference that decides something is never rounded away.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TypeAlias

from schematics.units import (
    HAIR,
    NEAR,
    AnyGrain,
    Grain,
    Unit,
    finer_of,
    printed,
    printed_rounded,
    round_half_up,
    step_of,
)

LESS_THAN = "less than {length}"
"""How a gap is printed that rounds to nothing at the finest step."""

Grains: TypeAlias = tuple[AnyGrain, AnyGrain]
"""Those of two lengths that are held against each other."""

AS_MEASURED: Grains = (Grain.USUAL, Grain.USUAL)
_TELL_APART: Grains = (Grain.FINE, Grain.FINE)


@dataclass(frozen=True, slots=True)
class Compared:
    """Two lengths and how far they are apart, in words that agree with each other."""

    first: str
    second: str
    gap: str


@dataclass(frozen=True, slots=True)
class Tape:
    """Writes lengths, given in cm, in one unit.

    >>> Tape(Unit.CM).length(58.46), Tape(Unit.IN).length(58.46), Tape(Unit.IN).length(58.46, Grain.COARSE)
    ('58.5 cm', '23 in', '23 in')
    """

    unit: Unit

    def length(self, length_cm: float, grain: AnyGrain = Grain.USUAL) -> str:
        """A length as printed, to 0.1 cm or 1/8 in, or in another grain."""
        return printed(length_cm, self.unit, grain)

    def at_least(self, length_cm: float) -> str:
        """Like `length`, but rounded up.

        >>> Tape(Unit.CM).at_least(1.52), Tape(Unit.IN).at_least(1.52)
        ('1.6 cm', '5/8 in')
        """
        step_cm = self.unit.to_cm(step_of(self.unit, Grain.USUAL))
        return self.length(math.ceil(length_cm / step_cm - HAIR) * step_cm)

    def is_nought(self, length_cm: float) -> bool:
        """Whether `length` would print nought.

        >>> Tape(Unit.CM).is_nought(0.06), Tape(Unit.IN).is_nought(-0.06)
        (False, True)
        """
        return round_half_up(self.unit.from_cm(length_cm), step_of(self.unit, Grain.USUAL)) == 0

    def more_than_nought(self, length_cm: float) -> str:
        """Like `length`, but what would print nought is less than a step.

        >>> Tape(Unit.CM).more_than_nought(0.06), Tape(Unit.IN).more_than_nought(0.06)
        ('0.1 cm', 'less than 1/8 in')
        """
        if not self.is_nought(length_cm):
            return self.length(length_cm)
        step = step_of(self.unit, Grain.USUAL)
        return LESS_THAN.format(length=printed_rounded(step, self.unit, Grain.USUAL))

    def compare(self, first_cm: float, second_cm: float, grains: Grains = AS_MEASURED) -> Compared:
        """Two lengths rounded as by `length`, or finer where that would misstate which is the longer.

        Each is rounded in its own of the ``grains``, else both in the usual one, else in the fine one.
        The gap is that of the rounded lengths, so the three figures add up, and nought only where the lengths
        are equal.

        >>> Tape(Unit.CM).compare(56.0, 52.5)
        Compared(first='56 cm', second='52.5 cm', gap='3.5 cm')
        >>> Tape(Unit.IN).compare(56.0, 52.5)
        Compared(first='22 in', second='20 5/8 in', gap='1 3/8 in')
        >>> Tape(Unit.CM).compare(44.62, 29.3, (Grain.COARSE, Grain.USUAL))
        Compared(first='44.5 cm', second='29.3 cm', gap='15.2 cm')
        """
        unit, lengths = self.unit, (first_cm, second_cm)
        longer = _sign(first_cm - second_cm, HAIR)
        for tried in (grains, AS_MEASURED, _TELL_APART):
            one, other = (
                round_half_up(unit.from_cm(cm), step_of(unit, grain))
                for cm, grain in zip(lengths, tried, strict=True)
            )
            if _sign(one - other, NEAR) == longer:
                gap = printed_rounded(abs(one - other), unit, finer_of(*tried))
                break
        else:
            gap = LESS_THAN.format(length=printed_rounded(step_of(unit, Grain.FINE), unit, Grain.FINE))
        return Compared(printed_rounded(one, unit, tried[0]), printed_rounded(other, unit, tried[1]), gap)

    def spare(self, garment_cm: float, body_cm: float, ease_cm: float, grains: Grains = AS_MEASURED) -> str:
        """What is to spare for a table: the gap of `compare` with the sign of the exact ``ease_cm``, no unit.

        >>> Tape(Unit.IN).spare(52.5, 56.0, -3.5), Tape(Unit.CM).spare(56.0, 52.5, 3.5)
        ('-1 3/8', '3.5')
        """
        gap = self.compare(garment_cm, body_cm, grains).gap.removesuffix(f" {self.unit}")
        return f"-{gap}" if ease_cm < -HAIR else gap


def _sign(difference: float, nought: float) -> int:
    """1, -1 or, of what is no larger than ``nought``, 0."""
    return 0 if abs(difference) <= nought else 1 if difference > 0 else -1
