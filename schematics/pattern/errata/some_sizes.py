"""Some sizes picked out of a text whose figures are size strings."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache

from schematics.document.chart_words.in_sizes import texts_in_sizes
from schematics.document.document import NONE

_NUMBER = rf"(?:\d+(?: \d+/\d+|/\d+|\.\d+)?|{NONE})"
_SIDE = "(?:RS|WS)"


def in_some(text: str, names: Sequence[str], chosen: Sequence[str]) -> str:
    """The text for the ``chosen`` ones of the sizes its size strings are in the order of.

    >>> in_some("12 (14, 16) sts", ["2", "4", "6"], ["4", "6"])
    '14 (16) sts'
    """
    if len(names) == 1 or tuple(names) == tuple(chosen):
        return text
    places = [names.index(name) for name in chosen]

    def some(match: re.Match[str]) -> str:
        first, others = match[0].removesuffix(")").split(" (")
        figures = [first, *others.split(", ")]
        return texts_in_sizes([figures[place] for place in places])

    return _strings_of(len(names)).sub(some, text)


@cache
def _strings_of(sizes: int) -> re.Pattern[str]:
    """Size strings of so many sizes, two at least."""
    each = (rf"{kind} \({kind}(?:, {kind}){{{sizes - 2}}}\)" for kind in (_NUMBER, _SIDE))
    return re.compile(rf"(?<![\w./])(?:{'|'.join(each)})")


def named(words: str, names: Sequence[str]) -> tuple[str, ...] | None:
    """The sizes listed in the words, which are in order; None if the words are no list of them.

    >>> named("4, 6 and S", ["2", "4", "6", "S"])
    ('4', '6', 'S')
    """
    matched = []
    for name in names:
        for end in (", ", " and "):
            if words.startswith(name + end):
                matched.append(name)
                words = words[len(name + end) :]
                break
        else:
            if words == name:
                return (*matched, name)
    return None
