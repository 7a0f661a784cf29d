"""The trade's way of writing one figure for every size: ``42 (46, 50, 55)``."""

from __future__ import annotations

from collections.abc import Sequence


def size_string(figures: Sequence[str]) -> str:
    """The first size's figure, then the others' in brackets.

    >>> size_string(["42", "46", "50"])
    '42 (46, 50)'
    >>> size_string(["42"])
    '42'
    """
    first, *others = figures
    return f"{first} ({', '.join(others)})" if others else first
