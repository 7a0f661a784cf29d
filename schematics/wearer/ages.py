"""Reading a table of ages between its rows."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeVar

_Entry = TypeVar("_Entry")


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """Low end, typical value and high end in cm at an age, and ``where`` in the table they are."""

    age_years: float
    low_cm: float
    cm: float
    high_cm: float
    where: str


def read_at(
    readings: Sequence[Reading], age_years: float, scale: Callable[[float], float] = float
) -> Reading:
    """The reading at an age, straight between its two neighbours, held level beyond the ends.

    Args:
        readings: at least one, ages rising.
        age_years: the age wanted.
        scale: rising function of age in which the line is straight; age itself unless given.

    Returns:
        A reading at ``age_years``, or the end reading itself beyond the ends; its ``where`` names
        both neighbours when it lies between them.
    """
    index, share = place(readings, scale(age_years), lambda reading: scale(reading.age_years))
    first = readings[index]
    if share == 0:
        return first
    second = readings[index + 1]
    return Reading(
        age_years=age_years,
        low_cm=first.low_cm + share * (second.low_cm - first.low_cm),
        cm=first.cm + share * (second.cm - first.cm),
        high_cm=first.high_cm + share * (second.high_cm - first.high_cm),
        where=f"between {first.where} and {second.where}",
    )


def place(rising: Sequence[_Entry], value: float, number: Callable[[_Entry], float]) -> tuple[int, float]:
    """Where a value lies in a sequence whose entries' numbers rise.

    Returns:
        The index of the entry at or below it and the share of the way to the next, at least 0 and
        below 1; the first or last index and 0 beyond the ends.
    """
    after = bisect_right(rising, value, key=number)
    if after == 0 or after == len(rising):
        return max(after - 1, 0), 0.0
    start, end = number(rising[after - 1]), number(rising[after])
    return after - 1, (value - start) / (end - start)
