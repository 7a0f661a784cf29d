"""Sums as a technical editor writes them: each knows its text and its value, and they cannot part.

Text is meant for a pocket calculator set to degrees: ``+ - × /``, brackets, ``√(...)``, ``²``, ``π``,
``sin``, ``cos``, ``atan``, ``acos``, and ``the smaller of (..., ...)``. Units follow their numbers.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum

DEGREES = "°"

DECIMALS = 4
"""A result that goes into another sum is written with so many decimals."""


class _Binds(IntEnum):
    """How tightly the parts of a text hold together."""

    SUM = 0
    PRODUCT = 1
    WHOLE = 2


@dataclass(frozen=True, slots=True)
class Sum:
    """One sum: ``text`` is how it is written, ``value`` what it comes to, exactly.

    >>> hem = number(150, "sts") / (number(19, "sts") / number(20, "cm"))
    >>> hem.text, round(hem.value, 2)
    ('150 sts / (19 sts / 20 cm)', 157.89)
    """

    text: str
    value: float
    binds: _Binds = _Binds.WHOLE

    def __add__(self, other: Sum) -> Sum:
        return Sum(f"{self.text} + {other.text}", self.value + other.value, _Binds.SUM)

    def __sub__(self, other: Sum) -> Sum:
        return Sum(f"{self.text} - {other._held(_Binds.PRODUCT)}", self.value - other.value, _Binds.SUM)

    def __mul__(self, other: Sum) -> Sum:
        text = f"{self._held(_Binds.PRODUCT)} × {other._held(_Binds.WHOLE)}"
        return Sum(text, self.value * other.value, _Binds.PRODUCT)

    def __truediv__(self, other: Sum) -> Sum:
        text = f"{self._held(_Binds.PRODUCT)} / {other._held(_Binds.WHOLE)}"
        return Sum(text, self.value / other.value, _Binds.PRODUCT)

    @property
    def is_number(self) -> bool:
        """Whether it is a single number."""
        return self.binds is _Binds.WHOLE and not self.text.endswith((")", "²"))

    def squared(self) -> Sum:
        """The square: ``(2 cm)²``."""
        return Sum(f"({self.text})²", self.value**2)

    def _held(self, least: _Binds) -> str:
        return self.text if self.binds >= least else f"({self.text})"


def number(value: float, unit: str = "") -> Sum:
    """A number as it is written in the spec, with its unit.

    >>> number(19.5, "sts").text, number(6).text
    ('19.5 sts', '6')
    """
    return Sum(shown(value, unit, 10), float(value))


def result(value: float, unit: str) -> Sum:
    """An earlier result, to `DECIMALS`; the sum goes on with its exact value."""
    text = shown(value, unit)
    return Sum(f"({text})" if text.startswith("-") else text, value)


def shown(value: float, unit: str, decimals: int = DECIMALS) -> str:
    """A number with its unit, to so many decimals, without noughts at the end."""
    digits = _digits(value, decimals)
    return f"{digits}{unit}" if unit == DEGREES else f"{digits} {unit}".rstrip()


def _digits(value: float, decimals: int) -> str:
    digits = f"{round(value, decimals) + 0.0:.{decimals}f}"
    return digits.rstrip("0").rstrip(".") if decimals else digits
