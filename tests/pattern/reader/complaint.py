"""What a reader says who cannot work the text."""

from __future__ import annotations


class CannotWorkError(Exception):
    """The text cannot be worked, or what it prints is not what is in hand: where, and what is wrong."""

    def __init__(self, where: str, what: str) -> None:
        super().__init__(f"{where}: {what}")


def agree(where: str, what: str, printed: int, in_hand: int) -> None:
    """A printed count has to be the one in hand."""
    if printed != in_hand:
        raise CannotWorkError(where, f"{what}: the text says {printed}, in hand are {in_hand}")


def number_in(count: str, where: str) -> int:
    """The number of ``12 sts``."""
    first = count.split()[0]
    if not first.isdecimal():
        raise CannotWorkError(where, f"its count is {first!r}, no number")
    return int(first)
