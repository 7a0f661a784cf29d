"""Whole numbers in size strings: one number where all sizes share it."""

from __future__ import annotations

from collections.abc import Sequence

from schematics.design.size_string import size_string
from schematics.document.document import NONE

Sized = Sequence[int | None]
"""A number for each size; None where the size does not fit its chart."""


def in_sizes(numbers: Sized) -> str:
    """``12 (16, 20)``; ``12`` where it is the same in all.

    >>> in_sizes([12, 16, 20]), in_sizes([4, 4, 4])
    ('12 (16, 20)', '4')
    """
    return texts_in_sizes([NONE if number is None else str(number) for number in numbers])


def texts_in_sizes(texts: Sequence[str]) -> str:
    """A text for each size as ``12 (16, 20)``; once where it is the same in all."""
    return texts[0] if len(set(texts)) == 1 else size_string(texts)


def not_none(numbers: Sized) -> list[int]:
    """The numbers of the sizes that fit."""
    return [number for number in numbers if number is not None]
