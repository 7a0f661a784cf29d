"""Reading a table of ages between its rows."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from operator import attrgetter

_AGE = attrgetter("age_years")


@dataclass(frozen=True, slots=True, kw_only=True)
class AgeReading:
    """Low end, typical value and high end in cm at an age, and ``where`` in the table they are."""

    age_years: float
    low_cm: float
    cm: float
    high_cm: float
    where: str

    def times(self, factor: float) -> AgeReading:
        """The reading of a length that is so many times as long."""
        low, cm, high = (factor * each for each in (self.low_cm, self.cm, self.high_cm))
        return replace(self, low_cm=low, cm=cm, high_cm=high)


@dataclass(frozen=True, slots=True, kw_only=True)
class AgeSeries:
    """The readings of one table, from ``from_years`` to ``until_years``; None is without end."""

    readings: tuple[AgeReading, ...]
    from_years: float | None = None
    until_years: float | None = None


def read_at(
    readings: Sequence[AgeReading], age_years: float, scale: Callable[[float], float] = float
) -> AgeReading:
    """The reading at an age, straight between its two neighbours, held level beyond the ends.

    Args:
        readings: at least one, ages rising.
        age_years: the age wanted.
        scale: rising function of age in which the line is straight; age itself unless given.

    Returns:
        A reading at ``age_years``, or the end reading itself beyond the ends; its ``where`` names
        both neighbours when it lies between them.
    """
    after = bisect_right(readings, age_years, key=_AGE)
    first = readings[max(after - 1, 0)]
    if after in (0, len(readings)) or age_years == first.age_years:
        return first
    second = readings[after]
    start = scale(first.age_years)
    share = (scale(age_years) - start) / (scale(second.age_years) - start)
    return AgeReading(
        age_years=age_years,
        low_cm=first.low_cm + share * (second.low_cm - first.low_cm),
        cm=first.cm + share * (second.cm - first.cm),
        high_cm=first.high_cm + share * (second.high_cm - first.high_cm),
        where=f"between {first.where} and {second.where}",
    )
