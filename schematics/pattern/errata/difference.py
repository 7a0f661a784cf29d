"""What of a changed line has to be quoted, so that nothing else can be meant."""

from __future__ import annotations

import re
from collections.abc import Sequence

_ENDS = re.compile(r"(?<=[,.;]) ")


def difference(old: str, new: str) -> tuple[str, str]:
    """The phrases that differ, with so many beside them that the old ones stand in the old line once.

    >>> difference("Ch 2, 3 hdc, inc, 3 hdc, turn.", "Ch 2, 3 hdc, inc, 4 hdc, turn.")
    ('inc, 3 hdc', 'inc, 4 hdc')
    """
    before, after = _phrases(old), _phrases(new)
    shorter = min(len(before), len(after))
    first = next((at for at in range(shorter) if before[at] != after[at]), shorter)
    last = next((at for at in range(shorter - first) if before[-1 - at] != after[-1 - at]), shorter - first)
    while True:
        read = tuple(_joined(each[first : len(each) - last]) for each in (before, after))
        if read[0] and read[1] and old.count(read[0]) == 1:
            return _bared(old, *read)
        if first:
            first -= 1
        elif last:
            last -= 1
        else:
            return old, new


def _joined(phrases: Sequence[str]) -> str:
    return " ".join(phrases)


def _bared(line: str, old: str, new: str) -> tuple[str, str]:
    """Both without the mark they end with, if that leaves the old one in the line once."""
    if old[-1] == new[-1] and old[-1] in ",.;" and len(old) > 1 < len(new) and line.count(old[:-1]) == 1:
        return old[:-1], new[:-1]
    return old, new


def _phrases(text: str) -> list[str]:
    """The text parted after commas and stops, but not within brackets."""
    phrases: list[str] = []
    depth = 0
    for part in _ENDS.split(text):
        if depth > 0:
            phrases[-1] += f" {part}"
        else:
            phrases.append(part)
        depth += sum(part.count(each) for each in "([") - sum(part.count(each) for each in ")]")
    return phrases
